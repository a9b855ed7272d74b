//! Pointer and keys on the court of the room.
//!
//! A click notes the next place; places of the selected shot are dragged. Without a mouse, arrows move a cursor and
//! Enter notes it, or one digit notes the middle
//! of a ninth of the half in question, as the digits lie on a keypad.

use egui::{Context, Key, Modifiers, PointerButton, Pos2, Rect, Response, Vec2};
use glam::{DVec2, dvec2};
use standpoint_board::chart::ObservedShot;
use standpoint_canvas::handles;
use standpoint_charting::notebook::{At, Draft, DueServe, Notebook, ShotPlace};
use standpoint_geometry::{Court, End, Stroke, Wing};
use standpoint_ui::transform::{CourtView, Transform};
use standpoint_workbench::chart::Act;

use super::live;

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
/// Keys for "not seen", the end of the point, and the other end.
pub const SKIP: Key = Key::N;
/// The point is over.
pub const END: Key = Key::E;
/// The cursor goes to the other end.
pub const OTHER_END: Key = Key::X;

/// The digits in the rows of a keypad.
const KEYPAD: [[Key; 3]; 3] =
    [[Key::Num7, Key::Num8, Key::Num9], [Key::Num4, Key::Num5, Key::Num6], [Key::Num1, Key::Num2, Key::Num3]];

/// Select the previous shot, and the next one.
pub const BESIDE: [(Key, bool); 2] = [(Key::PageUp, false), (Key::PageDown, true)];
/// Go to the next place of the selected shot.
pub const NEXT_PLACE: Key = Key::M;
/// Insert the next shot after the selected one; with Shift before it.
pub const INSERT: Key = Key::I;

/// The cursor on the court.
#[derive(Debug, Clone, Copy)]
pub struct Pad {
    /// Position set by the keys, if any.
    pub cursor: Option<DVec2>,
    /// Where the pointer is over the court.
    pub pointer: Option<DVec2>,
    /// The place of the selected shot that the keys move.
    pub step: ShotPlace,
    /// The place being dragged, and its current position.
    pub held: Option<(ShotPlace, DVec2)>,
}

impl Default for Pad {
    fn default() -> Self {
        Self { cursor: None, pointer: None, step: ShotPlace::Stood, held: None }
    }
}

/// The end at which the next place is; for a contact that begins a point that of the cursor.
#[must_use]
pub fn end(draft: &Draft, cursor: Option<DVec2>) -> End {
    match draft.step() {
        ShotPlace::Contact => match cursor {
            Some(place) if place.y > 0.0 => End::Far,
            Some(_) => End::Near,
            // The opponent's end for an inserted shot, else the near one.
            None => draft.hitter,
        },
        ShotPlace::Landing | ShotPlace::Met => draft.hitter.other(),
        ShotPlace::Stood => draft.hitter,
    }
}

/// The end at which a place of a shot is.
#[must_use]
pub fn end_of(shot: &ObservedShot, step: ShotPlace) -> End {
    match step {
        ShotPlace::Contact | ShotPlace::Stood => shot.hitter,
        ShotPlace::Landing | ShotPlace::Met => shot.hitter.other(),
    }
}

/// The place of a shot under a point: the nearest one within reach of a finger.
fn under(shot: &ObservedShot, at: &Transform, pos: Pos2, touch: f32) -> Option<(f32, ShotPlace)> {
    let distance = |step: ShotPlace| Some((at.screen_from_court(step.of(shot)?).distance(pos), step));
    let near = ShotPlace::ALL.into_iter().filter_map(distance).filter(|(distance, _)| *distance <= touch / 2.0);
    near.min_by(|a, b| a.0.total_cmp(&b.0))
}

/// The point shown on the court: that of the selected shot, the open one, or the last.
#[must_use]
pub fn shown(notes: &Notebook) -> Option<usize> {
    let picked = notes.picked().map(|(at, _)| at.point);
    picked.or(notes.open_at().map(|at| at.point)).or(notes.points().len().checked_sub(1))
}

/// The shot of the point on the court whose place is under a point.
fn shot_under(notes: &Notebook, at: &Transform, pos: Pos2, touch: f32) -> Option<(At, ShotPlace)> {
    let point = shown(notes)?;
    let shots = notes.points().get(point)?.shots.iter().enumerate();
    let near = shots.filter_map(|(shot, of)| under(of, at, pos, touch).map(|(d, step)| (d, At { point, shot }, step)));
    near.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, at, step)| (at, step))
}

/// The middles of the nine parts of a half, row by row as they lie on the screen.
#[must_use]
pub fn ninths(court: &Court, end: End, step: ShotPlace, at: &Transform) -> [DVec2; 9] {
    let half = court.half_length();
    let rows = match step {
        ShotPlace::Landing => [half / 6.0, half / 2.0, half * 5.0 / 6.0],
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

/// Where the digits lie for what is asked for next.
pub struct Asked {
    /// The places of the digits, row by row as they lie on a keypad.
    pub nine: [DVec2; 9],
    /// The digits that are worth showing.
    pub shown: Vec<(DVec2, u8)>,
}

/// What is asked for next.
#[must_use]
pub fn asked(notes: &Notebook, cursor: Option<DVec2>, court: &Court, at: &Transform) -> Asked {
    const DIGITS: [u8; 9] = [7, 8, 9, 4, 5, 6, 1, 2, 3];
    if let Some(due) = notes.due_serve() {
        let (nine, shown) = serve_ninths(&due, at);
        return Asked { nine, shown };
    }
    let step = notes.live_step().unwrap_or(notes.draft().step());
    let end = end(notes.draft(), cursor);
    let nine = ninths(court, end, step, at);
    Asked { nine, shown: nine.into_iter().zip(DIGITS).collect() }
}

/// The places of a serve by the digits: those of one line across the service box are one place.
fn serve_ninths(due: &DueServe, at: &Transform) -> ([DVec2; 9], Vec<(DVec2, u8)>) {
    let mut by_screen = due.places;
    let point = |p: &DVec2| at.screen_from_court(*p);
    let apart = point(&due.places[0]) - point(&due.places[2]);
    if apart.x.abs() >= apart.y.abs() {
        by_screen.sort_by(|a, b| point(a).x.total_cmp(&point(b).x));
        let [a, b, c] = by_screen;
        ([a, b, c, a, b, c, a, b, c], vec![(a, 4), (b, 5), (c, 6)])
    } else {
        by_screen.sort_by(|a, b| point(a).y.total_cmp(&point(b).y));
        let [a, b, c] = by_screen;
        ([a, a, a, b, b, b, c, c, c], vec![(a, 8), (b, 5), (c, 2)])
    }
}

impl Pad {
    /// The pointer: clicks note or select, drags move places.
    pub fn pointer(
        &mut self,
        ctx: &Context,
        response: &Response,
        notes: &Notebook,
        at: &Transform,
        touch: f32,
        out: &mut Vec<Act>,
    ) {
        let over = response.hover_pos().filter(|_| response.hovered());
        self.pointer = over.map(|pos| at.court_from_screen(pos));
        let clicked = response.interact_pointer_pos();
        if response.secondary_clicked()
            && let Some((shot, step)) = clicked.and_then(|pos| shot_under(notes, at, pos, touch))
        {
            self.step = step;
            return out.push(Act::Pick(Some(shot)));
        }
        if let Some((_, shot)) = notes.picked() {
            return self.pull(ctx, response, notes, shot, at, touch, out);
        }
        self.held = None;
        if response.clicked()
            && let Some(pos) = clicked
        {
            self.cursor = None;
            out.push(Act::Place(at.court_from_screen(pos)));
        }
        if over.is_some() {
            ctx.set_cursor_icon(egui::CursorIcon::Crosshair);
        }
    }

    /// Drags a place of the selected shot, or selects another one.
    #[expect(clippy::too_many_arguments, reason = "what the pointer needs and the shot it is about")]
    fn pull(
        &mut self,
        ctx: &Context,
        response: &Response,
        notes: &Notebook,
        shot: &ObservedShot,
        at: &Transform,
        touch: f32,
        out: &mut Vec<Act>,
    ) {
        self.cursor = None;
        let near = |pos: Pos2| under(shot, at, pos, touch).map(|(_, step)| step);
        if response.drag_started_by(PointerButton::Primary)
            && let Some(step) = ctx.input(|i| i.pointer.press_origin()).and_then(near)
        {
            self.step = step;
            self.held = step.of(shot).map(|place| (step, place));
        }
        if let (Some((step, held)), Some(pos)) = (&mut self.held, response.interact_pointer_pos()) {
            *held = notes.pick_held(*step, at.court_from_screen(pos)).unwrap_or(*held);
        }
        if response.drag_stopped()
            && let Some((step, place)) = self.held.take()
        {
            out.push(Act::Move { step, place, done: true });
        }
        if response.clicked()
            && let Some(pos) = response.interact_pointer_pos()
        {
            match (near(pos), shot_under(notes, at, pos, touch)) {
                (Some(step), _) => self.step = step,
                (None, Some((other, step))) => {
                    self.step = step;
                    out.push(Act::Pick(Some(other)));
                }
                (None, None) => out.push(Act::Pick(None)),
            }
        }
        if self.held.is_some() {
            ctx.set_cursor_icon(egui::CursorIcon::Grabbing);
        } else if response.hover_pos().filter(|_| response.hovered()).and_then(near).is_some() {
            ctx.set_cursor_icon(egui::CursorIcon::Grab);
        }
    }

    /// The keys.
    pub fn keys(&mut self, ctx: &Context, notes: &Notebook, court: &Court, at: &Transform, out: &mut Vec<Act>) {
        let pressed = |key: Key| ctx.input_mut(|i| i.consume_key(Modifiers::NONE, key));
        match notes.picked() {
            Some((_, shot)) => self.picked_keys(ctx, notes, shot, court, at, out),
            None => self.noting_keys(ctx, notes, court, at, out),
        }
        if pressed(Key::Backspace) {
            out.push(Act::Undo);
        }
        out.extend(BESIDE.iter().filter(|(key, _)| pressed(*key)).map(|(_, forward)| Act::PickBeside(*forward)));
        out.extend(STROKES.iter().filter(|(key, _)| pressed(*key)).map(|(_, stroke)| Act::Stroke(*stroke)));
        out.extend(WINGS.iter().filter(|(key, _)| pressed(*key)).map(|(_, wing)| Act::Wing(*wing)));
    }

    /// The keys while noting.
    fn noting_keys(&mut self, ctx: &Context, notes: &Notebook, court: &Court, at: &Transform, out: &mut Vec<Act>) {
        let pressed = |key: Key| ctx.input_mut(|i| i.consume_key(Modifiers::NONE, key));
        let nine = asked(notes, self.cursor, court, at).nine;
        if notes.live().is_some() {
            for key in live::KEYS {
                // Enter takes the place of the cursor first.
                if (key != Key::Enter || self.cursor.is_none()) && live::key(notes, key).is_some() && pressed(key) {
                    out.extend(live::key(notes, key));
                }
            }
        }
        if let Some(place) = digit(ctx, &nine) {
            self.cursor = None;
            out.push(Act::Place(place));
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
        if pressed(SKIP) {
            out.push(Act::Skip);
        }
        if pressed(END) {
            out.push(Act::EndPoint);
        }
    }

    /// The keys while a shot is selected.
    fn picked_keys(
        &mut self,
        ctx: &Context,
        notes: &Notebook,
        shot: &ObservedShot,
        court: &Court,
        at: &Transform,
        out: &mut Vec<Act>,
    ) {
        let pressed = |modifiers: Modifiers, key: Key| ctx.input_mut(|i| i.consume_key(modifiers, key));
        let (step, nine) = (self.step, ninths(court, end_of(shot, self.step), self.step, at));
        if let Some(place) = digit(ctx, &nine) {
            out.push(Act::Move { step, place, done: true });
        }
        if let Some(by) = handles::arrows(ctx, at, STEPS)
            && let Some(place) = notes.pick_held(step, step.of(shot).unwrap_or(nine[4]) + by)
        {
            out.push(Act::Move { step, place, done: false });
        }
        if pressed(Modifiers::NONE, NEXT_PLACE) {
            let now = ShotPlace::ALL.iter().position(|of| *of == step).unwrap_or_default();
            self.step = ShotPlace::ALL[(now + 1) % ShotPlace::ALL.len()];
        }
        if pressed(Modifiers::NONE, SKIP) {
            out.push(Act::Unseen(step));
        }
        if pressed(Modifiers::SHIFT, INSERT) {
            out.push(Act::Insert(false));
        }
        if pressed(Modifiers::NONE, INSERT) {
            out.push(Act::Insert(true));
        }
        if pressed(Modifiers::NONE, Key::Delete) {
            out.push(Act::RemoveShot);
        }
        if pressed(Modifiers::NONE, Key::Escape) || pressed(Modifiers::NONE, Key::Enter) {
            out.push(Act::Pick(None));
        }
    }
}

/// The place of a pressed digit, one of nine as on a keypad.
fn digit(ctx: &Context, nine: &[DVec2; 9]) -> Option<DVec2> {
    let keys = KEYPAD.iter().flatten();
    keys.zip(nine).find(|(key, _)| ctx.input_mut(|i| i.consume_key(Modifiers::NONE, **key))).map(|(_, place)| *place)
}

/// The view of the room's court after wheel and drag.
#[must_use]
pub fn moved(ctx: &Context, response: &Response, view: CourtView, rect: Rect, court: &Court) -> CourtView {
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
pub fn point(view: &CourtView, rect: Rect, court: &Court, place: DVec2) -> Pos2 {
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
            let at = CourtView::fitted(turn).transform(Rect::from_min_size(pos2(0.0, 0.0), vec2(700.0, 700.0)), &court);
            for end in [End::Near, End::Far] {
                for step in [ShotPlace::Contact, ShotPlace::Landing] {
                    let nine = ninths(&court, end, step, &at).map(|place| at.screen_from_court(place));
                    assert!(nine[0].y < nine[3].y && nine[3].y < nine[6].y, "turn {turn}");
                    assert!(nine[0].x < nine[1].x && nine[1].x < nine[2].x, "turn {turn}");
                    assert!(ninths(&court, end, step, &at).iter().all(|p| p.y * end.sign() < 0.0));
                }
            }
        }
    }
}
