//! The boards about patterns and drills.

use standpoint_board::{Board, marks::Ink};
use standpoint_geometry::{BallType, End, Level, Stage, Stroke, SurfaceKind};

use super::build::{CAUTIONS, at, board, on, on_stage, page};

const MARA: (&str, Level) = ("Mara Quell", Level::Tournament);
const IVO: (&str, Level) = ("Ivo Tander", Level::Tournament);
const TESSA: (&str, Level) = ("Tessa Ovell", Level::Club);
const DOV: (&str, Level) = ("Dov Merrin", Level::Club);

pub fn high_deep() -> Board {
    let mut board = board("A high deep ball, and move up", TESSA, DOV);
    let (from, deep, waiting) = ((1.5, -12.6, 1.0), at(-2.0, 10.6), at(-0.5, 12.6));
    let notes = format!(
        "Height buys time and safety; the short answer, taken inside the court, takes time away from the opponent.\n\
         Tessa plays nearly three metres above the net. Dov's answer lands short: she moves up, meets it in front of the \
         baseline and plays into the open corner.\n{CAUTIONS}\n\
         #drill #pattern #baseline #height"
    );
    board.pages = vec![
        page(&board, "High and deep, then step in", &notes, &["High over the middle of the net", "Short ball: go up"])
            .shot(End::Near, Stroke::Topspin, from, deep, waiting)
            .at_speed(0.94)
            .then(Stroke::Topspin, at(-0.8, -6.2))
            .met_near(at(-0.4, -9.6))
            .then(Stroke::Topspin, at(2.8, 8.8))
            .zone(Ink::Coached, at(-2.0, -10.8), at(1.0, -8.6), true)
            .words(at(-1.9, -8.0), "Meet the short one here")
            .done(),
        page(
            &board,
            "The same, but waiting behind the baseline",
            "Tessa lets the short ball come. It is easier to play, and Dov has all the time he needs for the next one.",
            &["Waiting gives the time back"],
        )
        .shot(End::Near, Stroke::Topspin, from, deep, waiting)
        .at_speed(0.94)
        .then(Stroke::Topspin, at(-0.8, -6.2))
        .then(Stroke::Topspin, at(2.8, 8.8))
        .done(),
    ];
    board
}

pub fn serve_wide() -> Board {
    let mut board = board("Serve wide, plus one", MARA, IVO);
    let from = (0.9, -11.6, 2.7);
    let notes = format!(
        "A wide serve takes the receiver off the court; the next ball into the space meets him at full stretch.\n\
         Mara serves wide to the deuce side, recovers, and plays Ivo's return to the other corner.\n{CAUTIONS}\n\
         #serve #pattern #drill"
    );
    board.pages = vec![
        page(&board, "Wide, then into the open court", &notes, &["Land, split, then read", "Away from Ivo"])
            .shot(End::Near, Stroke::Serve, from, at(-3.6, 5.0), at(-3.6, 12.8))
            .from(at(0.7, -12.1))
            .then(Stroke::Topspin, at(0.6, -8.8))
            .then(Stroke::Topspin, at(2.9, 9.2))
            .run(Ink::Coached, at(0.7, -12.1), at(1.4, -12.7))
            .done(),
        page(
            &board,
            "Wide, then back to the same side",
            "The plus one to where Ivo comes from leaves him in balance. Good for once, when he runs early.",
            &["Only behind him when he has gone"],
        )
        .shot(End::Near, Stroke::Serve, from, at(-3.6, 5.0), at(-3.6, 12.8))
        .from(at(0.7, -12.1))
        .then(Stroke::Topspin, at(0.6, -8.8))
        .then(Stroke::Topspin, at(-2.6, 9.2))
        .done(),
    ];
    board
}

pub fn return_ready() -> Board {
    let mut board = board("Where to wait for the serve", IVO, MARA);
    board.coached = End::Far;
    board.pages = vec![
        page(
            &board,
            "Server near the centre mark",
            "The receiver waits in the middle of what this server can reach, so the place moves with the server.\n\
             Ivo serves from beside the centre mark. Mara's place lies between his wide serve and his serve down the \
             middle.\n\
             #serve #return #ready",
            &["Look where the server stands", "Split as the ball is struck"],
        )
        .shot(End::Near, Stroke::Serve, (0.9, -11.6, 2.7), at(-3.4, 5.2), at(-3.6, 12.8))
        .from(at(0.7, -12.1))
        .done(),
        page(
            &board,
            "Server further out",
            "Two metres to the side open the angle: Mara moves the same way, outside her sideline.",
            &["Server out, you out"],
        )
        .shot(End::Near, Stroke::Serve, (3.0, -11.6, 2.7), at(-3.4, 5.2), at(-3.6, 12.8))
        .from(at(2.8, -12.1))
        .done(),
    ];
    board
}

pub fn wheelchair() -> Board {
    let (runa, pell) = (("Runa Feld", Level::Wheelchair), ("Pell Arvid", Level::Wheelchair));
    let mut board = board("Two bounces in a wheelchair", runa, pell);
    board.pages = vec![
        page(
            &board,
            "A drop shot is not the end",
            "With two bounces allowed, a ball that would be past after one is met in time after the second.\n\
             Runa drops the ball short. Pell rolls on and meets it after its second bounce, which may be anywhere on the \
             ground; then the rally goes on.\n\
             #wheelchair #recovery #drop-shot",
            &["Keep the chair rolling", "Look for the second bounce"],
        )
        .shot(End::Near, Stroke::Drop, (1.0, -10.0, 0.9), at(-1.6, 3.0), at(0.0, 12.6))
        .then(Stroke::Topspin, at(1.8, -9.0))
        .then(Stroke::Topspin, at(-1.0, 9.4))
        .done(),
        page(
            &board,
            "A wide ball",
            "A wide ball is taken after the first bounce when there is time. Whoever has played it turns away from the \
             net, comes round and waits behind the baseline.",
            &["Turn away, come round", "Wait well behind the baseline"],
        )
        .shot(End::Near, Stroke::Topspin, (1.0, -11.0, 0.9), at(-3.0, 7.4), at(0.6, 12.6))
        .at_speed(0.8)
        .then(Stroke::Topspin, at(1.8, -9.0))
        .then(Stroke::Topspin, at(-1.0, 9.4))
        .done(),
    ];
    board
}

pub fn orange() -> Board {
    let mut board = on_stage(
        board(
            "The same answer on the Orange court",
            ("Lio Brandis", Level::OrangeJunior),
            ("Suvi Marl", Level::OrangeJunior),
        ),
        Stage::Orange,
        BallType::Stage2,
    );
    let (from, waiting) = ((2.2, -9.2, 0.9), at(-0.4, 9.8));
    board.pages = vec![
        page(
            &board,
            "Cross-court",
            "Ten-year-olds on the Orange court learn the same: cross-court is a short way home, the line a long one.\n\
             The Orange ball is slower and bounces lower than the yellow one, and the court is 18 m long.\n\
             #juniors #orange #recovery",
            &["Hit cross-court, stay on your side"],
        )
        .shot(End::Near, Stroke::Topspin, from, at(-2.2, 6.6), waiting)
        .done(),
        page(&board, "Down the line", "Now the way to the spot is longer.", &["Hit the line, run"])
            .shot(End::Near, Stroke::Topspin, from, at(2.2, 6.6), waiting)
            .done(),
        page(&board, "Down the middle", "And from the middle to the middle.", &["Middle, middle"])
            .shot(End::Near, Stroke::Topspin, (0.3, -9.4, 0.9), at(0.0, 7.2), waiting)
            .done(),
    ];
    board
}

pub fn two_lines() -> Board {
    let mut board = board("Two-line drill", TESSA, DOV);
    let aims = [(at(1.6, 7.8), at(3.6, 10.4)), (at(-3.6, 7.8), at(-1.6, 10.4))];
    let mut draft = page(
        &board,
        "One plays the lines, the other one cross-court",
        &format!(
            "Whoever plays down the line at every ball recovers twice as far as whoever plays cross-court.\n\
             Cones: 1.50 m inside the sidelines and 2.50 m inside the baselines. Tessa plays down the line only, Dov \
             across only, ten balls; then they change. Count the steps.\n{CAUTIONS}\n\
             #drill #pattern #recovery"
        ),
        &["Feel who runs further", "Height over the net: a racket", "Change after ten balls"],
    )
    .shot(End::Near, Stroke::Topspin, (2.8, -12.4, 0.95), at(2.6, 9.0), at(-0.4, 12.6))
    .then(Stroke::Topspin, at(-2.6, -9.0))
    .then(Stroke::Topspin, at(-2.6, 9.0))
    .then(Stroke::Topspin, at(2.6, -9.0));
    for (from, to) in aims {
        draft = draft.zone(Ink::Ball, from, to, false);
    }
    for (x, y) in [(2.615, 9.385), (-2.615, 9.385), (2.615, -9.385), (-2.615, -9.385)] {
        draft = draft.cone(at(x, y));
    }
    let done = draft
        .basket(at(0.0, -15.6))
        .person(at(-0.9, -15.2), "C")
        .words(at(-3.0, -16.8), "Coach feeds the first ball")
        .drill([
            "The coach feeds the first ball from the basket behind the near baseline, waist high, to Tessa's forehand. \
             The next one comes when the rally is over.",
            "In the hatched zones, beyond the service line. A ball that lands there \
             counts two, any other ball that is in counts one.",
            "Easier: half speed, and ten balls in a row without a mistake.\n\
             Harder: after the fourth ball the point is played out.",
            "4 cones, a basket with 40 balls, a tape of 10 m",
        ])
        .done();
    board.pages = vec![done];
    board
}

pub fn approach_volley() -> Board {
    let mut board = on(board("Approach, cover the line, volley away", MARA, IVO), SurfaceKind::Grass, "grass");
    board.pages = vec![
        page(
            &board,
            "Approach and volley",
            &format!(
                "Down the line, forward on the side of the ball, and the volley into the space.\n\
                 On grass the slice stays low. Mara covers Ivo's line first and volleys his cross-court pass away from \
                 him.\n{CAUTIONS}\n\
                 #net #approach #volley #pattern #drill"
            ),
            &["Low and deep", "Line first", "Volley short and away"],
        )
        .shot(End::Near, Stroke::Slice, (2.4, -7.0, 1.0), at(2.9, 10.0), at(-0.4, 12.8))
        .goes_to_the_net()
        .then(Stroke::Topspin, at(-1.6, -9.6))
        .met_near(at(-0.3, -5.4))
        .then(Stroke::Volley, at(-3.0, 6.4))
        .done(),
    ];
    board
}
