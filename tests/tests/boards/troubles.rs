//! A full disk, a read-only folder, a drive that is gone: each gives a clear message, and nothing is lost.

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
    sync::Arc,
};

use standpoint_board::{
    Board, file,
    store::{self, SaveError},
};

/// A small file system of its own; `None`, with the reason printed, where this user may not mount one.
struct Drive {
    folder: PathBuf,
    _parent: tempfile::TempDir,
}

impl Drive {
    fn of_kib(kib: u32) -> Option<Self> {
        let parent = tempfile::tempdir().unwrap();
        let folder = parent.path().join("drive");
        fs::create_dir(&folder).unwrap();
        let drive = Self { folder, _parent: parent };
        let mounted = drive.mount(&["-t", "tmpfs", "-o", &format!("size={kib}k"), "tmpfs"]);
        if !mounted {
            eprintln!("skipped: this user may not mount a file system to fill");
        }
        mounted.then_some(drive)
    }

    fn mount(&self, options: &[&str]) -> bool {
        Command::new("mount").args(options).arg(&self.folder).output().is_ok_and(|output| output.status.success())
    }

    fn unmount(&self) -> bool {
        Command::new("umount").arg(&self.folder).output().is_ok_and(|output| output.status.success())
    }
}

impl Drop for Drive {
    fn drop(&mut self) {
        self.unmount();
    }
}

fn large() -> Board {
    let mut board = Board::demo();
    board.pages = (0..200).map(|_| Arc::clone(&board.pages[0])).collect();
    board.tidy();
    board
}

fn names(folder: &Path) -> Vec<String> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect()
}

#[test]
fn a_full_disk_is_told_and_the_former_file_stays() {
    let Some(drive) = Drive::of_kib(64) else { return };
    let path = drive.folder.join("board.standpoint");
    store::save_board(&path, &Board::demo()).unwrap();
    let former = fs::read(&path).unwrap();
    let board = large();
    assert!(file::to_text(&board).unwrap().len() > 64 * 1024);
    let error = store::save_board(&path, &board).unwrap_err();
    assert!(matches!(error, SaveError::DiskFull(_)), "{error:?}");
    assert!(error.to_string().contains("there is no room left on the disk"), "{error}");
    assert_eq!(error.remedy(), "Free some room, or save elsewhere.");
    assert_eq!(fs::read(&path).unwrap(), former);
    assert_eq!(names(&drive.folder), ["board.standpoint"], "the half-written file is gone, or it would fill the disk");
    // The board in memory is unchanged, and saving elsewhere works.
    assert_eq!(board, large());
    let elsewhere = tempfile::tempdir().unwrap();
    store::save_board(&elsewhere.path().join("board.standpoint"), &board).unwrap();
    // Saving here works once there is room.
    store::save_board(&path, &Board::demo()).unwrap();
}

#[test]
fn a_disk_that_can_only_be_read_is_told_and_the_file_stays() {
    let Some(drive) = Drive::of_kib(256) else { return };
    let path = drive.folder.join("board.standpoint");
    store::save_board(&path, &Board::demo()).unwrap();
    let former = fs::read(&path).unwrap();
    assert!(drive.mount(&["-o", "remount,ro"]));
    let error = store::save_board(&path, &large()).unwrap_err();
    assert!(matches!(error, SaveError::ReadOnlyFolder(_)), "{error:?}");
    assert!(error.to_string().contains("can only be read") && error.remedy().contains("elsewhere"));
    assert_eq!(fs::read(&path).unwrap(), former);
    assert!(store::load_board(&path).is_ok());
}

#[cfg(unix)]
#[test]
fn a_folder_that_can_only_be_read_is_told_and_the_file_stays() {
    use std::os::unix::fs::PermissionsExt;
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("board.standpoint");
    store::save_board(&path, &Board::demo()).unwrap();
    let former = fs::read(&path).unwrap();
    fs::set_permissions(dir.path(), fs::Permissions::from_mode(0o555)).unwrap();
    let is_obeyed = fs::write(dir.path().join("probe"), "").is_err();
    let result = store::save_board(&path, &large());
    fs::set_permissions(dir.path(), fs::Permissions::from_mode(0o755)).unwrap();
    if !is_obeyed {
        eprintln!("skipped: this user may write to every folder");
        return;
    }
    let error = result.unwrap_err();
    assert!(matches!(error, SaveError::ReadOnlyFolder(_)), "{error:?}");
    assert_eq!(fs::read(&path).unwrap(), former);
}

#[test]
fn a_folder_that_is_gone_is_told_and_the_board_can_be_saved_when_it_is_back() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join("stick/boards");
    fs::create_dir_all(&folder).unwrap();
    let path = folder.join("board.standpoint");
    let board = large();
    store::save_board(&path, &board).unwrap();
    fs::remove_dir_all(dir.path().join("stick")).unwrap();
    let error = store::save_board(&path, &board).unwrap_err();
    assert!(matches!(error, SaveError::NoFolder(_)), "{error:?}");
    assert!(error.to_string().contains("is not there") && error.remedy().contains("Connect the drive again"));
    assert!(!dir.path().join("stick").exists(), "no folder is made where a drive should be");
    fs::create_dir_all(&folder).unwrap();
    store::save_board(&path, &board).unwrap();
    assert_eq!(store::load_board(&path).unwrap(), board);
}
