//! How a player's errors change by date, in sentences that the evidence carries.

use standpoint_board::Units;
use standpoint_charting::{report::PlayerReport, stats::Estimate};
use standpoint_language::tr;

use crate::words;

/// A sentence for each mean that changes beyond its interval; empty for fewer than three days.
#[must_use]
pub fn sentences(report: &PlayerReport, units: Units) -> Vec<String> {
    let Some(change) = &report.in_thirty_days else { return Vec::new() };
    let days = report.days.len();
    let clear = |of: Option<Estimate>| of.filter(|of| of.low > 0.0 || of.high < 0.0);
    let length = |metres: f64| words::fine_length(metres, units);
    let range = |of: Estimate, show: &dyn Fn(f64) -> String| {
        let (a, b) = (of.low.abs(), of.high.abs());
        tr!("{0} to {1}", show(a.min(b)), show(a.max(b)))
    };
    let points = |share: f64| words::decimal(100.0 * share, 1);
    let mut said = Vec::new();
    if let Some(of) = clear(change.avoidable) {
        let (by, within) = (points(of.value.abs()), range(of, &points));
        said.push(if of.value > 0.0 {
            tr!("In thirty days {0} more points in 100 are given away ({1}; {2} days)", by, within, days)
        } else {
            tr!("In thirty days {0} fewer points in 100 are given away ({1}; {2} days)", by, within, days)
        });
    }
    if let Some(of) = clear(change.across) {
        let (by, within) = (length(of.value.abs()), range(of, &length));
        said.push(if of.value > 0.0 {
            tr!("In thirty days the places move {0} to the right ({1}; {2} days)", by, within, days)
        } else {
            tr!("In thirty days the places move {0} to the left ({1}; {2} days)", by, within, days)
        });
    }
    if let Some(of) = clear(change.along) {
        let (by, within) = (length(of.value.abs()), range(of, &length));
        said.push(if of.value > 0.0 {
            tr!("In thirty days the places move {0} back ({1}; {2} days)", by, within, days)
        } else {
            tr!("In thirty days the places move {0} forward ({1}; {2} days)", by, within, days)
        });
    }
    said
}
