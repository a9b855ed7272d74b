//! Grips of a chosen mark: ends and middle of an arrow, corners of a zone.

use glam::DVec2;
use standpoint_board::marks::{Form, Mark, MarkId};
use standpoint_language::text;

/// A part of a mark that can be pulled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Part {
    /// Where an arrow starts.
    Start,
    /// Where its head is.
    Head,
    /// Its middle; pulling it bends the arrow.
    Bend,
    /// A corner of a zone, counted round.
    Corner(u8),
}

impl Part {
    /// Its name.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Start => text("Start of the arrow"),
            Self::Head => text("Head of the arrow"),
            Self::Bend => text("Bend of the arrow"),
            Self::Corner(_) => text("Corner of the zone"),
        }
    }
}

/// A part of a certain mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Grip {
    /// The mark.
    pub mark: MarkId,
    /// The part.
    pub part: Part,
}

/// The grips of a mark and where they are.
#[must_use]
pub fn grips(mark: &Mark) -> Vec<(Grip, DVec2)> {
    let grip = |part| Grip { mark: mark.id, part };
    match &mark.form {
        Form::Arrow { from, to, bend, .. } => {
            let left = (*to - *from).perp().normalize_or_zero();
            let middle = (*from + *to) / 2.0 + left * *bend;
            vec![(grip(Part::Start), *from), (grip(Part::Bend), middle), (grip(Part::Head), *to)]
        }
        Form::Zone { from, to, .. } => {
            corners(*from, *to).into_iter().enumerate().map(|(i, place)| (grip(Part::Corner(i as u8)), place)).collect()
        }
        _ => Vec::new(),
    }
}

fn corners(from: DVec2, to: DVec2) -> [DVec2; 4] {
    [from, DVec2::new(to.x, from.y), to, DVec2::new(from.x, to.y)]
}

/// An arrow bent by less than this share of its length becomes straight.
const STRAIGHT: f64 = 0.03;

/// The form after a part of it was pulled to a place.
#[must_use]
pub fn pulled(form: &Form, part: Part, place: DVec2) -> Form {
    match (form.clone(), part) {
        (Form::Arrow { to, bend, pattern, .. }, Part::Start) => Form::Arrow { from: place, to, bend, pattern },
        (Form::Arrow { from, bend, pattern, .. }, Part::Head) => Form::Arrow { from, to: place, bend, pattern },
        (Form::Arrow { from, to, pattern, .. }, Part::Bend) => {
            let left = (to - from).perp().normalize_or_zero();
            let bend = (place - (from + to) / 2.0).dot(left);
            let bend = if bend.abs() < STRAIGHT * from.distance(to) { 0.0 } else { bend };
            Form::Arrow { from, to, bend, pattern }
        }
        (Form::Zone { from, to, round }, Part::Corner(i)) => {
            let opposite = corners(from, to)[usize::from((i + 2) % 4)];
            // The pulled corner keeps its number.
            let (from, to) = match i % 4 {
                0 => (place, opposite),
                1 => (DVec2::new(opposite.x, place.y), DVec2::new(place.x, opposite.y)),
                2 => (opposite, place),
                _ => (DVec2::new(place.x, opposite.y), DVec2::new(opposite.x, place.y)),
            };
            Form::Zone { from, to, round }
        }
        (other, _) => other,
    }
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_board::marks::{Appears, Ink, Layer, Pattern};

    use super::*;

    #[test]
    fn a_pulled_part_is_where_it_was_pulled_to() {
        let arrow = Form::Arrow { from: dvec2(0.0, 0.0), to: dvec2(4.0, 0.0), bend: 0.0, pattern: Pattern::Solid };
        let zone = Form::Zone { from: dvec2(-1.0, -2.0), to: dvec2(3.0, 1.0), round: true };
        for form in [arrow, zone] {
            let mark = |form| Mark { id: 7, layer: Layer::Sketch, ink: Ink::Plain, appears: Appears::AT_ONCE, form };
            for (grip, place) in grips(&mark(form.clone())) {
                let to = if grip.part == Part::Bend { dvec2(2.0, 1.5) } else { place + dvec2(0.3, 0.4) };
                let after = grips(&mark(pulled(&form, grip.part, to)));
                let is_at = after.iter().find(|(g, _)| *g == grip).unwrap().1;
                assert!((is_at - to).length() < 1e-9, "{grip:?} is at {is_at}");
            }
        }
    }

    #[test]
    fn a_little_bend_is_none() {
        let arrow = Form::Arrow { from: dvec2(0.0, 0.0), to: dvec2(4.0, 0.0), bend: 1.0, pattern: Pattern::Solid };
        let Form::Arrow { bend, .. } = pulled(&arrow, Part::Bend, dvec2(2.0, 0.1)) else { panic!() };
        assert!(bend.abs() < 1e-12);
    }
}
