//! The reply opened by standing somewhere else than at the spot.

use glam::DVec2;

use crate::{
    shot::situation::Situation,
    solver::{
        Loaded, SolveError, Solver,
        answer::{Place, Reply},
        receipt,
    },
};

/// A standing place and the most dangerous reply against it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct WhatIf {
    /// The place and its exposure.
    pub place: Place,
    /// The opponent's most dangerous reply against it.
    pub reply: Reply,
    /// How far that ball passes out of reach at the best meeting point, m; 0 when it is reached in time.
    pub uncovered: f64,
}

impl Solver {
    /// Judges standing places one by one, world frame; the numbers are those of the field. Empty when the shot is a
    /// winner or leaves no reply.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn what_if(&mut self, situation: &Situation, places: &[DVec2]) -> Result<Vec<WhatIf>, SolveError> {
        let Some(Loaded { near, game, met, .. }) = self.loaded(situation)? else { return Ok(Vec::new()) };
        let (mover, turn) = (near.mover(), near.turn);
        let receipt = receipt(&near, &met);
        let mut judge = |place: &DVec2| {
            let seen = turn.turn2(*place);
            let reply = self.worst(&near, &game, &receipt, seen)?;
            let missing = mover.distance(seen, turn.turn3(reply.met_at)).map_or(0.0, |needed| {
                let time = mover.time_needed(seen, turn.turn3(reply.met_at)).unwrap_or(0.0) + reply.time_to_spare;
                needed - mover.stride.distance(time - mover.reaction)
            });
            let exposure = self.judge(&game, &[seen])[0];
            Some(WhatIf { place: Place { place: *place, exposure }, reply, uncovered: missing.max(0.0) })
        };
        Ok(places.iter().filter_map(&mut judge).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{player::presets::Level, questions::judge_place::tests::drive};

    #[test]
    fn elsewhere_more_is_lost_than_at_the_spot() {
        let situation = drive(DVec2::new(-3.2, 9.6), Level::Tournament);
        let mut solver = Solver::new();
        let answer = solver.solve(&situation).expect("it can be played");
        let play = answer.play().expect("it is met");
        let places = [play.spot.place, play.middle.place, play.spot.place - DVec2::new(3.0, 0.0)];
        let judged = solver.what_if(&situation, &places).expect("it can be played");
        assert!((judged[0].place.exposure - play.spot.exposure).abs() < 1e-3);
        assert!((judged[1].place.exposure - play.middle.exposure).abs() < 1e-3);
        assert!(judged[2].place.exposure > judged[0].place.exposure + 0.02);
        assert!(judged[2].uncovered >= judged[0].uncovered);
    }
}
