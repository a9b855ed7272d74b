//! When to change direction: the worth of two shots while one cause varies.

use crate::{
    player::{Player, Wing},
    questions::compare::{Choice, Pace},
    shot::situation::Situation,
    solver::{SolveError, Solver},
};

/// The cause that varies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cause {
    /// How far the opponent stands from the long axis when the ball is struck, m, on the side where they stand now.
    OpponentWide,
    /// How far the opponent stands behind the baseline, m; negative inside the court.
    OpponentDepth,
    /// Height of the contact, m.
    ContactHeight,
    /// How far behind the baseline the contact is, m; negative inside the court.
    ContactDepth,
    /// How far from the long axis the contact is, m, on the side where it is now.
    ContactWide,
    /// Speed of both shots, m/s.
    Speed,
    /// The opponent's backhand relative to its figures: the speed times this share, the spread divided by it.
    OpponentBackhand,
}

impl Cause {
    /// All causes.
    pub const ALL: [Self; 7] = [
        Self::OpponentWide,
        Self::OpponentDepth,
        Self::ContactHeight,
        Self::ContactDepth,
        Self::ContactWide,
        Self::Speed,
        Self::OpponentBackhand,
    ];

    /// Default range of the sweep, in the unit of the cause.
    #[must_use]
    pub fn range(self, situation: &Situation) -> (f64, f64) {
        let court = &situation.conditions.court;
        match self {
            Self::OpponentWide | Self::ContactWide => (0.0, court.half_width() + 2.0),
            Self::OpponentDepth => (-4.0, 3.5),
            Self::ContactHeight => (0.3, 2.0),
            Self::ContactDepth => (-5.0, 3.0),
            Self::Speed => (0.6 * situation.shot.speed, 1.3 * situation.shot.speed),
            Self::OpponentBackhand => (0.6, 1.2),
        }
    }

    /// The value of the cause in a situation.
    #[must_use]
    pub fn value(self, situation: &Situation) -> f64 {
        let length = situation.conditions.court.half_length();
        match self {
            Self::OpponentWide => situation.opponent_place.x.abs(),
            Self::OpponentDepth => situation.opponent_place.y.abs() - length,
            Self::ContactHeight => situation.shot.contact.z,
            Self::ContactDepth => situation.shot.contact.y.abs() - length,
            Self::ContactWide => situation.shot.contact.x.abs(),
            Self::Speed => situation.shot.speed,
            Self::OpponentBackhand => 1.0,
        }
    }

    /// The situation with the cause at a value; the body moves with the contact.
    #[must_use]
    pub fn applied(self, situation: &Situation, value: f64) -> Situation {
        let mut s = *situation;
        let length = s.conditions.court.half_length();
        let sign = |x: f64| if x < 0.0 { -1.0 } else { 1.0 };
        match self {
            Self::OpponentWide => s.opponent_place.x = sign(s.opponent_place.x) * value,
            Self::OpponentDepth => s.opponent_place.y = sign(s.opponent_place.y) * (length + value),
            Self::ContactHeight => s.shot.contact.z = value,
            Self::ContactDepth => {
                let y = sign(s.shot.contact.y) * (length + value);
                s.hitter_place.y += y - s.shot.contact.y;
                s.shot.contact.y = y;
            }
            Self::ContactWide => {
                let x = sign(s.shot.contact.x) * value;
                s.hitter_place.x += x - s.shot.contact.x;
                s.shot.contact.x = x;
            }
            Self::Speed => s.shot.speed = value,
            Self::OpponentBackhand => s.opponent = with_backhand(s.opponent, value),
        }
        s
    }
}

/// The player with a backhand weakened to a share: that share of the speed, the spread wider by the same factor.
fn with_backhand(mut player: Player, share: f64) -> Player {
    player.backhand.speed *= share;
    player.backhand.spread_up /= share;
    player.backhand.spread_side /= share;
    player
}

/// One value of the cause and the chance to win with each shot; `None` where a shot cannot be played.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SweepPoint {
    /// Value of the cause.
    pub value: f64,
    /// Chance to win with the first and the second shot.
    pub win: [Option<f64>; 2],
    /// Wing on which the opponent meets each, if they do.
    pub wing: [Option<Wing>; 2],
}

/// Two shots over a range of one cause.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// The cause that varied.
    pub cause: Cause,
    /// The points in rising order.
    pub points: Vec<SweepPoint>,
    /// Values at which the two shots are worth the same; `true` where the second is better above it.
    pub crossings: Vec<(f64, bool)>,
}

/// Sweeps a cause over `range` in `steps` intervals (at least one) for two shots, each aimed at its own best place at every
/// value; [`Choice::AsDrawn`] stays where it is aimed. A shot that does not exist at a value wins nothing there.
///
/// Crossings between neighbouring points are refined by bisection to a hundredth of an interval.
///
/// # Errors
/// [`SolveError::Invalid`] when the situation cannot be computed at some value; a shot that cannot be played is not an
/// error.
pub fn sweep(
    solver: &mut Solver,
    situation: &Situation,
    choices: [Choice; 2],
    cause: Cause,
    range: (f64, f64),
    steps: usize,
) -> Result<Sweep, SolveError> {
    let steps = steps.max(1);
    let mut at = |value: f64| -> Result<SweepPoint, SolveError> {
        let mut win = [None; 2];
        let mut wing = [None; 2];
        for i in 0..2 {
            let mut tried = cause.applied(situation, value);
            let Some(mut usual) = choices[i].shot(&tried) else { continue };
            let mut pace = Pace::Drawn;
            if cause == Cause::Speed {
                (usual.speed, pace) = (value, Pace::Fixed);
            }
            tried.shot = solver.aimed_like(choices[i], usual, &tried, pace)?;
            match solver.meeting(&tried) {
                Ok(meeting) => {
                    win[i] = solver.win(&tried).ok();
                    wing[i] = meeting.receipt().map(|r| r.wing);
                }
                Err(SolveError::Aim(_)) => {}
                Err(invalid) => return Err(invalid),
            }
        }
        Ok(SweepPoint { value, win, wing })
    };
    let mut points = Vec::with_capacity(steps + 1);
    for i in 0..=steps {
        points.push(at(range.0 + (range.1 - range.0) * i as f64 / steps as f64)?);
    }
    let lead = |p: &SweepPoint| Some(p.win[1]? - p.win[0]?);
    let mut crossings = Vec::new();
    for pair in points.windows(2) {
        let (Some(a), Some(b)) = (lead(&pair[0]), lead(&pair[1])) else { continue };
        if (a > 0.0) == (b > 0.0) {
            continue;
        }
        let (mut low, mut high) = (pair[0].value, pair[1].value);
        for _ in 0..7 {
            let middle = 0.5 * (low + high);
            match lead(&at(middle)?) {
                Some(m) if (m > 0.0) == (b > 0.0) => high = middle,
                Some(_) => low = middle,
                None => break,
            }
        }
        crossings.push((0.5 * (low + high), b > 0.0));
    }
    Ok(Sweep { cause, points, crossings })
}
