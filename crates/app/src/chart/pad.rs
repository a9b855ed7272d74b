//! What pointer and keys do on the court of the room.
//!
//! A click notes the next place. Without a mouse, arrows move a cursor and Enter notes it, or one digit notes the middle
//! of a ninth of the half in question, as the digits lie on a keypad.

use egui::{Context, Key, Modifiers, Pos2, Rect, Response, Vec2};
use glam::{DVec2, dvec2};
use standpoint_board::chart::notebook::{Draft, Step};
use standpoint_geometry::{court::Court, frame::End, player::Wing, situation::Stroke};

use super::Act;
use crate::canvas::{
    handles,
    transform::{Transform, View},
};

/// Steps of the arrow keys, plain and with Shift, m.
const STEPS: (f64, f64) = (0.5, 0.1);
/// Rows of places where players are: at the net, in the court, behind the baseline (m beyond it).
const AT_NET_M: f64 = 2.5;
const BEHIND_M: f64 = 1.0;

/// The letters of the kinds of stroke.
pub const STROKES: [(Key, Stroke); 8] = [
    (Key::T, Stroke::Topspin),
    (Key::G, Stroke::Flat),
    (Key::S, Stroke::Slice),
    (Key::D, Stroke::Drop),
    (Key::L, Stroke::Lob),
    (Key::V, Stroke::Volley),
    (Key::O, Stroke::Overhead),
    (Key::R, Stroke::Serve),
];
/// The letters of the wings.
pub const WINGS: [(Key, Wing); 2] = [(Key::F, Wing::Forehand), (Key::B, Wing::Backhand)];
/// For what was not there or not seen, the end of the point, and the other end.
pub const SKIP: Key = Key::N;
/// The point is over.
pub const END: Key = Key::E;
/// The cursor goes to the other end.
pub const OTHER_END: Key = Key::X;

/// The digits as they lie on a keypad, row by row.
const KEYPAD: [[Key; 3]; 3] =
    [[Key::Num7, Key::Num8, Key::Num9], [Key::Num4, Key::Num5, Key::Num6], [Key::Num1, Key::Num2, Key::Num3]];

/// The cursor on the court.
#[derive(Debug, Clone, Copy, Default)]
pub struct Pad {
    /// Where the keys have brought it, once they have.
    pub cursor: Option<DVec2>,
    /// Where the pointer is over the court.
    pub pointer: Option<DVec2>,
}

/// The end at which the next place is; for a contact that begins a point that of the cursor.
#[must_use]
pub fn end(draft: &Draft, cursor: Option<DVec2>) -> End {
    match draft.step() {
        Step::Contact => match cursor {
            Some(place) if place.y > 0.0 => End::Far,
            _ => End::Near,
        },
        Step::Landing | Step::Met => draft.hitter.other(),
        Step::Stood => draft.hitter,
    }
}

/// The middles of the nine parts of a half, row by row as they lie on the screen.
#[must_use]
pub fn ninths(court: &Court, end: End, step: Step, at: &Transform) -> [DVec2; 9] {
    let half = court.half_length();
    let rows = match step {
        Step::Landing => [half / 6.0, half / 2.0, half * 5.0 / 6.0],
        _ => [AT_NET_M, half * 0.68, half + BEHIND_M],
    };
    let column = court.half_width() * 2.0 / 3.0;
    let mut places: Vec<DVec2> =
        rows.iter().flat_map(|y| [-column, 0.0, column].map(|x| end.turn2(dvec2(x, -y)))).collect();
    let point = |p: &DVec2| at.screen_from_court(*p);
    places.sort_by(|a, b| point(a).y.total_cmp(&point(b).y));
    places.chunks_mut(3).for_each(|row| row.sort_by(|a, b| point(a).x.total_cmp(&point(b).x)));
    std::array::from_fn(|i| places[i])
}

impl Pad {
    /// The pointer: what a click notes, and how the court is moved.
    pub fn pointer(&mut self, ctx: &Context, response: &Response, at: &Transform, out: &mut Vec<Act>) {
        let over = response.hover_pos().filter(|_| response.hovered());
        self.pointer = over.map(|pos| at.court_from_screen(pos));
        if response.clicked()
            && let Some(pos) = response.interact_pointer_pos()
        {
            self.cursor = None;
            out.push(Act::Place(at.court_from_screen(pos)));
        }
        if over.is_some() {
            ctx.set_cursor_icon(egui::CursorIcon::Crosshair);
        }
    }

    /// The keys.
    pub fn keys(&mut self, ctx: &Context, draft: &Draft, court: &Court, at: &Transform, out: &mut Vec<Act>) {
        let pressed = |key: Key| ctx.input_mut(|i| i.consume_key(Modifiers::NONE, key));
        let here = end(draft, self.cursor);
        let nine = ninths(court, here, draft.step(), at);
        for (row, keys) in KEYPAD.iter().enumerate() {
            for (column, key) in keys.iter().enumerate() {
                if pressed(*key) {
                    self.cursor = None;
                    out.push(Act::Place(nine[row * 3 + column]));
                }
            }
        }
        if let Some(by) = handles::arrows(ctx, at, STEPS) {
            self.cursor = Some(self.cursor.unwrap_or(nine[4]) + by);
        }
        if pressed(OTHER_END) {
            self.cursor = Some(-self.cursor.unwrap_or(nine[4]));
        }
        if (pressed(Key::Enter) || pressed(Key::Space))
            && let Some(place) = self.cursor.take()
        {
            out.push(Act::Place(place));
        }
        if pressed(Key::Backspace) {
            out.push(Act::Undo);
        }
        if pressed(SKIP) {
            out.push(Act::Skip);
        }
        if pressed(END) {
            out.push(Act::EndPoint);
        }
        out.extend(STROKES.iter().filter(|(key, _)| pressed(*key)).map(|(_, stroke)| Act::Stroke(*stroke)));
        out.extend(WINGS.iter().filter(|(key, _)| pressed(*key)).map(|(_, wing)| Act::Wing(*wing)));
    }
}

/// The view of the room's court after wheel and pulling.
#[must_use]
pub fn moved(ctx: &Context, response: &Response, view: View, rect: Rect, court: &Court) -> View {
    let mut view = view;
    if let Some(around) = response.hover_pos().filter(|_| response.hovered()) {
        let (scroll, pinch) = ctx.input(|i| (f64::from(i.smooth_scroll_delta().y), f64::from(i.zoom_delta())));
        let factor = (scroll / 240.0).exp() * pinch;
        if (factor - 1.0).abs() > 1e-4 {
            view = view.zoomed(rect, court, around, factor);
        }
    }
    if response.dragged() && response.drag_delta() != Vec2::ZERO {
        view = view.panned(rect, court, response.drag_delta());
    }
    view
}

/// A point on the screen for a place, for tests and announcements.
#[must_use]
pub fn point(view: &View, rect: Rect, court: &Court, place: DVec2) -> Pos2 {
    view.transform(rect, court).screen_from_court(place)
}

#[cfg(test)]
mod tests {
    use egui::{pos2, vec2};

    use super::*;

    #[test]
    fn digits_lie_on_the_court_as_on_the_keypad_however_it_is_turned() {
        let court = Court::default();
        for turn in 0..4 {
            let at = View::fitted(turn).transform(Rect::from_min_size(pos2(0.0, 0.0), vec2(700.0, 700.0)), &court);
            for end in [End::Near, End::Far] {
                for step in [Step::Contact, Step::Landing] {
                    let nine = ninths(&court, end, step, &at).map(|place| at.screen_from_court(place));
                    assert!(nine[0].y < nine[3].y && nine[3].y < nine[6].y, "turn {turn}");
                    assert!(nine[0].x < nine[1].x && nine[1].x < nine[2].x, "turn {turn}");
                    assert!(ninths(&court, end, step, &at).iter().all(|p| p.y * end.sign() < 0.0));
                }
            }
        }
    }
}
