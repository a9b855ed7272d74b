use standpoint_board::Board;
use standpoint_geometry::{Solver, aim_map};

use super::*;

fn demo() -> Situation {
    Board::demo().situation(0, 0).unwrap()
}

const MAP: Needs = Needs { compare: false, map: true, sweep: false, net: false, plan: false };
const COMPARE: Needs = Needs { compare: true, map: false, sweep: false, net: false, plan: false };

/// Does the work of an order on this thread, with its pieces in any order.
fn reports(order: &Order, solver: &mut Solver) -> Vec<Report> {
    let done = |work: &Work| work.clone().done(solver, &|| false).unwrap();
    let pieces: Vec<Piece> = order.works.iter().map(done).collect();
    pieces.into_iter().map(|piece| Report { kind: order.kind, round: order.round, piece }).collect()
}

#[test]
fn passes_come_in_order_and_the_whole_map_is_the_direct_one() {
    let (mut scheduler, mut solver) = (CompareScheduler::default(), Solver::new());
    let situation = demo();
    let (orders, _) = scheduler.update(0.0, Some(&situation), &CompareState::default(), MAP);
    assert_eq!(orders.len(), 1);
    let mut passes = Vec::new();
    for report in reports(&orders[0], &mut solver) {
        assert!(scheduler.take(report));
        passes.push(scheduler.map().map_or(0, |map| map.passes().0));
    }
    assert!(passes.is_sorted() && passes.contains(&1) && passes.contains(&2));
    assert!(passes.iter().position(|p| *p == 1).unwrap() < 8, "the first pass is soon there");
    assert_eq!(*passes.last().unwrap(), 3);
    assert!(scheduler.map_is_fresh() && scheduler.is_answered(Kind::Map));
    let direct = aim_map(&mut Solver::new(), &situation, super::super::map::STEP_M).unwrap();
    assert_eq!(*scheduler.map().unwrap().map(), direct);
}

#[test]
fn a_drag_of_the_target_leaves_the_map_and_a_drag_of_the_contact_drops_it() {
    let mut scheduler = CompareScheduler::default();
    let mut situation = demo();
    let state = CompareState::default();
    let (orders, _) = scheduler.update(0.0, Some(&situation), &state, MAP);
    situation.shot.target.x += 0.4;
    assert!(scheduler.update(0.02, Some(&situation), &state, MAP).0.is_empty());
    situation.shot.contact.x += 0.1;
    situation.hitter_place.x += 0.1;
    let (dropped, wait) = scheduler.update(0.04, Some(&situation), &state, MAP);
    assert!(matches!(&dropped[..], [order] if order.works.is_empty() && order.round > orders[0].round));
    assert!(wait.is_some());
    let stale = Report { kind: Kind::Map, round: orders[0].round, piece: Piece::Cells(vec![(0, None)]) };
    assert!(!scheduler.take(stale));
    assert!(scheduler.update(0.06, Some(&situation), &state, MAP).0.is_empty(), "the hand may go on");
    assert_eq!(scheduler.update(0.3, Some(&situation), &state, MAP).0.len(), 1);
}

#[test]
fn only_what_has_changed_is_weighed_again() {
    let (mut scheduler, mut solver) = (CompareScheduler::default(), Solver::new());
    let mut situation = demo();
    let state = CompareState::default();
    let (orders, _) = scheduler.update(0.0, Some(&situation), &state, COMPARE);
    assert!(orders[0].works.len() >= 7, "{}", orders[0].works.len());
    for report in reports(&orders[0], &mut solver) {
        scheduler.take(report);
    }
    assert!(scheduler.rows().iter().all(|row| row.weighed().is_some()));
    situation.shot.target.x += 0.5;
    let (orders, _) = scheduler.update(0.1, Some(&situation), &state, COMPARE);
    assert_eq!(orders[0].works.len(), 1);
    assert!(scheduler.rows().iter().all(|row| row.weighed().is_some()), "what was known stays to be seen");
    for report in reports(&orders[0], &mut solver) {
        scheduler.take(report);
    }
    let drawn = scheduler.rows()[0].weighed().unwrap();
    assert_eq!(drawn.shot.target, situation.shot.target);
}

#[test]
fn nothing_is_asked_for_that_nothing_shows() {
    let mut scheduler = CompareScheduler::default();
    let (orders, wait) = scheduler.update(0.0, Some(&demo()), &CompareState::default(), Needs::default());
    assert!(orders.is_empty() && wait.is_none());
}

#[test]
fn the_shots_beside_each_other_are_planned_on_from_once_they_are_aimed() {
    let (mut scheduler, mut solver) = (CompareScheduler::default(), Solver::new());
    let (situation, state) = (demo(), CompareState::default());
    let needs = Needs { plan: true, ..COMPARE };
    let (orders, _) = scheduler.update(0.0, Some(&situation), &state, needs);
    assert!(orders.iter().all(|order| order.kind == Kind::Compare), "not aimed yet");
    for report in reports(&orders[0], &mut solver) {
        scheduler.take(report);
    }
    let (orders, _) = scheduler.update(0.2, Some(&situation), &state, needs);
    let [order] = &orders[..] else { panic!("{}", orders.len()) };
    assert_eq!((order.kind, order.works.len()), (Kind::Plan, 2), "cross-court and down the line are ticked");
    for report in reports(order, &mut solver) {
        assert!(scheduler.take(report));
    }
    for choice in [Choice::CrossCourt, Choice::DownTheLine] {
        let item = Item::Usual(choice);
        let plan = scheduler.plan(item).expect("it is there");
        let aimed = scheduler.rows().iter().find(|row| row.item == item).unwrap().weighed().unwrap().shot;
        assert_eq!(plan.situation.shot, aimed);
        assert!(!plan.replies.is_empty());
    }
    assert!(scheduler.is_settled(Kind::Plan));
    assert!(scheduler.update(0.4, Some(&situation), &state, needs).0.is_empty());
}
