//! Facts of rows about their point, besides the shot.

use std::sync::Arc;

use standpoint_geometry::End;

use standpoint_board::chart::date::Date;
use standpoint_board::chart::model::{Chart, Point};
use standpoint_board::chart::score::{CourtSide, Ending, Miss};

/// Facts about a point. One row is enough; rows with contradicting facts are bad.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PointFacts {
    /// The date of the session.
    pub date: Option<Date>,
    /// The end of the server.
    pub server: Option<End>,
    /// The side of the serve.
    pub side: Option<CourtSide>,
    /// The end of the winner.
    pub winner: Option<End>,
    /// How it ended.
    pub ending: Option<Ending>,
    /// Where the last ball went that was missed.
    pub miss: Option<Miss>,
    /// The score before it.
    pub score: Option<Arc<str>>,
    /// Seconds to add to times for the position in the video.
    pub video_offset: Option<f64>,
}

impl PointFacts {
    /// These facts, completed by those of the other.
    #[must_use]
    pub fn or(self, other: &Self) -> Self {
        Self {
            date: self.date.or(other.date),
            server: self.server.or(other.server),
            side: self.side.or(other.side),
            winner: self.winner.or(other.winner),
            ending: self.ending.or(other.ending),
            miss: self.miss.or(other.miss),
            score: self.score.or_else(|| other.score.clone()),
            video_offset: self.video_offset.or(other.video_offset),
        }
    }

    /// Writes the facts to the last point of a chart.
    pub(super) fn put(self, chart: &mut Chart) {
        let Some(point) = chart.points.last_mut() else { return };
        if let Some(date) = self.date {
            chart.setup.session_mut(&point.session).date = Some(date);
        }
        let Self { server, side, winner, ending, miss, score, video_offset, .. } = self;
        let score = score.map_or_else(String::new, |score| score.to_string());
        *point = Point { server, side, winner, ending, miss, score, video_offset, ..std::mem::take(point) };
    }
}
