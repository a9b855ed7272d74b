//! The shipped tables: each level against itself, solved by `scripts/level-tables`.

use std::sync::OnceLock;

use super::{lattice::Table, matchup::Matchup, store};
use crate::{
    ball::{Ball, BallType, air::Air, flight::FlightLaw},
    court::{Court, NetPosts, Stage, surface::Surface},
    player::{BackhandGrip, Hand, Player, presets::Level},
    shot::situation::Conditions,
};

/// Court pace of the shipped tables: a medium hard court (ITF category 3).
const PACE: f64 = 37.0;

/// The levels with their packed tables.
const TABLES: [(Level, &[u8]); 11] = [
    (Level::RedJunior, include_bytes!("../../tables/red-junior.worth")),
    (Level::OrangeJunior, include_bytes!("../../tables/orange-junior.worth")),
    (Level::GreenJunior, include_bytes!("../../tables/green-junior.worth")),
    (Level::JuniorGirl, include_bytes!("../../tables/junior-girl.worth")),
    (Level::JuniorBoy, include_bytes!("../../tables/junior-boy.worth")),
    (Level::Improver, include_bytes!("../../tables/improver.worth")),
    (Level::Club, include_bytes!("../../tables/club.worth")),
    (Level::Tournament, include_bytes!("../../tables/tournament.worth")),
    (Level::ProWoman, include_bytes!("../../tables/pro-woman.worth")),
    (Level::ProMan, include_bytes!("../../tables/pro-man.worth")),
    (Level::Wheelchair, include_bytes!("../../tables/wheelchair.worth")),
];

/// A level's table and the key of its matchup; unpacked on first use.
type Unpacked = OnceLock<Option<(u64, Table)>>;

static UNPACKED: [Unpacked; 11] = [const { OnceLock::new() }; 11];

fn table(i: usize) -> Option<&'static (u64, Table)> {
    UNPACKED[i].get_or_init(|| unpack(i)).as_ref()
}

fn unpack(i: usize) -> Option<(u64, Table)> {
    let (level, bytes) = TABLES[i];
    let matchup = matchup(level);
    let mut tables = store::unpack(&matchup, bytes)?;
    let table = tables.pop()?;
    Some((store::key_of(bytes)?, table))
}

/// The name of a level's file.
#[must_use]
pub fn file_name(level: Level) -> &'static str {
    match level {
        Level::RedJunior => "red-junior",
        Level::OrangeJunior => "orange-junior",
        Level::GreenJunior => "green-junior",
        Level::JuniorGirl => "junior-girl",
        Level::JuniorBoy => "junior-boy",
        Level::Improver => "improver",
        Level::Club => "club",
        Level::Tournament => "tournament",
        Level::ProWoman => "pro-woman",
        Level::ProMan => "pro-man",
        Level::Wheelchair => "wheelchair",
    }
}

/// The matchup of a level's table: the level against itself, right-handed, on the court and with the ball of its stage;
/// a medium hard court.
#[must_use]
pub fn matchup(level: Level) -> Matchup {
    let (stage, ball) = match level {
        Level::RedJunior => (Stage::Red, BallType::Stage3),
        Level::OrangeJunior => (Stage::Orange, BallType::Stage2),
        Level::GreenJunior => (Stage::Green, BallType::Stage1),
        _ => (Stage::Full, BallType::Type2),
    };
    let player = level.player(Hand::Right, BackhandGrip::TwoHanded);
    Matchup {
        conditions: Conditions {
            court: Court::new(stage, NetPosts::SinglesSticks),
            surface: Surface::from_pace(PACE),
            ball: Ball::new(ball),
            air: Air { temperature_c: 20.0, altitude_m: 0.0 },
            law: FlightLaw::default(),
        },
        players: [player; 2],
    }
}

/// The shipped table of exactly this matchup.
pub(crate) fn exact(wanted: &Matchup) -> Option<&'static Table> {
    let i = TABLES.iter().position(|(level, _)| matchup(*level) == *wanted)?;
    let (key, table) = table(i)?;
    // A table made before the last change of the model serves only as a stand-in.
    (*key == wanted.key()).then_some(table)
}

/// The table of the level with the most similar player, on a court of the same kind.
pub(crate) fn nearest(conditions: &Conditions, player: &Player) -> Option<&'static Table> {
    let far = |p: &Player, court: &Court| {
        let log = |a: f64, b: f64| (a / b).ln().powi(2);
        log(p.forehand.speed, player.forehand.speed)
            + log(p.backhand.speed, player.backhand.speed)
            + 0.3 * log(p.forehand.spread_up, player.forehand.spread_up)
            + log(p.movement.v_max, player.movement.v_max)
            + if p.bounces == player.bounces { 0.0 } else { 1.0 }
            + log(court.length, conditions.court.length)
    };
    let distance = |i: usize| {
        let m = matchup(TABLES[i].0);
        far(&m.players[0], &m.conditions.court)
    };
    let mut order: Vec<(f64, usize)> = (0..TABLES.len()).map(|i| (distance(i), i)).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    order.into_iter().find_map(|(_, i)| table(i)).map(|(_, table)| table)
}
