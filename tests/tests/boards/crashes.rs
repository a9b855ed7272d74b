//! Effects on other windows of a process that runs, is killed, or saves at the same time.

use std::{
    env, fs,
    io::{BufRead, BufReader, Write},
    path::Path,
    process::{Child, Command, Stdio},
};

use standpoint_board::{
    Board,
    lock::{Claimed, claim},
    recovery_copy::{About, Kind, RecoveryCopy, find_left},
    store::{self, OnDisk, SaveError},
};

/// Tells the other process its folder.
const FOLDER: &str = "STANDPOINT_TEST_FOLDER";
const READY: &str = "ready for the end";

fn board(title: &str) -> Board {
    let mut board = Board { title: title.to_owned(), ..Board::demo() };
    board.tidy();
    board
}

#[test]
#[ignore = "the process that the next test kills"]
fn holds_a_board_until_it_is_killed() {
    let folder = env::var_os(FOLDER).expect("started by the test of crashes");
    let folder = Path::new(&folder);
    let original = folder.join("a.standpoint");
    let claimed = claim(&folder.join("claims"), &original, "the window that crashes", 100.0);
    assert!(matches!(claimed, Claimed::Ours(_)));
    let copy = RecoveryCopy::open(&folder.join("recovery"), Kind::Board).unwrap();
    copy.write(&board("unsaved").into(), &About { original: Some(original), kept_at: 160.0 }).unwrap();
    let mut out = std::io::stdout();
    writeln!(out, "{READY}").and_then(|()| out.flush()).unwrap();
    loop {
        std::thread::park();
    }
}

fn other_process(folder: &Path) -> Child {
    let mut process = Command::new(env::current_exe().unwrap())
        .args(["--exact", "crashes::holds_a_board_until_it_is_killed", "--ignored", "--nocapture"])
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(process.stdout.take().unwrap()).lines();
    assert!(lines.any(|line| line.is_ok_and(|line| line.contains(READY))));
    process
}

#[test]
fn what_a_killed_process_had_not_saved_is_found_and_its_claim_taken_over() {
    let dir = tempfile::tempdir().unwrap();
    let (claims, recovery, original) =
        (dir.path().join("claims"), dir.path().join("recovery"), dir.path().join("a.standpoint"));
    store::save_board(&original, &board("saved")).unwrap();
    let mut process = other_process(dir.path());
    let claim_again = || claim(&claims, &original, "the window that is left", 200.0);
    let Claimed::Theirs(holder) = claim_again() else { panic!() };
    assert_eq!((holder.process, holder.who.as_str()), (process.id(), "the window that crashes"));
    assert_eq!(find_left(&recovery, 200.0), [], "its process lives");
    process.kill().unwrap();
    process.wait().unwrap();
    assert!(matches!(claim_again(), Claimed::Ours(_)));
    let left = find_left(&recovery, 200.0);
    assert_eq!((left.len(), left[0].process), (1, process.id()));
    assert_eq!((left[0].age_s, left[0].original.as_deref()), (40.0, Some(original.as_path())));
    let (restored, copy) = left[0].restore().unwrap();
    assert_eq!((restored.title(), store::load_board(&original).unwrap().title.as_str()), ("unsaved", "saved"));
    copy.close().unwrap();
    assert_eq!(fs::read_dir(&recovery).unwrap().count(), 0);
}

#[test]
fn a_window_does_not_save_over_what_another_has_saved() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("a.standpoint");
    store::save_board(&path, &board("first")).unwrap();
    let (_, ours) = store::open_board(&path).unwrap();
    let (_, theirs) = store::open_board(&path).unwrap();
    let theirs = store::save_board_over(&path, &board("other"), Some(&theirs)).unwrap();
    assert_eq!((theirs.compare(&path), ours.compare(&path)), (OnDisk::Same, OnDisk::Changed));
    let error = store::save_board_over(&path, &board("mine!"), Some(&ours)).unwrap_err();
    assert!(matches!(error, SaveError::ChangedOnDisk(_)), "{error:?}");
    assert!(error.to_string().contains("changed by another window") && error.remedy().contains("another name"));
    assert_eq!(store::load_board(&path).unwrap().title, "other");
    // A file touched or copied back counts as unchanged.
    let bytes = fs::read(&path).unwrap();
    fs::write(&path, &bytes).unwrap();
    let theirs = store::save_board_over(&path, &board("again"), Some(&theirs)).unwrap();
    // Saving without a stamp overwrites.
    let mine = store::save_board_over(&path, &board("mine!"), None).unwrap();
    assert_eq!((theirs.compare(&path), mine.compare(&path)), (OnDisk::Changed, OnDisk::Same));
}

#[test]
fn a_file_or_folder_that_is_gone_since_it_was_opened_is_told() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join("stick");
    fs::create_dir(&folder).unwrap();
    let path = folder.join("a.standpoint");
    store::save_board(&path, &board("first")).unwrap();
    let (opened, stamp) = store::open_board(&path).unwrap();
    fs::remove_file(&path).unwrap();
    assert_eq!(stamp.compare(&path), OnDisk::Gone);
    // The drive is gone and its mount point is left: saving there would hide the board.
    let error = store::save_board_over(&path, &opened, Some(&stamp)).unwrap_err();
    assert!(matches!(error, SaveError::GoneFromDisk(_)) && !path.exists(), "{error:?}");
    assert!(error.to_string().contains("no longer there") && error.remedy().contains("Connect the drive again"));
    fs::remove_dir(&folder).unwrap();
    let error = store::save_board_over(&path, &opened, Some(&stamp)).unwrap_err();
    assert!(matches!(error, SaveError::NoFolder(_)), "{error:?}");
}
