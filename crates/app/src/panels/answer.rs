//! Cost of standing at the spot, in the middle, and on the bisector.

use egui::Ui;
use standpoint_geometry::{Interception, Outcome, Play, worth::Basis};
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::Theme,
    widgets::row::{self, NOTHING},
};
use standpoint_workbench::{
    explain::ExplainStep,
    session::Session,
    words::{self, spare},
};

/// The section: the same lines whatever the answer.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme) {
    let play = session.play();
    let of = |figure: &dyn Fn(&Play) -> String| play.map_or_else(|| NOTHING.to_owned(), figure);
    let beside = |play: &Play, exposure: f64| {
        format!("{}  ({})", words::points(exposure), words::more_points(exposure - play.spot.exposure))
    };
    let lines = [
        (ExplainStep::Spot, text("At the spot"), of(&|play| tr!("{} in 100", words::points(play.spot.exposure)))),
        (ExplainStep::Rules, text("In the middle, at the same depth"), of(&|play| beside(play, play.middle.exposure))),
        (
            ExplainStep::Rules,
            text("On the bisector, at the same depth"),
            of(&|play| beside(play, play.bisector.exposure)),
        ),
        (ExplainStep::Rules, text("Bisector from the spot"), of(&|play| bisector(play, session))),
        (
            ExplainStep::Rules,
            text("Angle of replies"),
            of(&|play| format!("{}°", words::decimal(play.wedge.width().to_degrees(), 0))),
        ),
    ];
    for (step, label, value) in &lines {
        row::figure_of(ui, theme, *step, label, value);
    }
    let receipt = match session.answer().map(|answer| &answer.outcome) {
        Some(Outcome::Play(play)) => Some(&play.receipt),
        Some(Outcome::NoReply(receipt)) => Some(receipt),
        _ => None,
    };
    row::figure_of(
        ui,
        theme,
        ExplainStep::Meeting,
        text("Opponent meets it"),
        &receipt.map_or_else(|| NOTHING.to_owned(), met),
    );
    let time = receipt.map_or_else(|| NOTHING.to_owned(), |receipt| spare(receipt.time_to_spare));
    row::figure_of(ui, theme, ExplainStep::Meeting, text("Opponent’s time"), &time);
    let basis = match session.answer().map(|answer| answer.basis) {
        Some(Basis::Solved) => text("for these players"),
        Some(Basis::Level) => text("for the nearest level"),
        None => NOTHING,
    };
    row::figure_of(ui, theme, ExplainStep::Exposure, text("Rally worked out"), basis);
}

fn bisector(play: &Play, session: &Session) -> String {
    let offset = play.bisector.offset * session.hitter_end().sign();
    let aside = words::length(offset.abs(), session.units());
    if offset >= 0.0 { tr!("{} right", aside) } else { tr!("{} left", aside) }
}

fn met(receipt: &Interception) -> String {
    let wing = words::wing(receipt.wing);
    match receipt.bounces {
        0 => tr!("{}, volley", wing),
        1 => tr!("{}, after the bounce", wing),
        _ => tr!("{}, after two bounces", wing),
    }
}
