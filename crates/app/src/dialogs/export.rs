//! The export dialog, with what will come out.

use egui::{Button, Context, DragValue, RichText, TextEdit, Ui, vec2};
use standpoint_board::playback::Pace;
use standpoint_export::make::Preview;
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

use super::painted::Painted;

/// Width of the captions, points.
const CAPTION: f32 = 96.0;
/// Width of the questions beside a preview, and of the room for the preview at most, points.
const QUESTIONS: f32 = 470.0;
const PREVIEW: f32 = 400.0;
/// Height of what stands over and below the preview, points.
const AROUND: f32 = 220.0;
/// A window narrower than this has no room for a preview.
const ROOMY: f32 = 800.0;

/// What is asked for, and what it will look like.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Exporting {
    /// What is asked for.
    pub wanted: Export,
    /// Which of its sheets or pictures is shown.
    number: usize,
    /// What the preview was last asked for.
    asked: Option<(Export, usize)>,
    shown: Option<Result<(Painted, usize), String>>,
}

impl Exporting {
    /// The dialog with what was asked for last.
    #[must_use]
    pub fn new(wanted: Export) -> Self {
        Self { wanted, ..Self::default() }
    }

    /// Width of the dialog, points.
    #[must_use]
    pub fn width(ctx: &Context) -> f32 {
        if has_room(ctx) { QUESTIONS + PREVIEW + 30.0 } else { 520.0 }
    }

    /// What a preview has to be made of now: the export, and the number of the sheet or picture. Nothing while it is known.
    pub fn outdated(&mut self, ctx: &Context) -> Option<(Export, usize)> {
        if !has_room(ctx) {
            return None;
        }
        // Something is typed, but no size yet.
        let size = self.wanted.sized().or(self.wanted.look.size.filter(|_| !self.wanted.size.trim().is_empty()));
        let mut wanted = self.wanted.clone();
        wanted.look.size = size;
        let asked = (wanted, self.number);
        if self.asked.as_ref() == Some(&asked) {
            return None;
        }
        self.asked = Some(asked.clone());
        Some(asked)
    }

    /// Has the preview made anew: the answers on it have changed.
    pub fn outdate(&mut self) {
        self.asked = None;
    }

    /// Takes what was made for a question, unless another one has been asked meanwhile.
    pub fn take(&mut self, ctx: &Context, of: &(Export, usize), made: Result<Preview, String>) {
        if self.asked.as_ref() != Some(of) {
            return;
        }
        self.shown = Some(made.map(|made| {
            let size = [made.picture.width as usize, made.picture.height as usize];
            let image = egui::ColorImage::from_rgba_unmultiplied(size, &made.picture.rgba);
            self.number = self.number.min(made.count.saturating_sub(1));
            (Painted::new(ctx, "preview", image), made.count)
        }));
    }

    /// The questions, and beside them what will come out.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        if !has_room(ui.ctx()) {
            return questions(&mut self.wanted, ui, theme, out);
        }
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(QUESTIONS);
                questions(&mut self.wanted, ui, theme, out);
            });
            ui.vertical(|ui| {
                ui.set_width(PREVIEW);
                self.preview(ui, theme);
            });
        });
    }

    fn preview(&mut self, ui: &mut Ui, theme: &Theme) {
        let room = preview_room(ui.ctx());
        let (rect, response) = ui.allocate_exact_size(room, egui::Sense::hover());
        ui.painter().rect_filled(rect, theme.m.radius.medium, *theme.ui.sunken);
        let count = match &self.shown {
            Some(Ok((picture, count))) => {
                let size = picture.size();
                let inner = rect.shrink(theme.m.space.group);
                let scale = (inner.width() / size.x).min(inner.height() / size.y);
                let place = egui::Rect::from_center_size(rect.center(), size * scale);
                picture.paint(ui, place);
                let edge = egui::Stroke::new(theme.m.stroke.hair, *theme.ui.outline);
                ui.painter().rect_stroke(place, 0.0, edge, egui::StrokeKind::Outside);
                *count
            }
            other => {
                let said = match other {
                    Some(Err(why)) => why.clone(),
                    _ => text("Working it out …").to_owned(),
                };
                let wrapped = ui.painter().layout(
                    said,
                    egui::TextStyle::Body.resolve(ui.style()),
                    *theme.ui.soft,
                    rect.width() - 2.0 * theme.m.space.section,
                );
                ui.painter().galley(rect.center() - wrapped.size() / 2.0, wrapped, *theme.ui.soft);
                0
            }
        };
        let said = tr!("Preview, {0} of {1}", self.number + 1, count.max(1));
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &said));
        if count > 1 {
            ui.horizontal(|ui| {
                let earlier = Button::new("‹").min_size(vec2(theme.m.touch, theme.m.control));
                if ui.add_enabled(self.number > 0, earlier).on_hover_text(text("Previous")).clicked() {
                    self.number -= 1;
                }
                ui.label(tr!("{0} of {1}", self.number + 1, count));
                let later = Button::new("›").min_size(vec2(theme.m.touch, theme.m.control));
                if ui.add_enabled(self.number + 1 < count, later).on_hover_text(text("Next")).clicked() {
                    self.number += 1;
                }
            });
        }
    }
}

fn has_room(ctx: &Context) -> bool {
    ctx.content_rect().width() >= ROOMY
}

/// Room for the preview, points.
fn preview_room(ctx: &Context) -> egui::Vec2 {
    vec2(PREVIEW, (ctx.content_rect().height() - AROUND).clamp(200.0, PREVIEW * 1.42))
}

/// The most pixels that a preview needs each way.
#[must_use]
pub fn preview_pixels(ctx: &Context) -> (u32, u32) {
    let size = preview_room(ctx) * ctx.pixels_per_point();
    (size.x.round().max(16.0) as u32, size.y.round().max(16.0) as u32)
}

/// The questions.
fn questions(wanted: &mut Export, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
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
