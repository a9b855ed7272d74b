//! Solves every level against itself and writes the tables that the program ships.
//!
//! `cargo run --release -p standpoint-geometry --example level_tables -- [name ...]`, run by `scripts/level-tables`.

#![allow(clippy::print_stdout, reason = "a tool says what it did")]

use std::{path::Path, sync::atomic::AtomicBool, time::Instant};

use standpoint_geometry::{
    Level, Wing,
    worth::{file_name, matchup, pack, stand_in},
};

fn main() -> std::io::Result<()> {
    let wanted: Vec<String> = std::env::args().skip(1).collect();
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    for level in Level::ALL {
        let name = file_name(level);
        if !wanted.is_empty() && !wanted.iter().any(|w| w == name) {
            continue;
        }
        let start = Instant::now();
        let matchup = matchup(level);
        // From the table that is there, if it fits: it is most of the way.
        let (mut game, _) = stand_in(&matchup);
        game.settle(threads, &AtomicBool::new(false));
        let bytes = pack(&matchup, &game);
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tables").join(format!("{name}.worth"));
        std::fs::write(&file, &bytes)?;
        println!(
            "{name}: {} rounds, last change {:.4}, {:.1} s, {} bytes; a ball at leisure a metre behind the baseline {:.3}",
            game.rounds,
            game.change,
            start.elapsed().as_secs_f64(),
            bytes.len(),
            game.worth_at(
                0,
                [0.0, matchup.conditions.court.half_length() as f32 + 1.0, 1.0],
                false,
                Wing::Forehand,
                0.9
            )
            .0
        );
    }
    Ok(())
}
