//! The situation: the input of the solver.

use glam::{DVec2, DVec3};

use crate::{
    ball::{Ball, air::Air, flight::FlightLaw},
    court::{Court, frame::End, surface::Surface},
    player::Player,
    replies::habits::ReplyHabits,
    shot::stroke::Stroke,
};

/// Conditions of play.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Court and net.
    pub court: Court,
    /// Surface of the court.
    pub surface: Surface,
    /// The ball.
    pub ball: Ball,
    /// Temperature and altitude.
    pub air: Air,
    /// Law of drag and lift.
    pub law: FlightLaw,
}

/// The ball just struck by the hitter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shot {
    /// Where the racket meets the ball, in the world frame.
    pub contact: DVec3,
    /// Kind of stroke.
    pub stroke: Stroke,
    /// Where the ball is meant to land, on the other half, in the world frame.
    pub target: DVec2,
    /// Speed off the racket, m/s.
    pub speed: f64,
    /// Topspin positive, backspin negative, rad/s.
    pub topspin: f64,
    /// Sidespin about `+z`, rad/s; curves the ball to its left.
    pub sidespin: f64,
}

/// Where the opponent meets the ball.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum ReceiptChoice {
    /// At the point that is best for the opponent.
    #[default]
    Best,
    /// At the point of the ball's path that is nearest to this ground place.
    Near(DVec2),
}

/// Which standing places are considered for the spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum ReadyArea {
    /// The whole of the player's side.
    #[default]
    Anywhere,
    /// Behind the service line.
    Back,
    /// In front of the service line.
    Net,
}

/// Settings of the answer that leave the situation's facts unchanged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// A direction belongs to the wedge while its safest reply goes in at least this often, 0 to 1.
    pub edge_chance: f64,
    /// The recovery zone is where the exposure exceeds the least by at most this much.
    pub zone_tolerance: f64,
    /// Which standing places are considered.
    pub ready: ReadyArea,
}

impl Default for Settings {
    fn default() -> Self {
        Self { edge_chance: 0.5, zone_tolerance: 0.02, ready: ReadyArea::Anywhere }
    }
}

/// The input of the solver: one shot and the two players.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Situation {
    /// Court, surface, ball and air.
    pub conditions: Conditions,
    /// The end from which the shot is struck.
    pub hitter_end: End,
    /// The player who has just struck the ball and needs the spot.
    pub hitter: Player,
    /// The player who strikes next.
    pub opponent: Player,
    /// Where the hitter's body is at contact, world frame.
    pub hitter_place: DVec2,
    /// Where the opponent's body is when the hitter strikes, world frame.
    pub opponent_place: DVec2,
    /// Pressure on the hitter at this ball: 0 with time to spare, 1 at full stretch.
    pub hitter_pressure: f64,
    /// The hitter's habits, where they are known.
    pub hitter_habits: Option<ReplyHabits>,
    /// The opponent's habits, which weigh their replies, where they are known.
    pub opponent_habits: Option<ReplyHabits>,
    /// The shot.
    pub shot: Shot,
    /// Where the opponent meets it.
    pub receipt: ReceiptChoice,
    /// Settings of the answer.
    pub settings: Settings,
}

/// One fault of a situation: the quantity and its allowed range.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{field}: {value} is outside {low} to {high} {unit}")]
pub struct Problem {
    /// Path of the quantity, e.g. `shot.contact.z`.
    pub field: &'static str,
    /// Its value.
    pub value: f64,
    /// Least value allowed.
    pub low: f64,
    /// Greatest value allowed.
    pub high: f64,
    /// Unit of all three.
    pub unit: &'static str,
}

impl Situation {
    /// Whether a serve is a first one, by its speed.
    pub(crate) fn is_first_serve(&self) -> bool {
        let serve = &self.hitter.serve;
        self.shot.speed >= 0.5 * (serve.first_speed + serve.second_speed)
    }

    /// Every fault that prevents a computation; empty when the situation is valid.
    ///
    /// Limits are wide: they exclude wrong units and values that are not finite, not unusual tennis.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut found = Vec::new();
        let mut check = |field, value: f64, low: f64, high: f64, unit| {
            if !(low..=high).contains(&value) {
                found.push(Problem { field, value, low, high, unit });
            }
        };
        let court = &self.conditions.court;
        let (x, y) = (court.site_half_width() + 1.0, court.site_half_length() + 1.0);
        check("shot.contact.x", self.shot.contact.x, -x, x, "m");
        check("shot.contact.y", self.shot.contact.y, -y, y, "m");
        check("shot.contact.z", self.shot.contact.z, 0.02, 4.0, "m");
        check("shot.target.x", self.shot.target.x, -x, x, "m");
        check("shot.target.y", self.shot.target.y, -y, y, "m");
        check("shot.speed", self.shot.speed, 3.0, 75.0, "m/s");
        check("shot.topspin", self.shot.topspin, -700.0, 700.0, "rad/s");
        check("shot.sidespin", self.shot.sidespin, -700.0, 700.0, "rad/s");
        check("hitter_place.x", self.hitter_place.x, -x, x, "m");
        check("hitter_place.y", self.hitter_place.y, -y, y, "m");
        check("opponent_place.x", self.opponent_place.x, -x, x, "m");
        check("opponent_place.y", self.opponent_place.y, -y, y, "m");
        check("hitter_pressure", self.hitter_pressure, 0.0, 1.0, "");
        if let ReceiptChoice::Near(p) = self.receipt {
            check("receipt.x", p.x, -x, x, "m");
            check("receipt.y", p.y, -y, y, "m");
        }
        check("settings.edge_chance", self.settings.edge_chance, 0.3, 0.95, "");
        check("settings.zone_tolerance", self.settings.zone_tolerance, 0.001, 0.3, "");
        check("air.temperature_c", self.conditions.air.temperature_c, -30.0, 60.0, "C");
        check("air.altitude_m", self.conditions.air.altitude_m, -450.0, 6000.0, "m");
        let (ball, surface) = (&self.conditions.ball, &self.conditions.surface);
        check("ball.mass", ball.mass, 0.01, 0.2, "kg");
        check("ball.radius", ball.radius, 0.02, 0.08, "m");
        check("ball.rebound", ball.rebound, 0.1, 2.5, "m");
        check("surface.friction", surface.friction, 0.0, 2.0, "");
        check("surface.restitution.grazing", surface.restitution.grazing, 0.0, 1.5, "");
        check("surface.restitution.per_degree", surface.restitution.per_degree, -0.05, 0.05, "");
        check("surface.restitution.least", surface.restitution.least, 0.0, 1.0, "");
        check("surface.grip_restitution", surface.grip_restitution, 0.0, 1.0, "");
        check("court.length", court.length, 5.0, 40.0, "m");
        check("court.singles_width", court.singles_width, 2.0, 20.0, "m");
        check("court.net_center_height", court.net_center_height, 0.3, 2.0, "m");
        check("court.net_post_height", court.net_post_height, 0.3, 2.0, "m");
        check("court.run_off_behind", court.run_off_behind, 0.0, 30.0, "m");
        check("court.run_off_beside", court.run_off_beside, 0.0, 30.0, "m");
        for (field, habits) in
            [("hitter_habits.strength", self.hitter_habits), ("opponent_habits.strength", self.opponent_habits)]
        {
            habits.inspect(|habits| check(field, habits.strength, 0.1, 1000.0, "shots"));
        }
        for (player, fields) in [(&self.hitter, &HITTER), (&self.opponent, &OPPONENT)] {
            for (field, (value, low, high, unit)) in fields.iter().zip(player.limits()) {
                check(field, value, low, high, unit);
            }
        }
        found
    }
}

const HITTER: [&str; 23] = [
    "hitter.bounces",
    "hitter.movement.reaction_s",
    "hitter.movement.v_max",
    "hitter.movement.tau_s",
    "hitter.movement.backward_factor",
    "hitter.movement.follow_through_s",
    "hitter.reach.forehand",
    "hitter.reach.backhand",
    "hitter.reach.ahead",
    "hitter.reach.overhead",
    "hitter.forehand.speed",
    "hitter.forehand.topspin",
    "hitter.forehand.spread_up",
    "hitter.forehand.spread_side",
    "hitter.backhand.speed",
    "hitter.backhand.topspin",
    "hitter.backhand.spread_up",
    "hitter.backhand.spread_side",
    "hitter.serve.first_speed",
    "hitter.serve.second_speed",
    "hitter.serve.height",
    "hitter.serve.topspin",
    "hitter.serve.spread",
];
const OPPONENT: [&str; 23] = [
    "opponent.bounces",
    "opponent.movement.reaction_s",
    "opponent.movement.v_max",
    "opponent.movement.tau_s",
    "opponent.movement.backward_factor",
    "opponent.movement.follow_through_s",
    "opponent.reach.forehand",
    "opponent.reach.backhand",
    "opponent.reach.ahead",
    "opponent.reach.overhead",
    "opponent.forehand.speed",
    "opponent.forehand.topspin",
    "opponent.forehand.spread_up",
    "opponent.forehand.spread_side",
    "opponent.backhand.speed",
    "opponent.backhand.topspin",
    "opponent.backhand.spread_up",
    "opponent.backhand.spread_side",
    "opponent.serve.first_speed",
    "opponent.serve.second_speed",
    "opponent.serve.height",
    "opponent.serve.topspin",
    "opponent.serve.spread",
];
