//! Statistics of simulated points.

use std::collections::HashMap;

use serde::Serialize;
use standpoint_geometry::{
    Court,
    worth::{Ending, PlayedStroke},
};

use crate::json::Num;

/// A contact closer to the centre line than this, m, belongs to neither side.
const CENTRE: f32 = 1.0;
/// The direction of a shot is measured this far behind the net, m; within this distance of the middle it goes to the middle.
const BEHIND_NET: f32 = 8.0;
const MIDDLE: f32 = 1.37;
/// First stroke of the rally proper: serve and return are counted separately.
const RALLY_FROM: u32 = 3;

/// Where a stroke goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Way {
    /// From the centre line to a side, and to the middle.
    CentreToSide,
    /// See [`Way::CentreToSide`].
    CentreToMiddle,
    /// To the other side than that of the contact.
    Cross,
    /// Along the own side.
    Line,
    /// To the middle from a side.
    Middle,
}

impl Way {
    /// All, in the order of tables.
    pub const ALL: [Self; 5] = [Self::Cross, Self::Line, Self::Middle, Self::CentreToSide, Self::CentreToMiddle];

    /// Along the line from the contact through the crossing at the net, carried on behind it.
    pub fn of(stroke: &PlayedStroke) -> Self {
        let [x, depth, _] = stroke.contact;
        let u = (depth + BEHIND_NET) / (depth + stroke.landing[1]).max(0.1);
        let there = x + u * (stroke.landing[0] - x);
        match (x.abs() < CENTRE, there.abs() < MIDDLE) {
            (true, true) => Self::CentreToMiddle,
            (true, false) => Self::CentreToSide,
            (false, true) => Self::Middle,
            (false, false) if there * x > 0.0 => Self::Line,
            (false, false) => Self::Cross,
        }
    }
}

/// All statistics. Shares are from 0 to 1; `None` without any case.
#[derive(Debug, Clone, Serialize)]
pub struct Figures {
    pub strokes: usize,
    pub serving: [Serving; 2],
    pub lengths: Lengths,
    pub endings: Endings,
    pub directions: Vec<Direction>,
    pub rally: Rally,
    pub landing_depth: Option<Spread>,
    pub landing_aside: Option<Spread>,
    pub contact_depth: Option<Spread>,
    pub contact_aside: Option<Spread>,
    pub contact_height: Option<Spread>,
    pub net: Net,
}

/// One player's serve.
#[derive(Debug, Clone, Serialize)]
pub struct Serving {
    pub points: usize,
    pub won: Option<Num>,
    pub first_in: Option<Num>,
    pub won_on_first: Option<Num>,
    pub won_on_second: Option<Num>,
    pub aces_of_first_in: Option<Num>,
    pub first_in_unreturned: Option<Num>,
    pub second_in_unreturned: Option<Num>,
    pub double_faults_of_second: Option<Num>,
}

/// Shares of points by their good strokes, the serve counted.
#[derive(Debug, Clone, Serialize)]
pub struct Lengths {
    pub to_4: Num,
    pub to_8: Num,
    pub more: Num,
    pub mean: Num,
}

/// Shares of points by how they ended.
#[derive(Debug, Clone, Serialize)]
pub struct Endings {
    pub ace: Num,
    pub winner: Num,
    pub net: Num,
    pub long: Num,
    pub wide: Num,
    pub double_fault: Num,
}

/// Groundstrokes of the rally in one direction.
#[derive(Debug, Clone, Serialize)]
pub struct Direction {
    #[serde(skip)]
    pub way: Way,
    pub direction: &'static str,
    pub share: Option<Num>,
    pub goes_in: Option<Num>,
    pub wins: Option<Num>,
}

/// Strokes of the rally.
#[derive(Debug, Clone, Serialize)]
pub struct Rally {
    pub groundstrokes: usize,
    pub before_bounce: usize,
    pub goes_in: Option<Num>,
    pub untouched: Option<Num>,
    pub forehands: Option<Num>,
}

/// Quantiles at 10, 50 and 90 percent.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Spread {
    pub p10: Num,
    pub p50: Num,
    pub p90: Num,
}

/// Points in which somebody came to the net, of those with a return struck, and how many of the comers won.
#[derive(Debug, Clone, Serialize)]
pub struct Net {
    pub share_of_points: Option<Num>,
    pub won: Option<Num>,
}

fn good(stroke: &PlayedStroke) -> bool {
    matches!(stroke.ending, Ending::Returned | Ending::Untouched)
}

fn share<'a>(strokes: &[&'a PlayedStroke], is: impl Fn(&'a PlayedStroke) -> bool) -> Option<Num> {
    let count = strokes.iter().filter(|s| is(s)).count();
    (!strokes.is_empty()).then(|| Num(count as f64 / strokes.len() as f64))
}

fn spread(mut values: Vec<f32>) -> Option<Spread> {
    values.sort_by(f32::total_cmp);
    let at = |q: f64| Num(f64::from(values[((values.len() - 1) as f64 * q).round() as usize]));
    (!values.is_empty()).then(|| Spread { p10: at(0.1), p50: at(0.5), p90: at(0.9) })
}

impl Figures {
    /// Counts the strokes of some points, which come in order.
    pub fn new(strokes: &[PlayedStroke], court: &Court) -> Self {
        let points: Vec<&[PlayedStroke]> = strokes.chunk_by(|a, b| a.point == b.point).collect();
        let half = court.half_length() as f32;
        let rally: Vec<&PlayedStroke> = strokes.iter().filter(|s| s.number >= RALLY_FROM && s.serve == 0).collect();
        let ground: Vec<&PlayedStroke> = rally.iter().copied().filter(|s| !s.air).collect();
        let of_good = |value: fn(&PlayedStroke) -> f32| ground.iter().filter(|s| good(s)).map(|s| value(s)).collect();
        let of_all = |value: &dyn Fn(&PlayedStroke) -> f32| ground.iter().map(|s| value(s)).collect();
        Self {
            strokes: strokes.len(),
            serving: [0, 1].map(|player| Serving::new(&points, player)),
            lengths: Lengths::new(&points),
            endings: Endings::new(&points),
            directions: directions(&ground),
            rally: Rally {
                groundstrokes: ground.len(),
                before_bounce: rally.len() - ground.len(),
                goes_in: share(&ground, good),
                untouched: share(&ground, |s| s.ending == Ending::Untouched),
                forehands: share(&ground, |s| s.wing == standpoint_geometry::Wing::Forehand),
            },
            landing_depth: spread(of_good(|s| s.landing[1])),
            landing_aside: spread(of_good(|s| s.landing[0].abs())),
            contact_depth: spread(of_all(&|s| s.contact[1] - half)),
            contact_aside: spread(of_all(&|s| s.contact[0].abs())),
            contact_height: spread(of_all(&|s| s.contact[2])),
            net: Net::new(&points, court),
        }
    }
}

impl Serving {
    fn new(points: &[&[PlayedStroke]], player: u8) -> Self {
        let served: Vec<&[PlayedStroke]> = points.iter().copied().filter(|p| p[0].server == player).collect();
        // A serve with the stroke that follows it.
        let serves = |which: u8| -> Vec<(&PlayedStroke, Option<&PlayedStroke>)> {
            let of = |p: &&'_ [PlayedStroke]| p.iter().position(|s| s.serve == which);
            served.iter().filter_map(|p| of(p).map(|i| (&p[i], p.get(i + 1)))).collect()
        };
        let all = |serves: &[(&'_ PlayedStroke, Option<&'_ PlayedStroke>)],
                   is: fn(&PlayedStroke, Option<&PlayedStroke>) -> bool| {
            let count = serves.iter().filter(|(s, next)| is(s, *next)).count();
            (!serves.is_empty()).then(|| Num(count as f64 / serves.len() as f64))
        };
        let unreturned = |_: &PlayedStroke, next: Option<&PlayedStroke>| next.is_none_or(|n| !good(n));
        let (first, second) = (serves(1), serves(2));
        let first_in: Vec<_> = first.iter().copied().filter(|(s, _)| good(s)).collect();
        let second_in: Vec<_> = second.iter().copied().filter(|(s, _)| good(s)).collect();
        let starts: Vec<&PlayedStroke> = served.iter().map(|p| &p[0]).collect();
        Self {
            points: served.len(),
            won: share(&starts, |s| s.won),
            first_in: all(&first, |s, _| good(s)),
            won_on_first: all(&first_in, |s, _| s.won),
            won_on_second: all(&second, |s, _| s.won),
            aces_of_first_in: all(&first_in, |s, _| s.ending == Ending::Untouched),
            first_in_unreturned: all(&first_in, unreturned),
            second_in_unreturned: all(&second_in, unreturned),
            double_faults_of_second: all(&second, |s, _| !good(s)),
        }
    }
}

impl Lengths {
    fn new(points: &[&[PlayedStroke]]) -> Self {
        // A last stroke that misses does not count, unless it is the serve.
        let length = |s: &PlayedStroke| if good(s) || s.number == 1 { s.number } else { s.number - 1 };
        let lengths: Vec<u32> = points.iter().filter_map(|p| p.iter().map(length).max()).collect();
        let count = lengths.len().max(1) as f64;
        let between = |low, high| Num(lengths.iter().filter(|l| (low..=high).contains(*l)).count() as f64 / count);
        Self {
            to_4: between(0, 4),
            to_8: between(5, 8),
            more: between(9, u32::MAX),
            mean: Num(lengths.iter().copied().map(f64::from).sum::<f64>() / count),
        }
    }
}

/// How a point ended, in a word of the CSV file.
pub fn ended(last: &PlayedStroke) -> &'static str {
    match (last.serve, last.ending) {
        (1 | 2, Ending::Untouched | Ending::Returned) => "ace",
        (0, Ending::Untouched | Ending::Returned) => "winner",
        (0, Ending::Net) => "net",
        (0, Ending::Long) => "long",
        (0, Ending::Wide) => "wide",
        _ => "double_fault",
    }
}

impl Endings {
    fn new(points: &[&[PlayedStroke]]) -> Self {
        let mut counts: HashMap<&str, usize> = HashMap::new();
        for last in points.iter().filter_map(|p| p.last()) {
            *counts.entry(ended(last)).or_default() += 1;
        }
        let of = |what| Num(counts.get(what).copied().unwrap_or(0) as f64 / points.len().max(1) as f64);
        Self {
            ace: of("ace"),
            winner: of("winner"),
            net: of("net"),
            long: of("long"),
            wide: of("wide"),
            double_fault: of("double_fault"),
        }
    }
}

fn directions(ground: &[&PlayedStroke]) -> Vec<Direction> {
    let of = |way: Way| {
        let these: Vec<&PlayedStroke> = ground.iter().copied().filter(|s| Way::of(s) == way).collect();
        Direction {
            way,
            direction: match way {
                Way::Cross => "cross",
                Way::Line => "line",
                Way::Middle => "middle",
                Way::CentreToSide => "from_centre_to_side",
                Way::CentreToMiddle => "from_centre_to_middle",
            },
            share: share(ground, |s| Way::of(s) == way),
            goes_in: share(&these, good),
            wins: share(&these, |s| s.won),
        }
    };
    Way::ALL.map(of).into()
}

impl Net {
    fn new(points: &[&[PlayedStroke]], court: &Court) -> Self {
        let line = court.service_line.unwrap_or(0.5 * court.half_length()) as f32;
        let (mut returned, mut with_net, mut comers, mut won) = (0_usize, 0_usize, 0_usize, 0_usize);
        for point in points.iter().filter(|p| p.iter().any(|s| s.number == 2)) {
            returned += 1;
            let near = |player: u8| {
                point.iter().find(|s| s.striker == player && s.serve == 0 && (s.air || s.contact[1] < line))
            };
            let at_net: Vec<&PlayedStroke> = [0, 1].into_iter().filter_map(near).collect();
            with_net += usize::from(!at_net.is_empty());
            comers += at_net.len();
            won += at_net.iter().filter(|s| s.won).count();
        }
        let part = |of: usize, all: usize| (all > 0).then(|| Num(of as f64 / all as f64));
        Self { share_of_points: part(with_net, returned), won: part(won, comers) }
    }
}

#[cfg(test)]
mod tests;
