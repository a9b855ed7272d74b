//! Ready patterns: a rally laid out in one go, for the players of a board.
//!
//! All are common practice without a source. They are written for a right-handed hitter at the near end and mirrored
//! for a left-hander or for the other wing; speeds and spins are those the players usually play.

use glam::{DVec2, DVec3};
use standpoint_geometry::{
    aim::usual_delivery,
    frame::End,
    player::{Hand, Player, Wing},
    situation::{ReceiptChoice, Shot, Stroke},
};

use crate::{
    marks::Marks,
    model::{Board, Page, ShotSpec},
};

/// A pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Pattern {
    /// Two balls cross-court, then down the line.
    CrossCrossLine,
    /// A short ball is approached down the line and the pass is volleyed.
    ApproachAndVolley,
    /// Serve, and the first ball after it into the open court.
    ServePlusOne,
    /// One player goes down the line, the other one cross-court.
    TwoLineDrill,
    /// A high deep ball, then a step into the court for the weak reply.
    HighDeepAndMoveUp,
}

impl Pattern {
    /// All patterns, in the order menus list them.
    pub const ALL: [Self; 5] = [
        Self::CrossCrossLine,
        Self::ApproachAndVolley,
        Self::ServePlusOne,
        Self::TwoLineDrill,
        Self::HighDeepAndMoveUp,
    ];

    /// Its name.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::CrossCrossLine => "Cross, cross, line",
            Self::ApproachAndVolley => "Approach and volley",
            Self::ServePlusOne => "Serve plus one",
            Self::TwoLineDrill => "Two lines",
            Self::HighDeepAndMoveUp => "High, deep and move up",
        }
    }

    /// What it teaches, in a sentence.
    #[must_use]
    pub fn purpose(self) -> &'static str {
        match self {
            Self::CrossCrossLine => {
                "Stay cross-court until the opponent is wide, then change direction into the space."
            }
            Self::ApproachAndVolley => "Follow the ball to the net on its own side and cover the line first.",
            Self::ServePlusOne => "Serve wide, recover, and play the next ball behind or away from the returner.",
            Self::TwoLineDrill => "One changes direction at every ball, the other never: feel who runs further.",
            Self::HighDeepAndMoveUp => "Push the opponent back with height, and take the court that it gives you.",
        }
    }

    fn balls(self) -> Vec<Ball> {
        use Stroke::{Flat, Serve, Slice, Topspin, Volley};
        match self {
            Self::CrossCrossLine => vec![
                Ball::new(Topspin, -2.9, 9.6),
                Ball::new(Topspin, 2.9, 9.3),
                Ball::new(Topspin, -3.0, 9.4),
                Ball::new(Topspin, 2.6, 9.0),
                Ball::new(Topspin, 3.0, 9.4),
            ],
            Self::ApproachAndVolley => {
                vec![Ball::new(Slice, 2.9, 10.0), Ball::new(Topspin, 0.9, 8.0), Ball::new(Volley, -2.9, 6.8)]
            }
            Self::ServePlusOne => {
                vec![Ball::new(Serve, -3.3, 5.2), Ball::new(Slice, 0.6, 8.8), Ball::new(Topspin, 2.9, 9.2)]
            }
            Self::TwoLineDrill => vec![
                Ball::new(Topspin, 2.9, 9.4),
                Ball::new(Topspin, 2.9, 9.4),
                Ball::new(Topspin, -2.9, 9.4),
                Ball::new(Topspin, -2.9, 9.4),
            ],
            Self::HighDeepAndMoveUp => {
                vec![Ball::new(Topspin, -2.0, 10.6).slow(), Ball::new(Slice, 0.8, 6.6), Ball::new(Flat, 2.8, 8.8)]
            }
        }
    }

    /// First contact of the hitter and where both stand, for a right-hander at the near end.
    fn start(self) -> (DVec3, DVec2) {
        match self {
            Self::CrossCrossLine | Self::TwoLineDrill => (DVec3::new(3.0, -12.4, 0.95), DVec2::new(-1.0, 12.6)),
            Self::ApproachAndVolley => (DVec3::new(2.2, -7.6, 1.0), DVec2::new(-0.4, 12.8)),
            Self::ServePlusOne => (DVec3::new(1.0, -11.6, 2.6), DVec2::new(-3.6, 12.8)),
            Self::HighDeepAndMoveUp => (DVec3::new(1.5, -12.8, 1.0), DVec2::new(-0.5, 12.5)),
        }
    }

    /// The pattern as a page for the players of a board, struck by the coached player.
    ///
    /// `mirrored` plays it on the other wing. On smaller courts all places shrink with the court.
    #[must_use]
    pub fn page(self, board: &Board, mirrored: bool) -> Page {
        let end = board.coached;
        let hitter = board.card(end).player();
        let flip = mirrored != (hitter.hand == Hand::Left);
        let court = board.court.court();
        let scale = DVec2::new(court.half_width() / 4.115, court.half_length() / 11.885);
        let place = |x: f64, y: f64| DVec2::new(if flip { -x } else { x }, y) * scale;
        let (contact, opponent) = self.start();
        let ground = place(contact.x, contact.y);
        let height = contact.z.min(0.93 * hitter.reach.overhead);
        let height = if self == Self::ServePlusOne { hitter.serve.height } else { height };
        let contact = DVec3::new(ground.x, ground.y, height);
        let opponent = place(opponent.x, opponent.y);
        let mut shots: Vec<ShotSpec> = Vec::new();
        for (i, ball) in self.balls().into_iter().enumerate() {
            let striker_end = if i % 2 == 0 { end } else { end.other() };
            let player = board.card(striker_end).player();
            // Targets are written from the striker's own side.
            let target = place(ball.target.x, ball.target.y);
            let shot = delivered(board, &player, &ball, contact, target);
            shots.push(ShotSpec {
                hitter_end: striker_end,
                shot: Shot { contact: striker_end.turn3(contact), target: striker_end.turn2(target), ..shot },
                receipt: ReceiptChoice::Best,
                hitter_place: (i == 0).then(|| end.turn2(beside(&player, contact, ball.stroke))),
                opponent_place: striker_end.turn2(opponent),
                follows: i > 0,
                recover_to: None,
            });
        }
        Page {
            title: self.label().to_owned(),
            notes: self.purpose().to_owned(),
            cues: Vec::new(),
            shots,
            marks: Marks::default(),
        }
    }
}

/// One ball of a pattern, from its striker's own side.
struct Ball {
    stroke: Stroke,
    target: DVec2,
    /// Share of the usual speed.
    speed: f64,
}

impl Ball {
    fn new(stroke: Stroke, x: f64, y: f64) -> Self {
        Self { stroke, target: DVec2::new(x, y), speed: 1.0 }
    }

    fn slow(mut self) -> Self {
        self.speed = 0.78;
        self
    }
}

fn delivered(board: &Board, player: &Player, ball: &Ball, contact: DVec3, target: DVec2) -> Shot {
    let (speed, topspin) = usual_delivery(&board.conditions(), player, Wing::Forehand, ball.stroke, contact, target);
    Shot { contact, stroke: ball.stroke, target, speed: speed * ball.speed, topspin, sidespin: 0.0 }
}

/// Where the body is at the first contact, near frame: behind the baseline for a serve.
fn beside(player: &Player, contact: DVec3, stroke: Stroke) -> DVec2 {
    match stroke {
        Stroke::Serve => DVec2::new(contact.x - 0.2 * player.hand.forehand_sign(), contact.y - 0.5),
        _ => DVec2::new(contact.x - 0.8 * contact.x.signum(), contact.y - 0.2),
    }
}

/// The end that strikes the first ball of a page.
#[must_use]
pub fn first_end(page: &Page) -> End {
    page.shots.first().map_or(End::Near, |s| s.hitter_end)
}
