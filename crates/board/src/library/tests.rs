use super::*;

fn titles<'e>(found: &[&'e Entry]) -> Vec<&'e str> {
    found.iter().map(|entry| entry.title.as_str()).collect()
}

#[test]
fn the_program_brings_a_dozen_boards_each_with_a_summary_and_tags() {
    let library = Library::shipped();
    assert!(library.entries.len() >= 12 && library.unreadable.is_empty());
    for entry in &library.entries {
        assert!(
            entry.summary.ends_with('.') && entry.summary.chars().count() < 140,
            "{}: {}",
            entry.title,
            entry.summary
        );
        assert!(entry.tags.len() >= 2, "{}", entry.title);
        let picture = entry.thumbnail();
        assert!(!picture.shots.is_empty() && picture.near.y < 0.0 && picture.far.y > 0.0, "{}", entry.title);
    }
    assert!(library.tags()[0].1 >= 4);
}

#[test]
fn boards_are_found_by_words_those_in_title_and_tags_first() {
    let library = Library::shipped();
    assert_eq!(library.search("").len(), library.entries.len());
    assert_eq!(titles(&library.search("orange COURT"))[0], "The same answer on the Orange court");
    assert_eq!(titles(&library.search("#wheelchair")), ["Two bounces in a wheelchair"]);
    assert_eq!(titles(&library.search("lob net"))[0], "At the net, leave room behind you for the lob");
    assert!(library.search("drill").len() >= 3);
    assert!(library.search("drill xylophone").is_empty());
    assert_eq!(
        titles(&library.search("halden")),
        ["Against a left-hander the wings change sides"],
        "by a player's name"
    );
}

#[test]
fn ones_own_folder_comes_after_and_what_cannot_be_opened_is_told() {
    let dir = tempfile::tempdir().unwrap();
    let mut board = Board { title: "Ours".to_owned(), ..Board::demo() };
    board.page_mut(0).unwrap().notes = "What we do on Mondays.\nMore #Monday, #drill. # #a#b".to_owned();
    store::save_board(&dir.path().join("ours.standpoint"), &board).unwrap();
    fs::write(dir.path().join("broken.standpoint"), "(standpoint_board: 9)").unwrap();
    fs::write(dir.path().join("else.txt"), "").unwrap();
    let library = Library::shipped().with_folder(dir.path());
    let own = library.entries.last().unwrap();
    assert_eq!((own.title.as_str(), own.summary.as_str()), ("Ours", "What we do on Mondays."));
    assert_eq!(own.tags, ["monday", "drill"]);
    assert_eq!(own.source, Source::Own(dir.path().join("ours.standpoint")));
    assert_eq!(titles(&library.search("mondays")), ["Ours"]);
    let [(path, error)] = library.unreadable.as_slice() else { panic!("{:?}", library.unreadable) };
    assert!(path.ends_with("broken.standpoint") && error.to_string().contains("version 9"), "{error}");
    assert_eq!(Library::default().with_folder(&dir.path().join("none")).entries.len(), 0);
}
