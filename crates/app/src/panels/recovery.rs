//! The recovery run: time needed against time available.

use egui::{Align2, CornerRadius, FontId, Rect, Sense, Stroke, StrokeKind, Ui, accesskit::Role, pos2, vec2};
use standpoint_geometry::{Play, Recovery};
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::{Theme, fonts},
    widgets::row,
};
use standpoint_workbench::{
    explain::ExplainStep,
    session::Session,
    words::{self, SHORT},
};

/// Height of the two bars.
const BARS: f32 = 52.0;

/// The section: the same lines whatever the answer.
pub fn ui(ui: &mut Ui, play: Option<&Play>, session: &Session, theme: &Theme) {
    let units = session.units();
    let Some(run) = play.map(|play| &play.recovery) else {
        ui.add_space(BARS);
        for label in [text("Distance"), text("In time"), text("Which costs")] {
            row::figure(ui, theme, label, row::NOTHING);
        }
        return;
    };
    bar(ui, run, theme);
    row::figure_of(ui, theme, ExplainStep::Recovery, text("Distance"), &words::length(run.distance, units));
    if run.short_by > SHORT {
        row::figure_of(
            ui,
            theme,
            ExplainStep::Recovery,
            text("Does not get there by"),
            &words::length(run.short_by, units),
        );
        row::figure_of(
            ui,
            theme,
            ExplainStep::Recovery,
            text("Which costs"),
            &tr!("{} points", words::more_points(run.extra_exposure)),
        );
    } else {
        row::figure_of(
            ui,
            theme,
            ExplainStep::Recovery,
            text("In time, to spare"),
            &words::seconds(run.available - run.needed),
        );
        row::figure_of(ui, theme, ExplainStep::Recovery, text("Which costs"), text("nothing"));
    }
}

/// Two bars on one scale: what the run needs, and the time there is.
fn bar(ui: &mut Ui, run: &Recovery, theme: &Theme) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), BARS), Sense::hover());
    let said = tr!("{0} needed of {1} available", words::seconds(run.needed), words::seconds(run.available));
    response.widget_info(|| egui::WidgetInfo::labeled(Role::Meter, true, text("Recovery")));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(said.as_str());
    });
    // A scale in whole seconds, so that the bars do not jump during a drag.
    let scale = run.needed.max(run.available).max(2.0).ceil();
    for (i, (what, value)) in [(text("needs"), run.needed), (text("has"), run.available)].into_iter().enumerate() {
        let y = rect.top() + 26.0 * i as f32;
        one(
            ui,
            Rect::from_min_size(pos2(rect.left(), y), vec2(rect.width(), 22.0)),
            theme,
            what,
            value,
            value / scale,
            i == 0,
        );
    }
}

fn one(ui: &Ui, rect: Rect, theme: &Theme, what: &str, seconds: f64, share: f64, filled: bool) {
    let c = &theme.ui;
    let painter = ui.painter();
    let font = FontId::new(theme.m.text.small, egui::FontFamily::Proportional);
    painter.text(rect.left_center(), Align2::LEFT_CENTER, what, font, *c.soft);
    let strong = FontId::new(theme.m.text.body, fonts::strong());
    painter.text(rect.right_center(), Align2::RIGHT_CENTER, words::seconds(seconds), strong, *c.ink);
    let track =
        Rect::from_min_max(pos2(rect.left() + 54.0, rect.top() + 4.0), pos2(rect.right() - 62.0, rect.bottom() - 4.0));
    let radius = CornerRadius::same(3);
    painter.rect_filled(track, radius, *c.sunken);
    let mut bar = track;
    bar.set_width(track.width() * share.clamp(0.0, 1.0) as f32);
    if filled {
        painter.rect_filled(bar, radius, *c.accent);
    } else {
        painter.rect_stroke(bar, radius, Stroke::new(2.0, *c.ink), StrokeKind::Inside);
    }
}
