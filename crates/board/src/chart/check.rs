//! Checks a chart and reports every problem.
//!
//! Bounds are those of a board, see [`crate::check`]; a valid chart can be audited.

use glam::DVec2;
use standpoint_geometry::{
    End,
    units::{KMH, RPM},
};

use super::model::{Chart, ObservedShot, Point, SessionInfo, Setup};
use crate::check::board::{self, Finding, LINE_LIMIT, NOTES_LIMIT};
use crate::model::Page;
use crate::play_area::{HIGHEST_CONTACT, LOWEST_CONTACT, PlayArea};
use crate::problem::{Problem, ProblemKind};

/// Values in a chart: 100 000 shots as they are noted hold about two million.
pub const VALUE_LIMIT: usize = 4_000_000;
/// Slack for coordinates, m: rounding to the file's 0.1 mm must not push a place off the site.
const SLACK: f64 = 1e-4;
/// Distance on the hitter's own side of the net up to which a landing counts as in the net, m; farther back it is an
/// error of noting.
pub const IN_THE_NET: f64 = 2.0;
/// Speeds off the racket, km/h.
pub const SPEED_KMH: (f64, f64) = (11.0, 270.0);
/// Spins, rpm.
pub const TOPSPIN_RPM: (f64, f64) = (-6600.0, 6600.0);
/// Times, s: four days, for clocks that count from the start of a recording.
pub const TIME_S: (f64, f64) = (0.0, 4.0 * 86_400.0);

/// All problems of a chart; empty if it is valid.
#[must_use]
pub fn check(chart: &Chart) -> Vec<Problem> {
    findings(chart).into_iter().map(|finding| finding.problem).collect()
}

/// The problems, each with the part it is based on.
pub(crate) fn findings(chart: &Chart) -> Vec<Finding> {
    let mut check = Check { area: PlayArea::of(&chart.setup.court), found: setup_findings(&chart.setup) };
    check.text("notes", &chart.setup.notes, NOTES_LIMIT, &['\n', '\r', '\t']);
    check.sessions(&chart.setup.sessions);
    for (i, point) in chart.points.iter().enumerate() {
        check.point(&format!("points[{i}]"), point);
    }
    if values(chart) > VALUE_LIMIT {
        check.add(String::new(), ProblemKind::TooManyValues { limit: VALUE_LIMIT }, None);
    }
    check.found
}

/// Upper bound on values in the file of a chart: the chart without points, each point without shots, and each shot with
/// its parts, three values for each place that was seen.
fn values(chart: &Chart) -> usize {
    let of_shot = |shot: &ObservedShot| 15 + 3 * places(shot).iter().filter(|(_, place, ..)| place.is_some()).count();
    let of_point = |point: &Point| 13 + point.shots.iter().map(of_shot).sum::<usize>();
    120 + 12 * chart.setup.sessions.len() + chart.points.iter().map(of_point).sum::<usize>()
}

/// Problems of players and conditions, as for a board.
fn setup_findings(setup: &Setup) -> Vec<Finding> {
    let board = setup.board(vec![Page::blank().into()]);
    let own = |finding: &Finding| !finding.problem.role.starts_with("pages") && finding.problem.role != "theme";
    board::findings(&board).into_iter().filter(own).collect()
}

/// A charted place: its name in files, the place, its kind, and the end where it must be.
type Seen = (&'static str, Option<DVec2>, &'static str, End);

/// The places of a shot by the names that files give them.
pub(crate) fn places(shot: &ObservedShot) -> [Seen; 6] {
    let (own, other) = (shot.hitter, shot.hitter.other());
    [
        ("contact", Some(shot.contact), "the hitter's", own),
        ("landing", shot.landing, standpoint_language::mark("the landing's"), other),
        ("met", shot.met, "the opponent's", other),
        ("stood", shot.stood, "the hitter's", own),
        ("hitter_place", shot.hitter_place, "the hitter's", own),
        ("opponent_place", shot.opponent_place, "the opponent's", other),
    ]
}

struct Check {
    area: PlayArea,
    found: Vec<Finding>,
}

impl Check {
    fn add(&mut self, role: String, kind: ProblemKind, rests_on: Option<String>) {
        self.found.push(Finding { problem: Problem::new(role, kind), rests_on });
    }

    fn text(&mut self, role: &str, text: &str, limit: usize, allowed: &[char]) {
        let found = text.chars().count();
        if found > limit {
            self.add(role.to_owned(), ProblemKind::TextTooLong { found, limit }, None);
        }
        if let Some(c) = text.chars().find(|c| c.is_control() && !allowed.contains(c)) {
            self.add(role.to_owned(), ProblemKind::ControlCharacter { found: u32::from(c) }, None);
        }
    }

    fn sessions(&mut self, sessions: &[SessionInfo]) {
        for (i, session) in sessions.iter().enumerate() {
            let role = format!("sessions[{i}]");
            self.text(&format!("{role}.name"), &session.name, LINE_LIMIT, &[]);
            self.text(&format!("{role}.video"), &session.video, LINE_LIMIT, &[]);
            if sessions[..i].iter().any(|other| other.name == session.name) {
                self.add(format!("{role}.name"), ProblemKind::SessionTwice { name: session.name.clone() }, None);
            }
        }
    }

    fn point(&mut self, role: &str, point: &Point) {
        self.text(&format!("{role}.session"), &point.session, LINE_LIMIT, &[]);
        self.text(&format!("{role}.label"), &point.label, LINE_LIMIT, &[]);
        self.text(&format!("{role}.score"), &point.score, LINE_LIMIT, &[]);
        let offsets = (-TIME_S.1, TIME_S.1);
        self.number(format!("{role}.video_offset_s"), point.video_offset, 1.0, offsets, "s");
        for (i, shot) in point.shots.iter().enumerate() {
            self.shot(&format!("{role}.shots[{i}]"), shot);
        }
    }

    fn shot(&mut self, role: &str, shot: &ObservedShot) {
        let hitter = format!("{role}.hitter");
        for (name, place, whose, end) in places(shot) {
            let Some(place) = place else { continue };
            for (axis, found, limit) in [("x", place.x, self.area.half_width), ("y", place.y, self.area.half_length)] {
                self.coordinate(format!("{role}.{name}.{axis}"), found, limit);
            }
            let slack = if name == "landing" { IN_THE_NET } else { SLACK };
            if place.y * end.sign() > slack {
                let bound = match end {
                    End::Near => "0 or negative",
                    End::Far => "0 or positive",
                };
                let kind = ProblemKind::WrongEnd { found: place.y, whose, bound };
                self.add(format!("{role}.{name}.y"), kind, Some(hitter.clone()));
            }
        }
        let height = (LOWEST_CONTACT, HIGHEST_CONTACT);
        self.number(format!("{role}.contact_height"), shot.contact_height, 1.0, height, "m");
        self.number(format!("{role}.speed_kmh"), shot.speed, KMH, SPEED_KMH, "km/h");
        self.number(format!("{role}.topspin_rpm"), shot.topspin, RPM, TOPSPIN_RPM, "rpm");
        self.number(format!("{role}.time_s"), shot.time, 1.0, TIME_S, "s");
        self.number(format!("{role}.met_time_s"), shot.met_time, 1.0, TIME_S, "s");
        if let (Some(time), Some(met)) = (shot.time, shot.met_time)
            && met <= time
        {
            let kind = ProblemKind::MetTooEarly { met, struck: time };
            self.add(format!("{role}.met_time_s"), kind, Some(format!("{role}.time_s")));
        }
        if shot.landing.is_none() && shot.met.is_none() {
            self.add(role.to_owned(), ProblemKind::NowhereToGo, None);
        }
    }

    fn coordinate(&mut self, role: String, found: f64, limit: f64) {
        if !found.is_finite() {
            self.add(role, ProblemKind::NotFinite { found }, None);
        } else if found.abs() > limit + SLACK {
            self.add(role, ProblemKind::OffSite { found, limit }, Some("court".to_owned()));
        }
    }

    fn number(&mut self, role: String, value: Option<f64>, per_unit: f64, (low, high): (f64, f64), unit: &'static str) {
        let Some(value) = value else { return };
        let found = value / per_unit;
        // A little slack, because the division is not exact.
        let inside = found >= low - 1e-6 && found <= high + 1e-6;
        if !found.is_finite() {
            self.add(role, ProblemKind::NotFinite { found }, None);
        } else if !inside {
            self.add(role, ProblemKind::OutOfRange { found, low, high, unit }, None);
        }
    }
}
