//! Figures and places in words, in a coach's units.

mod places;
mod refusal;

use standpoint_board::Units;
use standpoint_geometry::{
    End, Level, ReplyName, Stroke, Wing,
    units::{FOOT, INCH, KMH, MPH, RPM, feet_inches},
};
use standpoint_language::{Language, spoken, text, text_in, tr, whole};

pub(crate) use places::across;
pub use places::{place, stand};
pub use refusal::refusal;
pub use standpoint_language::decimal;

/// A number with its unit, kept on one line where German is spoken. English has a plain blank, which whatever reads the
/// command line expects.
pub(crate) fn with_unit(number: &str, unit: &str) -> String {
    let blank = match spoken() {
        Language::English => ' ',
        Language::German => '\u{a0}',
    };
    format!("{number}{blank}{unit}")
}

/// A run that ends this close to the spot has reached it, m.
pub const SHORT: f64 = 0.05;

/// A length: `1.2 m` or `3′ 11″`. The sign is kept.
#[must_use]
pub fn length(metres: f64, units: Units) -> String {
    match units {
        Units::Metres => with_unit(&decimal(metres, 1), "m"),
        Units::Feet => {
            let (negative, feet, inches) = feet_inches(metres);
            let sign = if negative { "−" } else { "" };
            if feet == 0 { format!("{sign}{inches}″") } else { format!("{sign}{feet}′ {inches}″") }
        }
    }
}

/// A length where centimetres matter: `0.87 m` or `2′ 10″`.
#[must_use]
pub fn fine_length(metres: f64, units: Units) -> String {
    match units {
        Units::Metres => with_unit(&decimal(metres, 2), "m"),
        Units::Feet => length(metres, units),
    }
}

/// A speed: `104 km/h` or `65 mph`.
#[must_use]
pub fn speed(metres_per_second: f64, units: Units) -> String {
    let (factor, unit) = speed_unit(units);
    with_unit(&decimal(metres_per_second / factor, 0), unit)
}

/// Metres per second in one of the units of speed, and its name.
#[must_use]
pub fn speed_unit(units: Units) -> (f64, &'static str) {
    match units {
        Units::Metres => (KMH, "km/h"),
        Units::Feet => (MPH, "mph"),
    }
}

/// Metres in one of the units that distances on the ground are measured in, and its name.
#[must_use]
pub fn distance_unit(units: Units) -> (f64, &'static str) {
    match units {
        Units::Metres => (1.0, "m"),
        Units::Feet => (FOOT, "ft"),
    }
}

/// Metres in one of the units that lengths are entered in, its name and the figures behind the point.
#[must_use]
pub fn length_unit(units: Units) -> (f64, &'static str, usize) {
    match units {
        Units::Metres => (1.0, "m", 2),
        Units::Feet => (INCH, text_in("inches", "in"), 0),
    }
}

/// A spin: `2100 rpm topspin`.
#[must_use]
pub fn spin(radians_per_second: f64) -> String {
    let rpm = radians_per_second / RPM;
    match rpm.round() {
        0.0 => text("no spin").to_owned(),
        r if r > 0.0 => tr!("{} rpm topspin", decimal(r, 0)),
        r => tr!("{} rpm backspin", decimal(-r, 0)),
    }
}

/// Seconds to the hundredth: `0.42 s`.
#[must_use]
pub fn seconds(s: f64) -> String {
    with_unit(&decimal(s, 2), "s")
}

/// A chance: `72 %`. Certainty and impossibility are said only when they are meant.
#[must_use]
pub fn percent(chance: f64) -> String {
    let p = (chance * 100.0).round();
    if p >= 100.0 && chance < 0.9995 {
        return with_unit(">99", "%");
    }
    if p <= 0.0 && chance > 0.0005 {
        return with_unit("<1", "%");
    }
    with_unit(&decimal(p, 0), "%")
}

/// A chance to win as points in a hundred: `38`.
#[must_use]
pub fn points(exposure: f64) -> String {
    decimal(exposure * 100.0, 0)
}

/// A chance to win in a sentence: `38 points in 100`, `1 point in 100`.
#[must_use]
pub fn of_hundred(exposure: f64) -> String {
    let points = (exposure * 100.0).round().max(0.0) as usize;
    tr!("{n} point in 100" | "{n} points in 100" % points)
}

/// A number of shots: `1 shot`, `100,000 shots`.
#[must_use]
pub fn shots(count: usize) -> String {
    tr!("{0} shot" | "{0} shots" % count, whole(count))
}

/// A number of points played: `1 point`, `1,200 points`.
#[must_use]
pub fn played(count: usize) -> String {
    tr!("{0} point" | "{0} points" % count, whole(count))
}

/// A number of rows of a table: `1 row`, `100,000 rows`.
#[must_use]
pub fn rows(count: usize) -> String {
    tr!("{0} row" | "{0} rows" % count, whole(count))
}

/// A difference of exposures in points, with its sign: `+4.2`.
#[must_use]
pub fn more_points(difference: f64) -> String {
    let said = decimal(difference * 100.0, 1);
    if said.starts_with('−') { said } else { format!("+{said}") }
}

/// A reply's name, to stand alone.
#[must_use]
pub fn reply(name: ReplyName) -> &'static str {
    match name {
        ReplyName::DownTheLine => text("Down the line"),
        ReplyName::CrossCourt => text("Cross-court"),
        ReplyName::ShortAngle => text("Short angle"),
        ReplyName::Middle => text("Through the middle"),
        ReplyName::AtTheBody => text("At the body"),
        ReplyName::Lob => text("Lob"),
        ReplyName::RightCorner => text("Right corner"),
        ReplyName::LeftCorner => text("Left corner"),
        ReplyName::DropShot => text("Drop shot"),
        ReplyName::ServeWide => text("Serve wide"),
        ReplyName::ServeBody => text("Serve at the body"),
        ReplyName::ServeT => text("Serve down the T"),
    }
}

/// A stroke's name, to stand alone.
#[must_use]
pub fn stroke(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Topspin => text("Topspin drive"),
        Stroke::Flat => text("Flat drive"),
        Stroke::Slice => text("Slice"),
        Stroke::Drop => text("Drop shot"),
        Stroke::Lob => text("Lob"),
        Stroke::Volley => text("Volley"),
        Stroke::Overhead => text("Overhead"),
        Stroke::Serve => text("Serve"),
    }
}

/// A reply's name with its stroke, where that is not the drive that one expects: `Down the line, slice`.
#[must_use]
pub fn reply_struck(name: ReplyName, stroke: Stroke) -> String {
    match stroke {
        Stroke::Slice => format!("{}, {}", reply(name), text("slice")),
        Stroke::Volley => format!("{}, {}", reply(name), text("volley")),
        Stroke::Overhead => format!("{}, {}", reply(name), text("overhead")),
        Stroke::Topspin | Stroke::Flat | Stroke::Drop | Stroke::Lob | Stroke::Serve => reply(name).to_owned(),
    }
}

/// A wing's name inside a sentence.
#[must_use]
pub fn wing(wing: Wing) -> &'static str {
    match wing {
        Wing::Forehand => text("forehand"),
        Wing::Backhand => text("backhand"),
    }
}

/// A level's name, to stand alone.
#[must_use]
pub fn level(level: Level) -> &'static str {
    match level {
        Level::RedJunior => text("Red junior (about 8)"),
        Level::OrangeJunior => text("Orange junior (about 10)"),
        Level::GreenJunior => text("Green junior (about 12)"),
        Level::JuniorGirl => text("Junior girl (about 16)"),
        Level::JuniorBoy => text("Junior boy (about 16)"),
        Level::Improver => text("Improver"),
        Level::Club => text("Club player"),
        Level::Tournament => text("Competitive adult"),
        Level::ProWoman => text("Professional, women"),
        Level::ProMan => text("Professional, men"),
        Level::Wheelchair => text("Wheelchair, competitive"),
    }
}

/// An end's name, as files and reports say it: it is not translated.
#[must_use]
pub fn end(end: End) -> &'static str {
    match end {
        End::Near => "near",
        End::Far => "far",
    }
}

/// The time to spare in words.
#[must_use]
pub fn spare(time: f64) -> String {
    match time {
        t if t.abs() < 0.005 => text("just in time").to_owned(),
        t if t > 0.0 => tr!("{} to spare", seconds(t)),
        t => tr!("{} too late", seconds(-t)),
    }
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_geometry::Court;

    use super::*;

    #[test]
    fn the_sentence_is_a_coachs() {
        let court = Court::default();
        let spot = dvec2(1.0, -court.half_length() - 2.3);
        let said = stand(spot, End::Near, &court, Units::Metres);
        assert_eq!(said, "Stand 1.0 m right of the centre mark, 2.3 m behind the baseline");
        assert_eq!(
            stand(-spot, End::Far, &court, Units::Metres),
            said,
            "the far player's right is the near one's left"
        );
        let feet = stand(spot, End::Near, &court, Units::Feet);
        assert_eq!(feet, "Stand 3′ 3″ right of the centre mark, 7′ 7″ behind the baseline");
    }

    #[test]
    fn places_are_told_from_the_line_that_helps() {
        let court = Court::default();
        let at = |x, from_net: f64| place(dvec2(x, -from_net), End::Near, &court, Units::Metres);
        assert_eq!(at(0.0, court.half_length()), "in the middle, on the baseline");
        assert_eq!(at(-0.5, court.half_length() - 1.0), "0.5 m left of the centre mark, 1.0 m inside the baseline");
        assert_eq!(at(-0.5, 7.0), "0.5 m left of the middle, 0.6 m behind the service line");
        assert_eq!(at(2.0, 3.0), "2.0 m right of the middle, 3.0 m from the net");
    }

    #[test]
    fn levels_are_called_here_as_in_the_presets() {
        for of in Level::ALL {
            assert_eq!(of.label(), level(of));
        }
    }

    #[test]
    fn nought_has_no_sign_and_chances_do_not_lie() {
        assert_eq!(decimal(-0.001, 2), "0.00");
        assert_eq!(decimal(-0.5, 1), "−0.5");
        assert_eq!(percent(0.998), ">99 %");
        assert_eq!(percent(0.001), "<1 %");
        assert_eq!(percent(0.0), "0 %");
        assert_eq!(more_points(-0.0001), "+0.0");
        assert_eq!(length(-0.3, Units::Feet), "−1′ 0″");
    }
}
