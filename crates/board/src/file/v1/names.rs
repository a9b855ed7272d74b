//! Names of version 1. Stable: they do not change when types in the program are renamed.

use standpoint_geometry::{
    BackhandGrip, BallType, End, FlightLaw, Hand, Level, NetPosts, ReadyArea, Stage, Stroke, SurfaceKind,
};

use crate::choices::Units;
use crate::file::fields::Named;

impl Named for Stage {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Full", Self::Full), ("Green", Self::Green), ("Orange", Self::Orange), ("Red", Self::Red)];
}

impl Named for NetPosts {
    const NAMES: &'static [(&'static str, Self)] =
        &[("SinglesSticks", Self::SinglesSticks), ("DoublesPosts", Self::DoublesPosts)];
}

impl Named for SurfaceKind {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Hard", Self::Hard), ("Clay", Self::Clay), ("Grass", Self::Grass), ("Custom", Self::Custom)];
}

impl Named for BallType {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("Type2", Self::Type2),
        ("Type1", Self::Type1),
        ("Type3", Self::Type3),
        ("HighAltitude", Self::HighAltitude),
        ("Stage1", Self::Stage1),
        ("Stage2", Self::Stage2),
        ("Stage3", Self::Stage3),
    ];
}

impl Named for FlightLaw {
    const NAMES: &'static [(&'static str, Self)] =
        &[("SpinDependent", Self::SpinDependent), ("Constant", Self::Constant)];
}

impl Named for End {
    const NAMES: &'static [(&'static str, Self)] = &[("Near", Self::Near), ("Far", Self::Far)];
}

impl Named for Units {
    const NAMES: &'static [(&'static str, Self)] = &[("Metres", Self::Metres), ("Feet", Self::Feet)];
}

impl Named for Hand {
    const NAMES: &'static [(&'static str, Self)] = &[("Right", Self::Right), ("Left", Self::Left)];
}

impl Named for BackhandGrip {
    const NAMES: &'static [(&'static str, Self)] = &[("TwoHanded", Self::TwoHanded), ("OneHanded", Self::OneHanded)];
}

impl Named for Level {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("Club", Self::Club),
        ("RedJunior", Self::RedJunior),
        ("OrangeJunior", Self::OrangeJunior),
        ("GreenJunior", Self::GreenJunior),
        ("JuniorGirl", Self::JuniorGirl),
        ("JuniorBoy", Self::JuniorBoy),
        ("Improver", Self::Improver),
        ("Tournament", Self::Tournament),
        ("ProWoman", Self::ProWoman),
        ("ProMan", Self::ProMan),
        ("Wheelchair", Self::Wheelchair),
    ];
}

impl Named for ReadyArea {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Anywhere", Self::Anywhere), ("Back", Self::Back), ("Net", Self::Net)];
}

impl Named for Stroke {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("Topspin", Self::Topspin),
        ("Flat", Self::Flat),
        ("Slice", Self::Slice),
        ("Drop", Self::Drop),
        ("Lob", Self::Lob),
        ("Volley", Self::Volley),
        ("Overhead", Self::Overhead),
        ("Serve", Self::Serve),
    ];
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
    fn every_choice_of_the_program_has_a_name_in_the_file() {
        each_has_a_name(&Stage::ALL);
        each_has_a_name(&SurfaceKind::ALL);
        each_has_a_name(&BallType::ALL);
        each_has_a_name(&Units::ALL);
        each_has_a_name(&Level::ALL);
        each_has_a_name(&Stroke::ALL);
    }
}
