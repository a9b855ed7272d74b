//! The derivation of a figure opens with one click or key.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::Key;
use egui_kittest::kittest::Queryable as _;
use standpoint_ui::commands::{Action, Command, HelpCommand};
use standpoint_workbench::{
    explain::{ExplainStep, describe},
    words,
};

use common::{app, window_of};

#[test]
fn a_click_on_a_figure_tells_its_step() {
    let mut window = window_of(1440.0, 900.0);
    let play = app(&window).session().play().unwrap().clone();
    window.get_by_label_contains("At the spot:").click();
    window.run_steps(4);
    let lost = words::points(play.spot.exposure);
    assert!(window.query_by_label("How the figures came about").is_some());
    assert!(window.query_by_label_contains(&format!("That is {lost} points in 100.")).is_some());
    // Only the requested step is open.
    assert!(window.query_by_label_contains("leaves the racket").is_none());
    window.key_press(Key::Escape);
    window.run_steps(2);
    assert!(window.query_by_label("How the figures came about").is_none());
}

#[test]
fn a_figure_is_reached_with_the_keys() {
    let mut window = window_of(1440.0, 900.0);
    window.get_by_label_contains("Clears the net by:").focus();
    window.run_steps(2);
    window.key_press(Key::Enter);
    window.run_steps(4);
    assert!(window.query_by_label_contains("leaves the racket").is_some());
}

#[test]
fn the_command_opens_the_whole_chain_with_the_numbers_of_this_shot() {
    let mut window = window_of(1440.0, 900.0);
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [Action::Run(Command::Help(HelpCommand::How))]);
    window.run_steps(4);
    let session = app(&window).session();
    let said = describe(session);
    assert_eq!(said.iter().map(|p| p.step).collect::<Vec<_>>(), ExplainStep::ALL);
    let play = session.play().unwrap();
    let all = |step: ExplainStep| said.iter().find(|p| p.step == step).unwrap().sentences.join(" ");
    for (step, figure) in [
        (ExplainStep::Flight, words::seconds(session.answer().unwrap().shot.landing.time)),
        (ExplainStep::GoesIn, words::percent(session.answer().unwrap().shot.chance_in)),
        (ExplainStep::Meeting, words::seconds(play.receipt.time)),
        (ExplainStep::Exposure, format!("{} points in 100", words::points(play.best[0].exposure))),
        (ExplainStep::Rules, words::more_points(play.middle.exposure - play.spot.exposure)),
        (ExplainStep::Recovery, words::seconds(play.recovery.needed)),
    ] {
        assert!(all(step).contains(&figure), "{step:?}: {figure} is not in {:?}", all(step));
    }
}

#[test]
fn what_is_kept_of_a_reply_and_its_chance_give_the_points_that_are_said() {
    // chance in x (1 - kept) = exposure: the step about the cost of a place is worded with this identity.
    let window = window_of(1440.0, 900.0);
    let play = app(&window).session().play().unwrap();
    for reply in &play.best {
        let kept = 1.0 - reply.exposure / reply.chance_in;
        assert!((0.0..=0.78).contains(&kept), "a ball is worth at most 0.78 at the net: {kept}");
    }
}
