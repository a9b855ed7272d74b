//! The pages at the left: small drawings in their order, and the words of the page being looked at.

pub mod row;
pub mod thumb;
pub mod words;

use egui::{Frame, Margin, Panel, RichText, ScrollArea, Stroke, Ui, vec2};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Command, Facts, Outbox, PageCommand},
    theme::{Theme, style},
    widgets::menu,
};
use standpoint_workbench::{arrange::Arrange, selection::Selection, session::Session};

/// A window narrower than this has a slim column of drawings only.
pub const SLIM_BELOW: f32 = 1180.0;
/// Width of the panel: slim, and with titles.
pub const WIDTHS: (f32, f32) = (84.0, 226.0);

/// The panel.
#[derive(Default)]
pub struct Pages {
    thumbs: thumb::Thumbs,
    /// The page that is being dragged to another place.
    dragged: Option<usize>,
    last: Option<usize>,
}

impl Pages {
    /// The pages; `slim` leaves the titles and the words out.
    pub fn ui(&mut self, ui: &mut Ui, slim: bool, session: &Session, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            if !slim {
                ui.label(RichText::new(text("Pages")).text_style(style::title()));
                ui.add_space(theme.m.space.item);
            }
            // A slim panel has no room for the words, so they have a dialog.
            let all: &[Command] = if slim {
                &[Command::Page(PageCommand::AddPage), Command::Page(PageCommand::PageWords)]
            } else {
                &[
                    Command::Page(PageCommand::AddPage),
                    Command::Page(PageCommand::AddPattern),
                    Command::Page(PageCommand::DuplicatePage),
                    Command::Page(PageCommand::DeletePage),
                ]
            };
            for command in all {
                out.extend(menu::tool(ui, command.spec(), command.spec().icon, facts, theme).map(Action::Run));
            }
        });
        if !slim {
            let frame = Frame::new().inner_margin(Margin { top: theme.m.space.small as i8, ..Margin::ZERO });
            Panel::bottom("page words").frame(frame).resizable(true).default_size(300.0).show(ui, |ui| {
                words::ui(ui, true, session, theme, out);
            });
        }
        self.list(ui, slim, session, facts, theme, out);
    }

    /// Only the visible rows are made.
    fn list(&mut self, ui: &mut Ui, slim: bool, session: &Session, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        let pages = session.board().pages.len();
        let at = session.selection();
        self.thumbs.begin(session, theme);
        ui.spacing_mut().item_spacing.y = 2.0;
        let pitch = row::HEIGHT + 2.0;
        let mut area = ScrollArea::vertical().id_salt("pages").auto_shrink(false);
        if self.last.is_some_and(|last| last != at.page) {
            // Scrolls to the page turned to.
            let middle = at.page as f32 * pitch - ui.available_height() / 2.0 + pitch / 2.0;
            area = area.vertical_scroll_offset(middle.max(0.0));
        }
        self.last = Some(at.page);
        let top = area.show_rows(ui, row::HEIGHT, pages, |ui, range| {
            let first = range.start;
            let top = ui.next_widget_position().y - first as f32 * pitch;
            for page in range {
                let response = row::ui(ui, page, slim, session, &mut self.thumbs, theme);
                if response.clicked() {
                    out.push(Action::Select(Selection { page, shot: 0 }));
                }
                if response.drag_started() {
                    self.dragged = Some(page);
                }
                response.context_menu(|ui| context(ui, page, facts, theme, out));
            }
            top
        });
        self.drag(ui, top.inner, pitch, pages, theme, out);
    }

    /// Shows where the dragged page would go, and moves it there.
    fn drag(&mut self, ui: &Ui, top: f32, pitch: f32, pages: usize, theme: &Theme, out: &mut Outbox) {
        let Some(from) = self.dragged else { return };
        let (pos, down) = ui.input(|i| (i.pointer.latest_pos(), i.pointer.primary_down()));
        let Some(pos) = pos else { return };
        let gap = (((pos.y - top) / pitch).round().max(0.0) as usize).min(pages);
        let y = top + gap as f32 * pitch - 1.0;
        let rect = ui.max_rect();
        ui.painter().hline(rect.x_range(), y, Stroke::new(theme.m.stroke.bold, *theme.ui.accent));
        ui.ctx().set_cursor_icon(egui::CursorIcon::Grabbing);
        if !down {
            self.dragged = None;
            let to = if gap > from { gap - 1 } else { gap };
            if to != from {
                out.push(Action::Arrange(Arrange::MovePage { from, to }));
            }
        }
    }
}

/// Context menu of a page.
fn context(ui: &mut Ui, page: usize, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    ui.set_min_size(vec2(300.0, 0.0));
    // The facts are those of the page under the pointer, not of the one that is shown.
    let there = facts.at(Selection { page, shot: 0 });
    for command in [
        Command::Page(PageCommand::AddPage),
        Command::Page(PageCommand::AddPattern),
        Command::Page(PageCommand::PageWords),
        Command::Page(PageCommand::DuplicatePage),
        Command::Page(PageCommand::PageUp),
        Command::Page(PageCommand::PageDown),
        Command::Page(PageCommand::DeletePage),
    ] {
        let Some(command) = menu::entry(ui, command.spec(), &there, theme) else { continue };
        if facts.rally.at.page != page {
            out.push(Action::Select(Selection { page, shot: 0 }));
        }
        out.push(Action::Run(command));
    }
}
