use super::*;
use crate::moments::{Around, of_points};
use standpoint_board::chart::check::check;
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{Chart, Point, Setup};
use standpoint_board::chart::score::log;

fn live() -> Notebook {
    let mut notes = Notebook::new(Chart::new(Setup::default()));
    notes.set_live(Some(Live::default()));
    notes
}

/// Notes the landing of the serve that is due: T, body or wide.
fn serve(notes: &mut Notebook, place: usize) {
    let due = notes.due_serve().expect("a serve is due");
    notes.place(due.places[place]).unwrap();
}

/// Notes the landing of the next ball, across and deep as the hitter sees it.
fn lands(notes: &mut Notebook, across: f64, deep: f64) {
    let hitter = notes.draft().hitter;
    notes.place(hitter.turn2(DVec2::new(across, deep))).unwrap();
}

fn last(notes: &Notebook) -> &Point {
    notes.points().last().unwrap()
}

fn told(notes: &Notebook) -> standpoint_board::chart::score::PointFacts {
    facts(last(notes), &notes.now.court())
}

#[test]
fn aces_take_two_inputs_each_and_the_score_turns_server_side_and_ends() {
    let mut notes = live();
    for game in 0..3_u32 {
        for point in 0..4 {
            let due = notes.due_serve().unwrap();
            assert_eq!(due.side, [CourtSide::Deuce, CourtSide::Ad][point % 2], "Rule 17");
            // The server changes with every game, the ends after the first and the third (Rules 10 and 14).
            let began = notes.ends().began(due.end);
            assert_eq!(began, if game.is_multiple_of(2) { End::Near } else { End::Far });
            assert_eq!(notes.ends(), if game == 0 { Ends::AsBegun } else { Ends::Changed });
            serve(&mut notes, 2 * (point % 2));
            notes.not_returned().unwrap();
            assert_eq!(told(&notes).ending, Some(Ending::Ace));
        }
    }
    assert_eq!(notes.tally().unwrap().games(), [2, 1]);
    assert_eq!(notes.ends(), Ends::AsBegun, "ends are changed after the third game");
    assert!(notes.log().troubles.is_empty(), "{:?}", notes.log().troubles);
    assert!(check(&notes.chart()).is_empty(), "{:?}", check(&notes.chart()));
}

#[test]
fn a_rally_ends_by_a_winner_an_error_in_the_net_and_one_that_is_out() {
    let mut notes = live();
    serve(&mut notes, 0);
    lands(&mut notes, -2.0, 10.0);
    lands(&mut notes, 3.0, 9.0);
    notes.not_returned().unwrap();
    assert_eq!((last(&notes).shots.len(), told(&notes).ending), (3, Some(Ending::Winner)));
    assert_eq!(told(&notes).winner, Some(End::Near));
    // The reply goes into the net: a stroke of its own, of unknown direction.
    serve(&mut notes, 1);
    lands(&mut notes, 0.0, 10.0);
    notes.missed(Miss::Net).unwrap();
    assert_eq!((last(&notes).shots.len(), told(&notes).winner), (3, Some(End::Far)));
    assert_eq!((told(&notes).miss, told(&notes).ending), (Some(Miss::Net), None));
    assert_eq!(notes.asks_for_error(), Some(1));
    notes.error_was(Ending::ForcedError);
    assert_eq!((told(&notes).ending, notes.asks_for_error()), (Some(Ending::ForcedError), None));
    // The return was long; it is still its hitter's error.
    serve(&mut notes, 1);
    lands(&mut notes, 3.0, 10.0);
    notes.missed(Miss::Wide).unwrap();
    assert_eq!((last(&notes).shots.len(), told(&notes).winner), (2, Some(End::Near)));
    assert_eq!(told(&notes).miss, Some(Miss::Wide));
    let landing = last(&notes).shots[1].landing.unwrap();
    assert!(landing.x < -4.5 && landing.y < 0.0, "{landing}");
    assert_eq!(notes.tally().unwrap().points(), [2, 1]);
    assert!(check(&notes.chart()).is_empty(), "{:?}", check(&notes.chart()));
}

#[test]
fn faults_lets_and_a_double_fault() {
    let mut notes = live();
    serve(&mut notes, 0);
    notes.missed(Miss::Long).unwrap();
    assert_eq!(notes.due_serve().unwrap().number, ServeNumber::Second);
    serve(&mut notes, 2);
    notes.play_let().unwrap();
    // A let does not cancel the fault before it (Rule 22).
    assert_eq!(notes.due_serve().unwrap().number, ServeNumber::Second);
    notes.missed(Miss::Net).unwrap();
    assert_eq!((last(&notes).shots.len(), told(&notes).ending), (3, Some(Ending::DoubleFault)));
    assert_eq!(notes.tally().unwrap().points(), [0, 1]);
    // A let in the rally: the whole point is played again (Rule 23).
    serve(&mut notes, 0);
    lands(&mut notes, 0.0, 10.0);
    notes.play_let().unwrap();
    let due = notes.due_serve().unwrap();
    assert_eq!((notes.points().len(), due.number, due.side), (1, ServeNumber::First, CourtSide::Ad));
    assert!(notes.missed(Miss::Long).is_err() && notes.not_returned().is_err() && notes.play_let().is_err());
}

#[test]
fn places_are_two_inputs_a_stroke_where_they_are_wanted() {
    let mut notes = live();
    notes.set_live(Some(Live { positions: true }));
    serve(&mut notes, 1);
    assert_eq!(notes.live_step(), Some(ShotPlace::Stood));
    notes.place(DVec2::new(0.5, -12.0)).unwrap();
    lands(&mut notes, 1.0, 9.0);
    notes.place(DVec2::new(0.0, 12.5)).unwrap();
    lands(&mut notes, -3.0, 9.0);
    // The winner's own place is not asked for: it does not matter any more.
    notes.not_returned().unwrap();
    let shots = &last(&notes).shots;
    assert_eq!(shots.iter().map(|shot| shot.stood.is_some()).collect::<Vec<_>>(), [true, true, false]);
    assert_eq!((shots[0].met, shots[2].met), (Some(shots[1].contact), None));
}

#[test]
fn the_other_player_may_serve_first_and_every_step_can_be_taken_back() {
    let mut notes = live();
    notes.swap_server();
    assert_eq!(notes.due_serve().unwrap().end, End::Far);
    serve(&mut notes, 0);
    notes.not_returned().unwrap();
    assert_eq!(notes.tally().unwrap().points(), [0, 1]);
    assert_eq!(notes.due_serve().unwrap().end, End::Far);
    let whole = notes.chart();
    while notes.undo().is_some() {}
    assert_eq!(notes.shots(), 0);
    while notes.redo().is_some() {}
    assert_eq!(notes.chart(), whole);
    assert_eq!(notes.due_serve().unwrap().side, CourtSide::Ad);
}

#[test]
fn a_match_that_is_over_takes_no_more_serves() {
    let mut notes = live();
    let info = notes.setup().session("").cloned().unwrap();
    let one = standpoint_board::chart::score::MatchFormat {
        sets: standpoint_board::chart::score::SetsToWin::One,
        ..Default::default()
    };
    notes.tell_session(SessionInfo { format: Some(one), ..info });
    for _ in 0..24 * 2 {
        if let Some(due) = notes.due_serve() {
            // The near player wins every point: aces, and two faults of the other in a row.
            if notes.ends().began(due.end) == End::Near {
                serve(&mut notes, 0);
                notes.not_returned().unwrap();
            } else {
                notes.missed(Miss::Net).unwrap();
            }
        }
    }
    assert_eq!((notes.due_serve(), notes.tally().unwrap().winner()), (None, Some(End::Near)));
    assert_eq!(notes.tally().unwrap().sets()[0].games, [6, 0]);
    assert_eq!(notes.place(DVec2::new(1.0, 6.0)), Err(Refusal::MatchOver));
}

#[test]
fn every_stroke_has_its_time_and_the_points_have_their_place_in_the_video() {
    let mut notes = live();
    for (i, at) in [(0, 10.0), (1, 40.0)] {
        notes.set_clock(Some(at));
        serve(&mut notes, i);
        notes.set_clock(Some(at + 1.2));
        lands(&mut notes, 0.0, 10.0);
        notes.set_clock(Some(at + 2.6));
        notes.missed(Miss::Net).unwrap();
    }
    notes.tell(1, Tell::VideoOffset(Some(100.0)));
    let times: Vec<_> = last(&notes).shots.iter().map(|shot| shot.time).collect();
    assert_eq!(times, [Some(40.0), Some(41.2), Some(42.6)]);
    assert!(notes.setup().session("").unwrap().times_by_hand);
    let chart = notes.chart();
    let moments = of_points(&chart, &log::log(&chart), 0..2, Around { before: 1.0, after: 2.0 });
    let spans: Vec<_> = moments.list.iter().map(|moment| (moment.start, moment.end)).collect();
    assert_eq!(spans, [(9.0, 14.6), (139.0, 144.6)]);
    // Times taken by hand are not used to measure the speed of a ball.
    assert!(crate::audit::asks(&chart).all(|ask| ask.shot.time.is_none()));
}
