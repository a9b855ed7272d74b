//! The command finder: commands by a few typed letters.

use egui::{Button, Key, Modifiers, RichText, ScrollArea, TextEdit, Ui, vec2};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Command, Facts, Outbox, Spec, catalogue::CATALOGUE, key_names},
    theme::Theme,
    widgets::menu,
};

/// The finder's state.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Finder {
    typed: String,
    marked: usize,
    /// What was asked for last and cannot be used.
    refused: Option<Command>,
}

impl Finder {
    /// The field and the list of matches.
    pub fn ui(&mut self, ui: &mut Ui, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        let (up, down, enter) = ui.input_mut(|i| {
            let mut pressed = |key| i.consume_key(Modifiers::NONE, key);
            (pressed(Key::ArrowUp), pressed(Key::ArrowDown), pressed(Key::Enter))
        });
        let field = TextEdit::singleline(&mut self.typed)
            .align(egui::Align2::LEFT_CENTER)
            .hint_text(text("mirror, zoom, feet…"))
            .desired_width(f32::INFINITY);
        let response = ui.add(field).accessible_name(text("Command"));
        response.request_focus();
        if response.changed() {
            self.marked = 0;
            self.refused = None;
        }
        let found = found(&self.typed);
        let last = found.len().saturating_sub(1);
        self.marked = (self.marked + usize::from(down)).saturating_sub(usize::from(up)).min(last);
        ui.add_space(theme.m.space.small);
        let mut chosen = enter.then(|| found.get(self.marked).copied()).flatten();
        ScrollArea::vertical().max_height(340.0).auto_shrink([false, true]).show(ui, |ui| {
            for (i, spec) in found.iter().enumerate() {
                if line(ui, spec, i == self.marked, facts, theme, up || down) {
                    chosen = Some(spec);
                }
            }
            if found.is_empty() {
                ui.label(RichText::new(text("No command is called that")).color(*theme.ui.soft));
            }
        });
        if let Some(spec) = chosen {
            self.refused = (!(spec.enabled)(facts)).then_some(spec.command);
            if self.refused.is_none() {
                out.push(Action::CloseDialog);
                out.push(Action::Run(spec.command));
            }
        }
        self.refusal(ui, facts, theme);
    }
}

impl Finder {
    /// Why the command that was asked for cannot be used.
    fn refusal(&self, ui: &mut Ui, facts: &Facts, theme: &Theme) {
        let Some(command) = self.refused else { return };
        let spec = command.spec();
        if let Some(why_not) = spec.why_not(facts) {
            ui.add_space(theme.m.space.small);
            let said = format!("{}: {why_not}", spec.label());
            ui.label(RichText::new(said).color(*theme.ui.warn));
        }
    }
}

fn line(ui: &mut Ui, spec: &Spec, marked: bool, facts: &Facts, theme: &Theme, follow: bool) -> bool {
    let keys = spec.shortcut.map(|s| key_names::of(ui.ctx(), &s)).unwrap_or_default();
    ui.horizontal(|ui| {
        let enabled = (spec.enabled)(facts);
        menu::gutter(ui, spec, spec.on.is_some_and(|on| on(facts)), enabled, theme);
        let button = Button::selectable(marked, menu::label(spec, facts))
            .shortcut_text(RichText::new(keys).color(*theme.ui.soft))
            .min_size(vec2(ui.available_width(), theme.m.control));
        let response = ui.add_enabled(enabled, button);
        if marked && follow {
            response.scroll_to_me(None);
        }
        response.on_hover_text(spec.hint()).on_disabled_hover_text(spec.why_not(facts).unwrap_or_default()).clicked()
    })
    .inner
}

/// The commands that match the typed text, best first.
#[must_use]
pub fn found(typed: &str) -> Vec<&'static Spec> {
    let words: Vec<String> = typed.split_whitespace().map(str::to_lowercase).collect();
    let mut found: Vec<(usize, &Spec)> =
        CATALOGUE.iter().filter_map(|spec| fit(spec, &words).map(|rank| (rank, spec))).collect();
    found.sort_by_key(|(rank, _)| *rank);
    found.into_iter().map(|(_, spec)| spec).collect()
}

/// Score of a command by its label in the current language, or else in English.
fn fit(spec: &Spec, words: &[String]) -> Option<usize> {
    let spoken = fit_texts((spec.label(), spec.hint()), words);
    // English names are found in any language.
    spoken.or_else(|| fit_texts(spec.english(), words).map(|rank| rank + 1))
}

/// Score of words: at the beginning of a word of the label first, then in the label, then in the hint.
fn fit_texts((label, hint): (&str, &str), words: &[String]) -> Option<usize> {
    let (label, hint) = (label.to_lowercase(), hint.to_lowercase());
    words.iter().try_fold(0, |rank, word| {
        let rank_of_word = if label.split_whitespace().any(|w| w.starts_with(word)) {
            0
        } else if label.contains(word) {
            1
        } else if hint.contains(word) {
            2
        } else {
            return None;
        };
        Some(rank + rank_of_word)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use standpoint_ui::commands::{BoardCommand, Command, LookCommand, ViewCommand};

    #[test]
    fn every_command_that_cannot_be_used_says_why() {
        for busy in [true, false] {
            let facts = Facts { busy, fitted: true, ..Facts::default() };
            let refused: Vec<_> = CATALOGUE.iter().filter(|spec| !(spec.enabled)(&facts)).collect();
            assert!(refused.len() > 20);
            for spec in refused {
                assert!(spec.why_not(&facts).is_some_and(|why| !why.is_empty()), "{}", spec.label());
            }
        }
        let facts = Facts { busy: true, ..Facts::default() };
        assert!(Command::Board(BoardCommand::Metres).spec().why_not(&facts).is_none());
    }

    #[test]
    fn a_few_letters_find_a_command() {
        let first = |typed| found(typed).first().map(|spec| spec.command);
        assert_eq!(first("mir"), Some(Command::Board(BoardCommand::Mirror)));
        assert_eq!(first("FEET"), Some(Command::Board(BoardCommand::Feet)));
        assert_eq!(first("side down"), Some(Command::View(ViewCommand::Flip)));
        assert_eq!(first("sunlight"), Some(Command::Look(LookCommand::ColoursBright)));
        assert_eq!(first("xyzzy"), None);
        assert_eq!(found("").len(), CATALOGUE.len());
    }
}
