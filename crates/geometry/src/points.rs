//! Where and when a reply can be met: samples of its path, and what meeting the ball there is worth.

use glam::{DVec2, DVec3};

use crate::{
    atlas::{Atlas, Cut},
    bounce::bounce,
    exposure::{FULL_HALF_LENGTH, reach_share, value_at},
    flight::BallState,
    repertoire::{Aimed, NET_REACH_M, RETURN_BACK_M, RETURN_DEPTH_COST, Responder, Striker},
    replies::Draft,
};

/// Samples of the path before the bounce, and between bounces; the first and the last lie at the ends.
pub(crate) const BEFORE: usize = 6;
pub(crate) const AFTER: usize = 10;

/// One elevation's second half, from the bounce on, relative to the place and time of the bounce.
#[derive(Debug, Clone, Default)]
pub(crate) struct Rebound {
    r: Vec<f32>,
    z: Vec<f32>,
    t: Vec<f32>,
}

/// Most points a reply can have.
pub(crate) const MOST: usize = (BEFORE + 2 * AFTER).next_multiple_of(4);

/// One reply's points before they are appended; entries never written stay unusable.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Points {
    pub x: [f32; MOST],
    pub y: [f32; MOST],
    pub z: [f32; MOST],
    pub t: [f32; MOST],
    pub share: [f32; MOST],
    pub value: [f32; MOST],
    n: usize,
}

impl Points {
    pub fn before(&mut self, atlas: &Atlas, striker: &Striker<'_>, limits: &Limits, aimed: &Aimed, draft: &Draft) {
        let flights = &atlas.families[draft.family].flights;
        let (f0, f1) = (flights[draft.k.0], flights[draft.k.1]);
        let (mix, landing_time) = (draft.mix, draft.meta.landing_time);
        let height = striker.contact.z;
        /// The first sample lies just inside what can be met, s.
        const INSIDE_S: f64 = 0.001;
        // Past the net by as much as the player keeps off it, at about the speed of the flight.
        let past = NET_REACH_M / -aimed.direction.y / aimed.distance * landing_time;
        let over_net = draft.net_time + past;
        // A ball that rises over the highest reach can be met from where it has come down to it.
        let ceiling = limits.overhead - height;
        let start = if atlas.top(f0).min(atlas.top(f1)) > ceiling {
            let fall = |flight| atlas.cut(flight, ceiling).map_or(0.0, |c| c.time);
            over_net.max(fall(f0) + mix * (fall(f1) - fall(f0)))
        } else {
            over_net
        };
        let start = (start + INSIDE_S).min(landing_time - INSIDE_S);
        for i in 0..BEFORE {
            let t = start + (landing_time - start) * (i as f64 / (BEFORE - 1) as f64);
            let ((r0, z0), (r1, z1)) = (atlas.at_time(f0, t), atlas.at_time(f1, t));
            let point = striker.contact.truncate() + aimed.direction * (r0 + mix * (r1 - r0));
            self.push(limits, point, height + z0 + mix * (z1 - z0), t, false);
        }
    }

    pub fn after(&mut self, limits: &Limits, aimed: &Aimed, (b0, b1): (&Rebound, &Rebound), draft: &Draft) {
        let mixed = |a: f32, b: f32| f64::from(a) + draft.mix * f64::from(b - a);
        for i in 0..b0.r.len() {
            let point = aimed.landing + aimed.direction * mixed(b0.r[i], b1.r[i]);
            let t = draft.meta.landing_time + mixed(b0.t[i], b1.t[i]);
            self.push(limits, point, mixed(b0.z[i], b1.z[i]), t, true);
        }
    }

    #[inline]
    fn push(&mut self, limits: &Limits, point: DVec2, z: f64, t: f64, bounced: bool) {
        let (share, value) = limits.meeting(point.x, point.y, z, bounced);
        let n = self.n;
        self.x[n] = point.x as f32;
        self.y[n] = point.y as f32;
        self.z[n] = z as f32;
        self.t[n] = t as f32;
        self.share[n] = share as f32;
        self.value[n] = value as f32;
        self.n += 1;
    }
}

/// Where a ball can be met, and what a depth stands for on a full court.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Limits {
    site: DVec2,
    overhead: f64,
    to_full_court: f64,
    /// A serve must bounce, and a deep return costs, see [`RETURN_DEPTH_COST`].
    serving: bool,
}

impl Limits {
    pub fn new(striker: &Striker<'_>, responder: Responder) -> Self {
        let court = &striker.conditions.court;
        Self {
            site: DVec2::new(court.site_half_width(), court.site_half_length()),
            overhead: responder.overhead,
            to_full_court: FULL_HALF_LENGTH / court.half_length(),
            serving: striker.serving,
        }
    }

    /// Share of the reach left at a point, and what meeting the ball there is worth; both 0 where it cannot be met.
    #[inline]
    pub fn meeting(&self, x: f64, y: f64, z: f64, bounced: bool) -> (f64, f64) {
        let usable = y < -NET_REACH_M && y > -self.site.y && x.abs() < self.site.x;
        // The receiver must let a serve bounce (ITF Rules of Tennis, Rule 19).
        let share = if usable && (bounced || !self.serving) { reach_share(z, self.overhead) } else { 0.0 };
        if share <= 0.0 {
            return (0.0, 0.0);
        }
        let depth = -y * self.to_full_court;
        let value = value_at(depth, z, bounced);
        let behind = if self.serving { (depth - RETURN_BACK_M).max(0.0) } else { 0.0 };
        (share, (value - RETURN_DEPTH_COST * behind).max(0.0))
    }
}

impl Rebound {
    pub fn fly(&mut self, atlas: &Atlas, striker: &Striker<'_>, responder: Responder, cut: &Cut, topspin: f64) {
        /// Step of the integration, s; with fourth order good to a tenth of a millimetre over a bounce.
        const STEP: f64 = 0.3;
        self.r.clear();
        self.z.clear();
        self.t.clear();
        let physics = striker.physics;
        let (k, radius) = (physics.k(), physics.radius);
        let mut ball = BallState {
            position: DVec3::ZERO,
            velocity: DVec3::new(0.0, cut.vr, cut.vz),
            omega: DVec3::new(-topspin, 0.0, 0.0),
        };
        let (mut begin, mut from) = (0.0, 0.0);
        for _ in 0..responder.bounces.max(1) {
            ball = bounce(&ball, &striker.conditions.surface, &striker.conditions.ball).state;
            let spin = -ball.omega.x;
            let mut nodes = [[from, radius, ball.velocity.y, ball.velocity.z]; 14];
            let mut n = 1;
            while n < nodes.len() {
                nodes[n] = atlas.planar_step(nodes[n - 1], spin, k, STEP);
                n += 1;
                if nodes[n - 1][1] < radius {
                    break;
                }
            }
            let at = |t: f64| -> [f64; 4] {
                let i = ((t / STEP) as usize).min(n - 2);
                let (a, b) = (&nodes[i], &nodes[i + 1]);
                let u = t / STEP - i as f64;
                let w = 1.0 - u;
                let hermite = |i: usize| {
                    a[i] * (w * w * (1.0 + 2.0 * u))
                        + b[i] * (u * u * (3.0 - 2.0 * u))
                        + (a[i + 2] * w - b[i + 2] * u) * (STEP * u * w)
                };
                [hermite(0), hermite(1), a[2] + (b[2] - a[2]) * u, a[3] + (b[3] - a[3]) * u]
            };
            // The last step crosses the ground; where, by Newton on the height.
            let mut end = (n - 1) as f64 * STEP;
            for _ in 0..4 {
                let s = at(end);
                end -= (s[1] - radius) / s[3].min(-0.1);
            }
            for i in 0..AFTER {
                let t = end * i as f64 / (AFTER - 1) as f64;
                let s = at(t);
                self.r.push(s[0] as f32);
                self.z.push(s[1] as f32);
                self.t.push((begin + t) as f32);
            }
            let s = at(end);
            ball.velocity = DVec3::new(0.0, s[2], s[3]);
            from = s[0];
            begin += end;
        }
    }
}
