//! Wording of a rehearsal.

use standpoint_board::{
    Units,
    rehearse::{Item, Question, choose, score},
};
use standpoint_language::{mark, text, tr};
use standpoint_workbench::{compare_words, elsewhere, words};

use super::course::{Course, Outcome, Stand};

/// The usual cautions.
pub const CAUTION: &str = mark(
    "On court: warm up, clear loose balls, mind heat and load. The figures are estimates of a model; \
                           a qualified coach decides, medical questions go to a professional.",
);

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
            text("Click or drag, or move with the arrows (with Shift further); Enter answers").to_owned(),
        ),
        (Stand::Asking, Question::Shot) => (
            text("Your ball. Which shot wins the point more often?").to_owned(),
            text("Click, or choose with the arrows or a letter; Enter answers").to_owned(),
        ),
        (Stand::Answered(outcome), Question::Place) => (place_result(course, outcome), opened(course)),
        (Stand::Answered(outcome), Question::Shot) => (choice_result(course, outcome), shots(course)),
    }
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
    tr!("{}: {} from the spot", points(outcome), words::length(outcome.distance, units))
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
    let hidden = course.question() == Question::Shot && *course.stand() == Stand::Asking;
    match course.item() {
        Item::Drawn { trainee, .. } if hidden => words::level(trainee.level).to_owned(),
        Item::Drawn { theme, trainee, .. } => format!("{}, {}", theme.label(), words::level(trainee.level)),
        Item::Board { .. } if hidden => text("A shot of the board").to_owned(),
        Item::Board { title, .. } => title.clone(),
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
