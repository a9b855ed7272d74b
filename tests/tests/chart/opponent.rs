//! Habits of an opponent in a chart move the spot on the board, to the extent that they were seen.

use glam::dvec2;
use standpoint_board::{
    Board, KnownHabits,
    chart::{Chart, ObservedShot, Point, SessionInfo},
};
use standpoint_charting::{
    audit::{Direction, FromSide},
    scouting,
};
use standpoint_geometry::{Court, End, HabitCase, Hand, Level, Play, ReplyHabits, Stroke, Third, Way, Wing, solve};

use crate::larkfield;

/// How often the far player was seen in each case.
const SEEN: u32 = 12;

/// A chart in which the far player sends every ball of a rally one way: from all thirds, with both wings, at ease and
/// hurried.
fn planted(way: Way) -> Chart {
    let setup = larkfield(Level::Club);
    let court = Court::default();
    let hand = setup.far.hand;
    let mut chart = Chart::new(setup);
    for wing in [Wing::Forehand, Wing::Backhand] {
        for x in [-3.0, 0.2, 3.0] {
            for run in [0.5, 5.0] {
                let own = dvec2(x, -12.0);
                let lands = [-3.0, 0.0, 3.0].map(|x| dvec2(x, 9.0)).into_iter();
                let landing =
                    lands.into_iter().find(|to| Way::of(&court, hand, wing, Stroke::Topspin, own, *to) == way);
                let ball = ObservedShot {
                    hitter: End::Near,
                    contact: dvec2(0.0, -12.0),
                    landing: Some(dvec2(0.0, 9.0)),
                    met: Some(-own),
                    opponent_place: Some(-own + dvec2(0.0, run)),
                    ..ObservedShot::default()
                };
                let reply = ObservedShot {
                    hitter: End::Far,
                    contact: -own,
                    landing: landing.map(|to| -to),
                    hitter_place: Some(-own),
                    stroke: Some(Stroke::Topspin),
                    wing: Some(wing),
                    ..ObservedShot::default()
                };
                let session = "Saturday".to_owned();
                for _ in 0..SEEN {
                    let shots = vec![ball, reply];
                    chart.points.push(Point { session: session.clone(), shots, ..Point::default() });
                }
            }
        }
    }
    let day = SessionInfo { name: "Saturday".to_owned(), date: "2026-05-09".parse().ok(), ..SessionInfo::default() };
    chart.setup.sessions.push(day);
    chart
}

fn of_chart(way: Way) -> KnownHabits {
    scouting::known(&planted(way), End::Far).unwrap()
}

/// The answer of the demo against an opponent with these known habits.
fn play(known: Option<KnownHabits>) -> Play {
    let mut board = Board::demo();
    board.far.habits = known.map(Box::new);
    solve(&board.situation(0, 0).unwrap()).unwrap().play().unwrap().clone()
}

#[test]
fn every_case_of_a_chart_is_counted_with_its_day() {
    let known = of_chart(Way::Line);
    assert_eq!((known.matches, known.last, known.used), (1, "2026-05-09".parse().ok(), true));
    for wing in [Wing::Forehand, Wing::Backhand] {
        for third in Third::ALL {
            for hurried in [false, true] {
                let counts = known.counts.counts(HabitCase::Rally(wing, third, hurried));
                assert_eq!(counts, [0, 0, SEEN], "{wing:?} {third:?} {hurried}");
            }
        }
    }
    assert_eq!(known.counts.shots(), u64::from(12 * SEEN));
    let [of] = &scouting::matches(&planted(Way::Line), End::Far)[..] else { panic!("one match") };
    assert!(of.title.ends_with(", Saturday") && of.counts == known.counts, "{}", of.title);
}

#[test]
fn a_planted_habit_moves_the_spot_to_the_side_it_goes_to() {
    let plain = play(None);
    let from = plain.receipt.contact.x;
    assert!(from.abs() > 1.0, "the demo's ball is met at a side");
    for (way, side) in [(Way::Across, -from.signum()), (Way::Line, from.signum())] {
        let with = play(Some(of_chart(way)));
        let used = with.habit.unwrap();
        assert!(used.without.place.distance(plain.spot.place) < 1e-5, "the spot without them is told");
        let by = (with.spot.place.x - plain.spot.place.x) * side;
        assert!(by > 0.05, "{way:?}: {by}");
        assert_eq!(used.counts[way as usize], SEEN);
        assert!(used.shares[way as usize] > used.expected[way as usize] + 0.1, "{used:?}");
    }
}

#[test]
fn the_mirror_image_is_moved_by_as_much_to_the_other_side() {
    let mut board = Board::demo();
    board.far.habits = Some(Box::new(of_chart(Way::Line)));
    let one = solve(&board.situation(0, 0).unwrap()).unwrap().play().unwrap().clone();
    board.mirror();
    let other = solve(&board.situation(0, 0).unwrap()).unwrap().play().unwrap().clone();
    assert!((one.spot.place.x + other.spot.place.x).abs() < 1e-6, "{} {}", one.spot.place, other.spot.place);
    assert!((one.spot.place.y - other.spot.place.y).abs() < 1e-6);
    board.mirror();
    assert_eq!(board.far.habits.as_deref(), Some(&of_chart(Way::Line)));
}

#[test]
fn without_habits_or_switched_off_the_answer_is_the_same_to_the_last_bit() {
    let plain = play(None);
    let off = play(Some(KnownHabits { used: false, ..of_chart(Way::Across) }));
    assert_eq!(format!("{plain:?}"), format!("{off:?}"));
    assert!(off.habit.is_none());
    let nothing = play(Some(KnownHabits { counts: ReplyHabits::default(), ..of_chart(Way::Across) }));
    assert_eq!(nothing.spot.place, plain.spot.place, "nothing was seen");
}

#[test]
fn the_report_and_the_model_part_ways_and_thirds_alike() {
    let court = Court::default();
    let at = |i: i32, step: f64| f64::from(i) * step;
    for hand in [Hand::Right, Hand::Left] {
        for (wing, stroke) in
            [(Wing::Forehand, Stroke::Topspin), (Wing::Backhand, Stroke::Slice), (Wing::Forehand, Stroke::Serve)]
        {
            for contact in (-50..=50).map(|i| dvec2(at(i, 0.09), -11.9)) {
                let third = match Third::of(&court, contact.x) {
                    Third::Left => FromSide::Left,
                    Third::Middle => FromSide::Middle,
                    Third::Right => FromSide::Right,
                };
                assert_eq!(FromSide::of(&court, contact), third);
                for landing in (-45..=45).map(|i| dvec2(at(i, 0.09), 9.0)) {
                    let way = Way::of(&court, hand, wing, stroke, contact, landing);
                    let direction = Direction::of(&court, hand, wing, stroke, contact, landing);
                    let fits = match direction {
                        Direction::CrossCourt | Direction::ServeWide => way == Way::Across,
                        Direction::Middle | Direction::ServeBody => way == Way::Middle,
                        Direction::DownTheLine | Direction::InsideIn | Direction::ServeMiddle => way == Way::Line,
                        // A forehand from the centre that does not turn across the body counts as inside-out too.
                        Direction::InsideOut => way != Way::Middle,
                    };
                    assert!(fits, "{hand:?} {wing:?} {contact} {landing}: {direction:?} {way:?}");
                }
            }
        }
    }
}
