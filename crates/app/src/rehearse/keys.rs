//! The keys of the rehearsal.

use egui::{Context, Key, Modifiers, Rect};
use standpoint_board::rehearse::Question;
use standpoint_canvas::handles;

use super::{Asked, Rehearsing, course::Stand};

/// Steps of the arrow keys, m.
const STEPS: (f64, f64) = (0.25, 1.0);

impl Rehearsing {
    /// The keys, unless something else has the focus.
    pub(super) fn keys(&self, ctx: &Context) -> Vec<Asked> {
        if ctx.memory(egui::Memory::focused).is_some() || egui::Popup::is_any_open(ctx) {
            return Vec::new();
        }
        let mut asked = Vec::new();
        let pressed = |modifiers, key| ctx.input_mut(|i| i.consume_key(modifiers, key));
        if pressed(Modifiers::NONE, Key::Escape) {
            asked.push(if self.progress { Asked::Progress } else { Asked::Leave });
        }
        if pressed(Modifiers::NONE, Key::Enter) && self.may_answer() {
            asked.push(Asked::Enter);
        }
        if pressed(Modifiers::NONE, Key::V) {
            asked.push(Asked::Eyes);
        }
        if self.progress {
            return asked;
        }
        match self.course.question() {
            Question::Place => asked.extend(self.steps(ctx)),
            Question::Shot => {
                let count = self.course.offers().len();
                let letters = [(Key::A, 0), (Key::B, 1), (Key::C, 2), (Key::Num1, 0), (Key::Num2, 1), (Key::Num3, 2)];
                let by_letter = letters.into_iter().find(|(key, _)| pressed(Modifiers::NONE, *key)).map(|(_, i)| i);
                let on = [Key::ArrowRight, Key::ArrowDown].into_iter().any(|key| pressed(Modifiers::NONE, key));
                let back = [Key::ArrowLeft, Key::ArrowUp].into_iter().any(|key| pressed(Modifiers::NONE, key));
                let last = count.saturating_sub(1);
                let turned = match self.course.chosen() {
                    Some(chosen) if on => Some((chosen + 1) % count.max(1)),
                    Some(chosen) if back => Some((chosen + last) % count.max(1)),
                    None if on => Some(0),
                    None if back => Some(last),
                    _ => None,
                };
                asked.extend(by_letter.or(turned).map(Asked::Choose));
            }
        }
        asked
    }

    /// Whether there is an answer: a place always exists, a shot has to be chosen.
    pub(super) fn may_answer(&self) -> bool {
        let chosen = self.course.question() != Question::Shot || self.course.chosen().is_some();
        self.progress || chosen || *self.course.stand() != Stand::Asking
    }

    /// Arrow keys as a step of the place, in screen directions.
    fn steps(&self, ctx: &Context) -> Option<Asked> {
        // Only the direction matters here.
        let rect = Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(800.0, 600.0));
        let at = self.view.transform(rect, &self.course.session().court());
        handles::arrows(ctx, &at, STEPS).map(|by| Asked::Put(self.course.place() + by))
    }
}
