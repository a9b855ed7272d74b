//! Distribution of errors, and their change over shots and sessions.

use egui::{Sense, Ui, accesskit::Role, vec2};
use egui_plot::{AxisHints, Bar, BarChart, Line, LineStyle, MarkerShape, Plot, PlotPoints, Points, VLine};
use standpoint_canvas::{announce, pictures as court_pictures};
use standpoint_charting::{
    pictures::{FEWEST, Picture},
    report::{Named, PlayerReport},
    stats::Histogram,
};
use standpoint_language::{text, tr, whole};
use standpoint_ui::{
    theme::Theme,
    widgets::{plot, row},
};
use standpoint_workbench::{
    chart::{Act, trend},
    words,
};

use super::ReportView;

const HEIGHT: f32 = 150.0;

/// The page.
pub fn ui(ui: &mut Ui, told: &ReportView<'_>, out: &mut Vec<Act>) {
    on_court(ui, told, out);
    let (factor, unit, _) = words::length_unit(told.view.units);
    let (theme, report) = (told.view.theme, told.report);
    let both = ui.available_width() > 560.0;
    ui.columns(if both { 2 } else { 1 }, |parts| {
        let last = parts.len() - 1;
        histogram(
            &mut parts[0],
            theme,
            &tr!("Left-right: left of the best place – right of it, {}", unit),
            &report.across,
            1.0 / factor,
        );
        histogram(
            &mut parts[last],
            theme,
            &tr!("Depth: too far forward – too deep, {}", unit),
            &report.along,
            1.0 / factor,
        );
    });
    histogram(ui, theme, text("Points given away, in 100"), &report.avoidable, 100.0);
    blocks(ui, theme, report, factor, unit);
    if report.days.len() > 1 {
        let title = tr!("The same by date; 1 is {}", report.days[0].name);
        named(ui, theme, &title, &report.days, factor);
    } else if report.sessions.len() > 1 {
        let title = tr!("The same by session; 1 is {}", report.sessions[0].name);
        named(ui, theme, &title, &report.sessions, factor);
    }
    for said in trend::sentences(report, told.view.units) {
        ui.label(said);
    }
}

/// Width of a picture on the court, at least, points.
const LEAST: f32 = 250.0;

/// The pictures on the court, as many beside each other as there is room for.
fn on_court(ui: &mut Ui, told: &ReportView<'_>, out: &mut Vec<Act>) {
    let (theme, Some(audited)) = (told.view.theme, told.view.audited) else { return };
    let court = told.view.setup.court.court();
    let (all, few): (Vec<&Picture>, Vec<&Picture>) =
        audited.pictures.player(told.player).iter().partition(|picture| picture.tells());
    let gap = theme.m.space.group;
    let columns = ((ui.available_width() / (LEAST + gap)) as usize).clamp(1, 3);
    let width = ((ui.available_width() - gap * (columns - 1) as f32) / columns as f32).min(420.0);
    for row in all.chunks(columns) {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = gap;
            for picture in row {
                ui.vertical(|ui| {
                    let size = vec2(width, court_pictures::height(picture.kind, &court, width));
                    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
                    let painter = ui.painter_at(rect);
                    court_pictures::paint(&painter, rect, picture, &court, told.view.units, theme);
                    announce::describe(ui, &response, Role::Image, picture.kind.title(), &picture.said());
                    if ui.button(text("Save…")).on_hover_text(text("As PNG or SVG")).clicked() {
                        out.push(Act::Picture(Some(picture.kind)));
                    }
                });
            }
        });
        ui.add_space(theme.m.space.item);
    }
    if all.len() > 1 && ui.button(text("Save all pictures…")).clicked() {
        out.push(Act::Picture(None));
    }
    if !few.is_empty() {
        let names: Vec<&str> = few.iter().map(|picture| picture.kind.title()).collect();
        row::note(ui, theme, &tr!("Fewer than {} shots: {}.", FEWEST, names.join(", ")));
    }
    ui.add_space(theme.m.space.group);
}

fn still(id: &str) -> Plot<'static> {
    plot::still(id, HEIGHT).show_x(false).show_y(false).set_margin_fraction(vec2(0.02, 0.06))
}

fn histogram(ui: &mut Ui, theme: &Theme, title: &str, of: &Histogram, factor: f64) {
    row::note(ui, theme, title);
    let all: u64 = of.counts.iter().sum::<u64>() + of.below + of.beyond;
    let (first, last) = (of.counts.iter().position(|c| *c > 0), of.counts.iter().rposition(|c| *c > 0));
    let (first, last) = (first.unwrap_or(0), last.unwrap_or(of.counts.len().saturating_sub(1)));
    let left = |i: usize| (of.low + of.step * i as f64) * factor;
    let bar = |i: usize| {
        Bar::new(left(i) + 0.5 * of.step * factor, of.counts[i] as f64)
            .width(of.step * factor * 0.92)
            .fill(*theme.ui.accent)
            .stroke(egui::Stroke::NONE)
    };
    let bars: Vec<Bar> = (first..=last).map(bar).collect();
    let response = still(title).include_y(0.0).include_x(0.0).show(ui, |plot| {
        plot.vline(VLine::new("none", 0.0).color(*theme.ui.ink).width(1.4));
        plot.bar_chart(BarChart::new(text("shots"), bars));
    });
    let most = (first..=last).max_by_key(|i| of.counts[*i]).unwrap_or(first);
    let value = tr!(
        "{}; most from {} to {}",
        words::shots(all as usize),
        words::decimal(left(most), 2),
        words::decimal(left(most + 1), 2)
    );
    plot::say(ui, response.response.id, title, &value);
    let beyond = (of.below + of.beyond) as usize;
    if beyond > 0 {
        let said =
            tr!("One shot lies beyond the picture." | "{0} shots lie beyond the picture." % beyond, whole(beyond));
        row::note(ui, theme, &said);
    }
}

/// The two lines of a trend: across solid with discs, along dashed with squares.
fn two_lines(ui: &mut Ui, theme: &Theme, id: &str, across: Vec<[f64; 2]>, along: Vec<[f64; 2]>) {
    let value = tr!("{n} value each" | "{n} values each" % across.len());
    let lines = [
        (text("left-right"), across, *theme.ui.accent, LineStyle::Solid, MarkerShape::Circle),
        (text("depth"), along, *theme.ui.ink, LineStyle::Dashed { length: 8.0 }, MarkerShape::Square),
    ];
    let plot =
        still(id).include_y(0.0).custom_x_axes(vec![plot::legible(AxisHints::new_x(), 34.0).formatter(|mark, _| {
            if (mark.value - mark.value.round()).abs() < 1e-6 { format!("{:.0}", mark.value) } else { String::new() }
        })]);
    let response = plot.show(ui, |plot| {
        for (name, points, color, style, shape) in lines {
            plot.line(Line::new(name, PlotPoints::from(points.clone())).color(color).width(2.0).style(style));
            plot.points(Points::new(name, points).color(color).radius(4.0).shape(shape));
        }
    });
    plot::say(ui, response.response.id, id, &value);
}

fn blocks(ui: &mut Ui, theme: &Theme, report: &PlayerReport, factor: f64, unit: &str) {
    if report.blocks.len() < 2 {
        return;
    }
    let title =
        tr!("Mean error, {}, by judged shots in a row: left-right solid with discs, depth dashed with squares", unit);
    row::note(ui, theme, &title);
    let points = |of: fn(&standpoint_charting::report::BlockReport) -> Option<f64>| {
        let at = |block: &standpoint_charting::report::BlockReport| {
            Some([block.first as f64 + 0.5 * (block.shots as f64 - 1.0), of(block)? / factor])
        };
        report.blocks.iter().filter_map(at).collect()
    };
    two_lines(ui, theme, &title, points(|block| block.across), points(|block| block.along));
}

/// Mean errors of days or sessions, one after the other.
fn named(ui: &mut Ui, theme: &Theme, title: &str, groups: &[Named], factor: f64) {
    row::note(ui, theme, title);
    let points = |along: bool| {
        let of = |(i, named): (usize, &Named)| {
            let figure = if along { named.group.along } else { named.group.across };
            Some([(i + 1) as f64, figure.mean? / factor])
        };
        groups.iter().enumerate().filter_map(of).collect()
    };
    two_lines(ui, theme, title, points(false), points(true));
}
