//! Writing on the court: a field where the words begin.

use egui::{Area, Frame, Id, Key, KeyboardShortcut, Modifiers, Order, TextEdit, Ui, vec2};
use glam::DVec2;
use standpoint_board::marks::{Form, Ink, MarkId};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
    transform::Transform,
};
use standpoint_workbench::sketch::draw::Draw;

/// Height of letters on the court, m.
const SIZE: f64 = 0.7;
/// Most letters that stand for a person.
const LETTERS: usize = 2;

/// Words being written.
#[derive(Debug, Clone, PartialEq)]
pub struct Writing {
    place: DVec2,
    /// The mark whose words are changed, as it is.
    mark: Option<(MarkId, Form)>,
    text: String,
    begun: bool,
}

impl Writing {
    /// New words at a place.
    #[must_use]
    pub fn at(place: DVec2) -> Self {
        Self { place, mark: None, text: String::new(), begun: false }
    }

    /// The words of a mark, if it has any.
    #[must_use]
    pub fn of(mark: MarkId, form: &Form) -> Option<Self> {
        let (place, text) = match form {
            Form::Text { at, text, .. } => (*at, text.clone()),
            Form::Person { at, letter } => (*at, letter.clone()),
            _ => return None,
        };
        Some(Self { place, mark: Some((mark, form.clone())), text, begun: false })
    }

    /// Shows the field; returns `false` when it closes.
    pub fn show(&mut self, ui: &Ui, at: &Transform, ink: Ink, theme: &Theme, out: &mut Outbox) -> bool {
        // Enter closes the field, so it is taken before the field sees it.
        let (kept, dropped) = ui.input_mut(|i| {
            let kept = self.begun && i.consume_key(Modifiers::NONE, Key::Enter);
            (kept, i.consume_key(Modifiers::NONE, Key::Escape))
        });
        let lost = self.field(ui, at, theme);
        if dropped {
            return false;
        }
        if kept || lost {
            out.extend(self.finished(ink).map(Action::Draw));
            return false;
        }
        true
    }

    fn field(&mut self, ui: &Ui, at: &Transform, theme: &Theme) -> bool {
        let corner = at.screen_from_court(self.place) - vec2(theme.m.space.item, theme.m.control / 2.0);
        let area = Area::new(Id::unique("words on the court")).order(Order::Foreground).fixed_pos(corner);
        let shown = area.constrain(true).show(ui.ctx(), |ui| {
            Frame::popup(ui.style()).show(ui, |ui| {
                let field = TextEdit::multiline(&mut self.text)
                    .desired_rows(1)
                    .desired_width(220.0)
                    .hint_text(text("Text"))
                    .return_key(KeyboardShortcut::new(Modifiers::SHIFT, Key::Enter));
                ui.add(field).accessible_name(text("Text on the court"))
            })
        });
        let field = shown.inner.inner;
        if !self.begun {
            field.request_focus();
            self.begun = true;
            return false;
        }
        field.lost_focus()
    }

    /// The change of the words, if any.
    fn finished(&self, ink: Ink) -> Option<Draw> {
        let text = self.text.trim().to_owned();
        match &self.mark {
            None if text.is_empty() => None,
            None => Some(Draw::Add(ink, Form::Text { at: self.place, text, size: SIZE })),
            Some((mark, Form::Text { .. })) if text.is_empty() => Some(Draw::Remove(vec![*mark])),
            Some((mark, Form::Text { at, size, .. })) => {
                Some(Draw::Put(*mark, Form::Text { at: *at, text, size: *size }))
            }
            Some((mark, Form::Person { at, .. })) => {
                let letter: String = text.chars().filter(|c| !c.is_control()).take(LETTERS).collect();
                (!letter.is_empty()).then_some(Draw::Put(*mark, Form::Person { at: *at, letter }))
            }
            Some(_) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn empty_words_are_none_and_take_the_old_ones_away() {
        assert_eq!(Writing::at(DVec2::ZERO).finished(Ink::Plain), None);
        let form = Form::Text { at: DVec2::ZERO, text: "deep".to_owned(), size: 0.5 };
        let mut writing = Writing::of(3, &form).unwrap();
        writing.text = "  ".to_owned();
        assert_eq!(writing.finished(Ink::Plain), Some(Draw::Remove(vec![3])));
    }

    #[test]
    fn a_person_has_two_letters_at_most() {
        let form = Form::Person { at: DVec2::ZERO, letter: "A".to_owned() };
        let mut writing = Writing::of(3, &form).unwrap();
        writing.text = "Coach".to_owned();
        let changed = Form::Person { at: DVec2::ZERO, letter: "Co".to_owned() };
        assert_eq!(writing.finished(Ink::Plain), Some(Draw::Put(3, changed)));
    }
}
