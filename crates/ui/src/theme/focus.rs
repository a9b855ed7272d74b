//! The focus ring, the same everywhere, for keyboard users.

use egui::{Context, CornerRadius, Id, Key, ScrollArea, Stroke, StrokeKind, Ui, scroll_area::ScrollAreaOutput};

use super::Theme;

/// Distance of the ring from the focused item, points.
const GAP: f32 = 2.0;

/// Paints the ring while the keyboard is used; a click hides it until the next key. `own_ring` tells items that paint
/// their own; `theme` is called only if there is a ring.
///
/// Source: Web Content Accessibility Guidelines 2.2, success criteria 2.4.7 and 2.4.13: a ring of 2 points with a contrast
/// of at least 3 to 1; the accent has 4.5 on every ground of the interface, which a test of the tokens holds.
pub fn show(ctx: &Context, theme: impl FnOnce() -> Theme, own_ring: impl Fn(Id) -> bool) {
    let by_keys = Id::unique("the focus is moved by keys");
    let (moved, clicked) = ctx.input(|i| {
        let keys = [Key::Tab, Key::ArrowUp, Key::ArrowDown, Key::ArrowLeft, Key::ArrowRight];
        (keys.into_iter().any(|key| i.key_pressed(key)), i.pointer.any_pressed())
    });
    let on = ctx.data_mut(|data| {
        let on = data.get_temp_mut_or_default::<bool>(by_keys);
        *on = (*on || moved) && !clicked;
        *on
    });
    let Some(focused) = ctx.memory(|memory| memory.focused()).filter(|id| on && !own_ring(*id)) else { return };
    let Some(response) = ctx.read_response(focused) else { return };
    let rect = response.interact_rect;
    if !rect.is_positive() || !rect.is_finite() {
        return;
    }
    let theme = theme();
    let stroke = Stroke::new(theme.m.stroke.bold.max(2.0), *theme.ui.accent);
    let radius = CornerRadius::same(4);
    ctx.layer_painter(response.layer_id).rect_stroke(rect.expand(GAP), radius, stroke, StrokeKind::Inside);
}

/// A scroll area that scrolls to the focused item.
pub trait Following {
    /// As [`ScrollArea::show`].
    fn show_following<R>(self, ui: &mut Ui, content: impl FnOnce(&mut Ui) -> R) -> ScrollAreaOutput<R>;
}

impl Following for ScrollArea {
    fn show_following<R>(self, ui: &mut Ui, content: impl FnOnce(&mut Ui) -> R) -> ScrollAreaOutput<R> {
        self.show(ui, |ui| {
            let shown = content(ui);
            follow(ui);
            shown
        })
    }
}

/// Scrolls to a newly focused item, if it lies in this content and is cut off.
fn follow(ui: &Ui) {
    let followed = Id::unique("the focus that was followed last");
    let Some(focused) = ui.memory(|memory| memory.focused()) else { return };
    let Some(response) = ui.ctx().read_response(focused).filter(|r| r.layer_id == ui.layer_id()) else { return };
    if ui.data(|data| data.get_temp::<Id>(followed)) == Some(focused) || !ui.min_rect().contains_rect(response.rect) {
        return;
    }
    ui.data_mut(|data| data.insert_temp(followed, focused));
    if !ui.clip_rect().contains_rect(response.rect) {
        ui.scroll_to_rect(response.rect, None);
    }
}
