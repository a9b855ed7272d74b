//! The panel beside the court while a match is noted.

use egui::{Button, Key, Label, RichText, TextEdit, Ui};
use standpoint_board::chart::{
    Ends,
    notebook::{Notebook, Step},
};
use standpoint_geometry::{frame::End, player::Wing, situation::Stroke};

use super::{Act, Paper, court, pad, points};
use crate::{
    panels::row,
    theme::{Theme, style},
    words,
};

/// The panel.
pub fn ui(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    prompt(ui, notes, theme, out);
    ui.add_space(theme.m.space.group);
    strokes(ui, notes, theme, out);
    ui.add_space(theme.m.space.item);
    ui.separator();
    about(ui, notes, theme, out);
    ui.separator();
    points::ui(ui, notes, theme, out);
}

/// The question, and the ways round it.
fn prompt(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let step = notes.draft().step();
    ui.label(RichText::new(court::question(step)).text_style(style::figure()));
    let how = match step {
        Step::Contact => "Click it, or press a digit: the half is a keypad; X goes to the other end",
        Step::Landing => "Click beyond the net; a ball in the net just before it",
        _ => "Click, press a digit, or move with the arrows and press Enter; Backspace takes back",
    };
    row::note(ui, theme, how);
    ui.add_space(theme.m.space.small);
    ui.horizontal_wrapped(|ui| {
        let skip = match step {
            Step::Contact => None,
            Step::Landing => Some("Taken from the air"),
            Step::Met => Some("Not met: point over"),
            Step::Stood => Some("Not seen"),
        };
        if let Some(label) = skip
            && ui.add(keyed(label, pad::SKIP)).clicked()
        {
            out.push(Act::Skip);
        }
        let going = notes.open_point().is_some() || notes.draft().contact.is_some();
        if ui.add_enabled(going, keyed("End of the point", pad::END)).clicked() {
            out.push(Act::EndPoint);
        }
        if ui.add_enabled(notes.undo_label().is_some(), Button::new("Take back")).clicked() {
            out.push(Act::Undo);
        }
    });
}

/// A button that says its key.
fn keyed(label: &str, key: Key) -> Button<'static> {
    let mut letters = label.chars();
    let first: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
    Button::new(format!("{first}{}  {}", letters.as_str(), key.name()))
}

/// What is noted of the shot that is begun, or of the last one.
fn noted(notes: &Notebook) -> (Option<Stroke>, Option<Wing>) {
    let draft = notes.draft();
    if draft.contact.is_some() || draft.stroke.is_some() || draft.wing.is_some() {
        return (draft.stroke, draft.wing);
    }
    let last = notes.open_point().and_then(|point| point.shots.last());
    last.map_or((None, None), |shot| (shot.stroke, shot.wing))
}

fn strokes(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let (stroke, wing) = noted(notes);
    row::note(ui, theme, "This shot, where you have time to note it");
    ui.horizontal_wrapped(|ui| {
        for (key, of) in pad::WINGS {
            if ui.add(keyed(words::wing(of), key).selected(wing == Some(of))).clicked() {
                out.push(Act::Wing(of));
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        for (key, of) in pad::STROKES {
            if ui.add(keyed(words::stroke(of), key).selected(stroke == Some(of))).clicked() {
                out.push(Act::Stroke(of));
            }
        }
    });
}

/// Who plays, and what the points belong to.
fn about(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let setup = notes.setup();
    row::row(ui, theme, "Session", |ui| {
        let mut session = notes.session().to_owned();
        let field = TextEdit::singleline(&mut session)
            .align(egui::Align2::LEFT_CENTER)
            .char_limit(60)
            .hint_text("a day, a match, a set")
            .desired_width(f32::INFINITY);
        let response = ui.add(field);
        if response.changed() {
            out.push(Act::Session(session));
        }
        response
    });
    for end in [End::Near, End::Far] {
        let card = setup.card(notes.ends().began(end));
        let level = card.level().map_or("entered by hand", |level| level.label());
        row::figure(ui, theme, &format!("At the {} end", words::end(end)), &format!("{}, {level}", card.name));
    }
    ui.horizontal_wrapped(|ui| {
        let changed = notes.ends() == Ends::Changed;
        if ui.add(Button::new("They change ends").selected(changed)).clicked() {
            out.push(Act::ChangeEnds);
        }
        if ui
            .button("Players of the board")
            .on_hover_text("Take players, court and conditions from the board")
            .clicked()
        {
            out.push(Act::TakeSetup);
        }
    });
    ui.horizontal_wrapped(|ui| {
        let files = [("Open chart…", Paper::Open), ("Save chart…", Paper::Save), ("Import CSV…", Paper::Import)];
        for (label, paper) in files {
            if ui.button(label).clicked() {
                out.push(Act::Ask(paper));
            }
        }
    });
    ui.add(
        Label::new(
            RichText::new("Places by eye are good to half a metre; a digit only to the ninth it names.")
                .small()
                .color(*theme.ui.soft),
        )
        .wrap(),
    );
}
