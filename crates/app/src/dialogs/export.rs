//! Which sheet or picture is to be made.

use egui::{Button, DragValue, RichText, TextEdit, Ui};
use standpoint_board::playback::Pace;
use standpoint_language::{text, text_in, tr};
use standpoint_sheet::{Paper, raster::SIDES};

use crate::{
    commands::{Action, Outbox},
    edit::Colours,
    sheet::{Format, Look, RATES},
    theme::Theme,
};

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Export {
    /// What it is.
    pub format: Format,
    /// Whether it is of all pages instead of the one being looked at.
    pub whole: bool,
    /// Pages of the board.
    pub pages: usize,
    /// How it looks; its turn, layers and shot are those of the window.
    pub look: Look,
    /// The size of a picture as typed; as the court is when it is empty.
    pub size: String,
}

/// Width of the captions, points.
const CAPTION: f32 = 96.0;

impl Export {
    /// The questions.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        caption(ui, theme, text_in("export", "What"));
        for format in Format::ALL {
            if ui.radio(self.format == format, format.label()).clicked() {
                self.format = format;
            }
        }
        ui.add_space(theme.m.space.item);
        if self.pages > 1 {
            let all = tr!("All {} pages", self.pages);
            row(ui, theme, text_in("export", "Of"), &mut self.whole, &[(false, text("This page")), (true, &all)]);
        }
        let look = &mut self.look;
        if self.format == Format::Pdf {
            row(
                ui,
                theme,
                text_in("export", "Paper"),
                &mut look.paper,
                &[(Paper::A4, "A4"), (Paper::Letter, "Letter")],
            );
        }
        let colours = [
            (Colours::Paper, text("Black on white")),
            (Colours::Surface, text("Court surface")),
            (Colours::Bright, text("Bright room")),
        ];
        row(ui, theme, text("Colours"), &mut look.colours, &colours);
        if self.format.moves() {
            let paces = [
                (Pace::True, text_in("pace", "True")),
                (Pace::Half, text_in("pace", "Half")),
                (Pace::Quarter, text_in("pace", "Quarter")),
            ];
            row(ui, theme, text("Pace"), &mut look.pace, &paces);
            ui.horizontal(|ui| {
                captioned(ui, theme, text("Frames"));
                let range = RATES.0..=RATES.1;
                let drag =
                    DragValue::new(&mut look.rate).range(range).speed(0.2).fixed_decimals(0).suffix(text(" a second"));
                ui.add(drag).accessible_name(text("Frames a second"));
            });
        }
        let mut sound = true;
        if matches!(self.format, Format::Png | Format::Gif | Format::Apng) {
            sound = self.size_ui(ui, theme);
        }
        ui.add_space(theme.m.space.group);
        ui.horizontal(|ui| {
            if super::primary(ui, theme, sound, text("Choose where…")) {
                self.look.size = self.sized();
                out.push(Action::CloseDialog);
                out.push(Action::Export(Box::new(self.clone())));
            }
            if ui.button(text("Go back")).clicked() {
                out.push(Action::CloseDialog);
            }
        });
    }

    /// The size in pixels; whether what is typed makes sense.
    fn size_ui(&mut self, ui: &mut Ui, theme: &Theme) -> bool {
        let sound = self.size.trim().is_empty() || self.sized().is_some();
        ui.horizontal(|ui| {
            captioned(ui, theme, text("Pixels"));
            let field = TextEdit::singleline(&mut self.size).align(egui::Align2::LEFT_CENTER).desired_width(120.0);
            ui.add(field.hint_text(text("as the court is"))).accessible_name(text("Size in pixels"));
            let (note, color) = if sound {
                (text("such as 1200x1600"), *theme.ui.soft)
            } else {
                (text("write it like 1200x1600"), *theme.ui.bad)
            };
            ui.label(RichText::new(note).color(color));
        });
        sound
    }

    /// The size that is typed, if it makes sense.
    #[must_use]
    pub fn sized(&self) -> Option<(u32, u32)> {
        let (width, height) = self.size.trim().split_once(['x', '×'])?;
        let side = |text: &str| text.trim().parse().ok().filter(|side| (SIDES.0..=SIDES.1).contains(side));
        Some((side(width)?, side(height)?))
    }
}

fn caption(ui: &mut Ui, theme: &Theme, said: &str) {
    ui.label(RichText::new(said).color(*theme.ui.soft));
}

fn captioned(ui: &mut Ui, theme: &Theme, said: &str) {
    ui.allocate_ui(egui::vec2(CAPTION, theme.m.control), |ui| {
        ui.set_min_size(egui::vec2(CAPTION, theme.m.control));
        ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| caption(ui, theme, said));
    });
}

/// One of a few choices.
fn row<T: PartialEq + Copy>(ui: &mut Ui, theme: &Theme, name: &str, value: &mut T, choices: &[(T, &str)]) {
    ui.horizontal(|ui| {
        captioned(ui, theme, name);
        for (choice, label) in choices {
            let button = Button::selectable(*value == *choice, *label).frame_when_inactive(true);
            if ui.add(button.min_size(egui::vec2(0.0, theme.m.control))).clicked() {
                *value = *choice;
            }
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_is_two_numbers_in_bounds_or_nothing() {
        let sized = |text: &str| Export { size: text.to_owned(), ..Export::default() }.sized();
        assert_eq!([sized("1200x1600"), sized(" 640 × 480 ")], [Some((1200, 1600)), Some((640, 480))]);
        assert_eq!([sized(""), sized("12x"), sized("1x1"), sized("999999x9")], [None; 4]);
    }
}
