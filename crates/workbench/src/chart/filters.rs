//! Which shots of an audit are shown, and how they compare with the others.

use standpoint_board::chart::{Chart, Date, score::log};
use standpoint_charting::{
    audit::AuditedShot,
    filter::PointFilter,
    insight::{Cells, ShotGroup, change, changes},
};
use standpoint_geometry::End;

use super::worker::Audited;

/// What is shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Filters {
    /// Which points.
    pub points: PointFilter,
    /// Which shots.
    pub shots: ShotGroup,
    /// Dates as typed.
    pub from: String,
    /// The same.
    pub to: String,
}

impl Filters {
    /// Whether everything is shown.
    #[must_use]
    pub fn is_all(&self) -> bool {
        self.points == PointFilter::default() && self.shots == ShotGroup::default()
    }

    /// Takes the dates as typed.
    pub fn read_dates(&mut self) {
        let (from, to): (Option<Date>, Option<Date>) = (self.from.trim().parse().ok(), self.to.trim().parse().ok());
        let first = Date::new(1, 1, 1).zip(Date::new(9999, 12, 31));
        self.points.dates = first
            .filter(|_| from.is_some() || to.is_some())
            .map(|(first, last)| from.unwrap_or(first)..=to.unwrap_or(last));
    }
}

/// What came of a filter.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Compared {
    /// Shots that are shown, and all.
    pub shots: (usize, usize),
    /// What differs between those that are shown and the others, of each player.
    pub rest: [Vec<String>; 2],
    /// What differs between the players.
    pub players: Vec<String>,
}

impl Filters {
    /// The part of an audit that is shown, and how it compares.
    #[must_use]
    pub fn part(&self, audited: &Audited, chart: &Chart) -> (Audited, Compared) {
        let points = self.points.points(chart, &log::log(chart));
        let holds = |shot: &&AuditedShot| {
            let number = usize::try_from(shot.origin.point_number).unwrap_or_default();
            self.shots.holds(shot) && number.checked_sub(1).is_some_and(|index| points.contains(&index))
        };
        let (shown, others): (Vec<&AuditedShot>, Vec<&AuditedShot>) = audited.shots.iter().partition(holds);
        let (first, second) = (Cells::of(shown.iter().copied()), Cells::of(others));
        let rest = [End::Near, End::Far].map(|player| said(changes((&second, player), (&first, player))));
        let players = said(changes((&first, End::Near), (&first, End::Far)));
        let shots = (shown.len(), audited.shots.len());
        let part = Audited::of(&chart.setup, audited, shown.into_iter().cloned().collect());
        (part, Compared { shots, rest, players })
    }
}

fn said(found: Vec<standpoint_charting::insight::Change>) -> Vec<String> {
    found.iter().map(change).collect()
}

#[cfg(test)]
mod tests {
    use standpoint_board::chart::Setup;
    use standpoint_charting::{
        audit::{CollectedShots, Compare, Crew, Watch},
        invented::{self, Habit},
    };
    use standpoint_geometry::Wing;

    use super::*;

    #[test]
    fn what_is_shown_is_what_was_asked_for_and_all_of_it_comes_back() {
        let setup = Setup::default();
        let chart = invented::chart(&setup, 4, 20, [Habit::EXPERT, Habit::MIDDLE]);
        let crew = Crew::new(&setup, Compare::default(), 2).unwrap();
        let mut kept = CollectedShots::default();
        let stop = std::sync::atomic::AtomicBool::new(false);
        crew.audit_chart_so_far(&chart, &mut kept, &mut Watch { progress: &mut |_| (), stop: &stop }).unwrap();
        let whole = Audited::made(&setup, 3, Compare::default(), kept.shots, true);
        let mut filters = Filters::default();
        let (all, compared) = filters.part(&whole, &chart);
        assert_eq!((&all.shots, compared.shots.0), (&whole.shots, whole.shots.len()));
        assert_eq!(all.report.players[0].all, whole.report.players[0].all);
        filters.shots.wing = Some(Wing::Backhand);
        let (part, compared) = filters.part(&whole, &chart);
        assert!(part.shots.iter().all(|shot| shot.wing == Wing::Backhand));
        assert!(!part.shots.is_empty() && part.shots.len() < whole.shots.len());
        assert_eq!((compared.shots, part.version), ((part.shots.len(), whole.shots.len()), 3));
        // The far player goes to the middle, the near one to the model's place: the comparison shows both.
        assert!(filters.part(&whole, &chart).1.players.len() <= 8);
        filters.from = "2026-05-03".to_owned();
        filters.read_dates();
        assert!(filters.part(&whole, &chart).0.shots.is_empty(), "no session has a date");
    }
}
