//! What each teaching board says is true in the model.

use glam::DVec2;
use standpoint_board::{Board, Figures, measure::measured, rally::Resolved};
use standpoint_geometry::{Level, LineName, Outcome, Play, ReplyName, Solver};

use super::{build::resolved, first::weaken_backhand, shipped};

/// The answers of every page of a board.
fn answers(board: &Board) -> Vec<Vec<Resolved>> {
    board.pages.iter().map(|page| resolved(board, page)).collect()
}

/// The play after the first shot of each page.
fn first_plays(board: &Board) -> Vec<Play> {
    answers(board).iter().map(|page| page[0].play().expect("it is returned").clone()).collect()
}

fn landing(shot: &Resolved) -> DVec2 {
    shot.result.as_ref().unwrap().shot.landing.place
}

#[test]
fn cross_court_leaves_a_short_recovery_and_down_the_line_a_long_one() {
    let plays = first_plays(&shipped("cross-court"));
    let [across, line] = plays.as_slice() else { panic!() };
    assert!(line.recovery.distance > across.recovery.distance + 0.7);
    assert!(line.recovery.available < across.recovery.available + 0.05, "in no more time");
    assert!(across.spot.place.x > 0.4, "not in the middle, but on the side of the corner");
    assert!(across.middle.exposure > across.spot.exposure + 0.04, "the middle is worse");
    assert!(line.spot.place.x < 0.0, "on the other side");
}

#[test]
fn from_far_out_down_the_line_comes_too_late_and_across_in_time() {
    let plays = first_plays(&shipped("down-the-line"));
    let [line, across] = plays.as_slice() else { panic!() };
    assert!(line.recovery.short_by > 0.2 && line.recovery.extra_exposure > 0.02);
    assert!(across.recovery.short_by < 1e-9 && across.recovery.distance < line.recovery.distance - 0.7);
}

#[test]
fn only_a_ball_down_the_middle_is_answered_from_the_middle() {
    let plays = first_plays(&shipped("middle"));
    let x: Vec<f64> = plays.iter().map(|play| play.spot.place.x).collect();
    assert!(x[0].abs() < 0.3 && x[0] < 0.0, "the middle, a little to the backhand side: {x:?}");
    assert!(x[1] > 0.35 && x[2] < -0.35, "ball left, spot right; ball right, spot left: {x:?}");
}

#[test]
fn an_approach_down_the_line_has_the_short_way_and_is_safer() {
    let plays = first_plays(&shipped("approach"));
    let [line, across] = plays.as_slice() else { panic!() };
    assert!(line.recovery.distance < across.recovery.distance - 0.3, "a little shorter");
    assert!(line.recovery.reached.exposure < across.recovery.reached.exposure - 0.05, "far fewer passes get through");
    // The place at the net is on the side of the ball.
    assert!(line.spot.place.x > 0.0 && across.spot.place.x < 0.0);
}

#[test]
fn too_close_to_the_net_the_lob_is_what_punishes() {
    let board = shipped("too-close-to-the-net");
    let pages = answers(&board);
    let too_close = board.page(1).unwrap().shots[0].recover_to.unwrap();
    let spot = pages[0][0].play().unwrap().spot;
    let mut solver = Solver::new();
    let mut at = |place| solver.net_position(&pages[1][0].situation, place).unwrap().unwrap();
    let (close, good) = (at(too_close), at(spot.place));
    assert_eq!(close.worst, ReplyName::Lob, "{close:?}");
    assert!(close.too_close && close.exposure > good.exposure + 0.15, "{close:?} {good:?}");
    // A player right at the net cannot run back under a lob; one at the spot can.
    assert!(close.lob > good.lob + 0.1, "{:.2} {:.2}", close.lob, good.lob);
    assert!(spot.place.x > 0.0 && spot.place.y < -2.5, "on the side of the ball, some metres back: {}", spot.place);
}

#[test]
fn against_a_weaker_backhand_every_place_is_safer_and_the_spot_moves_in() {
    let board = shipped("weaker-backhand");
    let mut even = board.clone();
    even.far.figures = Figures::Level(Level::Tournament);
    let mut again = even.clone();
    weaken_backhand(&mut again);
    again.tidy();
    assert_eq!(again.far, board.far, "the figures are those of the level, with a weaker backhand");
    let (weak, equal) = (first_plays(&board), first_plays(&even));
    assert!(weak[0].spot.exposure < equal[0].spot.exposure - 0.01);
    let places: Vec<DVec2> = [-12.0, -12.5, -13.0, -13.5].iter().map(|y| DVec2::new(-0.5, *y)).collect();
    let mut solver = Solver::new();
    let mut exposures = |board: &Board| solver.exposures(&board.situation(0, 0).unwrap(), &places).unwrap();
    for (weak, equal) in exposures(&board).iter().zip(exposures(&even)) {
        assert!(weak.exposure < equal.exposure, "{}", weak.place);
    }
    assert!(weak[0].spot.place.distance(equal[0].spot.place) > 0.3, "{} {}", weak[0].spot.place, equal[0].spot.place);
    assert!(weak[0].spot.place.y > equal[0].spot.place.y + 0.3, "further in");
    // To the stronger wing: further back and less safe.
    assert!(weak[1].spot.place.y < weak[0].spot.place.y - 0.5 && weak[1].spot.exposure > weak[0].spot.exposure + 0.03);
}

#[test]
fn a_short_angle_takes_the_opponent_off_the_court_and_is_missed_more_often() {
    let board = shipped("short-angle");
    let pages = answers(&board);
    let (angle, deep) = (pages[0][0].play().unwrap(), pages[1][0].play().unwrap());
    assert!(angle.receipt.contact.x < -5.5, "outside the court");
    assert!(deep.receipt.contact.x > angle.receipt.contact.x + 2.0);
    let chance = |page: usize| pages[page][0].result.as_ref().unwrap().shot.chance_in;
    assert!(chance(0) < chance(1) - 0.04);
    assert!(angle.recovery.available > deep.recovery.available + 0.3, "and gives time");
    assert!(angle.spot.place.x > deep.spot.place.x + 0.2, "the spot lies further to the side of the angle");
}

#[test]
fn against_a_left_hander_the_better_target_is_the_other_one() {
    let board = shipped("left-hander");
    let mut right = board.clone();
    right.far.hand = board.near.hand;
    let (left, right) = (first_plays(&board), first_plays(&right));
    assert!(left[0].spot.exposure < left[1].spot.exposure - 0.01, "across meets the backhand");
    assert!(right[0].spot.exposure > right[1].spot.exposure + 0.01, "against a right-hander it is the line");
    assert!(left[1].recovery.distance > left[0].recovery.distance + 0.3);
}

#[test]
fn height_buys_time_and_the_short_ball_taken_early_takes_it_away() {
    let pages = answers(&shipped("high-deep-and-move-up"));
    let (early, waited) = (&pages[0], &pages[1]);
    assert!(early[0].result.as_ref().unwrap().shot.net.clearance > 2.5);
    assert!(early[0].play().unwrap().recovery.available > 1.7);
    assert!(landing(&early[1]).y > -6.5, "the answer lands short");
    let baseline = -11.885;
    assert!(early[2].spec.shot.contact.y > baseline + 1.5, "met well inside the court");
    assert!(waited[2].spec.shot.contact.y < baseline);
    let (hurried, at_ease) = (early[2].play().unwrap().receipt, waited[2].play().unwrap().receipt);
    assert!(hurried.time_to_spare < at_ease.time_to_spare - 0.15 && hurried.pressure > at_ease.pressure + 0.2);
}

#[test]
fn after_a_wide_serve_the_ball_into_the_space_finds_the_receiver_stretched() {
    let pages = answers(&shipped("serve-wide-plus-one"));
    assert!(pages[0][0].play().unwrap().receipt.contact.x < -4.115 - 1.0, "the receiver is off the court");
    let (space, behind) = (pages[0][2].play().unwrap(), pages[1][2].play().unwrap());
    assert!(space.receipt.pressure > behind.receipt.pressure + 0.3);
    assert!(space.spot.exposure < behind.spot.exposure - 0.05);
}

#[test]
fn the_receiver_waits_between_the_widest_serves_and_moves_with_the_server() {
    let pages = answers(&shipped("return-of-serve"));
    let ready = |page: usize| pages[page][0].result.as_ref().unwrap().returner.as_ref().expect("it is a serve");
    let (near, far) = (ready(0), ready(1));
    assert!(far.spot.place.x < near.spot.place.x - 0.8, "server out, receiver out the same way");
    for ready in [near, far] {
        let x: Vec<f64> = ready.best.iter().map(|serve| serve.landing.x).collect();
        assert!(x.len() == 2 && (x[0] - x[1]).abs() > 2.0, "one serve wide, one down the middle: {x:?}");
    }
}

#[test]
fn a_ball_past_after_one_bounce_is_met_after_the_second() {
    let mut board = shipped("wheelchair");
    assert_eq!(first_plays(&board)[0].receipt.bounces, 2);
    board.far.make_custom().bounces = 1;
    let situation = board.situation(0, 0).unwrap();
    assert!(matches!(Solver::new().solve(&situation).unwrap().outcome, Outcome::Winner { .. }));
}

#[test]
fn on_the_orange_court_across_is_the_short_way_too() {
    let plays = first_plays(&shipped("orange-court"));
    let [across, line, middle] = plays.as_slice() else { panic!() };
    assert!(line.recovery.distance > across.recovery.distance + 0.5);
    assert!(across.spot.place.x > 0.15 && middle.spot.place.x.abs() < 0.25);
}

#[test]
fn in_the_two_line_drill_the_lines_cost_twice_the_way() {
    let board = shipped("two-line-drill");
    let pages = answers(&board);
    let way = |shot: usize| pages[0][shot].play().unwrap().recovery.distance;
    assert!(way(0) + way(2) > 1.9 * (way(1) + way(3)));
    let court = board.court.court();
    let cones: Vec<DVec2> = board.pages[0]
        .marks
        .list
        .iter()
        .filter(|mark| matches!(mark.form, standpoint_board::marks::Form::Cone { .. }))
        .filter_map(|mark| mark.form.standing_at())
        .collect();
    assert_eq!(cones.len(), 4);
    for cone in cones {
        let m = measured(&court, cone);
        assert!(matches!(m.across.line, LineName::SinglesSideline(_)) && matches!(m.along.line, LineName::Baseline(_)));
        assert!((m.across.distance - 1.5).abs() < 1e-9 && (m.along.distance - 2.5).abs() < 1e-9, "as the notes say");
    }
}

#[test]
fn after_the_approach_the_volley_into_the_space_is_not_reached() {
    let pages = answers(&shipped("approach-and-volley"));
    let shots = &pages[0];
    assert!(shots[0].play().unwrap().spot.place.x > 0.0, "the place at the net is on the side of the ball");
    assert_eq!(shots[1].play().unwrap().receipt.bounces, 0, "the pass is volleyed");
    assert!(matches!(shots[2].result.as_ref().unwrap().outcome, Outcome::Winner { .. }));
}
