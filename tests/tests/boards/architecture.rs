//! Dependencies point one way: app -> board -> geometry. Geometry knows no window, no file and no clock, and the board
//! no window and no clock.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::{Path, PathBuf},
    process::Command,
};

fn workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Everything a package pulls into the program, with what those pull in; without its test helpers.
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

/// The same, with one file in which it is allowed.
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

#[test]
fn geometry_reaches_no_window_no_file_format_no_randomness_and_no_later_crate() {
    assert_reaches_none("standpoint-geometry", WINDOWS);
    let others = ["standpoint-board", "serde", "ron", "rand", "chrono", "directories", "tempfile", "clap"];
    assert_reaches_none("standpoint-geometry", &others);
}

#[test]
fn geometry_knows_no_file_no_clock_no_thread_and_no_environment() {
    let others =
        ["std::fs", "std::io", "std::env", "std::net", "std::process", "std::thread", "File::", "println!", "print!"];
    assert_mentions_none("crates/geometry", &others);
    assert_mentions_none("crates/geometry", CLOCKS);
}

#[test]
fn the_board_reaches_no_window_and_not_the_program() {
    assert_reaches_none("standpoint-board", WINDOWS);
    let reached = reached_from("standpoint-board");
    assert!(reached.contains("standpoint-geometry") && !reached.contains("standpoint"), "{reached:?}");
}

#[test]
fn the_board_knows_no_clock_and_no_network_and_begins_threads_for_copies_and_audits_only() {
    assert_mentions_none("crates/board", CLOCKS);
    assert_mentions_none("crates/board", &["std::net", "std::env", "println!", "print!"]);
    assert_mentions_none_but("crates/board", &["std::thread"], "recovery_copy/writer.rs");
    assert_mentions_none_but("crates/board", &["rayon"], "chart/audit/stream.rs");
}

#[test]
fn sheets_reach_no_window_and_no_board() {
    let windows: Vec<&str> =
        WINDOWS.iter().copied().filter(|name| !["epaint", "emath", "ecolor"].contains(name)).collect();
    assert_reaches_none("standpoint-sheet", &windows);
    assert_reaches_none("standpoint-sheet", &["standpoint-board", "standpoint-geometry"]);
    assert_mentions_none("crates/sheet", CLOCKS);
}
