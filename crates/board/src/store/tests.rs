use super::*;
use crate::problem::ProblemKind;

const ALL_STEPS: [SaveStep; 5] =
    [SaveStep::Create, SaveStep::Write, SaveStep::Sync, SaveStep::Rename, SaveStep::SyncFolder];

/// Names in a folder, sorted.
fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// Saves `text`, failing with `kind` at the `nth` time that `step` comes.
fn save_failing(path: &Path, text: &str, step: SaveStep, nth: usize, kind: ErrorKind) -> Result<(), SaveError> {
    let mut seen = 0;
    save_bytes(path, text.as_bytes(), &mut |at| {
        seen += usize::from(at == step);
        if at == step && seen == nth { Err(kind.into()) } else { Ok(()) }
    })
}

#[test]
fn a_save_that_fails_anywhere_keeps_the_former_file_and_leaves_nothing_behind() {
    let long = "x".repeat(3 * CHUNK);
    for step in ALL_STEPS {
        for nth in [1, 2, 3] {
            let dir = tempfile::tempdir().unwrap();
            let path = dir.path().join("a.standpoint");
            save_text(&path, "former").unwrap();
            let result = save_failing(&path, &long, step, nth, ErrorKind::StorageFull);
            let content = fs::read_to_string(&path).unwrap();
            assert_eq!(names(dir.path()), ["a.standpoint"], "{step:?} {nth}");
            match result {
                Ok(()) => assert!(nth > 1 && step != SaveStep::Write),
                Err(SaveError::Unconfirmed { .. }) => assert!(step == SaveStep::SyncFolder && content == long),
                Err(SaveError::DiskFull(at)) => assert!(at == path && content == "former", "{step:?} {nth}"),
                Err(other) => panic!("{other:?}"),
            }
        }
    }
}

#[test]
fn each_failure_of_the_system_is_told_in_its_own_words() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("a.standpoint");
    let said = |kind| save_failing(&path, "text", SaveStep::Write, 1, kind).unwrap_err().to_string();
    assert!(said(ErrorKind::StorageFull).contains("no room left"));
    assert!(said(ErrorKind::QuotaExceeded).contains("no room left"));
    assert!(said(ErrorKind::PermissionDenied).contains("can only be read"));
    assert!(said(ErrorKind::ReadOnlyFilesystem).contains("can only be read"));
    assert!(said(ErrorKind::NotFound).contains("is not there"));
    assert!(said(ErrorKind::Interrupted).contains("could not be saved"));
}

#[test]
fn places_that_cannot_hold_a_file_are_refused_by_kind() {
    let dir = tempfile::tempdir().unwrap();
    let inside = |name: &str| dir.path().join(name);
    assert!(matches!(save_text(dir.path(), "x"), Err(SaveError::IsFolder(_))));
    assert!(matches!(save_text(Path::new(""), "x"), Err(SaveError::NoName(_))));
    assert!(matches!(save_text(Path::new("/"), "x"), Err(SaveError::IsFolder(_))));
    assert!(matches!(save_text(&inside("gone/a"), "x"), Err(SaveError::NoFolder(_))));
    save_text(&inside("file"), "x").unwrap();
    assert!(matches!(save_text(&inside("file/a"), "x"), Err(SaveError::NoFolder(_))));
    assert!(matches!(load_bytes(dir.path(), 10), Err(LoadError::IsFolder(_))));
    assert!(matches!(load_bytes(&inside("none"), 10), Err(LoadError::NotThere(_))));
    assert!(matches!(load_bytes(&inside("file/a"), 10), Err(LoadError::NotThere(_))));
}

#[test]
fn a_file_larger_than_allowed_is_refused_before_it_is_read() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("huge");
    // A sparse file: it takes no room on the disk, and reading it would take 8 GB of memory.
    File::create(&path).unwrap().set_len(8 << 30).unwrap();
    let LoadError::Content { report, .. } = load_bytes(&path, file::SIZE_LIMIT).unwrap_err() else { panic!() };
    assert_eq!(report.problems[0].kind, ProblemKind::TooLarge { bytes: 8 << 30, limit: file::SIZE_LIMIT });
    save_text(&path, "12345").unwrap();
    assert_eq!(load_bytes(&path, 5).unwrap(), b"12345");
    assert!(load_bytes(&path, 4).is_err());
}

#[cfg(unix)]
mod unix {
    use std::os::unix::fs::{PermissionsExt, symlink};

    use super::*;

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).unwrap().permissions().mode() & 0o777
    }

    #[test]
    fn permissions_stay() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("a");
        for wanted in [0o600, 0o640, 0o664, 0o755] {
            fs::write(&path, "former").unwrap();
            fs::set_permissions(&path, fs::Permissions::from_mode(wanted)).unwrap();
            save_text(&path, "new").unwrap();
            assert_eq!((mode(&path), fs::read_to_string(&path).unwrap().as_str()), (wanted, "new"));
        }
    }

    #[test]
    fn a_file_marked_read_only_is_left_alone() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("a");
        fs::write(&path, "former").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).unwrap();
        assert!(matches!(save_text(&path, "new"), Err(SaveError::ReadOnlyFile(_))));
        assert_eq!(fs::read_to_string(&path).unwrap(), "former");
    }

    #[test]
    fn a_link_stays_a_link_and_its_target_is_replaced() {
        let dir = tempfile::tempdir().unwrap();
        let inside = |name: &str| dir.path().join(name);
        fs::create_dir(inside("far")).unwrap();
        fs::write(inside("far/board"), "former").unwrap();
        symlink("far/board", inside("one")).unwrap();
        symlink(inside("one"), inside("two")).unwrap();
        save_text(&inside("two"), "new").unwrap();
        assert_eq!(fs::read_to_string(inside("far/board")).unwrap(), "new");
        assert!(fs::symlink_metadata(inside("one")).unwrap().is_symlink());
        assert!(fs::symlink_metadata(inside("two")).unwrap().is_symlink());
        symlink("far/fresh", inside("dangling")).unwrap();
        save_text(&inside("dangling"), "first").unwrap();
        assert_eq!(fs::read_to_string(inside("far/fresh")).unwrap(), "first");
        symlink("circle", inside("circle")).unwrap();
        assert!(matches!(save_text(&inside("circle"), "x"), Err(SaveError::Other { .. })));
    }

    #[test]
    fn other_names_of_a_file_are_known_before_it_is_saved_and_keep_the_former_content() {
        let dir = tempfile::tempdir().unwrap();
        let (one, two) = (dir.path().join("one"), dir.path().join("two"));
        fs::write(&one, "former").unwrap();
        assert_eq!((other_names(&one), other_names(&two)), (0, 0));
        fs::hard_link(&one, &two).unwrap();
        assert_eq!((other_names(&one), other_names(&two)), (1, 1));
        save_text(&one, "new").unwrap();
        let read = |path: &Path| fs::read_to_string(path).unwrap();
        assert_eq!((read(&one).as_str(), read(&two).as_str(), other_names(&one)), ("new", "former", 0));
    }

    #[test]
    fn a_device_or_a_pipe_is_neither_written_nor_waited_for() {
        assert!(matches!(save_text(Path::new("/dev/null"), "x"), Err(SaveError::NotAFile(_))));
        assert!(matches!(load_bytes(Path::new("/dev/zero"), 10), Err(LoadError::NotAFile(_))));
        assert!(fs::metadata("/dev/null").is_ok_and(|metadata| !metadata.is_file()));
    }

    #[test]
    fn left_overs_of_killed_saves_are_no_obstacle_and_are_swept_away() {
        let dir = tempfile::tempdir().unwrap();
        let left_over = |count| dir.path().join(format!(".standpoint-{}-{count}.tmp", std::process::id()));
        for count in 0..100 {
            fs::write(left_over(count), "half").unwrap();
        }
        // Kept: a file still in use, and a file of another kind.
        let at_work = File::open(left_over(1000)).or_else(|_| File::create(left_over(1000))).unwrap();
        at_work.lock().unwrap();
        fs::write(dir.path().join(".standpoint-notes"), "mine").unwrap();
        save_text(&dir.path().join("a"), "whole").unwrap();
        assert_eq!(fs::read_to_string(dir.path().join("a")).unwrap(), "whole");
        let own = left_over(1000).file_name().unwrap().to_string_lossy().into_owned();
        let mut stay = [own, ".standpoint-notes".to_owned(), "a".to_owned()];
        stay.sort();
        assert_eq!(names(dir.path()), stay);
    }

    #[test]
    fn many_who_save_one_file_at_once_leave_it_whole() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("a");
        std::thread::scope(|scope| {
            for letter in ["a", "b", "c", "d"] {
                let path = &path;
                scope.spawn(move || {
                    for _ in 0..25 {
                        save_text(path, &letter.repeat(100_000)).unwrap();
                    }
                });
            }
        });
        let text = fs::read_to_string(&path).unwrap();
        assert!(text.len() == 100_000 && text.bytes().all(|byte| byte == text.as_bytes()[0]));
        assert_eq!(names(dir.path()), ["a"]);
    }
}
