//! Ready-made patterns: a rally laid out in one go, for the players of a board.
//!
//! All are common practice without a source. They are written for a right-handed hitter at the near end and mirrored
//! for a left-hander or for the other wing. Speeds and spins are the players' usual ones, and a ball that they cannot
//! play is made easier.

use glam::{DVec2, DVec3};
use standpoint_geometry::{Hand, Player, ReadyArea, ReceiptChoice, Shot, Solver, Stroke, Wing, usual_delivery};
use standpoint_language::text;

use crate::{
    marks::Marks,
    model::{Board, Drill, Page, ShotSpec},
    rally::Rally,
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
            Self::CrossCrossLine => text("Cross, cross, line"),
            Self::ApproachAndVolley => text("Approach and volley"),
            Self::ServePlusOne => text("Serve plus one"),
            Self::TwoLineDrill => text("Two lines"),
            Self::HighDeepAndMoveUp => text("High, deep and move up"),
        }
    }

    /// What it teaches, in a sentence.
    #[must_use]
    pub fn purpose(self) -> &'static str {
        match self {
            Self::CrossCrossLine => {
                text("Stay cross-court until the opponent is wide, then change direction into the space.")
            }
            Self::ApproachAndVolley => text("Follow the ball to the net on its own side and cover the line first."),
            Self::ServePlusOne => text("Serve wide, recover, and play the next ball behind or away from the returner."),
            Self::TwoLineDrill => text("One changes direction at every ball, the other never: feel who runs further."),
            Self::HighDeepAndMoveUp => {
                text("Push the opponent back with height, and take the court that it gives you.")
            }
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
                vec![Ball::new(Slice, 2.9, 10.0).approach(), Ball::new(Topspin, 0.9, 8.0), Ball::new(Volley, -2.9, 6.8)]
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

    /// First contact of the hitter and the opponent's place, for a right-hander at the near end.
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
    /// `mirrored` plays it on the other wing. On smaller courts all places shrink with the court. A ball that these
    /// players cannot play, or that would end the rally too early, is aimed shorter, faster or nearer the middle until
    /// they can; this asks the solver for every ball, so it takes some hundredths of a second.
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
        let mut balls = self.balls();
        // Without service boxes the rally begins with a ball from the hand.
        let serves = court.service_line.is_some();
        balls.iter_mut().filter(|b| b.stroke == Stroke::Serve && !serves).for_each(|b| b.stroke = Stroke::Topspin);
        let height = match balls.first() {
            Some(ball) if ball.stroke == Stroke::Serve => hitter.serve.height,
            _ => contact.z.min(0.4 * hitter.reach.overhead),
        };
        let contact = DVec3::new(ground.x, ground.y, height);
        let opponent = place(opponent.x, opponent.y);
        let mut page = Page {
            title: self.label().to_owned(),
            notes: self.purpose().to_owned(),
            cues: Vec::new(),
            shots: Vec::new(),
            drill: Drill::default(),
            marks: Marks::default(),
        };
        let (mut rally, mut solver, count) = (Rally::new(), Solver::new(), balls.len());
        for (i, ball) in balls.into_iter().enumerate() {
            let striker_end = if i % 2 == 0 { end } else { end.other() };
            let player = board.card(striker_end).player();
            let spec = |ball: &Ball| {
                // Targets are given from the striker's own side.
                let target = place(ball.target.x, ball.target.y);
                let shot = delivered(board, &player, ball, contact, target);
                ShotSpec {
                    hitter_end: striker_end,
                    shot: Shot { contact: striker_end.turn3(contact), target: striker_end.turn2(target), ..shot },
                    receipt: ReceiptChoice::Best,
                    hitter_place: (i == 0).then(|| end.turn2(beside(&player, contact, ball.stroke))),
                    opponent_place: striker_end.turn2(opponent),
                    follows: i > 0,
                    recover_to: None,
                    recover_in: ball.approach.then_some(ReadyArea::Net),
                }
            };
            page.shots.push(spec(&ball));
            // Takes the first ball that is safe enough and continues the rally, else the safest that continues it, else
            // the ball as written.
            let mut best: Option<(f64, ShotSpec)> = None;
            for other in ball.easier() {
                page.shots[i] = spec(&other);
                let Ok(resolved) = rally.resolve(board, &page, i, &mut solver) else { break };
                let Ok(answer) = &resolved.result else { continue };
                let chance = answer.shot.chance_in;
                let goes_on = i + 1 == count || answer.play().is_some();
                if goes_on && best.is_none_or(|(surest, _)| chance > surest) {
                    best = Some((chance, page.shots[i]));
                }
                if goes_on && chance >= LEAST_CHANCE {
                    break;
                }
            }
            page.shots[i] = best.map_or_else(|| spec(&ball), |(_, spec)| spec);
        }
        page
    }
}

/// Chance to go in that a ball of a pattern should reach, if any ball does. A choice: a pattern that fails more often
/// than not is no pattern.
const LEAST_CHANCE: f64 = 0.45;

/// One ball of a pattern, from its striker's own side.
#[derive(Clone, Copy)]
struct Ball {
    stroke: Stroke,
    target: DVec2,
    /// Share of the usual speed.
    speed: f64,
    /// Whether its striker follows it to the net.
    approach: bool,
}

impl Ball {
    fn new(stroke: Stroke, x: f64, y: f64) -> Self {
        Self { stroke, target: DVec2::new(x, y), speed: 1.0, approach: false }
    }

    fn approach(mut self) -> Self {
        self.approach = true;
        self
    }

    fn slow(mut self) -> Self {
        self.speed = 0.78;
        self
    }

    /// The ball itself, then easier ones that keep its purpose, the most alike first: faster or shorter, with topspin,
    /// nearer the middle. A serve stays a serve, at worst a second one.
    fn easier(self) -> Vec<Self> {
        const SHORTER: [(f64, f64); 6] = [(1.0, 1.0), (1.0, 0.92), (0.95, 0.84), (0.9, 0.76), (0.85, 0.68), (0.8, 0.6)];
        const TAMER: [(f64, f64, f64); 5] =
            [(0.75, 0.95, 0.95), (0.55, 0.9, 0.9), (0.35, 0.85, 0.85), (0.35, 0.7, 0.85), (0.1, 0.8, 0.8)];
        let moved = |(x, y): (f64, f64), speed: f64, stroke: Stroke| Self {
            stroke,
            target: self.target * DVec2::new(x, y),
            speed,
            ..self
        };
        let mut balls = vec![self];
        if self.speed < 1.0 {
            // A slow, high ball is struck faster before it is aimed shorter.
            balls.extend([0.86, 0.94].map(|speed| moved((1.0, 1.0), speed, self.stroke)));
        }
        let (strokes, speeds): (&[Stroke], _) = match self.stroke {
            Stroke::Serve => (&[Stroke::Serve], [1.0, 0.85]),
            Stroke::Topspin => (&[Stroke::Topspin], [1.0, 1.1]),
            other => (&[other, Stroke::Topspin], [1.0, 1.1]),
        };
        for stroke in strokes {
            for speed in speeds {
                balls.extend(SHORTER.map(|by| moved(by, speed, *stroke)));
            }
        }
        if self.stroke != Stroke::Serve {
            balls.extend(TAMER.map(|(x, y, speed)| moved((x, y), speed, Stroke::Topspin)));
        }
        balls
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
