//! Places to lay out with a tape: each from two lines, to the 5 cm or the half foot that can be set on a court.
//!
//! Left, right, near and far are as on the drawing, whose near side is down.

use glam::DVec2;
use standpoint_board::{
    Units,
    marks::{Form, Ink, Marks},
    measure::{FromLine, measured},
};
use standpoint_geometry::{Court, End, LineName, Side};
use standpoint_language::{text, text_in, tr, within};
use standpoint_sheet::{Column, Table};
use standpoint_workbench::{sketch::tape, words};

/// Metres in a foot. Source: international yard and pound agreement of 1959.
const FOOT: f64 = 0.3048;
/// What a length is rounded to, m: nobody sets a cone nearer than that.
const SET_M: f64 = 0.05;

/// A length to lay out: `1.50 m` to the 5 cm, or `4′ 6″` to the half foot.
#[must_use]
pub fn length(metres: f64, units: Units) -> String {
    if units == Units::Metres {
        return words::fine_length((metres / SET_M).round() * SET_M, units);
    }
    let halves = (metres.abs() / (FOOT / 2.0)).round() as i64;
    match (halves / 2, halves % 2) {
        (0, 1) => "6″".to_owned(),
        (feet, 1) => format!("{feet}′ 6″"),
        (feet, _) => format!("{feet}′"),
    }
}

/// Distances from the two nearest lines: across the court and along it.
#[must_use]
pub fn from_lines(court: &Court, place: DVec2, units: Units) -> (String, String) {
    let m = measured(court, place);
    (from_line(&m.across, place, units), from_line(&m.along, place, units))
}

fn from_line(from: &FromLine, place: DVec2, units: Units) -> String {
    let beside = tape::as_drawn(from.beside, place);
    tape::beside_line(from.line, beside, &length(from.distance, units), line_name(from.line))
}

fn line_name(line: LineName) -> &'static str {
    match line {
        LineName::Baseline(End::Near) => text_in("beside", "the near baseline"),
        LineName::Baseline(End::Far) => text_in("beside", "the far baseline"),
        LineName::ServiceLine(End::Near) => text_in("beside", "the near service line"),
        LineName::ServiceLine(End::Far) => text_in("beside", "the far service line"),
        LineName::CenterServiceLine => text_in("beside", "the centre line"),
        LineName::CenterMark(_) => text_in("beside", "the centre mark"),
        LineName::SinglesSideline(Side::Left) => text_in("beside", "the left singles sideline"),
        LineName::SinglesSideline(Side::Right) => text_in("beside", "the right singles sideline"),
        LineName::DoublesSideline(Side::Left) => text_in("beside", "the left doubles sideline"),
        LineName::DoublesSideline(Side::Right) => text_in("beside", "the right doubles sideline"),
    }
}

/// Everything drawn that has to be set up, each with its place.
#[must_use]
pub fn setting_up(court: &Court, marks: &Marks, units: Units) -> Option<Table> {
    let mut table = Table::new([
        Column::left(text("Set up")),
        Column::left(text_in("places", "Left-right")),
        Column::left(text_in("places", "Depth")),
    ]);
    let mut counts = [0_usize; 4];
    let mut rows = Vec::new();
    for mark in marks.shown() {
        let (kind, name, at) = match &mark.form {
            Form::Cone { at } => (0, text("Cone").to_owned(), *at),
            Form::Basket { at } => (1, text("Basket").to_owned(), *at),
            Form::Person { at, letter } => (2, tr!("Player {}", letter), *at),
            Form::Zone { from, to, round } => {
                (3, if *round { text("Oval") } else { text("Zone") }.to_owned(), (*from + *to) / 2.0)
            }
            Form::Pen { .. } | Form::Arrow { .. } | Form::Text { .. } => continue,
        };
        counts[kind] += 1;
        let mut name = if kind == 2 { name } else { format!("{name} {}", counts[kind]) };
        if mark.ink != Ink::Plain {
            name.push_str(&format!(" ({})", within(tape::ink(mark.ink))));
        }
        if let Form::Zone { from, to, .. } = &mark.form {
            let size = (*to - *from).abs();
            name = tr!("{}, {} by {}, middle", name, length(size.x, units), length(size.y, units));
        }
        let (across, along) = from_lines(court, at, units);
        rows.push((kind, [name, across, along]));
    }
    rows.sort_by_key(|(kind, _)| *kind);
    rows.into_iter().for_each(|(_, row)| table.row(row));
    (!table.rows.is_empty()).then_some(table)
}

/// The equipment drawn: `4 cones, 1 basket of balls`.
#[must_use]
pub fn equipment(marks: &Marks) -> Option<String> {
    let count = |wanted: fn(&Form) -> bool| marks.shown().filter(|mark| wanted(&mark.form)).count();
    let cones = count(|form| matches!(form, Form::Cone { .. }));
    let baskets = count(|form| matches!(form, Form::Basket { .. }));
    let cones = (cones > 0).then(|| tr!("1 cone" | "{n} cones" % cones));
    let baskets = (baskets > 0).then(|| tr!("1 basket of balls" | "{n} baskets of balls" % baskets));
    let all: Vec<String> = [cones, baskets].into_iter().flatten().collect();
    (!all.is_empty()).then(|| all.join(", "))
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    #[test]
    fn places_are_as_on_the_drawing() {
        let court = Court::default();
        let said = |x, y| from_lines(&court, dvec2(x, y), Units::Metres);
        let cone = said(2.615, -9.385);
        assert_eq!(cone, ("1.50 m inside the right singles sideline".into(), "2.50 m inside the near baseline".into()));
        assert_eq!(said(-0.8, 12.0).0, "0.80 m left of the centre line", "left on the drawing at the far end too");
        assert_eq!(said(0.0, -15.6), ("on the centre line".into(), "3.70 m behind the near baseline".into()));
    }

    #[test]
    fn lengths_are_those_a_tape_can_set() {
        let said = |feet: f64| length(feet * FOOT, Units::Feet);
        assert_eq!([said(4.96), said(0.4), said(0.1), said(4.4), said(12.0)], ["5′", "6″", "0′", "4′ 6″", "12′"]);
        let said = |metres: f64| length(metres, Units::Metres);
        assert_eq!([said(3.71), said(1.474), said(1.476)], ["3.70 m", "1.45 m", "1.50 m"]);
    }
}
