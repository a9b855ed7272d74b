//! Two shots ahead: the reply that is looked at, and the shot to play then.

use egui::{Align2, Pos2, Rect};
use standpoint_geometry::{PathPoint, Planned};
use standpoint_language::tr;
use standpoint_workbench::{
    compare::{Comparison, scheduler::PlanOf, task::Kind, words as said},
    compare_words, words,
};

use crate::{
    brush::{Brush, Dash, Side},
    labels::{LabelId, Placer, Wish},
    touch_rect,
};

/// The reply that is shown, once what is known answers the question as it is now.
fn shown(comparison: &Comparison) -> Option<(&PlanOf, &Planned)> {
    let (plan, reply) = comparison.shown_plan().filter(|_| comparison.scheduler().is_answered(Kind::Plan))?;
    Some((plan, plan.replies.get(reply)?))
}

/// The two lines.
pub fn paint(brush: &Brush<'_>, comparison: &Comparison) {
    let Some((_, planned)) = shown(comparison) else { return };
    let m = &brush.theme.m.stroke;
    line(brush, &planned.path, m.thin, Side::Opponent);
    if let Some(next) = &planned.next {
        brush.ring(brush.point(next.shot.contact.truncate()), 5.0 * brush.growth(), m.thin, Side::Hitter);
        line(brush, &next.path, m.medium, Side::Hitter);
    }
}

fn line(brush: &Brush<'_>, path: &[PathPoint], width: f32, side: Side) {
    let points = seen(brush, path);
    brush.line(&points, width, side, Dash::Solid);
    if let [.., before, tip] = points[..] {
        brush.arrow_head(before, tip, 10.0, side);
    }
}

fn seen(brush: &Brush<'_>, path: &[PathPoint]) -> Vec<Pos2> {
    brush.points(path.iter().map(|p| p.point.truncate()))
}

/// What words must leave uncovered.
pub fn obstacles(brush: &Brush<'_>, comparison: &Comparison) -> Vec<Rect> {
    let next = shown(comparison).and_then(|(_, planned)| planned.next.as_ref());
    let places = next.into_iter().flat_map(|next| [next.shot.contact.truncate(), next.shot.target]);
    places.map(|place| touch_rect(brush.point(place), 10.0 * brush.growth())).collect()
}

/// How often it comes, and what to play then.
pub fn tags(brush: &Brush<'_>, placer: &mut Placer, comparison: &Comparison) {
    let Some((_, planned)) = shown(comparison) else { return };
    let points = seen(brush, &planned.path);
    if let Some(middle) = points.get(points.len() / 2) {
        tag(brush, placer, LabelId::PlanReply, *middle, tr!("{} in 100", words::points(planned.share)));
    }
    if let Some(next) = &planned.next {
        let name = said::capital(compare_words::choice(next.choice));
        let text = tr!("Then {0}: {1} in 100", name, words::points(next.win));
        tag(brush, placer, LabelId::PlanNext, brush.point(next.shot.target), text);
    }
}

fn tag(brush: &Brush<'_>, placer: &mut Placer, id: LabelId, anchor: Pos2, text: String) {
    let galley = brush.text(text, *brush.theme.court.ink);
    let wish = Wish { id, anchor, size: galley.size(), gap: 9.0 * brush.growth(), beside: false };
    if let Some(rect) = placer.place(&wish) {
        brush.haloed(rect.left_center(), Align2::LEFT_CENTER, &galley);
    }
}
