//! Flights computed once and used for every reply.
//!
//! A ball without sidespin flies in a plane, and its flight depends neither on where the plane points nor on how high
//! it starts: only on speed, spin and elevation. One atlas of such flights therefore serves every contact point and
//! every direction. It is built once per ball and air; a contact height only decides where a flight is cut by the
//! ground.

use crate::{
    flight::{BallPhysics, BallState},
    repertoire::{ELEVATIONS_DEG, SPINS_RPM, speeds},
    units::RPM,
};
use glam::DVec3;

/// Time between the samples of a flight, s.
pub(crate) const SAMPLE_S: f64 = 0.04;
/// How far below its start a flight is followed, m: the highest contact on court is lower.
const DEPTH: f64 = 3.3;

/// One sample: ground distance, height over the start, their rates, and how the place at this time answers to the
/// launch: its change with elevation, m/rad, and with the logarithm of speed, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sample {
    pub r: f32,
    pub z: f32,
    pub vr: f32,
    pub vz: f32,
    up_r: f32,
    up_z: f32,
    speed_r: f32,
    speed_z: f32,
}

/// Flights of one speed and spin over all elevations.
#[derive(Debug, Clone)]
pub(crate) struct Family {
    pub speed: f64,
    pub topspin: f64,
    pub flights: Vec<Flight>,
}

/// One planar flight: a column of its family's samples.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Flight {
    /// The family's first row.
    row: u32,
    /// The flight's place in each row.
    column: u32,
    len: u32,
    top: f32,
}

/// Where a flight is cut by the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Cut {
    pub time: f64,
    pub r: f64,
    pub vr: f64,
    pub vz: f64,
    /// Change of the range with elevation, m/rad.
    pub range_up: f64,
    /// Change of the range with the logarithm of speed, m.
    pub range_speed: f64,
}

/// A flight at a ground distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Passing {
    pub time: f64,
    /// Height over the start.
    pub z: f64,
    /// Change of that height with elevation, m/rad, and with the logarithm of speed, m.
    pub up: f64,
    pub speed: f64,
}

#[derive(Debug, Clone)]
pub(crate) struct Atlas {
    physics: BallPhysics,
    pub elevations: Vec<f64>,
    pub families: Vec<Family>,
    /// The samples of a family, one row after the other: a row holds one time of neighbouring elevations, because those
    /// are asked for together.
    samples: Vec<Sample>,
    /// Where column nought of each row would be among the samples; it may lie before them.
    rows: Vec<u32>,
    forces: Vec<(f32, f32)>,
}

/// Intervals of the table of [`Atlas::planar_step`] per unit of the spin parameter, and the greatest parameter in it.
const FORCE_STEPS: f64 = 128.0;
const FORCE_TOP: f64 = 4.0;

impl Atlas {
    pub fn new(physics: &BallPhysics) -> Self {
        let elevations = elevations();
        let speeds: Vec<f64> = speeds().collect();
        let mut atlas = Self {
            physics: *physics,
            elevations,
            families: Vec::new(),
            samples: Vec::new(),
            rows: Vec::new(),
            forces: Vec::new(),
        };
        let law = physics.law;
        atlas.forces = (0..=(FORCE_STEPS * FORCE_TOP) as usize + 1)
            .map(|i| i as f64 / FORCE_STEPS)
            .map(|s| (law.drag_coefficient(s) as f32, law.lift_coefficient(s) as f32))
            .collect();
        for spin in SPINS_RPM {
            for &speed in &speeds {
                let mut flown: Vec<Vec<Sample>> =
                    atlas.elevations.iter().map(|&up| fly(physics, speed, spin * RPM, up)).collect();
                compare(&mut flown, &atlas.elevations);
                let flights = atlas.keep(&flown);
                atlas.families.push(Family { speed, topspin: spin * RPM, flights });
            }
        }
        atlas
    }

    /// Whether this atlas was built for this ball and air.
    pub fn fits(&self, physics: &BallPhysics) -> bool {
        self.physics == *physics
    }

    /// Takes in the flights of a family.
    fn keep(&mut self, flown: &[Vec<Sample>]) -> Vec<Flight> {
        let row = self.rows.len() as u32;
        let longest = flown.iter().map(Vec::len).max().unwrap_or(0);
        for i in 0..longest {
            let there = |flight: &Vec<Sample>| flight.len() > i;
            let first = flown.iter().position(there).unwrap_or(0);
            let last = flown.iter().rposition(there).unwrap_or(0);
            self.rows.push((self.samples.len() as u32).wrapping_sub(first as u32));
            // A flight that is over between two that go on leaves a gap, which nobody asks for.
            self.samples.extend(flown[first..=last].iter().map(|flight| flight[i.min(flight.len() - 1)]));
        }
        let kept = |(column, flight): (usize, &Vec<Sample>)| Flight {
            row,
            column: column as u32,
            len: flight.len() as u32,
            top: flight.iter().map(|s| s.z).fold(0.0, f32::max),
        };
        flown.iter().enumerate().map(kept).collect()
    }

    /// The sample `i` of a flight, which has so many.
    #[inline]
    fn sample(&self, flight: Flight, i: usize) -> &Sample {
        debug_assert!(i < flight.len as usize, "sample {i} of {}", flight.len);
        &self.samples[self.rows[flight.row as usize + i].wrapping_add(flight.column) as usize]
    }

    /// One Runge-Kutta step of a planar flight `[r, z, vr, vz]` with a spin, rad/s.
    ///
    /// The same equations as [`BallPhysics::acceleration`], with the coefficients read off a table: a power costs more
    /// than the rest of the step. The table is linear between 1/128 of the spin parameter, good to 1e-4.
    pub fn planar_step(&self, s: [f64; 4], topspin: f64, k: f64, h: f64) -> [f64; 4] {
        let rate = |s: &[f64; 4]| {
            let (vr, vz) = (s[2], s[3]);
            let v = (vr * vr + vz * vz).sqrt();
            let at = (self.physics.radius * topspin.abs() / v.max(1e-6)).min(FORCE_TOP) * FORCE_STEPS;
            let i = at as usize;
            let u = at - i as f64;
            let ((d0, l0), (d1, l1)) = (self.forces[i], self.forces[i + 1]);
            let mix = |a: f32, b: f32| f64::from(a) + u * f64::from(b - a);
            let drag = k * v * mix(d0, d1);
            let lift = k * v * mix(l0, l1) * topspin.signum();
            [vr, vz, -drag * vr + lift * vz, -drag * vz - lift * vr - crate::units::GRAVITY]
        };
        let along = |s: &[f64; 4], r: &[f64; 4], h: f64| std::array::from_fn(|i| s[i] + h * r[i]);
        let a = rate(&s);
        let b = rate(&along(&s, &a, 0.5 * h));
        let c = rate(&along(&s, &b, 0.5 * h));
        let d = rate(&along(&s, &c, h));
        std::array::from_fn(|i| s[i] + h / 6.0 * (a[i] + 2.0 * (b[i] + c[i]) + d[i]))
    }

    /// Greatest height of a flight over its start at its samples, m.
    pub fn top(&self, flight: Flight) -> f64 {
        f64::from(flight.top)
    }

    /// Where a flight comes down through `z` relative to its start; `None` if it was not followed that far.
    ///
    /// Between samples the height is a parabola through value and rate, good to a few tenths of a millimetre.
    pub fn cut(&self, flight: Flight, z: f64) -> Option<Cut> {
        self.cut_near(flight, z, &mut 0)
    }

    /// The same, looked for from a sample on, which is then set to the one found: flights of neighbouring elevations are
    /// cut at about the same time.
    pub fn cut_near(&self, flight: Flight, z: f64, after: &mut usize) -> Option<Cut> {
        let len = flight.len as usize;
        // Heights fall after the apex; find the first sample below z while falling.
        let over = |i: usize| {
            let p = self.sample(flight, i);
            p.vz > 0.0 || f64::from(p.z) >= z
        };
        let mut found = (*after).min(len);
        if found == 0 {
            let mut end = len;
            while found < end {
                let middle = usize::midpoint(found, end);
                if over(middle) { found = middle + 1 } else { end = middle }
            }
        }
        while found < len && over(found) {
            found += 1;
        }
        while found > 0 && !over(found - 1) {
            found -= 1;
        }
        *after = found;
        if found == 0 || found >= len {
            return None;
        }
        let (a, b) = (self.sample(flight, found - 1), self.sample(flight, found));
        let (z0, v0, v1) = (f64::from(a.z), f64::from(a.vz), f64::from(b.vz));
        let g = (v1 - v0) / SAMPLE_S;
        let h = z0 - z;
        // z0 + v0 t + g t^2 / 2 = z with g < 0, the later root.
        let disc = (v0 * v0 - 2.0 * g * h).max(0.0).sqrt();
        let t = if g.abs() < 1e-9 { -h / v0 } else { (-v0 - disc) / g };
        let u = t / SAMPLE_S;
        let (r0, w0, w1) = (f64::from(a.r), f64::from(a.vr), f64::from(b.vr));
        let (vr, vz) = (w0 + u * (w1 - w0), v0 + u * (v1 - v0));
        // A ball that is higher at this time comes down later and meanwhile goes further.
        let mixed = |a: f32, b: f32| f64::from(a) + u * f64::from(b - a);
        let carry = vr / vz.min(-1e-6);
        Some(Cut {
            time: (found - 1) as f64 * SAMPLE_S + t,
            r: r0 + t * (w0 + 0.5 * u * (w1 - w0)),
            vr,
            vz,
            range_up: mixed(a.up_r, b.up_r) - carry * mixed(a.up_z, b.up_z),
            range_speed: mixed(a.speed_r, b.speed_r) - carry * mixed(a.speed_z, b.speed_z),
        })
    }

    /// A flight where it has covered the ground distance `r`; `None` if it was not followed that far.
    pub fn at_range(&self, flight: Flight, r: f64) -> Option<Passing> {
        let len = flight.len as usize;
        // The ball only slows down, so it is not there before this sample; it is there soon after.
        let mut after = (r / (f64::from(self.sample(flight, 0).vr) * SAMPLE_S)).max(0.0) as usize;
        while after < len && f64::from(self.sample(flight, after).r) < r {
            after += 1;
        }
        if after == 0 || after >= len {
            return None;
        }
        let (a, b) = (self.sample(flight, after - 1), self.sample(flight, after));
        let (r0, w0, w1) = (f64::from(a.r), f64::from(a.vr), f64::from(b.vr));
        let d = r - r0;
        let g = (w1 - w0) / SAMPLE_S;
        // r0 + w0 t + g t^2 / 2 = r; one Newton step from the linear guess is enough for so weak a curvature.
        let t0 = d / (0.5 * (w0 + w1));
        let t = t0 - (w0 * t0 + 0.5 * g * t0 * t0 - d) / (w0 + g * t0);
        let (z0, v0, v1) = (f64::from(a.z), f64::from(a.vz), f64::from(b.vz));
        let u = t / SAMPLE_S;
        // A ball that is further at this time was here earlier, and was higher by what it has sunk since.
        let mixed = |a: f32, b: f32| f64::from(a) + u * f64::from(b - a);
        let sink = (v0 + u * (v1 - v0)) / (w0 + u * (w1 - w0));
        Some(Passing {
            time: (after - 1) as f64 * SAMPLE_S + t,
            z: z0 + t * (v0 + 0.5 * u * (v1 - v0)),
            up: mixed(a.up_z, b.up_z) - sink * mixed(a.up_r, b.up_r),
            speed: mixed(a.speed_z, b.speed_z) - sink * mixed(a.speed_r, b.speed_r),
        })
    }

    /// Ground distance and height over the start at a time.
    pub fn at_time(&self, flight: Flight, time: f64) -> (f64, f64) {
        let len = flight.len as usize;
        let i = ((time / SAMPLE_S) as usize).min(len.saturating_sub(2));
        let (a, b) = (self.sample(flight, i), self.sample(flight, (i + 1).min(len - 1)));
        let t = time - i as f64 * SAMPLE_S;
        let u = 0.5 * t / SAMPLE_S;
        let (w0, w1) = (f64::from(a.vr), f64::from(b.vr));
        let (v0, v1) = (f64::from(a.vz), f64::from(b.vz));
        (f64::from(a.r) + t * (w0 + u * (w1 - w0)), f64::from(a.z) + t * (v0 + u * (v1 - v0)))
    }
}

/// A flight, sample by sample; how it answers to its elevation is still to come.
fn fly(physics: &BallPhysics, speed: f64, topspin: f64, elevation: f64) -> Vec<Sample> {
    /// Small enough to be linear, large enough to stand clear of the step's error.
    const FASTER: f64 = 1e-3;
    let mut samples = Vec::new();
    let mut ball = BallState::launch(DVec3::ZERO, speed, elevation, 0.0, topspin, 0.0);
    let mut faster = BallState::launch(DVec3::ZERO, speed * (1.0 + FASTER), elevation, 0.0, topspin, 0.0);
    loop {
        let ahead = (faster.position - ball.position) / FASTER;
        samples.push(Sample {
            r: ball.position.y as f32,
            z: ball.position.z as f32,
            vr: ball.velocity.y as f32,
            vz: ball.velocity.z as f32,
            up_r: 0.0,
            up_z: 0.0,
            speed_r: ahead.y as f32,
            speed_z: ahead.z as f32,
        });
        // 60 m is beyond every fence; a lob is followed for as long as it is up.
        if ball.position.z < -DEPTH || ball.position.y > 60.0 || samples.len() > 200 {
            return samples;
        }
        ball = ball.advanced(physics, SAMPLE_S);
        faster = faster.advanced(physics, SAMPLE_S);
    }
}

/// Fills in how the flights of a family change with elevation, from their neighbours.
fn compare(flown: &mut [Vec<Sample>], elevations: &[f64]) {
    for k in 0..flown.len() {
        let (below, above) = (k.saturating_sub(1), (k + 1).min(flown.len() - 1));
        for i in 0..flown[k].len() {
            // Near its end a flight may have only one neighbour that was followed as long, or none.
            let below = if i < flown[below].len() { below } else { k };
            let above = if i < flown[above].len() { above } else { k };
            let (a, b) = (flown[below][i], flown[above][i]);
            let opening = (elevations[above] - elevations[below]).max(1e-9) as f32;
            let sample = &mut flown[k][i];
            (sample.up_r, sample.up_z) = ((b.r - a.r) / opening, (b.z - a.z) / opening);
        }
    }
}

/// Elevations of the atlas, rad: one degree apart up to the longest flights, two for lobs.
fn elevations() -> Vec<f64> {
    let low = (ELEVATIONS_DEG.0..46).map(f64::from);
    let high = (46..=ELEVATIONS_DEG.1).step_by(2).map(f64::from);
    low.chain(high).map(f64::to_radians).collect()
}
