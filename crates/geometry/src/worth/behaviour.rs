//! Behaviour of the model's players: every constant of the rally that is not a property of a player, court or ball.
//!
//! Each has a meaning and a unit. They were calibrated together on published aggregates of professional play, see
//! `docs/model.md`, which also lists which figures were fitted and which follow from the others.

/// Constants of play. [`Behaviour::default`] is the calibrated set.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Behaviour {
    /// Temperature of the quantal response, in points won: a choice worth this much less is chosen e times less often.
    pub temperature: f32,
    /// Temperature with which a responder chooses where to meet the ball.
    pub meeting_temperature: f32,
    /// Width of the zone that counts as equally good for standing, in points won.
    pub zone_width: f32,
    /// Time to spare at which half the balls are reached, s, and the half width of the step from never to always.
    pub reach_centre: f32,
    /// See `reach_centre`.
    pub reach_half_width: f32,
    /// Time of a step and reach at full stretch, s: the end of the reach is not available at once.
    pub lunge: f32,
    /// Time of a step and reach for a ball in the air, which needs no backswing, s.
    pub lunge_air: f32,
    /// A proper stance: the ball this far beside the body, m.
    pub stance_beside: f32,
    /// A proper stance: the ball this far in front of the body, m.
    pub stance_ahead: f32,
    /// Distance around its ideal place within which a stance is as good, m.
    pub stance_slack: f32,
    /// Delay after which the depth of a ball is judged, relative to its direction, s.
    pub depth_read: f32,
    /// Highest speed at which a stroke can be played on the run, m/s.
    pub brake_speed: f32,
    /// Deceleration before a stroke, m/s².
    pub brake: f32,
    /// Factor on the time of a backward metre relative to a forward one.
    pub backward: f32,
    /// Cost of taking a ball right after the bounce, as time to spare lost, s.
    pub rise_cost: f32,
    /// Time since the bounce after which a ball no longer counts as taken on the rise, s.
    pub rise_until: f32,
    /// Time to spare at which the pressure is one half, s.
    pub pressure_half: f64,
    /// Width of the decline of the pressure, s.
    pub pressure_width: f64,
    /// Time to spare above which there is no pressure, s.
    pub pressure_none: f64,
    /// Extra spread of a stroke at full pressure, as a share: the factor is one plus this.
    pub pressure_spread: f64,
    /// Spread of a stroke at ease relative to the player's figure.
    pub skill_spread: f64,
    /// Effort up to which the spread is that at rally speed.
    pub effort_free: f64,
    /// Extra spread per square of the effort beyond `effort_free`.
    pub effort_cost: f64,
    /// Share of the speed lost at full pressure for the same effort.
    pub pressure_slow: f64,
    /// Spread of the speed, as a share of it, per radian of elevation spread.
    pub speed_spread: f64,
    /// Extra spread per metre of contact below 0.45 m.
    pub low_spread: f64,
    /// Extra spread per metre of contact above 1.5 m.
    pub high_spread: f64,
    /// Extra spread of elevation and azimuth for a ball turned by one radian: forehand.
    pub turn_forehand: (f64, f64),
    /// The same for the backhand.
    pub turn_backhand: (f64, f64),
    /// Share of mishits, which spread three times as wide.
    pub mishits: f64,
    /// Distance from the net up to which a volley has its least spread, m: about where players at the net stand.
    pub volley_home: f64,
    /// Extra spread of a volley per metre of contact depth beyond `volley_home`.
    pub volley_depth: f64,
    /// Extra spread of a volley per metre of contact below 0.9 m.
    pub volley_low: f64,
    /// Spread of a serve relative to the player's serve figure.
    pub serve_spread: f64,
    /// Share of a sprint's distance that a recovery covers in the same time.
    pub recovery: f32,
    /// Time before the opponent's contact at which a recovering player stops for the split step, s.
    pub ready: f32,
    /// Prior weight of slices, lobs and drops relative to drives.
    pub prior_slice: f32,
    /// See `prior_slice`.
    pub prior_lob: f32,
    /// See `prior_slice`.
    pub prior_drop: f32,
}

impl Default for Behaviour {
    fn default() -> Self {
        Self {
            temperature: 0.025,
            meeting_temperature: 0.01,
            zone_width: 0.005,
            reach_centre: -0.1,
            reach_half_width: 0.125,
            lunge: 0.465,
            lunge_air: 0.22,
            stance_beside: 0.75,
            stance_ahead: 0.4,
            stance_slack: 0.5,
            depth_read: 0.1,
            brake_speed: 2.5,
            brake: 12.0,
            backward: 1.25,
            rise_cost: 1.6,
            rise_until: 0.5,
            pressure_half: 0.23,
            pressure_width: 0.4,
            pressure_none: 1.1,
            pressure_spread: 3.0,
            skill_spread: 0.45,
            effort_free: 1.02,
            effort_cost: 30.0,
            pressure_slow: 0.15,
            speed_spread: 1.2,
            low_spread: 2.8,
            high_spread: 0.1,
            turn_forehand: (0.5, 1.0),
            turn_backhand: (1.0, 1.7),
            mishits: 0.08,
            volley_home: 4.0,
            volley_depth: 0.22,
            volley_low: 0.1,
            serve_spread: 0.65,
            recovery: 1.0,
            ready: 0.05,
            prior_slice: 0.1,
            prior_lob: 0.2,
            prior_drop: 0.02,
        }
    }
}

impl Behaviour {
    /// The pressure under which a ball is struck with `spare` seconds to a proper stance: 0 to 1, smooth and falling.
    #[must_use]
    pub fn pressure(&self, spare: f64) -> f64 {
        let at = |t: f64| {
            let x = (t - self.pressure_half) / self.pressure_width;
            0.5 - 0.5 * x / (1.0 + x * x).sqrt()
        };
        let tail = at(self.pressure_none);
        ((at(spare) - tail) / (1.0 - tail)).max(0.0)
    }
}
