//! Layout of the window.

use egui::{Area, CentralPanel, Frame, Id, Margin, Order, Panel, Sense, Ui, UiBuilder, Vec2};
use standpoint_canvas::{action, brush::Brush, eye};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Command, CompareCommand, Facts, Outbox, ViewCommand},
    theme::{Theme, icons::Icon},
    widgets::{menu, tabs},
};

use standpoint_workbench::settings::Sight;

use super::{App, parts::Layout};
use crate::panels;

impl App {
    pub(super) fn show(&mut self, ui: &mut Ui, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        if self.canvas.clean && !self.room.is_open() {
            return self.court_alone(ui, theme, out);
        }
        let m = &theme.m;
        let layout = self.layout();
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
        if layout.status {
            let frame = ground.inner_margin(Margin::symmetric(m.space.edge as i8, 2));
            Panel::bottom("status").frame(frame).show(ui, |ui| {
                let hint = self.canvas.hint();
                panels::status::ui(ui, &self.session, facts, hint, self.message.as_deref(), theme, out);
            });
        }
        self.rally_panels(ui, layout, facts, theme, out);
        self.side_panel(ui, layout, theme, out);
        Panel::top("headline").frame(ground.inner_margin(edge)).show_separator_line(false).show(ui, |ui| {
            if self.settings.comparing {
                panels::compare::headline(ui, &self.session, &self.comparison, self.is_solving(), theme);
            } else {
                panels::headline::ui(ui, &self.session, self.is_solving(), theme);
            }
        });
        if layout.tools {
            panels::tools::bar(ui, facts, theme, out);
        }
        self.court(ui, theme, out);
        if let Some(rect) = self.canvas.rect() {
            self.hints.show(ui.ctx(), rect, theme);
        }
    }

    /// The court in what is left of the window.
    fn court(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        CentralPanel::no_frame().show(ui, |ui| {
            let whole = ui.available_rect_before_wrap();
            let perspective = self.settings.perspective;
            let (court, view) = match (perspective.shown, perspective.alone) {
                (false, _) => (whole, None),
                (true, false) => {
                    let (court, view) = eye::beside(whole, theme);
                    (court, Some(view))
                }
                (true, true) => return self.perspective(ui, whole, theme),
            };
            ui.scope_builder(UiBuilder::new().max_rect(court), |ui| {
                self.settle_view(court, theme);
                self.canvas.show(ui, (&self.session, &self.comparison), &self.view, &self.settings, theme);
                self.compared_targets(ui, theme, out);
            });
            if let Some(view) = view {
                self.perspective(ui, view, theme);
            }
        });
    }

    /// What is seen from the court.
    fn perspective(&self, ui: &mut Ui, rect: egui::Rect, theme: &Theme) {
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, *theme.ui.panel);
        let at = self.view.transform(rect, &self.session.court());
        let brush = Brush::new(&painter, at, theme).of(&self.session);
        let layers = &self.settings.layers;
        let shown = eye::Shown { wedge: layers.wedge, replies: layers.replies, answer: layers.field };
        for (rect, sight) in eye::split(rect, self.settings.perspective.sight) {
            eye::paint(&brush, rect, &self.session, sight, shown);
            eye::announce(ui, Id::unique(("perspective", sight == Sight::Eyes)), rect, &self.session, sight, shown);
        }
    }

    /// Fits the court anew to what it has to show, unless something is under the hand or moving.
    fn settle_view(&mut self, whole: egui::Rect, theme: &Theme) {
        let rect = self.canvas.room(whole, &self.settings, (&self.session, &self.comparison), theme);
        let still = !self.session.history().in_gesture() && !self.canvas.is_dragging();
        if self.view.moved.is_none() && still {
            self.view = action::fitted(self.view, rect, &self.session, self.settings.turned);
        }
    }

    /// The court without anything around it but a way back.
    fn court_alone(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        self.court(ui, theme, out);
        let Some(rect) = self.canvas.rect() else { return };
        let back = Command::View(ViewCommand::Clean).spec();
        let corner = rect.left_top() + Vec2::splat(theme.m.space.item);
        let area = Area::new(Id::unique("way back")).order(Order::Middle).fixed_pos(corner);
        area.show(ui.ctx(), |ui| {
            let response = ui.allocate_response(Vec2::splat(theme.m.touch), Sense::click());
            let label = text("Menus and panels");
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, label));
            let strong = response.hovered() || response.has_focus();
            let ground = theme.ui.raised.gamma_multiply(if strong { 1.0 } else { 0.5 });
            ui.painter().rect_filled(response.rect.shrink(4.0), theme.m.radius.medium, ground);
            theme.icons.paint(ui.painter(), response.rect.shrink(12.0), Icon::Menu, *theme.ui.ink);
            if response.on_hover_text(menu::tip(ui.ctx(), label, back)).clicked() {
                out.push(Action::Run(back.command));
            }
        });
        // Keys that open menus elsewhere bring them back.
        if ui.input_mut(|i| i.consume_key(egui::Modifiers::NONE, egui::Key::F10)) {
            out.push(Action::Run(back.command));
        }
    }

    /// The row of shots below the court, and the pages at the left.
    fn rally_panels(&mut self, ui: &mut Ui, layout: Layout, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        let ground = Frame::new().fill(*theme.ui.panel);
        let hair = theme.m.space.small as i8;
        if layout.rally {
            let frame = ground.inner_margin(Margin::symmetric(theme.m.space.edge as i8, hair));
            Panel::bottom("rally").frame(frame).show(ui, |ui| {
                self.strip.ui(ui, &self.session, facts, theme, out);
            });
        }
        if let Some(slim) = layout.pages {
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
    fn side_panel(&self, ui: &mut Ui, layout: Layout, theme: &Theme, out: &mut Outbox) {
        let Some(width) = layout.panel else { return };
        let p = &theme.m.panel;
        let edge = theme.m.space.edge as i8;
        let margin = Margin { left: edge, right: theme.m.space.hair as i8, top: 4, bottom: 4 };
        let frame = Frame::new().fill(*theme.ui.panel).inner_margin(margin);
        let whole = ui.available_size();
        if p.beside(whole) {
            let panel = Panel::right("figures").frame(frame).default_size(width).size_range(p.least..=p.most);
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
