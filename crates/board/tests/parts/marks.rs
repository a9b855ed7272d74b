use glam::DVec2;
use standpoint_board::{
    Board, Page,
    marks::{Appears, Form, Ink, Layer, MarkId, Marks, Pattern, Step, smoothed},
};

#[test]
fn a_zone_is_hit_inside_and_a_cone_on_it_first() {
    let mut marks = Marks::default();
    let zone = Form::Zone { from: DVec2::new(-2.0, -9.0), to: DVec2::new(2.0, -7.0), round: true };
    let zone = marks.add(Layer::Drill, Ink::Plain, zone);
    let cone = marks.add(Layer::Drill, Ink::Plain, Form::Cone { at: DVec2::new(0.5, -8.0) });
    assert_eq!(marks.under(DVec2::new(0.6, -8.0), 0.3), Some(cone));
    assert_eq!(marks.under(DVec2::new(-1.0, -8.0), 0.3), Some(zone));
    assert_eq!(marks.under(DVec2::new(-1.9, -7.05), 0.05), None);
}

#[test]
fn hidden_layers_are_neither_shown_nor_hit() {
    let mut marks = Marks::default();
    marks.add(Layer::Drill, Ink::Plain, Form::Cone { at: DVec2::ZERO });
    marks.show(Layer::Drill, false);
    assert_eq!(marks.under(DVec2::ZERO, 1.0), None);
    assert_eq!(marks.shown().count(), 0);
    marks.show(Layer::Drill, true);
    assert_eq!(marks.shown().count(), 1);
}

#[test]
fn numbers_are_never_used_twice_while_their_mark_lives() {
    let mut marks = Marks::default();
    let a = marks.add(Layer::Sketch, Ink::Ball, Form::Cone { at: DVec2::ZERO });
    let b = marks.copy(&[a], DVec2::X);
    assert_ne!(a, b[0]);
    marks.remove(&[a]);
    let c = marks.add(Layer::Sketch, Ink::Ball, Form::Cone { at: DVec2::ZERO });
    assert!(marks.get(b[0]).is_some() && c != b[0]);
}

#[test]
fn smoothing_keeps_the_ends_and_stays_near_the_hand() {
    let hand: Vec<DVec2> = (0..200)
        .map(|i| f64::from(i) * 0.03)
        .map(|x| DVec2::new(x, (x * 1.3).sin() + 0.01 * (x * 97.0).sin()))
        .collect();
    let line = smoothed(&hand, 0.05);
    assert_eq!((line[0], line[line.len() - 1]), (hand[0], hand[199]));
    assert!(line.len() < 100);
    let form = Form::Pen { points: line, pattern: Pattern::Solid };
    assert!(hand.iter().all(|p| form.distance(*p) < 0.15));
}

#[test]
fn a_bent_arrow_passes_its_bend_and_mirrors_with_it() {
    let arrow = Form::Arrow { from: DVec2::ZERO, to: DVec2::new(4.0, 0.0), bend: 0.8, pattern: Pattern::Solid };
    assert!(arrow.distance(DVec2::new(2.0, 0.8)) < 1e-9);
    assert!(arrow.mirrored().distance(DVec2::new(-2.0, 0.8)) < 1e-9);
}

#[test]
fn a_mark_is_there_from_its_step_on_and_stays_for_the_shots_that_come_after() {
    let mut marks = Marks::default();
    let of = |marks: &mut Marks, shot, step| {
        let id = marks.add(Layer::Sketch, Ink::Ball, Form::Cone { at: DVec2::ZERO });
        marks.get_mut(id).unwrap().appears = Appears { shot, step };
        id
    };
    let usual = of(&mut marks, 0, Step::Shot);
    let answer = of(&mut marks, 0, Step::Answer);
    let second = of(&mut marks, 1, Step::Angle);
    let gone = of(&mut marks, 7, Step::Replies);
    let there = |shot, step| -> Vec<MarkId> {
        marks.until(Appears { shot, step }, 2).list.iter().map(|mark| mark.id).collect()
    };
    assert_eq!(there(0, Step::Shot), [usual]);
    assert_eq!(there(0, Step::Replies), [usual]);
    assert_eq!(there(0, Step::Answer), [usual, answer]);
    assert_eq!(there(1, Step::Shot), [usual, answer]);
    assert_eq!(there(1, Step::Angle), [usual, answer, second]);
    assert_eq!(there(1, Step::Replies), [usual, answer, second, gone], "a shot that is not there is the last one");
}

#[test]
fn marks_stay_with_their_shot_when_shots_come_and_go() {
    let mut page = Board::demo().pages[0].as_ref().clone();
    let spec = page.shots[0];
    let usual = page.marks.add(Layer::Sketch, Ink::Ball, Form::Cone { at: DVec2::ZERO });
    let answer = page.marks.add(Layer::Sketch, Ink::Ball, Form::Cone { at: DVec2::ONE });
    page.marks.get_mut(answer).unwrap().appears.step = Step::Answer;
    page.insert_shot(0, spec);
    let appears = |page: &Page, id| page.marks.get(id).unwrap().appears;
    assert_eq!(appears(&page, answer), Appears { shot: 1, step: Step::Answer });
    assert_eq!(appears(&page, usual), Appears::AT_ONCE);
    page.remove_shot(0, None);
    assert_eq!(appears(&page, answer), Appears { shot: 0, step: Step::Answer });
}
