//! The roster: players kept as files in a folder, put on a board or into a match by name.

use std::sync::Arc;

use egui::{Frame, Label, RichText, ScrollArea, Ui};
use standpoint_board::{
    PlayerCard,
    roster::{Roster, RosterPlayer},
};
use standpoint_geometry::{End, Hand};
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, focus::Following as _, style},
    widgets::{ends, row},
};
use standpoint_workbench::{
    chart::{Act, ChartFile, RosterAct},
    words,
};

/// Entries of a player that are shown, the latest first.
const SHOWN: usize = 6;

/// The dialog's state.
#[derive(Debug, Clone)]
pub struct RosterList {
    roster: Arc<Roster>,
    /// The players of the board, to be kept.
    board: [PlayerCard; 2],
    /// The player whose log is open.
    open: Option<String>,
    /// What has just been done or refused.
    pub said: Option<String>,
}

impl PartialEq for RosterList {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.roster, &other.roster) && self.open == other.open && self.said == other.said
    }
}

impl RosterList {
    /// The dialog for a roster and the players of a board.
    #[must_use]
    pub fn new(roster: Arc<Roster>, board: [PlayerCard; 2], said: Option<String>) -> Self {
        Self { roster, board, open: None, said }
    }

    /// The players, and how others come among them.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        let folder = self.roster.folder.to_string_lossy().into_owned();
        ends::row(
            ui,
            "folder",
            |ui| {
                ui.add(Label::new(RichText::new(folder).small().color(*theme.ui.soft)).truncate());
            },
            |ui| {
                if ui.button(text("Another folder…")).clicked() {
                    out.push(Action::Chart(Act::Ask(ChartFile::Roster)));
                }
            },
        );
        ui.add_space(theme.m.space.small);
        if self.roster.players.is_empty() {
            row::note(ui, theme, text("No player is kept yet. Keep those of the board, or choose another folder."));
        }
        let height = (ui.ctx().content_rect().height() - 340.0).clamp(140.0, 440.0);
        ScrollArea::vertical().id_salt("roster").max_height(height).auto_shrink([false, true]).show_following(
            ui,
            |ui| {
                let roster = Arc::clone(&self.roster);
                for (_, player) in &roster.players {
                    self.player(ui, player, theme, out);
                }
                for (path, why) in &roster.unread {
                    let name = path.file_name().unwrap_or_default().to_string_lossy();
                    let said = format!("{name}: {why}");
                    ui.add(Label::new(RichText::new(said).small().color(*theme.ui.bad)).wrap());
                }
            },
        );
        ui.add_space(theme.m.space.group);
        ui.horizontal_wrapped(|ui| {
            for (end, card) in [End::Near, End::Far].into_iter().zip(&self.board) {
                let known = self.roster.player(&card.name).is_some();
                let label = if known { tr!("Bring {} up to date", card.name) } else { tr!("Keep {}", card.name) };
                if ui.button(label).on_hover_text(text("The player of the board, with hand and figures")).clicked() {
                    out.push(Action::Chart(Act::Roster(RosterAct::Keep(end))));
                }
            }
            if ui.button(text("Close")).clicked() {
                out.push(Action::CloseDialog);
            }
        });
        if let Some(said) = &self.said {
            ui.add(Label::new(RichText::new(said).small()).wrap());
        }
    }

    fn player(&mut self, ui: &mut Ui, player: &RosterPlayer, theme: &Theme, out: &mut Outbox) {
        let name = player.card.name.clone();
        let open = self.open.as_ref() == Some(&name);
        let frame = Frame::new().fill(*theme.ui.raised).inner_margin(theme.m.space.item);
        frame.corner_radius(theme.m.radius.medium).show(ui, |ui| {
            let words = |ui: &mut Ui| {
                ui.with_layout(egui::Layout::top_down(egui::Align::Min), |ui| {
                    ui.add(Label::new(RichText::new(&name).text_style(style::emphasis())).truncate());
                    ui.add(Label::new(RichText::new(about(player)).small().color(*theme.ui.soft)).truncate());
                });
            };
            ends::row(ui, name.as_str(), words, |ui| {
                for (end, label) in [(End::Near, text("Near end")), (End::Far, text("Far end"))] {
                    let hint = text("On the board, and in the match where one is open");
                    if ui.button(label).on_hover_text(hint).clicked() {
                        out.push(Action::Chart(Act::Roster(RosterAct::Put(end, name.clone()))));
                    }
                }
                let log = egui::Button::new(tr!("One entry" | "{n} entries" % player.log.len())).selected(open);
                if ui.add_enabled(!player.log.is_empty(), log).clicked() {
                    self.open = if open { None } else { Some(name.clone()) };
                }
            });
            if open {
                let mut log: Vec<_> = player.log.iter().collect();
                log.sort_by_key(|entry| std::cmp::Reverse(entry.date));
                for entry in log.iter().take(SHOWN) {
                    let date = entry.date.map_or_else(|| text("no date").to_owned(), |date| date.to_string());
                    let said = format!("{date}  {}: {}", entry.kind.label(), entry.text);
                    ui.add(Label::new(RichText::new(said).small()).wrap()).on_hover_text(entry.file.as_str());
                }
                if log.len() > SHOWN {
                    row::note(ui, theme, &tr!("And {} earlier ones in the file", log.len() - SHOWN));
                }
            }
        });
    }
}

/// Hand, level and the last day, in a line.
fn about(player: &RosterPlayer) -> String {
    let card = &player.card;
    let hand = if card.hand == Hand::Left { text("left-handed") } else { text("right-handed") };
    let level =
        card.level().map_or_else(|| text("figures measured").to_owned(), |level| words::level(level).to_owned());
    match player.last() {
        Some(date) => tr!("{0}, {1}; last entry {2}", hand, level, date),
        None => format!("{hand}, {level}"),
    }
}
