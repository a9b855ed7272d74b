//! The panel that compares shots.

pub mod aim;
pub mod beside;
pub mod bits;
pub mod detail;
pub mod net;
pub mod plan;
pub mod shots;
pub mod turn;

use egui::{ScrollArea, Ui};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, focus::Following as _},
    widgets::{row, tabs},
};
use standpoint_workbench::{
    compare::{
        Comparison,
        state::{Change, Page},
        words as said,
    },
    headline::{Tone, basis},
    session::Session,
    settings::Layers,
};

use super::headline;

/// Input of the parts of the panel.
#[derive(Clone, Copy)]
pub struct CompareView<'a> {
    /// The board.
    pub session: &'a Session,
    /// The weighing.
    pub comparison: &'a Comparison,
    /// What is shown on the court.
    pub layers: &'a Layers,
    /// How it looks.
    pub theme: &'a Theme,
}

/// The panel; `wide` has room for two columns.
pub fn ui(ui: &mut Ui, wide: bool, view: CompareView<'_>, out: &mut Outbox) {
    let theme = view.theme;
    let pages = Page::ALL.map(|page| (page, page.label(), page.hint()));
    if let Some(page) = row::inset(ui, theme, |ui| tabs::row(ui, theme, view.comparison.state().page, &pages)) {
        out.push(Action::Compare(Change::Page(page)));
    }
    ui.add_space(theme.m.space.small);
    ScrollArea::vertical().id_salt(view.comparison.state().page).auto_shrink(false).show_following(ui, |ui| {
        row::inset(ui, theme, |ui| match view.comparison.state().page {
            Page::Shots if wide => two_columns(ui, view, out),
            Page::Shots => {
                shots::ui(ui, view, out);
                plan::ui(ui, view, out);
                beside::ui(ui, view, out);
            }
            Page::Aim => aim::ui(ui, view, out),
            Page::Turn => turn::ui(ui, view, out),
            Page::Net => net::ui(ui, view, out),
        });
    });
}

fn two_columns(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    ui.spacing_mut().item_spacing.x = view.theme.m.space.section;
    ui.columns_const(|[left, right]| {
        for column in [&mut *left, &mut *right] {
            column.spacing_mut().item_spacing.x = view.theme.m.space.item;
        }
        shots::ui(left, view, out);
        plan::ui(left, view, out);
        beside::ui(right, view, out);
    });
}

/// The headline while comparing: the result of the open part of the panel.
pub fn headline(ui: &mut Ui, session: &Session, comparison: &Comparison, solving: bool, theme: &Theme) {
    let (first, second) = sentence(session, comparison);
    headline::strip(ui, &first, &second, basis(session, solving), Tone::Answer, theme);
}

/// The result and its reasons.
#[must_use]
pub fn sentence(session: &Session, comparison: &Comparison) -> (String, String) {
    let units = session.units();
    let verdict = || said::verdict(&comparison.beside(), units);
    match comparison.state().page {
        Page::Shots => verdict(),
        Page::Aim => aim::sentence(session, comparison),
        Page::Turn => turn::sentence(session, comparison).unwrap_or_else(verdict),
        Page::Net => net::sentence(session, comparison),
    }
}

/// A quiet line while work is in progress.
fn working(ui: &mut Ui, theme: &Theme) {
    row::note(ui, theme, text("Working it out …"));
}
