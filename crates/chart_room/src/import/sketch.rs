//! Where the first rows lie on the court as they are read: axes, ends, contacts and landings.

use egui::{Align2, FontId, Pos2, Rect, Sense, Stroke, Ui, vec2};
use glam::DVec2;
use standpoint_board::{chart::ObservedShot, choices::CourtChoice};
use standpoint_canvas::announce;
use standpoint_language::{text, tr, whole};
use standpoint_ui::theme::Theme;
use standpoint_workbench::chart::sample::Sample;

/// Its size, points: the court lies on its side, the near end on the left.
const SIZE: egui::Vec2 = vec2(300.0, 150.0);
/// Run-off that is shown behind the baselines and beside the lines, m.
const AROUND: (f64, f64) = (4.0, 2.5);

/// The sketch.
pub fn ui(ui: &mut Ui, sample: &Sample, theme: &Theme) {
    let court = CourtChoice::default().court();
    let (rect, response) = ui.allocate_exact_size(SIZE, Sense::hover());
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, theme.m.radius.small, *theme.court.surround);
    let half = DVec2::new(court.half_width(), court.half_length());
    let scale =
        (rect.width() / (2.0 * (half.y + AROUND.0)) as f32).min(rect.height() / (2.0 * (half.x + AROUND.1)) as f32);
    // Forward is to the right, and right of the near player is down.
    let at = |p: DVec2| -> Pos2 { rect.center() + vec2(p.y as f32, p.x as f32) * scale };
    let line = Stroke::new(1.0, *theme.court.line);
    let field = Rect::from_two_pos(at(-half), at(half));
    painter.rect_filled(field, 0.0, *theme.court.court);
    painter.rect_stroke(field, 0.0, line, egui::StrokeKind::Middle);
    painter.line_segment(
        [at(DVec2::new(-half.x - 0.9, 0.0)), at(DVec2::new(half.x + 0.9, 0.0))],
        Stroke::new(2.0, *theme.court.line),
    );
    if let Some(service) = court.service_line {
        for y in [-service, service] {
            painter.line_segment([at(DVec2::new(-half.x, y)), at(DVec2::new(half.x, y))], line);
        }
        painter.line_segment([at(DVec2::new(0.0, -service)), at(DVec2::new(0.0, service))], line);
    }
    for shot in &sample.shots {
        mark(&painter, shot, &at, theme);
    }
    let font = FontId::proportional(theme.m.text.small);
    let ink = *theme.court.ink;
    let label = |place: Pos2, align: Align2, said: &str| {
        painter.text(place, align, said, font.clone(), ink);
    };
    label(rect.left_center() + vec2(4.0, 0.0), Align2::LEFT_CENTER, text("near"));
    label(rect.right_center() - vec2(4.0, 0.0), Align2::RIGHT_CENTER, text("far"));
    // The axes from the middle of the net.
    let arrow = |to: DVec2, said: &str, align: Align2| {
        painter.arrow(at(DVec2::ZERO), at(to) - at(DVec2::ZERO), Stroke::new(1.6, ink));
        label(at(to * 1.25), align, said);
    };
    arrow(DVec2::new(3.6, 0.0), "x", Align2::CENTER_CENTER);
    arrow(DVec2::new(0.0, 4.6), "y", Align2::CENTER_CENTER);
    let said = tr!("{} of the first rows, as they are read", whole(sample.shots.len()));
    announce::describe(ui, &response, egui::accesskit::Role::Image, text("Places on the court"), &said);
    response.on_hover_text(text(
        "x goes to the right and y forward as the near player faces the net; rings are contacts, dots landings",
    ));
}

fn mark(painter: &egui::Painter, shot: &ObservedShot, at: &impl Fn(DVec2) -> Pos2, theme: &Theme) {
    let ink = match shot.hitter {
        standpoint_geometry::End::Near => *theme.court.hitter,
        standpoint_geometry::End::Far => *theme.court.opponent,
    };
    painter.circle_stroke(at(shot.contact), 3.0, Stroke::new(1.2, ink));
    if let Some(landing) = shot.landing {
        painter.circle_filled(at(landing), 1.8, ink);
    }
}
