//! Unsaved work left by a window that crashed.

use std::path::PathBuf;

use egui::{Button, Label, RichText, ScrollArea, Ui};
use standpoint_board::recovery_copy::{Kind, Left};
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox, choices::LeftChoice},
    theme::{Theme, focus::Following as _, style},
};

/// What was left.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftWork {
    /// The copies, the latest first.
    pub copies: Vec<Left>,
    /// Path of the fault report.
    pub fault: Option<PathBuf>,
}

impl LeftWork {
    /// The list.
    pub fn ui(&self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        if let Some(report) = &self.fault {
            let said = tr!("The program stopped because of a fault. What happened is in {}.", report.display());
            ui.add(Label::new(RichText::new(said).color(*theme.ui.soft)).wrap());
            ui.add_space(theme.m.space.item);
        }
        ui.label(match self.copies.len() {
            0 => text("No unsaved work was left."),
            1 if self.copies[0].kind == Kind::Chart => text("Unsaved notes were left when their window stopped."),
            1 => text("A board with unsaved work was left when its window stopped."),
            _ => text("Unsaved work was left when its windows stopped."),
        });
        ui.add_space(theme.m.space.item);
        ScrollArea::vertical().max_height(320.0).auto_shrink([false, true]).show_following(ui, |ui| {
            for left in &self.copies {
                row(ui, left, theme, out);
            }
        });
        ui.add_space(theme.m.space.group);
        if ui.button(text("Decide later")).clicked() {
            out.push(Action::CloseDialog);
        }
    }
}

fn row(ui: &mut Ui, left: &Left, theme: &Theme, out: &mut Outbox) {
    let title = match left.kind {
        _ if !left.title.is_empty() => &left.title,
        Kind::Board => text("Board without a title"),
        Kind::Chart => text("Notes without a title"),
    };
    let what = match left.kind {
        Kind::Board => text("board"),
        Kind::Chart => text("notes of a match"),
    };
    let file = left.original.as_ref().and_then(|p| p.file_name()).map(|n| n.to_string_lossy().into_owned());
    let kept = age(left.age_s);
    let of = match file {
        Some(file) => tr!("{}, of {}, kept {}", what, file, kept),
        None => tr!("{}, not saved to a file yet, kept {}", what, kept),
    };
    ui.horizontal(|ui| {
        ui.vertical(|ui| {
            ui.set_width((ui.available_width() - 190.0).max(120.0));
            ui.add(Label::new(RichText::new(title).text_style(style::emphasis())).truncate());
            ui.label(RichText::new(of).small().color(*theme.ui.soft));
        });
        if ui.add(Button::new(text("Restore")).fill(*theme.ui.chosen)).clicked() {
            out.push(Action::LeftWork(LeftChoice::Restore(Box::new(left.clone()))));
        }
        if ui.button(text("Discard")).clicked() {
            out.push(Action::LeftWork(LeftChoice::Discard(Box::new(left.clone()))));
        }
    });
    ui.add_space(theme.m.space.small);
}

/// An age in words.
#[must_use]
pub fn age(seconds: f64) -> String {
    let whole = |n: f64| n.max(1.0) as u64;
    match seconds {
        s if s < 60.0 => tr!("less than a minute ago"),
        s if s < 3600.0 => tr!("1 minute ago" | "{n} minutes ago" % whole(s / 60.0)),
        s if s < 86_400.0 => tr!("1 hour ago" | "{n} hours ago" % whole(s / 3600.0)),
        s => tr!("1 day ago" | "{n} days ago" % whole(s / 86_400.0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_age_is_said_in_words() {
        assert_eq!(age(5.0), "less than a minute ago");
        assert_eq!(age(61.0), "1 minute ago");
        assert_eq!(age(7300.0), "2 hours ago");
        assert_eq!(age(86_400.0 * 3.2), "3 days ago");
    }
}
