//! A folder of matches as a season: charts and tables, each a match, in the order of their dates.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

use standpoint_geometry::End;

use crate::import::{BadRow, Mapping, read_chart, read_headings, unknown_values};
use standpoint_board::chart::date::Date;
use standpoint_board::chart::file as chart_file;
use standpoint_board::chart::model::{Chart, Setup, Who};
use standpoint_board::player_card::PlayerCard;

/// Extensions of tables that are read.
pub const TABLES: [&str; 3] = ["csv", "tsv", "txt"];

/// Rows of a table searched for words that need a meaning.
const LOOKED_AT: u64 = 2000;

/// The matches of a folder.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Season {
    /// Matches by date; those without one come last, by name.
    pub matches: Vec<SeasonMatch>,
    /// Files that could not be read.
    pub unread: Vec<Unread>,
}

/// A match of a season.
#[derive(Debug, Clone, PartialEq)]
pub struct SeasonMatch {
    /// Where it is kept.
    pub path: PathBuf,
    /// Date: from its sessions, else from the name of its file.
    pub date: Option<Date>,
    /// What was charted. Every session has a name.
    pub chart: Chart,
    /// Rows that could not be read.
    pub bad: Vec<BadRow>,
}

/// A file that could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// Where it is.
    pub path: PathBuf,
    /// Why.
    pub reason: String,
    /// What to do about it.
    pub remedy: String,
}

/// Reads a folder: `.chart` files as they are, tables with the mapping that fits their headings and with these players
/// and conditions. Files with other extensions and folders within it are ignored.
///
/// # Errors
/// When the folder itself cannot be read; faults of a file are part of the result.
pub fn read_folder(folder: &Path, mapping: impl Fn(&[String]) -> Mapping, setup: &Setup) -> io::Result<Season> {
    let mut season = Season::default();
    let mut paths = Vec::new();
    for entry in fs::read_dir(folder)? {
        paths.push(entry?.path());
    }
    paths.sort();
    for path in paths.into_iter().filter(|path| path.is_file()) {
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
        let read = if ending == chart_file::EXTENSION {
            chart_file::load(&path)
                .map(|chart| (chart, Vec::new()))
                .map_err(|error| (error.to_string(), error.remedy().to_owned()))
        } else if TABLES.contains(&ending.as_str()) {
            table(&path, &mapping, setup)
        } else {
            continue;
        };
        match read {
            Ok((chart, bad)) => season.matches.push(SeasonMatch::of(path, chart, bad)),
            Err((reason, remedy)) => season.unread.push(Unread { path, reason, remedy }),
        }
    }
    season.matches.sort_by(|a, b| (a.date.is_none(), a.date, &a.path).cmp(&(b.date.is_none(), b.date, &b.path)));
    Ok(season)
}

type Read = Result<(Chart, Vec<BadRow>), (String, String)>;

fn table(path: &Path, mapping: impl Fn(&[String]) -> Mapping, setup: &Setup) -> Read {
    let open = || File::open(path).map_err(super::import::ReadError::from);
    let told = |error: super::import::ReadError| (error.to_string(), error.remedy());
    let headings = open().and_then(|file| read_headings(file, None)).map_err(told)?;
    let setup = Setup { title: stem(path), ..setup.clone() };
    // Foreign words get their most likely meaning.
    let mapping = mapping(&headings);
    let unknown = open().and_then(|file| unknown_values(file, &mapping, &setup, LOOKED_AT)).map_err(told)?;
    let mapping = mapping.with_suggested_values(&unknown, &setup);
    let read = open().and_then(|file| read_chart(file, &mapping, setup)).map_err(told)?;
    Ok((read.chart, read.bad))
}

fn stem(path: &Path) -> String {
    path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default()
}

impl SeasonMatch {
    fn of(path: PathBuf, mut chart: Chart, bad: Vec<BadRow>) -> Self {
        let name = stem(&path);
        for point in chart.points.iter_mut().filter(|point| point.session.is_empty()) {
            point.session.clone_from(&name);
        }
        for session in chart.setup.sessions.iter_mut().filter(|session| session.name.is_empty()) {
            session.name.clone_from(&name);
        }
        let told = chart.setup.sessions.iter().filter_map(|session| session.date).min();
        let date = told.or(Date::within(&name));
        let mut names: Vec<String> = chart.points.iter().map(|point| point.session.clone()).collect();
        names.dedup();
        for name in names {
            let session = chart.setup.session_mut(&name);
            session.date = session.date.or(date);
        }
        Self { path, date, chart, bad }
    }

    /// The end where a player of this name began.
    #[must_use]
    pub fn began(&self, name: &str) -> Option<End> {
        [End::Near, End::Far].into_iter().find(|end| self.chart.setup.card(*end).name == name)
    }
}

impl Season {
    /// The names of all players, each once, those with most matches first.
    #[must_use]
    pub fn players(&self) -> Vec<String> {
        let mut counts: Vec<(String, usize)> = Vec::new();
        for name in self.matches.iter().flat_map(|m| [&m.chart.setup.near.name, &m.chart.setup.far.name]) {
            match counts.iter_mut().find(|(known, _)| known == name) {
                Some((_, count)) => *count += 1,
                None => counts.push((name.clone(), 1)),
            }
        }
        counts.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
        counts.into_iter().map(|(name, _)| name).collect()
    }

    /// All matches of a player within some dates as one chart in which they began at the near end.
    ///
    /// The card of the player is that of their last match. Opponents share the other card; each shot holds the level
    /// and hand of those who differ from it. `None` when there is no such match.
    #[must_use]
    pub fn about(&self, name: &str, dates: impl Fn(Option<Date>) -> bool) -> Option<Chart> {
        let own = |m: &&SeasonMatch| m.began(name).is_some() && dates(m.date);
        let matches: Vec<&SeasonMatch> = self.matches.iter().filter(own).collect();
        let last = turned(matches.last()?, name);
        let (card, other) = (last.setup.near.clone(), last.setup.far.clone());
        let mut about = Chart::new(Setup { title: name.to_owned(), sessions: Vec::new(), ..last.setup });
        for (i, one) in matches.iter().enumerate() {
            let mut chart = turned(one, name);
            let known = |session: &str| about.points.iter().any(|point| point.session == session);
            let renamed = chart.points.iter().any(|point| known(&point.session));
            if renamed {
                let place = stem(&one.path);
                chart.points.iter_mut().for_each(|point| point.session = format!("{place}: {}", point.session));
                chart.setup.sessions.iter_mut().for_each(|session| session.name = format!("{place}: {}", session.name));
            }
            if i + 1 < matches.len() {
                told_apart(&mut chart, &card, &other);
            }
            about.setup.take_sessions(&chart.setup.sessions);
            about.points.extend(chart.points);
        }
        Some(about)
    }
}

fn turned(one: &SeasonMatch, name: &str) -> Chart {
    let chart = one.chart.clone();
    if one.began(name) == Some(End::Near) { chart } else { chart.with_players_swapped() }
}

/// Marks each shot with its players where they differ from the common card.
fn told_apart(chart: &mut Chart, near: &PlayerCard, far: &PlayerCard) {
    let differs = |own: &PlayerCard, common: &PlayerCard, told: Who| Who {
        level: told.level.or(own.level().filter(|level| Some(*level) != common.level())),
        hand: told.hand.or((own.hand != common.hand).then_some(own.hand)),
    };
    let cards = [chart.setup.near.clone(), chart.setup.far.clone()];
    for point in &mut chart.points {
        for shot in &mut point.shots {
            let hitter = point.ends.began(shot.hitter);
            let of = |player: End, told: Who| match player {
                End::Near => differs(&cards[0], near, told),
                End::Far => differs(&cards[1], far, told),
            };
            shot.struck_by = of(hitter, shot.struck_by);
            shot.against = of(hitter.other(), shot.against);
        }
    }
}
