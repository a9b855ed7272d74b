//! Players of the roster stay loadable. Files in `tests/players` are added, never changed.

use std::{fs, path::PathBuf};

use standpoint_board::{
    PlayerCard,
    roster::{Entry, EntryKind, MatchHabits, Roster, file},
};
use standpoint_geometry::{BackhandGrip, HabitCase, Hand, Level, ReplyHabits, Third, Wing};

#[test]
fn every_player_of_every_version_loads_and_is_saved_as_the_current_one() {
    for version in 1..=file::VERSION {
        let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("players/v{version}"));
        let paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        assert!(!paths.is_empty());
        for path in paths {
            let player = file::load(&path).unwrap();
            let saved = file::to_text(&player).unwrap();
            assert!(saved.starts_with(&format!("(\n  standpoint_player: {},\n", file::VERSION)));
            assert_eq!(file::from_bytes(saved.as_bytes()).unwrap(), player, "{}", path.display());
        }
    }
}

#[test]
fn a_player_of_version_1_says_what_it_said() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("players/v1/log.player");
    let player = file::load(&path).unwrap();
    let card = &player.card;
    assert_eq!((card.name.as_str(), card.hand, card.grip), ("Mara Quell", Hand::Left, BackhandGrip::OneHanded));
    assert_eq!((card.level(), player.log.len()), (Some(Level::Tournament), 3));
    let kinds: Vec<EntryKind> = player.log.iter().map(|entry| entry.kind).collect();
    assert_eq!(kinds, [EntryKind::Measured, EntryKind::Match, EntryKind::Rehearsal]);
    assert_eq!((player.log[1].date, player.log[1].file.as_str()), (None, "league.chart"));
    assert_eq!(player.last(), "2026-05-10".parse().ok());
}

#[test]
fn a_player_of_version_1_holds_where_they_sent_the_ball_match_by_match() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("players/v1/matches.player");
    let player = file::load(&path).unwrap();
    let titles: Vec<&str> = player.matches.iter().map(|of| of.title.as_str()).collect();
    assert_eq!(titles, ["Larkfield league", "Larkfield cup, final"]);
    let known = player.habits().unwrap();
    assert_eq!((known.of.as_str(), known.matches, known.used), ("Ivo Tander", 2, true));
    assert_eq!(known.last, "2026-05-10".parse().ok());
    let case = HabitCase::Rally(Wing::Backhand, Third::Left, true);
    assert_eq!(known.counts.counts(case), [12 + 9, 3 + 1, 2 + 1]);
    assert_eq!(file::to_text(&player).unwrap(), fs::read_to_string(&path).unwrap(), "not a byte differs");
}

#[test]
fn a_match_that_is_entered_once_more_takes_the_place_of_the_former_count() {
    let folder = tempfile::tempdir().unwrap();
    let card = PlayerCard::of_level("Ivo Tander", Level::Club);
    let of = |across: u32| {
        let mut counts = ReplyHabits::default();
        counts.set(HabitCase::Serve { deuce: true, second: false }, [across, 0, 0]);
        MatchHabits { title: "Saturday".to_owned(), date: None, counts }
    };
    let entry = || Entry { date: None, kind: EntryKind::Match, text: "Saturday".to_owned(), file: String::new() };
    for across in [3, 5] {
        Roster::keep_matches(folder.path(), &card, entry(), vec![of(across)]).unwrap();
    }
    // Keeping the card again, with or without the board's knowledge, does not change it.
    let roster = Roster::read(folder.path());
    let player = roster.player("Ivo Tander").unwrap();
    Roster::keep(folder.path(), &player.card_with_habits(), None).unwrap();
    let known = Roster::read(folder.path()).player("Ivo Tander").unwrap().habits().unwrap();
    assert_eq!((known.matches, known.counts.shots()), (1, 5));
}

#[test]
fn a_wrong_player_is_told_with_line_and_remedy() {
    let text = "(standpoint_player: 1,\n player: (name: \"A\", hand: Both, backhand: OneHanded, figures: Level(Club)),\n \
                log: [(date: \"someday\", kind: Match, text: \"x\")])";
    let report = file::from_bytes(text.as_bytes()).unwrap_err().to_string();
    assert!(report.contains("line 2, ") && report.contains("`Both`") && report.contains("someday"), "{report}");
}
