//! Where and when a reply can be met: samples of its path, and what meeting the ball there is worth.

use glam::{DVec2, DVec3};

use crate::{
    atlas::{Atlas, Cut},
    bounce::bounce,
    exposure::FULL_HALF_LENGTH,
    flight::BallState,
    repertoire::{Aimed, NET_REACH_M, RETURN_BACK_M, RETURN_DEPTH_COST, Responder, Striker},
    replies::Draft,
};

/// Samples of the path before the bounce, on its rise after one, and on its fall from there; the first and the last of each
/// lie at the ends. Those of a rise end, and those of a fall begin, at the top or where the ball passes the highest reach:
/// what is over it cannot be met, and a sample there would not tell how well the ball can be met just below.
pub(crate) const BEFORE: usize = 6;
pub(crate) const RISE: usize = 5;
pub(crate) const AFTER: usize = 2 * RISE;

/// First and last sample of the part of the path that a sample belongs to.
#[inline(always)]
pub(crate) fn part(k: usize) -> (usize, usize) {
    if k < BEFORE {
        (0, BEFORE - 1)
    } else {
        let first = BEFORE + (k - BEFORE) / RISE * RISE;
        (first, first + RISE - 1)
    }
}

/// One elevation's second half, from the bounce on, relative to the place and time of the bounce.
#[derive(Debug, Clone, Default)]
pub(crate) struct Rebound {
    r: Vec<f32>,
    z: Vec<f32>,
    t: Vec<f32>,
}

/// Most points a reply can have.
pub(crate) const MOST: usize = rounded(2);

/// Points of a reply that may bounce so often, as whole groups of eight.
pub(crate) const fn rounded(bounces: usize) -> usize {
    (BEFORE + AFTER * bounces).next_multiple_of(8)
}

/// The points of many replies, one column per quantity, the same number for each reply.
#[derive(Debug, Clone, Default)]
pub(crate) struct Columns {
    pub x: Vec<f32>,
    pub y: Vec<f32>,
    pub z: Vec<f32>,
    pub t: Vec<f32>,
    /// Share of the reach left at the point's height; 0 where it cannot be met.
    pub share: Vec<f32>,
    pub value: Vec<f32>,
}

impl Columns {
    /// Empties the columns and makes room for so many points.
    pub fn clear(&mut self, room: usize) {
        for v in [&mut self.x, &mut self.y, &mut self.z, &mut self.t, &mut self.share, &mut self.value] {
            v.clear();
            v.reserve(room);
        }
    }

    /// Appends the first `n` points of a reply.
    pub fn append(&mut self, points: &Points, n: usize) {
        self.x.extend_from_slice(&points.x[..n]);
        self.y.extend_from_slice(&points.y[..n]);
        self.z.extend_from_slice(&points.z[..n]);
        self.t.extend_from_slice(&points.t[..n]);
    }

    /// Works out what each point is worth, `n` points to a reply.
    pub fn weigh(&mut self, limits: &Limits, n: usize) {
        pulp::Arch::new().dispatch(Weigh(self, limits, n));
    }

    /// Where a point lies.
    pub fn place(&self, point: usize) -> DVec3 {
        DVec3::new(f64::from(self.x[point]), f64::from(self.y[point]), f64::from(self.z[point]))
    }
}

/// [`Columns::weigh`] as an operation that is compiled once per instruction set.
struct Weigh<'a>(&'a mut Columns, &'a Limits, usize);

impl pulp::WithSimd for Weigh<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        let Self(columns, limits, n) = self;
        let limits = *limits;
        let all = columns.x.len();
        columns.share.resize(all, 0.0);
        columns.value.resize(all, 0.0);
        for first in (0..all).step_by(n) {
            let reply = first..first + n;
            let (x, y, z) = (&columns.x[reply.clone()], &columns.y[reply.clone()], &columns.z[reply.clone()]);
            let (share, value) = (&mut columns.share[reply.clone()], &mut columns.value[reply]);
            for k in 0..n {
                (share[k], value[k]) = limits.meeting(x[k], y[k], z[k], k >= BEFORE);
            }
        }
    }
}

/// One reply's points before they are appended; entries never written lie where nothing can be met.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Points {
    x: [f32; MOST],
    y: [f32; MOST],
    z: [f32; MOST],
    t: [f32; MOST],
    n: usize,
}

impl Points {
    /// The points up to the landing. `fall` tells when a flight of the family comes down to the highest reach, s.
    pub fn before(
        &mut self,
        atlas: &Atlas,
        striker: &Striker<'_>,
        limits: &Limits,
        aimed: &Aimed,
        draft: &Draft,
        mut fall: impl FnMut(usize, f64) -> f64,
    ) {
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
        let ceiling = f64::from(limits.overhead) - height;
        let start = if atlas.top(f0).min(atlas.top(f1)) > ceiling {
            let (first, second) = (fall(draft.k.0, ceiling), fall(draft.k.1, ceiling));
            over_net.max(first + mix * (second - first))
        } else {
            over_net
        };
        let start = (start + INSIDE_S).min(landing_time - INSIDE_S);
        for i in 0..BEFORE {
            let t = start + (landing_time - start) * (i as f64 / (BEFORE - 1) as f64);
            let ((r0, z0), (r1, z1)) = (atlas.at_time(f0, t), atlas.at_time(f1, t));
            let point = striker.contact.truncate() + aimed.direction * (r0 + mix * (r1 - r0));
            self.push(point, height + z0 + mix * (z1 - z0), t);
        }
    }

    pub fn after(&mut self, aimed: &Aimed, (b0, b1): (&Rebound, &Rebound), draft: &Draft) {
        let mix = draft.mix as f32;
        let (x, y) = (aimed.landing.x as f32, aimed.landing.y as f32);
        let (east, north) = (aimed.direction.x as f32, aimed.direction.y as f32);
        let landing = draft.meta.landing_time as f32;
        let n = self.n;
        let last = n + b0.r.len();
        let (xs, ys) = (&mut self.x[n..last], &mut self.y[n..last]);
        let (zs, ts) = (&mut self.z[n..last], &mut self.t[n..last]);
        for i in 0..last - n {
            let r = b0.r[i] + mix * (b1.r[i] - b0.r[i]);
            xs[i] = x + east * r;
            ys[i] = y + north * r;
            zs[i] = b0.z[i] + mix * (b1.z[i] - b0.z[i]);
            ts[i] = landing + b0.t[i] + mix * (b1.t[i] - b0.t[i]);
        }
        self.n = last;
    }

    #[inline]
    fn push(&mut self, point: DVec2, z: f64, t: f64) {
        let n = self.n;
        self.x[n] = point.x as f32;
        self.y[n] = point.y as f32;
        self.z[n] = z as f32;
        self.t[n] = t as f32;
        self.n += 1;
    }
}

/// Where a ball can be met, and what a depth stands for on a full court.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Limits {
    /// Half the width and half the length of the site.
    site: (f32, f32),
    overhead: f32,
    /// One over the height from the shoulder to the highest reach, 1/m.
    fade: f32,
    to_full_court: f32,
    /// A serve must bounce, and a deep return costs, see [`RETURN_DEPTH_COST`].
    serving: bool,
}

/// Height of the shoulder as a share of the highest reach; from there on the reach shrinks.
const SHOULDER: f32 = 0.6;

fn fade(overhead: f32) -> f32 {
    1.0 / (overhead - SHOULDER * overhead)
}

impl Limits {
    pub fn new(striker: &Striker<'_>, responder: Responder) -> Self {
        let court = &striker.conditions.court;
        Self {
            site: (court.site_half_width() as f32, court.site_half_length() as f32),
            overhead: responder.overhead as f32,
            fade: fade(responder.overhead as f32),
            to_full_court: (FULL_HALF_LENGTH / court.half_length()) as f32,
            serving: striker.serving,
        }
    }

    /// Share of the reach left at a point, and what meeting the ball there is worth; both 0 where it cannot be met.
    ///
    /// [`reach_share`](crate::exposure::reach_share) and [`value`](crate::exposure::value) without branches, so that
    /// many points can be weighed at once.
    #[inline(always)]
    pub fn meeting(&self, x: f32, y: f32, z: f32, bounced: bool) -> (f32, f32) {
        let part = |v: f32| v.clamp(0.0, 1.0);
        let smooth = |v: f32| {
            let v = part(v);
            v * v * (3.0 - 2.0 * v)
        };
        // The receiver must let a serve bounce (ITF Rules of Tennis, Rule 19).
        let usable = (y < -NET_REACH_M as f32)
            & (y > -self.site.1)
            & (x.abs() < self.site.0)
            & (z <= self.overhead)
            & (bounced | !self.serving);
        let shoulder = SHOULDER * self.overhead;
        let low = 0.75 + 0.25 * part(z * (1.0 / 0.35));
        let high = 0.8 * part((z - shoulder) * self.fade);
        let share = low - high;

        let d = -y * self.to_full_court;
        let base = 0.78 - 0.16 * smooth((d - 2.0) * (1.0 / 10.885)) - 0.01 * (d - 12.885).max(0.0);
        let after = 0.06 * part((z - 1.4) * (1.0 / 0.6)) + 0.15 * part((0.5 - z) * 2.0);
        let before = 0.15 * part((0.9 - z) * (1.0 / 0.9)) + 0.24 * smooth((d - 3.0) * (1.0 / 3.4));
        let value = (base - if bounced { after } else { before }).clamp(0.05, 0.95);
        let back = if self.serving { RETURN_DEPTH_COST as f32 } else { 0.0 };
        let value = (value - back * (d - RETURN_BACK_M as f32).max(0.0)).max(0.0);
        if usable { (share, value) } else { (0.0, 0.0) }
    }
}

impl Rebound {
    pub fn fly(&mut self, atlas: &Atlas, striker: &Striker<'_>, responder: Responder, cut: &Cut, topspin: f64) {
        /// Step of the integration, s; with fourth order good to a millimetre over a bounce.
        const STEP: f64 = 0.5;
        /// So far below the highest reach the rise ends and the fall begins, m.
        const INSIDE_M: f64 = 0.001;
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
            // Cubics through the values and rates of the nodes: of a range (0) or height (1), and how fast they change.
            let at = |t: f64, what: usize| -> (f64, f64) {
                let i = ((t * (1.0 / STEP)) as usize).min(n - 2);
                let (a, b) = (&nodes[i], &nodes[i + 1]);
                let u = t * (1.0 / STEP) - i as f64;
                let (rise, from, to) = (b[what] - a[what], a[what + 2] * STEP, b[what + 2] * STEP);
                let (square, cube) = (3.0 * rise - 2.0 * from - to, from + to - 2.0 * rise);
                let value = a[what] + u * (from + u * (square + u * cube));
                (value, (from + u * (2.0 * square + 3.0 * u * cube)) * (1.0 / STEP))
            };
            // The last step crosses the ground; where, by Newton on the height.
            let mut end = (n - 1) as f64 * STEP;
            for _ in 0..4 {
                let (z, vz) = at(end, 1);
                end -= (z - radius) / vz.min(-0.1);
            }
            let (up, down) = passes(&at, end, responder.overhead - INSIDE_M);
            for i in 0..AFTER {
                let share = (i % RISE) as f64 * (1.0 / (RISE - 1) as f64);
                let t = if i < RISE { up * share } else { down + (end - down) * share };
                self.r.push(at(t, 0).0 as f32);
                self.z.push(at(t, 1).0 as f32);
                self.t.push((begin + t) as f32);
            }
            let (r, vr) = at(end, 0);
            ball.velocity = DVec3::new(0.0, vr, at(end, 1).1);
            from = r;
            begin += end;
        }
    }
}

/// When a ball that bounced at 0 and is down again at `end` passes a height on its rise and on its fall; at its top both
/// times if it does not get there. `at` tells the height (1) at a time and how fast it changes.
fn passes(at: &impl Fn(f64, usize) -> (f64, f64), end: f64, height: f64) -> (f64, f64) {
    /// About how fast the rise of a ball slows down, m/s^2: gravity and some drag.
    const SLOWS: f64 = 10.5;
    let mut top = 0.5 * end;
    for _ in 0..2 {
        top = (top + at(top, 1).1 / SLOWS).clamp(0.0, end);
    }
    let over = at(top, 1).0 - height;
    if over <= 0.0 {
        return (top, top);
    }
    let away = (2.0 * over / SLOWS).sqrt();
    let passing = |mut t: f64, low: f64, high: f64| {
        for _ in 0..4 {
            let (z, rate) = at(t, 1);
            if rate.abs() < 0.05 {
                break;
            }
            t = (t - (z - height) / rate).clamp(low, high);
        }
        t
    };
    (passing(top - away, 0.0, top), passing(top + away, top, end))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exposure::{reach_share, value_at};

    #[test]
    fn a_meeting_is_worth_what_the_plain_formulas_say() {
        for (overhead, serving) in [(2.9, false), (1.7, false), (2.6, true)] {
            let limits = Limits { site: (9.0, 18.0), overhead, fade: fade(overhead), to_full_court: 1.0, serving };
            for i in 0..4000 {
                let f = f64::from(i);
                let (x, y, z) = (10.0 * (0.7 * f).sin(), -9.0 + 10.0 * (1.3 * f).cos(), 1.5 + 1.5 * (2.1 * f).sin());
                let bounced = i % 2 == 0;
                let on_site = y < -NET_REACH_M && y > -18.0 && x.abs() < 9.0 && (bounced || !serving);
                let share = if on_site { reach_share(z, f64::from(overhead)) } else { 0.0 };
                let behind = if serving { RETURN_DEPTH_COST * (-y - RETURN_BACK_M).max(0.0) } else { 0.0 };
                let value = if share > 0.0 { (value_at(-y, z, bounced) - behind).max(0.0) } else { 0.0 };
                let fast = limits.meeting(x as f32, y as f32, z as f32, bounced);
                assert!((f64::from(fast.0) - share).abs() < 2e-6, "share at {x} {y} {z}: {} {share}", fast.0);
                assert!((f64::from(fast.1) - value).abs() < 2e-6, "value at {x} {y} {z}: {} {value}", fast.1);
            }
        }
    }
}
