//! A rally: each shot starts where the last one was received, with both players at their actual places.
//!
//! A shot that *follows* keeps its own stroke, target, speed and spin; everything else comes from the answer to the
//! shot before it. [`Rally`] resolves shot by shot and caches answers, so that a change costs only the shots after it,
//! and those only on demand.

use glam::DVec2;
use standpoint_geometry::{Answer, Play, Situation, SolveError, Solver};
use standpoint_language::tr;

use crate::model::{Board, Page, ShotSpec};

/// A shot resolved by the shots before it.
#[derive(Debug, Clone, PartialEq)]
pub struct Resolved {
    /// The shot with its real contact and places.
    pub spec: ShotSpec,
    /// The situation of the shot.
    pub situation: Situation,
    /// The answer, or why the shot cannot be played.
    pub result: Result<Answer, SolveError>,
}

impl Resolved {
    /// The play, when the opponent meets the ball.
    #[must_use]
    pub fn play(&self) -> Option<&Play> {
        self.result.as_ref().ok()?.play()
    }

    /// The hitter's place when the opponent strikes: the model's, or as far as time allows on the way to the place
    /// chosen instead.
    #[must_use]
    pub fn recovered(&self, play: &Play) -> DVec2 {
        let Some(to) = self.spec.recover_to else { return play.recovery.reached.place };
        let movement = &self.situation.hitter.movement;
        let way = to - play.recovery.start;
        let range = movement.stride().distance(play.receipt.time - movement.follow_through_s);
        play.recovery.start + way.clamp_length_max(range.max(0.0))
    }
}

/// Why a shot of a rally never happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Ended {
    /// An earlier shot could not be played.
    #[error("{}", tr!("shot {} cannot be played, so the rally ends there", .0))]
    Unplayable(usize),
    /// An earlier shot was not returned.
    #[error("{}", tr!("shot {} is not returned, so the rally ends there", .0))]
    NotReturned(usize),
}

/// Cache of the answers of one page's rally.
#[derive(Debug, Clone, Default)]
pub struct Rally {
    known: Vec<Resolved>,
}

impl Rally {
    /// An empty cache.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Clears the cache, as for another page.
    pub fn clear(&mut self) {
        self.known.clear();
    }

    /// The shot at `index` with its answer; shots before it are resolved where they have changed.
    ///
    /// # Errors
    /// [`Ended`] (counting shots from 1) when an earlier shot ends the rally.
    ///
    /// # Panics
    /// Never for an index of a shot on the page.
    pub fn resolve(
        &mut self,
        board: &Board,
        page: &Page,
        index: usize,
        solver: &mut Solver,
    ) -> Result<&Resolved, Ended> {
        for i in 0..=index.min(page.shots.len().saturating_sub(1)) {
            let (spec, situation) = self.question(board, page, i)?;
            if let Some(known) = self.known.get_mut(i).filter(|k| k.situation == situation) {
                // The recovery place does not affect this shot's own answer.
                known.spec = spec;
                continue;
            }
            self.known.truncate(i);
            let result = solver.solve(&situation);
            self.known.push(Resolved { spec, situation, result });
        }
        Ok(&self.known[index])
    }

    /// The resolved shot at `index` and its situation; those before it must be known.
    fn question(&self, board: &Board, page: &Page, index: usize) -> Result<(ShotSpec, Situation), Ended> {
        let (spec, hitter_pressure) = if index > 0 && page.shots[index].follows {
            follow(&self.known[index - 1], &page.shots[index], index)?
        } else {
            (page.shots[index], 0.0)
        };
        Ok((spec, Situation { hitter_pressure, ..board.situation_of(&spec) }))
    }

    /// Drops outdated answers, without computing anything.
    pub fn trim(&mut self, board: &Board, page: &Page) {
        let right = |rally: &mut Self, i: usize| {
            let Ok((spec, situation)) = rally.question(board, page, i) else { return false };
            let known = &mut rally.known[i];
            known.spec = spec;
            known.situation == situation
        };
        let count = self.known.len().min(page.shots.len());
        let right = (0..count).find(|i| !right(self, *i)).unwrap_or(count);
        self.known.truncate(right);
    }

    /// The shots known so far, in order.
    #[must_use]
    pub fn all_known(&self) -> &[Resolved] {
        &self.known
    }

    /// Why the first unknown shot cannot happen, or `None` if it only has not been computed.
    #[must_use]
    pub fn ended(&self, page: &Page) -> Option<Ended> {
        let next = self.known.len();
        let before = next.checked_sub(1).and_then(|i| self.known.get(i))?;
        page.shots.get(next).filter(|spec| spec.follows).and_then(|spec| follow(before, spec, next).err())
    }

    /// The shot at `index`, if it is already known for this state of the board.
    #[must_use]
    pub fn known(&self, index: usize) -> Option<&Resolved> {
        self.known.get(index)
    }

    /// Computes one more shot and returns whether there are more; for idle time.
    pub fn advance(&mut self, board: &Board, page: &Page, solver: &mut Solver) -> bool {
        let next = self.known.len();
        next < page.shots.len()
            && self.resolve(board, page, next, solver).is_ok()
            && next + 1 < page.shots.len()
            && self.ended(page).is_none()
    }
}

/// The shot after another one, with contact and places from its answer.
fn follow(before: &Resolved, spec: &ShotSpec, index: usize) -> Result<(ShotSpec, f64), Ended> {
    let Ok(answer) = &before.result else { return Err(Ended::Unplayable(index)) };
    let Some(play) = answer.play() else { return Err(Ended::NotReturned(index)) };
    let mut spec = *spec;
    spec.hitter_end = before.spec.hitter_end.other();
    spec.shot.contact = play.receipt.contact;
    spec.hitter_place = Some(play.receipt.place);
    spec.opponent_place = before.recovered(play);
    Ok((spec, play.receipt.pressure))
}

impl Page {
    /// Inserts a shot into the rally; the shots after it follow. Before the first shot it is the new first one, which
    /// follows nothing, and the former first one follows it.
    pub fn insert_shot(&mut self, index: usize, spec: ShotSpec) {
        let index = index.min(self.shots.len());
        self.shots.insert(index, spec);
        self.marks.shot_inserted(index);
        if index == 0 {
            self.shots[0].follows = false;
            if let Some(second) = self.shots.get_mut(1) {
                second.follows = true;
            }
        }
        self.realign(index);
    }

    /// Removes a shot from the rally, but not the last one.
    ///
    /// Returns whether it was removed.
    pub fn remove_shot(&mut self, index: usize, resolved: Option<&ShotSpec>) -> bool {
        if self.shots.len() < 2 || index >= self.shots.len() {
            return false;
        }
        self.shots.remove(index);
        self.marks.shot_removed(index);
        // Without the first shot the next one cannot follow any; it keeps its place.
        if index == 0 {
            if let Some(known) = resolved {
                self.shots[0] = *known;
            }
            self.shots[0].follows = false;
        }
        self.realign(index);
        true
    }

    /// Puts the shots from `from` on at alternate ends: a shot that follows is struck from the other end than the one
    /// before, and is turned by half a turn with all its places where it was not.
    fn realign(&mut self, from: usize) {
        for i in from.max(1)..self.shots.len() {
            let end = self.shots[i - 1].hitter_end.other();
            let spec = &mut self.shots[i];
            if spec.follows && spec.hitter_end != end {
                *spec = spec.turned();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        patterns::Pattern,
        playback::{Control, Playback, Timeline},
    };

    fn resolved(board: &Board, page: &Page) -> Vec<Resolved> {
        let (mut rally, mut solver) = (Rally::new(), Solver::new());
        (0..page.shots.len()).map_while(|i| rally.resolve(board, page, i, &mut solver).ok().cloned()).collect()
    }

    #[test]
    fn every_pattern_can_be_played_to_its_end_on_both_wings() {
        let board = Board::blank();
        for pattern in Pattern::ALL {
            for mirrored in [false, true] {
                let page = pattern.page(&board, mirrored);
                let held = Board { pages: vec![std::sync::Arc::new(page.clone())], ..board.clone() };
                assert_eq!(crate::check::check(&held), vec![], "such a page can be saved");
                let shots = resolved(&board, &page);
                let told: Vec<String> = shots
                    .iter()
                    .map(|r| match &r.result {
                        Ok(a) => format!("{:?}", a.play().map(|p| p.receipt.contact)),
                        Err(e) => e.to_string(),
                    })
                    .collect();
                assert_eq!(shots.len(), page.shots.len(), "{pattern:?} {mirrored}: {told:#?}");
                assert!(shots.iter().all(|r| r.result.is_ok()), "{pattern:?} {mirrored}: {told:#?}");
            }
        }
    }

    #[test]
    fn a_shot_starts_where_the_one_before_was_received() {
        let board = Board::blank();
        let page = Pattern::CrossCrossLine.page(&board, false);
        let shots = resolved(&board, &page);
        for pair in shots.windows(2) {
            let play = pair[0].play().expect("the rally goes on");
            assert_eq!(pair[1].spec.shot.contact, play.receipt.contact);
            assert_eq!(pair[1].spec.opponent_place, play.recovery.reached.place);
            assert_eq!(pair[1].spec.hitter_end, pair[0].spec.hitter_end.other());
        }
    }

    #[test]
    fn later_shots_follow_a_new_target() {
        let board = Board::blank();
        let mut page = Pattern::CrossCrossLine.page(&board, false);
        let before = resolved(&board, &page);
        page.shots[0].shot.target.x += 1.0;
        let after = resolved(&board, &page);
        assert!(after[1].spec.shot.contact.x > before[1].spec.shot.contact.x + 0.5);
        assert_eq!(after[1].spec.shot.target, before[1].spec.shot.target);
    }

    #[test]
    fn a_place_chosen_to_recover_to_is_approached_as_far_as_time_allows() {
        let board = Board::blank();
        let mut page = Pattern::CrossCrossLine.page(&board, false);
        let chosen = DVec2::new(-4.0, -12.5);
        page.shots[0].recover_to = Some(chosen);
        let shots = resolved(&board, &page);
        let (start, got_to) = (shots[0].play().expect("it goes on").recovery.start, shots[1].spec.opponent_place);
        assert!(got_to.distance(chosen) + got_to.distance(start) - chosen.distance(start) < 1e-9, "on the way there");
        assert!(got_to.distance(chosen) > 0.5, "seven metres are too far");
    }

    #[test]
    fn what_the_board_no_longer_says_is_forgotten() {
        let board = Board::blank();
        let mut page = Pattern::CrossCrossLine.page(&board, false);
        let (mut rally, mut solver) = (Rally::new(), Solver::new());
        while rally.advance(&board, &page, &mut solver) {}
        assert_eq!(rally.all_known().len(), page.shots.len());
        page.shots[2].shot.speed += 1.0;
        rally.trim(&board, &page);
        assert_eq!(rally.all_known().len(), 2);
        page.shots[0].recover_to = Some(DVec2::new(0.0, -12.0));
        rally.trim(&board, &page);
        assert_eq!(rally.all_known().len(), 1, "the first answer stays, the second shot meets another opponent");
    }

    #[test]
    fn a_shot_put_between_turns_the_ones_after_it_round() {
        let board = Board::blank();
        let mut page = Pattern::CrossCrossLine.page(&board, false);
        let count = page.shots.len();
        let extra = page.shots[1];
        page.insert_shot(1, extra);
        assert_eq!(page.shots.len(), count + 1);
        for pair in page.shots.windows(2) {
            assert_ne!(pair[0].hitter_end, pair[1].hitter_end);
            assert!(pair[1].shot.target.y * pair[1].hitter_end.sign() > 0.0);
        }
        let changed = Board { pages: vec![std::sync::Arc::new(page.clone())], ..board.clone() };
        assert_eq!(crate::check::check(&changed), vec![], "such a page can be saved");
        assert!(page.remove_shot(1, None));
        assert_eq!(page.shots, Pattern::CrossCrossLine.page(&board, false).shots);
    }

    #[test]
    fn the_ball_flies_on_without_a_jump_from_shot_to_shot() {
        let board = Board::blank();
        let page = Pattern::CrossCrossLine.page(&board, false);
        let shots = resolved(&board, &page);
        let timeline = Timeline::new(&board, &shots);
        let mut last = timeline.at(0.0).expect("a moment");
        let mut t = 0.0;
        while t < timeline.duration() {
            t += 0.01;
            let now = timeline.at(t).expect("a moment");
            // 50 m/s and 9 m/s are faster than any ball of this rally and any player.
            assert!(now.ball.distance(last.ball) < 0.5, "ball jumps at {t}");
            assert!(now.near.distance(last.near) < 0.12 && now.far.distance(last.far) < 0.12, "player jumps at {t}");
            last = now;
        }
        // From contact to contact 1.24 s pass in a topspin rally (median of one open data set, a hard-court final with
        // both players’ positions).
        let beat = timeline.duration() / shots.len() as f64;
        assert!((1.0..1.6).contains(&beat), "{beat}");
    }

    #[test]
    fn playback_goes_by_the_time_it_is_given() {
        let board = Board::blank();
        let shots = resolved(&board, &Pattern::TwoLineDrill.page(&board, false));
        let timeline = Timeline::new(&board, &shots);
        let player = Playback::default().after(Control::Play, &timeline).passed(0.5, &timeline);
        assert_eq!(player.time, Some(0.5));
        let slow = player.after(Control::Pace(crate::playback::Pace::Quarter), &timeline).passed(0.4, &timeline);
        assert!((slow.time.unwrap_or(0.0) - 0.6).abs() < 1e-12);
        let end = slow.passed(1e3, &timeline);
        assert!(!end.playing && end.time == Some(timeline.duration()));
        let again = end.after(Control::Loop(true), &timeline).after(Control::Play, &timeline).passed(1e3, &timeline);
        assert!(again.playing && again.time.is_some_and(|t| t < timeline.duration()));
        let step = again.after(Control::Seek(0.0), &timeline).after(Control::Next, &timeline);
        assert_eq!(step.time, Some(timeline.stretches[0].end));
        assert_eq!(step.after(Control::Previous, &timeline).time, Some(0.0));
    }
}
