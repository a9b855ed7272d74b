//! Who plays, and where.

use std::{path::PathBuf, str::FromStr};

use standpoint_board::{PlayerCard, chart::Setup};
use standpoint_charting::report::names::level_named;
use standpoint_geometry::Level;

use super::input::{Content, Input, setup_of};
use crate::fault::Fault;

/// Who plays.
#[derive(Debug, Clone, PartialEq)]
pub enum PlayersArg {
    /// Players of these levels on a full hard court: at the near end, at the far end.
    Levels(Level, Level),
    /// Those of a board or a chart, with its court and conditions.
    File(PathBuf),
}

impl FromStr for PlayersArg {
    type Err = std::convert::Infallible;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (near, far) = text.split_once(',').unwrap_or((text, text));
        Ok(match (level_named(near.trim()), level_named(far.trim())) {
            (Some(near), Some(far)) => Self::Levels(near, far),
            _ => Self::File(text.into()),
        })
    }
}

/// Players and conditions for an audit.
///
/// # Errors
/// A board or chart that cannot be read.
pub fn setup(players: Option<&PlayersArg>, input: &Input) -> Result<Setup, Box<Fault>> {
    with(
        players,
        match &input.content {
            Content::Chart(chart) => chart.setup.clone(),
            Content::Table(_) => nobody(&input.title()),
        },
    )
}

/// The same for tables that name nobody.
///
/// # Errors
/// A board or chart that cannot be read.
pub fn without(players: Option<&PlayersArg>, title: &str) -> Result<Setup, Box<Fault>> {
    with(players, nobody(title))
}

fn with(players: Option<&PlayersArg>, own: Setup) -> Result<Setup, Box<Fault>> {
    let title = own.title.clone();
    Ok(match players {
        None => own,
        Some(PlayersArg::Levels(near, far)) => Setup {
            near: PlayerCard { figures: standpoint_board::Figures::Level(*near), ..own.near },
            far: PlayerCard { figures: standpoint_board::Figures::Level(*far), ..own.far },
            ..own
        },
        Some(PlayersArg::File(path)) if !path.exists() => {
            let what = format!("`{}` is neither a file nor a level", path.display());
            let remedy =
                "Name a board, a chart, or a level such as club or tournament,club; `standpoint presets` has all.";
            return Err(Fault::new("players", "standpoint", what, remedy));
        }
        Some(PlayersArg::File(path)) => Setup { title, ..setup_of(path)? },
    })
}

/// The conditions of a new board, with players of whom nothing but their level is supposed.
fn nobody(title: &str) -> Setup {
    let mut setup = Setup { title: title.to_owned(), ..Setup::default() };
    setup.near.name = "Near player".to_owned();
    setup.far.name = "Far player".to_owned();
    setup
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_level_counts_for_both_and_anything_else_is_a_file() {
        let of = |text: &str| text.parse::<PlayersArg>().unwrap();
        assert_eq!(of("club"), PlayersArg::Levels(Level::Club, Level::Club));
        assert_eq!(of("Pro Man, junior-girl"), PlayersArg::Levels(Level::ProMan, Level::JuniorGirl));
        assert_eq!(of("club,nobody"), PlayersArg::File("club,nobody".into()));
        assert_eq!(of("a.standpoint"), PlayersArg::File("a.standpoint".into()));
    }
}
