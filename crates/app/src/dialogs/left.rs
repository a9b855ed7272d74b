//! Unsaved work that a window left behind when it did not close in peace.

use std::path::PathBuf;

use egui::{Button, Label, RichText, ScrollArea, Ui};
use standpoint_board::recovery_copy::{Kind, Left};

use crate::theme::focus::Following as _;
use crate::{
    commands::{Action, Outbox},
    theme::{Theme, style},
};

/// What was left.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftWork {
    /// The copies, the latest first.
    pub copies: Vec<Left>,
    /// Where a fault of the program was written down.
    pub fault: Option<PathBuf>,
}

/// What becomes of a copy.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice {
    /// It is put on the board.
    Restore(Box<Left>),
    /// It is removed for ever.
    Discard(Box<Left>),
}

impl LeftWork {
    /// The list.
    pub fn ui(&self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        if let Some(report) = &self.fault {
            let said = format!("The program stopped because of a fault. What happened is in {}.", report.display());
            ui.add(Label::new(RichText::new(said).color(*theme.ui.soft)).wrap());
            ui.add_space(theme.m.space.item);
        }
        ui.label(match self.copies.len() {
            0 => "No unsaved work was left.",
            1 if self.copies[0].kind == Kind::Chart => "Unsaved notes were left when their window stopped.",
            1 => "A board with unsaved work was left when its window stopped.",
            _ => "Unsaved work was left when its windows stopped.",
        });
        ui.add_space(theme.m.space.item);
        ScrollArea::vertical().max_height(320.0).auto_shrink([false, true]).show_following(ui, |ui| {
            for left in &self.copies {
                row(ui, left, theme, out);
            }
        });
        ui.add_space(theme.m.space.group);
        if ui.button("Decide later").clicked() {
            out.push(Action::CloseDialog);
        }
    }
}

fn row(ui: &mut Ui, left: &Left, theme: &Theme, out: &mut Outbox) {
    let title = match left.kind {
        _ if !left.title.is_empty() => &left.title,
        Kind::Board => "Board without a title",
        Kind::Chart => "Notes without a title",
    };
    let what = match left.kind {
        Kind::Board => "board",
        Kind::Chart => "notes of a match",
    };
    let file = left.original.as_ref().and_then(|p| p.file_name()).map(|n| n.to_string_lossy().into_owned());
    let of = file.map_or_else(|| "not saved to a file yet".to_owned(), |file| format!("of {file}"));
    ui.horizontal(|ui| {
        ui.vertical(|ui| {
            ui.set_width((ui.available_width() - 190.0).max(120.0));
            ui.add(Label::new(RichText::new(title).text_style(style::emphasis())).truncate());
            ui.label(RichText::new(format!("{what}, {of}, kept {}", age(left.age_s))).small().color(*theme.ui.soft));
        });
        if ui.add(Button::new("Restore").fill(*theme.ui.chosen)).clicked() {
            out.push(Action::LeftWork(Choice::Restore(Box::new(left.clone()))));
        }
        if ui.button("Discard").clicked() {
            out.push(Action::LeftWork(Choice::Discard(Box::new(left.clone()))));
        }
    });
    ui.add_space(theme.m.space.small);
}

/// An age in words.
#[must_use]
pub fn age(seconds: f64) -> String {
    let whole = |n: f64, unit: &str| {
        let n = n.floor().max(1.0);
        if n < 2.0 { format!("1 {unit} ago") } else { format!("{n:.0} {unit}s ago") }
    };
    match seconds {
        s if s < 60.0 => "less than a minute ago".to_owned(),
        s if s < 3600.0 => whole(s / 60.0, "minute"),
        s if s < 86_400.0 => whole(s / 3600.0, "hour"),
        s => whole(s / 86_400.0, "day"),
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
