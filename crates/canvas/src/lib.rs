//! The court on screen: input first, then painting.
//!
//! [`Canvas::react`] runs at the beginning of a frame, so that the answer to a drag is computed before anything is
//! shown; [`Canvas::show`] only paints and announces.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod action;
pub mod announce;
pub mod brush;
pub mod captions;
pub mod compare;
pub mod court;
pub mod drag;
pub mod draw_gesture;
pub mod drawing_tools;
pub mod eye;
pub mod field;
pub mod flights;
pub mod ghost;
pub mod grips;
pub mod handles;
pub mod inks;
pub mod key;
pub mod labels;
pub mod marks;
pub mod moment;
pub mod numbers;
pub mod overview;
pub mod pictures;
pub mod pinhole;
pub mod readout;
pub mod returner;
pub mod scene;
pub mod sketch;
pub mod tags;
pub mod wedge;

use egui::{Context, CursorIcon, Id, Key, Modifiers, PointerButton, Pos2, Rect, Response, Sense, Ui, Vec2, pos2, vec2};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
    transform::{CourtView, Transform},
};
use standpoint_workbench::{compare::Comparison, edit::Gesture, session::Session, settings::Settings};

use drag::{Drag, Effect, Input};
use handles::{Handle, HandleId};

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_ui::speak_up();
    });
}

/// Snap distance of lines, m.
const HOLD: f64 = 0.25;

/// The court on screen.
#[derive(Default)]
pub struct Canvas {
    drag: Drag,
    rect: Option<Rect>,
    hovered: Option<HandleId>,
    focused: Option<HandleId>,
    scene: scene::Scene,
    drawing_tools: drawing_tools::DrawingTools,
    /// Whether a moment of the rally is shown.
    playing: bool,
    /// Whether the court stands alone, without a key.
    pub clean: bool,
}

impl Canvas {
    fn id() -> Id {
        Id::unique("court")
    }

    /// The identity of a handle, for focus.
    #[must_use]
    pub fn handle_id(handle: HandleId) -> Id {
        Id::unique(("handle", handle))
    }

    /// Whether something is a handle on the court, which shows by itself that it has the focus.
    #[must_use]
    pub fn is_handle(id: Id) -> bool {
        HandleId::ALL.into_iter().any(|handle| Self::handle_id(handle) == id)
    }

    /// Whether the space bar is free for the rally: nothing has the focus that it would press.
    #[must_use]
    pub fn may_take_space(ctx: &Context) -> bool {
        let focus = ctx.memory(egui::Memory::focused);
        focus.is_none_or(Self::is_handle)
    }

    /// The drawing tools.
    #[must_use]
    pub fn drawing_tools(&self) -> &drawing_tools::DrawingTools {
        &self.drawing_tools
    }

    /// The drawing tools, to be changed.
    pub fn drawing_tools_mut(&mut self) -> &mut drawing_tools::DrawingTools {
        &mut self.drawing_tools
    }

    /// Whether something is dragged, or a tool is in hand: Escape belongs to that.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.drag != Drag::Free || self.drawing_tools.tool().is_some()
    }

    /// Whether something is dragged.
    #[must_use]
    pub fn is_dragging(&self) -> bool {
        self.drag != Drag::Free
    }

    /// Where the court was shown last.
    #[must_use]
    pub fn rect(&self) -> Option<Rect> {
        self.rect
    }

    /// Hint for the status line.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        if self.drag == Drag::Free
            && let Some(hint) =
                self.drawing_tools.hint().filter(|_| self.hovered.is_none() || self.drawing_tools.tool().is_some())
        {
            return hint;
        }
        match (self.drag, self.hovered.or(self.focused)) {
            (Drag::Dragging { .. }, _) => text("Let go to keep it, Escape to take it back"),
            (Drag::Panning { .. }, _) => text("F fits the court again"),
            _ if self.playing => text("Space plays and pauses, J and K step, Escape goes back to the board"),
            (_, Some(handle)) => handle.hint(),
            _ => text("Drag the ball, a player or a contact; wheel to zoom; Tab and arrows work too"),
        }
    }

    /// Actions of pointer and keys, based on the last layout of the court.
    pub fn react(
        &mut self,
        ctx: &Context,
        session: &Session,
        view: &CourtView,
        settings: &Settings,
        touch: f32,
    ) -> Outbox {
        let (Some(rect), Some(response)) = (self.rect, ctx.read_response(Self::id())) else { return Outbox::new() };
        let at = view.transform(rect, &session.court());
        let handles = handles::handles(session);
        let mut out = Outbox::new();
        self.pointer(ctx, &response, &at, &handles, touch);
        if let Some(fingers) = ctx.multi_touch().filter(|_| response.hovered() || self.drag != Drag::Free) {
            // Two fingers move the court, whatever the first one dragged.
            for effect in self.drag.step(Input::Cancel) {
                out.push(action(effect, session, view, rect, settings));
            }
            self.drawing_tools.give_up(drawing_tools::DrawContext { at: &at, session, settings, touch }, &mut out);
            let zoomed = view.zoomed(rect, &session.court(), fingers.center_pos, f64::from(fingers.zoom_delta));
            out.push(Action::View(zoomed.panned(rect, &session.court(), fingers.translation_delta)));
            return out;
        }
        let context = drawing_tools::DrawContext { at: &at, session, settings, touch };
        let busy = self.drag != Drag::Free || self.hovered.is_some();
        if self.drawing_tools.react(ctx, &response, context, busy, &mut out) {
            self.hovered = None;
            zoom_and_pan(ctx, &response, view, rect, session, &mut out);
            return out;
        }
        for input in self.inputs(ctx, &response, &at, &handles, touch) {
            for effect in self.drag.step(input) {
                out.push(action(effect, session, view, rect, settings));
            }
        }
        resets(&response, &at, &handles, touch, &mut out);
        zoom_and_pan(ctx, &response, view, rect, session, &mut out);
        self.keys(ctx, &at, &handles, &mut out);
        out
    }

    fn pointer(&mut self, ctx: &Context, response: &Response, at: &Transform, handles: &[Handle], touch: f32) {
        let over = response.hover_pos().filter(|_| response.hovered());
        self.hovered = self
            .drag
            .held()
            .or_else(|| over.and_then(|pos| handles::under(handles, at, pos, touch)).map(|handle| handle.id));
        let icon = match (self.drag, self.hovered) {
            (Drag::Dragging { .. } | Drag::Panning { .. }, _) => CursorIcon::Grabbing,
            (_, Some(_)) => CursorIcon::Grab,
            _ => return,
        };
        ctx.set_cursor_icon(icon);
    }

    /// The pointer of this frame as inputs of the drag.
    fn inputs(&self, ctx: &Context, response: &Response, at: &Transform, handles: &[Handle], touch: f32) -> Vec<Input> {
        let (pressed, released, origin, latest, escape) = ctx.input(|i| {
            let p = &i.pointer;
            (p.primary_pressed(), p.primary_released(), p.press_origin(), p.latest_pos(), i.key_pressed(Key::Escape))
        });
        let mut inputs = Vec::new();
        let ours = response.is_pointer_button_down_on() || response.hovered();
        if let Some(pos) = origin.or(latest).filter(|_| pressed && ours) {
            let over = handles::under(handles, at, pos, touch).map(|h| (h.id, h.place));
            inputs.push(Input::Press { at: pos, place: at.court_from_screen(pos), over });
        }
        if self.drag != Drag::Free || !inputs.is_empty() {
            if escape {
                inputs.push(Input::Cancel);
            }
            inputs.extend(latest.map(|pos| Input::Move { at: pos, place: at.court_from_screen(pos) }));
            if released || !ctx.input(|i| i.pointer.primary_down()) {
                inputs.push(Input::Release);
            }
        }
        inputs
    }

    /// Arrow keys and the delete key for the handle with the focus.
    fn keys(&mut self, ctx: &Context, at: &Transform, handles: &[Handle], out: &mut Outbox) {
        let focus = ctx.memory(egui::Memory::focused);
        let focused = HandleId::ALL.into_iter().find(|h| focus == Some(Self::handle_id(*h)));
        if focused != self.focused {
            self.focused = focused;
            out.push(Action::Gesture(Gesture::Seal));
        }
        let Some(handle) = handles.iter().find(|h| Some(h.id) == focused) else { return };
        if let Some(by) = handles::arrows(ctx, at, handles::STEPS) {
            out.push(Action::Edit(handle.id.moved_to(handle.place + by)));
        }
        if ctx.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Delete)) {
            out.extend(handle.id.reset().map(Action::Edit));
        }
    }

    /// The part of the canvas that shows the court: the keys have theirs below it.
    #[must_use]
    pub fn room(&self, whole: Rect, settings: &Settings, shown: (&Session, &Comparison), theme: &Theme) -> Rect {
        let keys = if self.clean { 0 } else { scene::keys(shown.0, shown.1, settings).len() };
        whole.with_max_y(whole.bottom() - keys as f32 * key::strip_height(theme))
    }

    /// Paints the court with everything on it.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        (session, weighed): (&Session, &Comparison),
        view: &CourtView,
        settings: &Settings,
        theme: &Theme,
    ) {
        let whole = ui.available_rect_before_wrap();
        let rect = self.room(whole, settings, (session, weighed), theme);
        let response = ui.interact(rect, Self::id(), Sense::CLICK | Sense::DRAG);
        ui.advance_cursor_after_rect(whole);
        if self.rect != Some(rect) {
            // Input uses the last layout of the court.
            ui.ctx().request_repaint();
        }
        self.rect = Some(rect);
        self.playing = session.moment().is_some();
        announce::court(ui, &response, session);
        let at = view.transform(rect, &session.court());
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, *theme.ui.canvas);
        let brush = brush::Brush::new(&painter, at, theme);
        let state = scene::State { hovered: self.hovered, held: self.drag.held(), focused: self.focused };
        self.scene.paint(&brush, rect, (session, weighed), settings, state);
        let site = drawing_tools::DrawContext { at: &at, session, settings, touch: theme.m.touch };
        self.drawing_tools.show(ui, &brush, rect, site);
        if !self.clean {
            let strips = ui.painter_at(whole);
            let mut top = rect.bottom();
            for key in scene::keys(session, weighed, settings) {
                let strip = Rect::from_min_size(pos2(whole.left(), top), vec2(whole.width(), key::strip_height(theme)));
                key::strip(&brush.with(&strips), strip, key.as_ref());
                top = strip.bottom();
            }
        }
        if session.moment().is_none() {
            announce::answer(ui, &at, session);
            returner::announce(ui, &at, session);
        }
        announce::handles(ui, &at, session, theme.m.touch);
        if let Some(handle) = self.hovered.filter(|_| self.drag == Drag::Free) {
            hint(&response, handle, &handles::handles(session), &at, theme);
        }
    }
}

/// Says what a handle is beside the thing itself, after the pointer has rested there.
fn hint(response: &Response, id: HandleId, handles: &[Handle], at: &Transform, theme: &Theme) {
    let Some(handle) = handles.iter().find(|handle| handle.id == id) else { return };
    let thing = touch_rect(at.screen_from_court(handle.place), theme.m.touch + 2.0 * theme.m.space.group);
    let mut tip = egui::Tooltip::for_enabled(response);
    tip.popup = tip.popup.anchor(thing).align(egui::RectAlign::TOP_START).gap(0.0);
    tip.show(|ui| ui.label(format!("{}\n{}", id.label(), id.hint())));
}

/// What an effect of the hand asks for.
fn action(effect: Effect, session: &Session, view: &CourtView, rect: Rect, settings: &Settings) -> Action {
    match effect {
        Effect::Begin(handle) => Action::Gesture(Gesture::Begin(handle.moved_to(glam::DVec2::ZERO).label())),
        Effect::Put(handle, place) => {
            let place = if settings.snap { court::snapped(&session.court(), place, HOLD) } else { place };
            Action::Edit(handle.moved_to(place))
        }
        Effect::Commit => Action::Gesture(Gesture::Commit),
        Effect::Cancel => Action::Gesture(Gesture::Cancel),
        Effect::Pan(by) => Action::View(view.panned(rect, &session.court(), by)),
    }
}

/// A double click removes a placement by hand.
fn resets(response: &Response, at: &Transform, handles: &[Handle], touch: f32, out: &mut Outbox) {
    if !response.double_clicked() {
        return;
    }
    let under = response.interact_pointer_pos().and_then(|pos| handles::under(handles, at, pos, touch));
    out.extend(under.and_then(|handle| handle.id.reset()).map(Action::Edit));
}

/// The wheel and a pinch zoom around the pointer; the other buttons pull the court.
fn zoom_and_pan(ctx: &Context, response: &Response, view: &CourtView, rect: Rect, session: &Session, out: &mut Outbox) {
    let court = session.court();
    if let Some(around) = response.hover_pos().filter(|_| response.hovered()) {
        let (scroll, pinch) = ctx.input(|i| (f64::from(i.smooth_scroll_delta().y), f64::from(i.zoom_delta())));
        let factor = (scroll / 240.0).exp() * pinch;
        if (factor - 1.0).abs() > 1e-4 {
            out.push(Action::View(view.zoomed(rect, &court, around, factor)));
        }
    }
    let pulled = response.dragged_by(PointerButton::Middle) || response.dragged_by(PointerButton::Secondary);
    if pulled && response.drag_delta() != Vec2::ZERO {
        out.push(Action::View(view.panned(rect, &court, response.drag_delta())));
    }
}

/// The rectangle around a point that a finger can hit.
#[must_use]
pub fn touch_rect(point: Pos2, touch: f32) -> Rect {
    Rect::from_center_size(point, Vec2::splat(touch))
}
