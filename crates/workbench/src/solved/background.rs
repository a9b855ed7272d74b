//! A thread that solves the game of the board in view; the next change of its players, court or ball cancels it.

use std::{
    sync::{
        Arc,
        atomic::{AtomicBool, Ordering},
        mpsc::{self, Receiver, TryRecvError},
    },
    thread,
};

use standpoint_geometry::worth::{Game, Games, Matchup};

use super::{Shelf, THREADS, find};

/// Time without a change of players, court and ball before their game is solved, s.
const PATIENCE_S: f64 = 0.4;

/// State of the background solver.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doing {
    /// The game of the board in view is known, or nobody solves it.
    Nothing,
    /// The game of the board in view is being solved.
    Solving,
}

/// Result of an update.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Update {
    /// A game has arrived: answers are to be computed anew.
    pub fresh: bool,
    /// Seconds after which to update again.
    pub wait: Option<f64>,
}

type Wake = Arc<dyn Fn() + Send + Sync>;

struct Job {
    matchup: Matchup,
    cancel: Arc<AtomicBool>,
    result: Receiver<Option<Game>>,
}

/// The background solver of a window.
pub struct Background {
    /// Shelf of games and waker; without them nothing is solved.
    works: Option<(Shelf, Wake)>,
    wanted: Option<Matchup>,
    /// When the wanted game last changed; the first one counts as unchanged.
    changed: f64,
    /// The game that is known, or that failed.
    settled: Option<Matchup>,
    job: Option<Job>,
    ready: Option<(Matchup, Game)>,
}

impl std::fmt::Debug for Background {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Background").field("doing", &self.doing()).finish_non_exhaustive()
    }
}

impl Background {
    /// A solver that does nothing: answers use the nearest level.
    #[must_use]
    pub fn off() -> Self {
        Self { works: None, wanted: None, changed: f64::NEG_INFINITY, settled: None, job: None, ready: None }
    }

    /// Takes games from a shelf or solves them, and calls `wake` when one is ready.
    #[must_use]
    pub fn new(shelf: Shelf, wake: impl Fn() + Send + Sync + 'static) -> Self {
        Self { works: Some((shelf, Arc::new(wake))), ..Self::off() }
    }

    /// What it is at.
    #[must_use]
    pub fn doing(&self) -> Doing {
        let waits = self.works.is_some() && self.wanted.is_some() && self.wanted != self.settled;
        if waits { Doing::Solving } else { Doing::Nothing }
    }

    /// Updates with the game that is wanted at `now`, s on the clock of the frames. A finished game is used only while
    /// `still`, so that no answer jumps during a drag.
    pub fn update(&mut self, now: f64, wanted: Option<&Matchup>, still: bool) -> Update {
        let mut update = Update { fresh: false, wait: None };
        if self.works.is_none() {
            return update;
        }
        if self.wanted.as_ref() != wanted {
            self.changed = if self.wanted.is_some() { now } else { f64::NEG_INFINITY };
            self.wanted = wanted.copied();
            self.settled = self.wanted.filter(|matchup| Games::shared().solved(matchup));
            self.ready = None;
            if let Some(job) = self.job.as_ref().filter(|job| Some(&job.matchup) != wanted) {
                job.cancel.store(true, Ordering::Relaxed);
            }
        }
        self.collect();
        if still && let Some((matchup, game)) = self.ready.take() {
            Games::shared().insert(matchup.canonical(), game);
            self.settled = Some(matchup);
            update.fresh = true;
        }
        if self.doing() == Doing::Solving && self.job.is_none() && self.ready.is_none() {
            let stood = now - self.changed;
            if stood < PATIENCE_S {
                update.wait = Some(PATIENCE_S - stood);
            } else {
                self.begin();
            }
        }
        update
    }

    /// Takes the result of the thread.
    fn collect(&mut self) {
        let Some(job) = &self.job else { return };
        let found = match job.result.try_recv() {
            Err(TryRecvError::Empty) => return,
            Ok(found) => found,
            Err(TryRecvError::Disconnected) => {
                // It panicked, and would again.
                self.settled = Some(job.matchup);
                None
            }
        };
        if let Some(game) = found.filter(|_| self.wanted == Some(job.matchup)) {
            self.ready = Some((job.matchup, game));
        }
        self.job = None;
    }

    fn begin(&mut self) {
        let Some(((shelf, wake), matchup)) = self.works.as_ref().zip(self.wanted) else { return };
        let (shelf, wake, cancel) = (shelf.clone(), Arc::clone(wake), Arc::new(AtomicBool::new(false)));
        let (send, result) = mpsc::channel();
        let stop = Arc::clone(&cancel);
        let work = move || {
            let found = find(&matchup.canonical(), &shelf, THREADS, &stop, || {});
            // The window may be closed.
            let _ = send.send(found.map(|(_, game)| game));
            wake();
        };
        match thread::Builder::new().name("rally".to_owned()).spawn(work) {
            Ok(_) => self.job = Some(Job { matchup, cancel, result }),
            // The nearest level stays in use.
            Err(_) => self.settled = Some(matchup),
        }
    }
}

impl Drop for Job {
    fn drop(&mut self) {
        self.cancel.store(true, Ordering::Relaxed);
    }
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use standpoint_board::Board;
    use standpoint_geometry::worth::{pack, stand_in};

    use super::*;
    use crate::solved::of_board;

    fn matchup(faster: f64) -> Matchup {
        let mut matchup = of_board(&Board::demo());
        matchup.players[0].movement.v_max += 1e-4 * faster;
        matchup
    }

    /// Updates until a condition holds, for at most ten seconds.
    fn until(background: &mut Background, wanted: &Matchup, so: impl Fn(&Background, Update) -> bool) {
        for _ in 0..2000 {
            let update = background.update(10.0, Some(wanted), true);
            if so(background, update) {
                return;
            }
            thread::sleep(Duration::from_millis(5));
        }
        panic!("it never came to be");
    }

    #[test]
    fn a_game_comes_in_from_the_shelf_and_is_taken_up_when_the_hand_rests() {
        let dir = tempfile::tempdir().unwrap();
        let shelf = Shelf::in_folder(dir.path().to_owned());
        let wanted = matchup(31.0);
        let canonical = wanted.canonical();
        shelf.put(&canonical, &pack(&canonical, &stand_in(&canonical).0)).unwrap();
        let mut background = Background::new(shelf, || {});
        assert_eq!(background.doing(), Doing::Nothing);
        let first = background.update(0.0, Some(&wanted), false);
        assert!(!first.fresh && first.wait.is_none(), "the first is begun at once");
        assert_eq!(background.doing(), Doing::Solving);
        thread::sleep(Duration::from_millis(50));
        assert!(!background.update(0.1, Some(&wanted), false).fresh, "the hand is at work");
        assert!(!Games::shared().solved(&wanted));
        until(&mut background, &wanted, |_, update| update.fresh);
        assert!(Games::shared().solved(&wanted));
        assert_eq!(background.doing(), Doing::Nothing);
        assert_eq!(background.update(11.0, Some(&wanted), true), Update { fresh: false, wait: None });
    }

    #[test]
    fn a_change_cancels_and_waits_until_it_has_stood() {
        let mut background = Background::new(Shelf::nowhere(), || {});
        let (one, other) = (matchup(41.0), matchup(42.0));
        background.update(0.0, Some(&one), true);
        let cancel = Arc::clone(&background.job.as_ref().unwrap().cancel);
        assert!(!cancel.load(Ordering::Relaxed));
        let update = background.update(1.0, Some(&other), true);
        assert!(cancel.load(Ordering::Relaxed), "the former is cancelled");
        assert!(!update.fresh);
        // Without a board the cancelled work ends and nothing else begins.
        for _ in 0..2000 {
            background.update(1.1, None, true);
            if background.job.is_none() {
                break;
            }
            thread::sleep(Duration::from_millis(5));
        }
        assert!(background.job.is_none() && background.doing() == Doing::Nothing);
        assert!(!Games::shared().solved(&one));
        background.update(2.0, Some(&one), true);
        let waits = background.update(2.1, Some(&other), true);
        let cancelled = background.job.as_ref().is_some_and(|job| job.cancel.load(Ordering::Relaxed));
        assert!(cancelled || waits.wait.is_some());
    }

    #[test]
    fn switched_off_it_does_nothing() {
        let mut background = Background::off();
        assert_eq!(background.update(0.0, Some(&matchup(51.0)), true), Update { fresh: false, wait: None });
        assert_eq!(background.doing(), Doing::Nothing);
    }
}
