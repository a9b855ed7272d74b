//! Situations to rehearse: drawn from a seed by theme, or taken from a board.

use std::sync::Arc;

use glam::{DVec2, DVec3};
use standpoint_geometry::{Answer, End, Hand, Level, ReadyArea, ReceiptChoice, Shot, Solver, Stroke, usual_delivery};
use standpoint_language::text;

use super::theme::Theme;
use crate::{
    dice::Dice,
    lock::system::fingerprint,
    model::{Board, Page, ShotSpec},
    player_card::{Figures, PlayerCard},
    rally::Rally,
};

/// The trainee.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Trainee {
    /// Level of both players.
    pub level: Level,
    /// Whether the trainee is left-handed.
    pub left_handed: bool,
    /// Fingerprint of the trainee's own figures, measured or entered; 0 with those of the level.
    pub figures: u64,
}

impl Trainee {
    /// A trainee with the figures of a level. Levels of the smaller courts become the youngest of the full court, on
    /// which situations are drawn.
    #[must_use]
    pub fn of_level(level: Level, left_handed: bool) -> Self {
        let level = match level {
            Level::RedJunior | Level::OrangeJunior => Level::GreenJunior,
            level => level,
        };
        Self { level, left_handed, figures: 0 }
    }

    /// The board's coached player as a trainee; one with figures of their own meets club players.
    #[must_use]
    pub fn of(board: &Board) -> Self {
        Self::of_card(board.card(board.coached))
    }

    /// A player as a trainee.
    #[must_use]
    pub fn of_card(card: &PlayerCard) -> Self {
        let trainee = Self::of_level(card.level().unwrap_or(Level::Club), card.hand == Hand::Left);
        let figures = match &card.figures {
            Figures::Custom(player) => fingerprint(format!("{player:?}").as_bytes()).max(1),
            Figures::Level(_) => 0,
        };
        Self { figures, ..trainee }
    }
}

/// Key of a situation.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Item {
    /// Drawn by theme.
    Drawn {
        /// The theme.
        theme: Theme,
        /// The seed.
        seed: u64,
        /// The trainee.
        trainee: Trainee,
    },
    /// A shot of a board.
    Board {
        /// Fingerprint of everything that the answer depends on.
        print: u64,
        /// Title of its page, for display.
        title: String,
    },
}

/// A situation to rehearse: a board with one page and one shot, struck by the player who is coached.
#[derive(Debug, Clone, PartialEq)]
pub struct Exercise {
    /// Its key.
    pub item: Item,
    /// The situation.
    pub board: Board,
}

/// Draws tried before the ball that can always be played is used.
const TRIES: u32 = 60;
/// Least chance that a ball to rehearse goes in. Our choice.
const LEAST_CHANCE: f64 = 0.4;
/// Factor of speed for a ball that is too slow to carry.
const FASTER: [f64; 4] = [1.0, 1.15, 1.3, 1.5];
/// Share of opponents who are left-handed: about one in eight (from memory).
const LEFT_HANDERS: f64 = 0.125;

impl Exercise {
    /// The situation of a theme for a seed: the same on every machine. The shot can be played and is met.
    ///
    /// A left-hander gets the mirror image of a right-hander's situation, against the same opponent.
    #[must_use]
    pub fn drawn(theme: Theme, seed: u64, trainee: Trainee, solver: &mut Solver) -> Self {
        Self::drawn_for(theme, seed, trainee, None, solver)
    }

    /// The situation for a player with figures of their own.
    #[must_use]
    pub fn drawn_for(theme: Theme, seed: u64, trainee: Trainee, own: Option<&PlayerCard>, solver: &mut Solver) -> Self {
        let mut dice = Dice::new(seed ^ fingerprint(theme.word().as_bytes()));
        let opponent = if dice.even() < LEFT_HANDERS { Hand::Left } else { Hand::Right };
        let item = Item::Drawn { theme, seed, trainee };
        let mut exercise = Self { item, board: plain(theme, (trainee.level, own), opponent, solver) };
        for attempt in 0..TRIES {
            // Later tries are easier, so that slow players find a ball too.
            let tame = f64::from(attempt) / f64::from(TRIES);
            let throw = thrown(theme, &mut dice, tame);
            let scenes = FASTER.map(|faster| scene(theme, (trainee.level, own), opponent, throw.faster(faster)));
            let fits = |board: &Board| solver.solve_met(board).is_some_and(|chance| chance >= LEAST_CHANCE);
            if let Some(board) = scenes.into_iter().find(fits) {
                exercise.board = board;
                break;
            }
        }
        if trainee.left_handed {
            exercise.board.mirror();
            // Only the trainee changes hands.
            exercise.board.far.hand = opponent;
            if solver.solve_met(&exercise.board).is_none() {
                // That opponent does not meet the ball on the other wing: mirror the opponent too, so that it is met.
                exercise.board.far.hand = opponent.mirrored();
            }
        }
        exercise
    }

    /// The shots of a board that can be rehearsed: struck by the coached player and met by the other one.
    #[must_use]
    pub fn of_board(board: &Board, solver: &mut Solver) -> Vec<Self> {
        let mut found = Vec::new();
        for page in &board.pages {
            let mut rally = Rally::new();
            for index in 0..page.shots.len() {
                let Ok(resolved) = rally.resolve(board, page, index, solver) else { break };
                if resolved.spec.hitter_end != board.coached || resolved.play().is_none() {
                    continue;
                }
                let spec = ShotSpec { follows: false, recover_to: None, ..resolved.spec };
                let spec = ShotSpec { hitter_place: Some(board.hitter_place(&spec)), ..spec };
                let shot = Page { shots: vec![spec], marks: Default::default(), ..Page::clone(page) };
                let print = fingerprint(format!("{:?}", board.situation_of(&spec)).as_bytes());
                let item = Item::Board { print, title: page.title.clone() };
                found.push(Self { item, board: Board { pages: vec![Arc::new(shot)], ..board.clone() } });
            }
        }
        found
    }

    /// The mirror image, players and all: its answer is the mirror image too.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut exercise = self.clone();
        exercise.board.mirror();
        exercise
    }

    /// The shot.
    ///
    /// # Panics
    /// Never: an exercise has one.
    #[must_use]
    pub fn spec(&self) -> &ShotSpec {
        &self.board.pages[0].shots[0]
    }

    /// The answer.
    #[must_use]
    pub fn answer(&self, solver: &mut Solver) -> Option<Answer> {
        solver.solve(&self.board.situation(0, 0)?).ok()
    }
}

trait Met {
    /// The chance in of the board's one shot, when it can be played and is met.
    fn solve_met(&mut self, board: &Board) -> Option<f64>;
}

impl Met for Solver {
    fn solve_met(&mut self, board: &Board) -> Option<f64> {
        let answer = self.solve(&board.situation(0, 0)?).ok()?;
        answer.play().map(|_| answer.shot.chance_in)
    }
}

/// The plain ball of a theme, at the speed these players need for it to carry.
fn plain(theme: Theme, who: (Level, Option<&PlayerCard>), opponent: Hand, solver: &mut Solver) -> Board {
    let scenes = FASTER.map(|faster| scene(theme, who, opponent, sure(theme).faster(faster)));
    let first = scenes[0].clone();
    scenes.into_iter().find(|board| solver.solve_met(board).is_some()).unwrap_or(first)
}

/// A drawn ball of a theme: places on a full court for a right-hander at the near end.
#[derive(Clone, Copy)]
struct Throw {
    stroke: Stroke,
    contact: DVec3,
    target: DVec2,
    opponent: DVec2,
    /// Share of the usual speed.
    speed: f64,
}

impl Throw {
    fn faster(mut self, by: f64) -> Self {
        self.speed *= by;
        self
    }
}

/// The situation of a drawn ball.
fn scene(theme: Theme, (level, own): (Level, Option<&PlayerCard>), opponent: Hand, throw: Throw) -> Board {
    let mut board = Board::blank();
    board.near = PlayerCard::of_level(text("You"), level);
    if let Some(own) = own {
        (board.near.grip, board.near.figures) = (own.grip, own.figures.clone());
    }
    board.far = PlayerCard { hand: opponent, ..PlayerCard::of_level(text("Opponent"), level) };
    board.title = theme.label().to_owned();
    if matches!(theme, Theme::Approach | Theme::Net) {
        board.settings.ready = ReadyArea::Net;
    }
    let player = board.near.player();
    let wing = player.wing_for(throw.contact.x);
    let contact = throw.contact.with_z(throw.contact.z.min(0.6 * player.reach.overhead));
    let (speed, topspin) = usual_delivery(&board.conditions(), &player, wing, throw.stroke, contact, throw.target);
    let shot = Shot {
        contact,
        stroke: throw.stroke,
        target: throw.target,
        speed: speed * throw.speed,
        topspin,
        sidespin: 0.0,
    };
    let spec = ShotSpec {
        hitter_end: End::Near,
        shot,
        receipt: ReceiptChoice::Best,
        hitter_place: None,
        opponent_place: throw.opponent,
        follows: false,
        recover_to: None,
        recover_in: None,
    };
    let page = Page {
        title: theme.label().to_owned(),
        notes: String::new(),
        cues: Vec::new(),
        drill: crate::model::Drill::default(),
        shots: vec![spec],
        marks: Default::default(),
    };
    board.pages = vec![Arc::new(page)];
    board
}

/// Draws a ball of a theme; `tame` shifts it towards the one that can always be played.
///
/// The ranges are the usual ones for such balls (common practice, no source).
fn thrown(theme: Theme, dice: &mut Dice, tame: f64) -> Throw {
    let side = if dice.even() < 0.5 { 1.0 } else { -1.0 };
    let mut of = |low: f64, high: f64| dice.between(low, high);
    let wild = match theme {
        Theme::CrossCourt => Throw {
            stroke: Stroke::Topspin,
            contact: DVec3::new(side * of(1.6, 3.8), of(-13.4, -11.6), of(0.7, 1.2)),
            target: DVec2::new(-side * of(1.8, 3.3), of(7.4, 10.4)),
            opponent: DVec2::new(of(-1.5, 1.5), of(11.8, 13.2)),
            speed: of(0.85, 1.05),
        },
        Theme::Line => Throw {
            stroke: Stroke::Topspin,
            contact: DVec3::new(side * of(1.6, 3.6), of(-13.0, -11.4), of(0.7, 1.2)),
            target: DVec2::new(side * of(1.8, 3.2), of(7.8, 10.2)),
            opponent: DVec2::new(of(-1.8, 1.8), of(11.8, 13.2)),
            speed: of(0.85, 1.05),
        },
        Theme::Approach => Throw {
            stroke: if of(0.0, 1.0) < 0.5 { Stroke::Slice } else { Stroke::Topspin },
            contact: DVec3::new(side * of(0.6, 3.0), of(-8.8, -6.4), of(0.7, 1.2)),
            target: DVec2::new(of(-3.2, 3.2), of(8.4, 10.4)),
            opponent: DVec2::new(of(-1.5, 1.5), of(12.0, 13.2)),
            speed: of(0.85, 1.0),
        },
        Theme::Net => Throw {
            stroke: Stroke::Volley,
            contact: DVec3::new(side * of(0.2, 2.4), of(-4.2, -2.4), of(0.9, 1.5)),
            target: DVec2::new(of(-3.0, 3.0), of(6.4, 9.6)),
            opponent: DVec2::new(of(-2.5, 2.5), of(11.8, 12.8)),
            speed: of(0.8, 1.0),
        },
        Theme::Return => {
            let (wide, target, deep) = (of(1.4, 4.4), of(-3.0, 3.0), of(7.6, 10.2));
            Throw {
                stroke: if of(0.0, 1.0) < 0.25 { Stroke::Slice } else { Stroke::Topspin },
                contact: DVec3::new(side * wide, of(-12.8, -11.0), of(0.8, 1.4)),
                target: DVec2::new(target, deep),
                // The server stands near the centre mark, on the side of the box across.
                opponent: DVec2::new(-side * of(0.2, 1.2), of(11.4, 12.4)),
                speed: of(0.75, 0.95),
            }
        }
    };
    let plain = sure(theme);
    // The contact is drawn in on its own side of the court, so that the ball stays on theme.
    let own = DVec3::new(plain.contact.x.abs() * wild.contact.x.signum(), plain.contact.y, plain.contact.z);
    let aim = DVec2::new(plain.target.x.abs() * wild.target.x.signum(), plain.target.y);
    Throw {
        stroke: if tame > 0.5 { plain.stroke } else { wild.stroke },
        contact: wild.contact.lerp(own, tame),
        target: wild.target.lerp(aim, tame),
        opponent: wild.opponent.lerp(plain.opponent, tame),
        speed: wild.speed + (plain.speed - wild.speed) * tame,
    }
}

/// The ball of a theme that every level can play and meet, as a test proves.
fn sure(theme: Theme) -> Throw {
    let (stroke, contact, target) = match theme {
        Theme::CrossCourt => (Stroke::Topspin, DVec3::new(2.4, -11.8, 0.9), DVec2::new(-1.6, 7.6)),
        Theme::Line => (Stroke::Topspin, DVec3::new(1.8, -11.8, 0.9), DVec2::new(1.4, 7.6)),
        Theme::Approach => (Stroke::Topspin, DVec3::new(1.4, -8.2, 1.0), DVec2::new(1.0, 8.0)),
        Theme::Net => (Stroke::Volley, DVec3::new(0.8, -3.0, 1.2), DVec2::new(1.0, 7.6)),
        Theme::Return => (Stroke::Topspin, DVec3::new(2.6, -11.8, 1.0), DVec2::new(-1.0, 7.6)),
    };
    Throw { stroke, contact, target, opponent: DVec2::new(0.3, 12.2), speed: 0.9 }
}

#[cfg(test)]
mod tests;
