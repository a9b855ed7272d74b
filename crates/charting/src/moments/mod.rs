//! Moments of a chart in its video: as chapters for video players, and as a table.
//!
//! The video position of a stroke is its time plus the offset of its point; an offset holds for later points of the
//! same session until another is given, so that a paused clock needs only one number.

mod vtt;
mod words;

use std::borrow::Cow;
use std::io::{self, Write};

use standpoint_geometry::End;

pub use vtt::{chapters, timestamp};
pub use words::title;

use crate::spreadsheet::{guarded, io_error};
use standpoint_board::chart::model::{Chart, ObservedShot, Point, Setup};
use standpoint_board::chart::score::{Ending, Log, ScoredPoint};

/// Lead-in and lead-out of a stroke, s. Common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// Before the first stroke.
    pub before: f64,
    /// After the last one.
    pub after: f64,
}

impl Default for Around {
    fn default() -> Self {
        Self { before: 1.5, after: 2.5 }
    }
}

/// A moment in a video.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// Start in the video, s.
    pub start: f64,
    /// End in the video, s.
    pub end: f64,
    /// The session; each has a video of its own.
    pub session: String,
    /// The point of the chart.
    pub point: usize,
    /// Label of the point.
    pub label: String,
    /// The shot of the point; `None` for the whole point.
    pub shot: Option<usize>,
    /// The score before the point, where it is known.
    pub score: String,
    /// The server, by where they began.
    pub server: Option<End>,
    /// The winner.
    pub winner: Option<End>,
    /// How it ended.
    pub ending: Option<Ending>,
}

/// Why a point or shot has no position in the video.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Missing {
    /// No stroke of it has a time.
    #[error("{}", standpoint_language::text("no time was noted"))]
    Untimed,
    /// Its time is earlier than that of the point before it: the clock was restarted.
    #[error("{}", standpoint_language::text("the clock goes back"))]
    ClockBack,
    /// With the offset it lies before the beginning of the video.
    #[error("{}", standpoint_language::text("it lies before the beginning of the video"))]
    BeforeVideo,
}

impl Missing {
    /// What to do about it.
    #[must_use]
    pub fn remedy(self) -> String {
        use standpoint_language::text;
        match self {
            Self::Untimed => text("Note the time of a stroke.").to_owned(),
            Self::ClockBack | Self::BeforeVideo => text("Tell the offset of the video for this point.").to_owned(),
        }
    }
}

/// Moments in the order of the video, session by session, and those without a position.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Moments {
    /// The moments.
    pub list: Vec<Moment>,
    /// Points without a moment.
    pub missing: Vec<(usize, Missing)>,
}

/// Positions of each point in the video: its first stroke and its last, s.
fn places(chart: &Chart) -> Vec<Result<(f64, f64), Missing>> {
    let mut offset = 0.0;
    let mut last = (None::<&str>, f64::NEG_INFINITY);
    let mut found = Vec::with_capacity(chart.points.len());
    for point in &chart.points {
        if last.0 != Some(point.session.as_str()) {
            (offset, last) = (0.0, (Some(point.session.as_str()), f64::NEG_INFINITY));
        }
        offset = point.video_offset.unwrap_or(offset);
        found.push(place(point, offset, &mut last.1));
    }
    found
}

fn place(point: &Point, offset: f64, latest: &mut f64) -> Result<(f64, f64), Missing> {
    let first = point.shots.iter().find_map(|shot| shot.time).ok_or(Missing::Untimed)? + offset;
    let ends = point.shots.iter().filter_map(last_time);
    let end = ends.fold(first, |end, time| end.max(time + offset));
    if first <= *latest {
        return Err(Missing::ClockBack);
    }
    *latest = first;
    if end < 0.0 { Err(Missing::BeforeVideo) } else { Ok((first, end)) }
}

fn last_time(shot: &ObservedShot) -> Option<f64> {
    shot.met_time.or(shot.time)
}

/// A moment for each of these points.
#[must_use]
pub fn of_points(chart: &Chart, log: &Log, points: impl IntoIterator<Item = usize>, around: Around) -> Moments {
    let places = places(chart);
    let mut moments = Moments::default();
    for index in points {
        let (Some(point), Some(place)) = (chart.points.get(index), places.get(index)) else { continue };
        match place {
            Err(why) => moments.missing.push((index, *why)),
            Ok((first, last)) => {
                moments.list.push(moment(point, index, log, None, (first - around.before, last + around.after)));
            }
        }
    }
    moments.order(chart);
    moments
}

/// A moment for each of these shots, given by point and shot.
#[must_use]
pub fn of_shots(chart: &Chart, log: &Log, shots: impl IntoIterator<Item = (usize, usize)>, around: Around) -> Moments {
    let places = places(chart);
    let mut moments = Moments::default();
    for (index, number) in shots {
        let Some(point) = chart.points.get(index) else { continue };
        let Some(shot) = point.shots.get(number) else { continue };
        let place = places[index].and_then(|(first, _)| {
            // The offset of the point, from the position of its first stroke.
            let zero = point.shots.iter().find_map(|shot| shot.time).ok_or(Missing::Untimed)?;
            let time = shot.time.ok_or(Missing::Untimed)? - zero + first;
            let end = last_time(shot).unwrap_or_default() - zero + first;
            if end < 0.0 { Err(Missing::BeforeVideo) } else { Ok((time, end)) }
        });
        match place {
            Err(why) => moments.missing.push((index, why)),
            Ok((time, end)) => {
                let span = (time - around.before, end + around.after);
                moments.list.push(moment(point, index, log, Some(number), span));
            }
        }
    }
    moments.order(chart);
    moments
}

fn moment(point: &Point, index: usize, log: &Log, shot: Option<usize>, (start, end): (f64, f64)) -> Moment {
    let scored: Option<&ScoredPoint> =
        log.sessions.iter().flat_map(|session| &session.points).find(|scored| scored.index == index);
    Moment {
        start: start.max(0.0),
        end,
        session: point.session.clone(),
        point: index,
        label: point.label.clone(),
        shot,
        score: scored.map(|scored| scored.score.clone()).unwrap_or_default(),
        server: scored.and_then(|scored| scored.server),
        winner: scored.and_then(|scored| scored.winner),
        ending: scored.and_then(|scored| scored.facts.ending),
    }
}

impl Moments {
    /// Sorts moments by the sessions of the chart, and by the video within each.
    fn order(&mut self, chart: &Chart) {
        let mut sessions: Vec<&str> = Vec::new();
        for point in &chart.points {
            if !sessions.contains(&point.session.as_str()) {
                sessions.push(&point.session);
            }
        }
        let rank = |moment: &Moment| sessions.iter().position(|session| *session == moment.session);
        self.list.sort_by(|a, b| rank(a).cmp(&rank(b)).then(a.start.total_cmp(&b.start)));
    }

    /// The sessions that have moments, in order.
    #[must_use]
    pub fn sessions(&self) -> Vec<&str> {
        let mut sessions: Vec<&str> = self.list.iter().map(|moment| moment.session.as_str()).collect();
        sessions.dedup();
        sessions
    }

    /// The moments of one session.
    pub fn of_session<'a>(&'a self, session: &'a str) -> impl Iterator<Item = &'a Moment> {
        self.list.iter().filter(move |moment| moment.session == session)
    }
}

/// Writes moments as a table.
///
/// # Errors
/// When it cannot be written.
pub fn write_csv(moments: &Moments, setup: &Setup, out: impl Write) -> io::Result<()> {
    let mut csv = csv::Writer::from_writer(out);
    let heading =
        ["start_s", "end_s", "start", "session", "video", "point", "shot", "score", "server", "winner", "title"];
    csv.write_record(heading).map_err(io_error)?;
    let name = |player: Option<End>| player.map_or("", |player| setup.card(player).name.as_str());
    for moment in &moments.list {
        let video = setup.session(&moment.session).map_or("", |session| session.video.as_str());
        let shot = moment.shot.map_or_else(String::new, |shot| (shot + 1).to_string());
        let numbers = [format!("{:.3}", moment.start), format!("{:.3}", moment.end), timestamp(moment.start)];
        let title = title(moment, setup);
        let texts = [&moment.session, video, &moment.label, &shot, &moment.score, name(moment.server)];
        let texts = texts.into_iter().chain([name(moment.winner), &title]).map(guarded);
        let cells = numbers.iter().map(|number| number.as_str().into()).chain(texts);
        csv.write_record(cells.map(Cow::into_owned)).map_err(io_error)?;
    }
    csv.flush()
}
