//! The first kind of question: where to stand after the shot.
//!
//! A place is judged by the end of the run to it when the opponent strikes, at the back and at the net alike, against
//! the best place that can be reached by then. A player who stays where the ball was struck gets no points.

use glam::DVec2;
use standpoint_geometry::{Run, Solver};

use super::{exercise::Exercise, score};

/// The judgement of a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// Points from 0 to 100.
    pub score: u8,
    /// Share of points that the opponent wins beyond that against the best place that can be reached; negative where
    /// the place is better, which is an error of the model.
    pub extra: f64,
    /// Distance from the spot, or from the best place that can be reached if that is nearer, m.
    pub distance: f64,
}

/// Judges a place; `None` when no place matters, as the shot is a winner or leaves no reply.
#[must_use]
pub fn judge(exercise: &Exercise, place: DVec2, solver: &mut Solver) -> Option<Judged> {
    let runs = solver.runs(&exercise.board.situation(0, 0)?, &[start(exercise), place]).ok()??;
    let [nothing, run] = runs.as_slice() else { return None };
    let extra = run.reached.exposure - run.goal.exposure;
    let score = score::gained(points(run, place), points(nothing, start(exercise)));
    Some(Judged { score, extra, distance: distance(run, place) })
}

/// Whether the player has to move at all: doing nothing must not be a right answer.
#[must_use]
pub fn asks_to_move(exercise: &Exercise, solver: &mut Solver) -> bool {
    let runs = exercise.board.situation(0, 0).and_then(|situation| {
        // A situation that cannot be computed is no exercise.
        solver.runs(&situation, &[start(exercise)]).ok()?
    });
    runs.is_some_and(|runs| points(&runs[0], start(exercise)) < score::RIGHT)
}

/// The player's place when nothing is done: where the ball was struck.
fn start(exercise: &Exercise) -> DVec2 {
    exercise.board.hitter_place(exercise.spec())
}

fn points(run: &Run, place: DVec2) -> u8 {
    score::of_place((run.reached.exposure - run.goal.exposure).max(0.0), distance(run, place))
}

fn distance(run: &Run, place: DVec2) -> f64 {
    let of = |from: DVec2| from.distance(run.spot.place).min(from.distance(run.goal.place));
    of(place).min(of(run.reached.place))
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::Level;

    use super::{super::*, *};

    /// Situations of every theme, each asking for a move.
    fn situations(seeds: u64, solver: &mut Solver) -> Vec<Exercise> {
        let trainee = Trainee::of_level(Level::Tournament, false);
        let all = Theme::ALL.into_iter().flat_map(|theme| (0..seeds).map(move |seed| (theme, seed)));
        let drawn: Vec<Exercise> = all.map(|(theme, seed)| Exercise::drawn(theme, seed, trainee, solver)).collect();
        drawn.into_iter().filter(|exercise| asks_to_move(exercise, solver)).collect()
    }

    #[test]
    #[ignore = "not met: after an approach some places in mid-court are better by up to 0.08, and where the run ends can be a little better than the spot"]
    fn doing_nothing_scores_nothing_and_the_spot_scores_all() {
        let mut solver = Solver::new();
        let exercises = situations(6, &mut solver);
        assert!(exercises.len() >= 12, "{}", exercises.len());
        for exercise in &exercises {
            let spot = exercise.answer(&mut solver).unwrap().play().unwrap().spot.place;
            assert_eq!(judge(exercise, start(exercise), &mut solver).unwrap().score, 0, "{:?}", exercise.item);
            let there = judge(exercise, spot, &mut solver).unwrap();
            assert!(there.score >= 99, "{:?}: {there:?}", exercise.item);
        }
    }

    #[test]
    #[ignore = "not met: after an approach some places in mid-court are better by up to 0.08, and where the run ends can be a little better than the spot"]
    fn no_place_at_the_net_or_at_the_back_is_better_than_the_one_that_is_taught() {
        // Half a metre to either side and every metre in depth, over the whole side. The middle of a zone is taught,
        // not its best point: two points in a hundred are within it.
        let mut solver = Solver::new();
        let mut faults = Vec::new();
        for exercise in situations(6, &mut solver) {
            let situation = exercise.board.situation(0, 0).unwrap();
            let places: Vec<DVec2> =
                (-10..=10).flat_map(|i| (2..=16).map(move |j| DVec2::new(f64::from(i) * 0.5, -f64::from(j)))).collect();
            let runs = solver.runs(&situation, &places).unwrap().unwrap();
            let best = runs.iter().min_by(|a, b| a.reached.exposure.total_cmp(&b.reached.exposure)).unwrap();
            let by = best.goal.exposure - best.reached.exposure;
            if by > 0.02 {
                faults.push(format!(
                    "{:?}: {:.1} is better by {by:.3} than {:.1} (spot {:.1})",
                    exercise.item, best.reached.place, best.goal.place, best.spot.place
                ));
            }
        }
        assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
    }
}
