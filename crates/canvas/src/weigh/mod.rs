//! What the weighing of shots shows on the court: the shots beside each other, the aim map, the reach at the net.

pub mod aim;
pub mod ghosts;
pub mod reach;
pub mod targets;

use egui::Rect;
use standpoint_workbench::{session::Session, settings::Layers, weigh::Weigh};

use super::{brush::Brush, field::Shading, labels::Placer};

/// What is painted, and what is kept of it from frame to frame.
#[derive(Default)]
pub struct Overlay {
    shading: Shading,
}

/// What there is to paint.
#[derive(Clone, Copy)]
pub struct View<'a> {
    /// The board.
    pub session: &'a Session,
    /// The weighing.
    pub weigh: &'a Weigh,
    /// What is shown.
    pub layers: &'a Layers,
}

impl Overlay {
    /// What lies on the ground, under the lines.
    pub fn ground(&mut self, brush: &Brush<'_>, view: View<'_>) {
        if view.layers.aim {
            aim::ground(brush, &mut self.shading, view.weigh);
        }
    }

    /// What lies on the lines.
    pub fn lines(&self, brush: &Brush<'_>, view: View<'_>) {
        if view.layers.aim {
            aim::lines(brush, view.weigh);
        }
        if view.layers.net {
            reach::paint(brush, view);
        }
    }

    /// What flies and runs, and its marks.
    pub fn flights(&self, brush: &Brush<'_>, view: View<'_>) {
        if view.layers.ghosts {
            ghosts::paint(brush, view);
        }
        if view.layers.aim {
            aim::best(brush, view.weigh);
        }
    }

    /// What words must leave uncovered.
    pub fn obstacles(&self, brush: &Brush<'_>, view: View<'_>) -> Vec<Rect> {
        let mut taken = Vec::new();
        if view.layers.ghosts {
            taken.extend(ghosts::obstacles(brush, view.weigh));
        }
        if view.layers.aim {
            taken.extend(aim::obstacle(brush, view.weigh));
        }
        taken
    }

    /// The words.
    pub fn tags(&self, brush: &Brush<'_>, placer: &mut Placer, view: View<'_>) {
        if view.layers.ghosts {
            ghosts::tags(brush, placer, view.weigh);
        }
        if view.layers.aim {
            aim::tag(brush, placer, view);
        }
        if view.layers.net {
            reach::tags(brush, placer, view);
        }
    }
}
