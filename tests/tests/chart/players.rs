//! Players of the roster load for ever. Files in `tests/players` are added, never changed.

use std::{fs, path::PathBuf};

use standpoint_board::roster::{EntryKind, file};
use standpoint_geometry::{BackhandGrip, Hand, Level};

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
fn a_wrong_player_is_told_with_line_and_remedy() {
    let text = "(standpoint_player: 1,\n player: (name: \"A\", hand: Both, backhand: OneHanded, figures: Level(Club)),\n \
                log: [(date: \"someday\", kind: Match, text: \"x\")])";
    let report = file::from_bytes(text.as_bytes()).unwrap_err().to_string();
    assert!(report.contains("line 2, ") && report.contains("`Both`") && report.contains("someday"), "{report}");
}
