//! The spot, and how far the recovery run gets in time.

use glam::DVec2;

use super::{
    Solver,
    near::{Near, hitters},
};
use crate::{
    shot::{situation::ReadyArea, stroke::Stroke},
    solver::answer::{Place, Recovery},
    stand::{Ground, Stand, Survey, Zone},
    worth::{Duel, Game, Prospect},
};

/// Directions and distances, as shares of the run, in which the best place within reach is searched.
const REACH_DIRECTIONS: usize = 20;
const REACH_SHARES: [f64; 3] = [0.4, 0.75, 1.0];
/// Width of the zone whose centre is the spot, in points won: wider than that of the rally's table, as one look at one
/// ball is less certain than the mean over a rally.
const ZONE_WIDTH: f64 = 0.01;
/// Width of the zone of reachable places: wider than that of the spot, since the reachable ground is mostly a slope, of
/// which a narrow zone would take the very end. Of 0.005 and 0.02 the wider one lies nearer to where professionals
/// waited (open position data of two matches of men).
const REACHED_WIDTH: f64 = 0.02;

/// The look-ahead as [`Ground`].
pub(super) struct Side<'a> {
    pub look: &'a mut Prospect,
    pub duel: &'a Duel<'a>,
    buffer: Vec<f32>,
    places: Vec<[f32; 2]>,
}

impl<'a> Side<'a> {
    pub fn new(look: &'a mut Prospect, duel: &'a Duel<'a>) -> Self {
        Self { look, duel, buffer: Vec::new(), places: Vec::new() }
    }
}

impl Ground for Side<'_> {
    fn worth(&mut self, places: &[DVec2], out: &mut Vec<f64>) {
        self.places.clear();
        self.places.extend(places.iter().map(|p| hitters(*p)));
        self.look.values(self.duel, &self.places, &mut self.buffer);
        out.clear();
        out.extend(self.buffer.iter().map(|v| f64::from(*v)));
    }
}

/// The spot, and how far the hitter gets.
pub(super) struct Choice {
    pub zone: Zone,
    /// The run, and the worth at the centre of the zone.
    pub recovery: (Recovery, f64),
    pub at_net: bool,
}

/// Chooses between the back and the net by the place reached in time.
pub(super) fn choose(near: &Near<'_>, game: &Game, ground: &mut Side<'_>, survey: &mut Survey, time: f64) -> Choice {
    let court = &near.situation.conditions.court;
    let stand = near.stand();
    let width = ZONE_WIDTH;
    // A receiver's serve comes from the other side.
    let served = near.shot.stroke == Stroke::Serve && near.shot.contact.y < 0.0;
    let areas: &[ReadyArea] = match near.situation.settings.ready {
        ReadyArea::Anywhere if near.may_come_in(&game.duel(0)) => &[ReadyArea::Back, ReadyArea::Net],
        ReadyArea::Anywhere | ReadyArea::Back => &[ReadyArea::Back],
        ReadyArea::Net => &[ReadyArea::Net],
    };
    let legs = &game.side(0).legs;
    let from = hitters(near.hitter_place);
    let mut best: Option<(f64, Zone, bool)> = None;
    for area in areas {
        let zone = survey.zone(ground, &stand.area(court, *area), Stand::usual(court, *area, served), width);
        let end = legs.recover(from, hitters(zone.centre), time as f32);
        let mut worth = Vec::new();
        ground.worth(&[DVec2::new(f64::from(end[0]), -f64::from(end[1]))], &mut worth);
        if best.as_ref().is_none_or(|b| worth[0] < b.0) {
            best = Some((worth[0], zone, *area == ReadyArea::Net));
        }
    }
    let (_, zone, at_net) = best.unwrap_or_else(|| {
        (1.0, survey.zone(ground, &stand, Stand::usual(court, ReadyArea::Back, served), width), false)
    });
    let mut recovery = recover(near, game, ground, zone.centre, time, at_net);
    // The worth of the place reached counts the striker with their real pressure.
    let by = f64::from(ground.look.settle(ground.duel, hitters(recovery.0.reached.place)));
    let moved = |v: f64| (v + by).clamp(0.0, 1.0);
    recovery.0.reached.exposure = moved(recovery.0.reached.exposure);
    recovery.1 = moved(recovery.1);
    survey.values.iter_mut().for_each(|v| *v = moved(*v));
    let zone = Zone { least: moved(zone.least), ..zone };
    Choice { zone, recovery, at_net }
}

/// The spot and the run to it within a time, near frame, after a look was loaded.
pub(crate) fn choose_for(solver: &mut Solver, near: &Near<'_>, game: &Game, time: f64) -> (Place, Recovery) {
    let mut survey = std::mem::take(&mut solver.survey);
    let duel = game.duel(1);
    let mut ground = Side::new(&mut solver.look, &duel);
    survey.look(&mut ground, &near.stand());
    let Choice { zone, recovery: (recovery, exposure), .. } = choose(near, game, &mut ground, &mut survey, time);
    solver.survey = survey;
    (Place { place: zone.centre, exposure }, recovery)
}

/// The run from where the ball was struck to a place within `time`, near frame, and the worth at the place itself.
///
/// For a place at the back that is out of reach, the run goes to the centre of the reachable places, weighted by their
/// worth. The run to the net is straight.
fn recover(
    near: &Near<'_>,
    game: &Game,
    ground: &mut Side<'_>,
    goal: DVec2,
    time: f64,
    at_net: bool,
) -> (Recovery, f64) {
    let legs = &game.side(0).legs;
    let start = near.hitter_place;
    let from = hitters(start);
    let distance = goal.distance(start);
    let needed = if distance > 1e-6 { f64::from(legs.recovery_time(from, hitters(goal))) } else { 0.0 };
    let mut worth = Vec::new();
    ground.worth(&[goal], &mut worth);
    let at_goal = worth[0];
    let done = |reached: Place, short_by: f64| Recovery {
        start,
        distance,
        available: time,
        needed,
        short_by,
        reached,
        extra_exposure: (reached.exposure - at_goal).max(0.0),
    };
    if needed <= time {
        return (done(Place { place: goal, exposure: at_goal }, 0.0), at_goal);
    }
    let reached = if at_net {
        let end = legs.recover(from, hitters(goal), time as f32);
        let place = DVec2::new(f64::from(end[0]), -f64::from(end[1]));
        ground.worth(&[place], &mut worth);
        Place { place, exposure: worth[0] }
    } else {
        best_within(near, game, ground, time)
    };
    (done(reached, reached.place.distance(goal)), at_goal)
}

/// The centre of the places reachable within a time, weighted by their worth, near frame.
pub(crate) fn reach_centre(
    near: &Near<'_>,
    game: &Game,
    time: f64,
    mut worth: impl FnMut(&[DVec2]) -> Vec<f64>,
) -> Place {
    let legs = &game.side(0).legs;
    let start = near.hitter_place;
    let from = hitters(start);
    let stand = near.stand();
    let mut places = vec![stand.clamp(start)];
    for share in REACH_SHARES {
        for k in 0..REACH_DIRECTIONS {
            let way = DVec2::from_angle(k as f64 / REACH_DIRECTIONS as f64 * std::f64::consts::TAU);
            let far = hitters(start + way * 30.0);
            let end = legs.recover(from, far, time as f32);
            let end = DVec2::new(f64::from(end[0]), -f64::from(end[1]));
            places.push(stand.clamp(start + (end - start) * share));
        }
    }
    let values = worth(&places);
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let (mut sum, mut centre) = (0.0, DVec2::ZERO);
    for (i, (p, v)) in places.iter().zip(&values).enumerate() {
        // Outer places represent more ground.
        let ring = i.checked_sub(1).map_or(0.1, |i| REACH_SHARES[i / REACH_DIRECTIONS]);
        let w = ring * (-(v - least) / REACHED_WIDTH).exp();
        sum += w;
        centre += w * p;
    }
    let centre = centre / sum;
    Place { place: centre, exposure: worth(&[centre])[0] }
}

fn best_within(near: &Near<'_>, game: &Game, ground: &mut Side<'_>, time: f64) -> Place {
    reach_centre(near, game, time, |places| {
        let mut out = Vec::new();
        ground.worth(places, &mut out);
        out
    })
}
