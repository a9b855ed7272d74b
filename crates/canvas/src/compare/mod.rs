//! The comparison on the court: compared shots, aim map, reach at the net.

pub mod aim;
pub mod ghosts;
pub mod plan;
pub mod reach;
pub mod targets;

use egui::Rect;
use standpoint_workbench::{compare::Comparison, session::Session, settings::Layers};

use super::{brush::Brush, field::Shading, labels::Placer};

/// State kept between frames.
#[derive(Default)]
pub struct Overlay {
    shading: Shading,
}

/// Input of the painting.
#[derive(Clone, Copy)]
pub struct OverlayView<'a> {
    /// The board.
    pub session: &'a Session,
    /// The weighing.
    pub comparison: &'a Comparison,
    /// What is shown.
    pub layers: &'a Layers,
}

impl Overlay {
    /// What lies on the ground, under the lines.
    pub fn ground(&mut self, brush: &Brush<'_>, view: OverlayView<'_>) {
        if view.layers.aim {
            aim::ground(brush, &mut self.shading, view.comparison);
        }
    }

    /// What lies on the lines.
    pub fn lines(&self, brush: &Brush<'_>, view: OverlayView<'_>) {
        if view.layers.aim {
            aim::lines(brush, view.comparison);
        }
        if view.layers.net {
            reach::paint(brush, view);
        }
    }

    /// What flies and runs, and its marks.
    pub fn flights(&self, brush: &Brush<'_>, view: OverlayView<'_>) {
        if view.layers.ghosts {
            ghosts::paint(brush, view);
            plan::paint(brush, view.comparison);
        }
        if view.layers.aim {
            aim::best(brush, view.comparison);
        }
    }

    /// Areas that labels must not cover.
    pub fn obstacles(&self, brush: &Brush<'_>, view: OverlayView<'_>) -> Vec<Rect> {
        let mut taken = Vec::new();
        if view.layers.ghosts {
            taken.extend(ghosts::obstacles(brush, view.comparison));
            taken.extend(plan::obstacles(brush, view.comparison));
        }
        if view.layers.aim {
            taken.extend(aim::obstacle(brush, view.comparison));
        }
        taken
    }

    /// The words.
    pub fn tags(&self, brush: &Brush<'_>, placer: &mut Placer, view: OverlayView<'_>) {
        if view.layers.ghosts {
            ghosts::tags(brush, placer, view.comparison);
            plan::tags(brush, placer, view.comparison);
        }
        if view.layers.aim {
            aim::tag(brush, placer, view);
        }
        if view.layers.net {
            reach::tags(brush, placer, view);
        }
    }
}
