//! All that the opponent can do from the contact point.
//!
//! What a reply is stands in [`crate::repertoire`]: a stroke (speed, spin, low or high arc) to one of a lattice of
//! landing places, which lies denser near the lines. The lattice is fixed to the court, so that the answer follows a
//! drag smoothly. Every reply lands in at its nominal launch; its chance to go in follows from [`crate::scatter`]. Flights come from the
//! [atlas](crate::atlas), cut by the ground at the contact height and mixed between neighbouring elevations.

use crate::{
    atlas::{Atlas, Cut},
    points::{AFTER, BEFORE, Limits, Points, Rebound},
    repertoire::{
        self, Aimed, DROP_ROWS, LEAST_CHANCE, Responder, Striker, delivery, effort_of, efforts, strokes, weight,
    },
    scatter::{self, Sensitivity, Spread},
    situation::Stroke,
    units::GRAVITY,
};

/// Replies less likely in than this share of the safest one are left out: the safest alone costs the player more, for a
/// ball is worth at most 0.78 at the net and 0.62 at the baseline, so that 22 or 38 % of its chance are left.
const LEAST_SHARE: f64 = 0.3;

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
    stroke: Stroke,
    high: bool,
    first: usize,
    last: usize,
    /// Spread when the ball is sent back where it came from.
    straight: Spread,
}

/// A reply before its points are written.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Draft {
    pub meta: Meta,
    pub family: usize,
    /// The neighbouring elevations and where between them the reply lies.
    pub k: (usize, usize),
    pub mix: f64,
    pub net_time: f64,
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
    /// Where its points can be met.
    pub limits: Limits,
    /// Best chance per direction of the lattice, for the wedge: `(landing, chance)`.
    pub best_chance: Vec<f64>,
    plans: Vec<Plan>,
    drafts: Vec<Draft>,
    cuts: Vec<Cut>,
    rebounds: Vec<Rebound>,
    rebound_at: Vec<u32>,
}

const NO_CUT: Cut = Cut { time: -1.0, r: -1.0, vr: 0.0, vz: 0.0, range_up: 0.0, range_speed: 0.0 };

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
            let (least, most) = efforts(striker);
            if !strokes.iter().any(|&(s, _)| (least..=most).contains(&effort(s))) {
                continue;
            }
            let (low_end, high_start) = self.cut_family(atlas, f, striker.contact.z, striker.physics.radius, furthest);
            for &(stroke, high) in strokes {
                if !(least..=most).contains(&effort(stroke)) {
                    continue;
                }
                let delivery = delivery(striker, speed, topspin, stroke);
                let skill = scatter::skill_of(striker.player, stroke, striker.wing);
                let (first, last) = if high { (high_start, count) } else { (0, low_end) };
                if last >= first + 2 {
                    let straight = scatter::spread(&skill, &delivery);
                    self.plans.push(Plan { family: f, stroke, high, first, last, straight });
                }
            }
        }
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

    /// Every way to play one landing place.
    fn draft(&mut self, atlas: &Atlas, striker: &Striker<'_>, i: usize) {
        let mut best = 0.0f64;
        for n in 0..self.plans.len() {
            if let Some(draft) = self.draft_one(atlas, striker, i, &self.plans[n]) {
                best = best.max(draft.meta.chance);
                if draft.meta.chance >= LEAST_CHANCE {
                    self.drafts.push(draft);
                }
            }
        }
        self.best_chance[i] = best;
    }

    /// One way to play one landing place, if its flights reach it over the net.
    #[inline]
    fn draft_one(&self, atlas: &Atlas, striker: &Striker<'_>, i: usize, plan: &Plan) -> Option<Draft> {
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
        let (t0, z0) = atlas.at_range(family.flights[k0], aimed.net_range)?;
        let (t1, z1) = atlas.at_range(family.flights[k1], aimed.net_range)?;
        let rise = z0 + mix * (z1 - z0);
        let clearance = striker.contact.z + rise - striker.physics.radius - aimed.net_height;
        let net_up = (z1 - z0) / step;
        // Quick way out: the net alone makes it too unlikely.
        if clearance < -0.52 * net_up.abs() * plan.straight.up {
            return None;
        }
        let net_time = t0 + mix * (t1 - t0);
        // What the ball has dropped below its line at the net: gravity's part goes with the square of the time of flight,
        // the lift's with the time, so with the inverse square and the inverse of the speed.
        let drop = aimed.net_range * elevation.tan() - rise;
        let fall = 0.5 * GRAVITY * net_time * net_time;
        let spread = plan.straight.turned(aimed.turn, striker.wing).lofted(elevation);
        let flight = Sensitivity {
            clearance,
            net_up,
            net_speed: 2.0 * fall + (drop - fall),
            range: aimed.distance,
            range_up: c0.range_up + mix * (c1.range_up - c0.range_up),
            range_speed: c0.range_speed + mix * (c1.range_speed - c0.range_speed),
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
            net_time,
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
        let limits = Limits::new(striker, responder);
        self.limits = limits;
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
