//! The court of the room: the point that is being noted, shot by shot.

use egui::{Align2, Stroke as Line, Ui};
use glam::DVec2;
use standpoint_board::chart::{
    ObservedShot,
    notebook::{Draft, Notebook, Step},
};
use standpoint_geometry::frame::End;

use super::pad::Pad;
use crate::{
    canvas::{
        announce,
        brush::{Brush, Dash, Side},
        court,
    },
    words,
};

/// What is to be placed, as a question.
#[must_use]
pub fn question(step: Step) -> &'static str {
    match step {
        Step::Contact => "Where is the ball struck?",
        Step::Landing => "Where does it land?",
        Step::Met => "Where does the opponent meet it?",
        Step::Stood => "Where does the hitter stand now?",
    }
}

/// The near player is drawn in one ink, the far player in the other.
fn side(hitter: End) -> Side {
    match hitter {
        End::Near => Side::Hitter,
        End::Far => Side::Opponent,
    }
}

/// Paints the court with the last point on it.
pub fn paint(brush: &Brush<'_>, notes: &Notebook, pad: &Pad) {
    let lines = notes.setup().court.court();
    court::ground(brush, &lines);
    court::lines(brush, &lines);
    court::net(brush, &lines);
    let last = notes.points().last();
    let shots = || last.iter().flat_map(|point| point.shots.iter().enumerate());
    shots().for_each(|(_, shot)| observed(brush, shot, notes.open_point().is_none()));
    draft(brush, notes.draft(), pad);
    // Above everything, so that no line crosses a number.
    for (i, shot) in shots() {
        if let Some(stood) = shot.stood {
            person(brush, stood, side(shot.hitter), &(i + 1).to_string());
        }
    }
    keypad(brush, notes, pad);
}

/// Where the digits of a keypad lie on the half in question.
fn keypad(brush: &Brush<'_>, notes: &Notebook, pad: &Pad) {
    let step = notes.draft().step();
    let nine =
        super::pad::ninths(&notes.setup().court.court(), super::pad::end(notes.draft(), pad.cursor), step, &brush.at);
    for (place, digit) in nine.iter().zip([7, 8, 9, 4, 5, 6, 1, 2, 3]) {
        let font = egui::FontId::proportional(brush.theme.m.text.small);
        let ink = brush.theme.court.ink.gamma_multiply(0.55);
        brush.painter.text(brush.point(*place), Align2::CENTER_CENTER, digit.to_string(), font, ink);
    }
}

/// One shot: contact, way, landing and where it was met.
fn observed(brush: &Brush<'_>, shot: &ObservedShot, faint: bool) {
    let side = side(shot.hitter);
    let width = if faint { 1.4 } else { 2.2 };
    way(brush, &[Some(shot.contact), shot.landing, shot.met], width, side);
    let contact = brush.point(shot.contact);
    brush.ring(contact, 6.0, 2.0, side);
    if let Some(landing) = shot.landing {
        brush.bounce(brush.point(landing), side);
    }
}

fn way(brush: &Brush<'_>, places: &[Option<DVec2>], width: f32, side: Side) {
    let points = brush.points(places.iter().flatten().copied());
    for (i, pair) in points.windows(2).enumerate() {
        let dash = if i == 0 { Dash::Solid } else { Dash::Pattern(brush.theme.m.pattern.dashed) };
        brush.line(pair, width, side, dash);
    }
    if let [.., from, tip] = points[..] {
        brush.arrow_head(from, tip, 9.0, side);
    }
}

/// A place where a player stood.
pub fn person(brush: &Brush<'_>, place: DVec2, side: Side, label: &str) {
    let (ink, edge) = brush.inks(side);
    let at = brush.point(place);
    brush.painter.circle(at, 10.0, ink, Line::new(1.6, edge));
    let text = brush.painter.layout_no_wrap(
        label.to_owned(),
        egui::FontId::new(brush.theme.m.text.small, crate::theme::fonts::strong()),
        edge,
    );
    let corner = Align2::CENTER_CENTER.anchor_size(at, text.size()).min;
    brush.painter.galley(corner, text, edge);
}

fn draft(brush: &Brush<'_>, draft: &Draft, pad: &Pad) {
    let side = side(draft.hitter);
    let aim = pad.cursor.or(pad.pointer);
    let next = |step: Step| aim.filter(|_| draft.step() == step);
    if let Some(contact) = draft.contact {
        let landing = draft.landing.flatten().or_else(|| next(Step::Landing));
        let met = draft.met.or_else(|| next(Step::Met));
        way(brush, &[Some(contact), landing, met], 2.6, side);
        brush.ring(brush.point(contact), 7.0, 2.6, side);
        if let Some(landing) = draft.landing.flatten() {
            brush.bounce(brush.point(landing), side);
        }
    }
    let Some(aim) = aim else { return };
    let at = brush.point(aim);
    match draft.step() {
        Step::Contact | Step::Met => brush.ring(at, 7.0, 2.0, side),
        Step::Landing => brush.bounce(at, side),
        Step::Stood => person(brush, aim, side, "?"),
    }
    if pad.cursor.is_some() {
        let arm = 16.0;
        let ink = *brush.theme.court.ink;
        for d in [egui::vec2(arm, 0.0), egui::vec2(0.0, arm)] {
            brush.painter.line_segment([at - d, at + d], Line::new(1.2, ink));
        }
    }
}

/// Says what the court shows.
pub fn announce(ui: &Ui, response: &egui::Response, notes: &Notebook, pad: &Pad) {
    let place = pad.cursor.map_or_else(String::new, |place| {
        format!("; cursor {} across, {} along", words::decimal(place.x, 1), words::decimal(place.y, 1))
    });
    let value = format!("{}{place}", question(notes.draft().step()));
    announce::describe(ui, response, egui::accesskit::Role::GraphicsDocument, "Court to note on", &value);
}
