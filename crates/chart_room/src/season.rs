//! A folder of matches: whose season it is, and which of them are taken.

use std::{path::PathBuf, sync::Arc};

use egui::{ComboBox, Label, RichText, ScrollArea, TextEdit, Ui};
use standpoint_board::chart::Date;
use standpoint_charting::season::{Season, SeasonMatch};
use standpoint_language::{text, tr, whole};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, focus::Following as _, style},
    widgets::row,
};
use standpoint_workbench::chart::Act;

/// The dialog's state.
#[derive(Debug, Clone)]
pub struct SeasonChoice {
    folder: PathBuf,
    season: Arc<Season>,
    player: String,
    from: String,
    to: String,
}

impl PartialEq for SeasonChoice {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.season, &other.season)
            && (&self.player, &self.from, &self.to) == (&other.player, &other.from, &other.to)
    }
}

impl SeasonChoice {
    /// The dialog for what was read from a folder.
    #[must_use]
    pub fn new(folder: PathBuf, season: Arc<Season>) -> Self {
        let player = season.players().first().cloned().unwrap_or_default();
        Self { folder, season, player, from: String::new(), to: String::new() }
    }

    /// Whether a match lies between the dates; one without a date does unless there is a bound.
    fn holds(&self, date: Option<Date>) -> bool {
        let (from, to): (Option<Date>, Option<Date>) = (self.from.trim().parse().ok(), self.to.trim().parse().ok());
        match date {
            None => from.is_none() && to.is_none(),
            Some(date) => from.is_none_or(|from| date >= from) && to.is_none_or(|to| date <= to),
        }
    }

    fn taken(&self) -> impl Iterator<Item = &SeasonMatch> {
        self.season.matches.iter().filter(|of| of.began(&self.player).is_some() && self.holds(of.date))
    }

    /// The dialog.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        let path = self.folder.to_string_lossy().into_owned();
        ui.add(Label::new(RichText::new(path).small().color(*theme.ui.soft)).truncate());
        ui.add_space(theme.m.space.small);
        row::row(ui, theme, text("Player"), |ui| {
            let combo = ComboBox::from_id_salt("player of the season").width(240.0).selected_text(self.player.as_str());
            combo
                .show_ui(ui, |ui| {
                    for name in self.season.players() {
                        ui.selectable_value(&mut self.player, name.clone(), name);
                    }
                })
                .response
        });
        for (label, typed) in [(text("From"), &mut self.from), (text("To"), &mut self.to)] {
            row::row(ui, theme, label, |ui| {
                let wrong = !typed.trim().is_empty() && typed.trim().parse::<Date>().is_err();
                let field = TextEdit::singleline(typed)
                    .align(egui::Align2::LEFT_CENTER)
                    .hint_text(text("any, or 2026-05-03"))
                    .desired_width(190.0);
                let field = ui.add(field);
                if wrong {
                    ui.label(RichText::new(text("a date as 2026-05-03")).small().color(*theme.ui.warn));
                }
                field
            });
        }
        ui.add_space(theme.m.space.item);
        self.list(ui, theme);
        ui.add_space(theme.m.space.group);
        let (matches, shots) = self.taken().fold((0, 0), |(n, shots), of| (n + 1, shots + of.chart.shots()));
        ui.horizontal(|ui| {
            let label = tr!("Use one match" | "Use {n} matches" % matches);
            if standpoint_ui::widgets::primary::primary(ui, theme, shots > 0, label)
                && let Some(chart) = self.season.about(&self.player, |date| self.holds(date))
            {
                out.push(Action::CloseDialog);
                out.push(Action::Chart(Act::Take(Box::new(chart))));
            }
            if ui.button(text("Cancel")).clicked() {
                out.push(Action::CloseDialog);
            }
            let said = tr!("one shot" | "{n} shots" % shots);
            ui.label(RichText::new(said).small().color(*theme.ui.soft));
        });
    }

    fn list(&self, ui: &mut Ui, theme: &Theme) {
        let height = (ui.ctx().content_rect().height() - 420.0).clamp(120.0, 320.0);
        ScrollArea::vertical().id_salt("matches").max_height(height).auto_shrink([false, true]).show_following(
            ui,
            |ui| {
                for of in &self.season.matches {
                    let taken = of.began(&self.player).is_some() && self.holds(of.date);
                    let date = of.date.map_or_else(|| text("no date").to_owned(), |date| date.to_string());
                    let setup = &of.chart.setup;
                    let players = tr!("{} against {}", setup.near.name, setup.far.name);
                    let said = tr!("{0}  {1}, {2} shots", date, players, whole(of.chart.shots()));
                    let color = if taken { *theme.ui.ink } else { *theme.ui.soft };
                    let label = Label::new(RichText::new(said).color(color)).truncate();
                    ui.add(label).on_hover_text(of.path.to_string_lossy().into_owned());
                    if !of.bad.is_empty() {
                        let bad = tr!("1 row could not be read" | "{n} rows could not be read" % of.bad.len());
                        ui.label(RichText::new(bad).small().color(*theme.ui.warn));
                    }
                }
                for file in &self.season.unread {
                    let name = file.path.file_name().unwrap_or_default().to_string_lossy();
                    let said = format!("{name}: {}. {}", file.reason, file.remedy);
                    ui.add(Label::new(RichText::new(said).small().color(*theme.ui.bad)).wrap());
                }
                if self.season.matches.is_empty() && self.season.unread.is_empty() {
                    ui.label(
                        RichText::new(text("There is no chart and no table in this folder."))
                            .text_style(style::emphasis()),
                    );
                }
            },
        );
    }
}
