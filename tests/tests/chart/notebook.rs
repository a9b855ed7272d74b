//! Notes, corrections and undo in any order: the chart can always be saved, and undo restores every state.

use glam::DVec2;
use proptest::{collection::vec, option, prelude::*, sample::select};
use standpoint_board::chart::{Chart, check, file};
use standpoint_charting::notebook::{At, Notebook, ShotPlace};
use standpoint_geometry::{Level, Stroke, Wing};

use crate::larkfield;

/// An action in the chart room.
#[derive(Debug, Clone)]
enum Act {
    Place(DVec2),
    Skip,
    End,
    Stroke(Stroke),
    Wing(Wing),
    ChangeEnds,
    Pick(Option<At>),
    Beside(bool),
    Move(ShotPlace, DVec2),
    Unseen(ShotPlace),
    Speed(Option<f64>),
    Remove,
    Insert(bool),
    RemovePoint(usize),
    Undo,
    Redo,
}

/// Places, including some beyond the site or on the wrong side of the net.
fn place() -> impl Strategy<Value = DVec2> {
    (-12.0..12.0, -21.0..21.0).prop_map(|(x, y)| DVec2::new(x, y))
}

fn act() -> impl Strategy<Value = Act> {
    let at = (0..4_usize, 0..5_usize).prop_map(|(point, shot)| At { point, shot });
    prop_oneof![
        8 => place().prop_map(Act::Place),
        2 => Just(Act::Skip),
        1 => Just(Act::End),
        1 => select(Stroke::ALL.to_vec()).prop_map(Act::Stroke),
        1 => select(vec![Wing::Forehand, Wing::Backhand]).prop_map(Act::Wing),
        1 => Just(Act::ChangeEnds),
        2 => option::of(at).prop_map(Act::Pick),
        1 => any::<bool>().prop_map(Act::Beside),
        3 => (select(ShotPlace::ALL.to_vec()), place()).prop_map(|(step, place)| Act::Move(step, place)),
        2 => select(ShotPlace::ALL.to_vec()).prop_map(Act::Unseen),
        1 => option::of(10.0..60.0).prop_map(Act::Speed),
        1 => Just(Act::Remove),
        2 => any::<bool>().prop_map(Act::Insert),
        1 => (0..5_usize).prop_map(Act::RemovePoint),
        1 => Just(Act::Undo),
        1 => Just(Act::Redo),
    ]
}

/// Applies an action. A refused one changes nothing, which the checks below would show.
fn done(notes: &mut Notebook, act: &Act) {
    match *act {
        Act::Place(place) => drop(notes.place(place)),
        Act::Skip => drop(notes.skip()),
        Act::End => notes.end_point(),
        Act::Stroke(stroke) if notes.picked().is_some() => notes.pick_stroke(stroke),
        Act::Stroke(stroke) => notes.stroke(stroke),
        Act::Wing(wing) if notes.picked().is_some() => notes.pick_wing(wing),
        Act::Wing(wing) => notes.wing(wing),
        Act::ChangeEnds => notes.change_ends(),
        Act::Pick(at) => notes.pick(at),
        Act::Beside(forward) => notes.pick_beside(forward),
        Act::Move(step, place) => notes.pick_place(step, place),
        Act::Unseen(step) => drop(notes.pick_unseen(step)),
        Act::Speed(speed) => notes.pick_speed(speed),
        Act::Remove => notes.pick_remove(),
        Act::Insert(behind) => notes.insert(behind),
        Act::RemovePoint(index) => notes.remove_point(index),
        Act::Undo => drop(notes.undo()),
        Act::Redo => drop(notes.redo()),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_done_the_chart_can_be_saved_and_undo_brings_everything_back(acts in vec(act(), 1..60)) {
        let mut notes = Notebook::new(Chart::new(larkfield(Level::Club)));
        for act in &acts {
            done(&mut notes, act);
            prop_assert_eq!(check::check(&notes.chart()), vec![], "after {:?}", act);
            prop_assert!(notes.points().iter().all(|point| !point.shots.is_empty()), "after {:?}", act);
            if let Some((at, shot)) = notes.picked() {
                prop_assert_eq!(Some(shot), notes.points()[at.point].shots.get(at.shot));
            }
        }
        let chart = notes.chart();
        let text = file::to_text(&chart).unwrap();
        prop_assert_eq!(file::from_text(&text).unwrap(), chart.clone(), "a place is noted as exactly as a file has it");
        while notes.undo().is_some() {}
        prop_assert_eq!((notes.shots(), notes.is_saved()), (0, true));
        while notes.redo().is_some() {}
        // Redo also restores what was undone by hand before the end.
        prop_assert!(check::check(&notes.chart()).is_empty());
    }
}
