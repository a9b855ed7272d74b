//! Charts of every version stay loadable. Files in `tests/charts` are added, never changed.

use std::{fs, path::PathBuf};

use standpoint_board::chart::{
    Chart, Date, Ends, Setup, file,
    score::{CourtSide, Ending, LastSet, MatchFormat, Miss, ServeCall, ServeNumber},
};
use standpoint_geometry::{
    End, Hand, Level, Stroke, Wing,
    units::{KMH, RPM},
};

fn text(version: u32, name: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("charts/v{version}/{name}"));
    fs::read_to_string(path).unwrap()
}

fn load(version: u32, name: &str) -> Chart {
    file::from_text(&text(version, name)).unwrap_or_else(|report| panic!("{name}:\n{report}"))
}

#[test]
fn every_chart_of_every_version_loads_and_is_saved_as_the_current_one() {
    for version in 1..=file::VERSION {
        let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("charts/v{version}"));
        let paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        assert!(paths.len() >= 2);
        for path in paths {
            let text = fs::read_to_string(&path).unwrap();
            assert!(text.contains(&format!("standpoint_chart: {version},")), "{}", path.display());
            let chart = file::from_text(&text).unwrap_or_else(|report| panic!("{}:\n{report}", path.display()));
            let saved = file::to_text(&chart).unwrap();
            assert!(saved.starts_with(&format!("(\n  standpoint_chart: {},\n", file::VERSION)));
            assert_eq!(file::from_text(&saved).unwrap(), chart, "{}", path.display());
        }
    }
}

#[test]
fn a_chart_of_version_1_says_what_it_said() {
    let chart = load(1, "every_part.chart");
    assert_eq!((chart.points.len(), chart.points[0].ends, chart.setup.sessions.len()), (1, Ends::Changed, 0));
    let shot = &chart.points[0].shots[0];
    assert_eq!((shot.stroke, shot.wing), (Some(Stroke::Topspin), Some(Wing::Forehand)));
    assert!((shot.speed.unwrap() - 96.5 * KMH).abs() < 1e-9 && (shot.topspin.unwrap() - 1800.0 * RPM).abs() < 1e-9);
    assert_eq!((shot.struck_by.level, shot.struck_by.hand), (Some(Level::JuniorGirl), Some(Hand::Left)));
    assert_eq!((shot.serve, shot.call, chart.points[0].winner), (None, None, None));
    // Only the version number is written differently.
    let saved = file::to_text(&chart).unwrap();
    assert_eq!(saved, text(1, "every_part.chart").replacen("standpoint_chart: 1", "standpoint_chart: 2", 1));
    let by_hand = load(1, "by_hand.chart");
    assert_eq!((by_hand.points.len(), by_hand.shots()), (2, 2));
}

#[test]
fn a_chart_of_version_2_says_what_it_said() {
    let chart = load(2, "every_part.chart");
    let session = chart.setup.session("Cup, second round").unwrap();
    assert_eq!((session.date, session.first_server), (Date::new(2026, 5, 3), Some(End::Far)));
    assert_eq!(session.format, Some(MatchFormat { last_set: LastSet::MatchTieBreak10, ..MatchFormat::default() }));
    assert_eq!(session.video, "court 3.mp4");
    let point = &chart.points[0];
    assert_eq!((point.server, point.side, point.winner), (Some(End::Far), Some(CourtSide::Ad), Some(End::Near)));
    assert_eq!(
        (point.ending, point.miss, point.score.as_str()),
        (Some(Ending::UnforcedError), Some(Miss::Long), "0-0 15-0")
    );
    assert!((point.video_offset.unwrap() + 3.5).abs() < 1e-12);
    let calls: Vec<_> = point.shots.iter().map(|shot| (shot.serve, shot.call)).collect();
    let second = Some(ServeNumber::Second);
    assert_eq!(
        calls,
        [
            (Some(ServeNumber::First), Some(ServeCall::Fault)),
            (second, Some(ServeCall::Let)),
            (second, None),
            (None, None)
        ]
    );
    assert_eq!(file::to_text(&chart).unwrap(), text(2, "every_part.chart"), "not a byte differs");
}

#[test]
fn what_version_2_added_does_not_belong_into_a_chart_of_version_1() {
    let older = text(2, "every_part.chart").replacen("standpoint_chart: 2", "standpoint_chart: 1", 1);
    let report = file::from_text(&older).unwrap_err().to_string();
    for part in ["sessions", "point 1, winner", "point 1, video_offset_s", "point 1, shot 2, call"] {
        assert!(report.contains(&format!("{part}: `")), "{part} in\n{report}");
    }
}

#[test]
fn slips_in_what_is_told_of_a_match_are_told_with_their_place() {
    let slips = text(2, "every_part.chart")
        .replacen("date: \"2026-05-03\"", "date: \"2026-02-30\"", 1)
        .replacen("ending: UnforcedError", "ending: UnforcdError", 1)
        .replacen("video_offset_s: -3.5", "video_offset_s: 1e9", 1)
        .replacen("last_set: MatchTieBreak10", "last_set: MatchTieBreak9", 1);
    let report = file::from_text(&slips).unwrap_err();
    let said = report.to_string();
    assert_eq!(report.count(), 4, "{said}");
    for (role, remedy) in [
        ("session 1, date", "`2026-02-30` is not a date. Write the year, the month and the day"),
        ("session 1, format.last_set", "Did you mean `MatchTieBreak"),
        ("point 1, ending", "Did you mean `UnforcedError`?"),
        ("point 1, video_offset_s", "Write a number from -345600 to 345600."),
    ] {
        let line = said.lines().find(|line| line.contains(role)).unwrap_or_else(|| panic!("{role} in\n{said}"));
        assert!(line.starts_with("line ") && line.contains(remedy), "{line}");
    }
    let mut twice = load(2, "every_part.chart");
    let session = twice.setup.sessions[0].clone();
    twice.setup.sessions.push(session);
    let report = file::to_text(&twice).unwrap_err().to_string();
    assert!(report.contains("session 2, name: the session `Cup, second round` is here twice"), "{report}");
}

#[test]
fn a_board_keeps_what_is_told_of_a_match() {
    let chart = load(2, "every_part.chart");
    let mut board = standpoint_board::Board::demo();
    board.tidy();
    board.chart = Some(chart.clone().into());
    let text = standpoint_board::file::to_text(&board).unwrap();
    assert!(text.contains("  chart: (\n    standpoint_chart: 2,\n"), "{text}");
    assert_eq!(standpoint_board::file::from_text(&text).unwrap(), board);
    // Parts that an older program can read are unchanged.
    board.chart = Some(Chart { setup: Setup { sessions: Vec::new(), ..chart.setup }, points: Vec::new() }.into());
    assert!(!standpoint_board::file::to_text(&board).unwrap().contains("standpoint_chart"));
    let newer = text.replacen("standpoint_chart: 2", "standpoint_chart: 3", 1);
    let report = standpoint_board::file::from_text(&newer).unwrap_err().to_string();
    assert!(report.contains("chart.standpoint_chart: the file is of version 3"), "{report}");
}
