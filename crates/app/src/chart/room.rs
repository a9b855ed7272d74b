//! The room itself: what it holds and how it is laid out.

use std::{path::PathBuf, sync::Arc};

use egui::{Button, CentralPanel, Context, Frame, Id, Label, Margin, Panel, Rect, RichText, Sense, Ui};
use standpoint_board::{
    Units,
    chart::{Chart, Setup, notebook::Notebook},
};

use super::{
    Act, ChartFacts, Face, audit, court, measure, note,
    pad::{self, Pad},
    worker::{Audited, Worker},
};
use crate::{
    canvas::{brush::Brush, transform::View},
    panels::tabs,
    settings::Settings,
    theme::Theme,
};

/// The chart room.
pub struct Room {
    pub(super) open: bool,
    pub(super) face: Face,
    pub(super) notes: Notebook,
    pub(super) path: Option<PathBuf>,
    pub(super) pad: Pad,
    view: View,
    rect: Option<Rect>,
    pub(super) worker: Worker,
    pub(super) audited: Option<Arc<Audited>>,
    pub(super) desk: audit::Desk,
    bench: measure::Bench,
    /// What has just been done or refused.
    pub(super) message: Option<String>,
    /// What to do once the chart has been saved.
    pub(super) then: Option<super::leave::Then>,
}

impl Default for Room {
    fn default() -> Self {
        Self {
            open: false,
            face: Face::default(),
            notes: Notebook::new(Chart::new(Setup::default())),
            path: None,
            pad: Pad::default(),
            view: View::fitted(0),
            rect: None,
            worker: Worker::default(),
            audited: None,
            desk: audit::Desk::default(),
            bench: measure::Bench::default(),
            message: None,
            then: None,
        }
    }
}

impl Room {
    /// Whether the room stands in the place of the board.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.open
    }

    /// The notes, for tests and for what is built around the window.
    #[must_use]
    pub fn notes(&self) -> &Notebook {
        &self.notes
    }

    /// The audit of the notes as they are now.
    #[must_use]
    pub fn audited(&self) -> Option<&Arc<Audited>> {
        self.audited.as_ref().filter(|audited| audited.version == self.notes.version())
    }

    /// Whether an audit goes on.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.worker.progress().is_some()
    }

    /// Where a place is on the screen while a match is noted, once it has been shown.
    #[must_use]
    pub fn point(&self, place: glam::DVec2) -> Option<egui::Pos2> {
        Some(pad::point(&self.view, self.rect?, &self.notes.setup().court.court(), place))
    }

    /// What the catalogue has to know.
    #[must_use]
    pub fn facts(&self) -> ChartFacts {
        ChartFacts { open: self.open, face: self.face, shots: self.notes.shots(), audited: self.audited().is_some() }
    }

    fn court_id() -> Id {
        Id::unique("chart court")
    }

    /// Takes up what has come, and what pointer and keys ask for.
    pub fn react(&mut self, ctx: &Context, idle: bool, settings: &Settings) -> Vec<Act> {
        match self.worker.take() {
            Some(Ok(audited)) => self.audited = Some(Arc::new(audited)),
            Some(Err(problem)) => self.message = Some(problem),
            None => {}
        }
        let mut out = Vec::new();
        if !self.open || !idle {
            return out;
        }
        if self.face == Face::Note {
            if self.view.turn != settings.turn {
                self.view = View::fitted(settings.turn);
            }
            let (Some(rect), Some(response)) = (self.rect, ctx.read_response(Self::court_id())) else { return out };
            let court = self.notes.setup().court.court();
            let at = self.view.transform(rect, &court);
            self.pad.pointer(ctx, &response, &at, &mut out);
            let focus = ctx.memory(egui::Memory::focused);
            if !ctx.text_edit_focused() && focus.is_none_or(|id| id == Self::court_id()) {
                self.pad.keys(ctx, self.notes.draft(), &court, &at, &mut out);
            }
            self.view = pad::moved(ctx, &response, self.view, rect, &court);
        }
        out
    }

    /// Shows the room.
    pub fn show(&mut self, ui: &mut Ui, units: Units, theme: &Theme, out: &mut Vec<Act>) {
        let ground = Frame::new().fill(*theme.ui.panel);
        let edge = theme.m.space.edge as i8;
        Panel::bottom("chart status").frame(ground.inner_margin(Margin::symmetric(edge, 2))).show(ui, |ui| {
            self.status(ui, theme);
        });
        let head = ground.inner_margin(Margin::symmetric(edge, theme.m.space.small as i8));
        Panel::top("chart head").frame(head).show(ui, |ui| self.head(ui, theme, out));
        match self.face {
            Face::Note => self.note(ui, theme, out),
            Face::Measure => {
                let audited = self.audited().cloned();
                let report = audited.as_deref().map(|audited| &audited.report);
                let view = measure::View { setup: &Arc::clone(self.notes.setup()), report, units, theme };
                self.bench.show(ui, &view, out);
            }
            Face::Audit => {
                let audited = self.audited().cloned();
                let view = audit::View {
                    audited: audited.as_deref(),
                    setup: &Arc::clone(self.notes.setup()),
                    shots: self.notes.shots(),
                    progress: self.worker.progress(),
                    units,
                    theme,
                };
                self.desk.show(ui, &view, out);
            }
        }
    }

    fn head(&self, ui: &mut Ui, theme: &Theme, out: &mut Vec<Act>) {
        ui.horizontal(|ui| {
            let setup = self.notes.setup();
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                if ui.add(Button::new("Back to the board")).clicked() {
                    out.push(Act::Leave);
                }
                ui.add_space(theme.m.space.item);
                let faces = [
                    (Face::Note, "Note", "Note a match shot by shot"),
                    (Face::Audit, "Audit", "Where players stood against where they should have"),
                    (Face::Measure, "Measure", "Players from sprints, a speed gun, a target test, and their habits"),
                ];
                ui.allocate_ui_with_layout(
                    egui::vec2(340.0, theme.m.control),
                    egui::Layout::left_to_right(egui::Align::Center),
                    |ui| {
                        if let Some(face) = tabs::row(ui, theme, self.face, &faces) {
                            out.push(Act::Face(face));
                        }
                    },
                );
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    ui.add(Label::new(RichText::new(&setup.title).text_style(egui::TextStyle::Heading)).truncate());
                });
            });
        });
    }

    fn note(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Vec<Act>) {
        let p = &theme.m.panel;
        let edge = theme.m.space.edge as i8;
        let frame = Frame::new().fill(*theme.ui.panel).inner_margin(Margin::symmetric(edge, 6));
        let panel = if ui.available_width() >= p.below_width {
            Panel::right("chart notes").default_size(p.width).size_range(p.least..=p.most)
        } else {
            Panel::bottom("chart notes below").default_size(ui.available_height() * 0.45).resizable(true)
        };
        panel.frame(frame).show(ui, |ui| note::ui(ui, &self.notes, theme, out));
        CentralPanel::no_frame().show(ui, |ui| self.court(ui, theme));
    }

    fn court(&mut self, ui: &mut Ui, theme: &Theme) {
        let rect = ui.available_rect_before_wrap();
        let response = ui.interact(rect, Self::court_id(), Sense::CLICK | Sense::DRAG);
        ui.advance_cursor_after_rect(rect);
        if self.rect != Some(rect) {
            ui.ctx().request_repaint();
        }
        self.rect = Some(rect);
        court::announce(ui, &response, &self.notes, &self.pad);
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, *theme.ui.canvas);
        let at = self.view.transform(rect, &self.notes.setup().court.court());
        court::paint(&Brush { painter: &painter, at, theme }, &self.notes, &self.pad);
    }

    fn status(&self, ui: &mut Ui, theme: &Theme) {
        ui.horizontal(|ui| {
            ui.set_min_height(22.0);
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                let name = self.path.as_ref().and_then(|p| p.file_name()).map(|n| n.to_string_lossy().into_owned());
                let mut file = name.unwrap_or_else(|| "chart not saved to a file yet".to_owned());
                if !self.notes.is_saved() {
                    file.push_str(", changed");
                }
                ui.label(RichText::new(file).small().color(*theme.ui.soft));
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    let usual = "Figures are estimates of a model; a qualified coach decides";
                    let said = self.message.as_deref().unwrap_or(usual);
                    let color = if self.message.is_some() { *theme.ui.ink } else { *theme.ui.soft };
                    ui.add(Label::new(RichText::new(said).small().color(color)).truncate());
                });
            });
        });
    }
}
