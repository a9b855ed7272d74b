//! Places and lengths of marks, as laid out with a measuring tape.

use glam::DVec2;
use standpoint_board::{
    Units,
    marks::{Appears, Form, Ink, Layer},
    measure::{Beside, FromLine, measured},
};
use standpoint_geometry::{Court, LineName};
use standpoint_language::{text, text_in, tr};

use crate::words;

/// Distance that counts as on the line, because it is shown as zero, m.
const ON_IT: f64 = 0.05;

/// A place from the two nearest lines: `1.2 m inside the sideline, 0.9 m behind the service line`.
#[must_use]
pub fn place(court: &Court, place: DVec2, units: Units) -> String {
    let m = measured(court, place);
    format!("{}, {}", from_line(&m.across, place, units), from_line(&m.along, place, units))
}

/// The quarter of the court that a place is in, for screen readers: `near side, left`.
#[must_use]
pub fn quarter(place: DVec2) -> &'static str {
    match (place.y <= 0.0, place.x < 0.0) {
        (true, true) => text("near side, left"),
        (true, false) => text("near side, right"),
        (false, true) => text("far side, left"),
        (false, false) => text("far side, right"),
    }
}

/// Left and right as on the drawing with the near side down, on both halves and on the sheet: whoever sets up
/// cones reads the drawing, and does not face the net from the other baseline.
#[must_use]
pub fn as_drawn(beside: Beside, place: DVec2) -> Beside {
    match beside {
        Beside::Left | Beside::Right if place.x < 0.0 => Beside::Left,
        Beside::Left | Beside::Right => Beside::Right,
        other => other,
    }
}

fn from_line(from: &FromLine, place: DVec2, units: Units) -> String {
    let beside = if from.distance < ON_IT { Beside::On } else { as_drawn(from.beside, place) };
    let line = match from.line {
        LineName::Baseline(_) => text_in("beside", "the baseline"),
        LineName::ServiceLine(_) => text_in("beside", "the service line"),
        LineName::CenterServiceLine => text_in("beside", "the centre line"),
        LineName::CenterMark(_) => text_in("beside", "the centre mark"),
        LineName::SinglesSideline(_) => text_in("beside", "the sideline"),
        LineName::DoublesSideline(_) => text_in("beside", "the doubles sideline"),
    };
    beside_line(from.line, beside, &words::length(from.distance, units), line)
}

/// The distance of a place from a line: `1.2 m inside the sideline`.
#[must_use]
pub fn beside_line(line: LineName, beside: Beside, length: &str, said: &str) -> String {
    let service = matches!(line, LineName::ServiceLine(_));
    let baseline = matches!(line, LineName::Baseline(_));
    match beside {
        Beside::On => tr!("on {}", said),
        Beside::Inside if service => tr!("{} in front of {}", length, said),
        Beside::Outside if service || baseline => tr!("{} behind {}", length, said),
        Beside::Inside => tr!("{} inside {}", length, said),
        Beside::Outside => tr!("{} outside {}", length, said),
        Beside::Left => tr!("{} left of {}", length, said),
        Beside::Right => tr!("{} right of {}", length, said),
    }
}

/// Description of a form: its place, and its length or size if it has one.
#[must_use]
pub fn form(court: &Court, form: &Form, units: Units) -> String {
    let at = |p| place(court, p, units);
    match form {
        Form::Arrow { from, to, .. } => {
            tr!("{} long, to {}", words::length(from.distance(*to), units), at(*to))
        }
        Form::Zone { from, to, .. } => {
            let size = (*to - *from).abs();
            let (x, y) = (words::length(size.x, units), words::length(size.y, units));
            tr!("{} wide, {} deep, middle {}", x, y, at((*from + *to) / 2.0))
        }
        Form::Pen { points, .. } => {
            let long: f64 = points.windows(2).map(|w| w[0].distance(w[1])).sum();
            let last = points.last().copied().unwrap_or_default();
            tr!("{} long, to {}", words::length(long, units), at(last))
        }
        Form::Text { at: p, .. } | Form::Cone { at: p } | Form::Basket { at: p } | Form::Person { at: p, .. } => at(*p),
    }
}

/// A form's name.
#[must_use]
pub fn kind(form: &Form) -> &'static str {
    match form {
        Form::Pen { .. } => text("Line"),
        Form::Arrow { .. } => text("Arrow"),
        Form::Text { .. } => text_in("drawn", "Text"),
        Form::Cone { .. } => text("Cone"),
        Form::Basket { .. } => text("Ball basket"),
        Form::Person { .. } => text("Player"),
        Form::Zone { round: false, .. } => text("Zone"),
        Form::Zone { round: true, .. } => text("Oval zone"),
    }
}

/// Name of an ink by its meaning.
#[must_use]
pub fn ink(ink: Ink) -> &'static str {
    match ink {
        Ink::Plain => text("Plain"),
        Ink::Coached => text("Coached player"),
        Ink::Other => text("Other player"),
        Ink::Ball => text_in("ink", "Ball"),
        Ink::Warning => text("Warning"),
    }
}

/// From when on a mark is there in a presentation of a page with so many shots; nothing when it is there at once.
#[must_use]
pub fn appears(appears: Appears, shots: usize) -> Option<String> {
    let appears = appears.within(shots);
    let step = appears.step.number();
    (appears > Appears::AT_ONCE).then(|| {
        if shots > 1 { tr!("from shot {}, step {}", appears.shot + 1, step) } else { tr!("from step {}", step) }
    })
}

/// The same in figures: the step, after the shot where there are several.
#[must_use]
pub fn appears_short(appears: Appears, shots: usize) -> String {
    let (appears, step) = (appears.within(shots), appears.step.number());
    if shots > 1 { format!("{}·{step}", appears.shot + 1) } else { step.to_string() }
}

/// A layer's name.
#[must_use]
pub fn layer(layer: Layer) -> &'static str {
    match layer {
        Layer::Drill => text("Equipment"),
        Layer::Sketch => text("Sketch"),
        Layer::Notes => text_in("drawn", "Text"),
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
        assert_eq!(at(0.8, court.half_length() + 2.0), "0.8 m right of the centre line, 2.0 m behind the baseline");
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
