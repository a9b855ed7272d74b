//! Names in chart files. Stable: they do not change when types in the program are renamed.

use standpoint_geometry::Wing;

use crate::chart::ends::Ends;
use crate::chart::score::{
    CourtSide, Ending, GameRule, LastSet, Miss, ServeCall, ServeNumber, SetRule, SetsToWin, TieBreakEnds,
};
use crate::file::fields::Named;

impl Named for Wing {
    const NAMES: &'static [(&'static str, Self)] = &[("Forehand", Self::Forehand), ("Backhand", Self::Backhand)];
}

impl Named for Ends {
    const NAMES: &'static [(&'static str, Self)] = &[("AsBegun", Self::AsBegun), ("Changed", Self::Changed)];
}

impl Named for CourtSide {
    const NAMES: &'static [(&'static str, Self)] = &[("Deuce", Self::Deuce), ("Ad", Self::Ad)];
}

impl Named for ServeNumber {
    const NAMES: &'static [(&'static str, Self)] = &[("First", Self::First), ("Second", Self::Second)];
}

impl Named for ServeCall {
    const NAMES: &'static [(&'static str, Self)] = &[("In", Self::In), ("Fault", Self::Fault), ("Let", Self::Let)];
}

impl Named for Ending {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("Ace", Self::Ace),
        ("Winner", Self::Winner),
        ("ForcedError", Self::ForcedError),
        ("UnforcedError", Self::UnforcedError),
        ("DoubleFault", Self::DoubleFault),
    ];
}

impl Named for Miss {
    const NAMES: &'static [(&'static str, Self)] = &[("Net", Self::Net), ("Long", Self::Long), ("Wide", Self::Wide)];
}

impl Named for SetsToWin {
    const NAMES: &'static [(&'static str, Self)] = &[("Two", Self::Two), ("One", Self::One), ("Three", Self::Three)];
}

impl Named for GameRule {
    const NAMES: &'static [(&'static str, Self)] = &[("Advantage", Self::Advantage), ("NoAd", Self::NoAd)];
}

impl Named for SetRule {
    const NAMES: &'static [(&'static str, Self)] =
        &[("TieBreak", Self::TieBreak), ("Advantage", Self::Advantage), ("Short", Self::Short)];
}

impl Named for LastSet {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("AsOthers", Self::AsOthers),
        ("Advantage", Self::Advantage),
        ("LongTieBreak", Self::LongTieBreak),
        ("MatchTieBreak7", Self::MatchTieBreak7),
        ("MatchTieBreak10", Self::MatchTieBreak10),
    ];
}

impl Named for TieBreakEnds {
    const NAMES: &'static [(&'static str, Self)] = &[("Six", Self::Six), ("OneThenFour", Self::OneThenFour)];
}

#[cfg(test)]
mod tests {
    use super::*;

    fn each_has_a_name<T: Named + std::fmt::Debug>(all: &[T]) {
        assert_eq!(all.len(), T::NAMES.len(), "{all:?}");
        for choice in all {
            assert!(T::NAMES.iter().any(|(_, named)| named == choice), "{choice:?} has no name in the file");
        }
    }

    #[test]
    fn every_choice_of_a_match_has_a_name_in_the_file() {
        each_has_a_name(&CourtSide::ALL);
        each_has_a_name(&Ending::ALL);
        each_has_a_name(&Miss::ALL);
        each_has_a_name(&SetsToWin::ALL);
        each_has_a_name(&GameRule::ALL);
        each_has_a_name(&SetRule::ALL);
        each_has_a_name(&LastSet::ALL);
        each_has_a_name(&TieBreakEnds::ALL);
    }
}
