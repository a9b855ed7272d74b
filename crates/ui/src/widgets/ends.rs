//! Right-aligned contents of a row, in reading order.
//!
//! The toolkit lays right-aligned items out from right to left, so that Tab visits them backwards. Here they go
//! from left to right, in the width of the last frame; after a change a frame is laid out twice.

use egui::{Align, AsIdSalt, Id, Layout, Rect, Ui, UiBuilder, pos2};

/// Shows `rest` in the room that `end` leaves, and `end` at the right edge; `salt` makes the id unique in `ui`.
pub fn row(ui: &mut Ui, salt: impl AsIdSalt, rest: impl FnOnce(&mut Ui), end: impl FnOnce(&mut Ui)) {
    let id = ui.scope_id().with(("end of a row", salt));
    ui.horizontal(|ui| {
        let mut room = ui.available_rect_before_wrap();
        room.set_right((room.right() - known(ui, id) - ui.spacing().item_spacing.x).max(room.left()));
        ui.scope_builder(UiBuilder::new().max_rect(room).layout(Layout::left_to_right(Align::Center)), rest);
        known_end(ui, id, end);
    });
}

/// Shows `end` at the right edge of the row `ui`; `salt` makes the id unique in `ui`.
pub fn end(ui: &mut Ui, salt: impl AsIdSalt, end: impl FnOnce(&mut Ui)) {
    let id = ui.scope_id().with(("end of a row", salt));
    known_end(ui, id, end);
}

/// The width of an end, as it was laid out last, points.
fn known(ui: &Ui, id: Id) -> f32 {
    ui.data(|data| data.get_temp(id)).unwrap_or(0.0)
}

fn known_end(ui: &mut Ui, id: Id, end: impl FnOnce(&mut Ui)) {
    let known = known(ui, id);
    let room = ui.available_rect_before_wrap();
    let right = ui.max_rect().right();
    let place = Rect::from_min_max(pos2((right - known).max(room.left()), room.top()), pos2(right, room.bottom()));
    // A separate child: overflow in one frame must not widen the panel.
    let mut child = ui.new_child(UiBuilder::new().max_rect(place).layout(Layout::left_to_right(Align::Center)));
    end(&mut child);
    let taken = child.min_rect();
    ui.advance_cursor_after_rect(Rect::from_x_y_ranges(place.x_range(), taken.y_range()));
    if (taken.width() - known).abs() > 0.5 {
        ui.data_mut(|data| data.insert_temp(id, taken.width()));
        ui.ctx().request_discard("the end of a row has another width");
    }
}

#[cfg(test)]
mod tests {
    use egui::{Button, Context, RawInput, vec2};

    use super::*;

    /// The rectangles of the rest and of two buttons of an end, and the width of everything.
    fn laid(ctx: &Context, label: &str) -> ([Rect; 3], f32) {
        let mut rects = [Rect::NOTHING; 3];
        let mut width = 0.0;
        let screen = Rect::from_min_size(pos2(0.0, 0.0), vec2(400.0, 200.0));
        let input = RawInput { screen_rect: Some(screen), ..RawInput::default() };
        let mut output = ctx.run_ui(input, |ui| {
            let [rest, first, second] = &mut rects;
            let left = |ui: &mut Ui| {
                *rest = ui.add(egui::Label::new("a name that is far too long ".repeat(5)).truncate()).rect
            };
            row(ui, "row", left, |ui| {
                *first = ui.add(Button::new(label)).rect;
                *second = ui.add(Button::new("second")).rect;
            });
            width = ui.min_rect().width();
        });
        output.textures_delta.clear();
        (rects, width)
    }

    #[test]
    fn an_end_reads_from_the_left_and_ends_at_the_edge_at_once() {
        let ctx = Context::default();
        for label in ["first", "a first button that is longer", "1"] {
            let ([rest, first, second], width) = laid(&ctx, label);
            assert!(rest.right() <= first.left() && first.right() <= second.left(), "{rest:?} {first:?} {second:?}");
            assert!((second.right() - 400.0).abs() < 12.0, "{label}: {second:?}");
            assert!(width <= 400.0, "{label}: {width}");
        }
    }
}
