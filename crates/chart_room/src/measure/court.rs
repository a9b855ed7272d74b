//! The court of the target test: the place of the racket, the target, and where the balls landed.

use egui::{DragValue, Id, Rect, Sense, Stroke, Ui};
use glam::{DVec2, dvec2};
use standpoint_board::{Units, chart::Setup, model::Page};
use standpoint_canvas::{
    announce,
    brush::{Brush, Side},
    court,
};
use standpoint_language::{text, tr};
use standpoint_ui::{theme::Theme, transform::CourtView, widgets::row};
use standpoint_workbench::{chart::measure::fits::Targets, words};

/// Height of the contact, m.
const HEIGHT_M: f64 = 0.95;

/// The item that a click on the court places.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Mode {
    #[default]
    Landing,
    Target,
    Contact,
}

/// The entered target test; the player is at the near end.
#[derive(Debug, Clone)]
pub struct Range {
    contact: DVec2,
    target: DVec2,
    landings: Vec<DVec2>,
    netted: usize,
    mode: Mode,
    rect: Option<Rect>,
}

impl Default for Range {
    fn default() -> Self {
        Self {
            contact: dvec2(1.5, -12.2),
            target: dvec2(-2.5, 9.0),
            landings: Vec::new(),
            netted: 0,
            mode: Mode::default(),
            rect: None,
        }
    }
}

impl Range {
    /// What has been entered.
    #[must_use]
    pub fn test(&self, setup: &Setup) -> Targets {
        Targets {
            conditions: setup.board(vec![Page::blank().into()]).conditions(),
            contact: self.contact.extend(HEIGHT_M),
            target: self.target,
            landings: self.landings.clone(),
            netted: self.netted,
        }
    }

    /// The court; clicks count while the test is open.
    pub fn ui(&mut self, ui: &mut Ui, setup: &Setup, theme: &Theme, active: bool) {
        let rect = ui.available_rect_before_wrap();
        let response = ui.interact(rect, Id::unique("target court"), Sense::CLICK);
        ui.advance_cursor_after_rect(rect);
        self.rect = Some(rect);
        let lines = setup.court.court();
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, *theme.ui.canvas);
        let at = CourtView::fitted(0).transform(rect, &lines);
        let brush = Brush::new(&painter, at, theme);
        court::ground(&brush, &lines);
        court::lines(&brush, &lines);
        court::net(&brush, &lines);
        let value =
            tr!("{n} landing, {0} in the net" | "{n} landings, {0} in the net" % self.landings.len(), self.netted);
        announce::describe(
            ui,
            &response,
            egui::accesskit::Role::GraphicsDocument,
            text("Court of the target test"),
            &value,
        );
        if !active {
            return;
        }
        if response.hovered() {
            ui.ctx().set_cursor_icon(egui::CursorIcon::Crosshair);
        }
        if response.clicked()
            && let Some(pos) = response.interact_pointer_pos()
        {
            self.click(at.court_from_screen(pos));
        }
        self.paint(&brush);
    }

    fn click(&mut self, place: DVec2) {
        match self.mode {
            Mode::Landing if place.y > 0.0 => self.landings.push(place),
            Mode::Target if place.y > 0.5 => self.target = place,
            Mode::Contact if place.y < -0.5 => self.contact = place,
            _ => {}
        }
    }

    fn paint(&self, brush: &Brush<'_>) {
        let contact = brush.point(self.contact);
        let target = brush.point(self.target);
        let ink = brush.theme.court.ink.gamma_multiply(0.8);
        let dotted = standpoint_canvas::brush::Dash::Pattern(brush.theme.m.pattern.dotted);
        brush.stroke(&[contact, target], Stroke::new(1.4, ink), dotted);
        brush.ring(contact, 7.0, 2.2, Side::Hitter);
        for radius in [5.0, 11.0] {
            brush.ring(target, radius, 2.0, Side::Opponent);
        }
        for landing in &self.landings {
            brush.bounce(brush.point(*landing), Side::Hitter);
        }
    }

    /// Choice of the item that a click places, and other entries.
    pub fn controls(&mut self, ui: &mut Ui, units: Units, theme: &Theme) {
        ui.horizontal_wrapped(|ui| {
            ui.label(text("A click places"));
            let modes = [
                (Mode::Landing, text("a landing")),
                (Mode::Target, text("the target")),
                (Mode::Contact, text("the racket")),
            ];
            for (mode, label) in modes {
                ui.selectable_value(&mut self.mode, mode, label);
            }
        });
        ui.horizontal_wrapped(|ui| {
            let label = ui.label(text("Balls in the net"));
            ui.add(DragValue::new(&mut self.netted).range(0..=50)).labelled_by(label.id);
            if ui
                .add_enabled(!self.landings.is_empty(), egui::Button::new(text("Take the last landing back")))
                .clicked()
            {
                self.landings.pop();
            }
            if ui.add_enabled(!self.landings.is_empty(), egui::Button::new(text("Begin anew"))).clicked() {
                self.landings.clear();
                self.netted = 0;
            }
        });
        let far = |place: DVec2| words::fine_length(place.y.abs(), units);
        let how = tr!(
            "{} landings. The racket is {} from the net, the target {} behind it; the balls are fed from beyond the \
             target.",
            self.landings.len(),
            far(self.contact),
            far(self.target)
        );
        row::note(ui, theme, &how);
    }
}
