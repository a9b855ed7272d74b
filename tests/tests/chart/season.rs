//! A folder of matches is a season.

use std::fs;

use standpoint_board::chart::{Chart, Date, Ends, file};
use standpoint_charting::{
    import::{Mapping, write_chart},
    invented::{self, Habit},
    season::read_folder,
};
use standpoint_geometry::{End, Hand, Level};

use crate::larkfield;

fn chart(seed: u64) -> Chart {
    let mut chart = invented::chart(&larkfield(Level::Club), seed, 2, [Habit::EXPERT; 2]);
    chart.points.iter_mut().for_each(|point| point.session.clear());
    chart.tidy();
    chart
}

#[test]
fn a_folder_is_read_in_the_order_of_dates_and_nothing_is_passed_over_in_silence() {
    let dir = tempfile::tempdir().unwrap();
    let at = |name: &str| dir.path().join(name);
    let mut first = chart(1);
    first.setup.session_mut("").date = Date::new(2026, 4, 2);
    file::save(&at("a late name.chart"), &first).unwrap();
    let mut table = Vec::new();
    write_chart(&chart(2), &Mapping::default(), &mut table).unwrap();
    fs::write(at("cup 2026-05-03.csv"), &table).unwrap();
    fs::write(at("without a date.CSV"), &table).unwrap();
    fs::write(at("broken.chart"), "(standpoint_chart: 2").unwrap();
    fs::write(at("other.csv"), "a,b\n1,2\n").unwrap();
    fs::write(at("picture.png"), "no chart").unwrap();
    fs::create_dir(at("folder.csv")).unwrap();
    let season = read_folder(dir.path(), |_| Mapping::default(), &larkfield(Level::Club)).unwrap();
    let found: Vec<_> =
        season.matches.iter().map(|m| (m.path.file_name().unwrap().to_str().unwrap(), m.date)).collect();
    let expected = [
        ("a late name.chart", Date::new(2026, 4, 2)),
        ("cup 2026-05-03.csv", Date::new(2026, 5, 3)),
        ("without a date.CSV", None),
    ];
    assert_eq!(found, expected);
    let unread: Vec<_> = season.unread.iter().map(|file| file.path.file_name().unwrap().to_str().unwrap()).collect();
    assert_eq!(unread, ["broken.chart", "other.csv"]);
    assert!(season.unread.iter().all(|file| !file.reason.is_empty() && !file.remedy.is_empty()));
    assert_eq!(season.matches[1].chart.points[0].session, "cup 2026-05-03");
    assert_eq!(season.matches[1].chart.setup.sessions[0].date, Date::new(2026, 5, 3));
    assert!(read_folder(&at("nowhere"), |_| Mapping::default(), &larkfield(Level::Club)).is_err());
}

#[test]
fn all_matches_of_a_player_are_told_from_the_near_end() {
    let dir = tempfile::tempdir().unwrap();
    let mut away = chart(3);
    std::mem::swap(&mut away.setup.near, &mut away.setup.far);
    away.setup.near.name = "Lena Brook".to_owned();
    away.setup.near.hand = Hand::Left;
    away.setup.far.name = "Mara Quell".to_owned();
    away.points[0].score = "0-0 15-40".to_owned();
    away.points[0].winner = Some(End::Near);
    file::save(&dir.path().join("2026-04-02 away.chart"), &away).unwrap();
    file::save(&dir.path().join("2026-05-03 home.chart"), &chart(4)).unwrap();
    let season = read_folder(dir.path(), |_| Mapping::default(), &larkfield(Level::Club)).unwrap();
    assert_eq!(season.players(), ["Mara Quell", "Ivo Tander", "Lena Brook"]);
    let about = season.about("Mara Quell", |_| true).unwrap();
    assert_eq!((about.setup.near.name.as_str(), about.setup.far.name.as_str()), ("Mara Quell", "Ivo Tander"));
    assert_eq!(about.points.len(), away.points.len() + 2);
    let (first, former) = (&about.points[0], &away.points[0]);
    assert_eq!((first.ends, first.score.as_str(), first.winner), (Ends::Changed, "0-0 40-15", Some(End::Near)));
    // The striker keeps the end they stood at; the opponent's left hand is written on each shot.
    assert_eq!((first.shots[0].hitter, first.shots[0].contact), (former.shots[0].hitter, former.shots[0].contact));
    assert_eq!(first.ends.began(End::Far), End::Near);
    let opponents = first.shots.iter().map(|shot| {
        let player = first.ends.began(shot.hitter);
        if player == End::Far { shot.struck_by.hand } else { shot.against.hand }
    });
    assert!(opponents.clone().count() > 0 && opponents.into_iter().all(|hand| hand == Some(Hand::Left)));
    assert!(about.points.last().unwrap().shots.iter().all(|shot| !shot.struck_by.is_someone()));
    let may = season.about("Mara Quell", |date| date >= Date::new(2026, 5, 1)).unwrap();
    assert_eq!(may.points.len(), 2);
    assert!(season.about("Nobody", |_| true).is_none());
}
