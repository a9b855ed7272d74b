//! No answer is ever lost.

use super::*;
use crate::rehearse::{Item, Question, file::tests::some};

fn opened(dir: &Path) -> Log {
    Log::open(&dir.join("rehearsal"), &dir.join("open"), 0.0)
}

fn path(dir: &Path) -> PathBuf {
    dir.join("rehearsal").join(FILE)
}

fn attempt(at: u64) -> Attempt {
    let item = Item::Board { print: at, title: "Page".to_owned() };
    Attempt { at, item, question: Question::Place, score: 55, lost: 0.05, distance: 2.0 }
}

fn others(dir: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(dir.join("rehearsal")).unwrap().map(|entry| entry.unwrap().path());
    let mut paths: Vec<PathBuf> = entries.filter(|other| *other != path(dir)).collect();
    paths.sort();
    paths
}

#[test]
fn answers_are_there_again_after_a_restart() {
    let dir = tempfile::tempdir().unwrap();
    let mut log = opened(dir.path());
    assert!(log.kept() && log.notice().is_none());
    for attempt in some().attempts {
        log.record(attempt);
    }
    drop(log);
    assert_eq!(*opened(dir.path()).history(), some());
}

#[test]
fn a_truncated_file_is_set_aside_byte_for_byte_and_never_written_over() {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir_all(dir.path().join("rehearsal")).unwrap();
    let whole = file::to_text(&some());
    for (i, length) in (0..whole.trim_end().len()).step_by(37).enumerate() {
        let part = &whole.as_bytes()[..length];
        fs::write(path(dir.path()), part).unwrap();
        let before = others(dir.path());
        let mut log = opened(dir.path());
        assert!(log.notice().unwrap().contains("kept aside as"), "{:?}", log.notice());
        log.record(attempt(i as u64));
        let new: Vec<PathBuf> = others(dir.path()).into_iter().filter(|path| !before.contains(path)).collect();
        assert_eq!(new.len(), 1, "{new:?}");
        assert_eq!(fs::read(&new[0]).unwrap(), part);
        drop(log);
        assert_eq!(opened(dir.path()).history().attempts, [attempt(i as u64)]);
    }
}

#[test]
fn a_flipped_bit_loses_no_file() {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir_all(dir.path().join("rehearsal")).unwrap();
    let whole = file::to_text(&some()).into_bytes();
    for i in (0..whole.len()).step_by(23) {
        let mut flipped = whole.clone();
        flipped[i] ^= 1 << (i % 8);
        fs::write(path(dir.path()), &flipped).unwrap();
        let before = others(dir.path());
        let log = opened(dir.path());
        drop(log);
        let new: Vec<PathBuf> = others(dir.path()).into_iter().filter(|path| !before.contains(path)).collect();
        // The file is either still readable in its place, or set aside unchanged.
        let kept = match new.as_slice() {
            [] => fs::read(path(dir.path())).unwrap(),
            [aside] => fs::read(aside).unwrap(),
            more => panic!("{more:?}"),
        };
        assert_eq!(kept, flipped);
    }
}

#[test]
fn a_newer_file_is_left_alone() {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir_all(dir.path().join("rehearsal")).unwrap();
    let newer = "(standpoint_rehearsal: 3, attempts: [], badges: [1])";
    fs::write(path(dir.path()), newer).unwrap();
    let mut log = opened(dir.path());
    assert!(!log.kept() && log.notice().unwrap().contains("version 3"));
    log.record(attempt(1));
    assert_eq!(fs::read_to_string(path(dir.path())).unwrap(), newer);
    assert_eq!(log.history().attempts.len(), 1, "it is remembered while the window is open");
}

#[test]
fn a_second_window_reads_but_does_not_write() {
    let dir = tempfile::tempdir().unwrap();
    let mut first = opened(dir.path());
    first.record(attempt(1));
    let mut second = opened(dir.path());
    assert_eq!(second.history().attempts, [attempt(1)]);
    assert!(!second.kept() && second.notice().unwrap().contains("Another window"));
    second.record(attempt(2));
    first.record(attempt(3));
    drop((first, second));
    assert_eq!(opened(dir.path()).history().attempts, [attempt(1), attempt(3)]);
}

#[test]
fn what_somebody_else_has_written_meanwhile_is_taken_in() {
    let dir = tempfile::tempdir().unwrap();
    let mut log = opened(dir.path());
    log.record(attempt(1));
    // Changed by another machine, as in a synchronised folder.
    let elsewhere = History { attempts: vec![attempt(1), attempt(2)] };
    fs::write(path(dir.path()), file::to_text(&elsewhere)).unwrap();
    log.record(attempt(3));
    drop(log);
    assert_eq!(opened(dir.path()).history().attempts, [attempt(1), attempt(2), attempt(3)]);
}

#[test]
fn a_folder_in_the_way_is_told_and_left() {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir_all(path(dir.path())).unwrap();
    let log = opened(dir.path());
    assert!(!log.kept() && log.notice().unwrap().contains("is a folder"), "{:?}", log.notice());
}
