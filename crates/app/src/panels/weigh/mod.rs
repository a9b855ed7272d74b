//! The panel in which shots are weighed against each other.

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
    headline::{Tone, basis},
    session::Session,
    settings::Layers,
    weigh::{
        Weigh,
        state::{Change, Page},
        words as said,
    },
};

use super::headline;

/// What the parts of the panel read.
#[derive(Clone, Copy)]
pub struct View<'a> {
    /// The board.
    pub session: &'a Session,
    /// The weighing.
    pub weigh: &'a Weigh,
    /// What is shown on the court.
    pub layers: &'a Layers,
    /// How it looks.
    pub theme: &'a Theme,
}

/// The panel; `wide` has room for two columns.
pub fn ui(ui: &mut Ui, wide: bool, view: View<'_>, out: &mut Outbox) {
    let theme = view.theme;
    let pages = Page::ALL.map(|page| (page, page.label(), page.hint()));
    if let Some(page) = row::inset(ui, theme, |ui| tabs::row(ui, theme, view.weigh.weighing().page, &pages)) {
        out.push(Action::Weigh(Change::Page(page)));
    }
    ui.add_space(theme.m.space.small);
    ScrollArea::vertical().id_salt(view.weigh.weighing().page).auto_shrink(false).show_following(ui, |ui| {
        row::inset(ui, theme, |ui| match view.weigh.weighing().page {
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

fn two_columns(ui: &mut Ui, view: View<'_>, out: &mut Outbox) {
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

/// The sentence over the court while shots are weighed: what this part of the panel found.
pub fn headline(ui: &mut Ui, session: &Session, weigh: &Weigh, solving: bool, theme: &Theme) {
    let (first, second) = sentence(session, weigh);
    headline::strip(ui, &first, &second, basis(session, solving), Tone::Answer, theme);
}

/// What was found, and why.
#[must_use]
pub fn sentence(session: &Session, weigh: &Weigh) -> (String, String) {
    let units = session.units();
    let verdict = || said::verdict(&weigh.beside(), units);
    match weigh.weighing().page {
        Page::Shots => verdict(),
        Page::Aim => aim::sentence(session, weigh),
        Page::Turn => turn::sentence(session, weigh).unwrap_or_else(verdict),
        Page::Net => net::sentence(session, weigh),
    }
}

/// A quiet line while something is being worked out.
fn working(ui: &mut Ui, theme: &Theme) {
    row::note(ui, theme, text("Working it out …"));
}
