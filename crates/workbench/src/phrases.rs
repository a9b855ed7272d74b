//! Phrases that only the command line needs.

use glam::DVec2;
use standpoint_board::Units;
use standpoint_geometry::{Court, Interception, Recovery, Stroke};
use standpoint_language::tr;

use crate::words::{self, SHORT};

/// The part of a title line that names the basis of the figures.
pub const BASIS: &str = "Figures are estimates of a model. Left and right are as the player named sees them.";

/// Where a ball lands, relative to the lines it stays inside; in the frame of a near hitter.
#[must_use]
pub fn target(place: DVec2, court: &Court, stroke: Stroke, units: Units) -> String {
    let length = |metres: f64| words::fine_length(metres, units);
    let left = place.x < 0.0;
    let half = court.half_width();
    let (middle, to_side) = (place.x.abs(), half - place.x.abs());
    let serve = stroke == Stroke::Serve;
    let across = if serve && middle < to_side {
        tr!("{} from the centre line", length(middle))
    } else if middle < 0.05 {
        tr!("in the middle")
    } else if !serve && middle < half / 3.0 {
        let by = length(middle);
        if left { tr!("{} left of the middle", by) } else { tr!("{} right of the middle", by) }
    } else {
        let by = length(to_side);
        if left { tr!("{} inside the left sideline", by) } else { tr!("{} inside the right sideline", by) }
    };
    format!("{across}, {}", target_depth(place.y, court, serve, units))
}

fn target_depth(from_net: f64, court: &Court, serve: bool, units: Units) -> String {
    let length = |metres: f64| words::fine_length(metres, units);
    match court.service_line {
        Some(line) if serve && from_net <= line => tr!("{} inside the service line", length(line - from_net)),
        Some(line) if from_net > line => tr!("{} inside the baseline", length(court.half_length() - from_net)),
        None if from_net > 0.5 * court.half_length() => {
            tr!("{} inside the baseline", length(court.half_length() - from_net))
        }
        _ => tr!("{} behind the net", length(from_net)),
    }
}

/// An angle: `7.2°`.
#[must_use]
pub fn degrees(radians: f64) -> String {
    format!("{}°", words::decimal(radians.to_degrees(), 1))
}

/// The number of a length alone, for a column whose heading has the unit: `1.9` or `6′ 3″`.
#[must_use]
pub fn bare_length(metres: f64, figures: usize, units: Units) -> String {
    match units {
        Units::Metres => words::decimal(metres, figures),
        Units::Feet => words::length(metres, units),
    }
}

/// The heading's unit for [`bare_length`].
#[must_use]
pub fn length_heading(units: Units) -> &'static str {
    match units {
        Units::Metres => "m",
        Units::Feet => "ft in",
    }
}

/// A chance without its sign, for a column whose heading has it: `86`, `<1`.
#[must_use]
pub fn bare_percent(chance: f64) -> String {
    words::percent(chance).trim_end_matches(" %").to_owned()
}

/// How the opponent meets the ball: `with the backhand after the bounce, 1.05 m high`.
#[must_use]
pub fn met(receipt: &Interception, units: Units) -> String {
    let when = match receipt.bounces {
        0 => "before the bounce",
        1 => "after the bounce",
        _ => "after the second bounce",
    };
    format!("{} {when}, {} high", words::wing(receipt.wing), words::fine_length(receipt.contact.z, units))
}

/// How hard the ball is for the opponent, from the pressure of the receipt. The steps are our choice.
#[must_use]
pub fn pressed(pressure: f64) -> &'static str {
    match pressure {
        p if p < 0.15 => "in comfort",
        p if p < 0.5 => "hurried",
        p if p < 0.85 => "under pressure",
        _ => "at full stretch",
    }
}

/// A standing place for a table, across and in depth: `0.83 m right`, `1.35 m behind` (the baseline), or at the net
/// `2.80 m from net`; the place in the frame of a near player.
#[must_use]
pub fn place_cells(place: DVec2, court: &Court, units: Units) -> (String, String) {
    let cell = |metres: f64, nought: &str, above: &str, below: &str| {
        if metres.abs() < 0.05 {
            return nought.to_owned();
        }
        format!("{} {}", words::fine_length(metres.abs(), units), if metres > 0.0 { above } else { below })
    };
    let at_net = court.service_line.is_some_and(|line| -place.y < line);
    let depth = if at_net {
        cell(-place.y, "at the net", "from net", "")
    } else {
        cell(-place.y - court.half_length(), "baseline", "behind", "inside")
    };
    (cell(place.x, "middle", "right", "left"), depth)
}

/// How the run ends: in time, or too short and at what cost.
#[must_use]
pub fn run_ends(run: &Recovery, units: Units) -> String {
    if run.short_by > SHORT {
        let cost = words::more_points(run.extra_exposure);
        return format!(
            "does not get there by {}, which gives away {cost} points in 100",
            words::length(run.short_by, units)
        );
    }
    match run.available - run.needed {
        spare if spare < 0.05 => "just in time".to_owned(),
        spare => format!("in time, {} to spare", words::seconds(spare)),
    }
}

/// A share as points: `6 points in 100`, `1 point in 100`.
#[must_use]
pub fn points_in_100(share: f64) -> String {
    let points = words::points(share);
    let noun = if points == "1" { "point" } else { "points" };
    format!("{points} {noun} in 100")
}

/// A list in a sentence: `a, b and c`.
#[must_use]
pub fn listed(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// Breaks a long line at blanks and indents what follows.
#[must_use]
pub fn wrapped(text: &str) -> String {
    /// Narrow enough for half a screen.
    const WIDTH: usize = 100;
    /// Units, which never begin a line.
    const UNITS: [&str; 6] = ["%", "m", "s", "km/h", "mph", "°"];
    let mut lines = vec![String::new()];
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        let line = lines.last().map_or(0, |line| line.chars().count());
        let unit = words.peek().filter(|next| UNITS.contains(&next.trim_end_matches([',', '.', ';', ':', ')'])));
        let wide = word.chars().count() + unit.map_or(0, |unit| 1 + unit.chars().count());
        let glued = UNITS.contains(&word.trim_end_matches([',', '.', ';', ':', ')']));
        if line > 0 && !glued && line + 1 + wide > WIDTH {
            lines.push("   ".to_owned());
        }
        if let Some(line) = lines.last_mut() {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_geometry::{NetPosts, Stage};

    use super::*;

    #[test]
    fn a_target_is_told_by_the_lines_it_stays_inside_of() {
        let full = Court::default();
        let said = |x, y, stroke| target(dvec2(x, y), &full, stroke, Units::Metres);
        assert_eq!(
            said(-2.9, 9.6, Stroke::Topspin),
            "1.22 m inside the left sideline, 2.29 m inside the baseline",
            "half the court is 4.115 by 11.885 m; 1.215 m rounds up"
        );
        assert_eq!(said(0.0, 9.6, Stroke::Flat), "in the middle, 2.29 m inside the baseline");
        assert_eq!(said(0.8, 2.0, Stroke::Drop), "0.80 m right of the middle, 2.00 m behind the net");
        assert_eq!(said(-0.6, 5.9, Stroke::Serve), "0.60 m from the centre line, 0.50 m inside the service line");
        assert_eq!(said(3.6, 5.9, Stroke::Serve), "0.52 m inside the right sideline, 0.50 m inside the service line");
    }

    #[test]
    fn a_place_for_a_table_is_told_from_the_line_that_helps() {
        let cells = |x, y| {
            let (across, depth) = place_cells(dvec2(x, y), &Court::default(), Units::Metres);
            format!("{across}, {depth}")
        };
        assert_eq!(cells(0.83, -13.235), "0.83 m right, 1.35 m behind");
        assert_eq!(cells(-0.01, -11.9), "middle, baseline");
        assert_eq!(cells(-0.4, -8.0), "0.40 m left, 3.88 m inside");
        assert_eq!(cells(0.2, -2.8), "0.20 m right, 2.80 m from net");
    }

    #[test]
    fn a_court_without_service_lines_is_told_by_its_baseline() {
        let red = Court::new(Stage::Red, NetPosts::SinglesSticks);
        let said = target(dvec2(0.0, 4.5), &red, Stroke::Topspin, Units::Metres);
        assert!(said.ends_with("inside the baseline"), "{said}");
    }

    #[test]
    fn long_lines_are_broken_at_blanks_and_set_in() {
        let text = "seven ".repeat(40);
        let text = text.trim();
        let broken = wrapped(text);
        assert!(broken.lines().all(|line| line.chars().count() <= 100));
        assert!(broken.lines().skip(1).all(|line| line.starts_with("    seven")));
        assert_eq!(broken.split_whitespace().count(), 40);
        assert_eq!(wrapped("short"), "short");
        let figures = "about 12 m, ".repeat(40);
        assert!(wrapped(figures.trim()).lines().all(|line| !line.trim_start().starts_with("m,")));
    }

    #[test]
    fn lists_read_well() {
        let items = ["a".to_owned(), "b".to_owned(), "c".to_owned()];
        assert_eq!(listed(&items), "a, b and c");
        assert_eq!(listed(&items[..1]), "a");
    }
}
