//! A folder of matches, audited as one.

use std::path::Path;

use standpoint_board::chart::Setup;
use standpoint_charting::season::{Season, read_folder};

use super::{AuditArgs, Content, Input, text};
use crate::{
    complain,
    fault::{Fault, line},
};

/// Reads the matches of a player in a folder: one chart in which they began at the near end. Tells of every file and row
/// that cannot be read, and returns whether there was none.
///
/// # Errors
/// A folder that cannot be read, or without a match of that player.
pub fn open(folder: &Path, setup: &Setup, args: &AuditArgs) -> Result<(Input, bool), Box<Fault>> {
    let place = folder.display().to_string();
    let mapping = args.layout.mapping()?;
    let season = read_folder(folder, |headings| mapping.suggested(headings), setup)
        .map_err(|error| Fault::new("file", &place, error.to_string(), "Allow this user to read it."))?;
    let sound = tell(&season);
    let player = match &args.player {
        Some(name) => by_name(name, setup),
        None => most(&season, &setup.near.name),
    };
    let Some(chart) = season.about(&player, |_| true) else {
        let names: Vec<String> = season.players().iter().map(|name| format!("`{name}`")).collect();
        let remedy = match names.is_empty() {
            true => "Put charts or CSV files into it.".to_owned(),
            false => format!("Write one of {} behind --player.", names.join(", ")),
        };
        let what = if names.is_empty() {
            "there is no match in it".to_owned()
        } else {
            format!("nobody is called `{player}`")
        };
        return Err(Fault::new("player", &place, what, remedy));
    };
    let count = season.matches.iter().filter(|one| one.began(&player).is_some()).count();
    complain(&format!("{place}: {count} matches of {player}, who began at the near end here."));
    let size = Some(chart.shots() as u64);
    Ok((Input { place, size, content: Content::Chart(Box::new(chart)) }, sound))
}

/// The player with most matches; of several who began at the near end where nobody is named.
fn most(season: &Season, near: &str) -> String {
    let count = |name: &String| season.matches.iter().filter(|one| one.began(name).is_some()).count();
    let ranked = |name: &String| (count(name), name == near);
    // Of equals the last one counts, and those with most matches come first.
    season.players().into_iter().rev().max_by_key(ranked).unwrap_or_default()
}

/// The name behind `near` and `far` of matches that name nobody.
fn by_name(name: &str, setup: &Setup) -> String {
    match name {
        "near" => setup.near.name.clone(),
        "far" => setup.far.name.clone(),
        name => name.to_owned(),
    }
}

/// Tells what cannot be read; returns whether there was nothing.
fn tell(season: &Season) -> bool {
    for file in &season.unread {
        complain(&line(&file.path.display().to_string(), &file.reason, &file.remedy));
    }
    for one in season.matches.iter().filter(|one| !one.bad.is_empty()) {
        let place = one.path.display().to_string();
        one.bad.iter().flat_map(|row| text::bad_row(&place, row)).for_each(|line| complain(&line));
        complain(&text::left_out(&place, one.bad.len() as u64, (one.bad.len() + one.chart.shots()) as u64));
    }
    season.unread.is_empty() && season.matches.iter().all(|one| one.bad.is_empty())
}
