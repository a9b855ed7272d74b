//! Plays the points on several threads, the same whatever their number.

use std::{
    sync::{
        Mutex, PoisonError,
        atomic::{AtomicU32, Ordering},
    },
    thread,
};

use standpoint_geometry::worth::{Game, PlayedStroke, Simulation};

/// Points of a block, which has a seed of its own and is played by one thread.
const BLOCK: u32 = 240;
/// Points between which the serve changes hands: about a game.
const SERVED_IN_A_ROW: u32 = 6;

/// The strokes of so many points in order; `None` on a court without service boxes.
pub fn points(game: &Game, points: u32, seed: u64, threads: usize) -> Option<Vec<PlayedStroke>> {
    let blocks = points.div_ceil(BLOCK);
    let next = AtomicU32::new(0);
    let played = Mutex::new(vec![Vec::new(); blocks as usize]);
    let work = || -> Option<()> {
        loop {
            let block = next.fetch_add(1, Ordering::Relaxed);
            if block >= blocks {
                return Some(());
            }
            let strokes = play(game, block, points, seed)?;
            played.lock().unwrap_or_else(PoisonError::into_inner)[block as usize] = strokes;
        }
    };
    let done: Vec<_> = thread::scope(|scope| {
        let workers: Vec<_> = (0..threads.clamp(1, blocks as usize)).map(|_| scope.spawn(work)).collect();
        workers.into_iter().map(thread::ScopedJoinHandle::join).collect()
    });
    for result in done {
        result.unwrap_or_else(|panic| std::panic::resume_unwind(panic))?;
    }
    Some(played.into_inner().unwrap_or_else(PoisonError::into_inner).concat())
}

fn play(game: &Game, block: u32, points: u32, seed: u64) -> Option<Vec<PlayedStroke>> {
    let mut simulation = Simulation::new(game, mixed(seed, block));
    let mut strokes = Vec::new();
    for number in block * BLOCK..((block + 1) * BLOCK).min(points) {
        let server = (number / SERVED_IN_A_ROW % 2) as usize;
        simulation.point(number, server, number % 2 == 1, &mut strokes).then_some(())?;
    }
    Some(strokes)
}

/// The seed of a block: similar seeds become unlike (the finaliser of MurmurHash3, Appleby).
fn mixed(seed: u64, block: u32) -> u64 {
    let mut z = seed.rotate_left(32) ^ (u64::from(block) + 1).wrapping_mul(0xd6e8_feb8_6659_fd93);
    for _ in 0..2 {
        z = (z ^ (z >> 33)).wrapping_mul(0xff51_afd7_ed55_8ccd);
        z = (z ^ (z >> 33)).wrapping_mul(0xc4ce_b9fe_1a85_ec53);
        z ^= z >> 33;
    }
    z
}

#[cfg(test)]
mod tests {
    use standpoint_board::Board;
    use standpoint_geometry::worth::stand_in;
    use standpoint_workbench::solved::of_board;

    use super::*;

    #[test]
    fn points_are_the_same_with_any_number_of_threads_and_other_with_another_seed() {
        let (game, _) = stand_in(&of_board(&Board::demo()));
        let count = BLOCK + 3;
        let one = points(&game, count, 5, 1).unwrap();
        assert_eq!(points(&game, count, 5, 3).unwrap(), one);
        assert_ne!(points(&game, count, 6, 1).unwrap(), one);
        assert_eq!(one.iter().filter(|s| s.number == 1 && s.serve == 1).count(), count as usize);
        let numbers: Vec<u32> = one.iter().map(|s| s.point).collect();
        assert!(numbers.is_sorted());
        let fewer = points(&game, 10, 5, 2).unwrap();
        assert_eq!(fewer[..], one[..fewer.len()], "more points begin with the same ones");
        for stroke in &one {
            assert_eq!(u32::from(stroke.server), stroke.point / 6 % 2);
            assert_eq!(stroke.ad, stroke.point % 2 == 1);
        }
    }
}
