//! What of the window and on the court is shown.

use serde::{Deserialize, Serialize};

/// Parts of the window that were shown or hidden by hand; the others are there when the board needs them and the window
/// has room for them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Parts {
    /// The side panel.
    pub panel: Option<bool>,
    /// The row of shots.
    pub rally: Option<bool>,
    /// The pages.
    pub pages: Option<bool>,
}

/// The same parts as they were kept before some of them folded by themselves.
#[derive(Deserialize)]
#[serde(default)]
pub(super) struct FormerParts {
    panel: bool,
    rally: bool,
    pages: bool,
}

impl Default for FormerParts {
    fn default() -> Self {
        Self { panel: true, rally: true, pages: true }
    }
}

impl FormerParts {
    /// What was hidden by hand stays hidden.
    pub(super) fn into_parts(self, parts: Parts) -> Parts {
        let hidden = |shown: bool| (!shown).then_some(false);
        Parts {
            panel: parts.panel.or(hidden(self.panel)),
            rally: parts.rally.or(hidden(self.rally)),
            pages: parts.pages.or(hidden(self.pages)),
        }
    }
}

/// From where the court is seen in perspective.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Sight {
    /// Through the eyes of the hitter who waits at the spot.
    #[default]
    Eyes,
    /// From behind the court.
    Behind,
}

/// How the view in perspective is shown on the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Perspective {
    /// Whether it is shown beside the court.
    pub shown: bool,
    /// Whether it takes the place of the court.
    pub alone: bool,
    /// From where, where there is room for one view only.
    pub sight: Sight,
}

/// What is shown on the court.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Layers {
    /// The shading of the exposure and its level lines.
    pub field: bool,
    /// The wedge of the opponent's directions.
    pub wedge: bool,
    /// The two best replies.
    pub replies: bool,
    /// The bisector of the wedge.
    pub bisector: bool,
    /// The recovery run.
    pub run: bool,
    /// The shots being compared.
    pub ghosts: bool,
    /// The worth of every target.
    pub aim: bool,
    /// The reach at the net after an approach.
    pub net: bool,
}

impl Default for Layers {
    fn default() -> Self {
        Self {
            field: true,
            wedge: true,
            replies: true,
            bisector: true,
            run: true,
            ghosts: false,
            aim: false,
            net: false,
        }
    }
}

impl Layers {
    /// Layers shown while comparing: the compared shots, and nothing that belongs to one shot only.
    #[must_use]
    pub fn comparing() -> Self {
        Self {
            field: false,
            wedge: false,
            replies: false,
            bisector: false,
            run: false,
            ghosts: true,
            aim: true,
            net: true,
        }
    }
}
