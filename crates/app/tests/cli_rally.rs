//! The commands `worth` and `simulate`, and where the solved rally comes from. The cached games here are not solved,
//! because solving is slow; the program cannot detect this.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod cli_support;

use cli_support::{BoardFolder, demo_with, list, number, run, word};
use serde_json::Value;
use standpoint_board::{Board, CourtChoice};
use standpoint_geometry::{
    NetPosts, Stage,
    worth::{pack, stand_in},
};
use standpoint_workbench::solved::{Shelf, of_board};

/// A desk whose cache holds a game for the demo board in warmer air, for which the program ships no game.
fn desk() -> (BoardFolder, String) {
    let desk = BoardFolder::new();
    let board = Board { air: standpoint_geometry::Air { temperature_c: 21.0, altitude_m: 10.0 }, ..Board::demo() };
    let canonical = of_board(&board).canonical();
    let shelf = Shelf::in_folder(desk.path("cache").join("solved"));
    shelf.put(&canonical, &pack(&canonical, &stand_in(&canonical).0)).unwrap();
    let path = desk.board("demo.standpoint", &board);
    (desk, path)
}

fn answered(desk: &BoardFolder, words: &[&str]) -> String {
    let said = run(words, &desk.path("cache"));
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{words:?}");
    said.out
}

#[test]
fn a_kept_rally_answers_without_being_solved_and_says_so_in_json() {
    let (desk, board) = desk();
    let solved: Value = serde_json::from_str(&answered(&desk, &["solve", &board, "--json"])).unwrap();
    assert_eq!(word(&solved, "/basis"), "solved");
    let quick: Value = serde_json::from_str(&answered(&desk, &["solve", &board, "--json", "--quick"])).unwrap();
    assert_eq!(word(&quick, "/basis"), "level");
    assert!(answered(&desk, &["solve", &board, "--quick"]).contains("An estimate from the nearest level"));
    for reply in list(&solved, "/best_replies") {
        assert!((0.0..=1.0).contains(&number(reply, "/share")));
        assert!(number(reply, "/wins_outright") <= number(reply, "/chance_in") + 1e-9);
    }
    for command in [&["compare"][..], &["aim", "--step", "2"], &["sweep", "--cause", "speed", "--steps", "1"]] {
        let words: Vec<&str> = [command[0], &board].into_iter().chain(command[1..].iter().copied()).collect();
        answered(&desk, &words);
    }
}

#[test]
fn worth_is_told_in_tables_and_in_full_for_programs() {
    let (desk, board) = desk();
    let text = answered(&desk, &["worth", &board]);
    assert!(text.contains("Mara Quell (near end)") && text.contains("Ivo Tander (far end)"), "{text}");
    for table in ["By depth behind the baseline", "By height", "By sideways place", "Before the bounce"] {
        assert_eq!(text.matches(table).count(), 2, "{table}");
    }
    let csv = answered(&desk, &["worth", &board, "--csv"]);
    let mut rows = csv::Reader::from_reader(csv.as_bytes());
    let wins: Vec<f64> = rows.records().map(|row| row.unwrap()[7].parse().unwrap()).collect();
    assert!(wins.len() > 5000 && wins.iter().all(|win| (0.0..=1.0).contains(win)));
    let json: Value = serde_json::from_str(&answered(&desk, &["worth", &board, "--json"])).unwrap();
    let sizes =
        ["/contact_depth", "/contact_height", "/time_to_spare", "/contact_across"].map(|at| list(&json, at).len());
    for striker in ["/strikers/0", "/strikers/1"] {
        let mut grid = format!("{striker}/after_bounce/backhand");
        for size in sizes {
            assert_eq!(list(&json, &grid).len(), size, "{grid}");
            grid.push_str("/0");
        }
        assert!((0.0..=1.0).contains(&number(&json, &grid)));
    }
    // More time never hurts: the same contact with 0.9 s and with -0.3 s to spare.
    let at = |spare: usize| number(&json, &format!("/strikers/0/after_bounce/forehand/7/2/{spare}/3"));
    assert!(at(4) >= at(0), "{} {}", at(4), at(0));
}

#[test]
fn simulated_points_are_counted_and_written_down() {
    let (desk, board) = desk();
    let rows = desk.path("rows.csv");
    let words = ["simulate", &board, "--points", "60", "--seed", "9", "--rows", rows.to_str().unwrap()];
    let text = answered(&desk, &words);
    assert!(text.contains("60 points between Mara Quell and Ivo Tander"), "{text}");
    assert_eq!(answered(&desk, &words), text, "the same seed gives the same points");
    let written = std::fs::read_to_string(&rows).unwrap();
    assert!(written.lines().next().unwrap().ends_with("serve_number,outcome,won_by,ended"));
    let json: Value = serde_json::from_str(&answered(&desk, &[&words[..6], &["--json"]].concat())).unwrap();
    let count = |at: &str| json.pointer(at).and_then(Value::as_u64).unwrap();
    assert_eq!(written.lines().count() as u64 - 1, count("/strokes"));
    let lengths: f64 = ["to_4", "to_8", "more"].map(|l| number(&json, &format!("/lengths/{l}"))).iter().sum();
    assert!((lengths - 1.0).abs() < 1e-5);
    let endings = ["ace", "winner", "net", "long", "wide", "double_fault"];
    let endings: f64 = endings.map(|e| number(&json, &format!("/endings/{e}"))).iter().sum();
    assert!((endings - 1.0).abs() < 1e-5);
    assert_eq!(count("/serving/0/points") + count("/serving/1/points"), 60);
    let shares: f64 = list(&json, "/directions").iter().map(|d| number(d, "/share")).sum();
    assert!((shares - 1.0).abs() < 1e-4);
    // A simulated match can be audited like any chart.
    let audit = run(&["audit", rows.to_str().unwrap(), "--players", &board], &desk.path("cache"));
    assert_eq!((audit.code, audit.err.as_str()), (0, ""));
}

#[test]
fn what_cannot_be_simulated_is_told_with_a_remedy() {
    let (desk, board) = desk();
    let on_it = demo_with(|spec| {
        spec.shot.contact.y = -5.2;
        spec.shot.target.y = 4.0;
        spec.opponent_place.y = 5.4;
    });
    let red = Board { court: CourtChoice::of(Stage::Red, NetPosts::SinglesSticks), ..on_it };
    let red = desk.board("red.standpoint", &red);
    let said = run(&["simulate", &red], &desk.path("cache"));
    assert_eq!(said.code, 1);
    assert!(said.err.contains("no service boxes") && said.err.contains("Choose a larger court"), "{}", said.err);
    let said = run(&["simulate", &red, "--json"], &desk.path("cache"));
    let json: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(word(&json, "/error/kind"), "no_service_box");
    let nowhere = desk.path("no folder").join("rows.csv");
    let said = run(&["simulate", &board, "--points", "5", "--rows", nowhere.to_str().unwrap()], &desk.path("cache"));
    assert_eq!(said.code, 1, "{}", said.err);
    assert!(said.out.is_empty());
    for points in ["0", "200001", "many"] {
        assert_eq!(run(&["simulate", &board, "--points", points], &desk.path("cache")).code, 2);
    }
    assert_eq!(run(&["worth", "no-such-board.standpoint"], &desk.path("cache")).code, 1);
}
