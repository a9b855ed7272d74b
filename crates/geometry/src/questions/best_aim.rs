//! Named shots, each aimed at its own best place: the places where the ball may land and still be the named shot, and
//! among them the one that wins most.
//!
//! The search runs in the frame of a right-handed near hitter on symmetric targets, so that a mirrored situation gives
//! exactly the mirrored target.

use glam::DVec2;

use crate::{
    court::Court,
    player::Wing,
    questions::compare::{Choice, Pace},
    replies::naming::{Direction, direction},
    shot::{
        aim::Aim,
        situation::{Shot, Situation},
        stroke::Stroke,
    },
    solver::{Near, SolveError, Solver, shot_chance, sound},
};

/// Least distance of targets from the lines on a full court, m.
const INSET_M: f64 = 0.2;
/// Columns of the first search to either side of the middle, and its rows on a full court, m from the net. A choice: half a
/// metre and a metre apart, about the spread of a landing.
const COLUMNS: i32 = 6;
const ROWS_M: [f64; 9] = [1.8, 2.8, 3.8, 5.0, 6.6, 7.7, 8.8, 9.9, 10.9];
/// Columns for touch shots, half as many: their place matters less than the touch.
const TOUCH_COLUMNS: i32 = 3;
/// Number of best places of the first search that are refined, and their least distance apart, m.
const FINALISTS: usize = 2;
const APART_M: f64 = 1.2;
/// Steps of the refinement, m.
const STEPS_M: [f64; 3] = [0.5, 0.25, 0.12];
/// Speeds tried where the full one does not land in, as shares of it.
const SLOWER: [f64; 5] = [1.0, 0.88, 0.76, 0.64, 0.52];
/// Least chance in: below it the next slower ball is preferred.
const WILD: f64 = 0.25;
/// Speeds tried where the speed is free, as shares of the one that lands in.
const PACES: [f64; 4] = [1.12, 0.9, 0.8, 0.7];
/// Distance from the net, as a share of the half court, within which short balls from a contact count as ordinary.
const FORECOURT: f64 = 0.55;

/// Landing region of a named shot, in the frame of a near, right-handed hitter.
struct Region<'a> {
    choice: Choice,
    court: &'a Court,
    stroke: Stroke,
    contact: DVec2,
    /// Side of the contact, `+1` right; at the centre line, the side from which a drive naturally leaves.
    side: f64,
    /// Scale of the court relative to a full one: across and along.
    scale: DVec2,
}

impl<'a> Region<'a> {
    fn new(choice: Choice, near: &'a Near<'_>) -> Self {
        let court = &near.situation.conditions.court;
        let contact = near.shot.contact.truncate();
        // At the centre line "cross" is the natural direction of a drive: across the body.
        let natural = match near.hitter.wing_for(contact.x - near.hitter_place.x) {
            Wing::Forehand => 1.0,
            Wing::Backhand => -1.0,
        };
        let side = if contact.x.abs() < 0.3 { natural } else { contact.x.signum() };
        let scale = DVec2::new(court.half_width() / 4.115, court.half_length() / 11.885);
        Self { choice, court, stroke: near.shot.stroke, contact, side, scale }
    }

    /// Whether a ball that lands there is the shot of that name.
    fn holds(&self, landing: DVec2) -> bool {
        let (half, length) = (self.court.half_width(), self.court.half_length());
        let inset = INSET_M * self.scale;
        if landing.x.abs() > half - inset.x || landing.y > length - inset.y || landing.y < 1.0 {
            return false;
        }
        let way = || direction(self.court, self.contact, landing, self.side);
        let deep = landing.y >= 0.54 * length;
        // Short balls from the forecourt are ordinary.
        let drive = deep || (-self.contact.y < FORECOURT * length && landing.y >= 0.25 * length);
        match self.choice {
            Choice::AsDrawn => true,
            Choice::CrossCourt | Choice::InsideOut => drive && way() == Direction::Across,
            Choice::DownTheLine => drive && way() == Direction::Line,
            Choice::Middle => drive && way() == Direction::Middle,
            Choice::ShortAngle => {
                let slope = (landing.x - self.contact.x) / (landing.y - self.contact.y);
                let at_baseline = landing.x + slope * (length - landing.y);
                !deep && landing.y >= 0.2 * length && way() == Direction::Across && at_baseline.abs() > half
            }
            Choice::Lob => landing.y >= 0.7 * length,
            Choice::Drop => landing.y <= 0.36 * length,
            Choice::ServeWide | Choice::ServeBody | Choice::ServeT | Choice::SecondServe => self.serve(landing),
        }
    }

    fn is_touch(&self) -> bool {
        matches!(self.choice, Choice::Lob | Choice::Drop)
    }

    fn serve(&self, landing: DVec2) -> bool {
        let Some(line) = self.court.service_line else { return false };
        let side = if self.contact.x >= 0.0 { -1.0 } else { 1.0 };
        let share = landing.x * side / self.court.half_width();
        let in_part = match self.choice {
            Choice::ServeWide => share > 0.62,
            Choice::ServeBody => (0.33..=0.62).contains(&share),
            Choice::ServeT => share < 0.33,
            _ => true,
        };
        in_part && share > 0.02 && landing.y > 0.5 * line && landing.y < line - INSET_M * self.scale.y
    }

    /// The targets of the first search.
    fn targets(&self) -> Vec<DVec2> {
        let widest = self.court.half_width() - 1.2 * INSET_M * self.scale.x;
        let mut rows: Vec<f64> = ROWS_M.iter().map(|y| y * self.scale.y).collect();
        if let (Stroke::Serve, Some(line)) = (self.stroke, self.court.service_line) {
            rows = [0.6, 0.72, 0.82, 0.9, 0.955].iter().map(|share| share * line).collect();
        }
        let count = if self.is_touch() { TOUCH_COLUMNS } else { COLUMNS };
        let columns: Vec<f64> = (0..=count).map(|i| f64::from(i) / f64::from(count) * widest).collect();
        let x = columns[1..].iter().rev().map(|x| -x).chain(columns.iter().copied());
        let all = x.flat_map(|x| rows.iter().map(move |y| DVec2::new(x, *y)));
        all.filter(|p| self.holds(*p)).collect()
    }
}

/// A tried target: the shot to it, near frame, and its worth.
#[derive(Clone, Copy)]
struct Tried {
    target: DVec2,
    speed: f64,
    win: f64,
}

impl Solver {
    /// A named shot aimed where it wins most among the places allowed by its name; `None` where the choice does not
    /// exist.
    ///
    /// Where no such place can be played, the usual one is kept, so that the answer gives the reason.
    /// [`Choice::AsDrawn`] is not changed.
    ///
    /// # Errors
    /// [`SolveError::Invalid`] when the situation cannot be computed.
    pub fn aimed(&mut self, choice: Choice, situation: &Situation, pace: Pace) -> Result<Option<Shot>, SolveError> {
        let Some(usual) = choice.shot(situation) else { return Ok(None) };
        self.aimed_like(choice, usual, situation, pace).map(Some)
    }

    /// As [`Self::aimed`], with the stroke, speed and spin of a shot.
    ///
    /// # Errors
    /// As [`Self::aimed`].
    pub fn aimed_like(
        &mut self,
        choice: Choice,
        usual: Shot,
        situation: &Situation,
        pace: Pace,
    ) -> Result<Shot, SolveError> {
        if choice == Choice::AsDrawn {
            return Ok(usual);
        }
        let asked = Situation { shot: usual, ..*situation };
        sound(&asked)?;
        let near = Near::new(&asked);
        let region = Region::new(choice, &near);
        let mut first: Vec<Tried> =
            region.targets().into_iter().filter_map(|target| self.tried(&asked, target, pace, true)).collect();
        // The sort is stable and starts from the order of the targets, so that the search is the same for the mirror
        // image.
        first.sort_by(|a, b| b.win.total_cmp(&a.win));
        let count = if region.is_touch() { 1 } else { FINALISTS };
        let mut finalists: Vec<Tried> = Vec::new();
        for tried in first {
            if finalists.len() < count && finalists.iter().all(|f| f.target.distance(tried.target) > APART_M) {
                finalists.push(tried);
            }
        }
        let mut best: Option<Tried> = None;
        for start in finalists {
            let Some(mut here) = self.tried(&asked, start.target, pace, false) else { continue };
            for step in STEPS_M {
                let scale = region.scale * step;
                let around = [DVec2::X, -DVec2::X, DVec2::Y, -DVec2::Y].map(|way| here.target + way * scale);
                for target in around {
                    if region.holds(target)
                        && let Some(tried) = self.tried(&asked, target, pace, false)
                        && tried.win > here.win
                    {
                        here = tried;
                    }
                }
            }
            if best.is_none_or(|b| here.win > b.win) {
                best = Some(here);
            }
        }
        if pace == Pace::Free {
            best = best.map(|b| self.paced(&asked, b));
        }
        let turn = near.turn;
        Ok(best.map_or(usual, |b| Shot { target: turn.turn2(b.target), speed: b.speed, ..usual }))
    }

    /// The worth of a target, near frame, approximated without scatter: the ball lands where it is aimed.
    fn tried(&mut self, situation: &Situation, target: DVec2, pace: Pace, roughly: bool) -> Option<Tried> {
        let turn = Near::new(situation).turn;
        let speeds = if pace == Pace::Fixed { &SLOWER[..1] } else { &SLOWER[..] };
        let mut best: Option<(Situation, Aim, f64)> = None;
        for share in speeds {
            let mut tried = *situation;
            tried.shot.target = turn.turn2(target);
            tried.shot.speed *= share;
            let near = Near::new(&tried);
            let Ok(aimed) = near.aim() else { continue };
            let chance = shot_chance(&near, &aimed).good;
            if best.as_ref().is_none_or(|b| chance > b.2) {
                best = Some((tried, aimed, chance));
            }
            if chance > WILD {
                break;
            }
        }
        let (tried, aimed, chance) = best?;
        let win = self.win_of(&tried, &aimed, chance, roughly);
        Some(Tried { target, speed: tried.shot.speed, win })
    }

    /// The same target at the speed that wins most.
    fn paced(&mut self, situation: &Situation, at: Tried) -> Tried {
        let mut best = at;
        for share in PACES {
            let mut tried = *situation;
            tried.shot.speed = at.speed * share;
            if let Some(other) = self.tried(&tried, at.target, Pace::Fixed, false)
                && other.win > best.win
            {
                best = other;
            }
        }
        best
    }

    /// The chance to win with an aimed shot, given its chance to go in.
    fn win_of(&mut self, situation: &Situation, aimed: &Aim, chance: f64, roughly: bool) -> f64 {
        let near = Near::new(situation);
        let (game, _) = self.game(&near);
        let lost = if roughly { self.lost_there(&near, &game, aimed) } else { self.lost(&near, &game, aimed, None) };
        let first = situation.shot.stroke == Stroke::Serve && situation.is_first_serve();
        let miss =
            if first { game.serve(0, near.shot.contact.x < 0.0).map_or(0.0, |s| f64::from(s.worth[1])) } else { 0.0 };
        chance * (1.0 - lost) + (1.0 - chance) * miss
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{player::presets::Level, questions::judge_place::tests::drive, units::KMH};

    fn at(contact: DVec2, opponent: DVec2) -> Situation {
        let mut s = drive(DVec2::new(-2.9, 9.6), Level::Tournament);
        let beside = s.hitter_place - s.shot.contact.truncate();
        s.shot.contact = contact.extend(0.95);
        s.hitter_place = contact + DVec2::new(beside.x * contact.x.signum(), beside.y);
        s.opponent_place = opponent;
        s
    }

    fn scenes() -> [Situation; 4] {
        [
            at(DVec2::new(3.2, -12.4), DVec2::new(-0.6, 12.6)),
            at(DVec2::new(-3.0, -12.6), DVec2::new(3.5, 13.0)),
            at(DVec2::new(0.2, -12.4), DVec2::new(0.0, 12.6)),
            at(DVec2::new(2.2, -7.6), DVec2::new(0.0, 12.6)),
        ]
    }

    fn serve() -> Situation {
        let mut s = at(DVec2::new(0.8, -11.9), DVec2::new(-3.4, 12.9));
        s.shot.stroke = Stroke::Serve;
        s.shot.contact.z = s.hitter.serve.height;
        (s.shot.speed, s.shot.topspin) = (s.hitter.serve.first_speed, s.hitter.serve.topspin / 3.0);
        s.hitter_place = DVec2::new(0.6, -12.3);
        s
    }

    #[test]
    fn a_named_shot_is_aimed_where_its_name_says_and_wins_no_less_than_at_its_usual_place() {
        let mut solver = Solver::new();
        for s in scenes().into_iter().chain([serve()]) {
            for choice in Choice::ALL {
                let Some(shot) = solver.aimed(choice, &s, Pace::Drawn).unwrap() else { continue };
                let usual = choice.shot(&s).unwrap();
                if choice == Choice::AsDrawn {
                    assert_eq!(shot, s.shot);
                    continue;
                }
                let near = Near::new(&s);
                let region = Region::new(choice, &near);
                assert!(region.holds(near.turn.turn2(shot.target)), "{choice:?}: {}", shot.target);
                let mut win = |shot| solver.win(&Situation { shot, ..s });
                let (aimed, before) = (win(shot).expect("it can be played"), win(usual));
                if region.holds(near.turn.turn2(usual.target))
                    && let Ok(before) = before
                {
                    // The search ends within a step of the best place.
                    assert!(aimed > before - 0.01, "{choice:?}: {aimed:.3} at {}, {before:.3} before", shot.target);
                }
            }
        }
    }

    #[test]
    fn directions_are_told_as_in_the_published_tables() {
        // The line from the contact through the net crossing, carried on to 8 m behind the net: within 1.37 m of the middle is
        // the middle, beyond on the contact's own side the line, on the other side across (README of `tests/data/rally`).
        let mut solver = Solver::new();
        for s in scenes() {
            let contact = s.shot.contact.truncate();
            for (choice, wanted) in [(Choice::CrossCourt, -1.0), (Choice::DownTheLine, 1.0), (Choice::Middle, 0.0)] {
                let shot = solver.aimed(choice, &s, Pace::Drawn).unwrap().unwrap();
                let way = shot.target - contact;
                let x = contact.x + way.x / way.y * (8.0 - contact.y);
                let side = if x.abs() < 1.37 { 0.0 } else { x.signum() * contact.x.signum() };
                assert!((side - wanted).abs() < 0.5, "{choice:?} from {contact}: {x:.2} at 8 m");
            }
        }
    }

    #[test]
    fn the_mirror_image_and_the_half_turn_are_aimed_at_exactly() {
        let mut solver = Solver::new();
        let flip = |p: DVec2| DVec2::new(-p.x, p.y);
        for s in scenes().into_iter().chain([serve()]) {
            let mut mirror = s;
            (mirror.hitter, mirror.opponent) = (s.hitter.mirrored(), s.opponent.mirrored());
            mirror.shot.contact.x = -s.shot.contact.x;
            (mirror.hitter_place, mirror.opponent_place) = (flip(s.hitter_place), flip(s.opponent_place));
            let mut turned = s;
            turned.hitter_end = s.hitter_end.other();
            turned.shot.contact = s.hitter_end.other().turn3(s.shot.contact);
            (turned.hitter_place, turned.opponent_place) = (-s.hitter_place, -s.opponent_place);
            for choice in Choice::ALL.into_iter().filter(|c| *c != Choice::AsDrawn) {
                let Some(shot) = solver.aimed(choice, &s, Pace::Free).unwrap() else { continue };
                let there = solver.aimed(choice, &mirror, Pace::Free).unwrap().unwrap();
                assert_eq!((flip(shot.target), shot.speed), (there.target, there.speed), "{choice:?}");
                let there = solver.aimed(choice, &turned, Pace::Free).unwrap().unwrap();
                assert_eq!((-shot.target, shot.speed), (there.target, there.speed), "{choice:?}");
            }
        }
    }

    #[test]
    fn against_an_opponent_drawn_wide_the_line_is_aimed_further_from_the_lines() {
        // Common practice, no source: into an open court, aim with room to spare.
        let mut solver = Solver::new();
        let mut room = |opponent| {
            let s = at(DVec2::new(3.2, -12.4), opponent);
            let shot = solver.aimed(Choice::DownTheLine, &s, Pace::Drawn).unwrap().unwrap();
            4.115 - shot.target.x
        };
        let (open, closed) = (room(DVec2::new(-5.6, 12.6)), room(DVec2::new(0.6, 12.6)));
        assert!(open > closed, "open court {open:.2} m, closed {closed:.2} m inside the line");
    }

    #[test]
    fn a_speed_that_does_not_drop_in_is_taken_back() {
        let mut s = at(DVec2::new(1.0, -6.5), DVec2::new(0.0, 12.6));
        s.shot.speed = 150.0 * KMH;
        let shot = Solver::new().aimed(Choice::CrossCourt, &s, Pace::Drawn).unwrap().unwrap();
        assert!(shot.speed < s.shot.speed);
    }
}
