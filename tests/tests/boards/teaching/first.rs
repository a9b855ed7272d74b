//! The boards about where to stand after a ball.

use glam::DVec2;
use standpoint_board::{Board, marks::Ink};
use standpoint_geometry::{End, Hand, Level, Stroke};

use super::build::{at, board, page};

const MARA: (&str, Level) = ("Mara Quell", Level::Tournament);
const IVO: (&str, Level) = ("Ivo Tander", Level::Tournament);
const TESSA: (&str, Level) = ("Tessa Ovell", Level::Club);
const DOV: (&str, Level) = ("Dov Merrin", Level::Club);

pub fn cross_court() -> Board {
    let mut board = board("Cross-court leaves a short recovery", MARA, IVO);
    let (from, waiting) = ((3.6, -12.4, 0.95), at(-0.6, 12.6));
    board.pages = vec![
        page(
            &board,
            "Cross-court",
            "After a cross-court ball the place to stand is near, and it is not the middle.\n\
             Mara strikes from her deuce corner. Ivo answers from his deuce corner: his two best balls open to her right \
             of the middle, where she is already. Drag the target and watch the spot.\n\
             #recovery #baseline #cross-court",
            &["Few steps, then split", "Not the middle: the middle of what Ivo can do"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(-3.3, 8.6), waiting)
        .done(),
        page(
            &board,
            "The same ball down the line",
            "From the same corner the ball down the line sends Mara to the other side of the middle: a much longer way, \
             in the same time.",
            &["The long way: go at once"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(2.9, 9.6), waiting)
        .done(),
    ];
    board
}

pub fn down_the_line() -> Board {
    let mut board = board("Down the line leaves a long recovery", TESSA, DOV);
    let (from, waiting) = ((-5.6, -13.0, 0.8), at(0.5, 12.5));
    board.pages = vec![
        page(
            &board,
            "Down the line from outside the court",
            "Who changes direction from far out has the long way home, and hardly a moment to spare.\n\
             Tessa is drawn wide on her backhand and plays down the line. The bar of the run shows what is missing when \
             Dov strikes.\n\
             #recovery #baseline #down-the-line",
            &["Wide and late: not down the line", "If you must, give it height"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(-2.8, 9.4), waiting)
        .done(),
        page(
            &board,
            "Cross-court from the same place",
            "Back cross-court, the way home is shorter and Tessa is there in time.",
            &["Cross-court buys time to recover"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(2.8, 9.4), waiting)
        .done(),
    ];
    board
}

pub fn approach() -> Board {
    let mut board = board("Approach down the line", MARA, IVO);
    let (from, waiting) = ((2.4, -6.6, 1.0), at(-1.2, 12.8));
    board.pages = vec![
        page(
            &board,
            "Down the line",
            "Down the line the way is a little shorter, and far fewer passes get through.\n\
             Mara has a short ball on her right and follows it to the net on its own side.\n\
             #net #approach #down-the-line",
            &["Follow the ball", "Split before Ivo strikes, wherever you are"],
        )
        .shot(End::Near, Stroke::Slice, from, at(2.9, 10.0), waiting)
        .goes_to_the_net()
        .done(),
        page(
            &board,
            "Cross-court",
            "Cross-court, the place at the net lies on the other side: Mara is on the way when Ivo passes her.",
            &["Cross-court only when Ivo is far out on the other side"],
        )
        .shot(End::Near, Stroke::Slice, from, at(-2.9, 10.0), waiting)
        .goes_to_the_net()
        .done(),
    ];
    board
}

pub fn middle() -> Board {
    let mut board = board("Only a ball down the middle is answered from the middle", MARA, IVO);
    let (from, waiting) = ((0.8, -12.4, 0.95), at(0.0, 12.6));
    let shot = |title: &str, notes: &str, cues: &[&str], target: DVec2| {
        page(&board, title, notes, cues).shot(End::Near, Stroke::Topspin, from, target, waiting).done()
    };
    let pages = vec![
        shot(
            "Down the middle",
            "Only when the ball is in the middle is the place to stand in the middle.\n\
             Ivo sees as much court on one side as on the other; Mara waits a little to her backhand, because her forehand \
             reaches further.\n\
             #recovery #baseline #middle",
            &["Ball in the middle, you in the middle"],
            at(0.0, 10.0),
        ),
        shot(
            "To Ivo's forehand corner",
            "The ball goes left, the spot goes right.",
            &["Ball left, you right"],
            at(-2.9, 9.6),
        ),
        shot(
            "To Ivo's backhand corner",
            "The ball goes right, the spot goes left.",
            &["Ball right, you left"],
            at(2.9, 9.6),
        ),
    ];
    board.pages = pages;
    board
}

pub fn too_close() -> Board {
    let mut board = board("At the net, leave room behind you for the lob", MARA, IVO);
    let (from, waiting, target) = ((1.6, -4.2, 1.0), at(0.3, 12.0), at(2.8, 9.6));
    board.pages = vec![
        page(
            &board,
            "Where the next volley may be awaited",
            "Leave room behind you: whoever stands on top of the net cannot get back under a ball over the head.\n\
             Mara volleys deep into Ivo's backhand corner. Her place is on the side of the ball and some metres behind the \
             net.\n\
             #net #volley #lob",
            &["On the side of the ball", "Close in, but leave room behind you"],
        )
        .shot(End::Near, Stroke::Volley, from, target, waiting)
        .done(),
        page(
            &board,
            "Too close",
            "Mara has followed her volley too far. What punishes her now goes over her head: move her back and see where \
             that stops.",
            &["If you can touch the net, you are too close"],
        )
        .shot(End::Near, Stroke::Volley, from, target, waiting)
        .recover_to(at(0.2, -1.2))
        .zone(Ink::Warning, at(-4.1, -1.8), at(4.1, 0.0), false)
        .words(at(-3.9, -0.9), "No way back from here")
        .done(),
    ];
    board
}

/// Weakens the backhand, on the board about it, to a share of the even one.
pub fn weaken_backhand(board: &mut Board) {
    let figures = board.far.make_custom();
    figures.backhand.speed *= 0.82;
    figures.backhand.spread_up *= 1.25;
    figures.backhand.spread_side *= 1.25;
}

pub fn backhand() -> Board {
    let mut board = board("Find the weaker wing", MARA, IVO);
    weaken_backhand(&mut board);
    let (from, waiting) = ((0.0, -12.4, 0.95), at(0.0, 12.6));
    board.pages = vec![
        page(
            &board,
            "To the backhand",
            "Against a weaker wing every place is safer; where you wait hardly changes.\n\
             Ivo's backhand is about a quarter slower than his forehand and less sure. Edit his figures and watch the spot.\n\
             #players #backhand #baseline",
            &["Find the wing first, then play to it"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(2.6, 9.6), waiting)
        .done(),
        page(
            &board,
            "To the forehand",
            "The same ball to the other wing: Mara waits on the other side of the middle, and is less safe there.",
            &["The stronger wing only when it is open"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(-2.6, 9.6), waiting)
        .done(),
    ];
    board
}

pub fn short_angle() -> Board {
    let mut board = board("The short angle takes the opponent off the court", MARA, IVO);
    let (from, waiting) = ((3.4, -11.0, 1.0), at(-0.6, 12.6));
    board.pages = vec![
        page(
            &board,
            "Short angle",
            "A short angle with much topspin meets Ivo beside the court; it is missed more often than a deep ball.\n\
             It is the slower ball and gives Mara time; Ivo has to leave the court open. Her spot lies further to her \
             side: his line comes first now.\n\
             #baseline #angle #topspin",
            &["Slower, more spin", "Cover his line"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(-3.6, 5.4), waiting)
        .at_speed(0.8)
        .with_spin(1.4)
        .done(),
        page(
            &board,
            "Deep cross-court",
            "From the same place, deep: Ivo stays behind the court.",
            &["The everyday ball"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(-2.9, 9.9), waiting)
        .done(),
    ];
    board
}

pub fn left_hander() -> Board {
    let mut board = board("Against a left-hander the wings change sides", MARA, ("Noor Halden", Level::Tournament));
    board.far.hand = Hand::Left;
    let (from, waiting) = ((3.2, -12.4, 0.95), at(-0.4, 12.6));
    board.pages = vec![
        page(
            &board,
            "Cross-court to the backhand",
            "Mara's cross-court forehand meets Noor's backhand: the everyday ball is now the one to the weaker wing.\n\
             Change Noor's hand to Right and compare.\n\
             #players #left-hander #baseline",
            &["Which hand? Look before the first ball"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(-2.9, 9.6), waiting)
        .done(),
        page(
            &board,
            "Down the line to the forehand",
            "Down the line goes to the forehand, and Mara has the long way too: less safe on both counts.",
            &["Not to the forehand and far from home"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(2.9, 9.6), waiting)
        .done(),
    ];
    board
}
