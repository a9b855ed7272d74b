//! The solved game for two players: an exact one where it is known, else the nearest shipped level.

use std::sync::{
    Arc, LazyLock, Mutex, PoisonError,
    atomic::{AtomicU64, Ordering},
};

use super::{behaviour::Behaviour, lattice::Table, levels, matchup::Matchup, solve::Game};

/// Most solved games and stand-ins that are kept.
const MOST: usize = 8;

/// Whether the game of an answer was solved for its players.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Basis {
    /// The rally was solved for exactly these players, court and ball.
    Solved,
    /// The rally of the nearest shipped level stands in until the exact one is solved.
    #[default]
    Level,
}

struct Kept {
    matchup: Matchup,
    game: Arc<Game>,
    basis: Basis,
}

/// The games known to this process: solves add them, answers read them.
#[derive(Default)]
pub struct Games {
    kept: Mutex<Vec<Kept>>,
    generation: AtomicU64,
}

impl std::fmt::Debug for Games {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Games").field("generation", &self.generation()).finish_non_exhaustive()
    }
}

static SHARED: LazyLock<Games> = LazyLock::new(Games::default);

impl Games {
    /// The games of this process.
    #[must_use]
    pub fn shared() -> &'static Self {
        &SHARED
    }

    /// Grows with every game that is added.
    #[must_use]
    pub fn generation(&self) -> u64 {
        self.generation.load(Ordering::Acquire)
    }

    /// Adds a solved game.
    pub fn insert(&self, matchup: Matchup, game: Game) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|k| k.basis == Basis::Solved && k.matchup != matchup);
        kept.insert(0, Kept { matchup, game: Arc::new(game), basis: Basis::Solved });
        kept.truncate(MOST);
        self.generation.fetch_add(1, Ordering::Release);
    }

    /// Whether a matchup has been solved.
    #[must_use]
    pub fn solved(&self, matchup: &Matchup) -> bool {
        let wanted = matchup.canonical();
        levels::exact(&wanted).is_some() || {
            let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
            kept.iter().any(|k| k.basis == Basis::Solved && k.matchup == wanted)
        }
    }

    /// The game in which the first player of a matchup is player 0, and how far it can be trusted.
    #[must_use]
    pub fn get(&self, matchup: &Matchup) -> (Arc<Game>, Basis) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(at) = kept.iter().position(|k| k.matchup == *matchup) {
            let found = kept.remove(at);
            let answer = (Arc::clone(&found.game), found.basis);
            kept.insert(0, found);
            return answer;
        }
        // The same rally may already be solved with players swapped or mirrored.
        let forms = [matchup.swapped(), matchup.mirrored(), matchup.swapped().mirrored()];
        let same = kept.iter().filter(|k| k.basis == Basis::Solved).find_map(|k| {
            let at = forms.iter().position(|f| *f == k.matchup)?;
            Some(k.game.turned(at != 1, at != 0))
        });
        let (game, basis) = match same {
            Some(game) => (game, Basis::Solved),
            None => stand_in(matchup),
        };
        let game = Arc::new(game);
        kept.insert(0, Kept { matchup: *matchup, game: Arc::clone(&game), basis });
        if kept.len() > MOST {
            // Stand-ins are cheap to make again, so the oldest of them is dropped first.
            let oldest = kept.iter().rposition(|k| k.basis == Basis::Level).filter(|at| *at > 0);
            kept.remove(oldest.unwrap_or(MOST));
        }
        (game, basis)
    }
}

/// The game of a matchup with the tables of the nearest levels.
#[must_use]
pub fn stand_in(matchup: &Matchup) -> (Game, Basis) {
    let mut game =
        Game::new(&matchup.conditions, [&matchup.players[0], &matchup.players[1]], &Behaviour::default(), 0.48);
    if let Some(level) = levels::exact(matchup) {
        for side in 0..game.sides.len() {
            game.set_table(side, level.clone());
        }
        return (game, Basis::Solved);
    }
    for side in 0..game.sides.len() {
        if let Some(table) = levels::nearest(&matchup.conditions, &matchup.players[side]) {
            let table: Table = table.clone();
            let left = matchup.players[side].hand.forehand_sign() < 0.0;
            let table = if left { table.mirrored(&game.sides[side].lattice) } else { table };
            game.set_table(side, table);
        }
    }
    (game, Basis::Level)
}
