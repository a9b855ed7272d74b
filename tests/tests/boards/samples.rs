//! Boards with every part.

use std::sync::Arc;

use glam::DVec2;
use standpoint_board::{
    Board, Figures, Units,
    marks::{Form, Ink, Layer, Marks, Pattern},
    patterns,
};
use standpoint_geometry::End;

/// One mark of every form, with a layer hidden.
pub fn every_mark() -> Marks {
    let at = DVec2::new;
    let mut marks = Marks::default();
    marks.add(Layer::Drill, Ink::Plain, Form::Cone { at: at(2.915, -7.3) });
    marks.add(Layer::Drill, Ink::Warning, Form::Basket { at: at(-0.5, -14.2) });
    marks.add(Layer::Drill, Ink::Coached, Form::Person { at: at(3.0, -12.5), letter: "A".to_owned() });
    marks.add(Layer::Drill, Ink::Ball, Form::Zone { from: at(-4.1, 8.0), to: at(-2.0, 11.8), round: true });
    marks.add(Layer::Drill, Ink::Other, Form::Zone { from: at(2.0, 8.0), to: at(4.1, 11.8), round: false });
    let points = vec![at(-3.0, -3.0), at(-2.4, -2.1), at(-1.2345, -2.0), at(0.0, -1.0)];
    marks.add(Layer::Sketch, Ink::Plain, Form::Pen { points, pattern: Pattern::Dashed });
    let (from, to) = (at(3.0, -12.0), at(-3.0, 9.0));
    marks.add(Layer::Sketch, Ink::Ball, Form::Arrow { from, to, bend: 0.8, pattern: Pattern::Solid });
    let text = "Watch the line\nthen \"cross\", ü 場".to_owned();
    marks.add(Layer::Notes, Ink::Warning, Form::Text { at: at(4.6, -4.0), text, size: 0.45 });
    marks.show(Layer::Notes, false);
    marks
}

/// A board with every part that a file of the current version can have.
pub fn every_part() -> Board {
    let mut board = Board::demo();
    board.title = "Larkfield Tennis Club: every part that a board of version 2 can have".to_owned();
    (board.coached, board.units) = (End::Near, Units::Feet);
    board.far.make_custom();
    assert!(matches!(board.far.figures, Figures::Custom(_)));
    let mut page = patterns::Pattern::CrossCrossLine.page(&board, false);
    page.cues = vec!["Recover before you look".to_owned(), "Split as Ivo strikes".to_owned()];
    page.shots[1].recover_to = Some(DVec2::new(-0.4, 12.3));
    page.marks = every_mark();
    board.pages.push(Arc::new(page));
    board.tidy();
    board
}
