//! The bounce: the ball slides or grips, and leaves with another speed, angle and spin.
//!
//! The planar equations of R. Cross, Sports Engineering 23:9 (2020), eqs. 5-14 (with no offset of the normal force; H.
//! Brody, The Physics Teacher 22, 1984, 494 is the case of no tangential restitution), carried into three dimensions:
//! friction acts against the slip of the contact point, whatever its direction.

use glam::{DVec2, DVec3};

use crate::{
    ball::{
        Ball,
        flight::{Arc, ArcEnd, BallPhysics, BallState, FlyOptions, fly},
    },
    court::surface::Surface,
};

/// Moment of inertia of a ball divided by `m R^2` (R. Cross 2020; a thin shell would have 2/3).
pub const INERTIA: f64 = 0.55;

/// Behaviour of the contact point during a bounce.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BounceRegime {
    /// Slides all through the bounce: friction is at its limit.
    Slides,
    /// Grips: friction stops the slip, and a little of it comes back.
    Grips,
}

/// A bounce.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounce {
    /// The ball just after.
    pub state: BallState,
    /// Behaviour of the contact point.
    pub regime: BounceRegime,
}

/// Bounces a ball that is at the ground.
///
/// Along the slip the result is that of the planar equations: with slip speed `s`, vertical speed `v` and vertical
/// restitution `e`, friction takes `mu (1 + e) v` off the speed while that leaves some slip, and otherwise turns the
/// slip into `-e_x s`. Gripping never needs more friction than sliding would give: just past the limit, where it would,
/// `e_x` is only as large as the friction allows, so the outcome is continuous. Spin about the vertical is unchanged.
///
/// A ball that does not come down is returned unchanged; a vertical one without spin comes straight back up.
///
/// ```
/// use glam::dvec3;
/// use standpoint_geometry::{Ball, BallState, BounceRegime, Surface, bounce};
/// let down = BallState::launch(dvec3(0.0, 5.0, 0.0335), 20.0, -1.0, 0.0, 0.0, 0.0);
/// let up = bounce(&down, &Surface::default(), &Ball::default());
/// assert_eq!(up.regime, BounceRegime::Grips);
/// assert!(up.state.velocity.z > 0.0);
/// ```
#[must_use]
pub fn bounce(before: &BallState, surface: &Surface, ball: &Ball) -> Bounce {
    let down = (-before.velocity.z).max(0.0);
    let along = before.velocity.truncate();
    let radius = ball.radius;
    let e = surface.restitution_at(down.atan2(along.length()), ball);
    // Velocity of the contact point: v + omega x (0, 0, -R).
    let slip = along + radius * DVec2::new(-before.omega.y, before.omega.x);
    let slip_speed = slip.length();
    let limit = surface.friction.max(0.0) * (1.0 + e) * down;
    // Loss of speed that would just stop the slip.
    let stop = slip_speed * INERTIA / (1.0 + INERTIA);
    let (loss, regime) = if limit < stop {
        (limit, BounceRegime::Slides)
    } else {
        (limit.min(stop * (1.0 + surface.grip_restitution.clamp(0.0, 1.0))), BounceRegime::Grips)
    };
    let push = if slip_speed > 0.0 { slip * (-loss / slip_speed) } else { DVec2::ZERO };
    let mut state = *before;
    state.velocity = (along + push).extend(if before.velocity.z < 0.0 { e * down } else { before.velocity.z });
    state.omega += DVec3::new(push.y, -push.x, 0.0) / (INERTIA * radius);
    Bounce { state, regime }
}

/// A flight with its bounces.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// The flights between ground contacts, at least one. Their times run on from the launch.
    pub arcs: Vec<Arc>,
    /// Every ground contact, the one that ends the path included: time since the launch, s, and centre of the ball.
    pub bounces: Vec<(f64, DVec3)>,
}

/// Flies a ball through `bounces` bounces: the path ends at the ground contact after them, or where a flight reaches the
/// time limit. The time limit of the options counts for each flight.
#[must_use]
pub fn fly_path(
    physics: &BallPhysics,
    surface: &Surface,
    ball: &Ball,
    state: BallState,
    bounces: u8,
    options: FlyOptions,
) -> Path {
    let mut path = Path { arcs: vec![fly(physics, state, options)], bounces: Vec::new() };
    path.go_on(physics, surface, ball, bounces, options);
    path
}

impl Path {
    /// Replaces this path by another one, keeping the memory of the old one; see [`fly_path`].
    pub fn refly(
        &mut self,
        physics: &BallPhysics,
        surface: &Surface,
        ball: &Ball,
        state: BallState,
        bounces: u8,
        options: FlyOptions,
    ) {
        self.arcs[0].refly(physics, state, 0.0, options);
        self.bounces.clear();
        self.go_on(physics, surface, ball, bounces, options);
    }

    /// Adds the flights after the first one.
    fn go_on(&mut self, physics: &BallPhysics, surface: &Surface, ball: &Ball, bounces: u8, options: FlyOptions) {
        let mut flown = 1;
        loop {
            let arc = &self.arcs[flown - 1];
            if arc.end() != ArcEnd::Ground {
                break;
            }
            let (time, landed) = (arc.end_time(), arc.end_state());
            self.bounces.push((time, landed.position));
            if flown > usize::from(bounces) {
                break;
            }
            let up = bounce(&landed, surface, ball).state;
            match self.arcs.get_mut(flown) {
                Some(arc) => arc.refly(physics, up, time, options),
                None => {
                    let mut arc = self.arcs[0].clone();
                    arc.refly(physics, up, time, options);
                    self.arcs.push(arc);
                }
            }
            flown += 1;
        }
        self.arcs.truncate(flown);
    }

    /// When the path ends, s.
    #[must_use]
    pub fn end_time(&self) -> f64 {
        self.arcs.last().map_or(0.0, Arc::end_time)
    }

    /// Centre of the ball at a time, s; times outside the path count as its ends.
    #[must_use]
    pub fn position(&self, time: f64) -> DVec3 {
        self.arc_at(time).position(time)
    }

    /// Velocity at a time, m/s; at a bounce, the one after it. Times outside the path count as its ends.
    #[must_use]
    pub fn velocity(&self, time: f64) -> DVec3 {
        self.arc_at(time).velocity(time)
    }

    /// The ball at a time; at a bounce, just after it.
    #[must_use]
    pub fn state(&self, time: f64) -> BallState {
        self.arc_at(time).state(time)
    }

    /// How many ground contacts lie before a time or at it.
    #[must_use]
    pub fn bounces_by(&self, time: f64) -> usize {
        self.bounces.partition_point(|&(t, _)| t <= time)
    }

    /// The flight that a time belongs to, counted from 0 at the launch.
    fn arc_at(&self, time: f64) -> &Arc {
        &self.arcs[self.bounces_by(time).min(self.arcs.len() - 1)]
    }
}

#[cfg(test)]
mod tests;
