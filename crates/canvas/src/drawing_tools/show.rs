//! Painting of the drawing tools: current form, choice, cursor, readout; and their announcements.

use egui::{EventFilter, Rect, Sense, Stroke, Ui, accesskit::Role, vec2};
use glam::DVec2;
use standpoint_board::marks::{Form, Mark, Marks};
use standpoint_language::{text, tr};
use standpoint_ui::commands::Outbox;
use standpoint_workbench::sketch::{draw, tape, tool::Tool};

use super::{DrawContext, DrawingTools};
use crate::{
    announce,
    brush::{Brush, Dash},
    draw_gesture::DrawGesture,
    readout, sketch, touch_rect,
};

/// Most marks announced one by one; more are announced together, to keep Tab usable.
const ANNOUNCED: usize = 300;

impl DrawingTools {
    /// Paints over the marks and announces them.
    pub fn show(&mut self, ui: &Ui, brush: &Brush<'_>, rect: Rect, context: DrawContext<'_>) {
        self.paint(brush, context);
        self.announce(ui, rect, context);
        let mut out = Outbox::new();
        if let Some(writing) = &mut self.writing
            && !writing.show(ui, context.at, self.ink, brush.theme, &mut out)
        {
            self.writing = None;
        }
        if !out.is_empty() {
            self.pending.extend(out);
            ui.ctx().request_repaint();
        }
        let finger = ui.input(egui::InputState::any_touches);
        if let Some((place, said)) = self.measured(context) {
            readout::paint(brush, rect, brush.point(place), &said, finger);
        }
    }

    fn paint(&self, brush: &Brush<'_>, context: DrawContext<'_>) {
        let Some(marks) = context.marks() else { return };
        if matches!(self.tool, None | Some(Tool::Select)) {
            for mark in context.session.chosen().iter().filter_map(|id| marks.get(*id)) {
                sketch::chosen(brush, mark);
                if let Some(said) = tape::appears(mark.appears, context.shots()) {
                    // Of several marks the figures are enough.
                    let alone = context.session.chosen().len() == 1;
                    let said = if alone { said } else { tape::appears_short(mark.appears, context.shots()) };
                    sketch::appears(brush, mark, &said);
                }
            }
        }
        if let Some(mark) = self.hovered.filter(|_| self.pencil.is_idle()).and_then(|id| marks.get(id)) {
            sketch::pointed_at(brush, mark);
        }
        if let Some(form) = self.pencil.form(&draw::next_letter(marks)) {
            sketch::form(brush, self.ink, &form);
        }
        if let DrawGesture::Gathering { from, to, far: true, .. } = &self.pencil {
            let rect = Rect::from_two_pos(brush.point(*from), brush.point(*to));
            brush.painter.rect_filled(rect, 0.0, brush.theme.ui.accent.gamma_multiply(0.15));
            sketch::frame(brush, rect, *brush.theme.court.ink);
        }
        for (grip, place) in self.grips(context) {
            let bend = matches!(grip.part, crate::grips::Part::Bend);
            knob(brush, place, bend);
        }
        if self.tool.is_some()
            && let Some(place) = self.cursor
        {
            cursor(brush, place);
        }
    }

    /// The current measurement and its place.
    fn measured(&self, context: DrawContext<'_>) -> Option<(DVec2, String)> {
        let (court, units) = (context.session.court(), context.session.units());
        let marks = context.marks()?;
        let of = |mark: &Mark| tape::form(&court, &mark.form, units);
        let here = self.cursor.or(self.pointer);
        match &self.pencil {
            DrawGesture::Carrying { mark, .. } => {
                let mark = marks.get(*mark)?;
                Some((here.unwrap_or(draw::anchor(&mark.form)), of(mark)))
            }
            DrawGesture::Pulling { grip, moved: true, .. } => Some((here?, of(marks.get(grip.mark)?))),
            DrawGesture::Stretching { to, far: true, .. } => {
                Some((*to, tape::form(&court, &self.pencil.form("")?, units)))
            }
            DrawGesture::Stretching { from, .. } => Some((*from, tape::place(&court, *from, units))),
            DrawGesture::Placing { place, .. } => Some((*place, tape::place(&court, *place, units))),
            DrawGesture::Idle => {
                let tool = self.tool.filter(|tool| !matches!(tool, Tool::Select | Tool::Eraser | Tool::Pen));
                let place = self.taken(context, tool.and(here)?);
                Some((place, tape::place(&court, place, units)))
            }
            _ => None,
        }
    }

    fn announce(&self, ui: &Ui, rect: Rect, context: DrawContext<'_>) {
        let (court, units) = (context.session.court(), context.session.units());
        if self.tool.is_some() {
            let place = self.taken(context, self.cursor_place(context));
            let at = touch_rect(context.at.screen_from_court(place), context.touch);
            let response = ui.interact(at, Self::cursor_id(), Sense::FOCUSABLE);
            let value = format!("{}, {}", tape::place(&court, place, units), tape::quarter(place));
            announce::describe(ui, &response, Role::GraphicsObject, text("Drawing cursor"), &value);
            lock(ui, &response);
        }
        let Some(marks) = context.marks() else { return };
        let shown: Vec<&Mark> = marks.shown().collect();
        if shown.len() > ANNOUNCED {
            let value = tr!("{n} mark" | "{n} marks" % shown.len());
            announce::item(ui, ui.scope_id().with("marks"), rect, Role::GraphicsObject, text("Marks"), &value);
            return;
        }
        for mark in &shown {
            let at = touch_rect(context.at.screen_from_court(draw::anchor(&mark.form)), context.touch);
            let response = ui.interact(at, Self::mark_id(mark.id), Sense::FOCUSABLE);
            let mut value = format!("{}, {}", tape::form(&court, &mark.form, units), tape::ink(mark.ink));
            if let Some(said) = tape::appears(mark.appears, context.shots()) {
                value = format!("{value}, {said}");
            }
            announce::describe(ui, &response, Role::GraphicsObject, &name(marks, mark), &value);
            lock(ui, &response);
        }
    }
}

/// A unique name of a mark: `Cone 2`, `Person B`.
fn name(marks: &Marks, mark: &Mark) -> String {
    match &mark.form {
        Form::Person { letter, .. } => tr!("Player {}", letter),
        Form::Text { text, .. } => tr!("Text: {}", text),
        form => {
            let kind = tape::kind(form);
            let number = marks.list.iter().filter(|m| m.id <= mark.id && tape::kind(&m.form) == kind).count();
            format!("{kind} {number}")
        }
    }
}

/// Focused marks keep the arrow keys.
fn lock(ui: &Ui, response: &egui::Response) {
    if response.has_focus() {
        let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, tab: false, escape: false };
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
    }
}

/// A part of a chosen mark that can be pulled: square at an end, round where it bends.
fn knob(brush: &Brush<'_>, place: DVec2, round: bool) {
    let c = brush.point(place);
    let (fill, edge) = (*brush.theme.court.halo, *brush.theme.court.ink);
    if round {
        brush.painter.circle(c, 7.0, fill, Stroke::new(2.2, edge));
    } else {
        let rect = Rect::from_center_size(c, vec2(11.0, 11.0));
        brush.painter.rect(rect, 2.0, fill, Stroke::new(2.2, edge), egui::StrokeKind::Middle);
    }
}

/// The cursor of the keys: a ring with four ticks that point inwards.
fn cursor(brush: &Brush<'_>, place: DVec2) {
    let c = brush.point(place);
    let (ink, halo) = (*brush.theme.court.ink, *brush.theme.court.halo);
    for (width, color) in [(4.6, halo), (2.0, ink)] {
        brush.painter.circle_stroke(c, 13.0, Stroke::new(width, color));
        for d in [vec2(1.0, 0.0), vec2(-1.0, 0.0), vec2(0.0, 1.0), vec2(0.0, -1.0)] {
            brush.stroke(&[c + d * 5.0, c + d * 19.0], Stroke::new(width, color), Dash::Solid);
        }
    }
}
