//! `audit`, run as a person or a script would.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod cli_support;

use std::{
    fs,
    io::Write as _,
    process::{Command, Stdio},
};

use serde_json::Value;
use standpoint_board::{
    Board,
    chart::{Chart, Setup, file as chart_file},
};
use standpoint_charting::{
    import::{Mapping, Sides, write_chart},
    invented::{self, Habit},
};

use cli_support::{BoardFolder, json, list, number, standpoint, word};

/// A few points between two players with different habits.
fn chart(points: usize) -> Chart {
    invented::chart(&Setup::default(), 7, points, [Habit::EXPERT, Habit::MIDDLE])
}

fn table(chart: &Chart, mapping: &Mapping) -> String {
    let mut table = Vec::new();
    write_chart(chart, mapping, &mut table).unwrap();
    String::from_utf8(table).unwrap()
}

/// The file with two bad rows in it, and how many rows it has.
fn with_slips(desk: &BoardFolder, chart: &Chart) -> (String, usize) {
    let mut lines: Vec<String> = table(chart, &Mapping::default()).lines().map(str::to_owned).collect();
    lines.insert(3, lines[2].replacen("near", "upstairs", 1).replacen("far", "upstairs", 1));
    lines.insert(5, "one cell".to_owned());
    let rows = lines.len() - 1;
    (desk.file("slips.csv", &(lines.join("\n") + "\n")), rows)
}

fn records(text: &str) -> (Vec<String>, Vec<Vec<String>>) {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let texts = |record: &csv::StringRecord| record.iter().map(str::to_owned).collect::<Vec<_>>();
    let heading = texts(reader.headers().unwrap());
    (heading, reader.records().map(|row| texts(&row.unwrap())).collect())
}

#[test]
fn the_report_names_the_habit_of_each_player() {
    let desk = BoardFolder::new();
    let chart = chart(24);
    let file = desk.file("sunday.csv", &table(&chart, &Mapping::default()));
    let said = standpoint(&["audit", &file]);
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{}", said.out);
    let (near, far) = said.out.split_once("\nFar player").unwrap();
    assert!(near.contains("to where the model says: ") && far.contains("to the middle, whatever the ball: "));
    assert!(near.contains(&format!("{} shots in 24 points", chart.shots())), "{near}");
    for part in ["estimates of a model", "The moments that cost most", "topspin", "cross-court"] {
        assert!(said.out.contains(part), "{part} is missing in\n{}", said.out);
    }
}

#[test]
fn every_row_is_told_whether_it_can_be_read_or_not() {
    let desk = BoardFolder::new();
    let (file, rows) = with_slips(&desk, &chart(3));
    let said = standpoint(&["audit", &file, "--csv"]);
    assert_eq!(said.code, 1);
    let (heading, table) = records(&said.out);
    assert_eq!(table.len(), rows, "a row of the answer for each row of the file");
    let column = |name: &str| heading.iter().position(|h| h == name).unwrap();
    let bad: Vec<&str> = table
        .iter()
        .filter(|row| row[column("outcome")] == "bad_row")
        .map(|row| row[column("line")].as_str())
        .collect();
    assert_eq!(bad, ["4", "6"]);
    let lines: Vec<u64> = table.iter().map(|row| row[column("line")].parse().unwrap()).collect();
    assert_eq!(lines, (2..rows as u64 + 2).collect::<Vec<_>>(), "in the order of the file");
    for part in [
        "slips.csv:4: column `hitter`: `upstairs` is not one of the names allowed here — Write one of `near`, `far`",
        "slips.csv:6: the row has 1 cells, the heading 37 — Add the missing cells",
        "2 rows of",
    ] {
        assert!(said.err.contains(part), "{part} is missing in\n{}", said.err);
    }
}

#[test]
fn bad_rows_and_the_summary_go_to_files_of_their_own() {
    let desk = BoardFolder::new();
    let (file, _) = with_slips(&desk, &chart(3));
    let paths = ["answer.json", "summary.csv", "bad.csv"].map(|name| desk.path(name).to_str().unwrap().to_owned());
    let options = ["--json", "-o", &paths[0], "--summary", &paths[1], "--bad-rows", &paths[2]];
    let said = standpoint(&[["audit", &file].as_slice(), &options].concat());
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    let answer: Value = serde_json::from_str(&fs::read_to_string(&paths[0]).unwrap()).unwrap();
    assert_eq!(list(&answer, "/bad_rows").len(), 2);
    let (_, bad) = records(&fs::read_to_string(&paths[2]).unwrap());
    assert_eq!((bad[0][0].as_str(), bad[0][1].as_str(), bad.len()), ("4", "hitter", 2));
    assert!(bad.iter().all(|row| !row[2].is_empty() && !row[3].is_empty()), "{bad:?}");
    let (heading, groups) = records(&fs::read_to_string(&paths[1]).unwrap());
    assert_eq!(heading[..4], ["player", "by", "group", "shots"]);
    let of = |player: &str| groups.iter().find(|row| row[0] == player && row[1] == "all").unwrap()[3].clone();
    let shots: usize = ["near", "far"].iter().map(|player| of(player).parse::<usize>().unwrap()).sum();
    assert_eq!(shots, list(&answer, "/shots").len());
}

#[test]
fn json_is_one_object_with_shots_and_report() {
    let desk = BoardFolder::new();
    let file = desk.file("sunday.csv", &table(&chart(3), &Mapping::default()));
    let answer = json(&["audit", &file, "--json"]);
    let shots = list(&answer, "/shots");
    assert_eq!((&answer["report"]["shots"], &answer["standpoint_audit"]), (&shots.len().into(), &1.into()));
    let judged = shots.iter().find(|shot| shot["outcome"] == "judged").unwrap();
    // The signed errors match the differences of the places.
    let of = |name: &str| number(judged, &format!("/{name}"));
    assert!((of("across_spot") - (of("stood_x") - of("spot_x"))).abs() < 2e-4);
    assert!((of("along_spot") - (of("spot_y") - of("stood_y"))).abs() < 2e-4);
    assert!(word(&answer, "/report/estimate").contains("estimate of a model"));
}

#[test]
fn a_chart_a_table_and_what_is_piped_in_give_one_answer() {
    let desk = BoardFolder::new();
    let mut chart = chart(3);
    chart.tidy();
    let path = desk.path("sunday.chart");
    chart_file::save(&path, &chart).unwrap();
    let text = table(&chart, &Mapping::default());
    let of_chart = json(&["audit", path.to_str().unwrap(), "--json"]);
    let of_table = json(&["audit", &desk.file("sunday.csv", &text), "--json"]);
    let mut program = Command::new(env!("CARGO_BIN_EXE_standpoint"))
        .args(["audit", "-", "--json", "--quick"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    program.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    let piped: Value = serde_json::from_slice(&program.wait_with_output().unwrap().stdout).unwrap();
    assert_eq!(list(&piped, "/shots"), list(&of_table, "/shots"));
    let spots = |answer: &Value| -> Vec<Option<f64>> {
        list(answer, "/shots").iter().map(|shot| shot["spot_x"].as_f64()).collect()
    };
    let (a, b) = (spots(&of_chart), spots(&of_table));
    assert!(a.len() == b.len() && a.iter().zip(&b).all(|(a, b)| a.zip(*b).is_none_or(|(a, b)| (a - b).abs() < 0.02)));
    assert_eq!(of_chart["shots"][0]["line"], Value::Null);
}

#[test]
fn columns_of_any_name_are_mapped_on_the_command_line_or_in_a_file() {
    let desk = BoardFolder::new();
    let mut mapping = Mapping { sides: Sides::HitterNear, ..Mapping::default() };
    mapping.columns.insert(standpoint_charting::import::Column::ContactX, "hit x".to_owned());
    mapping.separator = Some(';');
    let chart = chart(2);
    let file = desk.file("other.csv", &table(&chart, &mapping));
    let own = desk.file("own.csv", &table(&chart, &Mapping::default()));
    let refused = standpoint(&["audit", &file]);
    assert_eq!(refused.code, 1);
    assert!(refused.err.contains("no column for `contact_x`") && refused.err.contains("--map contact_x=HEADING"));
    let mapped = json(&["audit", &file, "--map", "contact_x=hit x", "--sides", "hitter-near", "--json"]);
    let kept = desk.file("ours.ron", "(columns: {contact_x: \"hit x\"}, sides: hitter_near)");
    let by_file = json(&["audit", &file, "--mapping", &kept, "--json"]);
    assert_eq!(list(&mapped, "/shots"), list(&by_file, "/shots"));
    let plain = json(&["audit", &own, "--json"]);
    let spots = |answer: &Value| list(answer, "/shots").iter().map(|shot| shot["spot_x"].clone()).collect::<Vec<_>>();
    assert_eq!(spots(&mapped), spots(&plain));
}

#[test]
fn players_are_those_of_a_board_or_of_a_level() {
    let desk = BoardFolder::new();
    let file = desk.file("sunday.csv", &table(&chart(2), &Mapping::default()));
    let name = |answer: &Value| word(answer, "/report/players/0/name").to_owned();
    let of_board = json(&["audit", &file, "--players", &desk.demo(), "--json"]);
    assert_eq!(name(&of_board), Board::demo().near.name);
    let of_levels = json(&["audit", &file, "--players", "club,pro_man", "--json"]);
    assert_eq!(word(&of_levels, "/report/players/0/level"), "club");
    assert_eq!(word(&of_levels, "/report/players/1/level"), "pro_man");
    let nobody = standpoint(&["audit", &file, "--players", "clubb", "--json"]);
    assert_eq!(nobody.code, 1);
    assert!(nobody.err.contains("`clubb` is neither a file nor a level"));
    let told: Value = serde_json::from_str(&nobody.out).unwrap();
    assert_eq!(word(&told, "/error/kind"), "players");
}

#[test]
fn what_cannot_be_read_or_written_is_told_with_the_remedy() {
    let desk = BoardFolder::new();
    let file = desk.file("sunday.csv", &table(&chart(1), &Mapping::default()));
    let gone = standpoint(&["audit", desk.path("gone.csv").to_str().unwrap()]);
    assert_eq!(gone.code, 1);
    assert!(gone.err.contains("there is no file"), "{}", gone.err);
    let bare = standpoint(&["audit", &desk.file("bare.csv", "1,2,3\n4,5,6\n")]);
    assert!(bare.code == 1 && bare.err.contains("there is no heading"), "{}", bare.err);
    let folder = desk.path("not/there/answer.csv");
    let nowhere = standpoint(&["audit", &file, "--csv", "-o", folder.to_str().unwrap()]);
    assert!(nowhere.code == 1 && nowhere.err.contains("is not there"), "{}", nowhere.err);
    let chart = standpoint(&["audit", &desk.file("bad.chart", "(standpoint_chart: 1, title: 3)")]);
    assert!(chart.code == 1 && chart.err.contains("bad.chart:1:"), "{}", chart.err);
}

/// Ctrl-C sends this signal to the program.
#[cfg(unix)]
#[test]
fn a_wish_to_stop_keeps_what_is_done_and_the_former_file_as_it_was() {
    use std::time::{Duration, Instant};

    let desk = BoardFolder::new();
    // More points than the audit can compute while this test waits.
    let text = table(&chart(4), &Mapping::default());
    let (heading, rows) = text.split_once('\n').unwrap();
    let file = desk.file("season.csv", &format!("{heading}\n{}", rows.repeat(4000)));
    let answer = desk.file("answer.csv", "the former answer");
    let folder = desk.path("");
    let grown = || -> u64 {
        let entries = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap());
        let growing = entries.filter(|entry| {
            !["season.csv", "answer.csv"].iter().any(|known| entry.file_name().to_string_lossy() == *known)
        });
        growing.map(|entry| entry.metadata().map_or(0, |of| of.len())).sum()
    };
    let part = desk.path("part.json");
    let program = Command::new(env!("CARGO_BIN_EXE_standpoint"))
        .args(["audit", &file, "--quick", "--csv", "--output", &answer, "--part", part.to_str().unwrap()])
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let began = Instant::now();
    // Written output means that the first rows have been computed.
    while grown() == 0 {
        assert!(began.elapsed() < Duration::from_secs(60), "the audit has not begun");
        std::thread::sleep(Duration::from_millis(5));
    }
    let sent = Command::new("kill").args(["-INT", &program.id().to_string()]).status().unwrap();
    assert!(sent.success());
    let done = program.wait_with_output().unwrap();
    assert_eq!(done.status.code(), Some(130));
    let said = String::from_utf8(done.stderr).unwrap();
    assert!(said.contains("stopped before the end; the first ") && said.contains("answer.stopped.csv"), "{said}");
    assert_eq!(fs::read_to_string(&answer).unwrap(), "the former answer");
    assert!(!part.exists());
    let (heading, kept) = records(&fs::read_to_string(desk.path("answer.stopped.csv")).unwrap());
    let line = heading.iter().position(|name| name == "line").unwrap();
    let lines: Vec<u64> = kept.iter().map(|row| row[line].parse().unwrap()).collect();
    assert_eq!(lines, (2..kept.len() as u64 + 2).collect::<Vec<_>>(), "every row up to the last, and each whole");
    assert!(said.contains(&format!("the first {} rows are done", kept.len())), "{said}");
    let whole = json(&["audit", "--merge", desk.path("part.stopped.json").to_str().unwrap(), "--json"]);
    assert_eq!(whole["report"]["rows"], kept.len());
}

#[test]
fn parts_put_together_say_what_the_whole_says() {
    let desk = BoardFolder::new();
    let chart = chart(12);
    let text = table(&chart, &Mapping::default());
    let (heading, rows) = text.split_once('\n').unwrap();
    let rows: Vec<&str> = rows.lines().collect();
    let first = chart.points[..5].iter().map(|point| point.shots.len()).sum();
    let parts = [&rows[..first], &rows[first..]].map(|rows| format!("{heading}\n{}\n", rows.join("\n")));
    let [a, b, all] = ["a.json", "b.json", "all.json"].map(|name| desk.path(name).to_str().unwrap().to_owned());
    let whole = standpoint(&["audit", &desk.file("rows.csv", &text), "--json", "--part", &all]);
    for (rows, part) in parts.iter().zip([&a, &b]) {
        let said = standpoint(&["audit", &desk.file("rows.csv", rows), "--part", part]);
        assert_eq!((said.code, said.err.as_str()), (0, ""));
    }
    let merged = desk.path("merged.json");
    let said = standpoint(&["audit", "--merge", &a, &b, "--part", merged.to_str().unwrap()]);
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{}", said.out);
    assert!(said.out.contains("2 parts") && said.out.contains("What it shows"), "{}", said.out);
    assert!(fs::read(&merged).unwrap() == fs::read(&all).unwrap(), "not the same to the last digit");
    let whole: Value = serde_json::from_str(&whole.out).unwrap();
    let merged = json(&["audit", "--json", "--merge", &a, &b]);
    let figures = |answer: &Value, player: usize| answer["report"]["players"][player]["all"].clone();
    for player in [0, 1] {
        assert_eq!(figures(&merged, player), figures(&whole, player));
    }
    let other = desk.path("other.json");
    let said =
        standpoint(&["audit", &desk.file("w.csv", &text), "--players", "club", "--part", other.to_str().unwrap()]);
    assert_eq!(said.code, 0);
    let said = standpoint(&["audit", "--merge", &a, other.to_str().unwrap()]);
    assert!(said.code == 1 && said.err.contains("other.json: the summaries are of different players"), "{}", said.err);
    let said = standpoint(&["audit", "--merge", desk.path("w.csv").to_str().unwrap()]);
    assert!(said.code == 1 && said.err.contains("this is not the summary of a report"), "{}", said.err);
    assert_eq!(standpoint(&["audit", "--merge", &a, "--csv"]).code, 2);
}

#[test]
fn findings_come_first_with_interval_and_number() {
    let desk = BoardFolder::new();
    // A player who always recovers to the middle against a player who follows the model.
    let chart = chart(160);
    let said = standpoint(&["audit", &desk.file("long.csv", &table(&chart, &Mapping::default()))]);
    let (before, _) = said.out.split_once("\nNear player").unwrap();
    let (_, told) = before.split_once("What it shows").unwrap();
    for line in told.lines().filter(|line| !line.trim().is_empty()) {
        let nothing = line.contains("Nothing that the evidence carries");
        assert!(nothing || line.contains(" points in 100 given away (") && line.contains(" shots."), "{line}");
    }
    assert!(!told.contains("Near player"), "who stands where the model says has no finding:\n{told}");
    assert!(told.contains("1. Far player. "), "{told}");
}

#[test]
fn the_points_of_a_chart_come_as_chapters_and_as_a_table() {
    let desk = BoardFolder::new();
    let mut chart = chart(2);
    for (index, point) in chart.points.iter_mut().enumerate() {
        point.session.clear();
        for (number, shot) in point.shots.iter_mut().enumerate() {
            shot.time = Some(60.0 * index as f64 + number as f64 + 10.0);
            shot.met_time = None;
        }
    }
    let last = chart.points[0].shots.len() as f64 + 9.0;
    let path = desk.path("sunday.chart");
    chart_file::save(&path, &chart).unwrap();
    let file = path.to_str().unwrap();
    let said = standpoint(&["moments", file]);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    // 1.5 s before the first stroke and 2.5 s after the last, as `docs/charting.md` says.
    let cue = format!("00:00:08.500 --> 00:00:{:06.3}\nPoint ", last + 2.5);
    assert!(said.out.starts_with("WEBVTT\n") && said.out.contains(&cue), "{}", said.out);
    let table = desk.path("moments.csv");
    let said = standpoint(&["moments", file, "--csv", "-o", table.to_str().unwrap()]);
    assert_eq!((said.code, said.out.as_str()), (0, ""));
    let (heading, rows) = records(&fs::read_to_string(&table).unwrap());
    assert_eq!((heading[0].as_str(), rows.len(), rows[1][0].as_str()), ("start_s", 2, "68.500"));
    chart.points[1].shots.iter_mut().for_each(|shot| shot.time = None);
    chart_file::save(&path, &chart).unwrap();
    let said = standpoint(&["moments", file]);
    assert!(said.code == 1 && said.err.contains("point 2: no time was noted — Note the time"), "{}", said.err);
}

/// The text of a PDF, read by an independent tool (poppler's `pdftotext`).
fn text_of(path: &std::path::Path) -> String {
    let output = Command::new("pdftotext").args(["-layout", path.to_str().unwrap(), "-"]).output().unwrap();
    assert!(output.status.success());
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn the_report_to_be_printed_has_figures_moments_and_bad_rows() {
    let desk = BoardFolder::new();
    let (file, _) = with_slips(&desk, &chart(4));
    let (pdf, summary) = (desk.path("report.pdf"), desk.path("summary.csv"));
    let options =
        ["--pdf", pdf.to_str().unwrap(), "--paper", "letter", "--summary", summary.to_str().unwrap(), "--csv"];
    let said = standpoint(&[["audit", &file].as_slice(), &options].concat());
    assert_eq!(said.code, 1);
    let text = text_of(&pdf);
    for part in
        ["Near player", "Far player", "The moments that cost most", "Rows that could not be read: 2", "upstairs"]
    {
        assert!(text.contains(part), "{part} is missing in\n{text}");
    }
    assert!(text.contains("Estimates of a model for these two players. A qualified coach decides."));
    // The same figure as in the summary, for every shot of the near player.
    let (heading, groups) = records(&fs::read_to_string(&summary).unwrap());
    let column = heading.iter().position(|name| name == "avoidable").unwrap();
    let near = groups.iter().find(|row| row[0] == "near" && row[1] == "all").unwrap();
    let cost = format!("{:.1}", 100.0 * near[column].parse::<f64>().unwrap());
    assert!(text.contains(&cost), "{cost} is missing in\n{text}");
}

#[test]
fn the_chart_of_a_board_is_audited_and_a_board_without_one_says_so() {
    let desk = BoardFolder::new();
    let mut board = Board::demo();
    let without = desk.board("without.standpoint", &board);
    let mut chart = invented::chart(&Setup::of_board(&board), 3, 1, [Habit::EXPERT; 2]);
    chart.tidy();
    let alone = desk.file("alone.chart", &chart_file::to_text(&chart).unwrap());
    let shots = chart.shots();
    board.chart = Some(chart.into());
    let with = desk.board("with.standpoint", &board);
    assert_eq!(standpoint(&["audit", &with, "--csv"]).out, standpoint(&["audit", &alone, "--csv"]).out);
    let refused = standpoint(&["audit", &without]);
    assert_eq!(refused.code, 1);
    assert!(refused.err.contains("no notes of a match are kept with this board"), "{}", refused.err);
    let checked = standpoint(&["check", &with, &alone]).out;
    assert_eq!(checked.lines().filter(|line| line.contains(&format!("ok, {shots} charted shots"))).count(), 2);
}

/// The invented season shipped with the program: a player with three habits that cost points.
fn example_season() -> String {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/examples/larkfield-season");
    folder.to_str().unwrap().to_owned()
}

#[test]
fn a_season_s_folder_becomes_next_week_s_three_drills_by_one_command() {
    let desk = BoardFolder::new();
    let (pdf, board) = (desk.path("drills.pdf"), desk.path("drills.standpoint"));
    let season = example_season();
    let said = standpoint(&["audit", &season, "--player", "near", "--drills", pdf.to_str().unwrap()]);
    assert_eq!(said.code, 0, "{}", said.err);
    assert!(said.err.contains("4 matches of Near player"), "{}", said.err);
    let found = said.out.lines().filter(|line| line.contains(" points in 100 given away (")).count();
    assert_eq!(found, 3, "{}", said.out);
    let text = text_of(&pdf);
    for part in ["Recover: from the left", "Feed", "Targets", "Progression", "A qualified coach decides"] {
        assert!(text.contains(part), "{part} is missing in\n{text}");
    }
    // The same as an editable board, with or without a named player.
    let said = standpoint(&["audit", &season, "--drills", board.to_str().unwrap()]);
    assert_eq!(said.code, 0, "{}", said.err);
    let drills = standpoint_board::store::load_board(&board).unwrap();
    assert!(drills.pages.len() == 3 && drills.pages.iter().all(|page| !page.drill.is_empty()));
    // A player who stands where the model says gets no drills, and no file is written.
    let none = desk.path("none.pdf");
    let said = standpoint(&["audit", &season, "--player", "far", "--drills", none.to_str().unwrap()]);
    assert!(
        said.code == 1 && said.err.contains("there is nothing to make drills of") && !none.exists(),
        "{}",
        said.err
    );
    let nobody = standpoint(&["audit", &season, "--player", "Nobody"]);
    assert!(nobody.code == 1 && nobody.err.contains("Write one of `Far player`, `Near player`"), "{}", nobody.err);
}

#[test]
fn what_cannot_be_read_of_a_season_is_told_and_the_rest_is_audited() {
    let desk = BoardFolder::new();
    let chart = chart(3);
    let season = desk.path("season");
    fs::create_dir(&season).unwrap();
    let place = |name: &str| season.join(name);
    fs::write(place("2026-04-12 cup.csv"), table(&chart, &Mapping::default())).unwrap();
    fs::copy(with_slips(&desk, &chart).0, place("2026-05-03 cup.csv")).unwrap();
    fs::write(place("notes.chart"), "not a chart").unwrap();
    let said = standpoint(&["audit", season.to_str().unwrap(), "--json"]);
    assert_eq!(said.code, 1);
    for part in ["notes.chart: ", "2026-05-03 cup.csv:4: column `hitter`", "2 rows of", "2 matches of Near player"] {
        assert!(said.err.contains(part), "{part} is missing in\n{}", said.err);
    }
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    assert!(list(&answer, "/shots").len() > chart.shots());
    fs::remove_dir_all(&season).unwrap();
    fs::create_dir(&season).unwrap();
    let empty = standpoint(&["audit", season.to_str().unwrap()]);
    assert!(empty.code == 1 && empty.err.contains("there is no match in it — Put charts or CSV files into it"));
}
