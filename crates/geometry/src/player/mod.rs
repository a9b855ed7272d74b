//! A player: hands, reach, movement and strokes.

pub(crate) mod presets;
pub(crate) mod reach;
pub(crate) mod scatter;

use crate::units::{KMH, RPM};

/// The hand that holds the racket for a forehand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Hand {
    /// Right-handed: the forehand is on the right as the player faces the net.
    #[default]
    Right,
    /// Left-handed.
    Left,
}

impl Hand {
    /// The other hand.
    #[must_use]
    pub fn mirrored(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }

    /// `+1` when the forehand is towards `+x` as the player faces the net from the near end, else `-1`.
    #[must_use]
    pub fn forehand_sign(self) -> f64 {
        match self {
            Self::Right => 1.0,
            Self::Left => -1.0,
        }
    }
}

/// Forehand or backhand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Wing {
    /// The side of the racket hand.
    #[default]
    Forehand,
    /// The other side.
    Backhand,
}

/// How the backhand is held; a two-handed one reaches less far.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum BackhandGrip {
    /// One hand on the racket.
    OneHanded,
    /// Both hands on the racket.
    #[default]
    TwoHanded,
}

/// Movement on court after the decision to move: `v(t) = v_max (1 - exp(-t / tau))`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Movement {
    /// Time from the opponent's contact to the first movement, s.
    pub reaction_s: f64,
    /// Top speed of the sprint model, m/s.
    pub v_max: f64,
    /// Time constant of the sprint model, s.
    pub tau_s: f64,
    /// Factor on backward distances (away from the net) relative to forward or sideways ones, at least 1.
    pub backward_factor: f64,
    /// From own contact until the recovery starts (follow-through), s.
    pub follow_through_s: f64,
}

impl Movement {
    /// Distance covered `t` seconds after the first movement, m; 0 for `t <= 0`.
    ///
    /// Integral of the sprint model: `v_max (t - tau (1 - exp(-t / tau)))`.
    #[must_use]
    pub fn sprint_distance(&self, t: f64) -> f64 {
        if t <= 0.0 { 0.0 } else { self.v_max * (t + self.tau_s * (-t / self.tau_s).exp_m1()) }
    }

    /// Time after the first movement to cover `d` metres by the sprint model, s; 0 for `d <= 0`.
    ///
    /// Newton's method on [`Self::sprint_distance`], which is convex and increasing, from above: it cannot overshoot.
    #[must_use]
    pub fn sprint_time(&self, d: f64) -> f64 {
        if d <= 0.0 {
            return 0.0;
        }
        // u + tau bounds the root from above: the model never lags a runner at top speed by more than v_max tau.
        let mut t = d / self.v_max + self.tau_s;
        for _ in 0..60 {
            let speed = -self.v_max * (-t / self.tau_s).exp_m1();
            let step = (self.sprint_distance(t) - d) / speed;
            t -= step;
            if step.abs() < 1e-12 {
                break;
            }
        }
        t
    }

    /// The cheap closed form used for all movement, see [`Stride`].
    #[must_use]
    pub fn stride(&self) -> Stride {
        let (d1, d2) = (1.5, 6.0);
        let (t1, t2) = (self.sprint_time(d1), self.sprint_time(d2));
        // t^2 = quadratic d^2 + linear d, through both points.
        let quadratic = (t2 * t2 / d2 - t1 * t1 / d1) / (d2 - d1);
        Stride { quadratic, linear: t1 * t1 / d1 - quadratic * d1 }
    }

    /// Fits top speed and time constant to sprint times from a standing start.
    ///
    /// `splits` are `(distance m, time s)` pairs; `run_up` is the distance between the starting line and the first
    /// timing gate (0.5 m is usual with light gates; 0 when the clock starts with the runner). Least squares over
    /// relative errors by Gauss-Newton. The other fields are kept from `self`.
    ///
    /// # Errors
    /// Fewer than two distinct distances, values that are not positive and finite, times that do not grow with
    /// distance, or a fit outside what a person can run (2-12 m/s, 0.2-2.5 s).
    pub fn fitted_to_splits(&self, splits: &[(f64, f64)], run_up: f64) -> Result<Self, SprintFitError> {
        let mut sorted = splits.to_vec();
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        if sorted.iter().any(|&(d, t)| !(d.is_finite() && t.is_finite() && d > 0.0 && t > 0.0)) {
            return Err(SprintFitError::NotPositive);
        }
        if sorted.len() < 2 || sorted.windows(2).any(|w| w[1].0 - w[0].0 < 0.5) {
            return Err(SprintFitError::TooFew);
        }
        if sorted.windows(2).any(|w| w[1].1 <= w[0].1) {
            return Err(SprintFitError::NotIncreasing);
        }
        let relative_errors = |m: &Self| -> Vec<f64> {
            let start = m.sprint_time(run_up);
            sorted.iter().map(|&(d, t)| (m.sprint_time(d + run_up) - start) / t - 1.0).collect()
        };
        let mut fit = Self { v_max: 7.0, tau_s: 0.85, ..*self };
        for _ in 0..60 {
            let base = relative_errors(&fit);
            let (hv, ht) = (1e-5, 1e-6);
            let dv: Vec<f64> = relative_errors(&Self { v_max: fit.v_max + hv, ..fit })
                .iter()
                .zip(&base)
                .map(|(a, b)| (a - b) / hv)
                .collect();
            let dt: Vec<f64> = relative_errors(&Self { tau_s: fit.tau_s + ht, ..fit })
                .iter()
                .zip(&base)
                .map(|(a, b)| (a - b) / ht)
                .collect();
            let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
            let (vv, vt, tt) = (dot(&dv, &dv), dot(&dv, &dt), dot(&dt, &dt));
            let (bv, bt) = (-dot(&dv, &base), -dot(&dt, &base));
            let det = vv * tt - vt * vt;
            if det.abs() < 1e-14 {
                return Err(SprintFitError::OutOfRange);
            }
            let (sv, st) = ((bv * tt - bt * vt) / det, (bt * vv - bv * vt) / det);
            // Damped so that neither parameter changes by more than a third in one step.
            let damp = (0.33 * fit.v_max / sv.abs().max(1e-12)).min(0.33 * fit.tau_s / st.abs().max(1e-12)).min(1.0);
            fit.v_max += damp * sv;
            fit.tau_s += damp * st;
            if !(1.0..30.0).contains(&fit.v_max) || !(0.05..6.0).contains(&fit.tau_s) {
                return Err(SprintFitError::OutOfRange);
            }
            if sv.abs() < 1e-9 && st.abs() < 1e-9 {
                break;
            }
        }
        if (2.0..=12.0).contains(&fit.v_max) && (0.2..=2.5).contains(&fit.tau_s) {
            Ok(fit)
        } else {
            Err(SprintFitError::OutOfRange)
        }
    }
}

/// Why sprint times could not be fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SprintFitError {
    /// Fewer than two distances at least half a metre apart.
    #[error("two sprint distances at least 0.5 m apart are needed, for example 5 m and 20 m")]
    TooFew,
    /// A distance or time is zero, negative or not a number.
    #[error("every sprint distance and time must be a positive number")]
    NotPositive,
    /// A longer distance has a shorter or equal time.
    #[error("sprint times must grow with the distance; check that none are swapped")]
    NotIncreasing,
    /// No runner fits these times.
    #[error("no sprint of 2 to 12 m/s top speed fits these times; check the units (metres, seconds)")]
    OutOfRange,
}

/// The sprint model in the form `t = sqrt(quadratic d^2 + linear d)`.
///
/// With `quadratic = 1 / v^2` and `linear = 2 tau / v` this is the closed form `t = sqrt(u (u + 2 tau))`, `u = d / v`,
/// which is right at both ends but up to 7 % early in between. The two coefficients are therefore matched to the
/// sprint model itself at 1.5 m and 6 m, which keeps it within 2.5 % from half a metre to 12 m (tested).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stride {
    /// s²/m².
    pub quadratic: f64,
    /// s²/m.
    pub linear: f64,
}

impl Stride {
    /// Time from rest to cover `d` metres, s; 0 for `d <= 0`.
    #[must_use]
    pub fn time(&self, d: f64) -> f64 {
        let d = d.max(0.0);
        (d * (self.quadratic * d + self.linear)).sqrt()
    }

    /// Distance covered from rest in `t` seconds, m; 0 for `t <= 0`. The inverse of [`Self::time`].
    #[must_use]
    pub fn distance(&self, t: f64) -> f64 {
        if t <= 0.0 {
            return 0.0;
        }
        let disc = self.linear * self.linear + 4.0 * self.quadratic * t * t;
        2.0 * t * t / (self.linear + disc.sqrt())
    }
}

/// How far from the body the ball can be struck at full stretch, ball centre, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Sideways on the forehand, lunging.
    pub forehand: f64,
    /// Sideways on the backhand, lunging.
    pub backhand: f64,
    /// Straight ahead or behind.
    pub ahead: f64,
    /// Greatest height at which the ball can be struck.
    pub overhead: f64,
}

/// One wing's strokes. Spreads are one standard deviation at rally effort without pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WingSkill {
    /// Usual rally speed off the racket, m/s.
    pub speed: f64,
    /// Usual topspin of a drive, rad/s.
    pub topspin: f64,
    /// Spread of the launch elevation, rad.
    pub spread_up: f64,
    /// Spread of the launch azimuth, rad.
    pub spread_side: f64,
}

/// The serve of a player.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ServeSkill {
    /// First serve speed off the racket, m/s.
    pub first_speed: f64,
    /// Second serve speed off the racket, m/s.
    pub second_speed: f64,
    /// Contact height, m.
    pub height: f64,
    /// Topspin of the second serve, rad/s; the first has a third of it.
    pub topspin: f64,
    /// Spread of the launch angles at first-serve speed, rad.
    pub spread: f64,
}

/// All figures of a player that the computation uses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Player {
    /// Racket hand.
    pub hand: Hand,
    /// How the backhand is held.
    pub grip: BackhandGrip,
    /// Bounces allowed before the ball must be struck: 1, or 2 for a wheelchair player (ITF Rules, wheelchair tennis).
    pub bounces: u8,
    /// Movement on court.
    pub movement: Movement,
    /// Reach.
    pub reach: Reach,
    /// Forehand strokes.
    pub forehand: WingSkill,
    /// Backhand strokes.
    pub backhand: WingSkill,
    /// Serve.
    pub serve: ServeSkill,
}

impl Player {
    /// The skill of one wing.
    #[must_use]
    pub fn wing(&self, wing: Wing) -> &WingSkill {
        match wing {
            Wing::Forehand => &self.forehand,
            Wing::Backhand => &self.backhand,
        }
    }

    /// The wing that strikes a ball passing `dx` to the right of the body, as the player faces the net.
    #[must_use]
    pub fn wing_for(&self, dx: f64) -> Wing {
        if dx * self.hand.forehand_sign() >= 0.0 { Wing::Forehand } else { Wing::Backhand }
    }

    /// Every figure with the limits of the model: `(value, low, high, unit)`.
    pub(crate) fn limits(&self) -> [(f64, f64, f64, &'static str); 23] {
        let (m, r, v) = (&self.movement, &self.reach, &self.serve);
        let wing = |w: &WingSkill| {
            [
                (w.speed, 5.0, 60.0, "m/s"),
                (w.topspin, 0.0, 600.0, "rad/s"),
                (w.spread_up, 0.001, 0.3, "rad"),
                (w.spread_side, 0.001, 0.3, "rad"),
            ]
        };
        let (f, b) = (wing(&self.forehand), wing(&self.backhand));
        [
            (f64::from(self.bounces), 1.0, 2.0, "bounces"),
            (m.reaction_s, 0.0, 1.5, "s"),
            (m.v_max, 1.0, 12.0, "m/s"),
            (m.tau_s, 0.05, 4.0, "s"),
            (m.backward_factor, 1.0, 4.0, ""),
            (m.follow_through_s, 0.0, 2.0, "s"),
            (r.forehand, 0.3, 3.5, "m"),
            (r.backhand, 0.3, 3.5, "m"),
            (r.ahead, 0.1, 3.5, "m"),
            (r.overhead, 1.0, 4.0, "m"),
            f[0],
            f[1],
            f[2],
            f[3],
            b[0],
            b[1],
            b[2],
            b[3],
            (v.first_speed, 2.0, 80.0, "m/s"),
            (v.second_speed, 2.0, 80.0, "m/s"),
            (v.height, 0.5, 4.0, "m"),
            (v.topspin, -700.0, 700.0, "rad/s"),
            (v.spread, 0.001, 0.3, "rad"),
        ]
    }

    /// The same player with the other hand.
    #[must_use]
    pub fn mirrored(mut self) -> Self {
        self.hand = self.hand.mirrored();
        self
    }
}

impl WingSkill {
    /// A wing from a coach's units: km/h, rpm, degrees.
    #[must_use]
    pub fn from_coach_units(speed_kmh: f64, topspin_rpm: f64, spread_up_deg: f64, spread_side_deg: f64) -> Self {
        Self {
            speed: speed_kmh * KMH,
            topspin: topspin_rpm * RPM,
            spread_up: spread_up_deg.to_radians(),
            spread_side: spread_side_deg.to_radians(),
        }
    }
}

#[cfg(test)]
mod tests;
