//! Runs the program as a person or a script would.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]
#![allow(dead_code, reason = "each file of tests uses its part")]

use std::{
    path::{Path, PathBuf},
    process::Command,
    sync::Arc,
};

use serde_json::Value;
use standpoint_board::{Board, ShotSpec, store::save_board};
use standpoint_geometry::{End, ReceiptChoice};
use tempfile::TempDir;

/// The program's output.
pub struct Said {
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// Commands whose answers use the solved rally, unless they are run in the quick mode.
const SOLVING: [&str; 5] = ["solve", "compare", "aim", "sweep", "audit"];

/// Runs the program with these arguments. No test waits for a rally to be solved.
pub fn standpoint(words: &[&str]) -> Said {
    let quick = words.first().is_some_and(|command| SOLVING.contains(command)).then_some("--quick");
    let words: Vec<&str> = words.iter().copied().chain(quick).collect();
    run(&words, Path::new("no-such-folder"))
}

/// Runs the program with a folder for its stored data.
pub fn run(words: &[&str], cache: &Path) -> Said {
    let output = Command::new(env!("CARGO_BIN_EXE_standpoint"))
        .args(words)
        .env(standpoint_workbench::solved::CACHE_DIR_VARIABLE, cache)
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .output()
        .unwrap();
    Said {
        code: output.status.code().unwrap(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// Everything that can be swept.
pub const CAUSES: [&str; 7] = [
    "opponent-wide",
    "opponent-depth",
    "contact-height",
    "contact-depth",
    "contact-wide",
    "speed",
    "opponent-backhand",
];

/// A temporary folder of boards, deleted after the test.
pub struct BoardFolder(TempDir);

impl BoardFolder {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// Saves a board and gives its path.
    pub fn board(&self, name: &str, board: &Board) -> String {
        let path = self.path(name);
        save_board(&path, board).unwrap();
        text(&path)
    }

    /// Writes any text and gives its path.
    pub fn file(&self, name: &str, content: &str) -> String {
        let path = self.path(name);
        std::fs::write(&path, content).unwrap();
        text(&path)
    }

    /// The demo board's path.
    pub fn demo(&self) -> String {
        self.board("demo.standpoint", &Board::demo())
    }
}

fn text(path: &Path) -> String {
    path.to_str().unwrap().to_owned()
}

/// The JSON answer of a run that must succeed.
pub fn json(words: &[&str]) -> Value {
    let said = standpoint(words);
    assert_eq!(said.code, 0, "{words:?}: {}", said.err);
    assert_eq!(said.err, "", "{words:?}");
    serde_json::from_str(&said.out).unwrap()
}

/// A number at a path like `/spot/x`.
pub fn number(value: &Value, at: &str) -> f64 {
    value.pointer(at).and_then(Value::as_f64).unwrap_or_else(|| panic!("no number at {at}"))
}

/// A text at a path.
pub fn word<'v>(value: &'v Value, at: &str) -> &'v str {
    value.pointer(at).and_then(Value::as_str).unwrap_or_else(|| panic!("no text at {at}"))
}

/// A list at a path.
pub fn list<'v>(value: &'v Value, at: &str) -> &'v [Value] {
    value.pointer(at).and_then(Value::as_array).unwrap_or_else(|| panic!("no list at {at}"))
}

/// The demo board with its shot changed.
pub fn demo_with(change: impl FnOnce(&mut ShotSpec)) -> Board {
    let mut board = Board::demo();
    change(&mut Arc::make_mut(&mut board.pages[0]).shots[0]);
    board
}

/// The board mirrored from left to right.
pub fn mirrored(mut board: Board) -> Board {
    board.near.hand = board.near.hand.mirrored();
    board.far.hand = board.far.hand.mirrored();
    change_shots(&mut board, |spec| {
        for_each_place(spec, |p| p.x = -p.x);
        spec.shot.contact.x = -spec.shot.contact.x;
        spec.shot.sidespin = -spec.shot.sidespin;
    });
    board
}

/// The board from the other end: near and far are swapped.
pub fn turned(mut board: Board) -> Board {
    std::mem::swap(&mut board.near, &mut board.far);
    change_shots(&mut board, |spec| {
        for_each_place(spec, |p| *p = -*p);
        spec.shot.contact = End::Far.turn3(spec.shot.contact);
        spec.hitter_end = spec.hitter_end.other();
    });
    board
}

fn change_shots(board: &mut Board, change: impl Fn(&mut ShotSpec)) {
    for page in &mut board.pages {
        Arc::make_mut(page).shots.iter_mut().for_each(&change);
    }
}

fn for_each_place(spec: &mut ShotSpec, change: impl Fn(&mut glam::DVec2)) {
    change(&mut spec.shot.target);
    change(&mut spec.opponent_place);
    spec.hitter_place.iter_mut().for_each(&change);
    spec.recover_to.iter_mut().for_each(&change);
    if let ReceiptChoice::Near(place) = &mut spec.receipt {
        change(place);
    }
}
