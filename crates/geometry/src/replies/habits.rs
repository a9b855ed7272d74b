//! A player's habits: counts of the ways they sent the ball, which weigh the replies of that opponent.

use glam::DVec2;

use crate::{
    court::Court,
    player::{Hand, Wing},
    shot::stroke::Stroke,
};

/// A serve lands at the T, at the body or wide by thirds of the box.
const SERVE_THIRDS: [f64; 2] = [1.0 / 3.0, 2.0 / 3.0];

/// The way of a ball.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// Diagonally; a serve: to the sideline.
    Across,
    /// Through the middle; a serve: at the body.
    Middle,
    /// Along the line; a serve: to the T.
    Line,
}

impl Way {
    /// All ways.
    pub const ALL: [Self; 3] = [Self::Across, Self::Middle, Self::Line];

    /// The way of a ball from a contact to a landing place, in the frame of a near striker.
    ///
    /// From the centre of the court a stroke that turns across the body goes diagonally.
    #[must_use]
    pub fn of(court: &Court, hand: Hand, wing: Wing, stroke: Stroke, contact: DVec2, landing: DVec2) -> Self {
        if stroke == Stroke::Serve {
            return match landing.x.abs() / court.half_width() {
                a if a < SERVE_THIRDS[0] => Self::Line,
                a if a < SERVE_THIRDS[1] => Self::Middle,
                _ => Self::Across,
            };
        }
        if court.is_through_middle(landing) {
            return Self::Middle;
        }
        let from = if court.is_central(contact) {
            let forehand = hand.forehand_sign();
            if wing == Wing::Forehand { forehand } else { -forehand }
        } else {
            contact.x
        };
        if from * landing.x < 0.0 { Self::Across } else { Self::Line }
    }
}

/// Thirds of the singles court from which a ball is struck, as the striker faces the net.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Third {
    /// The left one.
    Left,
    /// The middle one.
    Middle,
    /// The right one.
    Right,
}

impl Third {
    /// All thirds, from left to right.
    pub const ALL: [Self; 3] = [Self::Left, Self::Middle, Self::Right];

    /// The third of a place `x` metres to the striker's right of the long axis.
    #[must_use]
    pub fn of(court: &Court, x: f64) -> Self {
        let third = court.half_width() / 3.0;
        if x < -third {
            Self::Left
        } else if x > third {
            Self::Right
        } else {
            Self::Middle
        }
    }
}

/// A case in which ways are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HabitCase {
    /// A stroke of a rally: wing, third of the court, and whether it is hurried.
    Rally(Wing, Third, bool),
    /// A serve: whether it is struck from the right of the middle (deuce court), and whether it is a second one.
    Serve {
        /// From the right of the middle.
        deuce: bool,
        /// A second serve.
        second: bool,
    },
}

impl HabitCase {
    /// The case in the mirror image.
    pub(crate) fn mirrored(self) -> Self {
        match self {
            Self::Rally(wing, Third::Left, hurried) => Self::Rally(wing, Third::Right, hurried),
            Self::Rally(wing, Third::Right, hurried) => Self::Rally(wing, Third::Left, hurried),
            Self::Rally(wing, Third::Middle, hurried) => Self::Rally(wing, Third::Middle, hurried),
            Self::Serve { deuce, second } => Self::Serve { deuce: !deuce, second },
        }
    }
}

/// How often a player sent the ball each way, by case, and the weight of the model's expectation.
///
/// The share of a way is the mean of a Dirichlet distribution: `(counted + strength * expected) / (all + strength)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReplyHabits {
    rally: [[[[u32; 3]; 2]; 3]; 2],
    serve: [[[u32; 3]; 2]; 2],
    /// Weight of the expectation, in shots: 0.1 to 1000.
    pub strength: f64,
}

impl Default for ReplyHabits {
    fn default() -> Self {
        Self { rally: Default::default(), serve: Default::default(), strength: Self::STRENGTH }
    }
}

impl ReplyHabits {
    /// Usual weight of the expectation, in shots. A choice without a source.
    pub const STRENGTH: f64 = 8.0;

    /// The counts of a case, in the order of [`Way::ALL`].
    #[must_use]
    pub fn counts(&self, case: HabitCase) -> [u32; 3] {
        match case {
            HabitCase::Rally(wing, third, hurried) => self.rally[wing as usize][third as usize][usize::from(hurried)],
            HabitCase::Serve { deuce, second } => self.serve[usize::from(deuce)][usize::from(second)],
        }
    }

    /// Sets the counts of a case.
    pub fn set(&mut self, case: HabitCase, counts: [u32; 3]) {
        match case {
            HabitCase::Rally(wing, third, hurried) => {
                self.rally[wing as usize][third as usize][usize::from(hurried)] = counts;
            }
            HabitCase::Serve { deuce, second } => self.serve[usize::from(deuce)][usize::from(second)] = counts,
        }
    }

    /// All cases.
    pub fn cases() -> impl Iterator<Item = HabitCase> {
        let rally = [Wing::Forehand, Wing::Backhand].into_iter().flat_map(|wing| {
            Third::ALL.into_iter().flat_map(move |third| [false, true].map(|h| HabitCase::Rally(wing, third, h)))
        });
        let serve =
            [false, true].into_iter().flat_map(|deuce| [false, true].map(|second| HabitCase::Serve { deuce, second }));
        rally.chain(serve)
    }

    /// Shots counted in all cases.
    #[must_use]
    pub fn shots(&self) -> u64 {
        Self::cases().flat_map(|case| self.counts(case)).map(u64::from).sum()
    }

    /// The shares of the ways in a case, smoothed towards `expected`, which sums to one.
    #[must_use]
    pub fn shares(&self, case: HabitCase, expected: [f64; 3]) -> [f64; 3] {
        let counts = self.counts(case);
        let all: f64 = counts.iter().copied().map(f64::from).sum::<f64>() + self.strength;
        [0, 1, 2].map(|k| (f64::from(counts[k]) + self.strength * expected[k]) / all)
    }

    /// The habits in the mirror image.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let rally = self.rally.map(|[left, middle, right]| [right, middle, left]);
        let [ad, deuce] = self.serve;
        Self { rally, serve: [deuce, ad], strength: self.strength }
    }
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;
    use crate::{
        court::{NetPosts, Stage, frame::End},
        player::presets::Level,
        questions::judge_place::tests::drive,
        shot::situation::Situation,
        solver::{answer::Play, solve},
    };

    fn play(situation: &Situation) -> Play {
        solve(situation).unwrap().play().unwrap().clone()
    }

    /// Habits of a player who sends every ball of a rally one way.
    fn always(way: Way, shots: u32) -> ReplyHabits {
        let mut habits = ReplyHabits::default();
        for case in ReplyHabits::cases().filter(|case| matches!(case, HabitCase::Rally(..))) {
            let mut counts = [0; 3];
            counts[way as usize] = shots;
            habits.set(case, counts);
        }
        habits
    }

    #[test]
    fn ways_are_told_as_a_coach_tells_them() {
        let court = Court::new(Stage::Full, NetPosts::SinglesSticks);
        let of =
            |hand, wing, x: f64, to: f64| Way::of(&court, hand, wing, Stroke::Topspin, dvec2(x, -12.0), dvec2(to, 9.0));
        assert_eq!(of(Hand::Right, Wing::Forehand, 3.0, -3.0), Way::Across);
        assert_eq!(of(Hand::Right, Wing::Forehand, 3.0, 3.0), Way::Line);
        assert_eq!(of(Hand::Right, Wing::Forehand, 3.0, 0.5), Way::Middle);
        assert_eq!(of(Hand::Right, Wing::Forehand, 0.2, -3.0), Way::Across);
        assert_eq!(of(Hand::Right, Wing::Backhand, 0.2, 3.0), Way::Across);
        assert_eq!(of(Hand::Left, Wing::Forehand, 0.2, 3.0), Way::Across);
        assert_eq!([-3.0, 0.0, 3.0].map(|x| Third::of(&court, x)), Third::ALL);
    }

    /// Source: mean of a Dirichlet distribution (Gelman et al., Bayesian Data Analysis, section 3.4).
    #[test]
    fn shares_are_the_mean_of_a_dirichlet_distribution() {
        let habits = ReplyHabits { strength: 8.0, ..always(Way::Across, 12) };
        let case = HabitCase::Rally(Wing::Forehand, Third::Left, true);
        let shares = habits.shares(case, [0.5, 0.25, 0.25]);
        assert!(shares.iter().zip([16.0 / 20.0, 2.0 / 20.0, 2.0 / 20.0]).all(|(a, b)| (a - b).abs() < 1e-12));
        assert_eq!(habits.shots(), 12 * 12);
    }

    #[test]
    fn habits_without_a_shot_change_nothing() {
        let plain = drive(dvec2(-2.9, 9.6), Level::Tournament);
        let known = Situation { opponent_habits: Some(ReplyHabits::default()), ..plain };
        let (plain, known) = (play(&plain), play(&known));
        assert!((plain.spot.place - known.spot.place).length() < 1e-3);
        assert!((plain.spot.exposure - known.spot.exposure).abs() < 1e-4);
        assert!(plain.habit.is_none() && known.habit.is_some_and(|h| h.counts == [0; 3]));
    }

    #[test]
    fn the_spot_moves_to_where_the_opponent_always_goes() {
        let plain = drive(dvec2(-2.9, 9.6), Level::Tournament);
        let at = |way| {
            let found = play(&Situation { opponent_habits: Some(always(way, 40)), ..plain });
            let habit = found.habit.expect("habits are known");
            assert!((habit.shares.iter().sum::<f64>() - 1.0).abs() < 1e-6);
            assert!(habit.shares[way as usize] > 0.8 && habit.expected[way as usize] < 0.7, "{habit:?}");
            assert_eq!(habit.without.place, play(&plain).spot.place);
            found.spot.place.x
        };
        let (across, line) = (at(Way::Across), at(Way::Line));
        // The opponent strikes from the left, so across comes to the right.
        assert!(line + 0.4 < across, "line {line}, across {across}");
        let usual = play(&plain).spot.place.x;
        assert!(line < usual && usual < across, "{line} {usual} {across}");
    }

    #[test]
    fn habits_are_mirrored_with_the_players_and_turned_with_the_ends() {
        let mut habits = always(Way::Across, 9);
        habits.set(HabitCase::Rally(Wing::Backhand, Third::Right, false), [1, 2, 30]);
        habits.set(HabitCase::Rally(Wing::Forehand, Third::Left, false), [3, 20, 1]);
        let near = Situation { opponent_habits: Some(habits), ..drive(dvec2(-2.9, 9.6), Level::Club) };
        let flip = |p: DVec2| dvec2(-p.x, p.y);
        let mut mirrored = near;
        (mirrored.hitter, mirrored.opponent) = (near.hitter.mirrored(), near.opponent.mirrored());
        mirrored.opponent_habits = Some(habits.mirrored());
        for place in [&mut mirrored.hitter_place, &mut mirrored.opponent_place, &mut mirrored.shot.target] {
            *place = flip(*place);
        }
        mirrored.shot.contact.x = -near.shot.contact.x;
        let mut far = near;
        far.hitter_end = End::Far;
        for place in [&mut far.hitter_place, &mut far.opponent_place, &mut far.shot.target] {
            *place = End::Far.turn2(*place);
        }
        far.shot.contact = End::Far.turn3(far.shot.contact);
        let (near, mirrored, far) = (play(&near), play(&mirrored), play(&far));
        assert!((near.spot.place - flip(mirrored.spot.place)).length() < 1e-9);
        assert!((near.spot.place + far.spot.place).length() < 1e-9);
        let cases = [&near, &mirrored, &far].map(|p| p.habit.expect("habits are known").case);
        assert_eq!([cases[0], cases[2]], [cases[1].mirrored(), cases[0]]);
    }

    #[test]
    fn a_strength_that_is_no_number_of_shots_is_refused() {
        for strength in [f64::NAN, f64::INFINITY, -1.0, 0.0] {
            let mut s = drive(dvec2(-2.9, 9.6), Level::Club);
            s.opponent_habits = Some(ReplyHabits { strength, ..ReplyHabits::default() });
            let problems = s.validate();
            assert_eq!(problems.len(), 1, "{strength}");
            assert_eq!(problems[0].field, "opponent_habits.strength");
        }
    }
}
