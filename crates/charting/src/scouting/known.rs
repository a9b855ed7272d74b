//! Habits of a chart's players, for the roster and for a board.

use std::collections::BTreeMap;
use std::sync::Arc;

use standpoint_board::chart::model::Chart;
use standpoint_board::player_card::KnownHabits;
use standpoint_board::roster::MatchHabits;
use standpoint_geometry::End;

use super::counts::Choices;
use crate::audit::{Auditor, Compare, asks};

/// The choices in each session of a chart, in the order of their names. No places are judged for them.
fn by_session(chart: &Chart) -> BTreeMap<Arc<str>, Choices> {
    let mut auditor = Auditor::new(&chart.setup, Compare::default());
    let mut sessions: BTreeMap<Arc<str>, Choices> = BTreeMap::new();
    for mut ask in asks(chart) {
        ask.shot.stood = None;
        let shot = auditor.audit(&ask);
        sessions.entry(shot.origin.session.clone()).or_default().add(&shot);
    }
    sessions
}

/// Habits of the player who began at an end, session by session.
#[must_use]
pub fn matches(chart: &Chart, player: End) -> Vec<MatchHabits> {
    let title = |session: &str| match (chart.setup.title.as_str(), session) {
        (title, "") => title.to_owned(),
        ("", session) => session.to_owned(),
        (title, session) => format!("{title}, {session}"),
    };
    let of = |(session, choices): (&Arc<str>, &Choices)| MatchHabits {
        title: title(session),
        date: chart.setup.session(session).and_then(|info| info.date),
        counts: choices.replies(player),
    };
    by_session(chart).iter().map(of).filter(|of| of.counts.shots() > 0).collect()
}

/// Habits of the player who began at an end, for a board; switched on. `None` where the chart has none.
#[must_use]
pub fn known(chart: &Chart, player: End) -> Option<KnownHabits> {
    KnownHabits::of_matches(&chart.setup.card(player).name, &matches(chart, player))
}
