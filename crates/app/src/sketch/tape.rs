//! Places and lengths of marks as one would lay them out with a tape.

use glam::DVec2;
use standpoint_board::{
    Units,
    marks::{Form, Ink, Layer},
    measure::{Beside, FromLine, measured},
};
use standpoint_geometry::court::{Court, LineName};

use crate::words;

/// What rounds to nought in the unit shown is on the line, m.
const ON_IT: f64 = 0.05;

/// A place from the two nearest lines: `1.2 m inside the sideline, 0.9 m behind the service line`.
#[must_use]
pub fn place(court: &Court, place: DVec2, units: Units) -> String {
    let m = measured(court, place);
    format!("{}, {}", from_line(&m.across, units), from_line(&m.along, units))
}

/// Which quarter of the court a place is in, for those who cannot see it: `near side, left`.
#[must_use]
pub fn quarter(place: DVec2) -> &'static str {
    match (place.y <= 0.0, place.x < 0.0) {
        (true, true) => "near side, left",
        (true, false) => "near side, right",
        (false, true) => "far side, left",
        (false, false) => "far side, right",
    }
}

fn from_line(from: &FromLine, units: Units) -> String {
    let line = line_name(from.line);
    if from.beside == Beside::On || from.distance < ON_IT {
        return format!("on the {line}");
    }
    let service = matches!(from.line, LineName::ServiceLine(_));
    let baseline = matches!(from.line, LineName::Baseline(_));
    let beside = match from.beside {
        Beside::Inside if service => "in front of",
        Beside::Outside if service || baseline => "behind",
        Beside::Inside => "inside",
        Beside::Outside => "outside",
        Beside::Left => "left of",
        Beside::Right => "right of",
        Beside::On => "on",
    };
    format!("{} {beside} the {line}", words::length(from.distance, units))
}

fn line_name(line: LineName) -> &'static str {
    match line {
        LineName::Baseline(_) => "baseline",
        LineName::ServiceLine(_) => "service line",
        LineName::CenterServiceLine => "centre line",
        LineName::CenterMark(_) => "centre mark",
        LineName::SinglesSideline(_) => "sideline",
        LineName::DoublesSideline(_) => "doubles sideline",
    }
}

/// What is said of a form: its place, and its length or size where it has one.
#[must_use]
pub fn form(court: &Court, form: &Form, units: Units) -> String {
    let at = |p| place(court, p, units);
    match form {
        Form::Arrow { from, to, .. } => {
            format!("{} long, to {}", words::length(from.distance(*to), units), at(*to))
        }
        Form::Zone { from, to, .. } => {
            let size = (*to - *from).abs();
            let (x, y) = (words::length(size.x, units), words::length(size.y, units));
            format!("{x} wide, {y} deep, middle {}", at((*from + *to) / 2.0))
        }
        Form::Pen { points, .. } => {
            let long: f64 = points.windows(2).map(|w| w[0].distance(w[1])).sum();
            let last = points.last().copied().unwrap_or_default();
            format!("{} long, to {}", words::length(long, units), at(last))
        }
        Form::Text { at: p, .. } | Form::Cone { at: p } | Form::Basket { at: p } | Form::Person { at: p, .. } => at(*p),
    }
}

/// A form's name.
#[must_use]
pub fn kind(form: &Form) -> &'static str {
    match form {
        Form::Pen { .. } => "Line",
        Form::Arrow { .. } => "Arrow",
        Form::Text { .. } => "Words",
        Form::Cone { .. } => "Cone",
        Form::Basket { .. } => "Ball basket",
        Form::Person { .. } => "Person",
        Form::Zone { round: false, .. } => "Zone",
        Form::Zone { round: true, .. } => "Oval zone",
    }
}

/// An ink by what it means.
#[must_use]
pub fn ink(ink: Ink) -> &'static str {
    match ink {
        Ink::Plain => "Plain",
        Ink::Coached => "Coached player",
        Ink::Other => "Other player",
        Ink::Ball => "Ball",
        Ink::Warning => "Watch out",
    }
}

/// A layer's name.
#[must_use]
pub fn layer(layer: Layer) -> &'static str {
    match layer {
        Layer::Drill => "Drill",
        Layer::Sketch => "Sketch",
        Layer::Notes => "Words",
    }
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    #[test]
    fn a_place_is_said_as_a_coach_lays_it_out() {
        let court = Court::default();
        let at = |x: f64, y: f64| place(&court, dvec2(x, y), Units::Metres);
        let service = court.service_line.unwrap();
        let said = at(court.half_width() - 1.2, -service - 0.9);
        assert_eq!(said, "1.2 m inside the sideline, 0.9 m behind the service line");
        assert_eq!(at(0.8, -court.half_length() - 2.0), "0.8 m right of the centre line, 2.0 m behind the baseline");
        assert_eq!(at(court.half_width(), service), "on the sideline, on the service line");
        let feet = place(&court, dvec2(court.half_width() - 1.2, -service - 0.9), Units::Feet);
        assert_eq!(feet, "3′ 11″ inside the sideline, 2′ 11″ behind the service line");
    }

    #[test]
    fn lengths_and_sizes_are_said() {
        let court = Court::default();
        let arrow = Form::Arrow {
            from: dvec2(0.0, -5.0),
            to: dvec2(3.0, -1.0),
            bend: 0.0,
            pattern: standpoint_board::marks::Pattern::Solid,
        };
        assert!(form(&court, &arrow, Units::Metres).starts_with("5.0 m long, to "));
        let zone = Form::Zone { from: dvec2(-2.0, -9.0), to: dvec2(1.0, -7.0), round: false };
        assert!(form(&court, &zone, Units::Metres).starts_with("3.0 m wide, 2.0 m deep"));
    }
}
