//! The place: court, surface, ball and air.

use egui::Ui;
use standpoint_board::Units;
use standpoint_geometry::{BallType, NetPosts, PaceCategory, Stage, SurfaceKind, units::FOOT};
use standpoint_language::text;
use standpoint_ui::{
    commands::Outbox,
    theme::Theme,
    widgets::row::{self, Quantity},
};
use standpoint_workbench::{edit::Edit, explain::ExplainStep, session::Session, words};

use super::edited;

/// The section.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    let board = session.board();
    let court = board.court;
    row::row(ui, theme, text("Court"), |ui| {
        edited(row::choice(ui, "stage", court.stage, &Stage::ALL, stage), out, |s| Edit::Court(s, court.posts))
    });
    row::row(ui, theme, text("Net"), |ui| {
        let all = [NetPosts::SinglesSticks, NetPosts::DoublesPosts];
        edited(row::choice(ui, "posts", court.posts, &all, posts), out, |p| Edit::Court(court.stage, p))
    });
    row::row(ui, theme, text("Surface"), |ui| {
        edited(row::choice(ui, "surface", board.surface.kind, &SurfaceKind::ALL, surface), out, Edit::Surface)
    });
    let pace = board.surface.surface().pace_rating();
    row::figure_of(
        ui,
        theme,
        ExplainStep::Pace,
        text("Pace"),
        &format!("{}, {}", words::decimal(pace, 0), category(PaceCategory::of(pace))),
    );
    row::row(ui, theme, text("Ball"), |ui| {
        edited(row::choice(ui, "ball", board.ball, &BallType::ALL, ball), out, Edit::Ball)
    });
    air(ui, session, theme, out);
}

fn air(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    let air = session.board().air;
    row::row(ui, theme, text("Temperature"), |ui| {
        let q = Quantity { value: air.temperature_c, range: -10.0..=45.0, step: 1.0, unit: "°C", figures: 0 };
        edited(row::slider(ui, q), out, Edit::Temperature)
    });
    row::row(ui, theme, text("Altitude"), |ui| {
        let (unit, name) = if session.units() == Units::Metres { (1.0, "m") } else { (FOOT, "ft") };
        let range = 0.0..=(4000.0 / unit).round();
        let q = Quantity { value: air.altitude_m / unit, range, step: 10.0, unit: name, figures: 0 };
        edited(row::slider(ui, q), out, move |v| Edit::Altitude(v * unit))
    });
}

fn stage(stage: Stage) -> String {
    match stage {
        Stage::Full => text("Full court"),
        Stage::Green => text("Full court, green"),
        Stage::Orange => text("18 m court, orange"),
        Stage::Red => text("11 m court, red"),
    }
    .to_owned()
}

fn posts(posts: NetPosts) -> String {
    match posts {
        NetPosts::SinglesSticks => text("Singles sticks"),
        NetPosts::DoublesPosts => text("Doubles posts"),
    }
    .to_owned()
}

fn surface(kind: SurfaceKind) -> String {
    match kind {
        SurfaceKind::Hard => text("Hard court"),
        SurfaceKind::Clay => text("Clay"),
        SurfaceKind::Grass => text("Grass"),
        SurfaceKind::Custom => text("Medium pace"),
    }
    .to_owned()
}

fn category(category: PaceCategory) -> &'static str {
    match category {
        PaceCategory::Slow => text("slow"),
        PaceCategory::MediumSlow => text("medium slow"),
        PaceCategory::Medium => text("medium"),
        PaceCategory::MediumFast => text("medium fast"),
        PaceCategory::Fast => text("fast"),
    }
}

fn ball(kind: BallType) -> String {
    match kind {
        BallType::Type1 => text("Type 1, fast"),
        BallType::Type2 => text("Type 2, standard"),
        BallType::Type3 => text("Type 3, slow"),
        BallType::HighAltitude => text("High altitude"),
        BallType::Stage1 => text("Stage 1, green"),
        BallType::Stage2 => text("Stage 2, orange"),
        BallType::Stage3 => text("Stage 3, red"),
    }
    .to_owned()
}
