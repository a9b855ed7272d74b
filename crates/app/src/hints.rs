//! The hints of the first start. They go away by themselves.

use egui::{Align2, Area, Context, Frame, Id, Margin, Order, RichText, Stroke, vec2};
use standpoint_language::{mark, text};
use standpoint_ui::theme::Theme;

const HINTS: [&str; 3] = [
    mark("Drag the ball on the far side: the place to stand follows at once."),
    mark("The light ground is where the opponent wins few points. The two numbered replies decide it."),
    mark("Wheel or pinch to zoom, drag the court to move it. Ctrl+K finds every command by its name."),
];

/// The state of the hints.
#[derive(Debug, Clone, Default)]
pub struct Hints {
    shown: Option<(usize, f64)>,
}

impl Hints {
    /// Begins with the first hint.
    pub fn begin(&mut self, now: f64) {
        self.shown = Some((0, now));
    }

    /// Goes on to the next hint.
    pub fn next(&mut self, now: f64) {
        self.shown = self.shown.and_then(|(i, _)| (i + 1 < HINTS.len()).then_some((i + 1, now)));
    }

    /// Shows the current hint in the upper left corner of a rectangle.
    pub fn show(&mut self, ctx: &Context, canvas: egui::Rect, theme: &Theme) {
        let now = ctx.input(|i| i.time);
        if self.shown.is_some_and(|(_, since)| now - since >= theme.m.hint_seconds) {
            self.next(now);
        }
        let Some((i, since)) = self.shown else { return };
        ctx.request_repaint_after_secs((since + theme.m.hint_seconds - now).max(0.05) as f32);
        let pivot = canvas.left_top() + vec2(theme.m.space.item, theme.m.space.item);
        let area = Area::new(Id::unique("hint")).order(Order::Foreground).pivot(Align2::LEFT_TOP).fixed_pos(pivot);
        let frame = Frame::new()
            .fill(*theme.ui.accent)
            .stroke(Stroke::NONE)
            .corner_radius(theme.m.radius.large)
            .inner_margin(Margin::symmetric(theme.m.space.edge as i8, theme.m.space.item as i8));
        let mut over = false;
        area.show(ctx, |ui| {
            frame.show(ui, |ui| {
                // Narrow enough to leave the court and its handles free.
                ui.set_max_width((canvas.width() * 0.33).clamp(160.0, 440.0));
                ui.horizontal(|ui| {
                    ui.add(egui::Label::new(RichText::new(text(HINTS[i])).color(*theme.ui.on_accent)).wrap());
                    let word = if i + 1 < HINTS.len() { text("Next") } else { text("Good") };
                    let button =
                        egui::Button::new(RichText::new(word).color(*theme.ui.accent)).fill(*theme.ui.on_accent);
                    over = ui.add(button).clicked();
                });
            });
        });
        if over {
            self.next(now);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hints_come_to_an_end() {
        let mut hints = Hints::default();
        hints.begin(0.0);
        for i in 0..HINTS.len() {
            assert!(hints.shown.is_some());
            hints.next(i as f64);
        }
        assert!(hints.shown.is_none());
    }
}
