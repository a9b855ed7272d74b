use super::*;

#[test]
fn settings_survive_a_restart() {
    let dir = tempfile::tempdir().unwrap();
    let mut settings = Settings { turn: 3, snap: true, ..Settings::default() };
    settings.remember(Path::new("/boards/a.ron"));
    settings.remember(Path::new("/boards/b.ron"));
    settings.remember(Path::new("/boards/a.ron"));
    settings.store(dir.path()).unwrap();
    assert_eq!(Settings::load(dir.path()), (settings.clone(), None));
    assert_eq!(settings.recent, [PathBuf::from("/boards/a.ron"), PathBuf::from("/boards/b.ron")]);
}

#[test]
fn an_unreadable_file_means_defaults_and_is_kept_when_others_are_stored() {
    let dir = tempfile::tempdir().unwrap();
    for (written, said) in [
        (b"(theme: 3".as_slice(), "line 1, column 9"),
        (b"\xff", "byte 0 is not UTF-8"),
        (b"(\n  snap: maybe)", "line 2, column "),
        (&vec![b' '; SIZE_LIMIT as usize + 1], "more than 1048576 bytes"),
    ] {
        fs::write(dir.path().join(FILE), written).unwrap();
        let (settings, why) = Settings::load(dir.path());
        assert_eq!(settings, Settings::default());
        let why = why.unwrap();
        assert!(why.why.contains(said) && !why.kept.exists(), "{why:?}");
        settings.store(dir.path()).unwrap();
        assert!(why.kept.exists());
        assert_eq!(Settings::load(dir.path()), (settings, None));
    }
    let kept = |name: &str| fs::read(dir.path().join(name)).unwrap();
    assert_eq!(kept(UNREADABLE), b"(theme: 3", "the first one is not written over");
    assert_eq!(kept("settings.unreadable-2.ron"), b"\xff");
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 5, "nothing half-written is left");
}

#[test]
fn a_folder_in_the_place_of_the_settings_is_kept_beside_them_and_nothing_half_written_is_left() {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir(dir.path().join(FILE)).unwrap();
    fs::write(dir.path().join(FILE).join("inside"), "x").unwrap();
    let (settings, why) = Settings::load(dir.path());
    let why = why.unwrap();
    settings.store(dir.path()).unwrap();
    assert_eq!(fs::read_to_string(why.kept.join("inside")).unwrap(), "x");
    assert_eq!(Settings::load(dir.path()), (settings.clone(), None));
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 2);
    // Where it cannot be stored, nothing is left either.
    let file = dir.path().join("file");
    fs::write(&file, "x").unwrap();
    assert!(settings.store(&file).is_err());
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 3);
}

#[cfg(unix)]
#[test]
fn settings_behind_a_link_are_stored_where_it_leads() {
    let dir = tempfile::tempdir().unwrap();
    let (own, real) = (dir.path().join("own"), dir.path().join("real"));
    fs::create_dir(&own).unwrap();
    fs::create_dir(&real).unwrap();
    fs::write(real.join("mine.ron"), "(snap: true)").unwrap();
    std::os::unix::fs::symlink(real.join("mine.ron"), own.join(FILE)).unwrap();
    let (settings, _) = Settings::load(&own);
    Settings { turn: 1, ..settings }.store(&own).unwrap();
    assert!(fs::symlink_metadata(own.join(FILE)).unwrap().is_symlink());
    let (again, _) = Settings::load(&real.join("..").join("own"));
    assert!(again.snap && again.turn == 1);
    assert!(fs::read_to_string(real.join("mine.ron")).unwrap().contains("turn: 1"));
    assert_eq!((fs::read_dir(&own).unwrap().count(), fs::read_dir(&real).unwrap().count()), (1, 1));
}

#[test]
fn absurd_values_are_brought_within_bounds() {
    let many = vec!["\"a\""; 1000].join(",");
    let text = format!("(text_size: 65535, turn: 255, recent: [{many}], own_boards: Some(\"{}\"))", "x".repeat(20_000));
    let settings = Settings::from_bytes(text.as_bytes()).unwrap();
    assert_eq!((settings.text_size, settings.turn), (TEXT_SIZES.1, 3));
    assert_eq!((settings.recent.len(), settings.own_boards), (RECENT_KEPT, None));
    let mut settings = Settings::default();
    let mapping = standpoint_charting::import::Mapping::default();
    for table in 0..40 {
        settings.keep_mapping(&[format!("{table:0>16000}")], &mapping);
    }
    settings.keep_mapping(&["x".repeat(1 << 20)], &mapping);
    assert_eq!(settings.tables.len(), TABLES_KEPT);
    assert_eq!(Settings::from_bytes(settings.to_text().unwrap().as_bytes()).as_ref(), Ok(&settings));
}

#[test]
fn an_older_file_keeps_what_it_says() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(dir.path().join(FILE), "(snap: true)").unwrap();
    assert_eq!(Settings::load(dir.path()), (Settings { snap: true, ..Settings::default() }, None));
}

#[test]
fn parts_hidden_in_an_older_file_stay_hidden_and_the_others_fold_by_themselves() {
    let older = "(panel: true, rally: true, pages: false, tools: false, turn: 1)";
    let settings = Settings::from_bytes(older.as_bytes()).unwrap();
    assert_eq!(settings.parts, Parts { pages: Some(false), ..Parts::default() });
    let again = Settings::from_bytes(settings.to_text().unwrap().as_bytes());
    assert_eq!(again, Ok(settings));
    let newer = Settings { parts: Parts { pages: Some(true), panel: None, rally: Some(false) }, ..Settings::default() };
    assert_eq!(Settings::from_bytes(newer.to_text().unwrap().as_bytes()), Ok(newer));
}
