//! Pictures of a player's shots on the court, with axes in numbers and a legend: the same on screen and on paper.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, pos2, vec2};
use glam::DVec2;
use standpoint_board::Units;
use standpoint_charting::pictures::{CELLS, Class, Dots, Kind, Picture, Shown};
use standpoint_geometry::{Court, units::FOOT};
use standpoint_language::{text, tr};
use standpoint_ui::theme::{Theme, fonts};

/// Run-off that is shown beside the lines and behind the baseline, m.
const BESIDE: f64 = 1.4;
const BEHIND: f64 = 2.4;
/// A player stands farther behind the baseline than a ball lands.
const BEHIND_PLAYER: f64 = 4.4;
/// Room for the title above, the numbers of the axes, and the legend below, points.
const HEAD: f32 = 20.0;
const SIDE: f32 = 24.0;
const FOOT_ROOM: f32 = 18.0;
const LEGEND: f32 = 20.0;
/// With more dots than this lines are left out: nothing could be told apart.
const WITH_LINES: usize = 90;

/// Height of a picture of a kind that is so wide, points.
#[must_use]
pub fn height(kind: Kind, court: &Court, width: f32) -> f32 {
    let (low, high) = extent(kind, court);
    let metre = f64::from(width - 2.0 * SIDE) / (2.0 * (court.half_width() + BESIDE));
    HEAD + ((high - low) * metre) as f32 + FOOT_ROOM + LEGEND
}

/// From where to where it goes along the court, in the player's frame.
fn extent(kind: Kind, court: &Court) -> (f64, f64) {
    let half = court.half_length();
    match kind.shown() {
        Shown::Beyond => (-0.6, half + BEHIND),
        Shown::Own => (-half - BEHIND_PLAYER, 0.6),
        Shown::Whole => (-half - BEHIND, half + BEHIND),
    }
}

/// Where places are.
struct Frame<'a> {
    painter: &'a Painter,
    theme: &'a Theme,
    area: Rect,
    low: f64,
    metre: f64,
}

impl Frame<'_> {
    fn at(&self, place: DVec2) -> Pos2 {
        let x = self.area.center().x + (place.x * self.metre) as f32;
        let y = self.area.bottom() - ((place.y - self.low) * self.metre) as f32;
        pos2(x.clamp(self.area.left(), self.area.right()), y.clamp(self.area.top(), self.area.bottom()))
    }

    fn small(&self) -> FontId {
        FontId::new(self.theme.m.text.small, fonts::strong())
    }

    fn ink(&self) -> Color32 {
        *self.theme.court.ink
    }
}

/// Paints a picture into a rectangle as wide as it is and as high as [`height`] says.
pub fn paint(painter: &Painter, rect: Rect, picture: &Picture, court: &Court, units: Units, theme: &Theme) {
    let (low, high) = extent(picture.kind, court);
    let width = rect.width() - 2.0 * SIDE;
    let metre = f64::from(width) / (2.0 * (court.half_width() + BESIDE));
    let area =
        Rect::from_min_size(pos2(rect.left() + SIDE, rect.top() + HEAD), vec2(width, ((high - low) * metre) as f32));
    let frame = Frame { painter, theme, area, low, metre };
    // Above the court, on the ground of the panel or the sheet.
    let title = picture.kind.title();
    painter.text(rect.left_top() + vec2(SIDE, 1.0), Align2::LEFT_TOP, title, frame.small(), *theme.ui.ink);
    painter.rect_filled(area, 0.0, *theme.court.surround);
    let inner = Rect::from_two_pos(
        frame.at(DVec2::new(-court.half_width(), low.max(-court.half_length()))),
        frame.at(DVec2::new(court.half_width(), high.min(court.half_length()))),
    );
    painter.rect_filled(inner, 0.0, *theme.court.court);
    if picture.kind == Kind::Landings {
        cells(&frame, picture, court);
    }
    lines(&frame, court, (low, high));
    for dots in &picture.dots {
        paint_dots(&frame, dots);
    }
    axes(&frame, court, units, (low, high));
    if let (Kind::Returns, Some(shares)) = (picture.kind, picture.depths(court.half_length())) {
        depths(&frame, court, shares);
    }
    legend(&frame, picture, pos2(area.left(), area.bottom() + FOOT_ROOM));
}

fn lines(frame: &Frame<'_>, court: &Court, (low, high): (f64, f64)) {
    let line = Stroke::new(1.2, *frame.theme.court.line);
    let casing = Stroke::new(2.4, *frame.theme.court.line_edge);
    let shown = court.lines();
    let shown = shown.iter().filter(|line| line.from.y.max(line.to.y) >= low && line.from.y.min(line.to.y) <= high);
    let ends: Vec<[Pos2; 2]> = shown
        .map(|line| {
            let held = |place: DVec2| frame.at(DVec2::new(place.x, place.y.clamp(low, high)));
            [held(line.from), held(line.to)]
        })
        .collect();
    for stroke in [casing, line] {
        for pair in &ends {
            frame.painter.line_segment(*pair, stroke);
        }
    }
    let post = court.half_width() + 0.9;
    let net = [frame.at(DVec2::new(-post, 0.0)), frame.at(DVec2::new(post, 0.0))];
    frame.painter.line_segment(net, Stroke::new(2.6, *frame.theme.court.net));
}

/// The map of landings: a cell is the darker the more balls it has, and says its share where that is at least one in 100.
fn cells(frame: &Frame<'_>, picture: &Picture, court: &Court) {
    let all: u64 = picture.cells.iter().flatten().sum();
    let most = picture.cells.iter().flatten().copied().max().unwrap_or(0).max(1);
    let size = DVec2::new(2.0 * court.half_width() / CELLS.0 as f64, court.half_length() / CELLS.1 as f64);
    for (row, counts) in picture.cells.iter().enumerate() {
        for (column, count) in counts.iter().enumerate() {
            let from = DVec2::new(-court.half_width() + size.x * column as f64, size.y * row as f64);
            let cell = Rect::from_two_pos(frame.at(from), frame.at(from + size));
            let share = *count as f32 / most as f32;
            frame.painter.rect_filled(cell, 0.0, frame.ink().gamma_multiply(0.62 * share));
            let hundred = 100.0 * *count as f64 / all.max(1) as f64;
            if hundred >= 1.0 {
                let said = format!("{hundred:.0}");
                let ink = if share > 0.62 { *frame.theme.court.halo } else { frame.ink() };
                frame.painter.text(cell.center(), Align2::CENTER_CENTER, said, frame.small(), ink);
            }
        }
    }
}

fn paint_dots(frame: &Frame<'_>, dots: &Dots) {
    if dots.kept.len() <= WITH_LINES {
        for dot in &dots.kept {
            if let Some(to) = dot.to {
                let line = [frame.at(dot.place), frame.at(to)];
                frame.painter.line_segment(line, Stroke::new(0.8, frame.ink().gamma_multiply(0.55)));
                frame.painter.circle_stroke(frame.at(to), 2.0, Stroke::new(0.9, frame.ink().gamma_multiply(0.8)));
            }
        }
    }
    let size = if dots.kept.len() > 250 { 2.2 } else { 3.0 };
    for dot in &dots.kept {
        sign(frame, dots.class, frame.at(dot.place), size);
    }
}

/// The form of a class: told apart without any colour.
fn sign(frame: &Frame<'_>, class: Class, at: Pos2, size: f32) {
    let (painter, ink) = (frame.painter, frame.ink());
    let edge = Stroke::new(0.8, *frame.theme.court.halo);
    let light = *frame.theme.court.hitter;
    match class {
        Class::FirstServe | Class::Forehand | Class::Won | Class::Stood => {
            painter.circle(at, size, ink, edge);
        }
        Class::SecondServe | Class::Backhand => {
            painter.circle(at, size, light, Stroke::new(1.3, ink));
        }
        Class::Net => {
            let half = size * 1.1;
            for d in [vec2(half, half), vec2(half, -half)] {
                painter.line_segment([at - d, at + d], Stroke::new(2.6, *frame.theme.court.halo));
                painter.line_segment([at - d, at + d], Stroke::new(1.4, ink));
            }
        }
        Class::Long => {
            painter.rect(
                Rect::from_center_size(at, vec2(2.0 * size, 2.0 * size)),
                0.0,
                light,
                Stroke::new(1.3, ink),
                egui::StrokeKind::Middle,
            );
        }
        Class::Wide => {
            let up = size * 1.3;
            let corners = vec![at - vec2(0.0, up), at + vec2(up, up * 0.8), at + vec2(-up, up * 0.8)];
            painter.add(Shape::convex_polygon(corners, light, Stroke::new(1.3, ink)));
        }
    }
}

/// Numbers at the left and below, from the middle of the net, and the unit.
fn axes(frame: &Frame<'_>, court: &Court, units: Units, (low, high): (f64, f64)) {
    let (unit, per, step) = match units {
        Units::Metres => ("m", 1.0, 2.0),
        Units::Feet => ("ft", FOOT, 10.0),
    };
    let (painter, font, ink) = (frame.painter, frame.small(), *frame.theme.ui.soft);
    let ticks = |from: f64, to: f64| {
        let first = (from / (step * per)).ceil() as i32;
        let last = (to / (step * per)).floor() as i32;
        (first..=last).map(move |i| f64::from(i) * step)
    };
    let wide = court.half_width() + BESIDE;
    // Wide apart across, so that numbers do not touch.
    for value in ticks(-wide, wide).filter(|value| value.abs() <= court.half_width() / per + 0.5) {
        let x = frame.at(DVec2::new(value * per, low)).x;
        painter.line_segment([pos2(x, frame.area.bottom()), pos2(x, frame.area.bottom() + 3.0)], Stroke::new(1.0, ink));
        let said = format!("{value:.0}").replace('-', "−");
        painter.text(pos2(x, frame.area.bottom() + 4.0), Align2::CENTER_TOP, said, font.clone(), ink);
    }
    for value in ticks(low, high) {
        let y = frame.at(DVec2::new(0.0, value * per)).y;
        painter.line_segment([pos2(frame.area.left() - 3.0, y), pos2(frame.area.left(), y)], Stroke::new(1.0, ink));
        let said = format!("{:.0}", value.abs());
        painter.text(pos2(frame.area.left() - 5.0, y), Align2::RIGHT_CENTER, said, font.clone(), ink);
    }
    painter.text(frame.area.right_bottom() + vec2(4.0, 4.0), Align2::LEFT_TOP, unit, font, ink);
}

/// Shares of returns by thirds of the half, at the right edge.
fn depths(frame: &Frame<'_>, court: &Court, shares: [f64; 3]) {
    for (i, share) in shares.iter().enumerate() {
        let y = court.half_length() * (i as f64 + 0.5) / 3.0;
        let at = pos2(frame.area.right() + 2.0, frame.at(DVec2::new(0.0, y)).y);
        let said = tr!("{} %", format!("{:.0}", 100.0 * share));
        frame.painter.text(at, Align2::LEFT_CENTER, said, frame.small(), *frame.theme.ui.soft);
        if i > 0 {
            let y = court.half_length() * i as f64 / 3.0;
            let across = [DVec2::new(-court.half_width(), y), DVec2::new(court.half_width(), y)];
            let line = across.map(|place| frame.at(place));
            let dashes = Shape::dashed_line(&line, Stroke::new(0.9, frame.ink().gamma_multiply(0.6)), 4.0, 3.0);
            frame.painter.extend(dashes);
        }
    }
}

fn legend(frame: &Frame<'_>, picture: &Picture, from: Pos2) {
    let (font, ink) = (frame.small(), *frame.theme.ui.soft);
    if picture.dots.is_empty() {
        let said = tr!("In 100 landings in the court; {} shots, {} out", picture.shots(), picture.out);
        frame.painter.text(from, Align2::LEFT_TOP, said, font, ink);
        return;
    }
    let mut x = from.x + 4.0;
    for dots in &picture.dots {
        sign(frame, dots.class, pos2(x, from.y + 7.0), 3.2);
        let said = format!("{} {}", dots.count, dots.class.label());
        let galley = frame.painter.layout_no_wrap(said, font.clone(), ink);
        let wide = galley.size().x;
        frame.painter.galley(pos2(x + 7.0, from.y), galley, ink);
        x += wide + 20.0;
    }
    if picture.kind == Kind::Positions {
        let said = text("ring: should have");
        frame.painter.text(pos2(x, from.y), Align2::LEFT_TOP, said, font, ink);
    }
}
