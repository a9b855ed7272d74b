//! Targets placed by hand: they can be dragged, and the aim map shows its value under the pointer.

use egui::{
    Align2, CornerRadius, CursorIcon, EventFilter, FontId, Id, Key, Modifiers, Pos2, Rect, Sense, Stroke, StrokeKind,
    Ui, accesskit::Role, vec2,
};
use glam::DVec2;
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, fonts},
    transform::Transform,
};
use standpoint_workbench::{
    compare::{
        state::{Change, Item, Target},
        words as said,
    },
    words,
};

use super::OverlayView;
use crate::{handles, touch_rect};

/// The identity of a target, for focus.
#[must_use]
pub fn id(number: u32) -> Id {
    Id::unique(("weighed target", number))
}

/// Handles dragging and keys of targets. Called after the court was shown, so that targets lie over it.
pub fn ui(ui: &Ui, at: &Transform, view: OverlayView<'_>, theme: &Theme, out: &mut Outbox) {
    if view.layers.ghosts {
        for target in &view.comparison.state().targets {
            one(ui, at, view, target, theme.m.touch, out);
        }
    }
    if view.layers.aim {
        value_under_pointer(ui, at, view, theme);
    }
}

fn one(ui: &Ui, at: &Transform, view: OverlayView<'_>, target: &Target, touch: f32, out: &mut Outbox) {
    let end = view.session.hitter_end();
    let place = end.turn2(target.seen);
    let point = at.screen_from_court(place);
    let response =
        ui.interact(touch_rect(point, touch), id(target.number), Sense::CLICK | Sense::DRAG | Sense::FOCUSABLE);
    let value = said::aim_place(place, end, &view.session.court(), view.session.units());
    let label = said::label(Item::Target(target.number));
    response.widget_info(|| egui::WidgetInfo::labeled(Role::GraphicsObject, true, &label));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value.as_str());
        node.set_description(text("Drag it to compare another target. Arrow keys move it, with Shift further"));
    });
    let mut move_to = |place: DVec2| out.push(Action::Compare(Change::MoveTarget(target.number, place)));
    if response.drag_started() {
        response.request_focus();
    }
    if response.dragged() {
        ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
        let by = at.court_from_screen(point + response.drag_delta()) - place;
        if by != DVec2::ZERO {
            move_to(place + by);
        }
    } else if response.hovered() {
        ui.ctx().set_cursor_icon(CursorIcon::Grab);
    }
    if response.has_focus() {
        let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, tab: false, escape: false };
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
        if let Some(by) = handles::arrows(ui.ctx(), at, handles::STEPS) {
            move_to(place + by);
        }
        if ui.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Delete)) {
            out.push(Action::Compare(Change::RemoveTarget(target.number)));
        }
    }
    response.on_hover_text(tr!("{}\nDrag it to compare another target; Delete takes it away", label));
}

/// What aiming at the place under the pointer wins.
fn value_under_pointer(ui: &Ui, at: &Transform, view: OverlayView<'_>, theme: &Theme) {
    let Some(pointer) = ui.ctx().pointer_hover_pos() else { return };
    let over_court = ui.clip_rect().contains(pointer) && ui.ctx().layer_id_at(pointer) == Some(ui.layer_id());
    let chart = view.comparison.chart().filter(|_| over_court && view.comparison.scheduler().map_is_fresh());
    let Some(win) = chart.and_then(|chart| chart.at(at.court_from_screen(pointer))) else { return };
    tag(ui, pointer, &tr!("aimed here: {} in 100", words::points(win)), theme);
}

fn tag(ui: &Ui, pointer: Pos2, text: &str, theme: &Theme) {
    let painter = ui.painter();
    let galley =
        painter.layout_no_wrap(text.to_owned(), FontId::new(theme.m.text.small, fonts::strong()), *theme.ui.ink);
    let pad = vec2(theme.m.space.item, theme.m.space.small);
    let size = galley.size() + 2.0 * pad;
    let bounds = ui.clip_rect();
    let mut rect = Align2::LEFT_BOTTOM.anchor_size(pointer + vec2(14.0, -14.0), size);
    // At the border it stands on the other side of the pointer.
    if rect.right() > bounds.right() {
        rect = rect.translate(vec2(-size.x - 28.0, 0.0));
    }
    if rect.top() < bounds.top() {
        rect = rect.translate(vec2(0.0, size.y + 28.0));
    }
    let radius = CornerRadius::same(theme.m.radius.medium as u8);
    let edge = Stroke::new(theme.m.stroke.hair, *theme.ui.outline);
    painter.rect(Rect::from_min_size(rect.min, size), radius, *theme.ui.raised, edge, StrokeKind::Inside);
    painter.galley(rect.min + pad, galley, *theme.ui.ink);
}
