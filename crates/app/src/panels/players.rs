//! The two players: level, hands, legs.

use egui::{ComboBox, RichText, TextEdit, Ui};
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
    edit::{Edit, Gesture},
    session::Session,
    words,
};

use super::edited;

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
    legs(ui, session, end, theme, out);
    super::habits::ui(ui, session, end, theme, out);
}

fn legs(ui: &mut Ui, session: &Session, end: End, theme: &Theme, out: &mut Outbox) {
    let movement = session.board().card(end).player().movement;
    row::row(ui, theme, text("Reaction"), |ui| {
        let q = Quantity { value: movement.reaction_s, range: 0.1..=0.8, step: 0.01, unit: "s", figures: 2 };
        edited(row::slider(ui, q), out, |s| Edit::Reaction(end, s))
    });
    row::row(ui, theme, text("Top speed"), |ui| {
        let q = Quantity { value: movement.v_max, range: 2.0..=10.0, step: 0.1, unit: "m/s", figures: 1 };
        edited(row::slider(ui, q), out, |v| Edit::TopSpeed(end, v))
    });
}
