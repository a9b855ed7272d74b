//! The drawing tools: the current tool, driven by pointer and keys.
//!
//! The state machine is in [`super::draw_gesture`]; this module finds what lies under the pointer, and turns effects
//! become actions.

mod keys;
mod show;
mod under;
pub mod writing;

use egui::{Context, CursorIcon, Id, Key, Pos2, Response};
use glam::DVec2;
use standpoint_board::marks::{Form, Ink, MarkId, Marks, smoothed};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    transform::Transform,
};
use standpoint_workbench::{
    edit::Gesture,
    session::Session,
    settings::Settings,
    sketch::{
        draw::{self, Draw},
        tool::Tool,
    },
};

use super::{
    court,
    draw_gesture::{DrawGesture, Effect, Input, Over},
    grips::{self, Part},
};
use writing::Writing;

/// Tolerance for dropping points of a freehand line, points.
const TOLERANCE: f64 = 1.2;

/// Context of a frame: court, view and settings.
#[derive(Clone, Copy)]
pub struct DrawContext<'a> {
    /// Where it is.
    pub at: &'a Transform,
    /// What is on it.
    pub session: &'a Session,
    /// How it behaves.
    pub settings: &'a Settings,
    /// Least size of something to touch.
    pub touch: f32,
}

impl DrawContext<'_> {
    fn marks(&self) -> Option<&Marks> {
        self.session.marks()
    }

    /// How many shots the page has.
    fn shots(&self) -> usize {
        self.session.page().map_or(0, |page| page.shots.len())
    }

    /// The place, snapped to the lines if enabled.
    fn held(&self, place: DVec2) -> DVec2 {
        let held = if self.settings.snap { court::snapped(&self.session.court(), place, super::HOLD) } else { place };
        self.session.board().play_area().clamp_mark(held)
    }
}

/// The drawing tools.
#[derive(Default)]
pub struct DrawingTools {
    tool: Option<Tool>,
    ink: Ink,
    pencil: DrawGesture,
    /// Whether what is begun was begun with the keys.
    by_keys: bool,
    /// Cursor of the keys, once moved.
    cursor: Option<DVec2>,
    /// Where the pointer is over the court.
    pointer: Option<DVec2>,
    hovered: Option<MarkId>,
    focused: Option<MarkId>,
    writing: Option<Writing>,
    /// Whether the cursor is to get the focus.
    wants_focus: bool,
    pending: Outbox,
}

impl DrawingTools {
    /// The identity of the cursor, for focus.
    #[must_use]
    pub fn cursor_id() -> Id {
        Id::unique("drawing cursor")
    }

    /// The identity of a mark, for focus.
    #[must_use]
    pub fn mark_id(mark: MarkId) -> Id {
        Id::unique(("drawn mark", mark))
    }

    /// The current tool; `None` drags handles.
    #[must_use]
    pub fn tool(&self) -> Option<Tool> {
        self.tool
    }

    /// The ink in use.
    #[must_use]
    pub fn ink(&self) -> Ink {
        self.ink
    }

    /// Whether something is begun.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        !self.pencil.is_idle() || self.writing.is_some()
    }

    /// Selects a tool, or none.
    pub fn take(&mut self, tool: Option<Tool>) {
        self.pencil = DrawGesture::default();
        self.by_keys = false;
        self.cursor = None;
        self.wants_focus = tool.is_some();
        self.tool = tool;
    }

    /// Takes an ink.
    pub fn take_ink(&mut self, ink: Ink) {
        self.ink = ink;
    }

    /// What can be done now.
    #[must_use]
    pub fn hint(&self) -> Option<&'static str> {
        if self.writing.is_some() {
            return Some(text("Enter keeps the text, Shift+Enter begins a line, Escape drops it"));
        }
        let mark = || self.hovered.map(|_| text("Drag the mark; a click selects it, a double click changes its text"));
        self.pencil.hint().or_else(|| self.tool.map(Tool::hint)).or_else(mark)
    }

    /// Begins to change the words of a mark.
    pub fn rewrite(&mut self, session: &Session, mark: MarkId) {
        let form = session.marks().and_then(|marks| marks.get(mark)).map(|mark| &mark.form);
        self.writing = form.and_then(|form| Writing::of(mark, form)).or(self.writing.take());
    }

    /// Handles the pointer; returns whether it was consumed, so that no handle is dragged.
    ///
    /// With `busy` a handle is dragged or under the pointer.
    pub fn react(
        &mut self,
        ctx: &Context,
        response: &Response,
        context: DrawContext<'_>,
        busy: bool,
        out: &mut Outbox,
    ) -> bool {
        out.append(&mut self.pending);
        self.focus(ctx, context, out);
        self.keys(ctx, context, out);
        let hover = response.hover_pos().filter(|_| response.hovered());
        self.pointer = hover.map(|pos| context.at.court_from_screen(pos));
        let idle_hand = self.tool.is_none() && self.pencil.is_idle();
        self.hovered = hover.filter(|_| !busy || self.tool.is_some()).and_then(|pos| self.mark_under(context, pos));
        // A click may go down and up within a frame; then only its place is left.
        let (pressed, origin) = ctx.input(|i| {
            let p = &i.pointer;
            (p.primary_pressed(), p.press_origin().or(p.latest_pos()))
        });
        if idle_hand && !self.hand_takes(response, context, busy, pressed, origin, out) {
            return false;
        }
        self.show_pointer(ctx, hover.is_some());
        if response.double_clicked()
            && let Some(mark) = self.hovered.filter(|_| matches!(self.tool, None | Some(Tool::Select)))
        {
            self.rewrite(context.session, mark);
        }
        for input in self.inputs(ctx, response, context, pressed, origin) {
            self.step(input, context, out);
        }
        true
    }

    /// Whether a press takes a mark; a press on empty ground clears the choice.
    fn hand_takes(
        &mut self,
        response: &Response,
        context: DrawContext<'_>,
        busy: bool,
        pressed: bool,
        origin: Option<Pos2>,
        out: &mut Outbox,
    ) -> bool {
        let ours = pressed && (response.is_pointer_button_down_on() || response.hovered());
        let Some(pos) = origin.filter(|_| ours) else {
            return self.hovered.is_some() && response.double_clicked();
        };
        if !busy && self.over(context, pos) != Over::Bare {
            return true;
        }
        if !context.session.chosen().is_empty() {
            out.push(Action::ChooseMarks(Vec::new()));
        }
        false
    }

    fn show_pointer(&self, ctx: &Context, over_court: bool) {
        if !over_court && self.pencil.is_idle() {
            return;
        }
        let icon = match (self.tool, &self.pencil) {
            (_, DrawGesture::Carrying { .. } | DrawGesture::Pulling { .. }) => CursorIcon::Grabbing,
            (None | Some(Tool::Select), _) if self.hovered.is_some() => CursorIcon::Grab,
            (None, _) => return,
            (Some(Tool::Select), _) => CursorIcon::Default,
            (Some(Tool::Words), _) => CursorIcon::Text,
            (Some(_), _) => CursorIcon::Crosshair,
        };
        ctx.set_cursor_icon(icon);
    }

    /// The pointer of this frame as inputs of the gesture.
    fn inputs(
        &mut self,
        ctx: &Context,
        response: &Response,
        context: DrawContext<'_>,
        pressed: bool,
        origin: Option<Pos2>,
    ) -> Vec<Input> {
        let mut inputs = Vec::new();
        let ours = response.is_pointer_button_down_on() || response.hovered();
        if let Some(pos) = origin.filter(|_| pressed && ours) {
            if self.by_keys {
                inputs.push(Input::Cancel);
                self.by_keys = false;
            }
            self.cursor = None;
            let add = ctx.input(|i| i.modifiers.shift);
            inputs.push(Input::Press { at: pos, place: self.start(context, pos), over: self.over(context, pos), add });
        }
        if self.by_keys || (self.pencil.is_idle() && inputs.is_empty()) {
            return inputs;
        }
        let drawing = matches!(self.pencil, DrawGesture::Drawing { .. });
        let (latest, way, up) = ctx.input(|i| {
            let way = i.events.iter().filter_map(|e| match e {
                egui::Event::PointerMoved(pos) => Some(*pos),
                _ => None,
            });
            let way: Vec<Pos2> = if drawing { way.collect() } else { Vec::new() };
            (i.pointer.latest_pos(), way, i.pointer.primary_released() || !i.pointer.primary_down())
        });
        for pos in way.into_iter().chain(latest) {
            let over = self.mark_under(context, pos);
            inputs.push(Input::Move { at: pos, place: self.start(context, pos), over });
        }
        if up {
            inputs.push(Input::Release);
        }
        inputs
    }

    /// The place of a point for a tool: things snap to the lines, the pen and the choice do not.
    fn start(&self, context: DrawContext<'_>, pos: Pos2) -> DVec2 {
        self.taken(context, context.at.court_from_screen(pos))
    }

    fn taken(&self, context: DrawContext<'_>, place: DVec2) -> DVec2 {
        match self.tool {
            None | Some(Tool::Select | Tool::Pen | Tool::Eraser) => place,
            Some(_) if matches!(self.pencil, DrawGesture::Pulling { .. }) => place,
            Some(_) => context.held(place),
        }
    }

    /// Feeds an input to the gesture and turns its effects into actions.
    fn step(&mut self, input: Input, context: DrawContext<'_>, out: &mut Outbox) {
        let letter = context.marks().map(draw::next_letter).unwrap_or_default();
        let effects = self.pencil.step(self.tool.unwrap_or(Tool::Select), input, &letter);
        let chosen = context.session.chosen();
        // A moved mark is chosen first, so that undoing the move chooses it again.
        for effect in &effects {
            if let Effect::Carry(mark, _) = effect
                && !chosen.contains(mark)
            {
                out.push(Action::ChooseMarks(vec![*mark]));
            }
        }
        for effect in effects {
            out.extend(self.action(effect, context));
        }
    }

    fn action(&mut self, effect: Effect, context: DrawContext<'_>) -> Option<Action> {
        let marks = context.marks()?;
        let chosen = context.session.chosen();
        Some(match effect {
            Effect::Begin(label) => Action::Gesture(Gesture::Begin(label)),
            Effect::Commit => Action::Gesture(Gesture::Commit),
            Effect::Cancel => Action::Gesture(Gesture::Cancel),
            Effect::Add(form) => Action::Draw(Draw::Add(self.ink, finished(form, context.at)?)),
            Effect::Write(place) => {
                self.writing = Some(Writing::at(place));
                return None;
            }
            Effect::Erase(mark) => Action::Draw(Draw::Remove(vec![mark])),
            Effect::Choose(mark, add) => Action::ChooseMarks(choice(chosen, mark, add)),
            Effect::Gather(from, to, add) => {
                let mut ids = if add { chosen.to_vec() } else { Vec::new() };
                let inside = under::inside(marks, from, to);
                ids.extend(inside.into_iter().filter(|id| add.then(|| chosen.contains(id)) != Some(true)));
                Action::ChooseMarks(ids)
            }
            Effect::Carry(mark, place) => {
                let form = &marks.get(mark)?.form;
                let ids = if chosen.contains(&mark) { chosen.to_vec() } else { vec![mark] };
                Action::Draw(Draw::Shift(ids, context.held(place) - draw::anchor(form)))
            }
            Effect::Pull(grip, place) => {
                let form = &marks.get(grip.mark)?.form;
                let place = if grip.part == Part::Bend { place } else { context.held(place) };
                Action::Draw(Draw::Put(grip.mark, grips::pulled(form, grip.part, place)))
            }
        })
    }

    /// Marks follow the focus of the keyboard.
    fn focus(&mut self, ctx: &Context, context: DrawContext<'_>, out: &mut Outbox) {
        if std::mem::take(&mut self.wants_focus) {
            ctx.memory_mut(|m| m.request_focus(Self::cursor_id()));
        }
        let focus = ctx.memory(egui::Memory::focused);
        let marks = context.marks().into_iter().flat_map(Marks::shown);
        let focused = focus.and_then(|id| marks.map(|m| m.id).find(|m| Self::mark_id(*m) == id));
        if focused != self.focused {
            self.focused = focused;
            if let Some(mark) = focused.filter(|mark| !context.session.chosen().contains(mark)) {
                out.push(Action::ChooseMarks(vec![mark]));
            }
        }
    }

    /// Cancels the gesture: a second finger moves the court.
    pub fn give_up(&mut self, context: DrawContext<'_>, out: &mut Outbox) {
        self.step(Input::Cancel, context, out);
    }
}

/// Smooths a freehand line; one too short to be seen is dropped.
fn finished(form: Form, at: &Transform) -> Option<Form> {
    match form {
        Form::Pen { points, pattern } => {
            let points = smoothed(&points, TOLERANCE / f64::from(at.scale()));
            (points.len() > 1).then_some(Form::Pen { points, pattern })
        }
        other => Some(other),
    }
}

/// The choice after a click.
fn choice(chosen: &[MarkId], mark: Option<MarkId>, add: bool) -> Vec<MarkId> {
    match mark {
        Some(mark) if add && chosen.contains(&mark) => chosen.iter().copied().filter(|m| *m != mark).collect(),
        Some(mark) if add => chosen.iter().copied().chain([mark]).collect(),
        Some(mark) => vec![mark],
        None if add => chosen.to_vec(),
        None => Vec::new(),
    }
}

/// Escape steps back one at a time: gesture, words, choice, tool.
const BACK: Key = Key::Escape;
