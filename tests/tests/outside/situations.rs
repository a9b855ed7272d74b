//! Situations to check with: usual ones by name, and random ones from a seed.

use glam::{DVec2, DVec3, dvec2, dvec3};
use standpoint_geometry::{
    Air, BackhandGrip, Ball, BallType, Conditions, Court, End, FlightLaw, Hand, Level, NetPosts, Player, ReadyArea,
    ReceiptChoice, Settings, Shot, Situation, Stage, Stroke, Surface, SurfaceKind, Wing, usual_delivery,
};

/// A full court with singles sticks, acrylic, a medium ball, air at sea level.
pub fn usual_conditions() -> Conditions {
    Conditions {
        court: Court::new(Stage::Full, NetPosts::SinglesSticks),
        surface: Surface::default(),
        ball: Ball::default(),
        air: Air::default(),
        law: FlightLaw::default(),
    }
}

/// A right-handed player with a two-handed backhand.
pub fn right_handed(level: Level) -> Player {
    level.player(Hand::Right, BackhandGrip::TwoHanded)
}

/// A drive with topspin as the player usually hits it from a contact to a target; the body stands beside the ball.
pub fn drive(hitter: Player, opponent: Player, contact: DVec3, target: DVec2) -> Situation {
    let conditions = usual_conditions();
    // From the side of the forehand, except on the other half of the court.
    let side = hitter.hand.forehand_sign();
    let wing = if contact.x * side >= 0.0 { Wing::Forehand } else { Wing::Backhand };
    let beside = if wing == Wing::Forehand { side } else { -side };
    let (speed, topspin) = usual_delivery(&conditions, &hitter, wing, Stroke::Topspin, contact, target);
    Situation {
        conditions,
        hitter_end: End::Near,
        hitter,
        opponent,
        hitter_place: dvec2(contact.x - 0.8 * beside, contact.y - 0.2),
        opponent_place: dvec2(0.0, 12.9),
        hitter_pressure: 0.0,
        hitter_habits: None,
        opponent_habits: None,
        shot: Shot { contact, stroke: Stroke::Topspin, target, speed, topspin, sidespin: 0.0 },
        receipt: ReceiptChoice::Best,
        settings: Settings::default(),
    }
}

/// The mirror image: left and right exchanged, hands too.
pub fn mirrored(situation: &Situation) -> Situation {
    let flip2 = |p: DVec2| dvec2(-p.x, p.y);
    let mut s = *situation;
    s.hitter = s.hitter.mirrored();
    s.opponent = s.opponent.mirrored();
    s.hitter_place = flip2(s.hitter_place);
    s.opponent_place = flip2(s.opponent_place);
    s.shot.contact.x = -s.shot.contact.x;
    s.shot.target = flip2(s.shot.target);
    s.shot.sidespin = -s.shot.sidespin;
    if let ReceiptChoice::Near(p) = s.receipt {
        s.receipt = ReceiptChoice::Near(flip2(p));
    }
    s
}

/// The same situation played from the other end.
pub fn turned(situation: &Situation) -> Situation {
    let mut s = *situation;
    s.hitter_end = s.hitter_end.other();
    s.hitter_place = -s.hitter_place;
    s.opponent_place = -s.opponent_place;
    s.shot.contact = dvec3(-s.shot.contact.x, -s.shot.contact.y, s.shot.contact.z);
    s.shot.target = -s.shot.target;
    if let ReceiptChoice::Near(p) = s.receipt {
        s.receipt = ReceiptChoice::Near(-p);
    }
    s
}

/// Numbers that are the same on every run (SplitMix64: Steele, Lea and Flood, OOPSLA 2014).
pub struct Seeded(pub u64);

impl Seeded {
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * ((self.bits() >> 11) as f64 / (1u64 << 53) as f64)
    }

    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[(self.bits() % from.len() as u64) as usize]
    }

    pub fn chance(&mut self, p: f64) -> bool {
        self.between(0.0, 1.0) < p
    }

    /// A valid situation of any kind: all levels, hands, strokes, surfaces, balls, airs, courts and ends. The shot may
    /// still be one that cannot be played.
    pub fn situation(&mut self) -> Situation {
        let level = self.pick(&Level::ALL);
        let other = if self.chance(0.6) { level } else { self.pick(&Level::ALL) };
        let stage = match level {
            Level::RedJunior => Stage::Red,
            Level::OrangeJunior => Stage::Orange,
            _ => Stage::Full,
        };
        let court = Court::new(stage, self.pick(&[NetPosts::SinglesSticks, NetPosts::DoublesPosts]));
        let ball = match level {
            Level::RedJunior => BallType::Stage3,
            Level::OrangeJunior => BallType::Stage2,
            Level::GreenJunior => BallType::Stage1,
            _ => self.pick(&[BallType::Type1, BallType::Type2, BallType::Type2, BallType::Type3]),
        };
        let air = Air { temperature_c: self.between(5.0, 38.0), altitude_m: self.pick(&[0.0, 0.0, 600.0, 2200.0]) };
        let law = self.pick(&[FlightLaw::SpinDependent, FlightLaw::SpinDependent, FlightLaw::Constant]);
        let surface = Surface::new(self.pick(&SurfaceKind::ALL));
        let conditions = Conditions { court, surface, ball: Ball::new(ball), air, law };
        let [hitter, opponent] = [level, other].map(|l| {
            let grip = self.pick(&[BackhandGrip::OneHanded, BackhandGrip::TwoHanded]);
            l.player(self.pick(&[Hand::Right, Hand::Right, Hand::Left]), grip)
        });
        use Stroke::{Drop, Flat, Lob, Overhead, Serve, Slice, Topspin, Volley};
        let stroke =
            self.pick(&[Topspin, Topspin, Topspin, Topspin, Flat, Slice, Slice, Drop, Lob, Volley, Overhead, Serve]);
        let (w, l) = (court.half_width(), court.half_length());
        let target = |r: &mut Self, near: f64, far: f64| dvec2(r.between(-0.94, 0.94) * w, r.between(near, far) * l);
        let (contact, target) = match stroke {
            Serve => {
                let side = self.pick(&[-1.0, 1.0]);
                let contact = dvec3(side * self.between(0.1, 2.0) * w / 4.0, -l - 0.05, hitter.serve.height);
                let depth = court.service_line.unwrap_or(l) / l;
                let across = self.between(0.06, 0.94) * w;
                (contact, dvec2(-side * across, self.between(0.75, 0.96) * depth * l))
            }
            Volley => (
                dvec3(self.between(-0.9, 0.9) * w, -self.between(0.12, 0.5) * l, self.between(0.4, 1.8)),
                target(self, 0.35, 0.93),
            ),
            Overhead => (
                dvec3(self.between(-0.9, 0.9) * w, -self.between(0.2, 0.7) * l, hitter.reach.overhead * 0.95),
                target(self, 0.45, 0.93),
            ),
            Drop => (
                dvec3(self.between(-1.1, 1.1) * w, -self.between(0.5, 1.05) * l, self.between(0.4, 1.4)),
                target(self, 0.12, 0.35),
            ),
            _ => (
                dvec3(self.between(-1.2, 1.2) * w, -self.between(0.6, 1.25) * l, self.between(0.3, 1.6)),
                target(self, 0.3, 0.95),
            ),
        };
        let wing = self.pick(&[Wing::Forehand, Wing::Forehand, Wing::Backhand]);
        let beside = if wing == Wing::Forehand { hitter.hand.forehand_sign() } else { -hitter.hand.forehand_sign() };
        let (speed, topspin) = usual_delivery(&conditions, &hitter, wing, stroke, contact, target);
        let situation = Situation {
            conditions,
            hitter_end: End::Near,
            hitter,
            opponent,
            hitter_place: dvec2(contact.x - 0.8 * beside, contact.y - 0.2),
            opponent_place: dvec2(self.between(-1.0, 1.0) * w, self.between(0.25, 1.2) * l),
            hitter_pressure: 0.0,
            hitter_habits: None,
            opponent_habits: None,
            shot: Shot {
                contact,
                stroke,
                target,
                speed: (speed * self.between(0.85, 1.1)).max(3.0),
                topspin: topspin * self.between(0.8, 1.1),
                sidespin: if self.chance(0.2) { self.between(-120.0, 120.0) } else { 0.0 },
            },
            receipt: ReceiptChoice::Best,
            settings: Settings {
                ready: self.pick(&[ReadyArea::Anywhere, ReadyArea::Anywhere, ReadyArea::Back, ReadyArea::Net]),
                ..Settings::default()
            },
        };
        if self.chance(0.3) { turned(&situation) } else { situation }
    }
}
