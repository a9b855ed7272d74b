use super::*;

fn at(x: f64, y: f64) -> DVec2 {
    DVec2::new(x, y)
}

/// A notebook with a rally of two shots of which the second goes long.
fn rally() -> Notebook {
    let mut notes = Notebook::new(Chart::new(Setup::default()));
    notes.set_session("Sunday".to_owned());
    for place in [at(2.0, -12.0), at(-3.0, 9.0), at(-3.5, 12.5), at(0.5, -13.0), at(1.0, -12.4)] {
        notes.place(place).unwrap();
    }
    notes.end_point();
    notes
}

#[test]
fn a_further_shot_takes_three_places() {
    let notes = rally();
    let [point] = notes.points() else { panic!() };
    assert_eq!((point.session.as_str(), point.label.as_str(), point.shots.len()), ("Sunday", "1", 2));
    let (first, second) = (point.shots[0], point.shots[1]);
    assert_eq!((first.hitter, first.met, first.stood), (End::Near, Some(at(-3.5, 12.5)), Some(at(0.5, -13.0))));
    assert_eq!((second.hitter, second.contact, second.met), (End::Far, at(-3.5, 12.5), None));
    assert_eq!(notes.draft().step(), ShotPlace::Contact);
    assert!(standpoint_board::chart::check::check(&notes.chart()).is_empty());
}

#[test]
fn every_step_can_be_taken_back_and_made_again() {
    let mut notes = rally();
    let whole = notes.chart();
    let mut steps = 0;
    while notes.undo().is_some() {
        steps += 1;
    }
    assert_eq!((steps, notes.shots(), notes.is_saved()), (7, 0, true));
    while notes.redo().is_some() {}
    assert_eq!(notes.chart(), whole);
    assert!(!notes.is_saved());
    notes.saved(notes.version());
    assert!(notes.is_saved() && notes.undo().is_some() && !notes.is_saved());
}

#[test]
fn a_place_at_the_wrong_end_is_refused_and_changes_nothing() {
    let mut notes = Notebook::new(Chart::new(Setup::default()));
    notes.place(at(2.0, -12.0)).unwrap();
    let before = notes.clone();
    assert_eq!(notes.place(at(2.0, -6.0)), Err(draft::LANDING));
    assert_eq!(notes, before);
    notes.place(at(2.0, 6.0)).unwrap();
    assert_eq!(notes.place(at(2.0, -6.0)), Err(draft::OPPONENT));
    notes.place(at(2.0, 12.0)).unwrap();
    assert_eq!(notes.place(at(2.0, 12.0)), Err(Refusal::OwnEnd));
}

#[test]
fn a_ball_in_the_net_ends_the_point_and_one_from_the_air_has_no_landing() {
    let mut notes = Notebook::new(Chart::new(Setup::default()));
    notes.place(at(2.0, 12.0)).unwrap();
    notes.place(at(1.0, 0.5)).unwrap();
    assert_eq!((notes.shots(), notes.draft().step(), notes.open_point()), (1, ShotPlace::Contact, None));
    notes.place(at(2.0, -12.0)).unwrap();
    notes.skip().unwrap();
    assert_eq!(notes.skip(), Err(Refusal::Nowhere));
    notes.place(at(-1.0, 2.5)).unwrap();
    notes.skip().unwrap();
    let shot = notes.points()[1].shots[0];
    assert_eq!((shot.landing, shot.met, shot.stood), (None, Some(at(-1.0, 2.5)), None));
    assert_eq!(notes.draft().step(), ShotPlace::Landing);
}

#[test]
fn letters_are_about_the_shot_that_is_begun() {
    let mut notes = rally();
    notes.place(at(2.0, -12.0)).unwrap();
    notes.wing(Wing::Backhand);
    notes.stroke(Stroke::Slice);
    notes.place(at(-3.0, 9.0)).unwrap();
    notes.end_point();
    let shot = notes.points()[1].shots[0];
    assert_eq!((shot.wing, shot.stroke), (Some(Wing::Backhand), Some(Stroke::Slice)));
    notes.change_ends();
    notes.place(at(2.0, -12.0)).unwrap();
    notes.place(at(-3.0, 9.0)).unwrap();
    notes.end_point();
    assert_eq!(notes.points()[2].ends, Ends::Changed);
    notes.remove_point(0);
    assert_eq!(notes.points().len(), 2);
}

/// A notebook with a rally of three shots; the first two were met where the next was struck, and the second is
/// selected.
fn long_rally() -> Notebook {
    let mut notes = Notebook::new(Chart::new(Setup::default()));
    for (x, y) in [(2.0, -12.0), (-3.0, 9.0), (-3.5, 12.5), (0.5, -13.0), (1.0, -9.0), (1.5, -12.0), (0.0, 12.8)] {
        notes.place(at(x, y)).unwrap();
    }
    for (x, y) in [(-2.0, 9.5), (-2.5, 12.5), (0.4, -12.6)] {
        notes.place(at(x, y)).unwrap();
    }
    notes.end_point();
    notes.pick(Some(At { point: 0, shot: 1 }));
    notes
}

fn shots(notes: &Notebook) -> &[ObservedShot] {
    &notes.points()[0].shots
}

#[test]
fn a_place_that_two_shots_share_is_moved_for_both_and_taken_back_for_both() {
    let mut notes = long_rally();
    let before = notes.chart();
    notes.pick_place(ShotPlace::Contact, at(-3.0, 12.1));
    notes.pick_place(ShotPlace::Contact, at(-2.9, 12.0));
    assert_eq!((shots(&notes)[0].met, shots(&notes)[1].contact), (Some(at(-2.9, 12.0)), at(-2.9, 12.0)));
    notes.pick_place(ShotPlace::Met, at(1.0, -11.0));
    assert_eq!((shots(&notes)[1].met, shots(&notes)[2].contact), (Some(at(1.0, -11.0)), at(1.0, -11.0)));
    assert_eq!(notes.undo(), Some("Move the opponent's contact"));
    assert_eq!(notes.undo(), Some("Move the contact"), "what is moved in one go is one step");
    assert_eq!(notes.chart(), before);
    assert_eq!(notes.picked().unwrap().0, At { point: 0, shot: 1 }, "it is still taken up");
}

#[test]
fn places_are_held_where_they_can_be_and_those_not_seen_are_left_out() {
    let mut notes = long_rally();
    notes.pick_place(ShotPlace::Stood, at(90.0, -3.0));
    let stood = shots(&notes)[1].stood.unwrap();
    assert!(stood.y.abs() < 1e-9 && stood.x < 10.0, "{stood}");
    notes.pick_place(ShotPlace::Landing, at(1.0, 0.4));
    assert_eq!(shots(&notes)[1].landing, Some(at(1.0, 0.4)), "a ball in the net comes down just before it");
    assert_eq!(notes.pick_unseen(ShotPlace::Contact), Err(Refusal::NoContact));
    notes.pick_unseen(ShotPlace::Landing).unwrap();
    assert_eq!(notes.pick_unseen(ShotPlace::Met), Err(Refusal::Nowhere));
    notes.pick_unseen(ShotPlace::Stood).unwrap();
    assert_eq!((shots(&notes)[1].landing, shots(&notes)[1].stood), (None, None));
    assert!(standpoint_board::chart::check::check(&notes.chart()).is_empty());
}

#[test]
fn kind_and_wing_are_put_right_and_the_same_once_more_is_none() {
    let mut notes = long_rally();
    notes.pick_wing(Wing::Backhand);
    notes.pick_stroke(Stroke::Slice);
    notes.pick_speed(Some(25.0));
    notes.pick_speed(Some(26.0));
    let shot = shots(&notes)[1];
    assert_eq!((shot.wing, shot.stroke, shot.speed), (Some(Wing::Backhand), Some(Stroke::Slice), Some(26.0)));
    notes.pick_stroke(Stroke::Slice);
    assert_eq!(shots(&notes)[1].stroke, None);
    for label in ["Stroke", "Speed", "Stroke", "Wing"] {
        assert_eq!(notes.undo(), Some(label));
    }
}

#[test]
fn a_shot_is_taken_out_and_one_is_put_between() {
    let mut notes = long_rally();
    notes.pick_remove();
    assert_eq!((shots(&notes).len(), notes.picked().unwrap().0.shot), (2, 1));
    notes.undo();
    notes.insert(true);
    assert_eq!((notes.picked(), notes.draft().step(), notes.draft().hitter), (None, ShotPlace::Landing, End::Near));
    notes.place(at(3.0, 9.0)).unwrap();
    notes.end_point();
    let hitters: Vec<End> = shots(&notes).iter().map(|shot| shot.hitter).collect();
    assert_eq!(hitters, [End::Near, End::Far, End::Near, End::Near]);
    assert_eq!((shots(&notes)[2].contact, shots(&notes)[2].landing), (at(1.5, -12.0), Some(at(3.0, 9.0))));
    notes.pick(Some(At { point: 0, shot: 0 }));
    notes.insert(false);
    for (x, y) in [(1.0, 12.0), (1.0, -9.0)] {
        notes.place(at(x, y)).unwrap();
    }
    notes.end_point();
    assert_eq!((shots(&notes).len(), shots(&notes)[0].contact), (5, at(1.0, 12.0)));
    while notes.undo().is_some() {}
    assert_eq!(notes.shots(), 0);
}

#[test]
fn shots_are_gone_through_from_the_last_back_and_the_last_of_a_point_takes_it_along() {
    let mut notes = long_rally();
    notes.pick(None);
    notes.place(at(2.0, -12.0)).unwrap();
    notes.place(at(-3.0, 9.0)).unwrap();
    notes.end_point();
    let mut seen = Vec::new();
    for forward in [false, false, true, true, false, false, false, false] {
        notes.pick_beside(forward);
        let (at, _) = notes.picked().unwrap();
        seen.push((at.point, at.shot));
    }
    assert_eq!(seen, [(1, 0), (0, 2), (1, 0), (1, 0), (0, 2), (0, 1), (0, 0), (0, 0)]);
    notes.pick(Some(At { point: 1, shot: 0 }));
    notes.pick_remove();
    assert_eq!((notes.points().len(), notes.picked()), (1, None));
}

#[test]
fn typing_a_name_is_one_step_and_so_is_the_title() {
    let mut notes = Notebook::new(Chart::new(Setup::default()));
    for name in ["L", "Lu", "Lu Ferr"] {
        notes.set_name(End::Far, name.to_owned());
    }
    notes.set_title("Sunday".to_owned());
    notes.set_name(End::Near, "Ada".to_owned());
    let setup = notes.setup();
    assert_eq!((setup.far.name.as_str(), setup.near.name.as_str(), setup.title.as_str()), ("Lu Ferr", "Ada", "Sunday"));
    let labels: Vec<_> = std::iter::from_fn(|| notes.undo()).collect();
    assert_eq!(labels, ["Name of a player", "Title of the chart", "Name of a player"]);
}
