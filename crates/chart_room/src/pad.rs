//! Pointer and keys on the court of the room.
//!
//! A click notes the next place; places of the selected shot are dragged. Without a mouse, arrows move a cursor and
//! Enter notes it, or one digit notes the middle
//! of a ninth of the half in question, as the digits lie on a keypad.

use egui::{Context, Key, Modifiers, PointerButton, Pos2, Rect, Response, Vec2};
use glam::DVec2;
use standpoint_board::chart::ObservedShot;
use standpoint_canvas::handles;
use standpoint_charting::notebook::{At, Notebook, ShotPlace};
use standpoint_geometry::Court;
use standpoint_ui::transform::{CourtView, Transform};
use standpoint_workbench::chart::Act;

use super::{
    digits::{asked, digit, end_of, ninths},
    keys::{self, BESIDE, END, INSERT, NEXT_PLACE, OTHER_END, SKIP, STROKES, WINGS},
};

/// Steps of the arrow keys, plain and with Shift, m.
const STEPS: (f64, f64) = (0.5, 0.1);

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
            for key in keys::LIVE {
                // Enter takes the place of the cursor first.
                if (key != Key::Enter || self.cursor.is_none()) && keys::live(notes, key).is_some() && pressed(key) {
                    out.extend(keys::live(notes, key));
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
