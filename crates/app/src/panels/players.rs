//! The two players: level, hands, legs.

use egui::{CollapsingHeader, ComboBox, RichText, TextEdit, Ui};
use standpoint_geometry::{BackhandGrip, End, Hand, Level};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    roster,
    theme::{Theme, style},
    widgets::row::{self, Quantity},
};
use standpoint_workbench::{
    chart::{Act, RosterAct},
    edit::{
        Edit, Gesture,
        figures::{GROUPS, PlayerFigure},
    },
    session::Session,
    words,
};

use super::edited;

/// Figures that are shown at once.
const SHOWN: [PlayerFigure; 2] = [PlayerFigure::Reaction, PlayerFigure::TopSpeed];

/// The section: the hitter first.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    let hitter = session.hitter_end();
    for end in [hitter, hitter.other()] {
        ui.push_id(end, |ui| {
            let title = match (end == hitter, end) {
                (true, End::Near) => text("Hitter, near end"),
                (true, End::Far) => text("Hitter, far end"),
                (false, End::Near) => text("Opponent, near end"),
                (false, End::Far) => text("Opponent, far end"),
            };
            ui.label(RichText::new(title).text_style(style::emphasis()));
            card(ui, session, end, theme, out);
        });
        ui.add_space(theme.m.space.item);
    }
}

fn card(ui: &mut Ui, session: &Session, end: End, theme: &Theme, out: &mut Outbox) {
    let card = session.board().card(end);
    let names: Vec<String> = roster::players(ui.ctx()).iter().map(|known| known.name.clone()).collect();
    if !names.is_empty() {
        row::row(ui, theme, text("Roster"), |ui| {
            let known = names.iter().find(|name| **name == card.name);
            let shown = known.cloned().unwrap_or_else(|| text("choose by name").to_owned());
            let combo = ComboBox::from_id_salt("roster").width(ui.available_width()).truncate().selected_text(shown);
            combo
                .show_ui(ui, |ui| {
                    for name in names.iter() {
                        if ui.selectable_label(*name == card.name, name).clicked() {
                            out.push(Action::Chart(Act::Roster(RosterAct::Put(end, name.clone()))));
                        }
                    }
                })
                .response
        });
    }
    row::row(ui, theme, text("Name"), |ui| {
        let mut name = card.name.clone();
        let response = ui.add(
            TextEdit::singleline(&mut name)
                .align(egui::Align2::LEFT_CENTER)
                .char_limit(40)
                .desired_width(f32::INFINITY),
        );
        if response.changed() {
            out.push(Action::Edit(Edit::Name(end, name)));
        }
        if response.lost_focus() {
            out.push(Action::Gesture(Gesture::Seal));
        }
        response
    });
    row::row(ui, theme, text("Level"), |ui| {
        let all: Vec<Option<Level>> = Level::ALL.into_iter().map(Some).collect();
        let name = |level: Option<Level>| level.map_or_else(|| text("Custom"), words::level).to_owned();
        edited(row::choice(ui, "level", card.level(), &all, name), out, |level| {
            Edit::Level(end, level.unwrap_or_default())
        })
    });
    row::row(ui, theme, text("Plays"), |ui| {
        let name = |hand| if hand == Hand::Right { text("right-handed") } else { text("left-handed") }.to_owned();
        edited(row::choice(ui, "hand", card.hand, &[Hand::Right, Hand::Left], name), out, |hand| Edit::Hand(end, hand))
    });
    row::row(ui, theme, text("Backhand"), |ui| {
        let name = |grip| if grip == BackhandGrip::TwoHanded { text("two hands") } else { text("one hand") }.to_owned();
        let all = [BackhandGrip::TwoHanded, BackhandGrip::OneHanded];
        edited(row::choice(ui, "grip", card.grip, &all, name), out, |grip| Edit::Grip(end, grip))
    });
    figures(ui, session, end, theme, out);
    super::habits::ui(ui, session, end, theme, out);
}

/// Reaction and top speed, and under a heading of their own all other figures.
fn figures(ui: &mut Ui, session: &Session, end: End, theme: &Theme, out: &mut Outbox) {
    for figure in SHOWN {
        one(ui, session, (end, figure), theme, out);
    }
    CollapsingHeader::new(text("All figures")).id_salt("all figures").show_unindented(ui, |ui| {
        for (title, group) in GROUPS {
            let rest = group.iter().copied().filter(|figure| !SHOWN.contains(figure));
            ui.push_id(title, |ui| {
                ui.label(RichText::new(text(title)).text_style(style::emphasis()));
                rest.for_each(|figure| one(ui, session, (end, figure), theme, out));
            });
        }
        row::row(ui, theme, text("Bounces"), |ui| {
            let bounces = session.board().card(end).player().bounces;
            let name = |bounces: u8| if bounces > 1 { text("two, in a wheelchair") } else { text("one") }.to_owned();
            edited(row::choice(ui, "bounces", bounces, &[1, 2], name), out, |bounces| Edit::Bounces(end, bounces))
        });
        row::note(
            ui,
            theme,
            text("A figure that is changed makes the player a custom one; a level brings its own back."),
        );
    });
}

fn one(ui: &mut Ui, session: &Session, (end, figure): (End, PlayerFigure), theme: &Theme, out: &mut Outbox) {
    let measured = figure.measured(session.units());
    let (low, high) = measured.range;
    row::row(ui, theme, figure.label(), |ui| {
        let q = Quantity {
            value: figure.of(&session.board().card(end).player()) / measured.unit,
            range: low..=high,
            step: measured.step,
            unit: measured.name,
            figures: measured.figures,
        };
        edited(row::slider(ui, q), out, |value| Edit::Figure(end, figure, value * measured.unit))
    })
    .on_hover_text(figure.hint());
}
