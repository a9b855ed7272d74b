//! The score inferred from shots and points.

use glam::DVec2;
use standpoint_geometry::{
    End::{self, Far, Near},
    Stroke,
};

use standpoint_board::chart::{Chart, Ends, ObservedShot, Point, Setup, score::*};

const OWN: f64 = -12.0;

/// A shot from an end, with places in the frame of a near hitter.
fn shot(hitter: End, contact: (f64, f64), landing: (f64, f64)) -> ObservedShot {
    let own = |(x, y): (f64, f64)| hitter.turn2(DVec2::new(x, y));
    ObservedShot { hitter, contact: own(contact), landing: Some(own(landing)), ..ObservedShot::default() }
}

fn serve(hitter: End, side: CourtSide, landing_y: f64) -> ObservedShot {
    let x = if side == CourtSide::Deuce { 0.6 } else { -0.6 };
    ObservedShot { stroke: Some(Stroke::Serve), ..shot(hitter, (x, -11.9), (-4.0 * x, landing_y)) }
}

fn met(shot: ObservedShot) -> ObservedShot {
    ObservedShot { met: Some(shot.hitter.turn2(DVec2::new(2.0, 12.0))), ..shot }
}

fn court() -> standpoint_geometry::Court {
    Setup::default().board(Vec::new()).conditions().court
}

fn point(shots: Vec<ObservedShot>) -> Point {
    Point { shots, ..Point::default() }
}

#[test]
fn server_side_serve_and_ending_are_read_off_the_shots() {
    use CourtSide::{Ad, Deuce};
    let ace = facts(&point(vec![serve(Far, Ad, 5.0)]), &court());
    assert_eq!((ace.server, ace.side, ace.serve), (Some(Far), Some(Ad), Some(ServeNumber::First)));
    assert_eq!((ace.winner, ace.ending), (Some(Far), Some(Ending::Ace)));
    let double = facts(&point(vec![serve(Near, Deuce, 7.5), serve(Near, Deuce, -0.3)]), &court());
    assert_eq!((double.winner, double.ending, double.miss), (Some(Far), Some(Ending::DoubleFault), Some(Miss::Net)));
    assert_eq!((double.serve, double.strokes), (Some(ServeNumber::Second), 0));
    // A serve that is in, then served again: a let, which does not cancel the fault before it (Rule 22).
    let shots = vec![serve(Near, Deuce, 7.5), serve(Near, Deuce, 5.0), met(serve(Near, Deuce, 5.5))];
    let let_ = facts(&point(shots.clone()), &court());
    assert_eq!((let_.serve, let_.winner, let_.strokes), (Some(ServeNumber::Second), None, 1));
    // A return that is long loses the point.
    let long = [shots, vec![shot(Far, (2.0, OWN), (1.0, 12.6))]].concat();
    let long = facts(&point(long), &court());
    assert_eq!((long.winner, long.ending, long.miss), (Some(Near), None, Some(Miss::Long)));
    let winner = facts(&point(vec![met(serve(Near, Deuce, 5.0)), shot(Far, (2.0, OWN), (3.0, 9.0))]), &court());
    assert_eq!((winner.winner, winner.ending), (Some(Far), Some(Ending::Winner)));
}

#[test]
fn what_was_told_counts_and_a_contradiction_is_said() {
    let shots = vec![met(serve(Near, CourtSide::Deuce, 5.0)), met(shot(Far, (2.0, OWN), (3.0, 9.0)))];
    let unknown = facts(&point(shots.clone()), &court());
    assert_eq!((unknown.winner, unknown.ending), (None, None));
    // The near player touched the ball and missed: a forced error of theirs, and the winner need not be noted.
    let forced = Point { ending: Some(Ending::ForcedError), ..point(shots.clone()) };
    assert_eq!(facts(&forced, &court()).winner, Some(Far));
    let told = Point { winner: Some(Near), ..forced };
    let told = facts(&told, &court());
    assert_eq!((told.winner, told.contradicted), (Some(Near), true));
    // A second serve alone; the fault was not noted.
    let second = vec![ObservedShot { serve: Some(ServeNumber::Second), ..serve(Near, CourtSide::Ad, 8.0) }];
    assert_eq!(facts(&point(second), &court()).ending, Some(Ending::DoubleFault));
    // A serve noted in but called out by the line judge.
    let call = ObservedShot { call: Some(ServeCall::Fault), ..serve(Near, CourtSide::Ad, 5.0) };
    let call = facts(&point(vec![call, met(serve(Near, CourtSide::Ad, 5.0))]), &court());
    assert_eq!(call.serve, Some(ServeNumber::Second));
}

/// A match of aces by the servers, noted at the ends where the players are.
fn aces(games: usize) -> Chart {
    let mut chart = Chart::new(Setup::default());
    let mut tally = Tally::new(MatchFormat::default(), Near);
    for _ in 0..games * 4 {
        let Some(standing) = tally.standing() else { break };
        let ends = standing.ends.unwrap();
        let shots = vec![serve(ends.began(standing.server), standing.side.unwrap(), 5.0)];
        chart.points.push(Point { ends, shots, ..Point::default() });
        tally.point(standing.server).unwrap();
    }
    chart
}

#[test]
fn a_whole_set_is_scored_from_its_serves_alone() {
    let log = log::log(&aces(12));
    assert_eq!(log.troubles, []);
    let session = &log.sessions[0];
    assert_eq!(notation::write(session.tally.as_ref().unwrap()), "6-6 0-0");
    assert_eq!(session.points[9].score, "1-1 15-0");
    assert_eq!(session.points[9].before.as_ref().unwrap().server, Near);
}

#[test]
fn ends_that_nobody_noted_are_inferred_from_the_server() {
    let mut chart = aces(12);
    let noted: Vec<Ends> = chart.points.iter().map(|point| point.ends).collect();
    chart.points.iter_mut().for_each(|point| point.ends = Ends::AsBegun);
    assert!(log::log(&chart).troubles.iter().all(|trouble| trouble.kind == TroubleKind::EndsNotInTurn));
    let wrong = noted.iter().filter(|ends| **ends != Ends::AsBegun).count();
    assert_eq!(log::mend_ends(&mut chart), wrong);
    assert_eq!(chart.points.iter().map(|point| point.ends).collect::<Vec<_>>(), noted);
    assert_eq!(log::log(&chart).troubles, []);
}

#[test]
fn a_point_without_a_winner_stops_the_score_until_somebody_tells_it() {
    let mut chart = aces(3);
    chart.points[5].shots[0] = met(chart.points[5].shots[0]);
    let stopped = log::log(&chart);
    assert_eq!(stopped.troubles.len(), 1, "{:?}", stopped.troubles);
    assert_eq!((stopped.troubles[0].index, &stopped.troubles[0].kind), (5, &TroubleKind::WinnerUnknown));
    assert!(stopped.troubles[0].to_string().starts_with("Point 6: it is not known who won the point. Say who"));
    assert_eq!(stopped.sessions[0].tally, None);
    chart.points[6].score = "1-0 0-30".to_owned();
    let going_on = log::log(&chart);
    assert_eq!(going_on.troubles.len(), 1);
    assert_eq!(notation::write(going_on.sessions[0].tally.as_ref().unwrap()), "2-1 0-0");
}

#[test]
fn a_missing_point_and_one_after_the_end_are_pointed_out() {
    let mut chart = aces(3);
    chart.points.remove(2);
    let kinds: Vec<_> = log::log(&chart).troubles.into_iter().map(|trouble| (trouble.index, trouble.kind)).collect();
    assert_eq!(kinds[0], (2, TroubleKind::SideNotInTurn));
    let mut over = Chart::new(Setup::default());
    let format = MatchFormat { sets: SetsToWin::One, ..MatchFormat::default() };
    over.setup.session_mut("").format = Some(format);
    let mut tally = Tally::new(format, Near);
    for _ in 0..25 {
        let ends = tally.ends().unwrap();
        let (server, winner) = (Some(ends.began(tally.server())), Some(ends.began(Near)));
        over.points.push(Point { ends, server, winner, ..Point::default() });
        let _ = tally.point(Near);
    }
    let troubles = log::log(&over).troubles;
    assert!(troubles.iter().any(|trouble| trouble.index == 24 && trouble.kind == ScoreError::MatchOver.into()));
}

#[test]
fn practice_has_no_score_and_no_trouble() {
    let mut chart = Chart::new(Setup::default());
    chart.points.push(point(vec![met(shot(Near, (2.0, OWN), (1.0, 9.0)))]));
    assert_eq!(log::log(&chart), Log::default());
}
