//! Commands about shots, pages and playing them.

use standpoint_board::playback::{Control, Pace};
use standpoint_language::tr;
use standpoint_ui::commands::{PageCommand, RallyCommand};
use standpoint_workbench::{arrange::Arrange, edit::Edit, played, selection::Selection};

use crate::{
    app::{App, Part},
    dialogs::{Dialog, patterns::Patterns},
};

impl App {
    /// Changes the board; reports a shot that no longer follows the one before it.
    pub(super) fn edit(&mut self, edit: &Edit) {
        let follows = |app: &Self| app.session.written_shot().is_some_and(|spec| spec.follows);
        if !self.session.history().in_gesture() {
            self.message = None;
        }
        let before = follows(self);
        self.session.edit(edit);
        if let Edit::Level(end, _) | Edit::Player(end, _) = edit {
            self.message = Some(tr!(
                "Speed and spin of {}’s shots are those of the new level",
                self.session.board().card(*end).name
            ));
        }
        if before && !follows(self) {
            let number = self.session.selection().shot + 1;
            self.message = Some(tr!("Shot {} starts by itself now; G lets it follow the shot before it again", number));
        }
    }

    /// Rearranges shots or pages.
    pub(super) fn arrange(&mut self, arrange: &Arrange) {
        self.message = None;
        self.session.arrange(arrange);
    }

    pub(super) fn run_on_rally(&mut self, command: RallyCommand) {
        let at = self.session.selection();
        match command {
            RallyCommand::NextShot => self.session.select(Selection { shot: at.shot + 1, ..at }),
            RallyCommand::PreviousShot => self.session.select(Selection { shot: at.shot.saturating_sub(1), ..at }),
            RallyCommand::AddShotAfter => self.arrange(&Arrange::AddShotAfter),
            RallyCommand::AddShotBefore => self.arrange(&Arrange::AddShotBefore),
            RallyCommand::DuplicateShot => self.arrange(&Arrange::DuplicateShot),
            RallyCommand::DeleteShot => self.arrange(&Arrange::DeleteShot),
            RallyCommand::Follow => {
                let follows = self.session.written_shot().is_some_and(|spec| spec.follows);
                self.arrange(&Arrange::Follow(!follows));
            }
            RallyCommand::CoachOther => self.coach_other(),
            RallyCommand::RecoverToMiddle => {
                let middle = self.session.play().map(|play| play.middle.place);
                self.step(Edit::RecoverTo(middle));
            }
            RallyCommand::RecoverToSpot => self.step(Edit::RecoverTo(None)),
            RallyCommand::Play => self.session.control(Control::Toggle),
            RallyCommand::StepOn => self.session.control(Control::Next),
            RallyCommand::StepBack => self.session.control(Control::Previous),
            RallyCommand::LeavePlaying => self.session.control(Control::Stop),
            RallyCommand::Loop => self.session.control(Control::Loop(!self.session.playback().looping)),
            RallyCommand::PaceTrue => self.session.control(Control::Pace(Pace::True)),
            RallyCommand::PaceHalf => self.session.control(Control::Pace(Pace::Half)),
            RallyCommand::PaceQuarter => self.session.control(Control::Pace(Pace::Quarter)),
            RallyCommand::LetThemPlay => self.let_them_play(false),
            RallyCommand::PlayAnotherWay => self.let_them_play(true),
            RallyCommand::ShowRally => self.fold(Part::Rally),
        }
    }

    pub(super) fn run_on_pages(&mut self, command: PageCommand) {
        let at = self.session.selection();
        let turn_to = |page: usize| Selection { page, shot: 0 };
        match command {
            PageCommand::NextPage => self.session.select(turn_to(at.page + 1)),
            PageCommand::PreviousPage => self.session.select(turn_to(at.page.saturating_sub(1))),
            PageCommand::AddPage => self.arrange(&Arrange::AddPage),
            PageCommand::PageWords => self.dialog = Dialog::Words,
            PageCommand::AddPattern => self.dialog = Dialog::Patterns(Patterns::default()),
            PageCommand::DuplicatePage => self.arrange(&Arrange::DuplicatePage),
            PageCommand::DeletePage => self.arrange(&Arrange::DeletePage),
            PageCommand::PageUp => {
                self.arrange(&Arrange::MovePage { from: at.page, to: at.page.saturating_sub(1) });
            }
            PageCommand::PageDown => self.arrange(&Arrange::MovePage { from: at.page, to: at.page + 1 }),
            PageCommand::ShowPages => self.fold(Part::Pages),
        }
    }

    /// The model plays the point on; the message tells how it ends.
    fn let_them_play(&mut self, another: bool) {
        let hitter = self.session.hitter_end();
        let Some((edit, played)) = self.session.play_on(another) else { return };
        self.step(edit);
        self.message = Some(played::told(&played, hitter, self.session.board()));
    }

    /// Coaches the other player, and looks at a shot of theirs if there is one.
    fn coach_other(&mut self) {
        let coached = self.session.board().coached.other();
        self.step(Edit::Coach(coached));
        let at = self.session.selection();
        let shots = self.session.page().map(|page| page.shots.as_slice()).unwrap_or_default();
        let theirs = |i: &usize| shots.get(*i).is_some_and(|spec| spec.hitter_end == coached);
        let next = (at.shot..shots.len()).find(theirs).or_else(|| (0..at.shot).rev().find(theirs));
        if let Some(shot) = next {
            self.session.select(Selection { shot, ..at });
        }
        let name = &self.session.board().card(coached).name;
        self.message = Some(tr!("Coaching {}", name));
    }
}
