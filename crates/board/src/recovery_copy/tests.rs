use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};

use glam::DVec2;

use super::*;
use crate::chart::{Chart as MatchChart, ObservedShot, Point, Setup};

fn about(original: &str, kept_at: f64) -> About {
    About { original: (!original.is_empty()).then(|| PathBuf::from(original)), kept_at }
}

fn board(title: &str) -> Work {
    let mut board = Board { title: title.to_owned(), ..Board::demo() };
    board.tidy();
    Work::from(board)
}

/// Leaves a copy as a crash does.
fn crash(folder: &Path, title: &str, kept_at: f64) -> PathBuf {
    let copy = RecoveryCopy::open(folder, Kind::Board).unwrap();
    copy.write(&board(title), &about("/boards/a.standpoint", kept_at)).unwrap();
    copy.path.clone()
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn a_copy_is_offered_after_a_crash_but_not_while_its_window_lives() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join("recovery");
    assert_eq!(find_left(&folder, 0.0), []);
    let copy = RecoveryCopy::open(&folder, Kind::Board).unwrap();
    copy.write(&board("Larkfield, 100 %\u{2028}"), &about("/boards/ü 場/50%.standpoint", 1000.0)).unwrap();
    assert_eq!(find_left(&folder, 1060.0), [], "its window lives");
    drop(copy);
    let left = find_left(&folder, 1060.0);
    let [only] = left.as_slice() else { panic!("{left:?}") };
    assert_eq!((only.title.as_str(), only.process), ("Larkfield, 100 %\u{2028}", std::process::id()));
    assert_eq!(only.original.as_deref(), Some(Path::new("/boards/ü 場/50%.standpoint")));
    assert!((only.age_s - 60.0).abs() < 1e-9 && only.bytes > 1000);
    let (restored, copy) = only.restore().unwrap();
    assert_eq!(restored, board("Larkfield, 100 %\u{2028}"));
    assert_eq!(find_left(&folder, 1060.0), [], "it is this window's now");
    assert!(matches!(only.restore(), Err(RecoveryError::Taken)));
    assert!(matches!(only.discard(), Err(RecoveryError::Taken)));
    copy.write(&board("further"), &About::default()).unwrap();
    copy.close().unwrap();
    assert_eq!(names(&folder), Vec::<String>::new());
}

#[test]
fn discarding_removes_a_copy_and_a_clean_close_leaves_none() {
    let dir = tempfile::tempdir().unwrap();
    crash(dir.path(), "one", 1.0);
    crash(dir.path(), "two", 2.0);
    let left = find_left(dir.path(), 2.0);
    assert_eq!(left.iter().map(|left| left.title.as_str()).collect::<Vec<_>>(), ["two", "one"], "the latest first");
    left[0].discard().unwrap();
    assert!(matches!(left[0].restore(), Err(RecoveryError::Taken)));
    assert_eq!(find_left(dir.path(), 2.0), left[1..]);
    let copy = RecoveryCopy::open(dir.path(), Kind::Board).unwrap();
    copy.write(&board("three"), &About::default()).unwrap();
    copy.remove().unwrap();
    copy.remove().unwrap();
    copy.close().unwrap();
    assert_eq!(find_left(dir.path(), 2.0), left[1..]);
}

#[test]
fn a_window_never_writes_over_what_another_has_left() {
    let dir = tempfile::tempdir().unwrap();
    let paths: Vec<PathBuf> = (0..5).map(|i| crash(dir.path(), &format!("{i}"), f64::from(i))).collect();
    assert!(paths.windows(2).all(|pair| pair[0] != pair[1]));
    assert_eq!(find_left(dir.path(), 9.0).len(), 5);
}

#[test]
fn of_very_many_copies_the_oldest_go_and_locks_without_one_are_swept_up() {
    let dir = tempfile::tempdir().unwrap();
    let text = board("old").text().unwrap();
    for i in 0..COPIES_KEPT + 10 {
        let path = dir.path().join(format!("1-{i}.standpoint"));
        fs::write(path, format!("// title: {i}\n// kept_at: {i}\n{text}")).unwrap();
        fs::write(dir.path().join(format!("2-{i}.lock")), "").unwrap();
    }
    let _open = RecoveryCopy::open(dir.path(), Kind::Board).unwrap();
    let left = find_left(dir.path(), 1e6);
    assert_eq!(left.len(), COPIES_KEPT);
    assert_eq!((left[0].title.as_str(), left[COPIES_KEPT - 1].title.as_str()), ("59", "10"));
    assert_eq!(names(dir.path()).iter().filter(|name| name.ends_with(".lock")).count(), 1);
}

#[test]
fn a_damaged_copy_is_listed_and_refused_with_its_place() {
    let dir = tempfile::tempdir().unwrap();
    let path = crash(dir.path(), "whole", 5.0);
    let bytes = fs::read(&path).unwrap();
    fs::write(&path, &bytes[..bytes.len() / 2]).unwrap();
    fs::write(dir.path().join("7-7.standpoint"), b"\xff\xfe").unwrap();
    let left = find_left(dir.path(), 5.0);
    assert_eq!(left.iter().map(|left| left.title.as_str()).collect::<Vec<_>>(), ["whole", ""]);
    for left in &left {
        let error = left.restore().unwrap_err();
        assert!(matches!(&error, RecoveryError::Load(_)) && error.to_string().contains("line"), "{error}");
        assert!(left.path.exists(), "it stays to be looked at");
    }
}

#[test]
fn a_folder_that_cannot_be_used_is_told() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(dir.path().join("file"), "").unwrap();
    let error = RecoveryCopy::open(&dir.path().join("file/recovery"), Kind::Board).unwrap_err();
    assert!(error.to_string().contains("for recovery copies cannot be used"), "{error}");
    assert!(error.remedy().contains("Save often"));
}

#[test]
fn the_writer_keeps_the_latest_board_and_never_makes_anybody_wait() {
    let dir = tempfile::tempdir().unwrap();
    let gate = Arc::new(Mutex::new(()));
    let closed = gate.lock().unwrap();
    let calls = Arc::new(AtomicUsize::new(0));
    let (theirs, counted) = (Arc::clone(&gate), Arc::clone(&calls));
    let copy = RecoveryCopy::open(dir.path(), Kind::Board).unwrap();
    let path = copy.path().to_owned();
    let writer = RecoveryWriter::start(copy, move |_| {
        counted.fetch_add(1, Ordering::SeqCst);
        drop(theirs.lock());
    })
    .unwrap();
    // The thread is held up after the first copy; all others are queued meanwhile.
    writer.keep(board("first"), about("", 1.0));
    while calls.load(Ordering::SeqCst) == 0 {
        std::thread::yield_now();
    }
    for i in 0..100 {
        writer.keep(board(&format!("{i}")), about("", f64::from(i)));
    }
    drop(closed);
    writer.finish();
    let written = writer.written();
    assert_eq!((written.count, written.kept_at, written.problem), (2, Some(99.0), None));
    assert_eq!(store::load_board(&path).unwrap().title, "99");
    writer.remove();
    writer.finish();
    assert!(!path.exists());
    writer.keep(board("last"), About::default());
    writer.close();
    assert_eq!(names(dir.path()), Vec::<String>::new());
}

#[test]
fn a_writer_that_is_dropped_has_written_what_it_was_given() {
    let dir = tempfile::tempdir().unwrap();
    let writer = RecoveryWriter::start(RecoveryCopy::open(dir.path(), Kind::Board).unwrap(), |_| {}).unwrap();
    writer.keep(board("kept"), about("/b", 3.0));
    drop(writer);
    assert_eq!(find_left(dir.path(), 3.0)[0].title, "kept");
}

#[test]
fn what_cannot_be_written_is_told_and_the_former_copy_stays() {
    let dir = tempfile::tempdir().unwrap();
    let writer = RecoveryWriter::start(RecoveryCopy::open(dir.path(), Kind::Board).unwrap(), |_| {}).unwrap();
    writer.keep(board("good"), About::default());
    writer.finish();
    writer.keep(Board { pages: Vec::new(), ..Board::demo() }.into(), About::default());
    writer.finish();
    let problem = writer.written().problem.unwrap();
    assert!(problem.contains("there is no page"), "{problem}");
    drop(writer);
    assert_eq!(find_left(dir.path(), 0.0)[0].title, "good");
}

#[test]
fn a_chart_is_kept_beside_the_board_and_comes_back_as_a_chart() {
    let dir = tempfile::tempdir().unwrap();
    let mut chart = MatchChart::new(Setup::default());
    let shot = ObservedShot { landing: Some(DVec2::new(1.0, 8.0)), ..ObservedShot::default() };
    chart.points.push(Point { shots: vec![shot], ..Point::default() });
    chart.setup.title = "Larkfield, Sunday".to_owned();
    chart.tidy();
    let copies = [RecoveryCopy::open(dir.path(), Kind::Board), RecoveryCopy::open(dir.path(), Kind::Chart)];
    let [of_board, of_chart] = copies.map(Result::unwrap);
    assert_ne!(of_board.lock, of_chart.lock);
    of_board.write(&board("a board"), &About::default()).unwrap();
    of_chart.write(&Work::from(chart.clone()), &about("/charts/sunday.chart", 7.0)).unwrap();
    drop((of_board, of_chart));
    let left = find_left(dir.path(), 9.0);
    let kinds: Vec<_> = left.iter().map(|left| (left.kind, left.title.as_str())).collect();
    assert_eq!(kinds, [(Kind::Chart, "Larkfield, Sunday"), (Kind::Board, "a board")]);
    let (work, copy) = left[0].restore().unwrap();
    assert_eq!((work, left[0].original.as_deref()), (Work::from(chart), Some(Path::new("/charts/sunday.chart"))));
    copy.close().unwrap();
    left[1].discard().unwrap();
    assert_eq!(names(dir.path()), Vec::<String>::new());
}
