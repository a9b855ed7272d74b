//! Comparisons of shots in words.

use standpoint_board::Units;
use standpoint_geometry::{Cause, Choice, Court, Difference, Sweep};
use standpoint_language::{text, text_in, tr};

use crate::words;

/// A choice's name inside a sentence.
#[must_use]
pub fn choice(choice: Choice) -> &'static str {
    match choice {
        Choice::AsDrawn => text_in("choice", "the shot as drawn"),
        Choice::CrossCourt => text_in("choice", "cross-court"),
        Choice::DownTheLine => text_in("choice", "down the line"),
        Choice::Middle => text_in("choice", "through the middle"),
        Choice::ShortAngle => text_in("choice", "the short angle"),
        Choice::InsideOut => text_in("choice", "inside-out"),
        Choice::Lob => text_in("choice", "the lob"),
        Choice::Drop => text_in("choice", "the drop shot"),
        Choice::ServeWide => text_in("choice", "the serve wide"),
        Choice::ServeBody => text_in("choice", "the serve at the body"),
        Choice::ServeT => text_in("choice", "the serve down the T"),
        Choice::SecondServe => text_in("choice", "the second serve"),
    }
}

/// A choice's name, capitalised.
#[must_use]
pub fn choice_label(choice: Choice) -> &'static str {
    match choice {
        Choice::AsDrawn => text("As drawn"),
        Choice::CrossCourt => text("Cross-court"),
        Choice::DownTheLine => text("Down the line"),
        Choice::Middle => text("Middle"),
        Choice::ShortAngle => text("Short angle"),
        Choice::InsideOut => text("Inside-out"),
        Choice::Lob => text("Lob"),
        Choice::Drop => text("Drop shot"),
        Choice::ServeWide => text("Serve wide"),
        Choice::ServeBody => text("Serve at the body"),
        Choice::ServeT => text("Serve down the T"),
        Choice::SecondServe => text("Second serve"),
    }
}

/// Differences smaller than this share of a clear one are left unsaid.
const TELLING: f64 = 0.5;

/// The differences between two shots that matter, each as a phrase: `0.19 s less for the opponent`,
/// `1.9 m longer recovery`. The chance to win is left to [`verdict`].
#[must_use]
pub fn differences(difference: &Difference, units: Units) -> Vec<String> {
    let d = difference;
    // Clear differences, our choice: a tenth of a second, a metre, one ball in twenty.
    let told = [
        (d.opponent_time, 0.1, time as Phrase),
        (d.recovery, 1.0, recovery),
        (d.lack, 0.15, lack),
        (Some(d.chance_in), 0.05, chance_in),
        (Some(d.net_height), 0.08, net_height),
        (Some(d.clearance), 0.3, clearance),
        (d.wedge, 8f64.to_radians(), wedge),
    ];
    told.into_iter()
        .filter_map(|(value, clear, phrase)| {
            let value = value.filter(|value| value.abs() >= TELLING * clear)?;
            Some(phrase(value, units))
        })
        .collect()
}

/// The difference in the chance to win: `wins 4 points in 100 more`.
#[must_use]
pub fn verdict(difference: &Difference) -> String {
    let points = difference.win * 100.0;
    let whole = points.abs().round() as u64;
    match whole {
        0 => text("wins as often").to_owned(),
        _ if points > 0.0 => tr!("wins {n} point in 100 more" | "wins {n} points in 100 more" % whole),
        _ => tr!("wins {n} point in 100 fewer" | "wins {n} points in 100 fewer" % whole),
    }
}

/// One shot against another in a sentence:
/// `Down the line against cross-court: 0.19 s less for the opponent, 1.9 m longer recovery; wins 4 points in 100 fewer.`
#[must_use]
pub fn sentence(first: Choice, second: Choice, difference: &Difference, units: Units) -> String {
    let phrases = differences(difference, units);
    let said = if phrases.is_empty() { text("much the same").to_owned() } else { phrases.join(", ") };
    tr!("{0} against {1}: {2}; {3}.", capital(choice(second)), choice(first), said, verdict(difference))
}

type Phrase = fn(f64, Units) -> String;

fn time(value: f64, _: Units) -> String {
    let by = words::seconds(value.abs());
    if value > 0.0 { tr!("{} more for the opponent", by) } else { tr!("{} less for the opponent", by) }
}

fn recovery(value: f64, units: Units) -> String {
    let by = words::length(value.abs(), units);
    if value > 0.0 { tr!("{} longer recovery", by) } else { tr!("{} shorter recovery", by) }
}

fn lack(value: f64, _: Units) -> String {
    // A larger shortfall leaves less margin.
    let by = words::seconds(value.abs());
    if value < 0.0 { tr!("{} more in hand for the run", by) } else { tr!("{} less in hand for the run", by) }
}

fn chance_in(value: f64, _: Units) -> String {
    let by = plain(value);
    if value > 0.0 { tr!("goes in {} in 100 more often", by) } else { tr!("goes in {} in 100 less often", by) }
}

fn net_height(value: f64, units: Units) -> String {
    let by = words::fine_length(value.abs(), units);
    if value > 0.0 { tr!("the net {} higher", by) } else { tr!("the net {} lower", by) }
}

fn clearance(value: f64, units: Units) -> String {
    let by = words::fine_length(value.abs(), units);
    if value > 0.0 { tr!("{} more over the net", by) } else { tr!("{} less over the net", by) }
}

fn wedge(value: f64, _: Units) -> String {
    let degrees = words::decimal(value.to_degrees().abs(), 0);
    if value > 0.0 { tr!("replies {}° wider", degrees) } else { tr!("replies {}° narrower", degrees) }
}

fn plain(share: f64) -> String {
    words::decimal(share.abs() * 100.0, 0)
}

/// Name of the cause, as the heading of an axis or a column without its unit.
#[must_use]
pub fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::OpponentWide => text("Opponent's distance from the centre"),
        Cause::OpponentDepth => text("Opponent's distance behind the baseline"),
        Cause::ContactHeight => text("Height of the contact"),
        Cause::ContactDepth => text("Contact's distance behind the baseline"),
        Cause::ContactWide => text("Contact's distance from the centre"),
        Cause::Speed => text("Speed of both shots"),
        Cause::OpponentBackhand => text("Opponent’s backhand"),
    }
}

/// The factor from SI to the unit that a value of the cause is read in, and that unit.
#[must_use]
pub fn cause_unit(cause: Cause, units: Units) -> (f64, &'static str) {
    match (cause, units) {
        (Cause::OpponentBackhand, _) => (0.01, "%"),
        (Cause::Speed, units) => words::speed_unit(units),
        (_, Units::Metres) => (1.0, "m"),
        (_, Units::Feet) => (standpoint_geometry::units::FOOT, "ft"),
    }
}

/// Where the better choice changes, one sentence for each place; one sentence when it never does:
/// `Down the line pays once the opponent is 1.3 m outside the singles sideline.`
#[must_use]
pub fn crossings(sweep: &Sweep, choices: [Choice; 2], court: &Court, units: Units) -> Vec<String> {
    let [first, second] = choices.map(choice);
    if sweep.crossings.is_empty() {
        return vec![never(sweep, [first, second])];
    }
    let sentence = |&(value, above): &(f64, bool)| {
        let (better, other) = if above { (second, first) } else { (first, second) };
        tr!("{0} pays {1}, {2} until then.", capital(better), once(sweep.cause, value, court, units), other)
    };
    sweep.crossings.iter().map(sentence).collect()
}

/// Condition under which a rising cause has passed a value.
fn once(cause: Cause, value: f64, court: &Court, units: Units) -> String {
    match cause {
        Cause::OpponentWide => tr!("once the opponent is {}", aside(value, court, units)),
        Cause::ContactWide => tr!("once the contact is {}", aside(value, court, units)),
        Cause::OpponentDepth => tr!("once the opponent is {}", deep(value, units)),
        Cause::ContactDepth => tr!("once the contact is {}", deep(value, units)),
        Cause::ContactHeight => {
            tr!("once the ball is struck {} high or higher", words::fine_length(value, units))
        }
        Cause::Speed => tr!("once both are struck at {} or faster", words::speed(value, units)),
        Cause::OpponentBackhand => {
            tr!("once the opponent’s backhand is at {} of its strength or better", strength(value))
        }
    }
}

/// A place behind or inside the baseline, or any that is further back.
fn deep(behind: f64, units: Units) -> String {
    let by = words::length(behind.abs(), units);
    match behind {
        v if v.abs() < 0.05 => text("behind the baseline").to_owned(),
        v if v > 0.0 => tr!("{} or more behind the baseline", by),
        _ => tr!("no further than {} inside the baseline", by),
    }
}

/// A distance from the middle line, measured from the nearest line.
fn aside(from_middle: f64, court: &Court, units: Units) -> String {
    let length = |metres: f64| words::length(metres.abs(), units);
    match from_middle - court.half_width() {
        d if d.abs() < 0.05 => text("on the singles sideline").to_owned(),
        d if d > 0.0 => tr!("{} outside the singles sideline", length(d)),
        d if -d < from_middle => tr!("within {} of the singles sideline", length(d)),
        _ => tr!("{} from the centre", length(from_middle)),
    }
}

/// A share that may exceed the whole: `115 %`.
fn strength(share: f64) -> String {
    format!("{} %", words::decimal(share * 100.0, 0))
}

/// The sentence for a sweep without crossing.
fn never(sweep: &Sweep, [first, second]: [&str; 2]) -> String {
    let leads: Vec<f64> = sweep.points.iter().filter_map(|p| Some(p.win[1]? - p.win[0]?)).collect();
    let (Some(least), Some(most)) =
        (leads.iter().copied().min_by(f64::total_cmp), leads.iter().copied().max_by(f64::total_cmp))
    else {
        return text("Nowhere in this range can both be played, so there is nothing to compare.").to_owned();
    };
    if most.abs().max(least.abs()) < 0.005 {
        return tr!("{0} and {1} are worth the same over the whole range.", capital(first), second);
    }
    let (better, other, low, high) =
        if most > 0.0 { (second, first, least, most) } else { (first, second, -most, -least) };
    let (low, high, better) = (plain(low), plain(high), capital(better));
    if low == high {
        tr!("{0} beats {1} over the whole range, by {2} points in 100.", better, other, high)
    } else {
        tr!("{0} beats {1} over the whole range, by {2} to {3} points in 100.", better, other, low, high)
    }
}

/// The text with its first letter large.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::SweepPoint;

    use super::*;

    const SAME: Difference = Difference {
        chance_in: 0.0,
        clearance: 0.0,
        net_height: 0.0,
        opponent_time: Some(0.0),
        opponent_spare: Some(0.0),
        wedge: Some(0.0),
        recovery: Some(0.0),
        lack: Some(0.0),
        exposure: Some(0.0),
        win: 0.0,
    };

    #[test]
    fn a_difference_is_said_as_a_coach_would() {
        let d = Difference { opponent_time: Some(-0.19), recovery: Some(1.9), win: -0.041, ..SAME };
        let describe = |units| sentence(Choice::CrossCourt, Choice::DownTheLine, &d, units);
        assert_eq!(
            describe(Units::Metres),
            "Down the line against cross-court: 0.19 s less for the opponent, 1.9 m longer recovery; wins 4 points in \
             100 fewer."
        );
        assert!(describe(Units::Feet).contains("6′ 3″ longer recovery"), "{}", describe(Units::Feet));
    }

    #[test]
    fn what_makes_no_difference_is_not_said() {
        let d = Difference { opponent_time: None, recovery: Some(0.2), chance_in: 0.01, ..SAME };
        assert_eq!(
            sentence(Choice::Middle, Choice::Lob, &d, Units::Metres),
            "The lob against through the middle: much the same; wins as often."
        );
        let lower = Difference { lack: Some(-0.3), net_height: -0.1, clearance: 0.4, win: 0.012, ..SAME };
        assert_eq!(
            differences(&lower, Units::Metres),
            ["0.30 s more in hand for the run", "the net 0.10 m lower", "0.40 m more over the net"]
        );
        assert_eq!(verdict(&lower), "wins 1 point in 100 more");
    }

    fn swept(cause: Cause, points: &[(f64, f64)], crossings: Vec<(f64, bool)>) -> Sweep {
        let points = points.iter().enumerate();
        let point = |(i, (a, b)): (usize, &(f64, f64))| SweepPoint {
            value: i as f64,
            win: [Some(*a), Some(*b)],
            wing: [None; 2],
        };
        Sweep { cause, points: points.map(point).collect(), crossings }
    }

    fn describe(cause: Cause, value: f64, above: bool) -> String {
        let sweep = swept(cause, &[(0.5, 0.4), (0.5, 0.6)], vec![(value, above)]);
        let choices = [Choice::CrossCourt, Choice::DownTheLine];
        crossings(&sweep, choices, &Court::default(), Units::Metres).join(" ")
    }

    #[test]
    fn a_crossing_is_told_from_the_line_that_helps() {
        assert_eq!(
            describe(Cause::OpponentWide, 4.115 + 1.3, true),
            "Down the line pays once the opponent is 1.3 m outside the singles sideline, cross-court until then."
        );
        assert_eq!(
            describe(Cause::OpponentWide, 1.0, false),
            "Cross-court pays once the opponent is 1.0 m from the centre, down the line until then."
        );
        assert!(
            describe(Cause::ContactWide, 3.2, true)
                .contains("once the contact is within 0.9 m of the singles sideline")
        );
        assert!(describe(Cause::OpponentDepth, 1.25, true).contains("1.2 m or more behind the baseline"));
        assert!(describe(Cause::ContactDepth, -1.5, true).contains("no further than 1.5 m inside the baseline"));
        assert!(describe(Cause::ContactHeight, 1.05, true).contains("once the ball is struck 1.05 m high or higher"));
        assert!(describe(Cause::Speed, 30.0, true).contains("once both are struck at 108 km/h or faster"));
        assert!(describe(Cause::OpponentBackhand, 0.85, false).contains("at 85 % of its strength or better"));
    }

    #[test]
    fn without_a_crossing_the_better_one_is_named_with_its_lead() {
        let choices = [Choice::CrossCourt, Choice::DownTheLine];
        let say = |points: &[(f64, f64)]| {
            crossings(&swept(Cause::Speed, points, Vec::new()), choices, &Court::default(), Units::Metres).join(" ")
        };
        assert_eq!(
            say(&[(0.50, 0.47), (0.50, 0.42)]),
            "Cross-court beats down the line over the whole range, by 3 to 8 points in 100."
        );
        assert_eq!(say(&[(0.4, 0.4)]), "Cross-court and down the line are worth the same over the whole range.");
        assert!(say(&[]).starts_with("Nowhere in this range"));
    }
}
