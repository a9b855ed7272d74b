//! Context of a shot: pressure, length of the point so far, and who served.

use glam::DVec2;
use standpoint_geometry::Stroke;

use super::ask::Ask;
use standpoint_board::chart::model::ObservedShot;
use standpoint_board::chart::score::{CourtSide, ServeNumber};
use standpoint_board::file::Named;

/// Time below which a stroke is hurried, s. Common practice, no source.
const HURRIED_S: f64 = 0.9;
/// Mean speed of the run above which a stroke is hurried, m/s, likewise.
const HURRIED_M_S: f64 = 2.5;
/// Reach without a run, m, likewise.
const AT_HAND_M: f64 = 1.0;
/// Run above which a stroke without a noted time is hurried, m, likewise.
const FAR_M: f64 = 3.5;

/// Whether a stroke was hurried.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pressure {
    /// There was time.
    AtEase,
    /// There was not.
    Hurried,
}

impl Pressure {
    /// Both.
    pub const ALL: [Self; 2] = [Self::AtEase, Self::Hurried];
}

impl Named for Pressure {
    const NAMES: &'static [(&'static str, Self)] = &[("AtEase", Self::AtEase), ("Hurried", Self::Hurried)];
}

/// Length of the point before the shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Length {
    /// The first four strokes.
    Short,
    /// The fifth to the eighth.
    Middle,
    /// Beyond.
    Long,
}

impl Length {
    /// All.
    pub const ALL: [Self; 3] = [Self::Short, Self::Middle, Self::Long];

    fn of(shot_number: u32) -> Self {
        match shot_number {
            0..=4 => Self::Short,
            5..=8 => Self::Middle,
            _ => Self::Long,
        }
    }
}

impl Named for Length {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Short", Self::Short), ("Middle", Self::Middle), ("Long", Self::Long)];
}

/// Whether the hitter served in the point or received.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Served.
    Serving,
    /// Received.
    Receiving,
}

impl Role {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Serving, Self::Receiving];
}

impl Named for Role {
    const NAMES: &'static [(&'static str, Self)] = &[("Serving", Self::Serving), ("Receiving", Self::Receiving)];
}

/// Context of a shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Context {
    /// Whether it was hurried, if known.
    pub pressure: Option<Pressure>,
    /// Length of the point before the shot.
    pub length: Length,
    /// Whether the hitter served, where that is known.
    pub role: Option<Role>,
    /// The serve, where it is one.
    pub serve: Option<(CourtSide, ServeNumber)>,
}

impl Context {
    /// The context of a shot; `stroke` is the filled-in one if none was noted.
    pub(crate) fn of(ask: &Ask, stroke: Stroke) -> Self {
        let shot = &ask.shot;
        let role = ask.served.server.map(|end| if end == shot.hitter { Role::Serving } else { Role::Receiving });
        let serve = (stroke == Stroke::Serve).then(|| {
            let number = shot.serve.or(ask.served.number).unwrap_or(ServeNumber::First);
            let own = shot.hitter.turn2(shot.contact).x >= 0.0;
            (ask.served.side.unwrap_or(if own { CourtSide::Deuce } else { CourtSide::Ad }), number)
        });
        let pressure =
            if serve.is_some() { None } else { ask.before.as_ref().and_then(|before| pressure(before, shot)) };
        Self { pressure, length: Length::of(ask.origin.shot_number), role, serve }
    }
}

/// Whether the necessary run was hurried.
fn pressure(before: &ObservedShot, shot: &ObservedShot) -> Option<Pressure> {
    let time = before.time.and_then(|struck| Some(before.met_time.or(shot.time)? - struck)).filter(|time| *time > 0.0);
    let place = shot.hitter_place.unwrap_or(shot.contact);
    let run = before.opponent_place.map(|from: DVec2| (place - from).length());
    let hurried = match (time, run) {
        (Some(time), _) if time < HURRIED_S => true,
        (Some(time), Some(run)) => (run - AT_HAND_M).max(0.0) / time >= HURRIED_M_S,
        (Some(_), None) => return None,
        (None, run) => run? >= FAR_M,
    };
    Some(if hurried { Pressure::Hurried } else { Pressure::AtEase })
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::End;

    use super::*;

    #[test]
    fn a_stroke_is_hurried_by_little_time_or_a_long_run() {
        let before = |time: Option<f64>, from: Option<f64>| ObservedShot {
            hitter: End::Far,
            time: time.map(|_| 5.0),
            met_time: time.map(|time| 5.0 + time),
            opponent_place: from.map(|x| DVec2::new(x, -12.0)),
            ..ObservedShot::default()
        };
        let shot = ObservedShot { contact: DVec2::new(3.0, -12.0), ..ObservedShot::default() };
        let told = |time, from| pressure(&before(time, from), &shot);
        assert_eq!(told(Some(0.8), None), Some(Pressure::Hurried));
        assert_eq!(told(Some(1.4), None), None);
        assert_eq!(told(Some(1.4), Some(2.0)), Some(Pressure::AtEase));
        assert_eq!(told(Some(1.4), Some(-2.0)), Some(Pressure::Hurried));
        assert_eq!(told(None, Some(-2.0)), Some(Pressure::Hurried));
        assert_eq!(told(None, Some(0.0)), Some(Pressure::AtEase));
        assert_eq!(told(None, None), None);
    }
}
