//! Wording of a rehearsal.

use glam::DVec2;
use standpoint_board::{
    Units,
    rehearse::{Item, Question, Trainee, choose, score},
};
use standpoint_geometry::Hand;
use standpoint_language::{mark, text, tr};
use standpoint_workbench::{compare_words, elsewhere, words};

use super::course::{Course, Outcome, Stand};

/// The usual cautions.
pub const CAUTION: &str = mark(
    "On court: warm up, clear loose balls, mind heat and load. The figures are estimates of a model; \
                           a qualified coach decides, medical questions go to a professional.",
);

/// A correction of less than this is not worth a step, m.
const TOLD_FROM: f64 = 0.15;

/// The letter of a shot to choose.
#[must_use]
pub fn letter(index: usize) -> char {
    char::from(b'A' + index.min(25) as u8)
}

/// The sentence over the court, and the one below it.
#[must_use]
pub fn describe(course: &Course) -> (String, String) {
    match (course.stand(), course.question()) {
        (Stand::Asking, Question::Place) => (
            asked(course),
            hinted(course, text("click or drag, or move with the arrows (with Shift further); Enter answers")),
        ),
        (Stand::Asking, Question::Shot) => (
            text("Your ball. Which shot wins the point more often?").to_owned(),
            hinted(course, text("click, or choose with the arrows or a letter; Enter answers")),
        ),
        (Stand::Answered(outcome), Question::Place) => (place_result(course, outcome), opened(course)),
        (Stand::Answered(outcome), Question::Shot) => (choice_result(course, outcome), shots(course)),
    }
}

fn hinted(course: &Course, how: &str) -> String {
    format!("{}; {how}", other_hand(course))
}

/// The question for a place; on a board the trainee is one of its players.
fn asked(course: &Course) -> String {
    let session = course.session();
    match course.item() {
        Item::Drawn { .. } => tr!("You have just struck this ball. Where do you stand?"),
        Item::Board { .. } => {
            let name = &session.board().card(session.hitter_end()).name;
            tr!("You are {} and have just struck this ball. Where do you stand?", name)
        }
    }
}

fn points(outcome: &Outcome) -> String {
    let points = if outcome.score >= score::RIGHT {
        tr!("{} points of 100, right", outcome.score)
    } else {
        tr!("{} points of 100, this comes again", outcome.score)
    };
    if outcome.late { tr!("Time is up. {}", points) } else { points }
}

fn place_result(course: &Course, outcome: &Outcome) -> String {
    let units: Units = course.session().units();
    let said = points(outcome);
    match course.correction().and_then(|way| correction(way, units)) {
        Some(way) => tr!("{0}: better {1}", said, way),
        None => tr!("{0}: on the spot", said),
    }
}

/// How a place is to be corrected: `0.6 m left, 1 m forward`. Nothing where it is as good as on the spot.
#[must_use]
pub fn correction(way: DVec2, units: Units) -> Option<String> {
    let told = |metres: f64| words::length(metres.abs(), units);
    let across = (way.x.abs() >= TOLD_FROM)
        .then(|| if way.x > 0.0 { tr!("{} right", told(way.x)) } else { tr!("{} left", told(way.x)) });
    let along = (way.y.abs() >= TOLD_FROM)
        .then(|| if way.y > 0.0 { tr!("{} forward", told(way.y)) } else { tr!("{} back", told(way.y)) });
    match (across, along) {
        (Some(across), Some(along)) => Some(format!("{across}, {along}")),
        (across, along) => across.or(along),
    }
}

/// Who stands on the other side.
fn other_hand(course: &Course) -> &'static str {
    let session = course.session();
    match session.board().card(session.hitter_end().other()).hand {
        Hand::Right => text("The opponent is right-handed"),
        Hand::Left => text("The opponent is left-handed"),
    }
}

/// Cost of the place, worded as for a recovery place chosen by hand.
fn opened(course: &Course) -> String {
    course.session().what_if().map(|elsewhere| elsewhere::sentence(elsewhere, course.session())).unwrap_or_default()
}

fn choice_result(course: &Course, outcome: &Outcome) -> String {
    let best = choose::best(course.offers());
    let named = course.offers().get(best).map_or("", |offer| compare_words::choice(offer.weighed.choice));
    if course.chosen() == Some(best) {
        tr!("{}: {} it is", points(outcome), named)
    } else {
        tr!("{}: {} wins {} more", points(outcome), named, words::of_hundred(outcome.lost))
    }
}

/// What each shot wins.
fn shots(course: &Course) -> String {
    let each = course.offers().iter().enumerate().map(|(i, offer)| {
        format!("{} {} {}", letter(i), compare_words::choice(offer.weighed.choice), words::points(offer.win))
    });
    tr!("Points won in 100: {}", each.collect::<Vec<_>>().join(", "))
}

/// Subject of the situation; a page or theme name would reveal the better shot.
#[must_use]
pub fn about(course: &Course) -> String {
    let asking = *course.stand() == Stand::Asking;
    let hidden = asking && (course.question() == Question::Shot || matches!(course.item(), Item::Board { .. }));
    match course.item() {
        Item::Drawn { trainee, .. } if hidden => who(course, *trainee),
        Item::Drawn { theme, trainee, .. } => format!("{}, {}", theme.label(), who(course, *trainee)),
        Item::Board { .. } if hidden => text("A shot of the board").to_owned(),
        Item::Board { title, .. } => title.clone(),
    }
}

/// With whose figures the trainee plays.
#[must_use]
pub fn who(course: &Course, trainee: Trainee) -> String {
    match course.own().filter(|_| trainee.figures != 0) {
        Some(own) => tr!("{} as measured", own.name),
        None => words::level(trainee.level).to_owned(),
    }
}

/// How the sitting goes.
#[must_use]
pub fn sitting(course: &Course) -> String {
    match course.sitting() {
        Some((mean, 1)) => tr!("{} points", mean),
        Some((mean, answers)) => tr!("{} points on average in {} answers", mean, answers),
        None => String::new(),
    }
}
