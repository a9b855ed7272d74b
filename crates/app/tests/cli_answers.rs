//! `solve`, `check` and `presets`, run as a person or a script would.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod cli_support;

use std::{
    io::Read as _,
    process::{Command, Stdio},
    sync::Arc,
};

use glam::{DVec2, DVec3, dvec2};
use serde_json::Value;
use standpoint_board::{Board, Units, file::to_text};
use standpoint_geometry::{Level, Stroke};

use cli_support::{BoardFolder, demo_with, json, list, mirrored, number, standpoint, turned, word};

#[test]
fn the_answer_is_said_in_the_boards_units_or_those_asked_for() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let said = standpoint(&["solve", &demo]);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    for part in ["Stand ", " right of the centre mark", "km/h", "Mara Quell", "Recovery", "estimates of a model"] {
        assert!(said.out.contains(part), "{part} is missing in\n{}", said.out);
    }
    let feet = standpoint(&["solve", &demo, "--units", "feet"]).out;
    assert!(feet.contains('′') && feet.contains("mph") && !feet.contains(" m,"), "{feet}");
    let board = desk.board("feet.standpoint", &Board { units: Units::Feet, ..Board::demo() });
    assert_eq!(standpoint(&["solve", &board]).out, feet);
    assert_eq!(standpoint(&["solve", &board, "--units", "metres"]).out, said.out);
}

#[test]
fn json_holds_the_whole_chain() {
    let desk = BoardFolder::new();
    let answer = json(&["solve", &desk.demo(), "--json", "--paths"]);
    assert_eq!(word(&answer, "/standpoint"), env!("CARGO_PKG_VERSION"));
    assert!(word(&answer, "/model").contains("estimates"));
    assert_eq!(word(&answer, "/outcome"), "play");
    let shot = ["contact/x", "contact/y", "contact/z", "target/x", "speed", "topspin_rad_s", "sidespin_rad_s"];
    let flight = [
        "launch/elevation_rad",
        "launch/azimuth_rad",
        "launch/speed",
        "net/x",
        "net/height",
        "net/net_height",
        "net/clearance",
        "net/time",
        "landing/x",
        "landing/time",
        "landing/angle_rad",
        "apex_height",
        "chance_in",
    ];
    let rest = [
        "/quality/chance/good",
        "/quality/vertical_window/width_rad",
        "/quality/length_available",
        "/receipt/contact/z",
        "/receipt/time",
        "/receipt/bounces",
        "/receipt/time_to_spare",
        "/receipt/pressure",
        "/receipt/place/x",
        "/wedge/left_deg",
        "/wedge/right_deg",
        "/bisector/azimuth_deg",
        "/bisector/offset",
        "/replies_weighed",
        "/spot/exposure",
        "/middle/exposure",
        "/recovery/available",
        "/recovery/needed",
        "/recovery/short_by",
        "/recovery/reached/exposure",
        "/recovery/extra_exposure",
    ];
    let paths = shot.map(|p| format!("/shot/{p}")).into_iter().chain(flight.map(|p| format!("/flight/{p}")));
    for path in paths.chain(rest.map(str::to_owned)) {
        assert!(number(&answer, &path).is_finite());
    }
    for reply in list(&answer, "/best_replies") {
        for path in ["/chance_in", "/time_to_spare", "/exposure", "/landing/x", "/met_at/z"] {
            assert!(number(reply, path).is_finite());
        }
        assert!(!word(reply, "/name").is_empty());
        assert!(list(reply, "/path").len() > 5);
    }
    assert!(list(&answer, "/flight/path").len() > 5);
    assert!(json(&["solve", &desk.demo(), "--json"]).pointer("/flight/path").is_none());
}

#[test]
fn the_figures_agree_with_each_other() {
    let desk = BoardFolder::new();
    let boards = [
        Board::demo(),
        demo_with(|spec| spec.shot.target = dvec2(2.9, 9.2)),
        demo_with(|spec| spec.shot.contact = DVec3::new(-3.6, -12.9, 0.7)),
        turned(Board::demo()),
    ];
    for (i, board) in boards.iter().enumerate() {
        let a = json(&["solve", &desk.board(&format!("{i}.standpoint"), board), "--json"]);
        let n = |at: &str| number(&a, at);
        assert_eq!(word(&a, "/outcome"), "play", "board {i}");
        for chance in ["/flight/chance_in", "/quality/chance/good", "/spot/exposure", "/receipt/pressure"] {
            assert!((0.0..=1.0).contains(&n(chance)), "board {i}: {chance}");
        }
        let spot = dvec2(n("/spot/x"), n("/spot/y"));
        assert!(inside(spot, list(&a, "/zone/rings")), "board {i}: the spot lies in its zone");
        for elsewhere in ["/middle/exposure", "/bisector/exposure", "/recovery/reached/exposure"] {
            assert!(n(elsewhere) >= n("/spot/exposure") - 1e-6, "board {i}: {elsewhere}");
        }
        let in_time = n("/recovery/needed") <= n("/recovery/available");
        assert_eq!(in_time, n("/recovery/short_by").abs() < 1e-9, "board {i}");
        assert!((n("/flight/net/height") - n("/flight/net/net_height") - n("/flight/net/clearance")).abs() < 0.04);
        assert!((n("/flight/landing/x") - n("/shot/target/x")).abs() < 0.01, "board {i}");
        assert!(n("/receipt/time") > n("/flight/net/time"), "board {i}");
        let replies = list(&a, "/best_replies");
        assert!(!replies.is_empty());
        for reply in replies {
            assert!((0.0..=1.0).contains(&number(reply, "/chance_in")));
            // At the wedge's edges every second ball is still in, so only less likely replies may lie outside.
            if number(reply, "/chance_in") >= 0.5 {
                let azimuth = number(reply, "/azimuth_rad").to_degrees();
                assert!(within(azimuth, n("/wedge/right_deg"), n("/wedge/left_deg")), "board {i}: {azimuth}");
            }
        }
        assert!(within(n("/bisector/azimuth_deg"), n("/wedge/right_deg"), n("/wedge/left_deg")), "board {i}");
    }
}

/// Whether a place lies inside rings, by counting crossings.
fn inside(p: DVec2, rings: &[Value]) -> bool {
    let mut inside = false;
    for ring in rings {
        let points: Vec<DVec2> = list(ring, "").iter().map(|p| dvec2(number(p, "/0"), number(p, "/1"))).collect();
        for pair in points.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) {
                inside = !inside;
            }
        }
    }
    inside
}

/// Whether an angle lies in a sector of less than a half-turn, degrees; half a degree of slack.
fn within(angle: f64, one: f64, other: f64) -> bool {
    let turn = |a: f64| (a + 540.0).rem_euclid(360.0) - 180.0;
    let (width, at) = (turn(other - one), turn(angle - one));
    let (low, high) = (width.min(0.0), width.max(0.0));
    (low - 0.5..=high + 0.5).contains(&at)
}

#[test]
fn a_mirrored_board_has_the_mirrored_answer() {
    let desk = BoardFolder::new();
    let plain = json(&["solve", &desk.demo(), "--json"]);
    let mirrored = json(&["solve", &desk.board("mirrored.standpoint", &mirrored(Board::demo())), "--json"]);
    same(&plain, &mirrored, -1.0, 1.0);
    let (left, right) = (number(&plain, "/wedge/left_deg"), number(&mirrored, "/wedge/right_deg"));
    assert!((left + right).rem_euclid(360.0).min(360.0 - (left + right).rem_euclid(360.0)) < 1e-3, "{left} {right}");
    let names = |a: &Value| list(a, "/best_replies").iter().map(|r| word(r, "/name").to_owned()).collect::<Vec<_>>();
    assert_eq!(names(&plain), names(&mirrored));
}

#[test]
fn from_the_other_end_the_answer_is_turned_round() {
    let desk = BoardFolder::new();
    let plain = json(&["solve", &desk.demo(), "--json"]);
    let turned = json(&["solve", &desk.board("turned.standpoint", &turned(Board::demo())), "--json"]);
    same(&plain, &turned, -1.0, -1.0);
    assert_eq!(word(&turned, "/hitter/end"), "far");
    assert_eq!(word(&turned, "/hitter/name"), word(&plain, "/hitter/name"));
}

/// Whether two answers agree after the signs of the places change. The search for the spot is accurate to 1 mm.
fn same(a: &Value, b: &Value, x: f64, y: f64) {
    for at in
        ["/spot", "/middle", "/receipt/contact", "/receipt/place", "/recovery/reached", "/bisector", "/flight/net"]
    {
        let sides = [(number(a, &format!("{at}/x")), x * number(b, &format!("{at}/x")))];
        let depths = a.pointer(&format!("{at}/y")).map(|_| {
            let depth = |v: &Value| number(v, &format!("{at}/y"));
            (depth(a), y * depth(b))
        });
        for (one, other) in sides.into_iter().chain(depths) {
            assert!((one - other).abs() < 5e-3, "{at}: {one} and {other}");
        }
    }
    for at in [
        "/flight/chance_in",
        "/flight/launch/elevation_rad",
        "/receipt/time",
        "/receipt/time_to_spare",
        "/wedge/width_deg",
        "/spot/exposure",
        "/middle/exposure",
        "/recovery/needed",
        "/recovery/short_by",
    ] {
        assert!((number(a, at) - number(b, at)).abs() < 1e-3, "{at}");
    }
}

#[test]
fn a_winner_is_told_as_such() {
    let desk = BoardFolder::new();
    let winner = desk.board("winner.standpoint", &demo_with(|spec| spec.opponent_place = dvec2(5.0, 12.6)));
    let answer = json(&["solve", &winner, "--json"]);
    assert_eq!(word(&answer, "/outcome"), "winner");
    assert!(number(&answer, "/winner/late_by") > 0.0);
    for absent in ["/receipt", "/wedge", "/spot", "/recovery"] {
        assert!(answer.pointer(absent).is_none(), "{absent}");
    }
    let said = standpoint(&["solve", &winner]).out;
    assert!(said.contains("A winner: Ivo Tander is ") && said.contains(" s too late"), "{said}");
}

#[test]
fn a_serve_also_places_the_receiver() {
    let desk = BoardFolder::new();
    let serve = desk.board("serve.standpoint", &demo_with(serve));
    let answer = json(&["solve", &serve, "--json"]);
    assert_eq!(word(&answer, "/shot/stroke"), "serve");
    assert!(number(&answer, "/returner/spot/y") > 9.0, "the receiver waits at the far end");
    assert!(list(&answer, "/returner/best_replies").iter().all(|reply| word(reply, "/stroke") == "serve"));
    assert!(standpoint(&["solve", &serve]).out.contains("Ivo Tander, receiving, waits "));
}

fn serve(spec: &mut standpoint_board::ShotSpec) {
    spec.shot.stroke = Stroke::Serve;
    spec.shot.contact = DVec3::new(0.6, -11.7, 2.6);
    spec.hitter_place = Some(dvec2(0.5, -12.0));
    spec.shot.target = dvec2(-2.0, 5.4);
    spec.shot.speed = 40.0;
    spec.shot.topspin = 100.0;
    spec.opponent_place = dvec2(-3.0, 12.8);
}

#[test]
fn a_shot_that_cannot_be_played_says_why_and_what_helps() {
    let desk = BoardFolder::new();
    let net = desk.board("net.standpoint", &demo_with(|spec| spec.shot.target = dvec2(-2.9, 2.0)));
    let said = standpoint(&["solve", &net]);
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    let place = format!("{net}: page 1, shot 1: this shot cannot be played: into the net by ");
    assert!(said.err.starts_with(&place) && said.err.contains(" — Hit slower"), "{}", said.err);

    let said = standpoint(&["solve", &net, "--json"]);
    assert_eq!(said.code, 1);
    assert!(said.err.starts_with(&place), "words for a person all the same");
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(word(&answer, "/error/kind"), "net");
    assert!(number(&answer, "/error/by") > 0.0);
    assert!(!word(&answer, "/error/message").is_empty() && !word(&answer, "/error/remedy").is_empty());
    assert_eq!(word(&answer, "/source/file"), net);
}

#[test]
fn a_file_a_page_or_a_shot_that_is_not_there_is_named_with_what_there_is() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    for (words, part) in [
        (vec!["solve", "/nowhere/a.standpoint"], "there is no file `/nowhere/a.standpoint`"),
        (vec!["solve", "/"], "`/` is a folder"),
        (vec!["solve", &demo, "--page", "3"], "there is no page 3 — Leave --page out"),
        (vec!["solve", &demo, "--shot", "2"], "there is no shot 2 on page 1 — Leave --shot out"),
    ] {
        let said = standpoint(&words);
        assert_eq!((said.code, said.out.as_str()), (1, ""), "{words:?}");
        assert!(said.err.contains(part), "{}", said.err);
    }
}

#[test]
fn a_later_shot_of_a_rally_starts_where_the_one_before_was_met() {
    let desk = BoardFolder::new();
    let mut board = Board::demo();
    let page = Arc::make_mut(&mut board.pages[0]);
    let mut back = turned(Board::demo()).pages[0].shots[0];
    back.follows = true;
    page.shots.push(back);
    let rally = desk.board("rally.standpoint", &board);
    let first = json(&["solve", &rally, "--json"]);
    let second = json(&["solve", &rally, "--shot", "2", "--json"]);
    for axis in ["x", "y", "z"] {
        let met = number(&first, &format!("/receipt/contact/{axis}"));
        assert!((met - number(&second, &format!("/shot/contact/{axis}"))).abs() < 1e-6, "{axis}");
    }
    assert_eq!(word(&second, "/hitter/end"), "far");

    let page = Arc::make_mut(&mut board.pages[0]);
    page.shots[0].shot.target = dvec2(-2.9, 2.0);
    let broken = desk.board("broken.standpoint", &board);
    let said = standpoint(&["solve", &broken, "--shot", "2"]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("page 1, shot 2: shot 1 cannot be played"), "{}", said.err);
}

#[test]
fn check_tells_every_problem_with_its_line() {
    let desk = BoardFolder::new();
    let sound = desk.demo();
    let text = to_text(&Board::demo()).unwrap();
    let broken = text.replace("speed_kmh: 100.0", "speed_kmh: 900.0").replace("hand: Right", "hand: Both");
    let file = desk.file("broken.standpoint", &broken);
    let said = standpoint(&["check", &file, &sound]);
    assert_eq!(said.code, 1);
    assert_eq!(said.out, format!("{sound}: ok\n"));
    for (line, content) in broken.lines().enumerate() {
        for (slip, role) in [("900.0", "speed_kmh: 900 is outside"), ("hand: Both", "hand: `Both` is not one of")] {
            if content.contains(slip) {
                let place = format!("{file}:{}:", line + 1);
                let told = said.err.lines().find(|l| l.starts_with(&place)).unwrap_or_else(|| panic!("{place}"));
                assert!(told.contains(role) && told.contains(" — "), "{told}");
            }
        }
    }
    assert_eq!(said.err.lines().count(), 3, "two hands and one speed:\n{}", said.err);
    let solved = standpoint(&["solve", &file]);
    assert_eq!((solved.code, &solved.err), (1, &said.err), "solve says the same");
    let answer: Value = serde_json::from_str(&standpoint(&["solve", &file, "--json"]).out).unwrap();
    assert_eq!(list(&answer, "/error/problems").len(), 3);
}

#[test]
fn check_warns_of_shots_that_cannot_be_played_without_calling_the_board_wrong() {
    let desk = BoardFolder::new();
    let net = desk.board("net.standpoint", &demo_with(|spec| spec.shot.target = dvec2(-2.9, 2.0)));
    let said = standpoint(&["check", &net]);
    assert_eq!((said.code, said.out), (0, format!("{net}: ok, 1 warning\n")));
    assert!(
        said.err.starts_with(&format!("{net}: page 1, shot 1: warning: this shot cannot be played")),
        "{}",
        said.err
    );
}

#[test]
fn a_command_line_that_makes_no_sense_ends_with_two() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    for words in [
        vec!["solve"],
        vec!["solve", &demo, "--page", "0"],
        vec!["solve", &demo, "--paths"],
        vec!["solve", &demo, "--units", "yards"],
        vec!["check"],
        vec!["aim", &demo, "--step", "9"],
        vec!["aim", &demo, "--json", "--csv"],
        vec!["compare", &demo, "--choices", "moonball"],
        vec!["sweep", &demo],
        vec!["sweep", &demo, "--cause", "speed", "--from", "inf"],
    ] {
        let said = standpoint(&words);
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{words:?}");
        assert!(!said.err.is_empty());
    }
    let help = standpoint(&["--help"]);
    assert_eq!(help.code, 0);
    for part in ["solve", "check", "compare", "aim", "sweep", "presets", "Exit codes"] {
        assert!(help.out.contains(part), "{part}");
    }
}

#[test]
fn without_a_display_the_window_says_so_and_names_solve() {
    if cfg!(all(unix, not(target_os = "macos"))) {
        let said = standpoint(&[]);
        assert_eq!(said.code, 3);
        assert!(said.err.contains("standpoint solve FILE"), "{}", said.err);
    }
}

#[test]
fn a_reader_that_has_read_enough_is_no_fault() {
    let desk = BoardFolder::new();
    for words in [["solve", "--json"], ["aim", "--csv"], ["compare", "--json"]] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_standpoint"))
            .args([words[0], &desk.demo(), words[1], "--quick"])
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let mut err = String::new();
        child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
        assert_eq!((child.wait().unwrap().code(), err.as_str()), (Some(0), ""), "{words:?}");
    }
}

#[test]
fn presets_lists_every_level_by_the_name_that_a_board_takes() {
    let said = standpoint(&["presets"]);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    let table = standpoint(&["presets", "--csv"]).out;
    let mut csv = csv::Reader::from_reader(table.as_bytes());
    assert_eq!(&csv.headers().unwrap()[0], "level");
    let desk = BoardFolder::new();
    let text = to_text(&Board::demo()).unwrap();
    let mut count = 0;
    for row in csv.records() {
        let row = row.unwrap();
        assert!(said.out.contains(&row[0]) && said.out.contains(&row[1]), "{row:?}");
        let board = desk.file("level.standpoint", &text.replace("Level(Tournament)", &format!("Level({})", &row[0])));
        assert_eq!(standpoint(&["check", &board]).code, 0, "{row:?}");
        count += 1;
    }
    assert_eq!(count, Level::ALL.len());
    assert_eq!(list(&json(&["presets", "--json"]), "/levels").len(), count);
}
