//! All that the opponent can do from the contact point.
//!
//! What a reply is stands in [`crate::repertoire`]: a stroke (speed, spin, low or high arc) to one of a lattice of
//! landing places, which lies denser near the lines. The lattice is fixed to the court, so that the answer follows a
//! drag smoothly. Every reply lands in at its nominal launch; its chance to go in follows from [`crate::scatter`]. Flights come from the
//! [atlas](crate::atlas), cut by the ground at the contact height and mixed between neighbouring elevations.

use std::ops::Range;

use crate::{
    atlas::{Atlas, Cut},
    points::{Columns, Limits, Points, Rebound, rounded},
    repertoire::{
        self, Aimed, DROP_ROWS, LEAST_CHANCE, Responder, Striker, delivery, effort_of, efforts, strokes, weight,
    },
    scatter::{self, Sensitivity, Spread},
    situation::Stroke,
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

impl Plan {
    /// The plan's flights among the cuts.
    fn cuts(&self, atlas: &Atlas) -> Range<usize> {
        let base = self.family * atlas.elevations.len();
        base + self.first..base + self.last
    }
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

/// The replies, the likeliest to go in first, with the points at which each can be met, as arrays.
#[derive(Debug, Clone, Default)]
pub(crate) struct ReplySet {
    pub aims: Vec<Aimed>,
    pub meta: Vec<Meta>,
    pub chance: Vec<f32>,
    /// Points a reply has.
    pub points: usize,
    /// The points of the replies, taken over by the judge.
    pub columns: Columns,
    /// Where its points can be met.
    pub limits: Limits,
    /// Best chance per direction of the lattice, for the wedge: `(landing, chance)`.
    pub best_chance: Vec<f64>,
    plans: Vec<Plan>,
    drafts: Vec<Draft>,
    cuts: Vec<Cut>,
    rebounds: Vec<Rebound>,
    rebound_at: Vec<u32>,
    /// When a flight comes down to the highest reach, s; not a number until it is asked for.
    falls: Vec<f64>,
    order: Vec<u64>,
}

/// Flights this much longer than the furthest target are enough, m.
const SLACK_M: f64 = 4.0;
const NO_CUT: Cut = Cut { time: -1.0, r: -1.0, vr: 0.0, vz: 0.0, range_up: 0.0, range_speed: 0.0 };

impl ReplySet {
    /// Lists the replies anew.
    pub fn list(&mut self, atlas: &Atlas, striker: &Striker<'_>, responder: Responder) {
        self.points = rounded(usize::from(responder.bounces.max(1)));
        self.aims.clear();
        self.aims.extend(repertoire::lattice(striker));
        self.best_chance.clear();
        self.best_chance.resize(self.aims.len(), 0.0);
        self.plan(atlas, striker);
        self.drafts.clear();
        for n in 0..self.plans.len() {
            self.draft(atlas, striker, n);
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
        let distances = || self.aims.iter().map(|a| a.distance);
        let nearest = distances().fold(f64::INFINITY, f64::min);
        let furthest = distances().fold(0.0, f64::max);
        let (least, most) = efforts(striker);
        let mut guess = 0;
        for f in 0..atlas.families.len() {
            let (speed, topspin) = (atlas.families[f].speed, atlas.families[f].topspin);
            let strokes = strokes(striker, topspin);
            let possible = |stroke| (least..=most).contains(&effort_of(striker, speed, topspin, stroke));
            let played = |high| strokes.iter().any(|&(s, h)| h == high && possible(s));
            let (low_played, high_played) = (played(false), played(true));
            if !low_played && !high_played {
                continue;
            }
            let ground = striker.physics.radius - striker.contact.z;
            let low = self.cut_low(atlas, f, ground, (nearest, furthest), &mut guess);
            let high = if high_played { self.cut_high(atlas, f, ground, furthest, low.end) } else { count..count };
            for &(stroke, is_high) in strokes {
                let range = if is_high { &high } else { &low };
                if range.len() >= 2 && possible(stroke) {
                    let skill = scatter::skill_of(striker.player, stroke, striker.wing);
                    let straight = scatter::spread(&skill, &delivery(striker, speed, topspin, stroke));
                    let (first, last) = (range.start, range.end);
                    self.plans.push(Plan { family: f, stroke, high: is_high, first, last, straight });
                }
            }
        }
    }

    /// Cuts a family's flat flights at the ground, from the last one that is too short until they are longer than needed
    /// or no longer get longer. `guess` is about where that first one is, as in the family before.
    fn cut_low(
        &mut self,
        atlas: &Atlas,
        f: usize,
        ground: f64,
        (nearest, furthest): (f64, f64),
        guess: &mut usize,
    ) -> Range<usize> {
        let count = atlas.elevations.len();
        let family = &atlas.families[f];
        let mut near = 0;
        let mut cut = |k: usize| atlas.cut_near(family.flights[k], ground, &mut near).unwrap_or(NO_CUT);
        let mut first = (*guess).min(count - 1);
        let mut of_first = cut(first);
        // A flight that does not come down in time is none of the short ones.
        while first > 0 && !(0.0..nearest).contains(&of_first.r) {
            first -= 1;
            of_first = cut(first);
        }
        let cuts = &mut self.cuts[f * count..(f + 1) * count];
        cuts[first] = of_first;
        let mut end = first + 1;
        while end < count && cuts[end - 1].r <= furthest + SLACK_M {
            let next = cut(end);
            // Past the longest flight the branch is over.
            if next.r < cuts[end - 1].r {
                break;
            }
            cuts[end] = next;
            if next.r < nearest {
                first = end;
            }
            end += 1;
        }
        if first + 1 < end {
            *guess = first;
        }
        first..end
    }

    /// The same of its lobs, from the steepest on, down to `least`, where the flat ones end.
    fn cut_high(&mut self, atlas: &Atlas, f: usize, ground: f64, furthest: f64, least: usize) -> Range<usize> {
        let count = atlas.elevations.len();
        let family = &atlas.families[f];
        let cuts = &mut self.cuts[f * count..(f + 1) * count];
        let mut near = 0;
        let mut first = count;
        while first > least && (first == count || cuts[first].r <= furthest + SLACK_M) {
            let cut = atlas.cut_near(family.flights[first - 1], ground, &mut near).unwrap_or(NO_CUT);
            if cut.r < 0.0 || (first < count && cut.r < cuts[first].r) {
                break;
            }
            first -= 1;
            cuts[first] = cut;
        }
        // Between the longest of both lies what is out of reach for either alone.
        let meets = first == least && (first == count || cuts[first].r <= furthest + SLACK_M);
        if meets { first.saturating_sub(1)..count } else { first..count }
    }

    /// Every landing place that one plan can be played to.
    fn draft(&mut self, atlas: &Atlas, striker: &Striker<'_>, n: usize) {
        let plan = self.plans[n];
        // Neighbouring places are about as far away, so the flights that reach one are near those of the last.
        let mut after = 1;
        for i in 0..self.aims.len() {
            if plan.stroke == Stroke::Drop && self.aims[i].row >= DROP_ROWS {
                continue;
            }
            let branch = &self.cuts[plan.cuts(atlas)];
            let distance = self.aims[i].distance;
            let beyond = |at: usize| (branch[at].r < distance) != plan.high;
            while after < branch.len() && beyond(after) {
                after += 1;
            }
            while after > 0 && !beyond(after - 1) {
                after -= 1;
            }
            if after == 0 || after >= branch.len() {
                continue;
            }
            if let Some(draft) = self.draft_one(atlas, striker, i, &plan, after) {
                self.best_chance[i] = self.best_chance[i].max(draft.meta.chance);
                if draft.meta.chance >= LEAST_CHANCE {
                    self.drafts.push(draft);
                }
            }
        }
    }

    /// One way to play one landing place, between the flights `after - 1` and `after` of the plan, if it gets over the
    /// net.
    #[inline]
    fn draft_one(&self, atlas: &Atlas, striker: &Striker<'_>, i: usize, plan: &Plan, after: usize) -> Option<Draft> {
        let aimed = &self.aims[i];
        let f = plan.family;
        let family = &atlas.families[f];
        let base = f * atlas.elevations.len();
        let (k0, k1) = (plan.first + after - 1, plan.first + after);
        let (c0, c1) = (&self.cuts[base + k0], &self.cuts[base + k1]);
        if c0.r < 0.0 || c1.r < 0.0 {
            return None;
        }
        let mix = (aimed.distance - c0.r) / (c1.r - c0.r);
        let step = atlas.elevations[k1] - atlas.elevations[k0];
        let elevation = atlas.elevations[k0] + mix * step;
        let (n0, n1) = (
            atlas.at_range(family.flights[k0], aimed.net_range)?,
            atlas.at_range(family.flights[k1], aimed.net_range)?,
        );
        let mixed = |a: f64, b: f64| a + mix * (b - a);
        let clearance = striker.contact.z + mixed(n0.z, n1.z) - striker.physics.radius - aimed.net_height;
        let (net_up, net_speed) = (mixed(n0.up, n1.up), mixed(n0.speed, n1.speed));
        let spread = plan.straight.turned(aimed.turn, striker.wing).lofted(elevation);
        // Quick way out: at 1.2 standard deviations below the tape, 11.5 % go over, fewer than are weighed.
        let (by_up, by_speed) = (net_up * spread.up, net_speed * spread.speed);
        if clearance < 0.0 && clearance * clearance > 1.44 * (by_up * by_up + by_speed * by_speed) {
            return None;
        }
        let flight = Sensitivity {
            clearance,
            net_up,
            net_speed,
            range: aimed.distance,
            range_up: mixed(c0.range_up, c1.range_up),
            range_speed: mixed(c0.range_speed, c1.range_speed),
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
                landing_time: mixed(c0.time, c1.time),
                chance,
            },
            family: f,
            k: (k0, k1),
            mix,
            net_time: mixed(n0.time, n1.time),
        })
    }

    /// Writes the points of every draft.
    fn write(&mut self, atlas: &Atlas, striker: &Striker<'_>, responder: Responder) {
        self.meta.clear();
        self.chance.clear();
        self.columns.clear(self.drafts.len() * self.points);
        let count = atlas.elevations.len();
        self.rebound_at.clear();
        self.rebound_at.resize(atlas.families.len() * count, u32::MAX);
        let limits = Limits::new(striker, responder);
        self.limits = limits;
        let drafts = std::mem::take(&mut self.drafts);
        let mut rebounds = std::mem::take(&mut self.rebounds);
        let mut falls = std::mem::take(&mut self.falls);
        falls.clear();
        falls.resize(atlas.families.len() * count, f64::NAN);
        let mut used = 0;
        self.order.clear();
        // Chances are not negative, so their bits sort as they do.
        let likely_first = |(i, d): (usize, &Draft)| (u64::from(!(d.meta.chance as f32).to_bits()) << 32) | i as u64;
        self.order.extend(drafts.iter().enumerate().map(likely_first));
        self.order.sort_unstable();
        for &key in &self.order {
            let draft = &drafts[key as u32 as usize];
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
            points.before(atlas, striker, &limits, &aimed, draft, |k, ceiling| {
                let known = &mut falls[base + k];
                if known.is_nan() {
                    let flight = atlas.families[draft.family].flights[k];
                    *known = atlas.cut(flight, ceiling).map_or(0.0, |cut| cut.time);
                }
                *known
            });
            points.after(&aimed, (&rebounds[b0], &rebounds[b1]), draft);
            self.columns.append(&points, self.points);
        }
        self.columns.weigh(&limits, self.points);
        self.drafts = drafts;
        self.rebounds = rebounds;
        self.falls = falls;
    }
}
