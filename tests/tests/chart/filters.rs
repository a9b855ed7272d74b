//! Parts of a chart: by server, serve, score, length, session and date.

use std::collections::BTreeSet;

use glam::DVec2;
use standpoint_board::chart::{
    Chart, Date, ObservedShot, Point,
    score::{MatchFormat, ServeNumber, Tally, log},
};
use standpoint_charting::{
    filter::{AtStake, Lead, PointFilter, shots},
    insight::ShotGroup,
    invented::{self, Habit},
};
use standpoint_geometry::{End, Level, Stroke, Wing};

use crate::{audited, larkfield};

/// A match in which the server's ace or double fault is written for each point: `a` or `d`.
fn played(points: &str) -> Chart {
    let mut chart = Chart::new(larkfield(Level::Club));
    let mut tally = Tally::new(MatchFormat::default(), End::Near);
    for (i, point) in points.chars().enumerate() {
        let (ends, server) = (tally.ends().unwrap(), tally.server());
        let hitter = ends.began(server);
        let side = if tally.side() == Some(standpoint_board::chart::score::CourtSide::Deuce) { 0.6 } else { -0.6 };
        let serve = |landing_y: f64| ObservedShot {
            hitter,
            contact: hitter.turn2(DVec2::new(side, -11.9)),
            landing: Some(hitter.turn2(DVec2::new(-4.0 * side, landing_y))),
            stroke: Some(Stroke::Serve),
            ..ObservedShot::default()
        };
        let shots = match point {
            'a' => vec![serve(5.0)],
            's' => vec![serve(8.0), serve(5.0)],
            _ => vec![serve(8.0), serve(8.0)],
        };
        tally.point(if point == 'd' { server.other() } else { server }).unwrap();
        let session = if i < 12 { "Saturday" } else { "Sunday" };
        chart.points.push(Point { ends, shots, session: session.to_owned(), ..Point::default() });
    }
    chart
}

fn found(chart: &Chart, filter: &PointFilter) -> Vec<usize> {
    filter.points(chart, &log::log(chart)).into_iter().collect()
}

#[test]
fn points_are_found_by_server_serve_score_and_session() {
    // Near holds to love; far serves: 0-15, 15-15, 15-30, 15-40, game.
    let mut chart = played("aaaadsddd");
    chart.setup.session_mut("Saturday").date = Date::new(2026, 5, 2);
    let any = PointFilter::default();
    assert_eq!(found(&chart, &any).len(), 9);
    let by = |filter: PointFilter| found(&chart, &filter);
    assert_eq!(by(PointFilter { server: Some(End::Far), ..any.clone() }), [4, 5, 6, 7, 8]);
    assert_eq!(by(PointFilter { serve: Some(ServeNumber::Second), ..any.clone() }), [4, 5, 6, 7, 8]);
    // The point at 15-40 only; 40-0 was a game point too.
    assert_eq!(by(PointFilter { at_stake: Some(AtStake::BreakPoint), ..any.clone() }), [8]);
    assert_eq!(by(PointFilter { at_stake: Some(AtStake::GamePoint), ..any.clone() }), [3, 8]);
    assert_eq!(by(PointFilter { at_stake: Some(AtStake::SetPoint), ..any.clone() }), [] as [usize; 0]);
    assert_eq!(by(PointFilter { lead: Some(Lead::Behind), ..any.clone() }), [5, 7, 8]);
    assert_eq!(by(PointFilter { lead: Some(Lead::Level), ..any.clone() }), [0, 4, 6]);
    // Faults do not count as strokes of the point: four aces and the second serve that was in.
    assert_eq!(by(PointFilter { strokes: Some(1..=1), ..any.clone() }), [0, 1, 2, 3, 5]);
    let may = Date::new(2026, 5, 1).unwrap()..=Date::new(2026, 5, 31).unwrap();
    assert_eq!(by(PointFilter { dates: Some(may.clone()), ..any.clone() }).len(), 9);
    let sunday = BTreeSet::from(["Sunday".to_owned()]);
    assert!(by(PointFilter { sessions: Some(sunday), ..any.clone() }).is_empty());
    // A session without a date belongs to no period.
    let undated = played("aaaadsddd");
    assert!(found(&undated, &PointFilter { dates: Some(may), ..any }).is_empty());
}

#[test]
fn shots_are_found_by_player_point_and_kind() {
    let chart = invented::chart(&larkfield(Level::Club), 4, 6, [Habit::EXPERT; 2]);
    let all = audited(&chart).1.shots;
    let two = BTreeSet::from([1, 3]);
    let forehands = ShotGroup { wing: Some(Wing::Forehand), ..ShotGroup::default() };
    let found: Vec<_> = shots(&all, End::Far, &two, forehands).collect();
    assert!(!found.is_empty());
    let expected = all.iter().filter(|shot| {
        shot.began == End::Far && shot.wing == Wing::Forehand && [2, 4].contains(&shot.origin.point_number)
    });
    assert_eq!(found, expected.collect::<Vec<_>>());
}
