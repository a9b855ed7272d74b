//! Results of the comparison in words.

use glam::DVec2;
use standpoint_board::Units;
use standpoint_geometry::{Court, End, NetPosition, Shot, Stroke, Weighed, Wing, difference};
use standpoint_language::{text, tr};

use super::{scheduler::Row, state::Item, task::AtNet};
use crate::{compare_words, words};

/// A shot's name inside a sentence.
#[must_use]
pub fn name(item: Item) -> String {
    match item {
        Item::Usual(choice) => compare_words::choice(choice).to_owned(),
        Item::Target(number) => tr!("target {}", number),
    }
}

/// A shot's name to stand alone.
#[must_use]
pub fn label(item: Item) -> String {
    match item {
        Item::Usual(choice) => compare_words::choice_label(choice).to_owned(),
        Item::Target(number) => tr!("Target {}", number),
    }
}

/// A name with its first letter large.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The shot to play among those compared: a sentence and its reasons.
#[must_use]
pub fn verdict(beside: &[&Row], units: Units) -> (String, String) {
    let mut playable: Vec<(&Row, &Weighed, f64)> =
        beside.iter().filter_map(|row| Some((*row, row.weighed()?, row.win()?))).collect();
    // Stable, so that shots worth the same keep the order of the list.
    playable.sort_by(|a, b| b.2.total_cmp(&a.2));
    match &playable[..] {
        [] if beside.is_empty() => (text("Tick the shots to compare").to_owned(), String::new()),
        [] if beside.iter().any(|row| row.weighed().is_none()) => {
            (text("Comparing the shots …").to_owned(), String::new())
        }
        [] => (text("None of these shots can be played from here").to_owned(), text("The list says why").to_owned()),
        [(row, _, win)] => (
            tr!("{} wins {}", capital(&name(row.item)), words::of_hundred(*win)),
            text("Tick another shot that can be played to compare it with this one").to_owned(),
        ),
        [(best, a, win), (next, b, other), ..] => {
            (ranking(best.item, *win, next.item, *other), reasons(b, a, next.item, units))
        }
    }
}

fn ranking(best: Item, win: f64, next: Item, other: f64) -> String {
    let (first, second) = (capital(&name(best)), name(next));
    let (w, o) = (words::points(win), words::points(other));
    if w == o {
        return tr!("{} or {}: they win as often, {} in 100", first, second, w);
    }
    tr!("{}: wins {} in 100, {} {}", first, w, second, o)
}

/// How many reasons are given.
const REASONS: usize = 4;

/// Differences of the better shot.
fn reasons(other: &Weighed, better: &Weighed, against: Item, units: Units) -> String {
    let Some(difference) = difference(other, better) else { return String::new() };
    let mut phrases = compare_words::differences(&difference, units);
    if let Some(spare) = difference.opponent_spare.filter(|spare| spare.abs() >= 0.03) {
        let time = words::seconds(spare.abs());
        let more = if spare > 0.0 {
            tr!("{} more to spare for the opponent", time)
        } else {
            tr!("{} less to spare for the opponent", time)
        };
        phrases.insert(0, more);
    }
    if let Some(wing) = wing_of(better).filter(|wing| wing_of(other).is_some_and(|there| there != *wing)) {
        let on = match wing {
            Wing::Forehand => text("on their forehand"),
            Wing::Backhand => text("on their backhand"),
        };
        phrases.insert(0, on.to_owned());
    }
    // The largest come first; more than a few are left out.
    phrases.truncate(REASONS);
    if phrases.is_empty() {
        return String::new();
    }
    tr!("Against {}: {}", name(against), phrases.join(", "))
}

/// The wing on which the opponent meets a shot.
fn wing_of(weighed: &Weighed) -> Option<Wing> {
    let (_, answer) = weighed.result.as_ref().ok()?;
    Some(answer.play()?.receipt.wing)
}

/// One shot against another in a sentence of its own.
#[must_use]
pub fn against(first: (Item, &Weighed), second: (Item, &Weighed), units: Units) -> Option<String> {
    let difference = difference(first.1, second.1)?;
    let phrases = compare_words::differences(&difference, units);
    let said = if phrases.is_empty() { text("much the same").to_owned() } else { phrases.join(", ") };
    let verdict = compare_words::verdict(&difference);
    Some(tr!("{} against {}: {}; {}.", capital(&name(second.0)), name(first.0), said, verdict))
}

/// A place on the other half as the hitter sees it: from the sideline or the middle, and from the line that helps.
#[must_use]
pub fn aim_place(target: DVec2, hitter: End, court: &Court, units: Units) -> String {
    let seen = hitter.turn2(target);
    let length = |metres: f64| words::length(metres, units);
    let right = seen.x > 0.0;
    let to_line = court.half_width() - seen.x.abs();
    let across = if seen.x.abs() < 0.05 {
        text("down the middle").to_owned()
    } else if to_line < -0.05 {
        let by = length(-to_line);
        if right { tr!("{} outside the right sideline", by) } else { tr!("{} outside the left sideline", by) }
    } else if to_line < seen.x.abs() {
        let by = length(to_line.max(0.0));
        if right { tr!("{} inside the right sideline", by) } else { tr!("{} inside the left sideline", by) }
    } else {
        let by = length(seen.x.abs());
        if right { tr!("{} right of the middle", by) } else { tr!("{} left of the middle", by) }
    };
    let before = court.half_length() - seen.y;
    let along = match court.service_line {
        _ if before < -0.05 => tr!("{} behind the baseline", length(-before)),
        Some(line) if seen.y < line && line - seen.y < seen.y => {
            tr!("{} before the service line", length(line - seen.y))
        }
        Some(line) if seen.y >= line && seen.y - line < before => {
            tr!("{} behind the service line", length(seen.y - line))
        }
        Some(line) if seen.y < line => tr!("{} from the net", length(seen.y)),
        _ => tr!("{} before the baseline", length(before.max(0.0))),
    };
    format!("{across}, {along}")
}

/// The target that stands for "in the middle": deep, or in the middle of the service box for a serve.
#[must_use]
pub fn middle_target(shot: &Shot, hitter: End, court: &Court) -> DVec2 {
    let seen = match (shot.stroke, court.service_line) {
        (Stroke::Serve, Some(line)) => {
            let side = if hitter.turn3(shot.contact).x >= 0.0 { -1.0 } else { 1.0 };
            DVec2::new(side * 0.5 * court.half_width(), line - 1.0)
        }
        _ => DVec2::new(0.0, court.half_length() * (1.0 - 1.9 / 11.885)),
    };
    hitter.turn2(seen)
}

/// The lob after an approach, in a sentence.
#[must_use]
pub fn lob(position: &NetPosition, court: &Court, units: Units) -> String {
    let at_net = court.service_line.unwrap_or(0.5 * court.half_length());
    match (position.too_close, position.safe_distance) {
        _ if position.place.y.abs() > at_net => {
            tr!("Not at the net yet: the lob costs {} in 100 from there", words::points(position.lob))
        }
        (true, Some(safe)) => {
            let here = words::length(position.place.y.abs(), units);
            tr!("Too close for the lob at {} from the net: {} or more is safe", here, words::length(safe, units))
        }
        (true, None) => text("Too close for the lob").to_owned(),
        (false, _) if position.lob > 0.0 => {
            tr!("Not too close: the lob costs {} in 100", words::points(position.lob))
        }
        (false, _) => text("Not too close: no lob goes in often enough").to_owned(),
    }
}

/// Which of the two usual approaches is better, in a sentence.
#[must_use]
pub fn approaches(at_net: &AtNet, units: Units) -> Option<String> {
    let playable: Vec<&Weighed> = at_net.approaches.iter().filter(|w| w.win().is_some()).collect();
    let [a, b] = playable[..] else { return None };
    let (better, other) = if a.win()? >= b.win()? { (a, b) } else { (b, a) };
    let name = |w: &Weighed| compare_words::choice(w.choice);
    let (win, less) = (words::points(better.win()?), words::points(other.win()?));
    if win == less {
        return Some(tr!("Down the line or cross-court: either approach wins {} in 100.", win));
    }
    let why = reasons(other, better, Item::Usual(other.choice), units);
    let why = if why.is_empty() { String::new() } else { format!(" {why}.") };
    Some(tr!("Approach {}: wins {} in 100, {} {}.", name(better), win, name(other), less) + &why)
}

/// The wing that an approach goes to, in a sentence.
#[must_use]
pub fn wing(at_net: &AtNet) -> Option<String> {
    let (_, answer) = at_net.shot.result.as_ref().ok()?;
    let wing = capital(words::wing(answer.play()?.receipt.wing));
    Some(match at_net.weaker_wing? {
        true => tr!("{}, their weaker wing", wing),
        false => tr!("{}, not their weaker wing", wing),
    })
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_board::Board;
    use standpoint_geometry::Solver;

    use super::*;
    use crate::compare::{
        scheduler::{CompareScheduler, Needs},
        state::CompareState,
        worker::Report,
    };

    #[test]
    fn aims_near_other_lines_are_told_from_those() {
        let court = Court::default();
        let say = |x, y| aim_place(dvec2(x, y), End::Near, &court, Units::Metres);
        let aim = dvec2(court.half_width() - 1.4, court.half_length() - 2.3);
        let from_the_lines = "1.4 m inside the right sideline, 2.3 m before the baseline";
        assert_eq!(
            (say(aim.x, aim.y).as_str(), aim_place(-aim, End::Far, &court, Units::Metres).as_str()),
            (from_the_lines, from_the_lines)
        );
        assert_eq!(say(0.0, 10.0), "down the middle, 1.9 m before the baseline");
        assert_eq!(say(-0.6, 7.0), "0.6 m left of the middle, 0.6 m behind the service line");
        assert_eq!(say(-3.9, 5.4), "0.2 m inside the left sideline, 1.0 m before the service line");
        assert_eq!(say(1.0, 2.0), "1.0 m right of the middle, 2.0 m from the net");
    }

    #[test]
    fn the_verdict_names_the_better_shot_and_says_why() {
        let (mut scheduler, mut solver, state) = (CompareScheduler::default(), Solver::new(), CompareState::default());
        let situation = Board::demo().situation(0, 0).unwrap();
        let needs = Needs { compare: true, ..Needs::default() };
        assert_eq!(verdict(&[], Units::Metres).0, "Tick the shots to compare");
        let (orders, _) = scheduler.update(0.0, Some(&situation), &state, needs);
        for work in orders[0].works.clone() {
            let piece = work.done(&mut solver, &|| false).unwrap();
            scheduler.take(Report { kind: orders[0].kind, round: orders[0].round, piece });
        }
        let beside: Vec<&Row> = scheduler.rows().iter().filter(|row| state.shown.contains(&row.item)).collect();
        let (said, why) = verdict(&beside, Units::Metres);
        assert!(said.contains("own the line") && said.to_lowercase().contains("cross-court"), "{said}");
        assert!(said.contains("in 100"), "{said}");
        assert!(why.starts_with("Against "), "{why}");
        let (a, b) = (beside[0], beside[1]);
        let sentence = against((a.item, a.weighed().unwrap()), (b.item, b.weighed().unwrap()), Units::Metres).unwrap();
        assert!(sentence.starts_with("Down the line against cross-court: "), "{sentence}");
        assert!(sentence.contains("recovery") && sentence.ends_with("in 100 more."), "{sentence}");
    }
}
