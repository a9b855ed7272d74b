//! The program's own icons: strokes on a 24 by 24 grid, read from `assets/icons`.

use std::collections::BTreeMap;

use egui::{Color32, Painter, Pos2, Rect, Stroke, Vec2, pos2};
use serde::Deserialize;

/// An icon's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Icon {
    NewBoard,
    Open,
    Save,
    Undo,
    Redo,
    Search,
    Fit,
    ZoomIn,
    ZoomOut,
    Turn,
    Flip,
    Snap,
    Panel,
    Mirror,
    Swap,
    Reset,
    Theme,
    Ruler,
    Layers,
    Keyboard,
    Warning,
    Close,
    Tick,
    Next,
    Previous,
    Add,
    Duplicate,
    Bin,
    Link,
    Coach,
    WhatIf,
    Play,
    Pause,
    StepOn,
    StepBack,
    Loop,
    Pattern,
    Pages,
    Compare,
    Target,
    Hand,
    Select,
    Pen,
    BallWay,
    PlayerWay,
    Words,
    Cone,
    Basket,
    Person,
    Zone,
    Oval,
    Eraser,
    Library,
    Present,
    BlackScreen,
    Spotlight,
    Notes,
    Rehearse,
    Menu,
    Eye,
}

impl Icon {
    /// All icons.
    pub const ALL: [Self; 60] = [
        Self::NewBoard,
        Self::Open,
        Self::Save,
        Self::Undo,
        Self::Redo,
        Self::Search,
        Self::Fit,
        Self::ZoomIn,
        Self::ZoomOut,
        Self::Turn,
        Self::Flip,
        Self::Snap,
        Self::Panel,
        Self::Mirror,
        Self::Swap,
        Self::Reset,
        Self::Theme,
        Self::Ruler,
        Self::Layers,
        Self::Keyboard,
        Self::Warning,
        Self::Close,
        Self::Tick,
        Self::Next,
        Self::Previous,
        Self::Add,
        Self::Duplicate,
        Self::Bin,
        Self::Link,
        Self::Coach,
        Self::WhatIf,
        Self::Play,
        Self::Pause,
        Self::StepOn,
        Self::StepBack,
        Self::Loop,
        Self::Pattern,
        Self::Pages,
        Self::Compare,
        Self::Target,
        Self::Hand,
        Self::Select,
        Self::Pen,
        Self::BallWay,
        Self::PlayerWay,
        Self::Words,
        Self::Cone,
        Self::Basket,
        Self::Person,
        Self::Zone,
        Self::Oval,
        Self::Eraser,
        Self::Library,
        Self::Present,
        Self::BlackScreen,
        Self::Spotlight,
        Self::Notes,
        Self::Rehearse,
        Self::Menu,
        Self::Eye,
    ];
}

#[derive(Debug, Clone, Deserialize)]
enum Mark {
    Line(Vec<(f32, f32)>),
    Closed(Vec<(f32, f32)>),
    Ring(f32, f32, f32),
    Dot(f32, f32, f32),
    /// Centre, radius, from and to in degrees clockwise from the right.
    Arc(f32, f32, f32, f32, f32),
}

/// The icon file could not be read.
#[derive(Debug, thiserror::Error)]
pub enum IconError {
    /// It is not valid.
    #[error("the icons cannot be read: {0}")]
    Unreadable(#[from] ron::error::SpannedError),
    /// An icon is missing.
    #[error("the icon {0:?} is missing")]
    Missing(Icon),
}

/// All icons.
#[derive(Debug)]
pub struct Icons(BTreeMap<Icon, Vec<Mark>>);

impl Icons {
    const GRID: f32 = 24.0;

    /// Reads the icons that are built into the program.
    ///
    /// # Errors
    ///
    /// When the file is not valid; a test prevents that.
    pub fn load() -> Result<Self, IconError> {
        let icons: BTreeMap<Icon, Vec<Mark>> = ron::from_str(include_str!("../../../../assets/icons/icons.ron"))?;
        match Icon::ALL.iter().find(|icon| !icons.contains_key(icon)) {
            Some(icon) => Err(IconError::Missing(*icon)),
            None => Ok(Self(icons)),
        }
    }

    /// Paints an icon into a rectangle.
    pub fn paint(&self, painter: &Painter, rect: Rect, icon: Icon, color: Color32) {
        let side = rect.width().min(rect.height());
        let scale = side / Self::GRID;
        let origin = rect.center() - Vec2::splat(side / 2.0);
        let at = |(x, y): (f32, f32)| origin + Vec2::new(x, y) * scale;
        let stroke = Stroke::new((1.8 * scale).max(1.2), color);
        for mark in self.0.get(&icon).into_iter().flatten() {
            match mark {
                Mark::Line(points) => {
                    painter.line(points.iter().copied().map(at).collect(), stroke);
                }
                Mark::Closed(points) => {
                    painter.add(egui::Shape::closed_line(points.iter().copied().map(at).collect(), stroke));
                }
                Mark::Ring(x, y, r) => {
                    painter.circle_stroke(at((*x, *y)), r * scale, stroke);
                }
                Mark::Dot(x, y, r) => {
                    painter.circle_filled(at((*x, *y)), r * scale, color);
                }
                Mark::Arc(x, y, r, from, to) => {
                    painter.line(arc(at((*x, *y)), r * scale, *from, *to), stroke);
                }
            }
        }
    }
}

fn arc(centre: Pos2, radius: f32, from: f32, to: f32) -> Vec<Pos2> {
    let n = 16;
    (0..=n)
        .map(|i| {
            let a = (from + (to - from) * i as f32 / n as f32).to_radians();
            pos2(centre.x + radius * a.cos(), centre.y + radius * a.sin())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_icon_is_drawn() {
        assert!(Icons::load().is_ok(), "{:?}", Icons::load().err());
    }
}
