//! Live noting of a match with the number keys, through the accessibility tree; the tests count the inputs.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::{Key, Modifiers, accesskit::Role};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use standpoint_board::chart::score::{Ending, Miss, ServeNumber};
use standpoint_geometry::{End, Stroke, Wing};

use common::{
    Window,
    room::{button, notes, opened, press, type_path, until},
};

/// A window that notes a match, and the number of inputs made.
struct Scorer {
    window: Window,
    inputs: usize,
}

impl Scorer {
    fn new() -> Self {
        // High enough to show the whole panel.
        let mut window = opened(1440.0, 1900.0);
        button(&mut window, "Match, live");
        Self { window, inputs: 0 }
    }

    /// Presses keys one after the other; each is an input.
    fn keys(&mut self, keys: &[Key]) -> &mut Self {
        for key in keys {
            press(&mut self.window, Modifiers::NONE, *key);
            self.inputs += 1;
        }
        self
    }

    /// The prompt on the court.
    fn asked(&self) -> String {
        self.window.get_by_label("Court to note on").value().unwrap()
    }

    fn score(&self) -> String {
        let said = self.window.get_by_label("Score").value().unwrap();
        let after = said.split_once(": ").unwrap().1;
        after.split_once(';').unwrap().0.to_owned()
    }

    fn point(&self) -> standpoint_board::chart::Point {
        (**notes(&self.window).points().last().unwrap()).clone()
    }
}

#[test]
fn a_point_of_four_strokes_takes_at_most_ten_inputs_whoever_serves() {
    let mut scorer = Scorer::new();
    assert_eq!(scorer.asked(), "First serve, deuce side");
    // Serve to the T; return with the backhand; a forehand; the next backhand goes long, unforced.
    let rally = [Key::Num6, Key::B, Key::Num2, Key::F, Key::Num9, Key::B, Key::Num5, Key::Plus, Key::Period];
    scorer.keys(&rally);
    assert!(scorer.inputs <= 10, "{} inputs", scorer.inputs);
    let point = scorer.point();
    let [serve, return_, third, fourth] = point.shots[..] else { panic!("{point:?}") };
    assert_eq!((serve.stroke, serve.hitter), (Some(Stroke::Serve), End::Near));
    // The T from the deuce side, in the box on the left; seen from the near end.
    let landing = serve.landing.unwrap();
    assert!(landing.x < 0.0 && landing.x > -1.0 && (3.0..6.4).contains(&landing.y), "{landing}");
    assert_eq!((return_.hitter, return_.wing, third.wing), (End::Far, Some(Wing::Backhand), Some(Wing::Forehand)));
    assert_eq!((fourth.hitter, point.ending), (End::Far, Some(Ending::UnforcedError)));
    assert!(fourth.landing.unwrap().y < -11.9, "long");
    assert_eq!(scorer.score(), "0-0 15-0");
    assert_eq!(scorer.asked(), "First serve, ad side");
    // Three more aces, two inputs each, end the game; the other player then serves without a change of ends.
    scorer.inputs = 0;
    scorer.keys(&[Key::Num4, Key::Enter, Key::Num4, Key::Enter, Key::Num4, Key::Enter]);
    assert_eq!((scorer.score().as_str(), scorer.inputs), ("1-0 0-0", 6));
    let began = notes(&scorer.window).points().len();
    scorer.inputs = 0;
    scorer.keys(&[Key::Num5, Key::Num8, Key::Num1, Key::Minus, Key::Num0]);
    let point = scorer.point();
    assert_eq!((notes(&scorer.window).points().len(), scorer.inputs), (began + 1, 5));
    // The players change ends here, so the server is at the near end again; the program does not ask for the ends.
    assert_eq!((point.shots[0].hitter, point.ends), (End::Near, standpoint_board::chart::Ends::Changed));
    assert_eq!((point.shots.len(), point.ending), (4, Some(Ending::ForcedError)));
    assert_eq!(scorer.score(), "1-0 0-15");
}

#[test]
fn the_far_player_serves_first_at_the_key_of_the_other_end_and_faults_are_counted() {
    let mut scorer = Scorer::new();
    scorer.keys(&[Key::X]);
    // The keys follow the screen: the far player's wide serve from the deuce side is on the right.
    scorer.keys(&[Key::Num6, Key::Slash]);
    assert_eq!(scorer.asked(), "Second serve, deuce side");
    let fault = scorer.point().shots[0];
    assert!(fault.hitter == End::Far && fault.landing.unwrap().x > 4.1, "{fault:?}");
    scorer.keys(&[Key::Num5, Key::Period]);
    assert_eq!(scorer.asked(), "Second serve, deuce side", "a let is served again");
    scorer.keys(&[Key::Minus]);
    assert_eq!((scorer.score().as_str(), scorer.point().shots.len()), ("0-0 15-0", 3));
    let facts = standpoint_board::chart::score::facts(&scorer.point(), &standpoint_geometry::Court::default());
    assert_eq!((facts.ending, facts.serve), (Some(Ending::DoubleFault), Some(ServeNumber::Second)));
    assert_eq!(facts.miss, Some(Miss::Net));
    // Every input can be undone and corrected later.
    scorer.keys(&[Key::Backspace]);
    assert_eq!(scorer.asked(), "Second serve, deuce side");
    scorer.keys(&[Key::Num4, Key::Enter, Key::PageUp]);
    let window = &mut scorer.window;
    let combo = window.get_all_by_label("Won by").find(|n| n.accesskit_node().role() == Role::ComboBox).unwrap();
    combo.click();
    window.run_steps(3);
    let near = notes(window).setup().card(End::Near).name.clone();
    let choice = window.get_all_by_label(&near).find(|n| n.accesskit_node().role() == Role::Button).unwrap();
    choice.click();
    window.run_steps(3);
    scorer.keys(&[Key::Escape]);
    assert_eq!(scorer.score(), "0-0 15-0");
}

#[test]
fn the_clock_gives_every_stroke_its_time_and_the_moments_go_out() {
    let folder = tempfile::tempdir().unwrap();
    let mut scorer = Scorer::new();
    button(&mut scorer.window, "Start the clock");
    scorer.window.run_steps(30);
    scorer.keys(&[Key::Num6, Key::Num2, Key::Enter, Key::Num5, Key::Enter]);
    button(&mut scorer.window, "Pause");
    let noted = notes(&scorer.window);
    let times: Vec<f64> = noted.points().iter().flat_map(|point| &point.shots).map(|shot| shot.time.unwrap()).collect();
    assert!(times.len() == 3 && times.is_sorted() && times[0] > 0.0, "{times:?}");
    for (label, name, begins) in [
        ("Export video chapters…", "match.vtt", "WEBVTT\n\n00:00:"),
        ("Export video moments as CSV…", "match.csv", "start_s,end_s,start,session,video,point,shot,score"),
    ] {
        common::run(&mut scorer.window, label);
        let path = folder.path().join(name);
        type_path(&mut scorer.window, &path);
        until(&mut scorer.window, |_| path.exists());
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.starts_with(begins) && text.contains("0-15"), "{text}");
    }
}
