//! The paths of the strokes possible from a contact, with the points where they can be met.

use super::{
    behaviour::Behaviour,
    flights::{AFTER, Ground},
    lattice::scales,
    strokes::{Cuts, Kind, Repertoire},
};
use crate::{
    court::Court,
    player::{
        Player,
        scatter::{self, Delivery, Room, Sensitivity},
    },
};

/// Samples of a path before the bounce, between net and landing.
const BEFORE: usize = 9;
/// Largest distance from the net at which balls in the air are met on a full court, m.
const AIR_DEPTH: f32 = 9.5;

/// One choice: a stroke to a landing place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Path {
    pub family: u16,
    pub row: u8,
    pub column: u8,
    pub prior: f32,
    /// Landing in the striker's frame.
    pub x: f32,
    pub y: f32,
    pub distance: f32,
    /// Direction, sideways metres per metre forward, and the unit vector.
    pub direction: [f32; 2],
    pub elevation: f32,
    pub speed: f32,
    pub land_time: f32,
    pub clearance: f32,
    pub net_up: f32,
    pub net_speed: f32,
    pub range_up: f32,
    pub range_speed: f32,
    pub samples: (u32, u32),
}

impl Path {
    /// Sideways metres per metre of depth of the incoming ball, as seen by the responder.
    pub fn incoming(&self) -> f32 {
        -self.direction[0] / self.direction[1]
    }
}

/// A point where the responder may meet the ball, in the responder's frame.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sample {
    pub x: f32,
    pub depth: f32,
    pub height: f32,
    pub time: f32,
    /// Time since the last bounce, s; negative in the air.
    pub since: f32,
    pub air: bool,
}

/// The choices from one contact.
#[derive(Debug, Clone, Default)]
pub(crate) struct Paths {
    pub paths: Vec<Path>,
    pub samples: Vec<Sample>,
}

impl Paths {
    /// Drops the samples of paths that were left out.
    pub fn pack(&mut self) {
        let mut kept = 0;
        for path in &mut self.paths {
            let (from, to) = (path.samples.0 as usize, path.samples.1 as usize);
            self.samples.copy_within(from..to, kept);
            path.samples = (kept as u32, (kept + to - from) as u32);
            kept += to - from;
        }
        self.samples.truncate(kept);
    }

    pub fn samples(&self, path: &Path) -> &[Sample] {
        &self.samples[path.samples.0 as usize..path.samples.1 as usize]
    }
}

/// The receiver's limits on a path.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Limits {
    pub overhead: f32,
    pub half_width: f32,
    pub half_length: f32,
    pub after_step: f32,
    pub air_depth: f32,
}

impl Limits {
    pub fn new(court: &Court, responder: &Player, ground: &Ground) -> Self {
        Self {
            overhead: responder.reach.overhead as f32,
            half_width: court.site_half_width() as f32,
            half_length: court.site_half_length() as f32,
            after_step: ground.after_step as f32,
            air_depth: AIR_DEPTH * scales(court).1,
        }
    }
}

impl Repertoire {
    /// Lists the paths from a contact (striker's frame: x, depth).
    pub fn paths(&self, cuts: &Cuts, x: f32, depth: f32, limits: &Limits, out: &mut Paths) {
        out.paths.clear();
        out.samples.clear();
        let landings = self.landings(cuts.kind, x);
        for (n, family) in self.families(cuts.kind).iter().enumerate() {
            for row in family.rows.clone() {
                for column in 0..landings.x.len() {
                    let to = [landings.x.node(column), landings.y.node(row)];
                    if let Some(mut path) = self.path(cuts, n, (x, depth), to, limits, &mut out.samples) {
                        (path.row, path.column) = (row as u8, column as u8);
                        path.prior = family.prior * landings.area(row, column);
                        out.paths.push(path);
                    }
                }
            }
        }
    }

    /// One path, if the stroke can be played so.
    pub fn path(
        &self,
        cuts: &Cuts,
        n: usize,
        (x, depth): (f32, f32),
        to: [f32; 2],
        limits: &Limits,
        samples: &mut Vec<Sample>,
    ) -> Option<Path> {
        self.path_of(cuts, n, ((x, depth), to), limits, samples).filter(|p| p.clearance >= 0.0)
    }

    /// The path of a ball known to clear the net.
    pub fn path_of(
        &self,
        cuts: &Cuts,
        n: usize,
        ((x, depth), to): ((f32, f32), [f32; 2]),
        limits: &Limits,
        samples: &mut Vec<Sample>,
    ) -> Option<Path> {
        let (dx, dy) = (to[0] - x, to[1] + depth);
        let distance = (dx * dx + dy * dy).sqrt();
        let direction = [dx / distance, dy / distance];
        let net_range = depth / direction[1];
        let net_x = x + direction[0] * net_range;
        if net_x.abs() > self.court.post_x() as f32 {
            return None;
        }
        let cut = &cuts.families[n];
        let first = cut.iter().position(|c| c.r > 0.0)?;
        let mut k = first;
        while k + 1 < cut.len() && cut[k + 1].r >= cut[k].r && cut[k + 1].r < distance {
            k += 1;
        }
        if k + 1 >= cut.len() || cut[k + 1].r < distance || cut[k].r > distance {
            return None;
        }
        let (a, b) = (&cut[k], &cut[k + 1]);
        let mix = (distance - a.r) / (b.r - a.r).max(1e-6);
        let lerp = |p: f32, q: f32| p + mix * (q - p);
        let family = &self.families(cuts.kind)[n];
        let (fa, fb) = (&family.bundles[k], &family.bundles[k + 1]);
        let (na, nb) = (fa.flight.at_range(net_range)?, fb.flight.at_range(net_range)?);
        let net_height = self.court.net_height(f64::from(net_x)) as f32;
        let clearance = cuts.height + lerp(na.1, nb.1) - self.radius as f32 - net_height;
        let net = fa.net_sensitivity(net_range, na.1);
        let start = samples.len() as u32;
        let net_time = lerp(na.0, nb.0);
        let land_time = lerp(a.time, b.time);
        let at = |r: f32| [-(x + direction[0] * r), direction[1] * r - depth];
        if !matches!(cuts.kind, Kind::FirstServe | Kind::SecondServe) {
            for i in 0..BEFORE {
                let u = (i as f32 + 0.7) / BEFORE as f32;
                let (pa, pb) =
                    (fa.flight.at_time(na.0 + u * (a.time - na.0)), fb.flight.at_time(nb.0 + u * (b.time - nb.0)));
                let place = at(lerp(pa.0, pb.0));
                let height = cuts.height + lerp(pa.1, pb.1);
                if place[1] > 0.4 && place[1] < limits.air_depth && height < limits.overhead {
                    let time = net_time + u * (land_time - net_time);
                    samples.push(Sample { x: place[0], depth: place[1], height, time, since: -1.0, air: true });
                }
            }
        }
        for i in 0..a.alive.min(b.alive).min(AFTER) {
            let place = at(distance + lerp(a.after_r[i], b.after_r[i]));
            let height = lerp(a.after_z[i], b.after_z[i]);
            let inside = place[0].abs() < limits.half_width && place[1] < limits.half_length && place[1] > 0.2;
            if inside && height < limits.overhead {
                let since = (i + 1) as f32 * limits.after_step;
                // After a second bounce the ball was read long ago.
                let fresh = if i >= a.second { since - a.second as f32 * limits.after_step } else { since };
                samples.push(Sample {
                    x: place[0],
                    depth: place[1],
                    height,
                    time: land_time + since,
                    since: fresh,
                    air: false,
                });
            }
        }
        Some(Path {
            family: n as u16,
            row: 0,
            column: 0,
            prior: 0.0,
            x: to[0],
            y: to[1],
            distance,
            direction,
            elevation: lerp(fa.flight.elevation, fb.flight.elevation),
            speed: lerp(fa.flight.speed, fb.flight.speed),
            land_time,
            clearance,
            net_up: net.0,
            net_speed: net.1,
            range_up: lerp(a.range_up, b.range_up),
            range_speed: lerp(a.range_speed, b.range_speed),
            samples: (start, samples.len() as u32),
        })
    }

    /// Sensitivity of a path to errors of its launch.
    pub fn sensitivity(path: &Path) -> Sensitivity {
        Sensitivity {
            clearance: f64::from(path.clearance),
            net_up: f64::from(path.net_up),
            net_speed: f64::from(path.net_speed),
            range: f64::from(path.distance),
            range_up: f64::from(path.range_up),
            range_speed: f64::from(path.range_speed),
            along: f64::from(path.direction[1]),
            across: f64::from(path.direction[0].abs()),
        }
    }

    /// The room around a path's landing place.
    pub fn room(&self, kind: Kind, path: &Path) -> Room {
        let (x, y) = (f64::from(path.x), f64::from(path.y));
        match kind {
            Kind::FirstServe | Kind::SecondServe => Room::in_box(&self.court, self.court.service_depth(), x, y),
            _ => Room::on(&self.court, x, y),
        }
    }

    /// Chance to go in, mishits included, and the spread of the landing (depth, side), m.
    pub fn chance(&self, b: &Behaviour, kind: Kind, path: &Path, at: &Delivery) -> (f32, (f64, f64)) {
        let spread = scatter::spread(b, &self.player, at);
        let flight = Self::sensitivity(path);
        let chance = scatter::with_mishits(b, &flight, &self.room(kind, path), &spread).good;
        (chance as f32, scatter::landing_spread(&flight, &spread))
    }
}
