//! From a season's folder to drills, unknown words in imported tables, and the roster, through the accessibility tree.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::path::Path;

use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use standpoint_board::{Board, chart::Setup, roster::Roster};
use standpoint_charting::{
    import::{Mapping, write_chart},
    invented::{self, Habit},
};
use standpoint_geometry::Wing;

use common::{
    app,
    room::{button, drop_file, notes, type_path, until},
    window_of,
};

/// A match as a table: the far player always goes to the middle.
fn table(path: &Path, seed: u64, points: usize, words: bool) {
    let chart = invented::chart(&Setup::of_board(&Board::demo()), seed, points, [Habit::EXPERT, Habit::MIDDLE]);
    let mut bytes = Vec::new();
    write_chart(&chart, &Mapping::default(), &mut bytes).unwrap();
    let mut text = String::from_utf8(bytes).unwrap();
    if words {
        text = text.replace("forehand", "VH").replace("backhand", "rh").replace("topspin", "Zauberball");
    }
    std::fs::write(path, text).unwrap();
}

#[test]
fn a_season_s_folder_becomes_drill_sheets_in_a_few_clicks() {
    let folder = tempfile::tempdir().unwrap();
    let season = folder.path().join("season");
    std::fs::create_dir(&season).unwrap();
    for (day, seed) in [("2026-04-12", 1), ("2026-05-03", 2), ("2026-05-17", 3)] {
        table(&season.join(format!("{day} league.csv")), seed, 24, false);
    }
    std::fs::write(season.join("notes.chart"), "not a chart").unwrap();
    let mut window = window_of(1440.0, 900.0);
    drop_file(&mut window, &season);
    until(&mut window, |window| window.query_by_label("Use 3 matches").is_some());
    assert!(window.query_by_label_contains("notes.chart").is_some(), "a file that cannot be read is told");
    // The coach's clicks: player, matches, report, drills.
    let far = Board::demo().far.name;
    let combo = window.get_all_by_label("Player").find(|n| n.accesskit_node().role() == Role::ComboBox).unwrap();
    combo.click();
    window.run_steps(3);
    button(&mut window, &far);
    button(&mut window, "Use 3 matches");
    let shots = notes(&window).shots();
    assert!(shots > 150, "{shots} shots");
    // The chosen player began at the near end in every match.
    assert_eq!(notes(&window).setup().near.name, far);
    let begin = window.get_all_by_label_contains("Make the report").find(|n| n.accesskit_node().role() == Role::Button);
    begin.unwrap().click();
    until(&mut window, |window| window.query_by_label("Summary").is_some());
    let drills = window.query_all_by_label("Drill sheet…").count();
    assert!(drills > 0, "the middle costs points somewhere");
    window.get_all_by_label("Drill sheet…").next().unwrap().click();
    window.run_steps(3);
    let path = folder.path().join("drills.pdf");
    type_path(&mut window, &path);
    until(&mut window, |_| path.exists());
    assert!(std::fs::read(&path).unwrap().starts_with(b"%PDF"));
    // A finding's shots are shown on the court, and its moments can be rehearsed.
    window.get_all_by_label("Show on the court").next().unwrap().click();
    window.run_steps(3);
    window.get_all_by_label("Rehearse").find(|n| n.accesskit_node().role() == Role::Button).unwrap().click();
    window.run_steps(3);
    assert!(app(&window).rehearsing().is_some());
}

#[test]
fn the_example_season_becomes_next_week_s_three_drills_in_seven_inputs() {
    let folder = tempfile::tempdir().unwrap();
    let season = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/examples/larkfield-season");
    let mut window = window_of(1440.0, 900.0);
    let near = Board::demo().near.name;
    let mut inputs = 0;
    let mut press = |window: &mut common::Window, label: &str| {
        inputs += 1;
        let pressable =
            |n: &egui_kittest::Node<'_>| [Role::Button, Role::ComboBox].contains(&n.accesskit_node().role());
        window.get_all_by_label_contains(label).rfind(pressable).unwrap().click();
        window.run_steps(3);
    };
    drop_file(&mut window, &season);
    until(&mut window, |window| window.query_by_label("Use 4 matches").is_some());
    press(&mut window, "Player");
    press(&mut window, &near);
    press(&mut window, "Use 4 matches");
    press(&mut window, "Make the report");
    until(&mut window, |window| window.query_by_label("Summary").is_some());
    assert_eq!(window.query_all_by_label("Drill sheet…").count(), 3);
    press(&mut window, "Drill sheets for all of them (PDF)…");
    let path = folder.path().join("drills.pdf");
    type_path(&mut window, &path);
    until(&mut window, |_| path.exists());
    // The dropped folder, and the typed or chosen name.
    assert_eq!(inputs + 2, 7);
    let said = std::process::Command::new("pdftotext").args([path.to_str().unwrap(), "-"]).output().unwrap();
    let said = String::from_utf8(said.stdout).unwrap();
    let drills: std::collections::BTreeSet<_> = said
        .lines()
        .map(|line| line.trim_start_matches('\u{c}'))
        .filter(|line| line.starts_with("Recover: "))
        .collect();
    assert!(drills.len() >= 3, "{drills:?}");
}

#[test]
fn words_of_other_people_get_a_meaning_and_shots_are_added() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("words.csv");
    table(&path, 5, 6, true);
    let mut window = window_of(1440.0, 900.0);
    drop_file(&mut window, &path);
    until(&mut window, |window| window.query_by_label("Read the file").is_some());
    // The import recognises the wings but not one stroke word.
    assert!(window.query_by_label("Words of the file: one has no meaning yet").is_some());
    let combo = window.get_all_by_label_contains("Zauberball").find(|n| n.accesskit_node().role() == Role::ComboBox);
    combo.unwrap().click();
    window.run_steps(3);
    button(&mut window, "topspin");
    assert!(window.query_by_label("Words of the file").is_some());
    assert!(window.get_by_label("Places on the court").value().unwrap().contains("first rows"));
    button(&mut window, "Read the file");
    until(&mut window, |window| window.query_by_label_contains("Use these ").is_some());
    let use_them = window.get_by_label_contains("Use these ").accesskit_node().label().unwrap();
    button(&mut window, &use_them);
    let first = notes(&window).shots();
    let wings: Vec<Option<Wing>> =
        notes(&window).points().iter().flat_map(|point| &point.shots).map(|shot| shot.wing).collect();
    assert!(wings.contains(&Some(Wing::Forehand)) && wings.contains(&Some(Wing::Backhand)));
    drop_file(&mut window, &path);
    until(&mut window, |window| window.query_by_label("Read the file").is_some());
    button(&mut window, "Read the file");
    let add = format!("Add to the {first} that are noted");
    until(&mut window, |window| window.query_by_label(&add).is_some());
    button(&mut window, &add);
    assert_eq!(notes(&window).shots(), 2 * first);
}

#[test]
fn a_player_is_kept_in_the_roster_and_put_on_the_board_by_name() {
    let folder = tempfile::tempdir().unwrap();
    let mut window = window_of(1440.0, 900.0);
    let near = Board::demo().near.name;
    common::run(&mut window, "Roster…");
    button(&mut window, "Another folder…");
    type_path(&mut window, folder.path());
    until(&mut window, |window| window.query_by_label(&format!("Keep {near}")).is_some());
    button(&mut window, &format!("Keep {near}"));
    until(&mut window, |_| Roster::read(folder.path()).player(&near).is_some());
    // The same player at the other end.
    button(&mut window, "Far end");
    assert_eq!(app(&window).session().board().far.name, near);
    assert_eq!(app(&window).session().board().far, app(&window).session().board().near);
}
