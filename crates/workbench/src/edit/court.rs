//! The court of a board is changed: everything on it goes with it.

use glam::dvec2;
use standpoint_board::{Board, CourtChoice};
use standpoint_geometry::{BallType, End, Level, NetPosts, ReceiptChoice, Stage, units::KMH};

use super::Edit;
use crate::{selection::Selection, sketch::draw::kept};

/// A new board on the court of a stage, with its ball and two players of the age that plays there.
#[must_use]
pub fn board_of_stage(stage: Stage) -> Board {
    let level = match stage {
        Stage::Full => return Board::blank(),
        Stage::Green => Level::GreenJunior,
        Stage::Orange => Level::OrangeJunior,
        Stage::Red => Level::RedJunior,
    };
    let mut board = Board::blank();
    let posts = board.court.posts;
    let edits = [Edit::Court(stage, posts), Edit::Level(End::Near, level), Edit::Level(End::Far, level)];
    edits.iter().for_each(|edit| edit.apply(&mut board, Selection::default()));
    board
}

/// The ball of a stage, as [`BallType`] and [`Stage`] name the courts that they belong to.
pub(super) fn ball_of(stage: Stage) -> BallType {
    match stage {
        Stage::Full => BallType::default(),
        Stage::Green => BallType::Stage1,
        Stage::Orange => BallType::Stage2,
        Stage::Red => BallType::Stage3,
    }
}

/// Changes the court, and with the stage the ball. Places scale with the court; the speed of a ball scales with the root of
/// the length, because then its range scales with the length.
pub(super) fn change_court(board: &mut Board, stage: Stage, posts: NetPosts) {
    let before = board.court.court();
    let old = board.court.stage;
    board.court = CourtChoice::of(stage, posts);
    let after = board.court.court();
    if old != stage {
        board.ball = ball_of(stage);
    }
    let faster = (after.length / before.length).sqrt();
    let scale = dvec2(after.singles_width / before.singles_width, after.length / before.length);
    let area = board.play_area();
    for page in 0..board.pages.len() {
        let Some(page) = board.page_mut(page) else { continue };
        for spec in &mut page.shots {
            let (here, there) = (spec.hitter_end, spec.hitter_end.other());
            *spec = spec.mapped(|p| p * scale);
            spec.shot.speed = (spec.shot.speed * faster).clamp(11.0 * KMH, 270.0 * KMH);
            spec.shot.contact = area.clamp_contact(here, spec.shot.contact);
            spec.shot.target = area.clamp_at(there, spec.shot.target);
            spec.hitter_place = spec.hitter_place.map(|p| area.clamp_at(here, p));
            spec.opponent_place = area.clamp_at(there, spec.opponent_place);
            spec.recover_to = spec.recover_to.map(|p| area.clamp_at(here, p));
            if let ReceiptChoice::Near(place) = spec.receipt {
                spec.receipt = ReceiptChoice::Near(area.clamp_at(there, place));
            }
        }
        for mark in &mut page.marks.list {
            mark.form = kept(&mark.form, |p| area.clamp_mark(p * scale));
        }
    }
}
