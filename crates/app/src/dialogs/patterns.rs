//! The dialog of ready patterns, mirrored or not, each with a small drawing of it.

use egui::{Button, Rect, ScrollArea, TextStyle, Ui, Vec2, vec2};
use standpoint_board::{Page, patterns::Pattern};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, focus::Following as _, style},
    widgets::mini,
};
use standpoint_workbench::{arrange::Arrange, session::Session};

/// Size of a drawing, points.
const DRAWING: Vec2 = Vec2::new(66.0, 112.0);

/// What has been chosen so far.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Patterns {
    mirrored: bool,
    /// The pages that the patterns would become, to be drawn; made anew when they are mirrored.
    pages: Vec<Page>,
}

impl Patterns {
    /// The patterns with what they teach; a click adds the page.
    pub fn ui(&mut self, ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
        if ui.checkbox(&mut self.mirrored, text("Mirrored, for the other wing")).changed() {
            self.pages.clear();
        }
        if self.pages.is_empty() {
            self.pages = Pattern::ALL.map(|pattern| pattern.page(session.board(), self.mirrored)).to_vec();
        }
        ui.add_space(theme.m.space.item);
        let height = (ui.ctx().content_rect().height() * 0.8 - 160.0).max(160.0);
        ScrollArea::vertical().max_height(height).auto_shrink([false, true]).show_following(ui, |ui| {
            for (pattern, page) in Pattern::ALL.into_iter().zip(&self.pages) {
                if self.entry(ui, pattern, page, session, theme) {
                    out.push(Action::CloseDialog);
                    out.push(Action::Arrange(Arrange::AddPattern(pattern, self.mirrored)));
                }
            }
        });
        ui.add_space(theme.m.space.group);
        if ui.button(text("Cancel")).clicked() {
            out.push(Action::CloseDialog);
        }
    }

    /// A pattern: its drawing, its name and what it teaches; returns whether it was clicked.
    fn entry(&self, ui: &mut Ui, pattern: Pattern, page: &Page, session: &Session, theme: &Theme) -> bool {
        let pad = theme.m.space.small;
        let width = ui.available_width() - theme.m.space.item;
        let size = vec2(width, DRAWING.y + 2.0 * pad);
        let response = ui.add(Button::new("").min_size(size));
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, pattern.label()));
        let inner = response.rect.shrink(pad);
        let drawing = Rect::from_min_size(inner.min, DRAWING);
        let (at, shapes) = mini::court(drawing, &session.court(), false, theme);
        let painter = ui.painter().with_clip_rect(drawing.intersect(ui.clip_rect()));
        painter.extend(shapes);
        for way in mini::ways(page) {
            painter.extend(mini::way(&at, &way, session.board().coached, 1.6, theme));
        }
        painter.extend(mini::marks(&at, &page.marks, theme));
        let beside = inner.with_min_x(drawing.right() + theme.m.space.group).shrink2(vec2(0.0, theme.m.space.small));
        // Painted, because the button says both already.
        let said = |words: &str, font: TextStyle, ink: egui::Color32| {
            ui.painter().layout(words.to_owned(), font.resolve(ui.style()), ink, beside.width())
        };
        let name = said(pattern.label(), style::emphasis(), *theme.ui.ink);
        let why = said(pattern.purpose(), TextStyle::Body, *theme.ui.soft);
        let below = beside.min + vec2(0.0, name.size().y + theme.m.space.small);
        ui.painter().galley(beside.min, name, *theme.ui.ink);
        ui.painter().galley(below, why, *theme.ui.soft);
        response.clicked()
    }
}
