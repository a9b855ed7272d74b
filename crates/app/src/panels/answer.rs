//! What it costs to stand at the spot, in the middle, and on the bisector.

use egui::Ui;
use standpoint_geometry::answer::{Outcome, Play, Receipt};

use super::row::{self, NOTHING};
use crate::{canvas::captions::spare, session::Session, theme::Theme, words};

/// The section: the same lines whatever the answer.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme) {
    let play = session.play();
    let of = |figure: &dyn Fn(&Play) -> String| play.map_or_else(|| NOTHING.to_owned(), figure);
    let beside = |play: &Play, exposure: f64| {
        format!("{}  ({})", words::points(exposure), words::more_points(exposure - play.spot.exposure))
    };
    let lines = [
        ("At the spot", of(&|play| format!("{} in 100", words::points(play.spot.exposure)))),
        ("In the middle, as deep", of(&|play| beside(play, play.middle.exposure))),
        ("On the bisector, as deep", of(&|play| beside(play, play.bisector.exposure))),
        ("Bisector from the spot", of(&|play| bisector(play, session))),
        ("Wedge of directions", of(&|play| format!("{}°", words::decimal(play.wedge.width().to_degrees(), 0)))),
    ];
    for (label, value) in &lines {
        row::figure(ui, theme, label, value);
    }
    let receipt = match session.answer().map(|answer| &answer.outcome) {
        Some(Outcome::Play(play)) => Some(&play.receipt),
        Some(Outcome::NoReply(receipt)) => Some(receipt),
        _ => None,
    };
    row::figure(ui, theme, "Opponent meets it", &receipt.map_or_else(|| NOTHING.to_owned(), met));
    let time = receipt.map_or_else(|| NOTHING.to_owned(), |receipt| spare(receipt.time_to_spare));
    row::figure(ui, theme, "Opponent’s time", &time);
}

fn bisector(play: &Play, session: &Session) -> String {
    let offset = play.bisector.offset * session.hitter_end().sign();
    let side = if offset >= 0.0 { "right" } else { "left" };
    format!("{} {side}", words::length(offset.abs(), session.units()))
}

fn met(receipt: &Receipt) -> String {
    let when = match receipt.bounces {
        0 => "volley",
        1 => "after the bounce",
        _ => "after two bounces",
    };
    format!("{}, {when}", words::wing(receipt.wing))
}
