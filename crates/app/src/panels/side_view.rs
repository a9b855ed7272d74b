//! The flight seen from the side: height over the ground along the way.

use egui::{Color32, Ui};
use egui_plot::{Line, LineStyle, MarkerShape, Plot, PlotPoint, PlotPoints, Points, Text};
use standpoint_geometry::{Outcome, ShotFlight};
use standpoint_language::{mark, text, tr};
use standpoint_ui::theme::Theme;
use standpoint_workbench::{session::Session, words};

/// Height of the picture.
const HEIGHT: f32 = 150.0;
/// The figures under it.
const LINES: [&str; 3] = [mark("Clears the net by"), mark("Highest point"), mark("To the bounce")];

/// The section.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme) {
    let Some(answer) = session.answer() else {
        ui.add_space(HEIGHT);
        for label in LINES {
            standpoint_ui::widgets::row::figure(ui, theme, text(label), standpoint_ui::widgets::row::NOTHING);
        }
        return;
    };
    let shot = &answer.shot;
    let until = match &answer.outcome {
        Outcome::Play(play) => play.receipt.time,
        Outcome::NoReply(receipt) => receipt.time,
        Outcome::Winner { .. } => f64::INFINITY,
    };
    let units = session.units();
    let unit = if units == standpoint_board::Units::Metres { 1.0 } else { standpoint_geometry::units::FOOT };
    let along = Along::new(shot, unit);
    let response = plot(ui, theme, &along).show(ui, |plot| {
        let ink = *theme.ui.ink;
        plot.line(
            Line::new("ground", PlotPoints::from(vec![[0.0, 0.0], [along.end, 0.0]]))
                .color(*theme.ui.outline)
                .width(1.5),
        );
        let net = along.of(shot.net.x, 0.0);
        let net_line = vec![[net, 0.0], [net, shot.net.net_height / unit]];
        plot.line(Line::new("net", PlotPoints::from(net_line)).color(ink).width(4.0));
        for (name, points, style) in along.flight(shot, until) {
            plot.line(Line::new(name, PlotPoints::from(points)).color(*theme.ui.accent).width(2.4).style(style));
        }
        let bounce = [along.of(shot.landing.place.x, shot.landing.place.y), 0.0];
        plot.points(Points::new("bounce", vec![bounce]).shape(MarkerShape::Cross).radius(5.0).color(ink));
        labels(plot, session, &along, ink);
    });
    let over = words::fine_length(shot.net.clearance, units);
    let apex = words::length(shot.apex, units);
    let said = tr!("{0} over the net, {1} at the highest", over, apex);
    standpoint_ui::widgets::plot::say(ui, response.response.id, text("Flight from the side"), &said);
    for (label, value) in LINES.into_iter().zip([over, apex, words::seconds(shot.landing.time)]) {
        standpoint_ui::widgets::row::figure_of(
            ui,
            theme,
            standpoint_workbench::explain::ExplainStep::Flight,
            text(label),
            &value,
        );
    }
}

fn labels(plot: &mut egui_plot::PlotUi<'_>, session: &Session, along: &Along, ink: Color32) {
    let Some(answer) = session.answer() else { return };
    let net = &answer.shot.net;
    let said = words::fine_length(net.clearance, session.units());
    let at = PlotPoint::new(along.of(net.x, 0.0), (net.height + 0.25) / along.unit);
    plot.text(Text::new("clearance", at, egui::RichText::new(said).color(ink)).anchor(egui::Align2::CENTER_BOTTOM));
}

fn plot(ui: &Ui, theme: &Theme, along: &Along) -> Plot<'static> {
    let _ = ui;
    standpoint_ui::widgets::plot::still("side view", HEIGHT)
        .show_x(false)
        .show_y(false)
        .show_grid([false, true])
        .set_margin_fraction([0.02, 0.04].into())
        .include_x(0.0)
        .include_x(along.end)
        .include_y(0.0)
        .include_y(along.top)
        .y_axis_label(if along.unit < 1.0 { "ft" } else { "m" })
        .cursor_color(*theme.ui.line)
}

/// Distances along the shot's direction.
struct Along {
    from: glam::DVec2,
    direction: glam::DVec2,
    unit: f64,
    end: f64,
    top: f64,
}

impl Along {
    fn new(shot: &ShotFlight, unit: f64) -> Self {
        let from = shot.path.first().map_or(glam::DVec2::ZERO, |p| p.point.truncate());
        let direction = (shot.landing.place - from).normalize_or(glam::DVec2::Y);
        // The ends move in steps, so that the picture stays still during a drag.
        let end = (shot.path.last().map_or(24.0, |p| p.point.truncate().distance(from)) / 4.0).ceil() * 4.0;
        let top = (shot.apex + 0.6).max(2.5).ceil();
        Self { from, direction, unit, end: end / unit, top: top / unit }
    }

    fn of(&self, x: f64, y: f64) -> f64 {
        (glam::DVec2::new(x, y) - self.from).dot(self.direction) / self.unit
    }

    /// The way to the bounce, and from there to the contact.
    fn flight(&self, shot: &ShotFlight, until: f64) -> [(&'static str, Vec<[f64; 2]>, LineStyle); 2] {
        let bounce = shot.landing.time;
        let part = |from: f64, to: f64| {
            let inside = shot.path.iter().filter(|p| p.time >= from && p.time <= to);
            inside.map(|p| [self.of(p.point.x, p.point.y), p.point.z / self.unit]).collect::<Vec<_>>()
        };
        let landing = [self.of(shot.landing.place.x, shot.landing.place.y), 0.0];
        let mut first = part(0.0, bounce.min(until));
        let mut second = part(bounce, until);
        if until >= bounce {
            first.push(landing);
            second.insert(0, landing);
        }
        [("flight", first, LineStyle::Solid), ("after the bounce", second, LineStyle::dashed_dense())]
    }
}
