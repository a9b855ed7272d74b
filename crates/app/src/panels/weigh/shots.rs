//! The list of shots: which are shown beside each other, and what each wins.

use egui::{Button, Checkbox, Label, RichText, Ui, vec2};

use super::{View, bits, detail};
use crate::{
    commands::{Action, Command, Outbox},
    panels::row,
    theme::style,
    weigh::{desk::Row, state::Change, words as said},
    words,
};

/// Width of the names.
const NAME: f32 = 116.0;

/// The section.
pub fn ui(ui: &mut Ui, view: View<'_>, out: &mut Outbox) {
    row::section(ui, view.theme, "Points won in 100", true, |ui| {
        let rows = view.weigh.desk().rows();
        if rows.is_empty() {
            super::working(ui, view.theme);
        }
        let best = rows.iter().filter_map(Row::win).fold(0.0, f64::max);
        for row in rows {
            ui.push_id(row.item, |ui| one(ui, row, best, view, out));
        }
        let spec = Command::AddTarget.spec();
        if ui.button("Add a target").on_hover_text(spec.hint).clicked() {
            out.push(Action::Run(Command::AddTarget));
        }
        row::note(ui, view.theme, "Tick a shot to see it on the court; its name tells more and lets you use it.");
    });
}

fn one(ui: &mut Ui, row: &Row, best: f64, view: View<'_>, out: &mut Outbox) {
    let label = said::label(row.item);
    let rank = view.weigh.beside().iter().position(|shown| shown.item == row.item);
    let unfolded = view.weigh.weighing().unfolded == Some(row.item);
    ui.horizontal(|ui| {
        ui.set_min_height(bits::LINE);
        let mut shown = rank.is_some();
        let tick = ui.add(Checkbox::without_text(&mut shown));
        tick.widget_info(|| {
            egui::WidgetInfo::selected(egui::Role::CheckBox, true, shown, format!("Show {}", said::name(row.item)))
        });
        if tick.changed() {
            out.push(Action::Weigh(Change::Show(row.item, shown)));
        }
        bits::badge(ui, rank, view.theme);
        let name = Button::selectable(unfolded, label.as_str()).truncate().min_size(vec2(NAME, bits::LINE));
        let name = ui.add_sized([NAME, bits::LINE], name).on_hover_text("Its own quality, and using it");
        if name.clicked() {
            out.push(Action::Weigh(Change::Unfold(row.item)));
        }
        figure(ui, row, best, &label, view);
    });
    if unfolded && let Some(weighed) = row.weighed() {
        detail::ui(ui, row.item, weighed, view, out);
    }
}

/// What the shot wins, or why it cannot be played.
fn figure(ui: &mut Ui, row: &Row, best: f64, label: &str, view: View<'_>) {
    let width = ui.available_width();
    match row.weighed().map(|weighed| (weighed.win(), &weighed.result)) {
        Some((Some(win), _)) => {
            let strong = words::points(win) == words::points(best);
            bits::bar(ui, width, win, &words::points(win), label, strong, view.theme);
        }
        Some((_, Err(refusal))) => {
            let (what, remedy) = words::refusal(refusal, view.session.units());
            let text = RichText::new(&what).small().color(*view.theme.ui.warn);
            ui.add(Label::new(text).truncate()).on_hover_text(format!("{}\n{remedy}", said::capital(&what)));
        }
        _ => {
            ui.label(RichText::new(row::NOTHING).text_style(style::emphasis()));
        }
    }
}
