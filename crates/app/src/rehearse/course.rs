//! The course of a rehearsal: questions, answers and scores. Without a window.

use glam::DVec2;
use standpoint_board::{
    Board, PlayerCard, Units,
    rehearse::{
        Attempt, Exercise, Item, Question, Theme, Trainee,
        choose::{self, Offer},
        log::Log,
        place, schedule, score,
    },
};
use standpoint_geometry::{Level, Solver};
use standpoint_workbench::{edit::Edit, session::Session};

/// Where situations come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Source {
    /// All themes in turn.
    #[default]
    Mixed,
    /// One theme.
    Theme(Theme),
    /// The shots of the board that is open.
    Board,
}

/// Which questions are asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Kinds {
    /// Both kinds.
    #[default]
    Both,
    /// Where to stand.
    Place,
    /// Which shot.
    Shot,
}

impl Kinds {
    fn allows(self, question: Question) -> bool {
        match self {
            Self::Both => true,
            Self::Place => question == Question::Place,
            Self::Shot => question == Question::Shot,
        }
    }
}

/// What is being answered, or has been.
#[derive(Debug, Clone, PartialEq)]
pub enum Stand {
    /// Not answered yet.
    Asking,
    /// Answered.
    Answered(Outcome),
}

/// Score of an answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Points from 0 to 100.
    pub score: u8,
    /// Share of points given away against the best.
    pub lost: f64,
    /// Distance from the spot, m; 0 for the choice of a shot.
    pub distance: f64,
    /// Whether the time had run out.
    pub late: bool,
}

/// Most repeats in a row before something new.
const REPEATS: u32 = 2;
/// Seeds tried for a choice of shots before a place is asked instead, and for a place that is not the one taken already.
const SEEDS: u64 = 12;

/// A rehearsal.
pub struct Course {
    /// Where situations come from.
    pub source: Source,
    /// Which questions are asked.
    pub kinds: Kinds,
    trainee: Trainee,
    /// The trainee with figures of their own, as the board has them.
    own: Option<PlayerCard>,
    units: Units,
    from_board: Vec<Exercise>,
    next_from_board: usize,
    seed: u64,
    repeats: u32,
    log: Log,
    solver: Solver,
    session: Session,
    exercise: Exercise,
    question: Question,
    offers: Vec<Offer>,
    place: DVec2,
    chosen: Option<usize>,
    stand: Stand,
    /// Points of this sitting and how many answers.
    sitting: (u32, u32),
}

impl Course {
    /// A rehearsal for a board's coached player; the first question is asked at `now`, s since the beginning of 1970.
    #[must_use]
    pub fn new(board: &Board, source: Source, seed: u64, log: Log, now: f64) -> Self {
        let mut solver = Solver::new();
        let trainee = Trainee::of(board);
        let own = Some(board.card(board.coached).clone()).filter(|_| trainee.figures != 0);
        let from_board = Exercise::of_board(board, &mut solver);
        let exercise = Exercise::drawn_for(Theme::CrossCourt, seed, trainee, own.as_ref(), &mut solver);
        let mut course = Self {
            source,
            kinds: Kinds::Both,
            trainee,
            own,
            units: board.units,
            from_board,
            next_from_board: 0,
            seed,
            repeats: 0,
            log,
            solver,
            session: Session::new(exercise.board.clone(), None),
            place: DVec2::ZERO,
            exercise,
            question: Question::Place,
            offers: Vec::new(),
            chosen: None,
            stand: Stand::Asking,
            sitting: (0, 0),
        };
        if source == Source::Board && course.from_board.is_empty() {
            course.source = Source::Mixed;
        }
        course.ask(now);
        course
    }

    /// The situation, without revealing the answer.
    #[must_use]
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// What is asked.
    #[must_use]
    pub fn question(&self) -> Question {
        self.question
    }

    /// The situation's item.
    #[must_use]
    pub fn item(&self) -> &Item {
        &self.exercise.item
    }

    /// The shots to choose from, when that is asked.
    #[must_use]
    pub fn offers(&self) -> &[Offer] {
        &self.offers
    }

    /// The shot chosen so far, if any.
    #[must_use]
    pub fn chosen(&self) -> Option<usize> {
        self.chosen
    }

    /// Where the trainee has placed themself so far.
    #[must_use]
    pub fn place(&self) -> DVec2 {
        self.place
    }

    /// How it stands.
    #[must_use]
    pub fn stand(&self) -> &Stand {
        &self.stand
    }

    /// The history.
    #[must_use]
    pub fn log(&self) -> &Log {
        &self.log
    }

    /// Who rehearses.
    #[must_use]
    pub fn trainee(&self) -> Trainee {
        self.trainee
    }

    /// The trainee with figures of their own, if the board knows such a one.
    #[must_use]
    pub fn own(&self) -> Option<&PlayerCard> {
        self.own.as_ref()
    }

    /// Rehearses at a level from the next question on, or with the figures of the board's own player.
    pub fn change_level(&mut self, level: Option<Level>, now: f64) {
        let left_handed = self.trainee.left_handed;
        self.trainee = match (level, &self.own) {
            (Some(level), _) => Trainee::of_level(level, left_handed),
            (None, Some(own)) => Trainee { left_handed, ..Trainee::of_card(own) },
            (None, None) => return,
        };
        self.ask(now);
    }

    /// Another player rehearses from the next question on, with a history of their own.
    pub fn change_player(&mut self, log: Log, now: f64) {
        self.log = log;
        self.sitting = (0, 0);
        self.repeats = 0;
        self.ask(now);
    }

    /// Where the place chosen lies as seen from the spot, in the frame of the one who rehearses: how far to go to the right and
    /// forward, m.
    #[must_use]
    pub fn correction(&self) -> Option<DVec2> {
        let spot = self.session.play()?.spot.place;
        Some(self.session.hitter_end().turn2(spot - self.place))
    }

    /// Whether the board has shots to rehearse.
    #[must_use]
    pub fn board_has_some(&self) -> bool {
        !self.from_board.is_empty()
    }

    /// Mean points of this sitting and how many answers.
    #[must_use]
    pub fn sitting(&self) -> Option<(u32, u32)> {
        let (points, answers) = self.sitting;
        points.checked_div(answers).map(|mean| (mean, answers))
    }

    /// Rehearses with the other hand from the next question on.
    pub fn change_hands(&mut self, now: f64) {
        self.trainee.left_handed = !self.trainee.left_handed;
        self.ask(now);
    }

    /// Places the trainee, on their own side of the site.
    pub fn put(&mut self, place: DVec2) {
        if self.stand == Stand::Asking {
            self.place = self.session.board().play_area().clamp_at(self.session.hitter_end(), place);
        }
    }

    /// Chooses a shot.
    pub fn choose(&mut self, index: usize) {
        if self.stand == Stand::Asking && index < self.offers.len() {
            self.chosen = Some(index);
        }
    }

    /// Asks the next question: what is due again, or something new.
    pub fn ask(&mut self, now: f64) {
        let again = if self.repeats < REPEATS { self.due(now) } else { None };
        self.repeats = if again.is_some() { self.repeats + 1 } else { 0 };
        let (exercise, question, offers) = again.unwrap_or_else(|| self.something_new());
        self.session.replace(Board { units: self.units, ..exercise.board.clone() }, None);
        self.place = self.session.board().hitter_place(exercise.spec());
        (self.exercise, self.question, self.offers) = (exercise, question, offers);
        self.chosen = None;
        self.stand = Stand::Asking;
    }

    fn due(&mut self, now: f64) -> Option<(Exercise, Question, Vec<Offer>)> {
        let wanted = |item: &Item, question: Question| {
            self.kinds.allows(question)
                && match (item, self.source) {
                    (Item::Drawn { trainee, .. }, Source::Mixed) => *trainee == self.trainee,
                    (Item::Drawn { trainee, theme, .. }, Source::Theme(wanted)) => {
                        *trainee == self.trainee && *theme == wanted
                    }
                    (Item::Board { .. }, Source::Board) => self.from_board.iter().any(|known| known.item == *item),
                    _ => false,
                }
        };
        let (item, question) = schedule::due(self.log.history(), now as u64, wanted)?;
        let exercise = match &item {
            Item::Drawn { theme, seed, .. } => self.drawn(*theme, *seed),
            Item::Board { .. } => self.from_board.iter().find(|known| known.item == item)?.clone(),
        };
        match question {
            Question::Place => Some((exercise, question, Vec::new())),
            Question::Shot => choose::offers(&exercise, &mut self.solver).map(|offers| (exercise, question, offers)),
        }
    }

    fn something_new(&mut self) -> (Exercise, Question, Vec<Offer>) {
        let wanted = match self.kinds {
            Kinds::Place => Question::Place,
            Kinds::Shot => Question::Shot,
            Kinds::Both if self.seed.is_multiple_of(3) => Question::Shot,
            Kinds::Both => Question::Place,
        };
        let mut exercise = self.draw();
        if wanted == Question::Shot {
            for _ in 0..SEEDS {
                if let Some(offers) = choose::offers(&exercise, &mut self.solver) {
                    return (exercise, Question::Shot, offers);
                }
                exercise = self.draw();
            }
        }
        // Who stands right already is asked nothing.
        for _ in 0..SEEDS {
            if place::asks_to_move(&exercise, &mut self.solver) {
                break;
            }
            exercise = self.draw();
        }
        (exercise, Question::Place, Vec::new())
    }

    fn draw(&mut self) -> Exercise {
        let seed = self.seed;
        self.seed = self.seed.wrapping_add(1);
        let theme = match self.source {
            Source::Board if !self.from_board.is_empty() => {
                let exercise = self.from_board[self.next_from_board % self.from_board.len()].clone();
                self.next_from_board += 1;
                return exercise;
            }
            Source::Theme(theme) => theme,
            Source::Mixed | Source::Board => Theme::ALL[(seed % Theme::ALL.len() as u64) as usize],
        };
        self.drawn(theme, seed)
    }

    fn drawn(&mut self, theme: Theme, seed: u64) -> Exercise {
        let own = self.own.as_ref().filter(|_| self.trainee.figures != 0);
        Exercise::drawn_for(theme, seed, self.trainee, own, &mut self.solver)
    }

    /// Takes the current answer, scores it and keeps it. `now` is the time, s since the beginning of 1970.
    pub fn answer(&mut self, now: f64, late: bool) {
        if self.stand != Stand::Asking {
            return;
        }
        let outcome = match self.question {
            Question::Place => self.judge_place(late),
            Question::Shot => self.judge_choice(late),
        };
        self.log.record(Attempt {
            at: now.max(0.0) as u64,
            item: self.exercise.item.clone(),
            question: self.question,
            score: outcome.score,
            lost: outcome.lost,
            distance: outcome.distance,
        });
        self.sitting.0 += u32::from(outcome.score);
        self.sitting.1 += 1;
        self.stand = Stand::Answered(outcome);
    }

    fn judge_place(&mut self, late: bool) -> Outcome {
        self.session.edit(&Edit::RecoverTo(Some(self.place)));
        // Every situation that is asked is met; in one that were not no place would matter.
        let judged = place::judge(&self.exercise, self.place, &mut self.solver);
        judged.map_or(Outcome { score: 0, lost: 0.0, distance: 0.0, late }, |judged| Outcome {
            score: judged.score,
            lost: judged.extra.max(0.0),
            distance: judged.distance,
            late,
        })
    }

    fn judge_choice(&self, late: bool) -> Outcome {
        let best = self.offers.get(choose::best(&self.offers)).map_or(0.0, |offer| offer.win);
        // No choice scores nothing.
        let won = self.chosen.and_then(|chosen| self.offers.get(chosen)).map_or(0.0, |offer| offer.win);
        let lost = (best - won).max(0.0);
        Outcome { score: score::of_choice(lost), lost, distance: 0.0, late }
    }
}

#[cfg(test)]
mod tests;
