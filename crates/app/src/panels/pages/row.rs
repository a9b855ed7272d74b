//! A page in the list: its drawing, number and title.

use egui::{
    Align2, CornerRadius, FontId, Id, Rect, Response, Sense, Stroke, StrokeKind, Ui, accesskit::Role, text::LayoutJob,
    vec2,
};
use standpoint_language::tr;
use standpoint_ui::theme::{Theme, fonts};
use standpoint_workbench::{session::Session, words};

use super::thumb::{self, Thumbs};

/// Height of a row.
pub const HEIGHT: f32 = 104.0;

/// The row; it can be clicked and dragged.
pub fn ui(ui: &mut Ui, page: usize, slim: bool, session: &Session, thumbs: &mut Thumbs, theme: &Theme) -> Response {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    let response = ui.interact(rect, Id::unique(("page", page)), Sense::click_and_drag());
    let chosen = session.selection().page == page;
    let Some(shared) = session.board().pages.get(page) else { return response };
    let label = tr!("Page {0}: {1}", page + 1, shared.title);
    response.widget_info(|| egui::WidgetInfo::selected(Role::ListItem, true, chosen, &label));
    let count = words::shots(shared.shots.len());
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(count.as_str());
    });
    let c = &theme.ui;
    let fill = match (chosen, response.hovered()) {
        (true, _) => *c.chosen,
        (false, true) => *c.hovered,
        (false, false) => *c.panel,
    };
    let radius = CornerRadius::same(theme.m.radius.medium as u8);
    let edge = match (response.has_focus(), chosen) {
        (true, _) => Stroke::new(theme.m.stroke.bold, *c.accent),
        (_, true) => Stroke::new(theme.m.stroke.medium, *c.accent),
        _ => Stroke::NONE,
    };
    ui.painter().rect(rect, radius, fill, edge, StrokeKind::Inside);
    let drawing = Rect::from_min_size(rect.min + vec2(6.0, 4.0), thumb::SIZE);
    thumbs.paint(ui, drawing, shared, session, theme);
    let number = FontId::new(theme.m.text.body, fonts::strong());
    if slim {
        let at = rect.right_top() + vec2(-4.0, 6.0);
        ui.painter().text(at, Align2::RIGHT_TOP, page + 1, number, *c.ink);
    } else {
        let text = Rect::from_min_max(drawing.right_top() + vec2(8.0, 2.0), rect.max - vec2(6.0, 4.0));
        ui.painter().text(text.min, Align2::LEFT_TOP, page + 1, number, *c.ink);
        let mut job = LayoutJob::simple(
            shared.title.clone(),
            FontId::new(theme.m.text.small, egui::FontFamily::Proportional),
            *c.ink,
            text.width(),
        );
        job.wrap.max_rows = 3;
        let galley = ui.painter().layout_job(job);
        ui.painter().galley(text.min + vec2(0.0, 20.0), galley, *c.ink);
        let small = FontId::new(theme.m.text.small, egui::FontFamily::Proportional);
        ui.painter().text(text.left_bottom(), Align2::LEFT_BOTTOM, count, small, *c.soft);
    }
    response
}
