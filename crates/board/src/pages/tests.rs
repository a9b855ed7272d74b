use standpoint_geometry::{End, Solver};

use standpoint_geometry::Hand;

use super::*;
use crate::check;
use crate::marks::{Form, Ink, Layer, Pattern as Line};
use crate::patterns::Pattern;
use crate::playback::Timeline;
use crate::rally::{Rally, Resolved};

/// A page with a rally and one mark of every form.
fn full() -> Page {
    let at = DVec2::new;
    let mut page = Pattern::ServePlusOne.page(&Board::blank(), false);
    page.shots[0].shot.sidespin = 40.0;
    page.shots[1].recover_to = Some(at(0.4, 12.0));
    page.shots[2].receipt = ReceiptChoice::Near(at(2.0, 10.0));
    let forms = [
        Form::Cone { at: at(0.0, -7.0) },
        Form::Basket { at: at(1.0, -14.0) },
        Form::Person { at: at(-1.0, 3.0), letter: "A".to_owned() },
        Form::Zone { from: at(1.0, 2.0), to: at(3.0, 4.0), round: true },
        Form::Pen { points: vec![at(0.0, 0.0), at(1.0, 2.0)], pattern: Line::Dashed },
        Form::Arrow { from: at(0.0, 0.0), to: at(1.0, 2.0), bend: 0.5, pattern: Line::Solid },
        Form::Text { at: at(2.0, 2.0), text: "Watch\nthe line".to_owned(), size: 0.5 },
    ];
    for form in forms {
        page.marks.add(Layer::Drill, Ink::Plain, form);
    }
    page
}

fn resolved(board: &Board, page: usize) -> Vec<Resolved> {
    let (mut rally, mut solver) = (Rally::new(), Solver::new());
    let page = board.page(page).unwrap();
    (0..page.shots.len()).map_while(|i| rally.resolve(board, page, i, &mut solver).ok().cloned()).collect()
}

fn spots(board: &Board) -> Vec<(End, DVec2, f64)> {
    let shots = resolved(board, 0);
    let spot = |r: &Resolved| r.play().map(|play| (r.spec.hitter_end, play.spot.place, play.spot.exposure));
    shots.iter().filter_map(spot).collect()
}

#[test]
fn pages_are_put_in_doubled_moved_and_taken_out_but_never_the_last() {
    let mut board = Board::blank();
    let titled = |title: &str| Page { title: title.to_owned(), ..Page::blank() };
    assert_eq!(board.insert_page(0, titled("a")), 0);
    assert_eq!(board.insert_page(99, titled("c")), 2);
    assert_eq!((board.duplicate_page(0), board.duplicate_page(9)), (Some(1), None));
    assert!(Arc::ptr_eq(&board.pages[0], &board.pages[1]), "a copy costs nothing until it is changed");
    board.page_mut(1).unwrap().title = "b".to_owned();
    let titles = |board: &Board| board.pages.iter().map(|page| page.title.clone()).collect::<Vec<_>>();
    assert_eq!(titles(&board), ["a", "b", "Page", "c"]);
    assert!(board.move_page(0, 3) && !board.move_page(1, 1) && !board.move_page(0, 4));
    assert_eq!(titles(&board), ["b", "Page", "c", "a"]);
    assert!(board.move_page(3, 0));
    assert_eq!(titles(&board), ["a", "b", "Page", "c"]);
    assert!(!board.remove_page(4) && board.remove_page(2) && board.remove_page(0) && board.remove_page(1));
    assert!(!board.remove_page(0), "the last page stays");
    assert_eq!(titles(&board), ["b"]);
}

#[test]
fn mirroring_or_turning_twice_leads_back_and_what_comes_out_can_be_saved() {
    let page = full();
    assert_eq!(page.mirrored().mirrored(), page);
    assert_eq!(page.turned().turned(), page);
    assert_eq!(page.turned().mirrored(), page.mirrored().turned());
    for page in [page.mirrored(), page.turned()] {
        let board = Board { pages: vec![Arc::new(page)], ..Board::blank() };
        assert_eq!(check::check(&board), vec![]);
    }
}

#[test]
fn the_mirrored_board_has_the_mirrored_answers() {
    let page = Pattern::CrossCrossLine.page(&Board::blank(), false);
    let mut board = Board { pages: vec![Arc::new(page)], ..Board::blank() };
    let before = resolved(&board, 0);
    board.mirror();
    assert_eq!((board.near.hand, board.far.hand), (Hand::Left, Hand::Left));
    let mut solver = Solver::new();
    for one in &before {
        // Compared shot by shot: the search for the spot is not mirrored to the last digit, and differences would add
        // up along a rally.
        let mirrored = solver.solve(&board.situation_of(&one.spec.mirrored())).unwrap();
        let (one, other) = (one.play().unwrap(), mirrored.play().unwrap());
        let place = one.receipt.place * DVec2::new(-1.0, 1.0);
        assert!(place.distance(other.receipt.place) < 0.01, "{place} {}", other.receipt.place);
        assert!((one.spot.exposure - other.spot.exposure).abs() < 5e-3);
    }
}

#[test]
fn the_board_turned_round_has_the_same_answers_at_the_other_end() {
    let mut board =
        Board { pages: vec![Arc::new(Pattern::ApproachAndVolley.page(&Board::blank(), false))], ..Board::blank() };
    board.far.hand = Hand::Left;
    let before = spots(&board);
    board.swap_ends();
    assert_eq!((board.coached, board.near.hand), (End::Far, Hand::Left));
    for ((end, a, risk_a), (turned_end, b, risk_b)) in before.iter().zip(spots(&board)) {
        assert_eq!(*end, turned_end.other());
        assert!(a.distance(-b) < 1e-6 && (risk_a - risk_b).abs() < 1e-9, "{a} {b}");
    }
}

#[test]
fn either_player_can_be_coached_and_begins_the_patterns() {
    for pattern in Pattern::ALL {
        for mirrored in [false, true] {
            let board = Board { coached: End::Far, ..Board::blank() };
            let page = pattern.page(&board, mirrored);
            assert_eq!(page.shots[0].hitter_end, End::Far);
            let board = Board { pages: vec![Arc::new(page)], ..board };
            assert_eq!(check::check(&board), vec![], "{pattern:?}");
            let shots = resolved(&board, 0);
            assert_eq!(shots.len(), board.pages[0].shots.len());
            assert_eq!(Timeline::new(&board, &shots).stretches.len(), shots.len(), "{pattern:?} is played to its end");
        }
    }
}
