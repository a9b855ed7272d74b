//! Hit testing for the drawing tools.

use egui::{Pos2, Rect, vec2};
use glam::DVec2;
use standpoint_board::marks::{Form, Mark, MarkId, Marks};
use standpoint_ui::transform::Transform;
use standpoint_workbench::sketch::tool::Tool;

use super::{DrawContext, DrawingTools};
use crate::{
    draw_gesture::Over,
    grips::{self, Part},
};

/// Hit distance of lines and edges, as a share of the touch size.
const LINE_REACH: f32 = 0.32;

impl DrawingTools {
    /// The target under a point for the current tool.
    pub(super) fn over(&self, context: DrawContext<'_>, pos: Pos2) -> Over {
        if let Some((grip, place)) = self.grip_under(context, pos) {
            return Over::Grip(grip, place);
        }
        let mark = self.mark_under(context, pos).and_then(|id| context.marks()?.get(id));
        mark.map_or(Over::Bare, |mark| Over::Mark(mark.id, standpoint_workbench::sketch::draw::anchor(&mark.form)))
    }

    /// The grips of the mark that is chosen alone; while drawing, only the bend, so that the next line can begin at an
    /// end.
    pub(super) fn grips(&self, context: DrawContext<'_>) -> Vec<(grips::Grip, DVec2)> {
        let [one] = context.session.chosen() else { return Vec::new() };
        let Some(mark) = context.marks().and_then(|marks| marks.get(*one)) else { return Vec::new() };
        let free = matches!(self.tool, None | Some(Tool::Select));
        let wanted = |part| match self.tool {
            Some(Tool::BallWay | Tool::PlayerWay) => part == Part::Bend,
            _ => free,
        };
        grips::grips(mark).into_iter().filter(|(grip, _)| wanted(grip.part)).collect()
    }

    fn grip_under(&self, context: DrawContext<'_>, pos: Pos2) -> Option<(grips::Grip, DVec2)> {
        self.grips(context)
            .into_iter()
            .map(|(grip, place)| (grip, place, context.at.screen_from_court(place).distance(pos)))
            .filter(|(_, _, distance)| *distance <= context.touch / 2.0)
            .min_by(|a, b| a.2.total_cmp(&b.2))
            .map(|(grip, place, _)| (grip, place))
    }

    /// The mark under a point: things before lines, lines before the zones they lie on. Without a tool, zones are not hit.
    pub(super) fn mark_under(&self, context: DrawContext<'_>, pos: Pos2) -> Option<MarkId> {
        let marks = context.marks()?;
        let through = self.tool.is_none();
        let mut shown: Vec<&Mark> = marks.shown().collect();
        shown.reverse();
        shown
            .into_iter()
            .filter_map(|mark| {
                let (rank, distance, reach) = reach(&mark.form, context.at, pos, context.touch, through);
                (distance <= reach).then_some((rank, distance, mark.id))
            })
            .min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)))
            .map(|(_, _, id)| id)
    }
}

/// Rank of a form, its distance from a point on the screen, and its hit distance.
fn reach(form: &Form, at: &Transform, pos: Pos2, touch: f32, through: bool) -> (u8, f32, f32) {
    let place = at.court_from_screen(pos);
    let distance = |form: &Form| at.length(form.distance(place));
    match form {
        Form::Cone { .. } | Form::Basket { .. } | Form::Person { .. } => (0, distance(form), touch / 2.0),
        Form::Text { at: from, text, size } => {
            let rect = text_rect(at, *from, text, *size);
            (0, rect.distance_to_pos(pos), touch * 0.15)
        }
        Form::Pen { .. } | Form::Arrow { .. } => (1, distance(form), touch * LINE_REACH),
        Form::Zone { .. } => {
            let line = Form::Pen { points: form.outline(), pattern: standpoint_board::marks::Pattern::Solid };
            (2, if through { distance(&line) } else { distance(form).min(distance(&line)) }, touch * LINE_REACH)
        }
    }
}

/// Approximate area of words on the screen.
pub(super) fn text_rect(at: &Transform, from: DVec2, text: &str, size: f64) -> Rect {
    let height = at.length(size).clamp(10.0, 160.0);
    let longest = text.lines().map(|line| line.chars().count()).max().unwrap_or(0);
    let lines = text.lines().count().max(1);
    let start = at.screen_from_court(from) - vec2(0.0, height * 0.6);
    Rect::from_min_size(start, vec2(longest as f32 * height * 0.52, lines as f32 * height * 1.2))
}

/// The marks that lie wholly inside a rectangle.
pub(super) fn inside(marks: &Marks, from: DVec2, to: DVec2) -> Vec<MarkId> {
    let (low, high) = (from.min(to), from.max(to));
    let holds = |p: &DVec2| p.cmpge(low).all() && p.cmple(high).all();
    marks.shown().filter(|mark| mark.form.outline().iter().all(holds)).map(|mark| mark.id).collect()
}

#[cfg(test)]
mod tests {
    use egui::pos2;
    use glam::dvec2;
    use standpoint_board::marks::{Ink, Layer};
    use standpoint_geometry::Court;

    use super::*;
    use standpoint_ui::transform::CourtView;

    #[test]
    fn the_hand_passes_through_zones_but_takes_their_edges() {
        let at =
            CourtView::fitted(0).transform(Rect::from_min_size(pos2(0.0, 0.0), vec2(600.0, 900.0)), &Court::default());
        let zone = Form::Zone { from: dvec2(-4.0, -9.0), to: dvec2(4.0, -1.0), round: false };
        let middle = at.screen_from_court(dvec2(0.0, -5.0));
        let near = |through| {
            let (_, distance, reach) = reach(&zone, &at, middle, 44.0, through);
            distance <= reach
        };
        assert!(near(false) && !near(true));
        let (_, distance, within) = reach(&zone, &at, at.screen_from_court(dvec2(0.0, -1.0)), 44.0, true);
        assert!(distance <= within);
    }

    #[test]
    fn only_what_lies_wholly_inside_is_gathered() {
        let mut marks = Marks::default();
        let cone = marks.add(Layer::Drill, Ink::Plain, Form::Cone { at: dvec2(1.0, -3.0) });
        let zone = Form::Zone { from: dvec2(0.0, -4.0), to: dvec2(6.0, -2.0), round: false };
        marks.add(Layer::Drill, Ink::Plain, zone);
        assert_eq!(inside(&marks, dvec2(2.0, -1.0), dvec2(-2.0, -5.0)), [cone]);
    }
}
