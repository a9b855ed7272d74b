//! Dependencies point one way, from the program down to the geometry. Crates that need no window reach none: geometry
//! uses no window, no file and no clock, the board no window and no clock.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::{Path, PathBuf},
    process::Command,
};

fn workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// All dependencies of a package, direct and indirect, without its dev-dependencies.
fn reached_from(package: &str) -> BTreeSet<String> {
    let output = Command::new(env!("CARGO"))
        .args(["tree", "--offline", "--locked", "--prefix", "none", "--edges", "normal", "--format", "{p}"])
        .args(["--package", package])
        .current_dir(workspace())
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let names = String::from_utf8(output.stdout).unwrap();
    names.lines().filter_map(|line| line.split_whitespace().next()).map(str::to_owned).collect()
}

fn assert_reaches_none(package: &str, banned: &[&str]) {
    let reached = reached_from(package);
    assert!(reached.contains(package), "{reached:?}");
    let found: Vec<&String> =
        reached.iter().filter(|name| banned.iter().any(|prefix| name.starts_with(prefix))).collect();
    assert!(found.is_empty(), "{package} must not depend on {found:?}");
}

/// The sources of a crate, comments and test modules left out.
fn sources(folder: &Path, found: &mut BTreeMap<PathBuf, String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") && !path.ends_with("tests.rs") {
            let text = fs::read_to_string(&path).unwrap();
            let program = text.split("#[cfg(test)]").next().unwrap_or_default();
            let code: Vec<&str> = program.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
            found.insert(path, code.join("\n"));
        }
    }
}

fn assert_mentions_none(package_folder: &str, banned: &[&str]) {
    assert_mentions_none_but(package_folder, banned, "nowhere");
}

/// Like [`assert_mentions_none`], with one exempt file.
fn assert_mentions_none_but(package_folder: &str, banned: &[&str], allowed_in: &str) {
    let mut found = BTreeMap::new();
    sources(&workspace().join(package_folder).join("src"), &mut found);
    assert!(found.len() > 5);
    found.retain(|path, _| !path.ends_with(allowed_in));
    for (path, code) in found {
        for word in banned {
            assert!(!code.contains(word), "{} mentions {word}", path.display());
        }
    }
}

const WINDOWS: &[&str] = &["egui", "eframe", "epaint", "emath", "ecolor", "winit", "rfd", "glow", "wgpu", "accesskit"];
const CLOCKS: &[&str] = &["std::time", "core::time", "SystemTime", "Instant"];

/// The crates from the bottom up, each with the crates of the workspace that it may use.
const ARROWS: &[(&str, &[&str])] = &[
    ("language", &[]),
    ("geometry", &[]),
    ("sheet", &["language"]),
    ("board", &["language", "geometry"]),
    ("charting", &["language", "geometry", "board"]),
    ("workbench", &["language", "geometry", "board", "charting", "sheet"]),
    ("ui", &["language", "geometry", "board", "workbench"]),
    ("canvas", &["language", "geometry", "board", "charting", "workbench", "ui"]),
    ("export", &["language", "geometry", "board", "charting", "sheet", "workbench", "ui", "canvas"]),
    ("chart_room", &["language", "geometry", "board", "charting", "sheet", "workbench", "ui", "canvas"]),
    ("cli", &["language", "geometry", "board", "charting", "sheet", "workbench", "ui", "export"]),
    (
        "app",
        &[
            "language",
            "geometry",
            "board",
            "charting",
            "sheet",
            "workbench",
            "ui",
            "canvas",
            "export",
            "chart_room",
            "cli",
        ],
    ),
];

/// The crates of the workspace among the dependencies of a manifest, without its dev-dependencies.
fn named_in(folder: &str) -> BTreeSet<String> {
    let manifest = fs::read_to_string(workspace().join("crates").join(folder).join("Cargo.toml")).unwrap();
    let needed = manifest.split("\n[dependencies]").nth(1).unwrap_or_default();
    let needed = needed.split("\n[").next().unwrap_or_default();
    let ours = needed.lines().filter_map(|line| line.strip_prefix("standpoint-"));
    ours.filter_map(|rest| rest.split([' ', '.', '=']).next()).map(|name| name.replace('-', "_")).collect()
}

#[test]
fn every_crate_uses_only_crates_below_it() {
    let mut below: Vec<&str> = Vec::new();
    for (name, may) in ARROWS {
        assert!(may.iter().all(|other| below.contains(other)), "an arrow of {name} points up");
        let uses = named_in(name);
        let wrong: Vec<&String> = uses.iter().filter(|other| !may.contains(&other.as_str())).collect();
        assert!(wrong.is_empty(), "{name} must not use {wrong:?}");
        below.push(name);
    }
    let mut there = BTreeSet::new();
    for entry in fs::read_dir(workspace().join("crates")).unwrap() {
        there.insert(entry.unwrap().file_name().into_string().unwrap());
    }
    assert_eq!(there, below.iter().map(|name| (*name).to_owned()).collect(), "a crate without an arrow");
}

/// Crates with a window or its painting code; all others reach neither egui nor a window.
const WITH_WINDOW: &[&str] = &["ui", "canvas", "export", "chart_room", "cli", "app"];
/// Shapes and fonts without egui, which sheets turn into drawings.
const SHAPES: &[&str] = &["epaint", "emath", "ecolor"];

#[test]
fn every_crate_without_a_window_reaches_none() {
    let windows: Vec<&str> = WINDOWS.iter().copied().filter(|name| !SHAPES.contains(name)).collect();
    for (name, _) in ARROWS.iter().filter(|(name, _)| !WITH_WINDOW.contains(name)) {
        assert_reaches_none(&format!("standpoint-{name}"), &windows);
    }
    for name in ["language", "geometry", "board", "charting"] {
        assert_reaches_none(&format!("standpoint-{name}"), SHAPES);
    }
}

#[test]
fn widgets_return_values_and_send_nothing() {
    let mut found = BTreeMap::new();
    sources(&workspace().join("crates/ui/src/widgets"), &mut found);
    assert!(found.len() > 5);
    for (path, code) in found {
        assert!(!code.contains("Outbox") && !code.contains("Action::"), "{} sends actions", path.display());
    }
}

#[test]
fn only_executors_and_the_frame_change_the_document() {
    let mut found = BTreeMap::new();
    for room in ["app/src/panels", "app/src/dialogs", "canvas/src", "chart_room/src", "ui/src"] {
        sources(&workspace().join("crates").join(room), &mut found);
    }
    assert!(found.len() > 50);
    for (path, code) in found {
        for change in ["session.edit(", "session.note(", "session.draw(", "session.arrange(", "&mut Session"] {
            assert!(!code.contains(change), "{} calls {change}", path.display());
        }
    }
}

#[test]
fn the_workbench_reaches_no_window_and_not_the_crates_above_it() {
    assert_reaches_none("standpoint-workbench", &["standpoint-ui", "standpoint-canvas", "clap", "arboard"]);
    assert_mentions_none("crates/workbench", &["egui", "eframe", "epaint", "println!"]);
}

#[test]
fn only_the_program_opens_windows_files_dialogs_and_the_clipboard() {
    for folder in ["ui", "canvas", "export", "chart_room", "cli"] {
        let package = format!("standpoint-{}", folder.replace('_', "-"));
        assert_reaches_none(&package, &["eframe", "winit", "rfd", "arboard"]);
    }
}

#[test]
fn geometry_reaches_no_file_format_no_randomness_and_no_later_crate() {
    let others = ["standpoint-board", "serde", "ron", "rand", "chrono", "directories", "tempfile", "clap"];
    assert_reaches_none("standpoint-geometry", &others);
}

#[test]
fn geometry_knows_no_file_no_clock_no_environment_and_threads_for_the_solve_only() {
    let others = ["std::fs", "std::io", "std::env", "std::net", "std::process", "File::", "println!", "print!"];
    assert_mentions_none("crates/geometry", &others);
    // Only the solve of a rally starts threads, as many as it is given.
    assert_mentions_none_but("crates/geometry", &["std::thread"], "worth/solve.rs");
    assert_mentions_none("crates/geometry", CLOCKS);
}

#[test]
fn the_board_reaches_not_the_program() {
    let reached = reached_from("standpoint-board");
    assert!(reached.contains("standpoint-geometry") && !reached.contains("standpoint-workbench"), "{reached:?}");
}

#[test]
fn the_board_knows_no_clock_and_no_network_and_begins_a_thread_for_copies_only() {
    assert_mentions_none("crates/board", CLOCKS);
    assert_mentions_none("crates/board", &["std::net", "std::env", "println!", "print!", "rayon"]);
    assert_mentions_none_but("crates/board", &["std::thread"], "recovery_copy/writer.rs");
}

#[test]
fn charting_knows_no_clock_and_uses_all_cores_for_audits_only() {
    assert_reaches_none("standpoint-charting", &["standpoint-workbench", "standpoint-sheet", "clap", "arboard"]);
    assert_mentions_none("crates/charting", CLOCKS);
    assert_mentions_none("crates/charting", &["std::net", "std::env", "std::thread", "println!", "print!"]);
    assert_mentions_none_but("crates/charting", &["rayon"], "audit/stream.rs");
}

/// Most lines of a crate, with comments and tests beside the code.
const LARGEST: usize = 15_000;

fn lines_below(folder: &Path) -> usize {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let lines = |path: PathBuf| match path.extension() {
        _ if path.is_dir() => lines_below(&path),
        Some(ending) if ending == "rs" => fs::read_to_string(&path).unwrap().lines().count(),
        _ => 0,
    };
    entries.map(lines).sum()
}

#[test]
fn no_crate_has_grown_too_large() {
    for (name, _) in ARROWS {
        let lines = lines_below(&workspace().join("crates").join(name).join("src"));
        assert!((10..LARGEST).contains(&lines), "{name} has {lines} lines");
    }
}

#[test]
fn sheets_reach_no_board_and_know_no_clock() {
    assert_reaches_none("standpoint-sheet", &["standpoint-board", "standpoint-geometry"]);
    assert_mentions_none("crates/sheet", CLOCKS);
}
