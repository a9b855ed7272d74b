//! How the figures are computed: the chain for the shot on the board, in words, with its numbers.
//!
//! Every figure of the side panel leads to its step here. The text is made on request from the answer that is shown;
//! `docs/model.md` explains the same in general, with sources.

use egui::{CollapsingHeader, Label, RichText, ScrollArea, Ui};
use standpoint_language::text;
use standpoint_ui::{
    theme::{Theme, focus::Following as _, fonts},
    widgets::row,
};
use standpoint_workbench::{
    explain::{ExplainStep, Paragraph, describe},
    session::Session,
};

/// The dialog: its text, and the step that was asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct How {
    asked: Option<ExplainStep>,
    said: Vec<Paragraph>,
    /// Whether the step asked for has been scrolled to.
    shown: bool,
}

impl How {
    /// The chain of the shot on the board, open at a step.
    #[must_use]
    pub fn new(session: &Session, asked: Option<ExplainStep>) -> Self {
        Self { asked, said: describe(session), shown: false }
    }

    /// The window's content.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme) {
        row::note(ui, theme, text("Estimates of a model, for this shot and these two players, step by step."));
        ui.add_space(theme.m.space.item);
        let height = (ui.ctx().content_rect().height() - 220.0).clamp(160.0, 560.0);
        ScrollArea::vertical().max_height(height).auto_shrink([false, true]).show_following(ui, |ui| {
            // Beside the scroll bar, not under it.
            ui.set_max_width(ui.available_width() - theme.m.space.section);
            for (number, paragraph) in self.said.iter().enumerate() {
                let asked = self.asked == Some(paragraph.step);
                let open = asked || self.asked.is_none();
                let title = format!("{}  {}", number + 1, paragraph.step.title());
                let shown = CollapsingHeader::new(RichText::new(title).family(fonts::strong()))
                    .id_salt(paragraph.step)
                    .default_open(open)
                    .show_unindented(ui, |ui| body(ui, theme, paragraph));
                if asked && !self.shown {
                    self.shown = true;
                    shown.header_response.scroll_to_me(Some(egui::Align::TOP));
                    shown.header_response.request_focus();
                }
                ui.add_space(theme.m.space.small);
            }
        });
        ui.add_space(theme.m.space.item);
        row::note(ui, theme, text("Formulas, sources and limits: docs/model.md, which comes with the program."));
    }
}

fn body(ui: &mut Ui, theme: &Theme, paragraph: &Paragraph) {
    ui.add_space(theme.m.space.hair);
    for sentence in &paragraph.sentences {
        ui.add(Label::new(sentence).wrap());
    }
    if let Some(formula) = paragraph.formula {
        ui.add_space(theme.m.space.hair);
        ui.add(Label::new(RichText::new(formula).color(*theme.ui.accent)).wrap());
    }
    ui.add_space(theme.m.space.hair);
    row::note(ui, theme, paragraph.source);
}
