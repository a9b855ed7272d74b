//! Marks as text for the clipboard, in the notation of a board, so that they can be pasted into another window of the
//! program.

use serde::Serialize;

use super::{
    fields::Diagnostics,
    reading::Format,
    tree::{self, Node},
    v2::{self, MarkFile},
};
use crate::{
    check,
    marks::Mark,
    model::Board,
    problem::{ProblemKind, Report},
};

/// Header and limits of marks on the clipboard.
const FORMAT: Format = Format {
    mark: "standpoint_marks",
    version: 1,
    size_limit: 4 * 1024 * 1024,
    value_limit: tree::VALUE_LIMIT,
    stranger: ProblemKind::NotABoard,
};

#[derive(Serialize)]
struct MarksFile {
    standpoint_marks: u32,
    marks: Vec<MarkFile>,
}

/// Marks as text; nothing when there are none.
#[must_use]
pub fn marks_to_text(marks: &[Mark]) -> Option<String> {
    let file = MarksFile { standpoint_marks: FORMAT.version, marks: marks.iter().map(MarkFile::from).collect() };
    let style = ron::ser::PrettyConfig::new().new_line("\n").indentor("  ").depth_limit(2);
    ron::ser::to_string_pretty(&file, style).ok().filter(|_| !marks.is_empty())
}

/// The marks in a text, numbered anew; `None` when the text is something else.
///
/// # Errors
///
/// A report of all that is wrong with them.
#[must_use]
pub fn marks_from_text(text: &str) -> Option<Result<Vec<Mark>, Report>> {
    let begins = text.trim_start().strip_prefix('(')?.trim_start().starts_with(FORMAT.mark);
    begins.then(|| {
        let read = FORMAT.read(
            text,
            |notes: &mut Diagnostics, root: &Node<'_>| v2::read_marks(notes, root),
            |_| Vec::new(),
        )?;
        let mut board = Board::blank();
        let area = board.play_area();
        if let Some(page) = board.page_mut(0) {
            for mark in read {
                let form = mark.form.mapped(|place| area.clamp_mark(place));
                page.marks.add_copy(&mark, form);
            }
        }
        match check::check(&board) {
            problems if problems.is_empty() => {
                Ok(board.page(0).map(|page| page.marks.list.clone()).unwrap_or_default())
            }
            problems => Err(Report { problems, unlisted: 0 }),
        }
    })
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;
    use crate::marks::{Appears, Form, Ink, Layer, Pattern, Step};

    fn some() -> Vec<Mark> {
        let forms = [
            Form::Cone { at: dvec2(1.0, -3.0) },
            Form::Person { at: dvec2(-2.0, 4.0), letter: "B".to_owned() },
            Form::Text { at: dvec2(0.5, 1.5), text: "deep, \"heavy\"\nand high".to_owned(), size: 0.5 },
            Form::Arrow { from: dvec2(0.0, -1.0), to: dvec2(2.0, 5.0), bend: 0.8, pattern: Pattern::Dashed },
        ];
        let mark = |(i, form): (usize, Form)| Mark {
            id: i as u32 + 1,
            layer: Layer::Drill,
            ink: Ink::Warning,
            appears: Appears { shot: i, step: Step::ALL[i] },
            form,
        };
        forms.into_iter().enumerate().map(mark).collect()
    }

    #[test]
    fn marks_come_back_from_their_text() {
        let text = marks_to_text(&some()).unwrap();
        assert!(text.starts_with("(\n  standpoint_marks: 1"), "{text}");
        assert_eq!(marks_from_text(&text).unwrap().unwrap(), some());
        assert_eq!(marks_to_text(&[]), None);
    }

    #[test]
    fn other_texts_are_none_and_broken_ones_are_told() {
        for other in ["", "deep", "(standpoint_board: 2)", "standpoint_marks"] {
            assert!(marks_from_text(other).is_none(), "{other}");
        }
        let text = marks_to_text(&some()).unwrap();
        let broken = marks_from_text(&text.replace("Warning", "Danger")).unwrap().unwrap_err();
        assert!(broken.count() == 4 && broken.to_string().contains("mark 1"), "{broken}");
        let newer = marks_from_text(&text.replace("standpoint_marks: 1", "standpoint_marks: 2")).unwrap();
        assert!(newer.is_err());
        let far = marks_from_text(&text.replace("x: 1.0", "x: 900.0")).unwrap().unwrap();
        assert!(far[0].form.standing_at().unwrap().x < 100.0, "it is brought to where marks may lie");
    }
}
