//! When to change direction: two shots while one cause varies.

use egui::{Align2, Color32, Label, RichText, Ui, pos2, vec2};
use egui_plot::{AxisHints, Line, LineStyle, Plot, PlotPoint, PlotPoints, PlotUi, Text, VLine};
use standpoint_board::Units;
use standpoint_canvas::brush::Dash;
use standpoint_geometry::{Cause, Choice, Sweep};
use standpoint_language::{mark, text, tr};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
    widgets::{plot as plots, row},
};
use standpoint_workbench::{
    compare::{Comparison, state::Change, task::Kind},
    compare_words,
    session::Session,
    words,
};

use super::{CompareView, bits};

/// Height of the picture.
const HEIGHT: f32 = 230.0;

/// The sweep that answers the question as it is chosen now, with its two shots.
fn fresh(comparison: &Comparison) -> Option<(&Sweep, [Choice; 2])> {
    let (swept, pair) = comparison.scheduler().swept()?;
    swept.as_ref().ok().map(|sweep| (&**sweep, pair))
}

/// Result of the sweep, for the headline.
#[must_use]
pub fn sentence(session: &Session, comparison: &Comparison) -> Option<(String, String)> {
    let (sweep, pair) = fresh(comparison)?;
    let mut said = compare_words::crossings(sweep, pair, &session.court(), session.units());
    let first = if said.is_empty() { String::new() } else { said.remove(0) };
    Some((first.trim_end_matches('.').to_owned(), said.join(" ")))
}

/// The part of the panel.
pub fn ui(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    row::section(ui, view.theme, mark("When to change direction"), true, |ui| {
        choices(ui, view, out);
        ui.add_space(view.theme.m.space.small);
        match view.comparison.scheduler().swept() {
            Some((Ok(sweep), pair)) => picture(ui, sweep, pair, view),
            Some((Err(refusal), _)) => {
                let (what, remedy) = words::refusal(refusal, view.session.units());
                row::note(ui, view.theme, &tr!("It cannot be worked out: {0}. {1}.", what, remedy));
            }
            None => super::working(ui, view.theme),
        }
    });
}

fn choices(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    let state = view.comparison.state();
    let theme = view.theme;
    let cause = |c: Cause| compare_words::cause(c).to_owned();
    if let Some(cause) = bits::pick(ui, theme, mark("Vary"), state.cause, &Cause::ALL, cause) {
        out.push(Action::Compare(Change::Cause(cause)));
    }
    let Some(situation) = view.session.situation() else { return };
    let Some(pair) = state.pair(situation) else { return };
    let there: Vec<Choice> = Choice::ALL.into_iter().filter(|choice| choice.shot(situation).is_some()).collect();
    let name = |c: Choice| compare_words::choice_label(c).to_owned();
    for (which, label) in [mark("First"), mark("Second")].into_iter().enumerate() {
        if let Some(choice) = bits::pick(ui, theme, label, pair[which], &there, name) {
            out.push(Action::Compare(Change::Pair(which, choice)));
        }
    }
}

fn picture(ui: &mut Ui, sweep: &Sweep, pair: [Choice; 2], view: CompareView<'_>) {
    let (session, theme) = (view.session, view.theme);
    legend(ui, pair, theme);
    row::note(ui, theme, text("Points won in 100"));
    let (unit, unit_name) = compare_words::cause_unit(sweep.cause, session.units());
    let said = compare_words::crossings(sweep, pair, &session.court(), session.units());
    let now = session.situation().map(|situation| sweep.cause.value(situation) / unit);
    let response = plot(sweep, unit).show(ui, |plot| {
        for which in 0..2 {
            curve(plot, sweep, pair, which, unit, theme);
        }
        marks(plot, sweep, unit, now, session.units(), theme);
    });
    ui.with_layout(egui::Layout::right_to_left(egui::Align::Min), |ui| {
        let axis = format!("{}, {unit_name}", compare_words::cause(sweep.cause));
        ui.label(RichText::new(axis).small().color(*theme.ui.soft));
    });
    let value = said.join(" ");
    plots::say(ui, response.response.id, text("Both shots while the cause varies"), &value);
    for sentence in said {
        ui.add(Label::new(RichText::new(sentence)).wrap());
    }
    let busy =
        view.comparison.scheduler().is_busy(Kind::Sweep) || !view.comparison.scheduler().is_answered(Kind::Sweep);
    row::note(
        ui,
        theme,
        if busy { text("Being worked out anew …") } else { text("The dotted line is where things stand now.") },
    );
}

/// How each of the two curves is drawn.
fn manner(which: usize, theme: &Theme) -> (Color32, LineStyle, Dash, f32) {
    match which {
        0 => (*theme.ui.accent, LineStyle::Solid, Dash::Solid, 2.6),
        _ => (*theme.ui.ink, LineStyle::Dashed { length: 9.0 }, Dash::Pattern((9.0, 6.0, 9.0, 6.0)), 2.2),
    }
}

fn legend(ui: &mut Ui, pair: [Choice; 2], theme: &Theme) {
    ui.horizontal(|ui| {
        for (which, choice) in pair.into_iter().enumerate() {
            let (color, _, dash, width) = manner(which, theme);
            let (rect, _) = ui.allocate_exact_size(vec2(34.0, 20.0), egui::Sense::hover());
            let ends = [pos2(rect.left(), rect.center().y), pos2(rect.right(), rect.center().y)];
            bits::line_sample(ui, ends, dash, width, color);
            ui.label(compare_words::choice_label(choice));
            ui.add_space(theme.m.space.item);
        }
    });
}

fn plot(sweep: &Sweep, unit: f64) -> Plot<'static> {
    let (low, high) = extent(sweep);
    let ends = sweep.points.first().zip(sweep.points.last());
    let (from, to) = ends.map_or((0.0, 1.0), |(a, b)| (a.value / unit, b.value / unit));
    plots::still("sweep", HEIGHT)
        .show_x(false)
        .show_y(false)
        .custom_x_axes(vec![plots::legible(AxisHints::new_x(), 26.0).formatter(|mark, _| plots::number(mark))])
        .include_x(from)
        .include_x(to)
        .include_y(low)
        .include_y(high)
        .set_margin_fraction(vec2(0.02, 0.04))
}

/// Least and greatest chance in the picture, in whole tens so that it stays still.
fn extent(sweep: &Sweep) -> (f64, f64) {
    let all = || sweep.points.iter().flat_map(|p| p.win).flatten().map(|win| win * 100.0);
    let (low, high) = (all().fold(100.0, f64::min), all().fold(0.0, f64::max));
    if low > high { (0.0, 100.0) } else { ((low / 10.0).floor() * 10.0, (high / 10.0).ceil() * 10.0) }
}

/// One curve, in pieces where the shot cannot be played in between.
fn curve(plot: &mut PlotUi<'_>, sweep: &Sweep, pair: [Choice; 2], which: usize, unit: f64, theme: &Theme) {
    let (color, style, _, width) = manner(which, theme);
    for piece in sweep.points.split(|p| p.win[which].is_none()) {
        let points: Vec<[f64; 2]> =
            piece.iter().filter_map(|p| Some([p.value / unit, p.win[which]? * 100.0])).collect();
        let name = compare_words::choice_label(pair[which]);
        plot.line(Line::new(name, PlotPoints::from(points)).color(color).width(width).style(style));
    }
}

/// Where the curves cross, and the current value.
fn marks(plot: &mut PlotUi<'_>, sweep: &Sweep, unit: f64, now: Option<f64>, units: Units, theme: &Theme) {
    if let Some(now) = now {
        let style = LineStyle::Dotted { spacing: 6.0 };
        plot.vline(VLine::new("now", now).color(*theme.ui.soft).width(1.6).style(style));
    }
    let top = extent(sweep).1;
    for (value, _) in &sweep.crossings {
        plot.vline(VLine::new("crossing", value / unit).color(*theme.ui.ink).width(1.2));
        let (_, name) = compare_words::cause_unit(sweep.cause, units);
        let figures = usize::from(unit < 3.0 && (unit - 0.01).abs() > 1e-9 && name != "km/h" && name != "mph");
        let at = RichText::new(format!(" {} {name}", words::decimal(value / unit, figures))).color(*theme.ui.ink);
        plot.text(Text::new("crossing at", PlotPoint::new(value / unit, top), at).anchor(Align2::LEFT_TOP));
    }
}
