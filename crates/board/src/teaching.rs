//! Translation of built-in boards. Their files are English.

use std::sync::Arc;

use standpoint_language::text_of;

use crate::{Board, Page, marks::Form};

/// Translates all text on the board: titles, notes, cues, drill and texts on the court, line by line; a line of tags
/// tag by tag, each with its `#`. Names of players stay.
pub fn reword(board: &mut Board, say: &mut dyn FnMut(&str) -> String) {
    board.title = say(&board.title);
    for page in &mut board.pages {
        reword_page(Arc::make_mut(page), say);
    }
}

fn reword_page(page: &mut Page, say: &mut dyn FnMut(&str) -> String) {
    page.title = say(&page.title);
    page.notes = reworded(&page.notes, say);
    for cue in &mut page.cues {
        *cue = say(cue);
    }
    let drill = &mut page.drill;
    for part in [&mut drill.feed, &mut drill.targets, &mut drill.progression, &mut drill.equipment] {
        *part = reworded(part, say);
    }
    for mark in &mut page.marks.list {
        if let Form::Text { text, .. } = &mut mark.form {
            *text = reworded(text, say);
        }
    }
}

fn reworded(text: &str, say: &mut dyn FnMut(&str) -> String) -> String {
    let lines: Vec<String> = text
        .lines()
        .map(|line| match line {
            "" => String::new(),
            tags if tags.split_whitespace().all(|word| word.starts_with('#')) => {
                tags.split_whitespace().map(&mut *say).collect::<Vec<_>>().join(" ")
            }
            line => say(line),
        })
        .collect();
    lines.join("\n")
}

/// The board in the current language.
#[must_use]
pub fn spoken(mut board: Board) -> Board {
    reword(&mut board, &mut |line| text_of(line).into_owned());
    board
}
