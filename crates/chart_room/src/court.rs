//! The court of the room: the point that is being noted, shot by shot.

use egui::{Align2, Stroke as Line, Ui};
use glam::DVec2;
use standpoint_board::chart::ObservedShot;
use standpoint_canvas::{
    announce,
    brush::{Brush, Dash, Side},
    court,
};
use standpoint_charting::notebook::{Draft, Notebook, ShotPlace};
use standpoint_geometry::End;
use standpoint_language::{text, tr};
use standpoint_workbench::words;

use super::{
    digits,
    pad::{self, Pad},
    questions,
};

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
    let point = pad::shown(notes);
    let picked = notes.picked().map(|(at, shot)| (at, pulled(shot, pad)));
    let shots: Vec<(usize, ObservedShot)> = point
        .and_then(|point| notes.points().get(point))
        .map(|point| point.shots.iter().copied().enumerate().collect())
        .unwrap_or_default();
    let is_picked = |i: usize| picked.is_some_and(|(at, _)| at.shot == i);
    for (_, shot) in shots.iter().filter(|(i, _)| !is_picked(*i)) {
        observed(brush, shot, picked.is_some() || notes.open_at().is_none());
    }
    if let Some((_, shot)) = &picked {
        observed(brush, shot, false);
        grips(brush, shot, pad);
    } else {
        draft(brush, &begun(notes), pad);
    }
    // Painted last, so that no line crosses a number.
    let number = |i: usize, shot: &ObservedShot| {
        if let Some(stood) = shot.stood {
            person(brush, stood, side(shot.hitter), &(i + 1).to_string());
        }
    };
    shots.iter().filter(|(i, _)| !is_picked(*i)).for_each(|(i, shot)| number(*i, shot));
    if let Some((at, shot)) = &picked {
        number(at.shot, shot);
    }
    keypad(brush, notes, pad);
}

/// A shot as it is while one of its places is pulled.
fn pulled(shot: &ObservedShot, pad: &Pad) -> ObservedShot {
    let mut shot = *shot;
    match pad.held {
        Some((ShotPlace::Contact, place)) => shot.contact = place,
        Some((ShotPlace::Landing, place)) => shot.landing = Some(place),
        Some((ShotPlace::Met, place)) => shot.met = Some(place),
        Some((ShotPlace::Stood, place)) => shot.stood = Some(place),
        None => {}
    }
    shot
}

/// Handles of the selected shot, with a cross at the place moved by the keys.
fn grips(brush: &Brush<'_>, shot: &ObservedShot, pad: &Pad) {
    let ink = *brush.theme.court.ink;
    for step in ShotPlace::ALL {
        let Some(place) = step.of(shot) else { continue };
        let at = brush.point(place);
        let chosen = step == pad.step;
        brush.painter.circle_stroke(at, 15.0, Line::new(if chosen { 2.4 } else { 1.2 }, ink));
        if step == ShotPlace::Met {
            brush.ring(at, 6.0, 2.0, side(shot.hitter.other()));
        }
        if chosen {
            for d in [egui::vec2(1.0, 0.0), egui::vec2(0.0, 1.0)] {
                for sign in [-1.0, 1.0] {
                    brush.painter.line_segment([at + d * sign * 15.0, at + d * sign * 22.0], Line::new(2.0, ink));
                }
            }
        }
    }
}

/// Where the digits of a keypad lie on the half in question.
fn keypad(brush: &Brush<'_>, notes: &Notebook, pad: &Pad) {
    let court = notes.setup().court.court();
    let shown = match notes.picked() {
        Some((_, shot)) => {
            let nine = digits::ninths(&court, digits::end_of(shot, pad.step), pad.step, &brush.at);
            nine.into_iter().zip([7, 8, 9, 4, 5, 6, 1, 2, 3]).collect()
        }
        None => digits::asked(notes, pad.cursor, &court, &brush.at).shown,
    };
    for (place, digit) in &shown {
        let galley = brush.text(digit.to_string(), *brush.theme.court.ink);
        brush.haloed(brush.point(*place), Align2::CENTER_CENTER, &galley);
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
    // A landing has a mark of its own.
    if places.last().is_some_and(Option::is_some)
        && let [.., from, tip] = points[..]
    {
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
        egui::FontId::new(brush.theme.m.text.small, standpoint_ui::theme::fonts::strong()),
        edge,
    );
    let corner = Align2::CENTER_CENTER.anchor_size(at, text.size()).min;
    brush.painter.galley(corner, text, edge);
}

/// The shot that is being noted; a serve that is due begins where it is struck.
fn begun(notes: &Notebook) -> Draft {
    match notes.due_serve() {
        Some(due) => Draft { hitter: due.end, contact: Some(due.contact), ..*notes.draft() },
        None => *notes.draft(),
    }
}

fn draft(brush: &Brush<'_>, draft: &Draft, pad: &Pad) {
    let side = side(draft.hitter);
    let aim = pad.cursor.or(pad.pointer);
    let next = |step: ShotPlace| aim.filter(|_| draft.step() == step);
    if let Some(contact) = draft.contact {
        let landing = draft.landing.flatten().or_else(|| next(ShotPlace::Landing));
        let met = draft.met.or_else(|| next(ShotPlace::Met));
        way(brush, &[Some(contact), landing, met], 2.6, side);
        brush.ring(brush.point(contact), 7.0, 2.6, side);
        if let Some(landing) = draft.landing.flatten() {
            brush.bounce(brush.point(landing), side);
        }
    }
    let Some(aim) = aim else { return };
    let at = brush.point(aim);
    match draft.step() {
        ShotPlace::Contact | ShotPlace::Met => brush.ring(at, 7.0, 2.0, side),
        ShotPlace::Landing => brush.bounce(at, side),
        ShotPlace::Stood => person(brush, aim, side, "?"),
    }
    if pad.cursor.is_some() {
        let arm = 16.0;
        let ink = *brush.theme.court.ink;
        for d in [egui::vec2(arm, 0.0), egui::vec2(0.0, arm)] {
            brush.painter.line_segment([at - d, at + d], Line::new(1.2, ink));
        }
    }
}

/// Announces the court.
pub fn announce(ui: &Ui, response: &egui::Response, notes: &Notebook, pad: &Pad) {
    let at = |place: DVec2| tr!("{} left-right, {} in depth", words::decimal(place.x, 1), words::decimal(place.y, 1));
    let value = match notes.picked() {
        Some((of, shot)) => {
            let place = pad.step.of(&pulled(shot, pad)).map_or_else(|| text("not seen").to_owned(), at);
            tr!("Point {}, shot {}; {}: {}", of.point + 1, of.shot + 1, questions::name(pad.step), place)
        }
        None => {
            let cursor = pad.cursor.map_or_else(String::new, |place| tr!("; cursor {}", at(place)));
            let asked = match notes.live() {
                Some(_) => questions::next(notes),
                None => questions::of(notes.draft().step()).to_owned(),
            };
            format!("{asked}{cursor}")
        }
    };
    announce::describe(ui, response, egui::accesskit::Role::GraphicsDocument, text("Court to note on"), &value);
}
