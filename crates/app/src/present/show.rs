//! State of a presentation: a shot revealed step by step, and overlays. Without a window.

use std::collections::HashMap;

use glam::DVec2;
use standpoint_board::marks::{Appears, Marks, Step};
use standpoint_workbench::{selection::Selection, session::Session, settings::Sight};

/// How far a shot is revealed; each step includes those before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum RevealStep {
    /// The shot and the two players: time to guess.
    #[default]
    Shot,
    /// The directions left to the opponent.
    Wedge,
    /// The two best replies.
    Replies,
    /// The zone with its spot and the run to it, or another outcome of the shot.
    Answer,
}

impl RevealStep {
    /// The step as marks name it.
    fn of_marks(self) -> Step {
        match self {
            Self::Shot => Step::Shot,
            Self::Wedge => Step::Angle,
            Self::Replies => Step::Replies,
            Self::Answer => Step::Answer,
        }
    }
}

/// The steps of a shot that is met, and of one that ends the rally or cannot be played.
const MET: [RevealStep; 4] = [RevealStep::Shot, RevealStep::Wedge, RevealStep::Replies, RevealStep::Answer];
const OVER: [RevealStep; 2] = [RevealStep::Shot, RevealStep::Answer];

/// The steps of the shot being looked at.
#[must_use]
pub fn steps(session: &Session) -> &'static [RevealStep] {
    if session.play().is_some() { &MET } else { &OVER }
}

/// A move of the coach.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Move {
    /// The next step, or else the next shot, or else the next page.
    Forward,
    /// The previous step, or else the previous shot or page as it was left.
    Back,
    /// The next shot, from its first step.
    NextShot,
    /// The shot before, from its first step.
    PreviousShot,
    /// The next page, from its first step.
    NextPage,
    /// The page before, from its first step.
    PreviousPage,
    /// The first page.
    First,
    /// The last page.
    Last,
    /// Everything of this shot.
    Reveal,
    /// This shot from its first step.
    Cover,
    /// A black screen, and back.
    Black,
    /// The spotlight on or off.
    Spotlight,
    /// Drawing on or off.
    Draw,
    /// The last line drawn goes.
    TakeBack,
    /// All that is drawn on this shot goes.
    Wipe,
    /// The rally is played, and paused.
    Play,
    /// The notes in their own window, on or off.
    Notes,
    /// The list of keys, on or off.
    Keys,
    /// Strong contrast or the colours of the surface.
    Colours,
    /// The court is turned by a quarter.
    Turn,
    /// The court, what the player sees, or the view from behind, in turn.
    Sight,
    /// Back to the board.
    Leave,
}

/// The state of a presentation.
#[derive(Debug, Clone, Default)]
pub struct Show {
    step: RevealStep,
    /// Whether the screen is black.
    pub black: bool,
    /// Whether all but the ground around the pointer is dimmed.
    pub spotlight: bool,
    /// Whether the pointer draws.
    pub drawing: bool,
    /// From where the court is seen instead of from above.
    pub sight: Option<Sight>,
    /// What is drawn, in places on the court, until the presentation is left.
    ink: HashMap<Selection, Vec<Vec<DVec2>>>,
}

impl Show {
    /// One with everything revealed.
    #[must_use]
    pub fn revealed() -> Self {
        Self { step: RevealStep::Answer, ..Self::default() }
    }

    /// How far the shot is revealed.
    #[must_use]
    pub fn step(&self) -> RevealStep {
        self.step
    }

    /// The marks that are there at this step: what appears later is left out, lest it give the answer away.
    #[must_use]
    pub fn marks(&self, session: &Session) -> Option<Marks> {
        let now = Appears { shot: session.selection().shot, step: self.step.of_marks() };
        session.page().map(|page| page.marks.until(now, page.shots.len()))
    }

    /// The lines drawn on the shot being looked at.
    #[must_use]
    pub fn ink(&self, at: Selection) -> &[Vec<DVec2>] {
        self.ink.get(&at).map(Vec::as_slice).unwrap_or_default()
    }

    /// Begins a line.
    pub fn begin_line(&mut self, at: Selection, place: DVec2) {
        self.ink.entry(at).or_default().push(vec![place]);
    }

    /// Draws the line on.
    pub fn draw_on(&mut self, at: Selection, place: DVec2) {
        if let Some(line) = self.ink.get_mut(&at).and_then(|lines| lines.last_mut()) {
            line.push(place);
        }
    }

    /// The step that comes next for this shot, if one does.
    #[must_use]
    pub fn next_step(&self, session: &Session) -> Option<RevealStep> {
        steps(session).iter().copied().find(|step| *step > self.step)
    }

    /// Carries out moves that change the picture; returns whether it was one.
    pub fn go(&mut self, session: &mut Session, asked: Move) -> bool {
        let travels = matches!(
            asked,
            Move::Forward | Move::Back | Move::NextShot | Move::PreviousShot | Move::NextPage | Move::PreviousPage
        );
        if travels && std::mem::take(&mut self.black) {
            // The first press on a black screen only brings the picture back, as remote controls do.
            return true;
        }
        let at = session.selection();
        match asked {
            Move::Forward => self.forward(session),
            Move::Back => self.back(session),
            Move::NextShot => self.turn_to(session, Selection { shot: at.shot + 1, ..at }, RevealStep::Shot),
            Move::PreviousShot => {
                self.turn_to(session, Selection { shot: at.shot.saturating_sub(1), ..at }, RevealStep::Shot);
            }
            Move::NextPage => self.turn_to(session, Selection { page: at.page + 1, shot: 0 }, RevealStep::Shot),
            Move::PreviousPage => {
                self.turn_to(session, Selection { page: at.page.saturating_sub(1), shot: 0 }, RevealStep::Shot);
            }
            Move::First => self.turn_to(session, Selection::default(), RevealStep::Shot),
            Move::Last => {
                let last = session.board().pages.len().saturating_sub(1);
                self.turn_to(session, Selection { page: last, shot: 0 }, RevealStep::Shot);
            }
            Move::Reveal => self.step = RevealStep::Answer,
            Move::Cover => self.step = RevealStep::Shot,
            Move::Black => self.black = !self.black,
            Move::Spotlight => self.spotlight = !self.spotlight,
            Move::Draw => self.drawing = !self.drawing,
            Move::TakeBack => {
                self.ink.entry(at).or_default().pop();
            }
            Move::Wipe => {
                self.ink.remove(&at);
            }
            Move::Sight => {
                self.sight = match self.sight {
                    None => Some(Sight::Eyes),
                    Some(Sight::Eyes) => Some(Sight::Behind),
                    Some(Sight::Behind) => None,
                };
            }
            Move::Play => session.control(standpoint_board::playback::Control::Toggle),
            Move::Notes | Move::Keys | Move::Colours | Move::Turn | Move::Leave => return false,
        }
        true
    }

    fn forward(&mut self, session: &mut Session) {
        if let Some(next) = self.next_step(session) {
            leave_moment(session);
            self.step = next;
            return;
        }
        let at = session.selection();
        let next = [Selection { shot: at.shot + 1, ..at }, Selection { page: at.page + 1, shot: 0 }]
            .into_iter()
            .find(|to| session.board().shot(to.page, to.shot).is_some());
        if let Some(next) = next {
            self.turn_to(session, next, RevealStep::Shot);
        }
    }

    fn back(&mut self, session: &mut Session) {
        if let Some(before) = steps(session).iter().copied().rev().find(|step| *step < self.step) {
            leave_moment(session);
            self.step = before;
            return;
        }
        let at = session.selection();
        let before = if at.shot > 0 {
            Some(Selection { shot: at.shot - 1, ..at })
        } else {
            let page = at.page.checked_sub(1);
            let last = |page: usize| session.board().page(page).map_or(0, |page| page.shots.len().saturating_sub(1));
            page.map(|page| Selection { page, shot: last(page) })
        };
        if let Some(before) = before {
            // Steps shown already stay shown.
            self.turn_to(session, before, RevealStep::Answer);
        }
    }

    /// Turns to a shot, if it exists.
    fn turn_to(&mut self, session: &mut Session, to: Selection, step: RevealStep) {
        if session.board().shot(to.page, to.shot).is_some() {
            session.select(to);
            self.step = step;
        }
    }
}

fn leave_moment(session: &mut Session) {
    if session.moment().is_some() {
        session.control(standpoint_board::playback::Control::Stop);
    }
}

#[cfg(test)]
mod tests {
    use standpoint_board::{Board, patterns::Pattern};

    use super::*;

    /// Two pages: the demo's one shot, then a rally.
    fn session() -> Session {
        let mut board = Board::demo();
        let page = Pattern::ApproachAndVolley.page(&board, false);
        board.pages.push(std::sync::Arc::new(page));
        Session::new(board, None)
    }

    #[test]
    fn forward_goes_through_every_step_of_every_shot_and_back_returns_the_same_way() {
        let (mut session, mut show) = (session(), Show::default());
        let mut seen = vec![(session.selection(), show.step())];
        for _ in 0..60 {
            show.go(&mut session, Move::Forward);
            let now = (session.selection(), show.step());
            if seen.last() == Some(&now) {
                break;
            }
            seen.push(now);
        }
        let shots: usize = session.board().pages.iter().map(|page| page.shots.len()).sum();
        let visited: std::collections::HashSet<_> = seen.iter().map(|(at, _)| *at).collect();
        assert_eq!(visited.len(), shots, "every shot comes up");
        assert_eq!(&seen[..4].iter().map(|(_, step)| *step).collect::<Vec<_>>(), &MET);
        let mut back = vec![(session.selection(), show.step())];
        for _ in 1..seen.len() {
            show.go(&mut session, Move::Back);
            back.push((session.selection(), show.step()));
        }
        back.reverse();
        assert_eq!(back, seen);
        show.go(&mut session, Move::Back);
        assert_eq!((session.selection(), show.step()), seen[0], "there is nothing before the first");
    }

    #[test]
    fn a_black_screen_gives_way_to_the_first_press_and_loses_no_step() {
        let (mut session, mut show) = (session(), Show::default());
        show.go(&mut session, Move::Black);
        assert!(show.black);
        show.go(&mut session, Move::Forward);
        assert!(!show.black);
        assert_eq!(show.step(), RevealStep::Shot);
    }

    #[test]
    fn ink_belongs_to_the_shot_it_was_drawn_on() {
        let (mut session, mut show) = (session(), Show::default());
        let at = session.selection();
        show.begin_line(at, DVec2::ZERO);
        show.draw_on(at, DVec2::ONE);
        show.go(&mut session, Move::NextPage);
        assert!(show.ink(session.selection()).is_empty());
        show.go(&mut session, Move::PreviousPage);
        assert_eq!(show.ink(session.selection()), [vec![DVec2::ZERO, DVec2::ONE]]);
        show.go(&mut session, Move::TakeBack);
        assert!(show.ink(session.selection()).is_empty());
    }

    #[test]
    fn pages_that_are_not_there_are_not_turned_to() {
        let (mut session, mut show) = (session(), Show::default());
        show.go(&mut session, Move::Last);
        let last = session.selection();
        show.go(&mut session, Move::NextPage);
        assert_eq!(session.selection(), last);
    }

    #[test]
    fn a_mark_that_appears_with_the_answer_is_not_there_before() {
        use standpoint_board::marks::{Form, Ink, Layer};
        let mut board = Board::demo();
        let page = board.page_mut(0).unwrap();
        let id = page.marks.add(Layer::Sketch, Ink::Warning, Form::Cone { at: DVec2::ZERO });
        page.marks.get_mut(id).unwrap().appears.step = Step::Answer;
        let (mut session, mut show) = (Session::new(board, None), Show::default());
        for step in MET {
            assert_eq!(show.step(), step);
            let there = show.marks(&session).unwrap().get(id).is_some();
            assert_eq!(there, step == RevealStep::Answer, "{step:?}");
            show.go(&mut session, Move::Forward);
        }
    }
}
