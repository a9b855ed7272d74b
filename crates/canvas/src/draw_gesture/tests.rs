use egui::pos2;
use glam::dvec2;

use super::*;
use crate::grips::Part;

/// A pointer pressed at the first place and moved along the others; ten points per metre.
fn along(pencil: &mut DrawGesture, tool: Tool, over: Over, places: &[DVec2]) -> Vec<Effect> {
    let at = |p: DVec2| pos2(p.x as f32 * 10.0, p.y as f32 * 10.0);
    let press = Input::Press { at: at(places[0]), place: places[0], over, add: false };
    let mut effects = pencil.step(tool, press, "A");
    for place in &places[1..] {
        effects.extend(pencil.step(tool, Input::Move { at: at(*place), place: *place, over: None }, "A"));
    }
    effects
}

fn whole(tool: Tool, over: Over, places: &[DVec2]) -> Vec<Effect> {
    let mut pencil = DrawGesture::default();
    let mut effects = along(&mut pencil, tool, over, places);
    effects.extend(pencil.step(tool, Input::Release, "A"));
    assert!(pencil.is_idle());
    effects
}

const WAY: [DVec2; 3] = [dvec2(0.0, 0.0), dvec2(1.0, 0.0), dvec2(2.0, 1.0)];

#[test]
fn a_ball_goes_solid_and_a_player_dashed() {
    for (tool, expected) in [(Tool::BallWay, Pattern::Solid), (Tool::PlayerWay, Pattern::Dashed)] {
        let effects = whole(tool, Over::Bare, &WAY);
        let [Effect::Add(Form::Arrow { from, to, bend, pattern })] = &effects[..] else { panic!("{effects:?}") };
        assert_eq!((*from, *to, *pattern), (WAY[0], WAY[2], expected));
        assert!(bend.abs() < 1e-12);
    }
}

#[test]
fn a_click_draws_no_arrow_and_no_zone() {
    for tool in [Tool::BallWay, Tool::PlayerWay, Tool::Zone, Tool::Oval] {
        assert_eq!(whole(tool, Over::Bare, &[WAY[0], dvec2(0.1, 0.0)]), [Effect::Choose(None, false)]);
    }
}

#[test]
fn a_pen_draws_where_the_hand_went() {
    let effects = whole(Tool::Pen, Over::Bare, &WAY);
    assert_eq!(effects, [Effect::Add(Form::Pen { points: WAY.to_vec(), pattern: Pattern::Solid })]);
    assert!(whole(Tool::Pen, Over::Bare, &WAY[..1]).is_empty(), "a dot is no line");
}

#[test]
fn a_thing_stands_where_the_pointer_goes_up() {
    assert_eq!(whole(Tool::Cone, Over::Bare, &WAY), [Effect::Add(Form::Cone { at: WAY[2] })]);
    assert_eq!(whole(Tool::Basket, Over::Bare, &WAY[..1]), [Effect::Add(Form::Basket { at: WAY[0] })]);
    let person = Form::Person { at: WAY[0], letter: "A".to_owned() };
    assert_eq!(whole(Tool::Person, Over::Bare, &WAY[..1]), [Effect::Add(person)]);
    assert_eq!(whole(Tool::Words, Over::Bare, &WAY[..1]), [Effect::Write(WAY[0])]);
}

#[test]
fn a_mark_is_chosen_by_a_click_and_carried_by_a_drag() {
    let over = Over::Mark(4, dvec2(0.5, 0.0));
    assert_eq!(whole(Tool::Select, over, &WAY[..1]), [Effect::Choose(Some(4), false)]);
    let effects = whole(Tool::Select, over, &WAY[..2]);
    let carried = Effect::Carry(4, dvec2(1.5, 0.0));
    assert_eq!(effects, [Effect::Begin("Move marks"), carried, Effect::Commit], "the grip is kept");
}

#[test]
fn the_bare_court_gathers_what_lies_inside() {
    assert_eq!(whole(Tool::Select, Over::Bare, &WAY), [Effect::Gather(WAY[0], WAY[2], false)]);
    assert_eq!(whole(Tool::Select, Over::Bare, &WAY[..1]), [Effect::Choose(None, false)]);
}

#[test]
fn a_part_is_pulled_with_any_tool_that_draws() {
    let grip = Grip { mark: 2, part: Part::Bend };
    for tool in [Tool::Select, Tool::BallWay, Tool::Pen] {
        let effects = whole(tool, Over::Grip(grip, dvec2(0.0, 0.5)), &WAY[..2]);
        assert_eq!(effects, [Effect::Begin("Change a mark"), Effect::Pull(grip, dvec2(1.0, 0.5)), Effect::Commit]);
        assert!(whole(tool, Over::Grip(grip, WAY[0]), &WAY[..1]).is_empty(), "a still press changes nothing");
    }
}

#[test]
fn the_eraser_takes_what_it_passes_over_in_one_step() {
    let mut pencil = DrawGesture::default();
    let mut effects = along(&mut pencil, Tool::Eraser, Over::Mark(1, WAY[0]), &WAY[..1]);
    let over = Input::Move { at: pos2(9.0, 9.0), place: WAY[1], over: Some(2) };
    effects.extend(pencil.step(Tool::Eraser, over, "A"));
    effects.extend(pencil.step(Tool::Eraser, Input::Release, "A"));
    assert_eq!(effects, [Effect::Begin("Erase"), Effect::Erase(1), Effect::Erase(2), Effect::Commit]);
}

#[test]
fn everything_can_be_given_up() {
    let grip = Over::Grip(Grip { mark: 2, part: Part::Head }, WAY[0]);
    for (tool, over, expected) in [
        (Tool::Pen, Over::Bare, vec![]),
        (Tool::BallWay, Over::Bare, vec![]),
        (Tool::Cone, Over::Bare, vec![]),
        (Tool::Select, Over::Bare, vec![]),
        (Tool::Select, Over::Mark(1, WAY[0]), vec![Effect::Cancel]),
        (Tool::Select, grip, vec![Effect::Cancel]),
        (Tool::Eraser, Over::Bare, vec![Effect::Cancel]),
    ] {
        let mut pencil = DrawGesture::default();
        along(&mut pencil, tool, over, &WAY);
        assert_eq!(pencil.step(tool, Input::Cancel, "A"), expected, "{tool:?}");
        assert!(pencil.is_idle());
        assert!(pencil.step(tool, Input::Move { at: pos2(0.0, 0.0), place: WAY[0], over: None }, "A").is_empty());
    }
}

#[test]
fn the_hint_follows_from_the_state() {
    let mut pencil = DrawGesture::default();
    assert_eq!(pencil.hint(), None);
    along(&mut pencil, Tool::Eraser, Over::Bare, &WAY);
    assert!(pencil.hint().is_some_and(|hint| hint.contains("Escape")));
}
