//! Truncated and bit-flipped files never panic, and an error always has a place.

use proptest::prelude::*;
use standpoint_board::{Board, Report, file};

use crate::samples::every_mark;

/// The demo with one mark of every form.
fn demo() -> Vec<u8> {
    let mut board = Board::demo();
    board.page_mut(0).unwrap().marks = every_mark();
    file::to_text(&board).unwrap().into_bytes()
}

fn every_problem_has_a_place(report: &Report, bytes: &[u8]) {
    assert!(!report.problems.is_empty());
    let lines = bytes.iter().filter(|byte| **byte == b'\n').count() + 1;
    for problem in &report.problems {
        let at = problem.at.expect("a place");
        assert!((1..=lines).contains(&at.line) && at.column >= 1, "{problem}");
        assert!(problem.to_string().len() < 2000);
    }
}

#[test]
fn a_board_cut_anywhere_is_refused_with_a_place() {
    let bytes = demo();
    let last = bytes.iter().rposition(|byte| *byte == b')').unwrap();
    for end in 0..=last {
        let report = file::from_bytes(&bytes[..end]).expect_err("a part is no board");
        every_problem_has_a_place(&report, &bytes[..end]);
    }
}

#[test]
fn a_board_with_any_one_bit_flipped_loads_or_is_refused_with_a_place() {
    let bytes = demo();
    let mut refused = 0;
    for at in 0..bytes.len() {
        for bit in 0..8 {
            let mut flipped = bytes.clone();
            flipped[at] ^= 1 << bit;
            if let Err(report) = file::from_bytes(&flipped) {
                every_problem_has_a_place(&report, &flipped);
                refused += 1;
            }
        }
    }
    assert!(refused > bytes.len() * 4, "{refused} of {}", bytes.len() * 8);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_text_is_read_or_refused(text in "([(){}\\[\\]:,\"'\\\\/*#r.0-9eE+\\-a-zA-Z_ \\n]|\\PC){0,200}") {
        if let Err(report) = file::from_text(&text) {
            every_problem_has_a_place(&report, text.as_bytes());
        }
    }

    #[test]
    fn a_board_with_pieces_exchanged_loads_or_is_refused(
        cuts in proptest::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), 0..30usize), 1..6)
    ) {
        let mut bytes = demo();
        for (from, to, length) in cuts {
            let piece: Vec<u8> = bytes.iter().skip(from.index(bytes.len())).take(length).copied().collect();
            let to = to.index(bytes.len());
            bytes.splice(to..(to + length / 2).min(bytes.len()), piece);
        }
        if let Err(report) = file::from_bytes(&bytes) {
            every_problem_has_a_place(&report, &bytes);
        }
    }
}
