//! The panel beside the court while a match is noted.

use egui::{Button, Label, RichText, ScrollArea, Ui};
use standpoint_board::chart::Ends;
use standpoint_charting::notebook::{At, Notebook, ShotPlace};
use standpoint_geometry::{End, Stroke, Wing};
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::{Theme, focus::Following as _, style},
    widgets::{ends, row},
};
use standpoint_workbench::{
    chart::{Act, ChartFile, RosterAct},
    words,
};

use super::{
    clock, edit, keys, live,
    note_bits::{NoteView, field, keyed, strokes},
    pad, points, questions,
};

/// The least height of the list of points.
const POINTS: f32 = 150.0;
/// The same in a panel that has room for little more than what is pressed all the time, and the height of such a panel.
const FEW_POINTS: f32 = 104.0;
const SHORT: f32 = 700.0;
/// Height of the line that says that there are none.
const NO_POINTS: f32 = 48.0;

/// A panel lower than this is a low one.
const LOW: f32 = 640.0;

/// The panel.
pub fn ui(ui: &mut Ui, view: &NoteView<'_>, pad: &mut pad::Pad, out: &mut Vec<Act>) {
    let (notes, theme) = (view.notes, view.theme);
    // The list of points keeps its least height.
    let whole = ui.available_height();
    let points = match notes.chart().points.is_empty() {
        true => NO_POINTS,
        false if whole < SHORT => FEW_POINTS,
        false => POINTS,
    };
    // In a low window nothing is said about points before there are any.
    let quiet = notes.chart().points.is_empty() && whole < LOW;
    let above = if quiet { whole } else { (whole - points).max(120.0) };
    ScrollArea::vertical().id_salt("noting").max_height(above).auto_shrink([false, true]).show_following(ui, |ui| {
        if let Some((at, shot)) = notes.picked() {
            return edit::ui(ui, view, at, shot, pad, out);
        }
        let mut asked = Vec::new();
        ends::row(ui, "how it is noted", |ui| live::choice(ui, notes, out), |ui| files(ui, notes, &mut asked));
        out.append(&mut asked);
        ui.add_space(theme.m.space.small);
        match notes.live() {
            Some(_) => live::ui(ui, view, out),
            None => prompt(ui, notes, theme, out),
        }
        ui.add_space(theme.m.space.group);
        row::note(ui, theme, text("This shot, where you have time to note it"));
        strokes(ui, noted(notes), out);
        if let Some(of) = notes.live() {
            ui.add_space(theme.m.space.small);
            live::positions(ui, of, out);
        }
        ui.add_space(theme.m.space.item);
        ui.separator();
        clock::ui(ui, &view.clock, notes, theme, out);
        if notes.live().is_some() {
            live::settings(ui, notes, theme, out);
        }
        ui.separator();
        about(ui, notes, theme, out);
    });
    if !quiet {
        ui.separator();
        points::ui(ui, notes, theme, out);
    }
}

/// What is done with the notes as a whole, where no length of the panel hides it.
fn files(ui: &mut Ui, notes: &Notebook, out: &mut Vec<Act>) {
    ui.menu_button(text("File"), |ui| {
        let files = [
            (text("Open chart…"), ChartFile::Open),
            (text("Save chart…"), ChartFile::Save),
            (text("Import CSV…"), ChartFile::Import),
            (text("Season…"), ChartFile::Season),
        ];
        for (label, paper) in files {
            if ui.button(label).clicked() {
                out.push(Act::Ask(paper));
            }
        }
        ui.separator();
        let there = notes.shots() > 0;
        let log = Button::new(text("Enter in the roster"));
        if ui.add_enabled(there, log).on_hover_text(text("Both players, with this match in their logs")).clicked() {
            out.push(Act::Roster(RosterAct::LogMatch));
        }
    });
}

/// The question, with buttons to skip it.
fn prompt(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let step = notes.draft().step();
    ui.label(RichText::new(questions::of(step)).text_style(style::figure()));
    let how = match step {
        ShotPlace::Contact => text("Click it, or press a digit: the half is a keypad; X goes to the other end"),
        ShotPlace::Landing => text("Click beyond the net; a ball in the net just before it"),
        _ => text("Click, press a digit, or move with the arrows and press Enter; Backspace takes back"),
    };
    row::note(ui, theme, how);
    if let Some(at) = notes.open_at().filter(|at| is_inserted(notes, *at)) {
        row::note(ui, theme, &tr!("This is shot {} of point {}, between others", at.shot + 1, at.point + 1));
    }
    ui.add_space(theme.m.space.small);
    ui.horizontal_wrapped(|ui| {
        let skip = match step {
            ShotPlace::Contact => None,
            ShotPlace::Landing => Some(text("Volleyed")),
            ShotPlace::Met => Some(text("Not returned")),
            ShotPlace::Stood => Some(text("Not seen")),
        };
        if let Some(label) = skip
            && ui.add(keyed(label, keys::SKIP)).clicked()
        {
            out.push(Act::Skip);
        }
        let going = notes.open_point().is_some() || notes.draft().contact.is_some();
        if ui.add_enabled(going, keyed(text("End of the point"), keys::END)).clicked() {
            out.push(Act::EndPoint);
        }
        if ui.add_enabled(notes.undo_label().is_some(), Button::new(text("Take back"))).clicked() {
            out.push(Act::Undo);
        }
    });
}

/// Whether the next shot is not the last of all.
fn is_inserted(notes: &Notebook, at: At) -> bool {
    at.point + 1 < notes.points().len() || at.shot < notes.points().get(at.point).map_or(0, |point| point.shots.len())
}

/// Stroke and wing of the current shot, or of the last one.
fn noted(notes: &Notebook) -> (Option<Stroke>, Option<Wing>) {
    let draft = notes.draft();
    if draft.contact.is_some() || draft.stroke.is_some() || draft.wing.is_some() {
        return (draft.stroke, draft.wing);
    }
    let before = |at: At| notes.points().get(at.point)?.shots.get(at.shot.checked_sub(1)?);
    let last = notes.open_at().and_then(before);
    last.map_or((None, None), |shot| (shot.stroke, shot.wing))
}

/// Players and session.
fn about(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let setup = notes.setup();
    out.extend(field(ui, theme, text("Title"), &setup.title, text("what is charted")).map(Act::Title));
    out.extend(field(ui, theme, text("Session"), notes.session(), text("a day, a match, a set")).map(Act::Session));
    for end in [End::Near, End::Far] {
        let began = notes.ends().began(end);
        let card = setup.card(began);
        let label = if end == End::Near { text("Near end") } else { text("Far end") };
        let name = field(ui, theme, label, &card.name, text("who plays there"));
        out.extend(name.map(|name| Act::Name(began, name)));
    }
    let level = |began: End| setup.card(began).level().map_or(text("custom"), words::level);
    let levels = [End::Near, End::Far].map(|end| level(notes.ends().began(end)));
    let said = if levels[0] == levels[1] { levels[0].to_owned() } else { tr!("{} against {}", levels[0], levels[1]) };
    row::figure(ui, theme, text("Level"), &said);
    ui.horizontal_wrapped(|ui| {
        let changed = notes.ends() == Ends::Changed;
        if ui.add(Button::new(text("They change ends")).selected(changed)).clicked() {
            out.push(Act::ChangeEnds);
        }
        if ui
            .button(text("Players of the board"))
            .on_hover_text(text("Take players, court and conditions from the board"))
            .clicked()
        {
            out.push(Act::TakeSetup);
        }
    });
    ui.add(
        Label::new(
            RichText::new(text("Places by eye are good to half a metre; a digit only to the ninth it names."))
                .small()
                .color(*theme.ui.soft),
        )
        .wrap(),
    );
}
