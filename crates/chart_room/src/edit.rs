//! The selected shot, for corrections.

use egui::{Button, DragValue, RichText, Ui};
use glam::DVec2;
use standpoint_board::{
    Units,
    chart::{ObservedShot, check::SPEED_KMH},
    play_area::{HIGHEST_CONTACT, LOWEST_CONTACT},
};
use standpoint_charting::notebook::{At, ShotPlace};
use standpoint_geometry::units::{FOOT, KMH, MPH};
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::{Theme, style},
    widgets::{ends, row},
};
use standpoint_workbench::{chart::Act, words};

use super::{
    digits, keys,
    note_bits::{self, NoteView, keyed},
    pad::Pad,
    questions, told,
};

/// Initial values of figures that were not noted, m and m/s.
const USUAL_HEIGHT: f64 = 0.9;
const USUAL_SPEED: f64 = 90.0 * KMH;

/// The shot.
pub fn ui(ui: &mut Ui, view: &NoteView<'_>, at: At, shot: &ObservedShot, pad: &mut Pad, out: &mut Vec<Act>) {
    let theme = view.theme;
    let Some(point) = view.notes.points().get(at.point) else { return };
    ui.horizontal(|ui| {
        let title = tr!("Shot {} of {}", at.shot + 1, point.shots.len());
        ui.label(RichText::new(title).text_style(style::figure()));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if ui.add(Button::new(text("Done  Esc")).fill(*theme.ui.chosen)).clicked() {
                out.push(Act::Pick(None));
            }
        });
    });
    row::note(ui, theme, text("Pull its places on the court, or choose one and use arrows and digits"));
    others(ui, at, point.shots.len(), out);
    // Above the facts, which scroll in a low window.
    neighbours(ui, out);
    ui.add_space(theme.m.space.item);
    places(ui, view, shot, pad, out);
    ui.add_space(theme.m.space.item);
    note_bits::strokes(ui, (shot.stroke, shot.wing), out);
    ui.add_space(theme.m.space.small);
    figures(ui, view, shot, out);
    let session = note_bits::field(ui, theme, text("Session"), &point.session, text("a day, a match, a set"));
    out.extend(session.map(|session| Act::SessionOf(at.point, session)));
    let label = note_bits::field(ui, theme, text("Point"), &point.label, text("a number or the score"));
    out.extend(label.map(|label| Act::Label(at.point, label)));
    told::serve(ui, shot, theme, out);
    told::ui(ui, view.notes, at.point, theme, out);
}

/// The shots of the point.
fn others(ui: &mut Ui, at: At, shots: usize, out: &mut Vec<Act>) {
    ui.horizontal_wrapped(|ui| {
        for shot in 0..shots {
            let button = Button::selectable(shot == at.shot, (shot + 1).to_string()).frame_when_inactive(true);
            if ui.add(button).on_hover_text(text("Page Up and Page Down go from shot to shot")).clicked() {
                out.push(Act::Pick(Some(At { shot, ..at })));
            }
        }
    });
}

/// The four places: which one the keys move, and where it is.
fn places(ui: &mut Ui, view: &NoteView<'_>, shot: &ObservedShot, pad: &mut Pad, out: &mut Vec<Act>) {
    for step in ShotPlace::ALL {
        let seen = step.of(shot);
        let held = pad.held.filter(|(held, _)| *held == step).map(|(_, place)| place);
        let keyed = pad.step == step;
        let (mut named, mut noted, mut unseen) = (false, false, false);
        // The name takes the remaining room.
        let name = |ui: &mut Ui| {
            let name = Button::selectable(keyed, questions::name(step));
            named = ui.add(name.frame_when_inactive(true).truncate()).clicked();
        };
        ends::row(ui, step, name, |ui| {
            let at = held.or(seen).map_or_else(|| row::NOTHING.to_owned(), |place| where_is(place, view.units));
            ui.label(RichText::new(at).text_style(style::emphasis()));
            match (step, seen) {
                (ShotPlace::Contact, _) => {}
                (_, None) => {
                    let note_it = ui.button(text("Note it"));
                    noted = note_it.on_hover_text(text("In the middle of where it can be")).clicked();
                }
                (_, Some(_)) => unseen = ui.add(not_seen(keyed)).clicked(),
            }
        });
        if named || noted {
            pad.step = step;
        }
        if noted {
            let place = digits::end_of(shot, step).turn2(DVec2::new(0.0, -9.0));
            out.push(Act::Move { step, place, done: true });
        }
        if unseen {
            out.push(Act::Unseen(step));
        }
    }
    row::note(ui, view.theme, text("M goes on to the next place"));
}

fn not_seen(keyed_too: bool) -> Button<'static> {
    if keyed_too { keyed(text("not seen"), keys::SKIP) } else { Button::new(text("Not seen")) }
}

/// A place in the frame of the file.
fn where_is(place: DVec2, units: Units) -> String {
    let (unit, per) = match units {
        Units::Metres => ("m", 1.0),
        Units::Feet => ("ft", FOOT),
    };
    format!("{}, {} {unit}", words::decimal(place.x / per, 1), words::decimal(place.y / per, 1))
}

/// Height and speed, where they were noted.
fn figures(ui: &mut Ui, view: &NoteView<'_>, shot: &ObservedShot, out: &mut Vec<Act>) {
    let feet = view.units == Units::Feet;
    let (unit, per) = if feet { ("ft", FOOT) } else { ("m", 1.0) };
    let height =
        Figure { label: text("Height"), unit, per, range: (LOWEST_CONTACT, HIGHEST_CONTACT), speed: 0.01, figures: 2 };
    out.extend(height.ui(ui, view.theme, shot.contact_height, USUAL_HEIGHT).map(Act::Height));
    let (unit, per) = if feet { ("mph", MPH) } else { ("km/h", KMH) };
    let range = (SPEED_KMH.0 * KMH, SPEED_KMH.1 * KMH);
    let speed = Figure { label: text("Speed"), unit, per, range, speed: 1.0, figures: 0 };
    out.extend(speed.ui(ui, view.theme, shot.speed, USUAL_SPEED).map(Act::Speed));
}

/// A quantity that may not have been noted.
struct Figure {
    label: &'static str,
    unit: &'static str,
    per: f64,
    range: (f64, f64),
    speed: f64,
    figures: usize,
}

impl Figure {
    fn ui(&self, ui: &mut Ui, theme: &Theme, now: Option<f64>, usual: f64) -> Option<Option<f64>> {
        let mut changed = None;
        row::row(ui, theme, self.label, |ui| {
            let mut noted = now.is_some();
            let check = ui.checkbox(&mut noted, text("noted"));
            if check.changed() {
                changed = Some(noted.then_some(usual));
            }
            let Some(now) = now else { return check };
            let mut value = now / self.per;
            let range = self.range.0 / self.per..=self.range.1 / self.per;
            let drag = DragValue::new(&mut value).range(range).speed(self.speed).max_decimals(self.figures);
            let response = ui.add(drag.suffix(format!(" {}", self.unit)));
            if response.changed() {
                changed = Some(Some(value * self.per));
            }
            response
        });
        changed
    }
}

/// Inserting before or after it, and deleting it.
fn neighbours(ui: &mut Ui, out: &mut Vec<Act>) {
    ui.horizontal_wrapped(|ui| {
        let before = Button::new(tr!("Insert before  Shift+{}", keys::INSERT.name()));
        if ui.add(before).on_hover_text(text("The next shot you note comes before this one")).clicked() {
            out.push(Act::Insert(false));
        }
        let behind = keyed(text("insert after"), keys::INSERT);
        if ui.add(behind).on_hover_text(text("The next shot you note comes after this one")).clicked() {
            out.push(Act::Insert(true));
        }
        if ui.button(text("Delete shot  Del")).clicked() {
            out.push(Act::RemoveShot);
        }
    });
}
