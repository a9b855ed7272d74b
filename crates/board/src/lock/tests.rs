use super::*;

fn ours(claimed: Claimed) -> FileClaim {
    match claimed {
        Claimed::Ours(claim) => claim,
        other => panic!("{other:?}"),
    }
}

fn theirs(claimed: Claimed) -> Holder {
    match claimed {
        Claimed::Theirs(holder) => holder,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_second_window_is_told_who_has_the_board_and_since_when() {
    let dir = tempfile::tempdir().unwrap();
    let (claims, board) = (dir.path().join("claims"), dir.path().join("a.standpoint"));
    let first = ours(claim(&claims, &board, "Mara's window\n", 1000.5));
    let holder = theirs(claim(&claims, &board, "Ivo's window", 1001.0));
    assert_eq!(holder, Holder { process: std::process::id(), who: "Mara's window".to_owned(), since: 1000.5 });
    // Another board is free.
    let _other = ours(claim(&claims, &dir.path().join("b.standpoint"), "Ivo's window", 1001.0));
    drop(first);
    let _second = ours(claim(&claims, &board, "Ivo's window", 1002.0));
    assert_eq!(theirs(claim(&claims, &board, "a third", 1003.0)).who, "Ivo's window");
}

#[cfg(unix)]
#[test]
fn one_file_is_one_file_by_whatever_way_it_is_reached() {
    let dir = tempfile::tempdir().unwrap();
    let claims = dir.path().join("claims");
    std::fs::create_dir(dir.path().join("sub")).unwrap();
    let board = dir.path().join("a.standpoint");
    std::fs::write(&board, "").unwrap();
    std::os::unix::fs::symlink(&board, dir.path().join("link")).unwrap();
    let _held = ours(claim(&claims, &board, "", 0.0));
    theirs(claim(&claims, &dir.path().join("link"), "", 0.0));
    theirs(claim(&claims, &dir.path().join("sub/../a.standpoint"), "", 0.0));
}

#[cfg(unix)]
#[test]
fn claims_given_back_leave_nothing_and_what_dead_processes_left_is_taken_over() {
    let dir = tempfile::tempdir().unwrap();
    let (claims, board) = (dir.path().join("claims"), dir.path().join("a.standpoint"));
    drop(ours(claim(&claims, &board, "", 0.0)));
    assert_eq!(std::fs::read_dir(&claims).unwrap().count(), 0);
    // What a killed process leaves: the file, but no lock.
    let held = ours(claim(&claims, &board, "", 0.0));
    let name = held.path.clone();
    drop(held);
    std::fs::write(&name, "process: 1\nsince: 5\nwho: long dead\n").unwrap();
    let _taken = ours(claim(&claims, &board, "new", 7.0));
    assert_eq!(theirs(claim(&claims, &board, "", 8.0)).who, "new");
}

#[test]
fn a_folder_that_cannot_hold_claims_is_no_obstacle() {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("file");
    std::fs::write(&file, "").unwrap();
    assert!(matches!(claim(&file.join("claims"), &dir.path().join("a"), "", 0.0), Claimed::Unguarded(_)));
}

#[test]
fn of_many_who_claim_at_once_one_has_it() {
    let dir = tempfile::tempdir().unwrap();
    let (claims, board) = (&dir.path().join("claims"), &dir.path().join("a.standpoint"));
    for _ in 0..50 {
        let all: Vec<Claimed> = std::thread::scope(|scope| {
            let threads: Vec<_> = (0..4).map(|_| scope.spawn(move || claim(claims, board, "", 0.0))).collect();
            threads.into_iter().map(|thread| thread.join().unwrap()).collect()
        });
        assert_eq!(all.iter().filter(|claimed| matches!(claimed, Claimed::Ours(_))).count(), 1, "{all:?}");
    }
}
