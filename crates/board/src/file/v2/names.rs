//! Names added by version 2. Stable: they do not change when types in the program are renamed.

use crate::file::fields::Named;
use crate::marks::{Ink, Layer, Pattern, Step};

impl Named for Layer {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Sketch", Self::Sketch), ("Drill", Self::Drill), ("Notes", Self::Notes)];
}

impl Named for Ink {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("Plain", Self::Plain),
        ("Coached", Self::Coached),
        ("Other", Self::Other),
        ("Ball", Self::Ball),
        ("Warning", Self::Warning),
    ];
}

impl Named for Pattern {
    const NAMES: &'static [(&'static str, Self)] = &[("Solid", Self::Solid), ("Dashed", Self::Dashed)];
}

impl Named for Step {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Shot", Self::Shot), ("Angle", Self::Angle), ("Replies", Self::Replies), ("Answer", Self::Answer)];
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_layer_and_ink_of_the_program_has_a_name_in_the_file() {
        assert_eq!((Layer::ALL.len(), Ink::ALL.len()), (Layer::NAMES.len(), Ink::NAMES.len()));
        assert!(Layer::ALL.iter().all(|layer| layer.name() != "Unnamed"));
        assert_eq!(Step::ALL.map(|step| step.name()), ["Shot", "Angle", "Replies", "Answer"]);
        assert!(Ink::ALL.iter().all(|ink| ink.name() != "Unnamed"));
    }
}
