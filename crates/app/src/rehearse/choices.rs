//! The row of choices over the rehearsal: what is asked, of whom, and how fast.

use egui::{ComboBox, Key, ScrollArea, Sense, TextEdit, Ui, accesskit::Role};
use standpoint_board::rehearse::{Theme as Topic, Trainee};
use standpoint_geometry::Level;
use standpoint_language::{decimal, text, text_in, tr};
use standpoint_ui::{
    theme::{Theme, icons::Icon},
    widgets::ends,
};
use standpoint_workbench::words as spoken;

use super::{
    Asked, Rehearsing,
    course::{Kinds, Source},
    players, words,
};

/// A window lower than this keeps the choices in one row, points.
const LOW: f32 = 600.0;
/// Times to answer that can be chosen, s.
const LIMITS: [Option<f64>; 4] = [None, Some(15.0), Some(8.0), Some(4.0)];

impl Rehearsing {
    /// The options of the rehearsal.
    pub(super) fn choices(&self, ui: &mut Ui, theme: &Theme, asked: &mut Vec<Asked>) {
        let mut leaving = Vec::new();
        // As many rows as it takes; a low window keeps one row, which can be pulled sideways.
        let low = ui.ctx().content_rect().height() < LOW;
        let choices = |ui: &mut Ui| {
            if low {
                ScrollArea::horizontal().id_salt("rehearsal choices").show(ui, |ui| {
                    ui.horizontal(|ui| self.all(ui, asked));
                });
            } else {
                ui.horizontal_wrapped(|ui| self.all(ui, asked));
            }
        };
        ends::row(ui, "ways out", choices, |ui| {
            if ui.selectable_label(self.progress, text("Progress")).clicked() {
                leaving.push(Asked::Progress);
            }
            if icon(ui, Icon::Close, text("Leave the rehearsal"), theme) {
                leaving.push(Asked::Leave);
            }
        });
        asked.extend(leaving);
    }

    /// What is asked, of whom, and how.
    fn all(&self, ui: &mut Ui, asked: &mut Vec<Asked>) {
        self.sources(ui, asked);
        self.levels(ui, asked);
        self.who(ui, asked);
        let kinds = [
            (Kinds::Both, text("Place and shot")),
            (Kinds::Place, text("Where to stand")),
            (Kinds::Shot, text("Which shot")),
        ];
        let shown = kinds.iter().find(|(kind, _)| *kind == self.course.kinds).map_or("", |(_, name)| name);
        let list = ComboBox::from_id_salt("rehearsal kinds").selected_text(shown).show_ui(ui, |ui| {
            for (kind, name) in kinds {
                if ui.selectable_label(kind == self.course.kinds, name).clicked() {
                    asked.push(Asked::Kinds(kind));
                }
            }
        });
        name(&list.response, text("Questions"), shown);
        let said =
            |limit: Option<f64>| limit.map_or_else(|| tr!("No time limit"), |s| tr!("{} seconds", decimal(s, 0)));
        let list = ComboBox::from_id_salt("rehearsal time").selected_text(said(self.limit)).show_ui(ui, |ui| {
            for limit in LIMITS {
                if ui.selectable_label(limit == self.limit, said(limit)).clicked() {
                    asked.push(Asked::Limit(limit));
                }
            }
        });
        name(&list.response, text("Time"), &said(self.limit));
        let mut left_handed = self.course.trainee().left_handed;
        if ui.checkbox(&mut left_handed, text("Left-handed")).on_hover_text(text("Mirror the situations")).changed() {
            asked.push(Asked::Hands);
        }
        let eyes = ui.selectable_label(self.eyes, text("Player’s eye"));
        if eyes.on_hover_text(text("See it as the player does (V)")).clicked() {
            asked.push(Asked::Eyes);
        }
    }

    fn sources(&self, ui: &mut Ui, asked: &mut Vec<Asked>) {
        let label = |source: Source| match source {
            Source::Mixed => text("All themes"),
            Source::Theme(theme) => theme.label(),
            Source::Board => text("Shots of the board"),
        };
        let now = self.course.source;
        let list = ComboBox::from_id_salt("rehearsal themes").selected_text(label(now)).show_ui(ui, |ui| {
            let themes = Topic::ALL.into_iter().map(Source::Theme);
            let board = self.course.board_has_some().then_some(Source::Board);
            for source in std::iter::once(Source::Mixed).chain(themes).chain(board) {
                if ui.selectable_label(source == now, label(source)).clicked() {
                    asked.push(Asked::Source(source));
                }
            }
        });
        name(&list.response, text_in("rehearsal", "Theme"), label(now));
    }

    /// At which level the trainee plays.
    fn levels(&self, ui: &mut Ui, asked: &mut Vec<Asked>) {
        let now = self.course.trainee();
        let shown = words::who(&self.course, now);
        let list = ComboBox::from_id_salt("rehearsal levels").selected_text(shown.as_str()).show_ui(ui, |ui| {
            if let Some(own) = self.course.own()
                && ui.selectable_label(now.figures != 0, tr!("{} as measured", own.name)).clicked()
            {
                asked.push(Asked::Level(None));
            }
            // Situations are drawn on the full court.
            for level in Level::ALL.into_iter().filter(|level| Trainee::of_level(*level, false).level == *level) {
                let on = now.figures == 0 && level == now.level;
                if ui.selectable_label(on, spoken::level(level)).clicked() {
                    asked.push(Asked::Level(Some(level)));
                }
            }
        });
        name(&list.response, text("Level"), &shown);
    }

    /// Whose history it is.
    fn who(&self, ui: &mut Ui, asked: &mut Vec<Asked>) {
        if !self.players.kept() {
            return;
        }
        if let Some(typed) = &self.players.typed {
            let mut typed = typed.clone();
            let field = TextEdit::singleline(&mut typed).char_limit(players::LONGEST).desired_width(150.0);
            let field = ui.add(field.hint_text(text("Name")));
            let done = field.lost_focus();
            if !done {
                field.request_focus();
            }
            let entered = done && ui.input(|i| i.key_pressed(Key::Enter));
            asked.push(match (entered, done) {
                (true, _) if players::cleaned(&typed).is_some() => Asked::Player(Some(typed)),
                (_, true) => Asked::Typed(None),
                (_, false) if field.changed() => Asked::Typed(Some(typed)),
                _ => return,
            });
            return;
        }
        let nobody = text("Everybody here");
        let now = self.players.current.as_deref();
        let list = ComboBox::from_id_salt("rehearsal players").selected_text(now.unwrap_or(nobody)).show_ui(ui, |ui| {
            if ui.selectable_label(now.is_none(), nobody).clicked() {
                asked.push(Asked::Player(None));
            }
            for known in self.players.known() {
                if ui.selectable_label(now == Some(known), known).clicked() {
                    asked.push(Asked::Player(Some(known.clone())));
                }
            }
            if ui.selectable_label(false, text("New player…")).clicked() {
                asked.push(Asked::Typed(Some(String::new())));
            }
        });
        name(&list.response, text("History of"), now.unwrap_or(nobody));
    }
}

/// Names a list for assistive technology.
fn name(response: &egui::Response, label: &str, value: &str) {
    let said = format!("{label}: {value}");
    response.widget_info(|| egui::WidgetInfo::labeled(Role::ComboBox, true, said.as_str()));
}

fn icon(ui: &mut Ui, icon: Icon, label: &str, theme: &Theme) -> bool {
    let response = ui.allocate_response(egui::Vec2::splat(theme.m.control), Sense::click());
    response.widget_info(|| egui::WidgetInfo::labeled(Role::Button, true, label));
    let visuals = ui.style().interact(&response);
    if response.hovered() || response.has_focus() {
        let corner = visuals.corner_radius;
        ui.painter().rect(response.rect, corner, visuals.weak_bg_fill, visuals.bg_stroke, egui::StrokeKind::Inside);
    }
    theme.icons.paint(ui.painter(), response.rect.shrink(6.0), icon, *theme.ui.ink);
    response.on_hover_text(label).clicked()
}
