//! Layout of the window.

use egui::{CentralPanel, Frame, Margin, Panel, Ui};
use standpoint_ui::{
    commands::{Action, Command, CompareCommand, Facts, Outbox},
    theme::Theme,
    widgets::{menu, tabs},
};

use super::App;
use crate::panels;

impl App {
    pub(super) fn show(&mut self, ui: &mut Ui, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        let m = &theme.m;
        let ground = Frame::new().fill(*theme.ui.panel);
        let edge = Margin::symmetric(m.space.edge as i8, 0);
        Panel::top("menu").frame(ground.inner_margin(Margin::symmetric(m.space.item as i8, 2))).show(ui, |ui| {
            out.extend(menu::ui(ui, facts, theme).map(|chosen| match chosen {
                menu::Chosen::Command(command) => Action::Run(command),
                menu::Chosen::Recent(path) => Action::OpenPath(path),
            }));
        });
        if self.room.is_open() {
            let mut acts = Vec::new();
            let board = standpoint_chart_room::OfBoard {
                document: self.session.document(),
                said: self.message.as_deref(),
                letter: self.settings.letter_paper,
            };
            self.room.show(ui, &board, theme, &mut acts);
            out.extend(acts.into_iter().map(Action::Chart));
            return;
        }
        Panel::bottom("status").frame(ground.inner_margin(Margin::symmetric(m.space.edge as i8, 2))).show(ui, |ui| {
            let hint = self.canvas.hint();
            panels::status::ui(ui, &self.session, facts.unsaved, hint, self.message.as_deref(), theme);
        });
        self.rally_panels(ui, facts, theme, out);
        self.side_panel(ui, theme, out);
        Panel::top("headline").frame(ground.inner_margin(edge)).show_separator_line(false).show(ui, |ui| {
            if self.settings.comparing {
                panels::compare::headline(ui, &self.session, &self.comparison, self.is_solving(), theme);
            } else {
                panels::headline::ui(ui, &self.session, self.is_solving(), theme);
            }
        });
        if self.settings.tools {
            panels::tools::bar(ui, facts, theme, out);
        }
        CentralPanel::no_frame().show(ui, |ui| {
            self.canvas.show(ui, (&self.session, &self.comparison), &self.view, &self.settings, theme);
            self.compared_targets(ui, theme, out);
        });
        if let Some(rect) = self.canvas.rect() {
            self.hints.show(ui.ctx(), rect, theme);
        }
    }

    /// The row of shots below the court, and the pages at the left.
    fn rally_panels(&mut self, ui: &mut Ui, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        let ground = Frame::new().fill(*theme.ui.panel);
        let hair = theme.m.space.small as i8;
        if self.settings.rally {
            let frame = ground.inner_margin(Margin::symmetric(theme.m.space.edge as i8, hair));
            Panel::bottom("rally").frame(frame).show(ui, |ui| {
                self.strip.ui(ui, &self.session, facts, theme, out);
            });
        }
        if self.settings.pages {
            let slim = ui.available_width() < panels::pages::SLIM_BELOW;
            let left = if slim { hair } else { theme.m.space.edge as i8 };
            let frame = ground.inner_margin(Margin { left, ..Margin::same(hair) });
            let (narrow, wide) = panels::pages::WIDTHS;
            let panel = if slim {
                Panel::left("pages slim").exact_size(narrow).resizable(false)
            } else {
                Panel::left("pages").default_size(wide).size_range(180.0..=360.0)
            };
            panel.frame(frame).show(ui, |ui| self.pages.ui(ui, slim, &self.session, facts, theme, out));
        }
    }

    /// The panel with the figures: beside the court, or below it in a narrow window.
    fn side_panel(&self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        if !self.settings.panel {
            return;
        }
        let p = &theme.m.panel;
        let edge = theme.m.space.edge as i8;
        let margin = Margin { left: edge, right: theme.m.space.hair as i8, top: 4, bottom: 4 };
        let frame = Frame::new().fill(*theme.ui.panel).inner_margin(margin);
        let whole = ui.available_size();
        if p.beside(whole) {
            let panel = Panel::right("figures").frame(frame).default_size(p.width).size_range(p.least..=p.most);
            panel.show(ui, |ui| self.figures(ui, false, theme, out));
        } else {
            let panel = Panel::bottom("figures below").frame(frame).default_size(whole.y * 0.38);
            let panel = panel.resizable(true).size_range(120.0..=whole.y * 0.6);
            panel.show(ui, |ui| self.figures(ui, true, theme, out));
        }
    }

    /// The figures of the answer, or those of the compared shots.
    fn figures(&self, ui: &mut Ui, wide: bool, theme: &Theme, out: &mut Outbox) {
        // The contents keep a margin for the scroll bar, so that it takes no width.
        ui.spacing_mut().scroll.floating_allocated_width = 0.0;
        if tabs::ui(ui, self.settings.comparing, theme).is_some() {
            out.push(Action::Run(Command::Compare(CompareCommand::Compare)));
        }
        if self.settings.comparing {
            let layers = &self.comparison.state().on_court(&self.settings);
            let view =
                panels::compare::CompareView { session: &self.session, comparison: &self.comparison, layers, theme };
            panels::compare::ui(ui, wide, view, out);
        } else if wide {
            panels::side::wide_ui(ui, &self.session, theme, out);
        } else {
            panels::side::ui(ui, &self.session, theme, out);
        }
    }

    /// Handles of the targets in the comparison.
    fn compared_targets(&self, ui: &Ui, theme: &Theme, out: &mut Outbox) {
        let Some(rect) = self.canvas.rect() else { return };
        let at = self.view.transform(rect, &self.session.court());
        let layers = &self.comparison.state().on_court(&self.settings);
        let view =
            standpoint_canvas::compare::OverlayView { session: &self.session, comparison: &self.comparison, layers };
        standpoint_canvas::compare::targets::ui(ui, &at, view, theme, out);
    }
}
