use proptest::prelude::*;

use standpoint_board::History;

/// A user's action.
#[derive(Debug, Clone)]
enum Act {
    Drag(Vec<i32>),
    DragAndCancel(i32),
    Apply(i32),
    Nudge(u64, i32),
    Seal,
    Select(u8),
    Undo,
    Redo,
    Save,
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let small = -2..=2i32;
    let act = prop_oneof![
        proptest::collection::vec(small.clone(), 0..4).prop_map(Act::Drag),
        small.clone().prop_map(Act::DragAndCancel),
        small.clone().prop_map(Act::Apply),
        (0..2u64, small).prop_map(|(key, by)| Act::Nudge(key, by)),
        Just(Act::Seal),
        any::<u8>().prop_map(Act::Select),
        Just(Act::Undo),
        Just(Act::Redo),
        Just(Act::Save),
    ];
    proptest::collection::vec(act, 0..60)
}

fn perform(history: &mut History<i32, u8>, act: &Act, selection: u8) {
    match act {
        Act::Drag(moves) => {
            history.begin("Drag");
            for by in moves {
                *history.doc_mut() += by;
            }
            history.commit(selection);
        }
        Act::DragAndCancel(by) => {
            history.begin("Drag");
            *history.doc_mut() += by;
            history.cancel();
        }
        Act::Apply(by) => {
            history.apply("Apply", selection, |doc| *doc += by);
        }
        Act::Nudge(key, by) => {
            history.apply_joined(*key, "Nudge", selection, |doc| *doc += by);
        }
        Act::Seal => history.seal(),
        Act::Select(selection) => history.select(*selection),
        Act::Undo => {
            history.undo();
        }
        Act::Redo => {
            history.redo();
        }
        Act::Save => history.mark_saved(),
    }
}

proptest! {
    #[test]
    fn undoing_everything_leads_to_the_beginning_and_redoing_everything_back(acts in acts()) {
        let mut history = History::new(0, 0u8);
        for (i, act) in acts.iter().enumerate() {
            perform(&mut history, act, i as u8);
        }
        while history.redo().is_some() {}
        let (end, steps) = (*history.doc(), history.steps().0);
        let mut undone = 0;
        while history.undo().is_some() {
            undone += 1;
        }
        prop_assert_eq!((*history.doc(), undone), (0, steps));
        while history.redo().is_some() {}
        prop_assert_eq!((*history.doc(), history.steps()), (end, (steps, 0)));
    }

    #[test]
    fn redo_is_the_inverse_of_undo_and_the_selection_comes_back(acts in acts()) {
        let mut history = History::new(0, 0u8);
        for (i, act) in acts.iter().enumerate() {
            perform(&mut history, act, i as u8);
            history.seal();
            let mut walked = history.clone();
            let before = *walked.doc();
            if let Some(label) = walked.undo() {
                let undone = (*walked.doc(), *walked.selection());
                prop_assert_ne!(undone.0, before, "a step changes something");
                prop_assert_eq!(walked.redo(), Some(label));
                prop_assert_eq!(*walked.doc(), before);
                walked.undo();
                prop_assert_eq!((*walked.doc(), *walked.selection()), undone);
            }
        }
    }

    #[test]
    fn saved_is_never_claimed_of_a_document_that_differs_from_the_file(acts in acts()) {
        let mut history = History::new(0, 0u8);
        let mut file = 0;
        for (i, act) in acts.iter().enumerate() {
            perform(&mut history, act, i as u8);
            if matches!(act, Act::Save) {
                file = *history.doc();
                prop_assert!(history.is_saved());
            }
            prop_assert!(!history.is_saved() || *history.doc() == file);
        }
    }
}

#[test]
fn a_gesture_is_one_step_and_brings_the_selection_back() {
    let mut history = History::new(0, "nothing");
    history.begin("Drag ball");
    for _ in 0..100 {
        *history.doc_mut() += 1;
    }
    assert_eq!(history.undo_label(), Some("Drag ball"));
    assert!(!history.is_saved());
    assert!(history.commit("ball"));
    assert_eq!(history.steps(), (1, 0));
    history.undo();
    assert_eq!((*history.doc(), *history.selection(), history.is_saved()), (0, "nothing", true));
    history.redo();
    assert_eq!((*history.doc(), *history.selection(), history.is_saved()), (100, "ball", false));
}

#[test]
fn a_gesture_that_changes_nothing_leaves_no_step_and_keeps_what_can_be_redone() {
    let mut history = History::new(0, ());
    history.apply("Add", (), |doc| *doc += 1);
    history.undo();
    history.begin("Drag");
    assert!(!history.commit(()));
    assert_eq!(history.steps(), (0, 1));
    assert_eq!(history.redo(), Some("Add"));
}

#[test]
fn repeated_nudges_join_until_something_comes_between() {
    let mut history = History::new(0, ());
    let nudge = |history: &mut History<i32, ()>| history.apply_joined(7, "Nudge", (), |doc| *doc += 1);
    nudge(&mut history);
    nudge(&mut history);
    assert_eq!(history.steps(), (1, 0));
    history.seal();
    nudge(&mut history);
    assert_eq!(history.steps(), (2, 0));
    history.select(());
    nudge(&mut history);
    assert_eq!(history.steps(), (3, 0));
    history.apply_joined(8, "Turn", (), |doc| *doc += 10);
    assert_eq!(history.steps(), (4, 0));
    history.undo();
    assert_eq!(*history.doc(), 4);
}

#[test]
fn a_change_outside_a_gesture_is_not_lost() {
    let mut history = History::new(0, ());
    *history.doc_mut() = 5;
    assert_eq!(history.undo(), Some("Change"));
    assert_eq!(*history.doc(), 0);
}

#[test]
fn steps_share_the_pages_that_did_not_change() {
    use std::sync::Arc;

    use standpoint_board::{Board, Page};
    let mut board = Board::demo();
    board.pages = (0..50).map(|_| Arc::new(Page::blank())).collect();
    let mut history = History::new(board, ());
    history.apply("Rename", (), |board: &mut Board| {
        if let Some(page) = board.page_mut(3) {
            page.title.push('!');
        }
    });
    let after = history.doc().clone();
    history.undo();
    let shared = history.doc().pages.iter().zip(&after.pages).filter(|(a, b)| Arc::ptr_eq(a, b)).count();
    assert_eq!(shared, 49);
}
