//! Boards of every version stay loadable. Files in `tests/boards` are added, never changed.

use std::{fs, path::PathBuf};

use standpoint_board::{
    Board, Figures, Units,
    chart::Ends,
    file,
    marks::{Appears, Step},
};
use standpoint_geometry::{End, HabitCase, Level, ReceiptChoice, Third, Wing, units::KMH};

use crate::samples::every_mark;

fn boards_of_version(version: u32) -> Vec<(PathBuf, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("boards/v{version}"));
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths.into_iter().map(|path| (path.clone(), fs::read_to_string(path).unwrap())).collect()
}

fn text(version: u32, name: &str) -> String {
    boards_of_version(version).into_iter().find(|(path, _)| path.ends_with(name)).unwrap().1
}

fn load(version: u32, name: &str) -> Board {
    file::from_text(&text(version, name)).unwrap()
}

#[test]
fn every_board_of_every_version_loads_can_be_computed_and_is_saved_as_the_current_one() {
    for version in 1..=file::VERSION {
        let boards = boards_of_version(version);
        assert!(boards.len() >= 3);
        for (path, text) in boards {
            assert!(text.contains(&format!("standpoint_board: {version},")), "{}", path.display());
            let board = file::from_text(&text).unwrap_or_else(|report| panic!("{}:\n{report}", path.display()));
            assert_eq!(board.situation(0, 0).unwrap().validate(), vec![], "{}", path.display());
            let saved = file::to_text(&board).unwrap();
            assert!(saved.starts_with(&format!("(\n  standpoint_board: {},\n", file::VERSION)));
            assert_eq!(file::from_text(&saved).unwrap(), board, "{}", path.display());
        }
    }
}

#[test]
fn the_demo_of_version_1_says_what_it_said() {
    let board = load(1, "demo.standpoint");
    let mut demo = Board::demo();
    demo.tidy();
    assert_eq!((board.near.name.as_str(), board.far.name.as_str()), ("Mara Quell", "Ivo Tander"));
    let spec = board.shot(0, 0).unwrap();
    assert!((spec.shot.speed - 100.0 * KMH).abs() < 1e-12);
    assert_eq!((spec.hitter_end, spec.hitter_place, spec.receipt), (End::Near, None, ReceiptChoice::Best));
    assert!((spec.shot.contact.x - 3.2).abs() < 1e-12 && (spec.shot.contact.z - 0.9).abs() < 1e-12);
}

#[test]
fn a_board_of_version_1_with_every_part_says_what_it_said() {
    let board = load(1, "every_part.standpoint");
    assert_eq!(
        (board.units, board.coached, board.near.figures.clone()),
        (Units::Feet, End::Far, Figures::Level(Level::Wheelchair))
    );
    assert_eq!((board.pages.len(), board.pages[0].shots.len()), (2, 2));
    assert!((board.surface.measured.unwrap().friction - 0.62).abs() < 1e-12);
    let far = board.far.player();
    assert_eq!(far.bounces, 1);
    assert!((far.movement.v_max - 6.2).abs() < 1e-12 && (far.serve.first_speed - 170.0 * KMH).abs() < 1e-12);
    let spec = board.shot(0, 1).unwrap();
    assert!(matches!(spec.receipt, ReceiptChoice::Near(place) if (place.y + 9.1).abs() < 1e-12));
    assert_eq!(board.pages[0].notes, "First line\nsecond \"line\"\tafter a tab, ü 場");
}

#[test]
fn a_board_of_version_1_has_no_cues_marks_or_shots_that_follow() {
    for (_, text) in boards_of_version(1) {
        let board = file::from_text(&text).unwrap();
        for page in &board.pages {
            assert!(page.cues.is_empty() && page.marks.list.is_empty() && page.marks.hidden.is_empty());
            assert!(page.shots.iter().all(|shot| !shot.follows && shot.recover_to.is_none()));
        }
    }
}

#[test]
fn a_board_of_version_2_says_how_it_is_practised_where_it_does() {
    let drill = load(2, "drill.standpoint").pages[0].drill.clone();
    assert!(drill.feed.starts_with("The coach feeds the first ball") && drill.targets.contains("hatched zones"));
    assert_eq!((drill.progression.lines().count(), drill.equipment.starts_with("4 cones")), (2, true));
    let without = load(2, "every_part.standpoint");
    assert!(without.pages.iter().all(|page| page.drill.is_empty()));
    assert!(!file::to_text(&without).unwrap().contains("drill:"), "what says nothing is not written");
}

#[test]
fn a_mark_of_version_2_appears_when_its_file_says_so_and_at_once_where_it_says_nothing() {
    let board = load(2, "appearing.standpoint");
    let list = &board.pages[0].marks.list;
    assert_eq!(list[0].appears, Appears { shot: 0, step: Step::Answer });
    assert!(list[1..].iter().all(|mark| mark.appears == Appears::AT_ONCE));
    for (path, text) in boards_of_version(2).into_iter().filter(|(path, _)| !path.ends_with("appearing.standpoint")) {
        let board = file::from_text(&text).unwrap();
        let at_once = |mark: &standpoint_board::marks::Mark| mark.appears == Appears::AT_ONCE;
        assert!(board.pages.iter().all(|page| page.marks.list.iter().all(at_once)), "{}", path.display());
        assert!(!file::to_text(&board).unwrap().contains("appears:"), "what is usual is not written");
    }
}

#[test]
fn a_slip_in_when_a_mark_appears_is_told_with_its_place() {
    let right = text(2, "appearing.standpoint");
    for (slip, place) in [("shot: 0,", "appears.shot"), ("shot: 1.5,", "appears.shot"), ("shoot: 1,", "appears")] {
        let report = file::from_text(&right.replacen("shot: 1,", slip, 1)).unwrap_err().to_string();
        assert!(report.contains(place), "{slip}: {report}");
    }
    let report = file::from_text(&right.replacen("Answer", "Anser", 1)).unwrap_err().to_string();
    assert!(report.contains("Did you mean `Answer`?"), "{report}");
}

#[test]
fn a_slip_in_a_drill_is_told_with_its_place() {
    let slip = text(2, "drill.standpoint").replacen("progression:", "progresion:", 1);
    let report = file::from_text(&slip).unwrap_err().to_string();
    assert!(report.contains("page 1, drill.progresion") && report.contains("progression"), "{report}");
}

#[test]
fn a_board_of_version_2_holds_what_was_charted_where_it_does() {
    let board = load(2, "chart.standpoint");
    let chart = board.chart.clone().unwrap();
    assert_eq!((chart.setup.title.as_str(), chart.points.len(), chart.shots()), ("Sunday practice", 2, 3));
    assert_eq!(chart.setup.far.name, "Lena Brook", "its players are its own");
    let (first, last) = (&chart.points[0], &chart.points[1]);
    assert_eq!((first.session.as_str(), first.label.as_str(), last.ends), ("Sunday", "1", Ends::Changed));
    assert_eq!(first.shots[0].met, Some(first.shots[1].contact));
    assert_eq!((last.shots[0].landing, last.shots[0].wing), (None, Some(Wing::Backhand)));
    assert!((last.shots[0].speed.unwrap() - 61.5 * KMH).abs() < 1e-12);
    assert_eq!(file::to_text(&board).unwrap(), text(2, "chart.standpoint"), "not a byte differs");
    assert!(load(2, "every_part.standpoint").chart.is_none());
}

#[test]
fn what_is_wrong_with_the_chart_of_a_board_is_told_with_its_place() {
    let broken = text(2, "chart.standpoint")
        .replacen("stood: (x: 0.6", "stud: (x: 0.6", 1)
        .replacen("met: (x: 3.1", "met: (x: 93.1", 1)
        .replacen("speed_kmh: 61.5", "speed_kmh: 6150.0", 1);
    let report = file::from_text(&broken).unwrap_err();
    let said = report.to_string();
    assert_eq!(report.count(), 3, "{said}");
    for (role, remedy) in [
        ("point 1, shot 1, stud", "Did you mean `stood`?"),
        ("point 1, shot 2, met.x", "outside the site"),
        ("point 2, shot 1, speed_kmh", "11 to 270"),
    ] {
        let line = said.lines().find(|line| line.contains(role)).unwrap_or_else(|| panic!("{role} in {said}"));
        assert!(line.starts_with("line ") && line.contains(remedy), "{line}");
    }
}

#[test]
fn a_board_of_version_2_holds_the_habits_of_a_player_where_they_are_known() {
    let board = load(2, "habits.standpoint");
    let known = board.far.habits.clone().unwrap();
    assert_eq!((known.of.as_str(), known.matches, known.last), ("Ivo Tander", 3, "2026-05-10".parse().ok()));
    assert!(known.used && (known.counts.strength - 8.0).abs() < 1e-12);
    let hurried = HabitCase::Rally(Wing::Backhand, Third::Left, true);
    assert_eq!(known.counts.counts(hurried), [21, 4, 3]);
    assert_eq!(known.counts.counts(HabitCase::Serve { deuce: true, second: true }), [2, 5, 11]);
    assert_eq!(known.counts.shots(), 28 + 9 + 18);
    assert_eq!(board.situation(0, 0).unwrap().opponent_habits, Some(known.counts));
    assert_eq!(file::to_text(&board).unwrap(), text(2, "habits.standpoint"), "not a byte differs");
    assert!(board.near.habits.is_none() && load(2, "demo.standpoint").far.habits.is_none());
}

#[test]
fn slips_in_habits_are_told_with_their_place() {
    let slip = text(2, "habits.standpoint")
        .replacen("across: 5", "across: 2.5", 1)
        .replacen("hurried: false", "hurried: true", 1)
        .replacen("2026-05-10", "last week", 1)
        .replacen("strength: 8.0", "strength: 0.0", 1);
    let said = file::from_text(&slip).unwrap_err().to_string();
    for (role, remedy) in [
        ("players.far.habits.rally[0].across", "whole number from 0 to 1000000"),
        ("players.far.habits.rally[1]", "Put them into one"),
        ("players.far.habits.last", "2026-05-03"),
        ("players.far.habits.strength", "0.1 to 1000"),
    ] {
        let line = said.lines().find(|line| line.contains(role)).unwrap_or_else(|| panic!("{role} in {said}"));
        assert!(line.starts_with("line ") && line.contains(remedy), "{line}");
    }
    let old = text(1, "demo.standpoint").replacen("figures:", "habits: None, figures:", 1);
    assert!(file::from_text(&old).is_err(), "a board of version 1 has none");
}

#[test]
fn a_board_of_version_2_says_what_it_said() {
    let board = load(2, "every_part.standpoint");
    assert_eq!((board.units, board.far.level(), board.pages.len()), (Units::Feet, None, 2));
    let page = board.page(1).unwrap();
    assert_eq!((page.title.as_str(), page.shots.len()), ("Cross, cross, line", 5));
    assert_eq!(page.cues, ["Recover before you look", "Split as Ivo strikes"]);
    let follows: Vec<bool> = page.shots.iter().map(|shot| shot.follows).collect();
    assert_eq!(follows, [false, true, true, true, true]);
    assert_eq!(page.shots[1].recover_to, Some(glam::DVec2::new(-0.4, 12.3)));
    assert_eq!(page.marks, every_mark());
    assert_eq!(file::to_text(&board).unwrap(), text(2, "every_part.standpoint"), "not a byte differs");
    let demo = load(2, "demo.standpoint");
    assert_eq!(demo.page(0).unwrap().cues, ["Recover before you look", "Split as Ivo strikes"]);
    assert_eq!(file::to_text(&demo).unwrap(), text(2, "demo.standpoint"), "not a byte differs");
}

#[test]
fn a_board_written_by_hand_may_have_comments_and_its_own_layout() {
    for version in 1..=file::VERSION {
        assert_eq!(load(version, "by_hand.standpoint").title, "By hand");
    }
    let marks = &load(2, "by_hand.standpoint").pages[0].marks;
    assert_eq!((marks.list.len(), marks.list[0].id), (2, 7));
}

#[test]
fn the_example_in_the_documentation_loads() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../docs/file-format.md");
    let document = fs::read_to_string(path).unwrap();
    let example = document.split("```ron\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let board = file::from_text(example).unwrap_or_else(|report| panic!("{report}"));
    assert_eq!((board.pages[0].shots.len(), board.pages[0].marks.list.len()), (2, 2));
}
