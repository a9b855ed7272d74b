//! What it costs to stand at the spot, in the middle, and on the bisector.

use egui::Ui;
use standpoint_geometry::answer::{Outcome, Play, Receipt};

use super::row;
use crate::{canvas::captions::spare, session::Session, theme::Theme, words};

/// The section.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme) {
    match session.answer().map(|answer| &answer.outcome) {
        Some(Outcome::Play(play)) => costs(ui, play, session, theme),
        Some(Outcome::NoReply(receipt)) => met(ui, receipt, theme),
        Some(Outcome::Winner { .. }) => row::note(ui, theme, "The opponent does not reach this ball."),
        None => {}
    }
}

fn costs(ui: &mut Ui, play: &Play, session: &Session, theme: &Theme) {
    let least = play.spot.exposure;
    let line = |exposure: f64| format!("{}  ({})", words::points(exposure), words::more_points(exposure - least));
    row::figure(ui, theme, "At the spot", &format!("{} in 100", words::points(least)));
    row::figure(ui, theme, "In the middle, as deep", &line(play.middle.exposure));
    row::figure(ui, theme, "On the bisector, as deep", &line(play.bisector.exposure));
    let offset = play.bisector.offset * session.hitter_end().sign();
    let side = if offset >= 0.0 { "right" } else { "left" };
    let away = format!("{} {side}", words::length(offset.abs(), session.units()));
    row::figure(ui, theme, "Bisector from the spot", &away);
    let width = words::decimal(play.wedge.width().to_degrees(), 0);
    row::figure(ui, theme, "Wedge of directions", &format!("{width}°"));
    met(ui, &play.receipt, theme);
}

fn met(ui: &mut Ui, receipt: &Receipt, theme: &Theme) {
    let when = match receipt.bounces {
        0 => "volley",
        1 => "after the bounce",
        _ => "after two bounces",
    };
    let how = format!("{}, {when}", words::wing(receipt.wing));
    row::figure(ui, theme, "Opponent meets it", &how);
    row::figure(ui, theme, "Opponent’s time", &spare(receipt.time_to_spare));
}
