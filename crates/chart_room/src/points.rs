//! The list of points, each with its shots.

use egui::{Button, Label, RichText, ScrollArea, Ui};
use standpoint_board::chart::{ObservedShot, Point};
use standpoint_charting::notebook::{At, Notebook};
use standpoint_geometry::End;
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Command, PageCommand},
    theme::{Theme, style},
    widgets::ends,
};
use standpoint_workbench::{chart::Act, words};

use super::note_bits;

/// Height of a row.
const ROW: f32 = 34.0;

/// The list, the last point first.
pub fn ui(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let points = notes.points();
    let picked = notes.picked().map(|(at, _)| at.point);
    let said = match (points.len(), notes.shots()) {
        (0, _) => text("No points yet").to_owned(),
        (points, shots) => format!("{}, {}", words::played(points), words::shots(shots)),
    };
    ui.label(RichText::new(said).text_style(style::title()));
    // A list takes room of its own, by which the panel would grow from frame to frame.
    if points.is_empty() {
        return;
    }
    ScrollArea::vertical().auto_shrink([false, false]).show_rows(ui, ROW, points.len(), |ui, range| {
        for i in range {
            let index = points.len() - 1 - i;
            ui.horizontal(|ui| {
                ui.set_height(ROW);
                point(ui, index, &points[index], picked, theme, out);
            });
        }
    });
}

fn point(ui: &mut Ui, index: usize, point: &Point, picked: Option<usize>, theme: &Theme, out: &mut Vec<Act>) {
    let label = if point.label.is_empty() { (index + 1).to_string() } else { point.label.clone() };
    let title =
        if point.session.is_empty() { tr!("Point {}", label) } else { tr!("{}, point {}", point.session, label) };
    let first = At { point: index, shot: 0 };
    let bin = Command::Page(PageCommand::DeletePage).spec().icon;
    let mut picked_up = false;
    let left = |ui: &mut Ui| {
        let chosen = Button::selectable(picked == Some(index), &title);
        picked_up = ui.add(chosen).on_hover_text(text("Take its shots up and put them right")).clicked();
        let shots: Vec<String> = point.shots.iter().map(|shot| note_bits::capital(sign(shot))).collect();
        ui.add(Label::new(RichText::new(shots.join(" · ")).small().color(*theme.ui.soft)).truncate());
    };
    let mut removed = false;
    ends::row(ui, index, left, |ui| {
        let (rect, response) = ui.allocate_exact_size(egui::vec2(28.0, 28.0), egui::Sense::click());
        let name = tr!("Delete {}", title);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, name.as_str()));
        if response.hovered() || response.has_focus() {
            ui.painter().rect_filled(rect, theme.m.radius.small, *theme.ui.hovered);
        }
        if let Some(icon) = bin {
            theme.icons.paint(ui.painter(), rect.shrink(5.0), icon, *theme.ui.soft);
        }
        removed = response.on_hover_text(name).clicked();
    });
    if picked_up {
        out.push(Act::Pick(Some(first)));
    }
    if removed {
        out.push(Act::RemovePoint(index));
    }
}

/// A shot in a word.
fn sign(shot: &ObservedShot) -> &'static str {
    match (shot.stroke, shot.wing) {
        (Some(stroke), _) if stroke != standpoint_geometry::Stroke::Topspin => words::stroke(stroke),
        (_, Some(wing)) => words::wing(wing),
        (Some(stroke), None) => words::stroke(stroke),
        (None, None) if shot.hitter == End::Near => text("Near"),
        (None, None) => text("Far"),
    }
}
