//! The reach at the net after an approach: without a step, with one and with two.

use egui::Stroke;
use standpoint_geometry::NetPosition;
use standpoint_language::{mark, text};
use standpoint_workbench::compare;

use super::OverlayView;
use crate::{
    brush::{Brush, Dash, Side},
    labels::{LabelId, Placer},
    tags,
};

/// The words of the rings.
const NAMES: [&str; 3] = [mark("reach"), mark("one step"), mark("two steps")];

fn position<'a>(view: OverlayView<'a>) -> Option<&'a NetPosition> {
    if !compare::is_approach(view.session) {
        return None;
    }
    view.comparison.scheduler().at_net()?.as_ref().ok()?.position.as_ref()
}

/// The line pattern of a ring by its number of steps.
#[must_use]
pub fn dash(theme: &standpoint_ui::theme::Theme, steps: usize) -> Dash {
    match steps {
        0 => Dash::Solid,
        1 => Dash::Pattern(theme.m.pattern.dashed),
        _ => Dash::Pattern(theme.m.pattern.dotted),
    }
}

/// The rings.
pub fn paint(brush: &Brush<'_>, view: OverlayView<'_>) {
    let Some(position) = position(view) else { return };
    let (ink, edge) = brush.inks(Side::Hitter);
    for (steps, ring) in position.rings.iter().enumerate() {
        let points = brush.points(ring.iter().copied());
        brush.cased(&points, Stroke::new(brush.theme.m.stroke.thin, ink), edge, dash(brush.theme, steps));
    }
}

/// Their names, on the side towards the net.
pub fn tags(brush: &Brush<'_>, placer: &mut Placer, view: OverlayView<'_>) {
    let Some(position) = position(view) else { return };
    for (steps, ring) in position.rings.iter().enumerate().skip(1) {
        let ahead = ring.iter().copied().min_by(|a, b| a.y.abs().total_cmp(&b.y.abs()));
        if let Some(place) = ahead {
            tags::plain(brush, placer, LabelId::Reach(steps), place, 3.0, text(NAMES[steps]));
        }
    }
}
