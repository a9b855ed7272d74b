//! The roster: what the window does about it.

use std::{path::PathBuf, sync::Arc};

use egui::Context;
use standpoint_board::{
    PlayerCard,
    chart::Date,
    roster::{Entry, EntryKind, MatchHabits, Roster, RosterPlayer},
};
use standpoint_charting::scouting;
use standpoint_geometry::End;
use standpoint_language::{mark, text, tr};
use standpoint_ui::roster;
use standpoint_workbench::{
    chart::{HabitsFrom, NotesLocation, RosterAct},
    edit::Edit,
};

use crate::{
    app::App,
    crash_recovery,
    dialogs::{Dialog, roster::RosterList},
};

/// The folder of players in that of the program's data.
const FOLDER: &str = "players";

impl App {
    /// Where players are kept: the folder that was chosen, else one with the program's data.
    pub(crate) fn roster_folder(&self) -> Option<PathBuf> {
        let own = self.settings.roster.clone();
        own.or_else(|| self.crash_recovery.folder().map(|folder| folder.join(FOLDER)))
    }

    /// The players that are kept, for choosing by name.
    pub(crate) fn read_roster(&self, ctx: &Context) -> Arc<Roster> {
        let roster = Arc::new(self.roster_folder().map(|folder| Roster::read(&folder)).unwrap_or_default());
        let known = |(_, player): &(_, RosterPlayer)| roster::Known {
            name: player.card.name.clone(),
            matches: player.matches.len(),
        };
        roster::set(ctx, roster.players.iter().map(known).collect());
        roster
    }

    /// Shows the roster.
    pub(crate) fn show_roster(&mut self, ctx: &Context, said: Option<String>) {
        let roster = self.read_roster(ctx);
        let board = self.session.board();
        self.dialog = Dialog::Roster(Box::new(RosterList::new(roster, [board.near.clone(), board.far.clone()], said)));
    }

    /// Carries out what was asked for about the roster.
    pub(crate) fn roster_act(&mut self, ctx: &Context, act: RosterAct) {
        match act {
            RosterAct::Put(end, name) => self.put_player(ctx, end, &name),
            RosterAct::Keep(end) => {
                let card = self.session.board().card(end).clone();
                let said = self.keep_player(&card, None, Vec::new());
                self.show_roster(ctx, Some(said));
            }
            RosterAct::KeepMeasured(card, what) => {
                let entry = Self::entry(EntryKind::Measured, what, String::new());
                self.room.message = Some(self.keep_player(&card, Some(entry), Vec::new()));
                self.read_roster(ctx);
            }
            RosterAct::LogMatch => {
                let setup = Arc::clone(self.notes().setup());
                let path = match self.room.kept {
                    NotesLocation::Alone => self.room.alone.path.clone(),
                    NotesLocation::Board => self.session.document().path().map(Into::into),
                };
                let file = path.map(|path| path.to_string_lossy().into_owned()).unwrap_or_default();
                let dates = self.notes().setup().sessions.iter().filter_map(|session| session.date);
                let date = dates.max().or_else(today);
                let mut said = Vec::new();
                let chart = self.notes().chart();
                for (end, card, other) in [(End::Near, &setup.near, &setup.far), (End::Far, &setup.far, &setup.near)] {
                    let what = tr!("{0}, against {1}: {2} shots", setup.title, other.name, self.notes().shots());
                    let entry = Entry { date, ..Self::entry(EntryKind::Match, what, file.clone()) };
                    said.push(self.keep_player(card, Some(entry), scouting::matches(&chart, end)));
                }
                self.room.message = Some(said.join("; "));
                self.read_roster(ctx);
            }
            RosterAct::Habits(end, from) => self.take_habits(ctx, end, &from),
            RosterAct::Against(player) => {
                let end = self.session.board().coached.other();
                self.take_habits(ctx, end, &HabitsFrom::Notes(player));
                self.room.message = self.message.take();
            }
        }
    }

    /// A rehearsal has ended: it belongs to the player whom it was about, if the roster has them.
    pub(crate) fn log_rehearsal(&mut self, ctx: &Context, player: &str, (points, answers): (u32, u32)) {
        let known = self.read_roster(ctx);
        let Some(player) = known.player(player) else { return };
        let what = tr!("{0} answers, {1} points on average", answers, points);
        let entry = Self::entry(EntryKind::Rehearsal, what, String::new());
        let _ = self.keep_player(&player.card, Some(entry), Vec::new());
    }

    fn entry(kind: EntryKind, text: String, file: String) -> Entry {
        Entry { date: today(), kind, text, file }
    }

    /// Keeps a player; what came of it, in words.
    fn keep_player(&self, card: &PlayerCard, entry: Option<Entry>, matches: Vec<MatchHabits>) -> String {
        let Some(folder) = self.roster_folder() else {
            return text("Choose a folder for the roster first").to_owned();
        };
        let kept = match entry {
            Some(entry) => Roster::keep_matches(&folder, card, entry, matches),
            None => Roster::keep(&folder, card, None),
        };
        match kept {
            Ok(path) => tr!("{0} is kept in {1}", card.name, path.display()),
            Err(error) => format!("{error}. {}", error.remedy()),
        }
    }

    /// A player of the roster plays at an end of the board, and in the match where the room is open.
    fn put_player(&mut self, ctx: &Context, end: End, name: &str) {
        let roster = self.read_roster(ctx);
        let Some(player) = roster.player(name) else {
            self.message = Some(tr!("{} is not in the roster any more", name));
            return;
        };
        if self.room.is_open() {
            let card = player.card.clone();
            let mut setup = (**self.notes().setup()).clone();
            match end {
                End::Near => setup.near = card,
                End::Far => setup.far = card,
            }
            self.change_notes(|notes| notes.set_setup(mark("Player of the roster"), setup));
            self.room.message = Some(tr!("{} plays in the match", name));
        } else {
            self.step(Edit::Player(end, Box::new(player.card_with_habits())));
            self.message = Some(tr!("{} plays on the board", name));
        }
        self.dialog = Dialog::None;
    }
}

impl App {
    /// The player at an end of the board is played against by the habits that a chart or the roster tells.
    fn take_habits(&mut self, ctx: &Context, end: End, from: &HabitsFrom) {
        let known = match from {
            HabitsFrom::Roster(name) => self.read_roster(ctx).player(name).and_then(RosterPlayer::habits),
            HabitsFrom::Notes(player) => {
                let notes = if self.room.is_open() { self.notes() } else { self.session.document().notes() };
                scouting::known(&notes.chart(), *player)
            }
        };
        let Some(known) = known else {
            self.message = Some(text("No shots were counted for this player yet").to_owned());
            return;
        };
        self.message = Some(tr!("The answers rest on where {0} was seen to send the ball", known.of));
        self.step(Edit::Habits(end, Some(Box::new(known))));
    }
}

/// The day by the clock of the machine (UTC).
fn today() -> Option<Date> {
    Date::of_unix_day((crash_recovery::now() / 86_400.0).floor() as i64)
}
