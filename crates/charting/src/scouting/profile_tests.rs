use glam::DVec2;
use standpoint_board::chart::model::{ObservedShot, Setup};

use super::*;
use crate::audit::{CollectedShots, Compare, Crew, Watch};

/// A point served by the near player: to the T from the deuce side and wide from the ad side; the return is short.
fn served(i: usize) -> Point {
    let right = if i.is_multiple_of(2) { 1.0 } else { -1.0 };
    let landing = if right > 0.0 { DVec2::new(-0.5, 5.6) } else { DVec2::new(3.6, 5.0) };
    let serve = ObservedShot {
        hitter: End::Near,
        contact: DVec2::new(0.7 * right, -11.8),
        landing: Some(landing),
        met: Some(DVec2::new(1.4 * landing.x, 12.4)),
        stroke: Some(Stroke::Serve),
        ..ObservedShot::default()
    };
    let ret = ObservedShot {
        hitter: End::Far,
        contact: DVec2::new(1.4 * landing.x, 12.4),
        landing: Some(DVec2::new(0.5, -6.8)),
        met: Some(DVec2::new(0.6, -10.0)),
        ..ObservedShot::default()
    };
    let third = ObservedShot {
        hitter: End::Near,
        contact: DVec2::new(0.6, -10.0),
        landing: Some(DVec2::new(3.2, 10.0)),
        wing: Some(if i.is_multiple_of(2) { Wing::Forehand } else { Wing::Backhand }),
        ..ObservedShot::default()
    };
    // Every third backhand misses; forehands never do.
    let missed = i % 6 == 1;
    let third = if missed { ObservedShot { landing: Some(DVec2::new(3.2, 12.9)), ..third } } else { third };
    Point { label: i.to_string(), shots: vec![serve, ret, third], ..Point::default() }
}

fn audited(points: usize) -> (Chart, Vec<AuditedShot>) {
    let chart = Chart { setup: Setup::default(), points: (0..points).map(served).collect() };
    let crew = Crew::new(&chart.setup, Compare::default(), 2).unwrap();
    let mut kept = CollectedShots::default();
    let stop = std::sync::atomic::AtomicBool::new(false);
    crew.audit_chart_so_far(&chart, &mut kept, &mut Watch { progress: &mut |_| (), stop: &stop }).unwrap();
    (chart, kept.shots)
}

#[test]
fn planted_serves_returns_and_misses_are_counted() {
    let (chart, shots) = audited(120);
    let near = profile(&chart, &shots, End::Near);
    let share = |side, way| near.serve_share(side, ServeNumber::First, way).unwrap();
    assert!(share(CourtSide::Deuce, Way::Line) > 0.8 && share(CourtSide::Ad, Way::Across) > 0.8);
    let first = near.serves.iter().find(|of| of.side == CourtSide::Deuce && of.number == ServeNumber::First).unwrap();
    assert_eq!((first.made, first.won), (Count { part: 60, whole: 60 }, Count { part: 60, whole: 60 }));
    // The ad points: a third of them was lost by a long backhand.
    assert_eq!(near.won_on(ServeNumber::First), Count { part: 100, whole: 120 });
    assert_eq!(near.weaker, Some(Wing::Backhand));
    let far = profile(&chart, &shots, End::Far);
    let returns = far.returns[0];
    assert_eq!((returns.made, returns.deep), (Count { part: 120, whole: 120 }, Count { part: 0, whole: 120 }));
    assert_eq!((returns.won, far.weaker), (Count { part: 20, whole: 120 }, None));
    let play = super::super::play(&near);
    assert!(
        play.iter().any(|said| said.starts_with("To the backhand: it misses 33 in 100, the forehand 0")),
        "{play:?}"
    );
    let stand = super::super::stand(&near);
    assert!(stand.iter().any(|said| said.contains("deuce side: wait for it at the T")), "{stand:?}");
    assert!(super::super::play(&far).iter().any(|said| said.contains("100 returns in 100 land short")));
}

#[test]
fn nothing_is_said_from_a_few_points() {
    let (chart, shots) = audited(8);
    let near = profile(&chart, &shots, End::Near);
    assert_eq!((near.weaker, near.tells.len()), (None, 0));
    assert!(super::super::play(&near).is_empty() && super::super::stand(&near).is_empty());
}
