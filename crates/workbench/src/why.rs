//! Why the spot is where it is, in one short sentence of cause.

use standpoint_geometry::{End, Play, Reply, ReplyName};
use standpoint_language::{text, tr};

use crate::session::Session;

/// A reply that wins at once at least this often decides where to stand. A choice.
const OUTRIGHT: f64 = 0.25;
/// And this much more often than the other one.
const MORE_OUTRIGHT: f64 = 0.05;
/// Replies whose worth differs by no more than this hurt alike: about what the model can tell.
const ALIKE: f64 = 0.02;
/// The spot is on the side of a reply when it is nearer to it than to the other by this, m.
const NEARER: f64 = 0.2;

/// The sentence, while there is a spot and a reply to name.
#[must_use]
pub fn sentence(session: &Session) -> Option<String> {
    let play = session.play().filter(|_| session.what_if().is_none())?;
    let best = session.best();
    cause(play, &best, session.hitter_end(), session.coached_hits())
}

fn cause(play: &Play, best: &[&Reply], end: End, coached: bool) -> Option<String> {
    let (first, second) = match *best {
        [first, second, ..] => (first, second),
        [only] => return Some(tr!("{} is the one to fear", the(only.name))),
        [] => return None,
    };
    // How far each is to the side of the spot, where it is met.
    let aside = |reply: &Reply| end.turn2(reply.met_at.truncate() - play.spot.place).x;
    let (a, b) = (aside(first), aside(second));
    let between = a * b < 0.0;
    let nearer = |this: f64, other: f64| between && this.abs() + NEARER < other.abs();
    let wins = |this: &Reply, other: &Reply| {
        this.wins_outright >= OUTRIGHT && this.wins_outright >= other.wins_outright + MORE_OUTRIGHT
    };
    for (reply, other, here, there) in [(first, second, a, b), (second, first, b, a)] {
        if wins(reply, other) && nearer(here, there) {
            return Some(if coached {
                tr!("{} wins outright, so stay on its side", the(reply.name))
            } else {
                tr!("{} wins outright, so their place is on its side", the(reply.name))
            });
        }
    }
    let (one, other) = (the(first.name), inside(second.name));
    Some(if between && first.name != second.name && (first.exposure - second.exposure).abs() <= ALIKE {
        if coached {
            tr!("{0} and {1} hurt alike, so stand between them", one, other)
        } else {
            tr!("{0} and {1} hurt alike, so their place is between them", one, other)
        }
    } else if nearer(a, b) {
        if coached {
            tr!("{0} hurts more than {1}, so stand nearer to it", one, other)
        } else {
            tr!("{0} hurts more than {1}, so their place is nearer to it", one, other)
        }
    } else if between && first.name != second.name {
        tr!("Both must be reached from here: {0} and {1}", inside(first.name), other)
    } else {
        tr!("{} is the one to fear", one)
    })
}

/// A reply with its article, at the beginning of a sentence.
fn the(name: ReplyName) -> &'static str {
    match name {
        ReplyName::DownTheLine => text("The ball down the line"),
        ReplyName::CrossCourt => text("The cross-court ball"),
        ReplyName::ShortAngle => text("The short angle"),
        ReplyName::Middle => text("The ball through the middle"),
        ReplyName::AtTheBody => text("The ball at the body"),
        ReplyName::Lob => text("The lob"),
        ReplyName::RightCorner => text("The ball into the right corner"),
        ReplyName::LeftCorner => text("The ball into the left corner"),
        ReplyName::DropShot => text("The drop shot"),
        ReplyName::ServeWide => text("The wide serve"),
        ReplyName::ServeBody => text("The serve at the body"),
        ReplyName::ServeT => text("The serve down the T"),
    }
}

/// A reply with its article, inside a sentence: some languages write that in another way.
fn inside(name: ReplyName) -> &'static str {
    match name {
        ReplyName::DownTheLine => text("the ball down the line"),
        ReplyName::CrossCourt => text("the cross-court ball"),
        ReplyName::ShortAngle => text("the short angle"),
        ReplyName::Middle => text("the ball through the middle"),
        ReplyName::AtTheBody => text("the ball at the body"),
        ReplyName::Lob => text("the lob"),
        ReplyName::RightCorner => text("the ball into the right corner"),
        ReplyName::LeftCorner => text("the ball into the left corner"),
        ReplyName::DropShot => text("the drop shot"),
        ReplyName::ServeWide => text("the wide serve"),
        ReplyName::ServeBody => text("the serve at the body"),
        ReplyName::ServeT => text("the serve down the T"),
    }
}

#[cfg(test)]
mod tests {
    use standpoint_board::Board;

    use super::*;

    /// The demo's answer with the two replies changed: how far aside each is met, how often it wins at once, its worth.
    fn said(first: (f64, f64, f64), second: (f64, f64, f64), coached: bool) -> String {
        let session = Session::new(Board::demo(), None);
        let play = session.play().unwrap();
        let made = |name, (aside, outright, exposure): (f64, f64, f64)| {
            let mut reply = play.best[0].clone();
            (reply.name, reply.wins_outright, reply.exposure) = (name, outright, exposure);
            reply.met_at = (play.spot.place + glam::DVec2::new(aside, 1.0)).extend(1.0);
            reply
        };
        let (one, two) = (made(ReplyName::ShortAngle, first), made(ReplyName::DownTheLine, second));
        cause(play, &[&one, &two], End::Near, coached).unwrap()
    }

    #[test]
    fn a_reply_that_wins_outright_is_the_cause() {
        let said_to_me = said((1.5, 0.4, 0.55), (-3.0, 0.1, 0.5), true);
        assert_eq!(said_to_me, "The short angle wins outright, so stay on its side");
        assert_eq!(
            said((3.0, 0.1, 0.55), (-1.5, 0.4, 0.5), true),
            "The ball down the line wins outright, so stay on its side"
        );
        assert!(said((1.5, 0.4, 0.55), (-3.0, 0.1, 0.5), false).contains("their place"));
    }

    #[test]
    fn no_side_is_named_that_the_spot_is_not_on() {
        // The first reply wins outright, but the spot is nearer to the second.
        let far = said((3.0, 0.4, 0.55), (-1.5, 0.1, 0.45), true);
        assert_eq!(far, "Both must be reached from here: the short angle and the ball down the line");
        let same_side = said((3.0, 0.4, 0.55), (1.5, 0.1, 0.45), true);
        assert_eq!(same_side, "The short angle is the one to fear");
    }

    #[test]
    fn replies_that_hurt_alike_have_the_spot_between_them() {
        let alike = said((2.0, 0.1, 0.5), (-2.0, 0.1, 0.49), true);
        assert_eq!(alike, "The short angle and the ball down the line hurt alike, so stand between them");
        let more = said((1.5, 0.1, 0.6), (-2.5, 0.1, 0.45), true);
        assert_eq!(more, "The short angle hurts more than the ball down the line, so stand nearer to it");
    }

    #[test]
    fn the_demo_has_a_cause() {
        let session = Session::new(Board::demo(), None);
        let said = sentence(&session).unwrap();
        assert!(said.len() < 90 && !said.ends_with('.'), "{said}");
    }
}
