//! Charts as files: every part survives the round trip, and every fault is reported with its line.

use glam::DVec2;
use proptest::{collection::vec, option, prelude::*, sample::select};
use standpoint_board::{
    ProblemKind,
    chart::{
        Chart, Date, Ends, ObservedShot, Point, SessionInfo, Setup, Who, file,
        score::{
            CourtSide, Ending, GameRule, LastSet, MatchFormat, Miss, ServeCall, ServeNumber, SetRule, SetsToWin,
            TieBreakEnds,
        },
    },
    store::LoadError,
};
use standpoint_geometry::{
    End, Hand, Level, Stroke, Wing,
    units::{KMH, RPM},
};

use crate::larkfield;

fn place(end: End) -> impl Strategy<Value = DVec2> {
    (-7.0..7.0, -16.0..=0.0).prop_map(move |(x, y)| end.turn2(DVec2::new(x, y)))
}

fn who() -> impl Strategy<Value = Who> {
    (option::of(select(Level::ALL.to_vec())), option::of(select(vec![Hand::Right, Hand::Left])))
        .prop_map(|(level, hand)| Who { level, hand })
}

fn shot() -> impl Strategy<Value = ObservedShot> {
    select(vec![End::Near, End::Far]).prop_flat_map(|hitter| {
        let (own, other) = (move || place(hitter), move || place(hitter.other()));
        let places = (own(), option::of(own()), option::of(own()), option::of(other()), option::of(other()), other());
        let stroke = (option::of(select(Stroke::ALL.to_vec())), option::of(0.1..3.0));
        let wing = option::of(select(vec![Wing::Forehand, Wing::Backhand]));
        let numbers = (option::of(11.0..270.0), option::of(-6600.0..6600.0), option::of(0.0..9000.0), 0.1..3.0);
        let serve = option::of(select(vec![ServeNumber::First, ServeNumber::Second]));
        let call = option::of(select(vec![ServeCall::In, ServeCall::Fault, ServeCall::Let]));
        (places, stroke, wing, numbers, who(), who(), (serve, call)).prop_map(move |seen| {
            let (places, stroke, wing, numbers, by, against, (serve, call)) = seen;
            let (contact, stood, hitter_place, met, opponent_place, landing) = places;
            ObservedShot {
                hitter,
                contact,
                contact_height: stroke.1,
                landing: Some(landing),
                met,
                stood,
                hitter_place,
                opponent_place,
                stroke: stroke.0,
                wing,
                speed: numbers.0.map(|speed| speed * KMH),
                topspin: numbers.1.map(|spin| spin * RPM),
                time: numbers.2,
                met_time: numbers.2.map(|time| time + numbers.3),
                struck_by: by,
                against,
                serve,
                call,
            }
        })
    })
}

/// The noted facts of a point, without its shots.
fn told() -> impl Strategy<Value = Point> {
    let end = || option::of(select(vec![End::Near, End::Far]));
    let (side, ending) = (option::of(select(CourtSide::ALL.to_vec())), option::of(select(Ending::ALL.to_vec())));
    let miss = option::of(select(Miss::ALL.to_vec()));
    let score = select(vec!["", "6-4 2-3 40-A", "7-6(5) 0-0 15-0"]);
    (end(), side, end(), ending, miss, score, option::of(-900.0..9000.0)).prop_map(
        |(server, side, winner, ending, miss, score, video_offset)| {
            let score = score.to_owned();
            Point { server, side, winner, ending, miss, score, video_offset, ..Point::default() }
        },
    )
}

fn format() -> impl Strategy<Value = MatchFormat> {
    let sets = select(SetsToWin::ALL.to_vec());
    let (game, set) = (select(GameRule::ALL.to_vec()), select(SetRule::ALL.to_vec()));
    let (last_set, ends) = (select(LastSet::ALL.to_vec()), select(TieBreakEnds::ALL.to_vec()));
    (sets, game, set, last_set, ends).prop_map(|(sets, game, set, last_set, tie_break_ends)| MatchFormat {
        sets,
        game,
        set,
        last_set,
        tie_break_ends,
    })
}

fn sessions() -> impl Strategy<Value = Vec<SessionInfo>> {
    let one =
        (option::of(1u8..=28), option::of(format()), option::of(select(vec![End::Near, End::Far])), any::<bool>());
    option::of(one).prop_map(|session| {
        let told = session.map(|(day, format, first_server, video)| SessionInfo {
            name: "Sunday".to_owned(),
            date: day.and_then(|day| Date::new(2026, 5, day)),
            format,
            first_server,
            video: if video { "court \"3\".mp4" } else { "" }.to_owned(),
            times_by_hand: video,
        });
        told.into_iter().collect()
    })
}

/// A valid chart; labels differ from point to point.
pub fn chart() -> impl Strategy<Value = Chart> {
    let ends = select(vec![Ends::AsBegun, Ends::Changed]);
    let point = (select(vec!["", "Sunday", "Monday, \"late\""]), ends, vec(shot(), 1..4), told());
    (vec(point, 0..5), sessions()).prop_map(|(points, sessions)| {
        let points = points.into_iter().enumerate().map(|(i, (session, ends, shots, told))| Point {
            session: session.to_owned(),
            label: format!("{i}"),
            ends,
            shots,
            ..told
        });
        let setup = Setup { sessions, ..larkfield(Level::Club) };
        Chart { setup, points: points.collect() }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn a_chart_comes_back_from_its_file(mut chart in chart()) {
        let text = file::to_text(&chart).unwrap();
        let read = file::from_text(&text).unwrap();
        chart.tidy();
        prop_assert_eq!(&read, &chart);
        prop_assert_eq!(file::to_text(&read).unwrap(), text);
    }
}

#[test]
fn a_chart_survives_the_disk_and_each_shot_is_one_line() {
    let chart = standpoint_charting::invented::chart(
        &larkfield(Level::Club),
        1,
        3,
        [standpoint_charting::invented::Habit::EXPERT; 2],
    );
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("sunday.chart");
    file::save(&path, &chart).unwrap();
    let mut tidy = chart.clone();
    tidy.tidy();
    assert_eq!(file::load(&path).unwrap(), tidy);
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.starts_with("(\n  standpoint_chart: 2,\n"), "{text}");
    assert_eq!(text.matches("(hitter: ").count(), chart.shots());
    assert!(text.lines().filter(|line| line.contains("(hitter: ")).count() == chart.shots(), "{text}");
}

#[test]
fn everything_wrong_with_a_chart_is_told_with_its_line_and_a_remedy() {
    let chart = standpoint_charting::invented::chart(
        &larkfield(Level::Club),
        1,
        1,
        [standpoint_charting::invented::Habit::EXPERT; 2],
    );
    let text = file::to_text(&chart).unwrap();
    let shot = text.lines().position(|line| line.contains("(hitter: Near")).unwrap() + 1;
    let broken = text
        .replacen("stroke: Topspin", "stroke: Topsin", 1)
        .replacen("ends: AsBegun", "ends: Swapped", 1)
        .replacen("hitter: Near, contact: (x: ", "hitter: Near, contact: (x: 99", 1);
    let report = file::from_text(&broken).unwrap_err();
    let said = report.to_string();
    assert_eq!(report.problems.len(), 3, "{said}");
    assert!(said.contains("`Swapped` is not one of the names allowed here. Write one of `AsBegun` or `Changed`."));
    assert!(said.contains(&format!("line {shot}, ")) && said.contains("point 1, shot 1, contact.x"), "{said}");
    assert!(said.contains("Did you mean `Topspin`?"), "{said}");
}

#[test]
fn other_files_are_told_apart() {
    let refused = |text: &str| file::from_text(text).unwrap_err().problems[0].kind.clone();
    assert_eq!(refused("(standpoint_board: 1)"), ProblemKind::NotAChart);
    assert!(matches!(refused("(standpoint_chart: 9, new: true)"), ProblemKind::NewerVersion { found: 9, known: 2 }));
    assert_eq!(refused(""), ProblemKind::Empty);
    let dir = tempfile::tempdir().unwrap();
    assert!(matches!(file::load(&dir.path().join("none.chart")), Err(LoadError::NotThere(_))));
}

#[test]
fn a_chart_that_is_wrong_is_not_written() {
    let mut chart = Chart::new(larkfield(Level::Club));
    let shot = ObservedShot { contact: DVec2::new(0.0, -12.0), ..ObservedShot::default() };
    chart.points.push(Point { shots: vec![shot], ..Point::default() });
    let report = file::to_text(&chart).unwrap_err();
    assert_eq!(report.problems[0].kind, ProblemKind::NowhereToGo);
    chart.points[0].shots[0].landing = Some(DVec2::new(0.0, 9.0));
    chart.points[0].shots[0].stood = Some(DVec2::new(0.0, 3.0));
    assert!(matches!(file::to_text(&chart).unwrap_err().problems[0].kind, ProblemKind::WrongEnd { .. }));
    chart.points[0].shots[0].stood = None;
    (chart.points[0].shots[0].time, chart.points[0].shots[0].met_time) = (Some(3.0), Some(2.0));
    assert!(matches!(file::to_text(&chart).unwrap_err().problems[0].kind, ProblemKind::MetTooEarly { .. }));
}
