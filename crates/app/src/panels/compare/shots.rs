//! The list of shots: which are compared side by side, and what each wins.

use egui::{Align, Align2, Button, Checkbox, FontId, Label, Layout, Rect, RichText, Sense, Ui, pos2, vec2};
use standpoint_language::{mark, text, tr};
use standpoint_ui::{
    commands::{Action, Command, CompareCommand, Outbox},
    theme::{Theme, style},
    widgets::row,
};
use standpoint_workbench::{
    compare::{scheduler::Row, state::Change, words as said},
    words,
};

use super::{CompareView, bits, detail};

/// Width of the names.
const NAME: f32 = 138.0;

/// The section.
pub fn ui(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    row::section(ui, view.theme, mark("Points won in 100"), true, |ui| {
        let rows = view.comparison.scheduler().rows();
        if rows.is_empty() {
            super::working(ui, view.theme);
        }
        scale(ui, rows, view.theme);
        let best = rows.iter().filter_map(Row::win).fold(0.0, f64::max);
        for row in rows {
            ui.push_id(row.item, |ui| one(ui, row, best, view, out));
        }
        let spec = Command::Compare(CompareCommand::AddTarget).spec();
        if ui.button(text("Add a target")).on_hover_text(spec.hint()).clicked() {
            out.push(Action::Run(Command::Compare(CompareCommand::AddTarget)));
        }
        row::note(ui, view.theme, text("Tick a shot to see it on the court; its name tells more and lets you use it."));
    });
}

/// The ends of the scale that all dots stand on.
fn scale(ui: &mut Ui, rows: &[Row], theme: &Theme) {
    let (low, high) = bits::range(rows.iter().filter_map(Row::win));
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 14.0), Sense::hover());
    let (from, to) = bits::dot_ends(Rect::from_min_max(pos2(rect.right() - bits::DOT, rect.top()), rect.max));
    let font = FontId::new(theme.m.text.small, egui::FontFamily::Proportional);
    for (x, end) in [(from, low), (to, high)] {
        let (anchor, ink) = (Align2::CENTER_CENTER, *theme.ui.soft);
        ui.painter().text(pos2(x, rect.center().y), anchor, words::points(end), font.clone(), ink);
    }
}

fn one(ui: &mut Ui, row: &Row, best: f64, view: CompareView<'_>, out: &mut Outbox) {
    let label = said::label(row.item);
    let rank = view.comparison.beside().iter().position(|shown| shown.item == row.item);
    let unfolded = view.comparison.state().unfolded == Some(row.item);
    ui.horizontal(|ui| {
        ui.set_min_height(bits::LINE);
        let mut shown = rank.is_some();
        let tick = ui.add(Checkbox::without_text(&mut shown));
        tick.widget_info(|| {
            egui::WidgetInfo::selected(egui::Role::CheckBox, true, shown, tr!("Show {}", said::name(row.item)))
        });
        if tick.changed() {
            out.push(Action::Compare(Change::Show(row.item, shown)));
        }
        bits::badge(ui, rank, view.theme);
        let name = Button::selectable(unfolded, label.as_str())
            .truncate()
            .right_text("")
            .min_size(vec2(NAME, bits::LINE - 2.0));
        let name = ui.add_sized([NAME, bits::LINE - 2.0], name).on_hover_text(text("Its own quality, and using it"));
        name.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, unfolded, label.as_str()));
        if name.clicked() {
            out.push(Action::Compare(Change::Unfold(row.item)));
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| figure(ui, row, best, &label, view));
    });
    if unfolded && let Some(weighed) = row.weighed() {
        detail::ui(ui, row.item, weighed, view, out);
    }
}

/// What the shot wins, or why it cannot be played.
fn figure(ui: &mut Ui, row: &Row, best: f64, label: &str, view: CompareView<'_>) {
    match row.weighed().map(|weighed| (weighed.win(), &weighed.result)) {
        Some((Some(win), _)) => {
            let strong = words::points(win) == words::points(best);
            let range = bits::range(view.comparison.scheduler().rows().iter().filter_map(Row::win));
            bits::dot(ui, bits::DOT, bits::Dot { win, range, strong }, label, view.theme);
        }
        Some((_, Err(refusal))) => {
            let (what, remedy) = words::refusal(refusal, view.session.units());
            let why = RichText::new(&what).small().color(*view.theme.ui.warn);
            ui.add(Label::new(why).truncate()).on_hover_text(format!("{}\n{remedy}", said::capital(&what)));
        }
        _ => {
            ui.label(RichText::new(row::NOTHING).text_style(style::emphasis()));
        }
    }
}
