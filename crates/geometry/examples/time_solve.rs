//! Scratch.
use std::{sync::atomic::AtomicBool, time::Instant};
use standpoint_geometry::{presets::Level, worth::{matchup, stand_in, Behaviour, Game}};
fn main() {
    for (a, b) in [(Level::ProMan, Level::ProMan), (Level::Club, Level::Tournament)] {
        let mut m = matchup(a);
        m.players[1] = matchup(b).players[0];
        m.conditions.surface = standpoint_geometry::surface::Surface::from_pace(45.0);
        for fresh in [false, true] {
        let t = Instant::now();
        let (mut game, _) = stand_in(&m);
        if fresh { game = Game::new(&m.conditions, [&m.players[0], &m.players[1]], &Behaviour::default(), 0.48); }
        let t1 = t.elapsed();
        let mut steps = Vec::new();
        game.rounds = 0;
        let before = game.describe();
        for _ in 0..10 { let t = Instant::now(); game.round(2, &AtomicBool::new(false)); game.rounds += 1; steps.push(format!("{:.2}s {:.4}", t.elapsed().as_secs_f64(), game.change)); if game.change < 0.0015 { break } }
        println!("{a:?} {b:?} fresh {fresh}: stand-in {t1:?}, {steps:?}, total {:?}\n  {before}\n  {}", t.elapsed(), game.describe());
        }
    }
}
