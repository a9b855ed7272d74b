//! `compare`, `aim` and `sweep`, run as a person or a script would.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod cli_support;

use glam::{DVec3, dvec2};
use serde_json::Value;
use standpoint_board::Board;
use standpoint_geometry::{
    Court, Stroke,
    units::{FOOT, MPH},
};

use cli_support::{BoardFolder, CAUSES, demo_with, json, list, mirrored, number, standpoint, word};

/// Heading and rows of a table in CSV.
fn csv(words: &[&str]) -> (Vec<String>, Vec<Vec<String>>) {
    let said = standpoint(words);
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{words:?}");
    let mut reader = csv::Reader::from_reader(said.out.as_bytes());
    let texts = |record: &csv::StringRecord| record.iter().map(str::to_owned).collect::<Vec<_>>();
    let heading = texts(reader.headers().unwrap());
    (heading, reader.records().map(|row| texts(&row.unwrap())).collect())
}

fn choices(answer: &Value) -> Vec<&str> {
    list(answer, "/choices").iter().map(|choice| word(choice, "/choice")).collect()
}

#[test]
fn the_choices_are_weighed_and_the_best_is_named() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let answer = json(&["compare", &demo, "--json"]);
    assert_eq!(choices(&answer)[..3], ["drawn", "cross", "line"]);
    let playable = list(&answer, "/choices").iter().filter(|choice| choice["playable"] == true);
    let wins: Vec<(&str, f64)> = playable.map(|c| (word(c, "/choice"), number(c, "/win"))).collect();
    assert!(wins.len() >= 5 && wins.iter().all(|(_, win)| (0.0..=1.0).contains(win)), "{wins:?}");
    let best = wins.iter().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
    assert_eq!(word(&answer, "/best"), best.0);
    for choice in list(&answer, "/choices").iter().filter(|choice| choice["playable"] == false) {
        assert!(!word(choice, "/error/message").is_empty());
    }
    let said = standpoint(&["compare", &demo]);
    assert_eq!(said.code, 0);
    for part in ["Best of these: ", "Down the line against the shot as drawn: ", " longer recovery", "points in 100"] {
        assert!(said.out.contains(part), "{part} is missing in\n{}", said.out);
    }
}

#[test]
fn differences_are_the_second_minus_the_first() {
    let desk = BoardFolder::new();
    let answer = json(&["compare", &desk.demo(), "--choices", "cross,line", "--json"]);
    assert_eq!(choices(&answer), ["cross", "line"]);
    let d = &list(&answer, "/differences")[0];
    assert_eq!((word(d, "/from"), word(d, "/to")), ("cross", "line"));
    for (difference, figure) in [
        ("/win", "/win"),
        ("/chance_in", "/quality/chance/good"),
        ("/opponent_time", "/receipt/time"),
        ("/recovery_distance", "/recovery/distance"),
        ("/wedge_width_deg", "/wedge/width_deg"),
        ("/exposure", "/recovery/reached/exposure"),
    ] {
        let of = |i: usize| number(&answer, &format!("/choices/{i}{figure}"));
        assert!((number(d, difference) - (of(1) - of(0))).abs() < 5e-6, "{difference}");
    }
    assert!(word(d, "/words").starts_with("Down the line against cross-court: "));
}

#[test]
fn choices_come_in_the_order_asked_for_and_absent_ones_are_named() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let list = ["--choices", "lob,inside-out,cross,lob"];
    let (heading, rows) = csv(&["compare", &demo, list[0], list[1], "--csv"]);
    assert_eq!(heading[..4], ["choice", "outcome", "reason", "win"]);
    assert_eq!(rows.iter().map(|row| row[0].as_str()).collect::<Vec<_>>(), ["lob", "cross"]);
    let answer = json(&["compare", &demo, list[0], list[1], "--json"]);
    assert_eq!(answer["not_there"], serde_json::json!(["inside-out"]));
    let said = standpoint(&["compare", &demo, "--choices", "inside-out,serve-t"]);
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    assert!(said.err.contains("inside-out: it takes a forehand from the backhand side"), "{}", said.err);
    let (_, all) = csv(&["compare", &demo, "--csv"]);
    assert_eq!(all.len(), choices(&json(&["compare", &demo, "--json"])).len());
}

#[test]
fn the_aim_map_is_whole_and_its_best_target_is_the_best() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let answer = json(&["aim", &demo, "--step", "1", "--json"]);
    let targets = list(&answer, "/map/targets");
    let count = |at: &str| answer.pointer(at).and_then(Value::as_u64).unwrap();
    assert_eq!(targets.len() as u64, count("/map/columns") * count("/map/rows"));
    let court = Court::default();
    for target in targets {
        assert!(court.contains_singles(dvec2(number(target, "/x"), number(target, "/y"))));
        assert_eq!(target["playable"] == true, target.get("win").is_some());
        if target["playable"] == true {
            let win = number(target, "/win");
            assert!((0.0..=1.0).contains(&win) && win <= number(&answer, "/best/win"));
        }
    }
    assert!(number(&answer, "/best/win_from_middle") <= number(&answer, "/best/win"), "the rule is no better");
    let (heading, table) = csv(&["aim", &demo, "--step", "1", "--csv"]);
    assert_eq!(heading, ["x", "y", "playable", "win", "win_from_middle", "chance_in", "speed"]);
    assert_eq!(table.len(), targets.len());
    let said = standpoint(&["aim", &demo, "--step", "1"]);
    assert_eq!((said.code, said.err.as_str()), (0, ""), "no progress where there is no terminal");
    for part in ["Aim ", " inside the ", "As drawn, ", "Running to the middle", "*: the best aim"] {
        assert!(said.out.contains(part), "{part} is missing in\n{}", said.out);
    }
}

#[test]
fn a_mirrored_board_has_the_mirrored_map() {
    let desk = BoardFolder::new();
    let best = |board: &Board| {
        let answer = json(&["aim", &desk.board("a.standpoint", board), "--step", "1", "--json"]);
        (number(&answer, "/best/x"), number(&answer, "/best/y"), number(&answer, "/best/win"))
    };
    let (a, b) = (best(&Board::demo()), best(&mirrored(Board::demo())));
    assert!((a.0 + b.0).abs() < 1e-6 && (a.1 - b.1).abs() < 1e-6 && (a.2 - b.2).abs() < 1e-3, "{a:?} {b:?}");
}

#[test]
fn an_approach_is_weighed_against_staying_back() {
    let desk = BoardFolder::new();
    // From inside the court, where a player approaches the net.
    let board = desk.board("in.standpoint", &demo_with(|spec| spec.shot.contact = DVec3::new(2.0, -7.5, 1.0)));
    let answer = json(&["aim", &board, "--step", "1", "--approach", "--json"]);
    assert_eq!(answer["approach"], true);
    assert!(number(&answer, "/staying_back/win") >= 0.0);
    let said = standpoint(&["aim", &board, "--step", "1", "--approach"]).out;
    assert!(said.contains("Coming in after it"), "{said}");
}

#[test]
fn a_serve_is_aimed_into_its_box() {
    let desk = BoardFolder::new();
    let serve = desk.board(
        "serve.standpoint",
        &demo_with(|spec| {
            spec.shot.stroke = Stroke::Serve;
            spec.shot.contact = DVec3::new(0.6, -11.7, 2.6);
            spec.hitter_place = Some(dvec2(0.5, -12.0));
            spec.shot.target = dvec2(-2.0, 5.4);
            spec.shot.speed = 40.0;
            spec.opponent_place = dvec2(-3.0, 12.8);
        }),
    );
    let answer = json(&["aim", &serve, "--json"]);
    for target in list(&answer, "/map/targets") {
        let (x, y) = (number(target, "/x"), number(target, "/y"));
        assert!(x <= 0.0 && (0.0..=6.4).contains(&y), "{x} {y}");
    }
    let weighed = json(&["compare", &serve, "--json"]);
    assert_eq!(choices(&weighed), ["drawn", "serve-wide", "serve-body", "serve-t", "second-serve"]);
}

#[test]
fn a_sweep_has_its_points_and_says_where_the_better_shot_changes() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let words = ["sweep", &demo, "--cause", "contact-wide", "--from", "0", "--to", "6", "--steps", "8"];
    let answer = json(&[&words[..], &["--json"]].concat());
    let points = list(&answer, "/points");
    assert_eq!(points.len(), 9);
    assert!((number(&points[0], "/value"), number(&points[8], "/value")) == (0.0, 6.0));
    let lead = |p: &Value| Some(p["win_second"].as_f64()? - p["win_first"].as_f64()?);
    let changes = points.windows(2).filter(|pair| {
        let (a, b) = (lead(&pair[0]), lead(&pair[1]));
        a.zip(b).is_some_and(|(a, b)| (a > 0.0) != (b > 0.0))
    });
    let crossings = list(&answer, "/crossings");
    assert_eq!(crossings.len(), changes.count());
    for crossing in crossings {
        assert!((0.0..=6.0).contains(&number(crossing, "/value")));
        assert_ne!(word(crossing, "/better_below"), word(crossing, "/better_above"));
    }
    let (heading, rows) = csv(&[&words[..], &["--csv"]].concat());
    assert_eq!(heading, ["value", "first", "win_first", "wing_first", "second", "win_second", "wing_second"]);
    assert_eq!(rows.len(), 9);
    let said = standpoint(&words).out;
    assert!(list(&answer, "/words").iter().all(|sentence| said.contains(&sentence.as_str().unwrap()[..20])), "{said}");
}

#[test]
fn every_cause_can_be_swept() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    for cause in CAUSES {
        let answer = json(&["sweep", &demo, "--cause", cause, "--steps", "3", "--json"]);
        assert_eq!(word(&answer, "/cause"), cause);
        assert_eq!(list(&answer, "/points").len(), 4);
        assert!(!list(&answer, "/words").is_empty());
    }
}

#[test]
fn a_range_is_read_in_the_units_of_the_answer() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let range = |cause: &str, units: &str| {
        let words = ["sweep", &demo, "--cause", cause, "--from", "50", "--to", "60", "--steps", "1", "--units", units];
        let answer = json(&[&words[..], &["--json"]].concat());
        (number(&answer, "/from"), number(&answer, "/to"))
    };
    let close = |a: (f64, f64), per_unit: f64| (a.0 - 50.0 * per_unit).abs() + (a.1 - 60.0 * per_unit).abs() < 1e-5;
    assert!(close(range("speed", "feet"), MPH));
    assert!(close(range("speed", "metres"), 1.0 / 3.6));
    assert!(close(range("opponent-backhand", "feet"), 0.01));
    let feet = ["sweep", &demo, "--cause", "contact-wide", "--from", "1", "--to", "9", "--units", "feet", "--json"];
    assert!((number(&json(&feet), "/to") - 9.0 * FOOT).abs() < 1e-6);
}

#[test]
fn a_range_or_a_choice_that_makes_no_sense_is_refused_with_its_remedy() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let empty = standpoint(&["sweep", &demo, "--cause", "speed", "--from", "90", "--to", "80"]);
    assert_eq!((empty.code, empty.out.as_str()), (1, ""));
    assert!(empty.err.contains("from 90.00 km/h to 80.00 km/h is empty — Make --from less"), "{}", empty.err);
    let off = standpoint(&["sweep", &demo, "--cause", "contact-wide", "--to", "500"]);
    assert_eq!(off.code, 1);
    assert!(off.err.contains("shot.contact.x"), "{}", off.err);
    let strong = standpoint(&["sweep", &demo, "--cause", "opponent-backhand", "--to", "300"]);
    assert_eq!(strong.code, 1);
    assert!(strong.err.contains("to 300.00 % goes beyond what can be computed: opponent.backhand"), "{}", strong.err);
    assert!(!strong.err.contains("the shot right"), "{}", strong.err);
    let absent = standpoint(&["sweep", &demo, "--cause", "speed", "--second", "inside-out", "--json"]);
    assert_eq!(absent.code, 1);
    let answer: Value = serde_json::from_str(&absent.out).unwrap();
    assert_eq!(word(&answer, "/error/kind"), "no_choice");
}
