//! The export dialog.

use egui::{Button, DragValue, RichText, TextEdit, Ui};
use standpoint_board::playback::Pace;
use standpoint_language::{text, text_in, tr};
use standpoint_sheet::Paper;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
};
use standpoint_workbench::{
    edit::Colours,
    settings::Sight,
    wanted::{Export, Format, RATES},
};

/// Width of the captions, points.
const CAPTION: f32 = 96.0;

/// The questions.
pub fn ui(wanted: &mut Export, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
    caption(ui, theme, text_in("export", "What"));
    for format in Format::ALL {
        if ui.radio(wanted.format == format, format.label()).clicked() {
            wanted.format = format;
        }
    }
    ui.add_space(theme.m.space.item);
    if wanted.pages > 1 {
        let all = tr!("All {} pages", wanted.pages);
        row(ui, theme, text_in("export", "Of"), &mut wanted.whole, &[(false, text("This page")), (true, &all)]);
    }
    let look = &mut wanted.look;
    if wanted.format == Format::Pdf {
        row(ui, theme, text_in("export", "Paper"), &mut look.paper, &[(Paper::A4, "A4"), (Paper::Letter, "Letter")]);
    }
    let colours = [
        (Colours::Paper, text("Black on white")),
        (Colours::Surface, text("Court surface")),
        (Colours::Bright, text("Bright room")),
    ];
    row(ui, theme, text("Colours"), &mut look.colours, &colours);
    if matches!(wanted.format, Format::Svg | Format::Png) {
        let sights = [
            (None, text("From above")),
            (Some(Sight::Eyes), text("Player’s eye")),
            (Some(Sight::Behind), text("From behind")),
        ];
        row(ui, theme, text("Seen"), &mut look.sight, &sights);
    }
    if wanted.format.moves() {
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
    if matches!(wanted.format, Format::Png | Format::Gif | Format::Apng) {
        sound = size_ui(wanted, ui, theme);
    }
    ui.add_space(theme.m.space.group);
    ui.horizontal(|ui| {
        if standpoint_ui::widgets::primary::primary(ui, theme, sound, text("Choose where…")) {
            wanted.look.size = wanted.sized();
            out.push(Action::CloseDialog);
            out.push(Action::Export(Box::new(wanted.clone())));
        }
        if ui.button(text("Cancel")).clicked() {
            out.push(Action::CloseDialog);
        }
    });
}

/// The size in pixels; returns whether the typed text is valid.
fn size_ui(wanted: &mut Export, ui: &mut Ui, theme: &Theme) -> bool {
    let sound = wanted.size.trim().is_empty() || wanted.sized().is_some();
    ui.horizontal(|ui| {
        captioned(ui, theme, text("Pixels"));
        let field = TextEdit::singleline(&mut wanted.size).align(egui::Align2::LEFT_CENTER).desired_width(120.0);
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
