//! All that the opponent can do from the contact point.
//!
//! What a reply is stands in [`crate::repertoire`]: a stroke (speed, spin, low or high arc) to one of a lattice of
//! landing places, which lies denser near the lines. The lattice is fixed to the court, so that the answer follows a drag smoothly. Every reply clears the net and
//! lands in at its nominal launch; its chance to go in follows from [`crate::scatter`]. Flights come from the
//! [atlas](crate::atlas), cut by the ground at the contact height and mixed between neighbouring elevations.

use glam::{DVec2, DVec3};

use crate::{
    atlas::{Atlas, Cut},
    bounce::bounce,
    exposure::{FULL_HALF_LENGTH, reach_share, value_at},
    flight::BallState,
    repertoire::{
        self, Aimed, DROP_ROWS, LEAST_CHANCE, NET_REACH_M, RETURN_BACK_M, RETURN_DEPTH_COST, Responder, Striker,
        delivery, effort_of, efforts, strokes, weight,
    },
    scatter::{self, Sensitivity, Spread},
    situation::Stroke,
};

/// Samples of the path before the bounce, and between bounces.
pub(crate) const BEFORE: usize = 6;
pub(crate) const AFTER: usize = 10;
/// Nor those less likely in than this share of the safest reply: the safest alone costs the player more.
pub(crate) const LEAST_SHARE: f64 = 0.42;
/// What is known of one reply.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Meta {
    pub stroke: Stroke,
    pub aimed: u16,
    pub speed: f64,
    pub topspin: f64,
    pub elevation: f64,
    pub landing_time: f64,
    pub chance: f64,
}

/// A stroke that may be played with a family's flights `first..last`.
#[derive(Debug, Clone, Copy)]
struct Plan {
    family: usize,
    speed: f64,
    stroke: Stroke,
    high: bool,
    first: usize,
    last: usize,
    /// Spread when the ball is sent back where it came from.
    straight: Spread,
}

/// A reply before its points are written.
#[derive(Debug, Clone, Copy)]
struct Draft {
    meta: Meta,
    family: usize,
    /// The neighbouring elevations and where between them the reply lies.
    k: (usize, usize),
    mix: f64,
    net_time: f64,
}

/// Kinds of replies that are compared with each other.
const KINDS: usize = 4;
/// A slower ball is worth keeping when it is at least this much more likely to go in.
const WORTH_WAITING: f64 = 0.02;

/// Balls of different kinds pass at different heights, so that being earlier does not make one better.
fn kind(stroke: Stroke, elevation: f64) -> usize {
    match stroke {
        Stroke::Lob => 1,
        Stroke::Drop => 2,
        Stroke::Slice => 3,
        _ if elevation > 0.35 => 1,
        _ => 0,
    }
}

impl Draft {
    fn kind(&self) -> usize {
        kind(self.meta.stroke, self.meta.elevation)
    }
}

/// One elevation's second half, from the bounce on, relative to the place and time of the bounce.
#[derive(Debug, Clone, Default)]
struct Rebound {
    r: Vec<f32>,
    z: Vec<f32>,
    t: Vec<f32>,
}

/// The replies with the points at which each can be met, as arrays.
#[derive(Debug, Clone, Default)]
pub(crate) struct ReplySet {
    pub aims: Vec<Aimed>,
    pub meta: Vec<Meta>,
    pub chance: Vec<f32>,
    /// Points a reply has.
    pub points: usize,
    pub x: Vec<f32>,
    pub y: Vec<f32>,
    pub z: Vec<f32>,
    pub t: Vec<f32>,
    /// Share of the reach left at the point's height; 0 where it cannot be met.
    pub share: Vec<f32>,
    pub value: Vec<f32>,
    /// Best chance per direction of the lattice, for the wedge: `(landing, chance)`.
    pub best_chance: Vec<f64>,
    plans: Vec<Plan>,
    drafts: Vec<Draft>,
    cuts: Vec<Cut>,
    rebounds: Vec<Rebound>,
    rebound_at: Vec<u32>,
}

const NO_CUT: Cut = Cut { time: -1.0, r: -1.0, vr: 0.0, vz: 0.0 };

impl ReplySet {
    /// Lists the replies anew.
    pub fn list(&mut self, atlas: &Atlas, striker: &Striker<'_>, responder: Responder) {
        self.points = (BEFORE + AFTER * usize::from(responder.bounces.max(1))).next_multiple_of(4);
        self.aims.clear();
        self.aims.extend(repertoire::lattice(striker));
        self.best_chance.clear();
        self.best_chance.resize(self.aims.len(), 0.0);
        self.plan(atlas, striker);
        self.drafts.clear();
        for i in 0..self.aims.len() {
            self.draft(atlas, striker, i);
        }
        let best = self.best_chance.iter().copied().fold(0.0, f64::max);
        let floor = (LEAST_SHARE * best).max(LEAST_CHANCE);
        self.drafts.retain(|d| d.meta.chance >= floor);
        self.write(atlas, striker, responder);
    }

    /// Decides which strokes are played with which flights, and cuts those by the ground.
    fn plan(&mut self, atlas: &Atlas, striker: &Striker<'_>) {
        let count = atlas.elevations.len();
        self.cuts.clear();
        self.cuts.resize(atlas.families.len() * count, NO_CUT);
        self.plans.clear();
        let furthest = self.aims.iter().map(|a| a.distance).fold(0.0, f64::max);
        for f in 0..atlas.families.len() {
            let (speed, topspin) = (atlas.families[f].speed, atlas.families[f].topspin);
            let strokes = strokes(striker, topspin);
            let effort = |stroke| effort_of(striker, speed, topspin, stroke);
            // One family more on the fast side: the change of range with speed is read off it.
            let slack = 1.25;
            let least_most = efforts(striker);
            if !strokes.iter().any(|&(s, _)| (least_most.0..=least_most.1 * slack).contains(&effort(s))) {
                continue;
            }
            let (low_end, high_start) = self.cut_family(atlas, f, striker.contact.z, striker.physics.radius, furthest);
            for &(stroke, high) in strokes {
                if !(least_most.0..=least_most.1).contains(&effort(stroke)) {
                    continue;
                }
                let delivery = delivery(striker, speed, topspin, stroke);
                let skill = scatter::skill_of(striker.player, stroke, striker.wing);
                let (first, last) = if high { (high_start, count) } else { (0, low_end) };
                if last >= first + 2 {
                    let straight = scatter::spread(&skill, &delivery);
                    self.plans.push(Plan { family: f, speed, stroke, high, first, last, straight });
                }
            }
        }
        // Fast ones first: once one of them is as good as certain, slower ones of its kind are not worth a look.
        self.plans.sort_by(|a, b| b.speed.total_cmp(&a.speed));
    }

    /// Cuts a family's flights at the ground, from both ends, until they are longer than needed. Returns how far the
    /// low flights reach and where the high ones begin.
    fn cut_family(&mut self, atlas: &Atlas, f: usize, height: f64, radius: f64, furthest: f64) -> (usize, usize) {
        let count = atlas.elevations.len();
        let base = f * count;
        let family = &atlas.families[f];
        let mut low = 0;
        for k in 0..count {
            let cut = atlas.cut(family.flights[k], radius - height).unwrap_or(NO_CUT);
            // Past the longest flight the branch is over.
            if k > 0 && (cut.r < 0.0 || cut.r < self.cuts[base + k - 1].r) {
                break;
            }
            self.cuts[base + k] = cut;
            low = k + 1;
            if cut.r > furthest + 4.0 {
                break;
            }
        }
        let mut high = count;
        for k in (0..count).rev() {
            if k < low {
                high = k.min(high);
                break;
            }
            let cut = atlas.cut(family.flights[k], radius - height).unwrap_or(NO_CUT);
            if cut.r < 0.0 || (k + 1 < count && cut.r < self.cuts[base + k + 1].r) {
                break;
            }
            self.cuts[base + k] = cut;
            high = k;
            if cut.r > furthest + 4.0 {
                break;
            }
        }
        (low, high)
    }

    /// Every way to play one landing place, less those that another way of the same kind beats on time and chance.
    fn draft(&mut self, atlas: &Atlas, striker: &Striker<'_>, i: usize) {
        let begin = self.drafts.len();
        let mut best = 0.0f64;
        let mut certain = [false; KINDS];
        for n in 0..self.plans.len() {
            if let Some(draft) = self.draft_one(atlas, striker, i, &self.plans[n], &certain) {
                best = best.max(draft.meta.chance);
                certain[draft.kind()] |= draft.meta.chance > 1.0 - WORTH_WAITING;
                if draft.meta.chance >= LEAST_CHANCE {
                    self.drafts.push(draft);
                }
            }
        }
        self.best_chance[i] = best;
        let ways = &mut self.drafts[begin..];
        ways.sort_unstable_by(|a, b| a.meta.landing_time.total_cmp(&b.meta.landing_time));
        // Along growing time of arrival, a way stays only if it is more likely in than every earlier one of its kind.
        let mut safest = [0.0f64; KINDS];
        let mut kept = begin;
        for n in begin..self.drafts.len() {
            let draft = self.drafts[n];
            let kind = draft.kind();
            if draft.meta.chance > safest[kind] + WORTH_WAITING {
                safest[kind] = draft.meta.chance;
                self.drafts[kept] = draft;
                kept += 1;
            }
        }
        self.drafts.truncate(kept);
    }

    /// One way to play one landing place, if its flights reach it over the net.
    #[inline]
    fn draft_one(
        &self,
        atlas: &Atlas,
        striker: &Striker<'_>,
        i: usize,
        plan: &Plan,
        certain: &[bool; KINDS],
    ) -> Option<Draft> {
        let aimed = &self.aims[i];
        let count = atlas.elevations.len();
        let f = plan.family;
        let family = &atlas.families[f];
        let base = f * count;
        if plan.stroke == Stroke::Drop && aimed.row >= DROP_ROWS {
            return None;
        }
        let branch = &self.cuts[base + plan.first..base + plan.last];
        let after = if plan.high {
            branch.partition_point(|c| c.r > aimed.distance)
        } else {
            branch.partition_point(|c| c.r < aimed.distance)
        };
        if after == 0 || after >= branch.len() {
            return None;
        }
        let (k0, k1) = (plan.first + after - 1, plan.first + after);
        let (c0, c1) = (&self.cuts[base + k0], &self.cuts[base + k1]);
        if c0.r < 0.0 || c1.r < 0.0 {
            return None;
        }
        let mix = (aimed.distance - c0.r) / (c1.r - c0.r);
        let step = atlas.elevations[k1] - atlas.elevations[k0];
        let elevation = atlas.elevations[k0] + mix * step;
        if certain[kind(plan.stroke, elevation)] {
            return None;
        }
        let (t0, z0) = atlas.at_range(family.flights[k0], aimed.net_range)?;
        let (t1, z1) = atlas.at_range(family.flights[k1], aimed.net_range)?;
        let rise = z0 + mix * (z1 - z0);
        let clearance = striker.contact.z + rise - striker.physics.radius - aimed.net_height;
        let net_up = (z1 - z0) / step;
        // Quick way out: the net alone makes it too unlikely.
        if clearance < -0.52 * net_up.abs() * plan.straight.up {
            return None;
        }
        let range_speed = match family.faster.map(|g| (g, &self.cuts[g * count + k0], &self.cuts[g * count + k1])) {
            Some((g, g0, g1)) if g0.r > 0.0 && g1.r > 0.0 => {
                let faster = g0.r + mix * (g1.r - g0.r);
                (faster - aimed.distance) / (atlas.families[g].speed / family.speed).ln()
            }
            // Beyond the atlas, where flights hardly matter: a little more than in proportion to the speed.
            _ => 1.2 * aimed.distance,
        };
        let spread = plan.straight.turned(aimed.turn);
        let flight = Sensitivity {
            clearance,
            net_up,
            net_speed: 2.0 * (aimed.net_range * elevation.tan() - rise),
            range: aimed.distance,
            range_up: (c1.r - c0.r) / step,
            range_speed,
            along: -aimed.direction.y,
            across: aimed.direction.x.abs(),
        };
        let chance = scatter::chance(&flight, &aimed.room, &spread).good;
        Some(Draft {
            meta: Meta {
                stroke: plan.stroke,
                aimed: i as u16,
                speed: family.speed,
                topspin: family.topspin,
                elevation,
                landing_time: c0.time + mix * (c1.time - c0.time),
                chance,
            },
            family: f,
            k: (k0, k1),
            mix,
            net_time: t0 + mix * (t1 - t0),
        })
    }

    /// Writes the points of every draft.
    fn write(&mut self, atlas: &Atlas, striker: &Striker<'_>, responder: Responder) {
        self.meta.clear();
        self.chance.clear();
        for v in [&mut self.x, &mut self.y, &mut self.z, &mut self.t, &mut self.share, &mut self.value] {
            v.clear();
        }
        let count = atlas.elevations.len();
        self.rebound_at.clear();
        self.rebound_at.resize(atlas.families.len() * count, u32::MAX);
        let court = &striker.conditions.court;
        let limits = Limits {
            site: DVec2::new(court.site_half_width(), court.site_half_length()),
            overhead: responder.overhead,
            to_full_court: FULL_HALF_LENGTH / court.half_length(),
            depth_cost: if striker.serving { RETURN_DEPTH_COST } else { 0.0 },
        };
        let drafts = std::mem::take(&mut self.drafts);
        let mut rebounds = std::mem::take(&mut self.rebounds);
        let mut used = 0;
        for draft in &drafts {
            let base = draft.family * count;
            let [b0, b1] = [draft.k.0, draft.k.1].map(|k| {
                let at = base + k;
                if self.rebound_at[at] == u32::MAX {
                    if used == rebounds.len() {
                        rebounds.push(Rebound::default());
                    }
                    rebounds[used].fly(atlas, striker, responder, &self.cuts[at], draft.meta.topspin);
                    self.rebound_at[at] = used as u32;
                    used += 1;
                }
                self.rebound_at[at] as usize
            });
            self.meta.push(draft.meta);
            self.chance.push(weight(striker, draft.meta.chance) as f32);
            let aimed = self.aims[usize::from(draft.meta.aimed)];
            let mut points = Points::default();
            points.before(atlas, striker, &limits, &aimed, draft);
            points.after(&limits, &aimed, (&rebounds[b0], &rebounds[b1]), draft);
            self.append(&points);
        }
        self.drafts = drafts;
        self.rebounds = rebounds;
    }

    /// Appends one reply's points.
    fn append(&mut self, points: &Points) {
        let n = self.points;
        self.x.extend_from_slice(&points.x[..n]);
        self.y.extend_from_slice(&points.y[..n]);
        self.z.extend_from_slice(&points.z[..n]);
        self.t.extend_from_slice(&points.t[..n]);
        self.share.extend_from_slice(&points.share[..n]);
        self.value.extend_from_slice(&points.value[..n]);
    }
}

/// Most points a reply can have.
pub(crate) const MOST: usize = (BEFORE + 2 * AFTER).next_multiple_of(4);

/// One reply's points before they are appended; entries never written stay unusable.
#[derive(Debug, Clone, Copy, Default)]
struct Points {
    x: [f32; MOST],
    y: [f32; MOST],
    z: [f32; MOST],
    t: [f32; MOST],
    share: [f32; MOST],
    value: [f32; MOST],
    n: usize,
}

impl Points {
    fn before(&mut self, atlas: &Atlas, striker: &Striker<'_>, limits: &Limits, aimed: &Aimed, draft: &Draft) {
        let flights = &atlas.families[draft.family].flights;
        let (f0, f1) = (flights[draft.k.0], flights[draft.k.1]);
        let (mix, landing_time) = (draft.mix, draft.meta.landing_time);
        let height = striker.contact.z;
        // A ball that rises over the highest reach can be met from where it has come down to it.
        let ceiling = limits.overhead - height;
        let start = if atlas.top(f0).min(atlas.top(f1)) > ceiling {
            let fall = |flight| atlas.cut(flight, ceiling).map_or(0.0, |c| c.time);
            draft.net_time.max(fall(f0) + mix * (fall(f1) - fall(f0)))
        } else {
            draft.net_time
        };
        for i in 0..BEFORE {
            let t = start + (landing_time - start) * ((i as f64 + 0.5) / BEFORE as f64);
            let ((r0, z0), (r1, z1)) = (atlas.at_time(f0, t), atlas.at_time(f1, t));
            let point = striker.contact.truncate() + aimed.direction * (r0 + mix * (r1 - r0));
            self.push(limits, point, height + z0 + mix * (z1 - z0), t, false);
            if striker.serving {
                // The receiver must let a serve bounce (ITF Rules of Tennis, Rule 19).
                self.share[self.n - 1] = 0.0;
                self.value[self.n - 1] = 0.0;
            }
        }
    }

    fn after(&mut self, limits: &Limits, aimed: &Aimed, (b0, b1): (&Rebound, &Rebound), draft: &Draft) {
        let mixed = |a: f32, b: f32| f64::from(a) + draft.mix * f64::from(b - a);
        for i in 0..b0.r.len() {
            let point = aimed.landing + aimed.direction * mixed(b0.r[i], b1.r[i]);
            let t = draft.meta.landing_time + mixed(b0.t[i], b1.t[i]);
            self.push(limits, point, mixed(b0.z[i], b1.z[i]), t, true);
            let behind = (-point.y * limits.to_full_court - RETURN_BACK_M).max(0.0);
            self.value[self.n - 1] = (self.value[self.n - 1] - (limits.depth_cost * behind) as f32).max(0.0);
        }
    }

    #[inline]
    fn push(&mut self, limits: &Limits, point: DVec2, z: f64, t: f64, bounced: bool) {
        let usable = point.y < -NET_REACH_M && point.y > -limits.site.y && point.x.abs() < limits.site.x;
        let share = if usable { reach_share(z, limits.overhead) } else { 0.0 };
        let n = self.n;
        self.x[n] = point.x as f32;
        self.y[n] = point.y as f32;
        self.z[n] = z as f32;
        self.t[n] = t as f32;
        self.share[n] = share as f32;
        self.value[n] = if share > 0.0 { value_at(-point.y * limits.to_full_court, z, bounced) as f32 } else { 0.0 };
        self.n += 1;
    }
}

/// Where a ball can be met, and what a depth stands for on a full court.
#[derive(Debug, Clone, Copy)]
struct Limits {
    site: DVec2,
    overhead: f64,
    to_full_court: f64,
    /// What a metre further back costs over the usual, see [`RETURN_DEPTH_COST`].
    depth_cost: f64,
}

impl Rebound {
    fn fly(&mut self, atlas: &Atlas, striker: &Striker<'_>, responder: Responder, cut: &Cut, topspin: f64) {
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
                let t = end * (i as f64 + 0.5) / AFTER as f64;
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
