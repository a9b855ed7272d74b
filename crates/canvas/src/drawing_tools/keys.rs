//! Keyboard of the drawing tools: a cursor moved by the arrows, and moving, copying and deleting chosen marks.

use egui::{Context, Key, Modifiers};
use glam::DVec2;
use standpoint_ui::commands::{Action, Command, DrawCommand, Outbox};
use standpoint_workbench::{
    session::Session,
    sketch::{draw::Draw, tool::Tool},
};

use super::{BACK, DrawContext, DrawingTools};
use crate::{
    draw_gesture::{DrawGesture, Input},
    handles,
};

impl DrawingTools {
    /// Keys that apply to chosen marks first.
    #[must_use]
    pub fn keys_first(&self, ctx: &Context, session: &Session) -> Outbox {
        let mut out = Outbox::new();
        if ctx.text_edit_focused() || session.chosen().is_empty() {
            return out;
        }
        if ctx.input_mut(|i| i.consume_key(Modifiers::COMMAND, Key::D)) {
            out.push(Action::Run(Command::Draw(DrawCommand::DuplicateMarks)));
        }
        out
    }

    pub(super) fn keys(&mut self, ctx: &Context, context: DrawContext<'_>, out: &mut Outbox) {
        if ctx.text_edit_focused() {
            return;
        }
        if ctx.input(|i| i.key_pressed(BACK)) {
            self.back(context, out);
        }
        let focus = ctx.memory(egui::Memory::focused);
        let ours = focus.is_none_or(|id| id == Self::cursor_id() || self.focused.is_some());
        if !ours {
            return;
        }
        self.arrows(ctx, context, out);
        let chosen = context.session.chosen();
        let pressed = |key| ctx.input_mut(|i| i.consume_key(Modifiers::NONE, key));
        if !chosen.is_empty() && (pressed(Key::Delete) || pressed(Key::Backspace)) {
            out.push(Action::Run(Command::Draw(DrawCommand::DeleteMarks)));
        }
        if let Some(mark) = self.focused.filter(|_| self.tool.is_none()) {
            if pressed(Key::Enter) {
                self.rewrite(context.session, mark);
            }
        } else if self.tool.is_some() && pressed(Key::Enter) {
            self.enter(context, out);
        }
    }

    /// One step back: gesture, then choice, then tool.
    fn back(&mut self, context: DrawContext<'_>, out: &mut Outbox) {
        if !self.pencil.is_idle() {
            self.by_keys = false;
            self.step(Input::Cancel, context, out);
        } else if self.tool.is_some() {
            self.take(None);
        } else if !context.session.chosen().is_empty() {
            out.push(Action::ChooseMarks(Vec::new()));
        }
    }

    fn arrows(&mut self, ctx: &Context, context: DrawContext<'_>, out: &mut Outbox) {
        let choosing = matches!(self.tool, None | Some(Tool::Select));
        let moves_marks = choosing && self.pencil.is_idle() && !context.session.chosen().is_empty();
        if !moves_marks && self.tool.is_none() {
            return;
        }
        let Some(by) = handles::arrows(ctx, context.at, handles::STEPS) else { return };
        if moves_marks {
            out.push(Action::Draw(Draw::Shift(context.session.chosen().to_vec(), by)));
            return;
        }
        ctx.memory_mut(|m| m.request_focus(Self::cursor_id()));
        let place = context.clamped(self.cursor_place(context) + by);
        self.cursor = Some(place);
        if self.by_keys {
            let at = context.at.screen_from_court(place);
            self.step(
                Input::Move { at, place: self.taken(context, place), over: self.mark_under(context, at) },
                context,
                out,
            );
        }
    }

    /// Where the cursor is, or would appear: under the pointer, or in the middle of the near half.
    pub(super) fn cursor_place(&self, context: DrawContext<'_>) -> DVec2 {
        let middle = DVec2::new(0.0, -context.session.court().half_length() / 2.0);
        self.cursor.or(self.pointer).unwrap_or(middle)
    }

    /// Enter acts at the cursor like pressing the pointer, and the second time like releasing it.
    fn enter(&mut self, context: DrawContext<'_>, out: &mut Outbox) {
        let place = self.cursor_place(context);
        self.cursor = Some(place);
        let at = context.at.screen_from_court(place);
        if self.pencil.is_idle() {
            let over = self.over(context, at);
            self.step(Input::Press { at, place: self.taken(context, place), over, add: false }, context, out);
            self.by_keys = true;
            let two_ends = matches!(self.pencil, DrawGesture::Stretching { .. } | DrawGesture::Drawing { .. });
            let gathers = matches!(self.pencil, DrawGesture::Gathering { .. });
            if two_ends || gathers {
                return;
            }
        }
        self.by_keys = false;
        self.step(Input::Release, context, out);
    }
}

impl DrawContext<'_> {
    fn clamped(&self, place: DVec2) -> DVec2 {
        self.session.board().play_area().clamp_mark(place)
    }
}
