//! Invented sessions: rallies simulated between players with known habits.
//!
//! Examples of charts, and a test of the audit: a planted habit must be found again.

use glam::DVec2;
use standpoint_geometry::{End, ReadyArea, ReceiptChoice, Shot, Solver, Stroke, Verdict, usual_delivery};

use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{Chart, ObservedShot, Point, Setup};
use standpoint_board::dice::Dice;
use standpoint_board::model::{Board, Page, ShotSpec};

/// The recovery of an invented player.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habit {
    /// 1 goes to the model's place, 0 always to the middle line.
    pub to_the_spot: f64,
    /// Offset to the right of that place, m.
    pub across: f64,
    /// Offset in depth, m.
    pub along: f64,
    /// Scatter in both directions, one standard deviation, m.
    pub scatter: f64,
}

impl Habit {
    /// Goes to the model's place, give or take a step.
    pub const EXPERT: Self = Self { to_the_spot: 1.0, across: 0.0, along: 0.0, scatter: 0.25 };
    /// Always recovers to the middle.
    pub const MIDDLE: Self = Self { to_the_spot: 0.0, across: 0.0, along: 0.0, scatter: 0.25 };
}

/// Plays points between two players; the same seed gives the same chart.
#[must_use]
pub fn chart(setup: &Setup, seed: u64, points: usize, habits: [Habit; 2]) -> Chart {
    let mut play =
        Play { board: setup.board(vec![Page::blank().into()]), habits, dice: Dice::new(seed), solver: Solver::new() };
    play.board.settings.ready = ReadyArea::Back;
    let points = (0..points).map(|i| play.point(i)).collect();
    Chart { setup: setup.clone(), points }
}

/// Most shots in a point.
const LONGEST: usize = 8;

struct Play {
    board: Board,
    habits: [Habit; 2],
    dice: Dice,
    solver: Solver,
}

impl Play {
    fn point(&mut self, index: usize) -> Point {
        let mut hitter = if index.is_multiple_of(2) { End::Near } else { End::Far };
        let court = self.board.conditions().court;
        let back = court.half_length();
        let mut contact =
            DVec2::new(self.dice.between(-0.9, 0.9) * court.half_width(), -back - self.dice.between(-0.3, 1.2));
        let mut height = 0.95;
        let mut place: Option<DVec2> = None;
        let mut opponent = hitter.other().turn2(DVec2::new(self.dice.between(-0.5, 0.5), -back - 1.0));
        let mut time = 0.0;
        let mut shots: Vec<ObservedShot> = Vec::new();
        while shots.len() < LONGEST {
            let Some(spec) = self.shot(hitter, contact, height, place, opponent) else { break };
            let situation = self.board.situation_of(&spec);
            // The actual place does not affect the recommended one.
            let verdict = self.solver.judge_place(&situation, situation.hitter_place, None);
            let Ok(Verdict::Judged(found)) = verdict else { break };
            let stood = self.stands(hitter, found.goal.place, found.middle.place);
            let player = self.board.card(hitter).player();
            let own = hitter.turn3(spec.shot.contact);
            shots.push(ObservedShot {
                hitter,
                contact: spec.shot.contact.truncate(),
                contact_height: Some(height),
                landing: Some(spec.shot.target),
                met: Some(found.receipt.contact.truncate()),
                stood: Some(stood),
                hitter_place: Some(situation.hitter_place),
                opponent_place: Some(opponent),
                stroke: Some(spec.shot.stroke),
                wing: Some(player.wing_for(own.x - hitter.turn2(situation.hitter_place).x)),
                speed: Some(spec.shot.speed),
                topspin: Some(spec.shot.topspin),
                time: Some(time),
                met_time: Some(time + found.receipt.time),
                ..ObservedShot::default()
            });
            time += found.receipt.time;
            (hitter, opponent) = (hitter.other(), stood);
            contact = hitter.turn2(found.receipt.contact.truncate());
            height = found.receipt.contact.z;
            place = Some(found.receipt.place);
        }
        Point {
            session: format!("Day {}", index / 40 + 1),
            label: (index + 1).to_string(),
            ends: Ends::AsBegun,
            shots,
            ..Point::default()
        }
    }

    /// A drive; `contact` in the hitter's frame.
    fn shot(
        &mut self,
        hitter: End,
        contact: DVec2,
        height: f64,
        place: Option<DVec2>,
        opponent_place: DVec2,
    ) -> Option<ShotSpec> {
        let target = self.target(contact);
        let spec = ShotSpec {
            hitter_end: hitter,
            shot: Shot { contact: hitter.turn3(contact.extend(height)), stroke: Stroke::Topspin, ..Self::blank() },
            receipt: ReceiptChoice::Best,
            hitter_place: place,
            opponent_place,
            ..ShotSpec::cross_court()
        };
        let player = self.board.card(hitter).player();
        let body = hitter.turn2(self.board.hitter_place(&spec));
        let wing = player.wing_for(contact.x - body.x);
        let contact = contact.extend(height);
        let conditions = self.board.conditions();
        let (speed, topspin) = usual_delivery(&conditions, &player, wing, Stroke::Topspin, contact, target);
        // Lowers the speed where the usual one would not clear the net or stay in.
        [1.0, 0.9, 0.8, 0.7].into_iter().find_map(|share| {
            let shot = Shot { target: hitter.turn2(target), speed: speed * share, topspin, ..spec.shot };
            let spec = ShotSpec { shot, ..spec };
            standpoint_geometry::meeting(&self.board.situation_of(&spec)).ok().map(|_| spec)
        })
    }

    /// The target of a drive from a contact, in the hitter's frame, as professionals place them (open ball tracking of
    /// 784 matches; directions from charted matches): 5.7 to 10.6 m from the net (10 to 90 percent); 3 of 10 through
    /// the middle, of the others four cross-court for each one down the line, most of them 2.3 to 3.5 m from the middle
    /// line.
    fn target(&mut self, contact: DVec2) -> DVec2 {
        let court = self.board.conditions().court;
        let across = if contact.x > 0.0 { -1.0 } else { 1.0 };
        let wide = match self.dice.even() {
            way if way < 0.3 => self.dice.between(-0.3, 0.3),
            way if way < 0.86 => across * self.dice.between(0.4, 0.86),
            _ => -across * self.dice.between(0.4, 0.86),
        };
        DVec2::new(wide * court.half_width(), self.dice.between(0.48, 0.89) * court.half_length())
    }

    fn blank() -> Shot {
        ShotSpec::cross_court().shot
    }

    /// The place of a player with a habit, world frame.
    fn stands(&mut self, end: End, goal: DVec2, middle: DVec2) -> DVec2 {
        let habit = self.habits[usize::from(end == End::Far)];
        let (goal, middle) = (end.turn2(goal), end.turn2(middle));
        let wanted = DVec2::new(middle.x + habit.to_the_spot * (goal.x - middle.x), goal.y);
        let off =
            DVec2::new(habit.across, -habit.along) + DVec2::new(self.dice.normal(), self.dice.normal()) * habit.scatter;
        self.board.play_area().clamp_at(end, end.turn2(wanted + off))
    }
}
