//! What a change is called as a step in menus.

use standpoint_language::mark;

use super::Edit;

impl Edit {
    /// Label of the step in menus, in English; translated where it is shown.
    #[must_use]
    pub fn label(&self) -> &'static str {
        match self {
            Self::Target(_) => mark("Move the target"),
            Self::Contact(_) => mark("Move the contact"),
            Self::ContactHeight(_) => mark("Contact height"),
            Self::HitterPlace(_) => mark("Move the hitter"),
            Self::OpponentPlace(_) => mark("Move the opponent"),
            Self::Receipt(_) => mark("Opponent's contact"),
            Self::Stroke(_) => mark("Stroke"),
            Self::Shot(_) => mark("Use this shot"),
            Self::PlayOn { .. } => mark("Play on"),
            Self::Speed(_) => mark("Speed"),
            Self::Topspin(_) | Self::Sidespin(_) => mark("Spin"),
            Self::SwapEnds => mark("Swap ends"),
            Self::Mirror => mark("Mirror this page"),
            Self::MirrorBoard => mark("Mirror all pages"),
            Self::SwapHands => mark("Change both players' hands"),
            Self::Name(..) => mark("Name"),
            Self::Level(..) => mark("Level"),
            Self::Hand(..) => mark("Hand"),
            Self::Grip(..) => mark("Backhand"),
            Self::Figure(..) | Self::Bounces(..) => mark("Figures of a player"),
            Self::Habits(..) => mark("Habits of a player"),
            Self::UseHabits(..) => mark("Play against habits"),
            Self::Player(..) => mark("Measured player"),
            Self::Court(..) => mark("Court"),
            Self::Surface(_) => mark("Surface"),
            Self::Ball(_) => mark("Ball"),
            Self::Temperature(_) => mark("Temperature"),
            Self::Altitude(_) => mark("Altitude"),
            Self::Law(_) => mark("Flight law"),
            Self::Units(_) => mark("Units"),
            Self::Colours(_) => mark("Colours"),
            Self::RecoverTo(_) => mark("Recovery place"),
            Self::RecoverIn(_) => mark("Recover to"),
            Self::Coach(_) => mark("Coach the other player"),
            Self::PageTitle(_) => mark("Page title"),
            Self::PageNotes(_) => mark("Page notes"),
            Self::PageCues(_) => mark("Page cues"),
            Self::PageDrill(part, _) => part.label(),
        }
    }
}
