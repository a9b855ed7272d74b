//! Player profiles by level.
//!
//! Figures marked *source* come from publications named in `docs/model.md`; the others are choices, interpolated
//! between those and common practice, and marked so in [`Level::basis`]. A profile is a starting point; every figure
//! can be replaced by a measured one.

use crate::{
    player::{BackhandGrip, Hand, Movement, Player, Reach, ServeSkill, WingSkill},
    units::{KMH, RPM},
};

/// Levels of play with a ready profile.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum Level {
    /// First-year junior on the Red court, about 8 years old.
    RedJunior,
    /// Junior on the Orange court, about 10 years old.
    OrangeJunior,
    /// Junior on the full court with the Green ball, about 12 years old.
    GreenJunior,
    /// Competing junior girl, about 16 years old.
    JuniorGirl,
    /// Competing junior boy, about 16 years old.
    JuniorBoy,
    /// Adult in the first years of play.
    Improver,
    /// Adult club player.
    #[default]
    Club,
    /// Strong club or regional tournament player.
    Tournament,
    /// Professional, women.
    ProWoman,
    /// Professional, men.
    ProMan,
    /// Wheelchair tournament player (two bounces).
    Wheelchair,
}

/// One row of the table below, in a coach's units.
struct Row {
    label: &'static str,
    basis: &'static str,
    /// m/s, s: the exponential sprint model.
    sprint: (f64, f64),
    reaction: f64,
    /// Forehand and backhand: km/h, rpm.
    forehand: (f64, f64),
    backhand: (f64, f64),
    /// Forehand and backhand: spread up/down and sideways, degrees.
    forehand_spread: (f64, f64),
    backhand_spread: (f64, f64),
    /// Lunging reach on the forehand, reach overhead, m.
    reach: (f64, f64),
    /// km/h first, second; contact height m; rpm of the second serve; spread in degrees.
    serve: (f64, f64, f64, f64, f64),
}

impl Level {
    /// All levels, youngest first.
    pub const ALL: [Self; 11] = [
        Self::RedJunior,
        Self::OrangeJunior,
        Self::GreenJunior,
        Self::JuniorGirl,
        Self::JuniorBoy,
        Self::Improver,
        Self::Club,
        Self::Tournament,
        Self::ProWoman,
        Self::ProMan,
        Self::Wheelchair,
    ];

    /// A short name for menus.
    #[must_use]
    pub fn label(self) -> &'static str {
        self.row().label
    }

    /// Source of the figures.
    #[must_use]
    pub fn basis(self) -> &'static str {
        self.row().basis
    }

    /// The profile, for a hand and a backhand.
    #[must_use]
    pub fn player(self, hand: Hand, grip: BackhandGrip) -> Player {
        let row = self.row();
        let wheelchair = self == Self::Wheelchair;
        // A two-handed backhand reaches 0.3-0.5 m less far (from memory); one-handed about as far as the forehand.
        let backhand_loss = match grip {
            BackhandGrip::OneHanded => 0.1,
            BackhandGrip::TwoHanded => 0.4,
        };
        let skill = |(speed, spin), (up, side)| WingSkill::from_coach_units(speed, spin, up, side);
        Player {
            hand,
            grip,
            bounces: if wheelchair { 2 } else { 1 },
            movement: Movement {
                reaction_s: row.reaction,
                v_max: row.sprint.0,
                tau_s: row.sprint.1,
                // Choice: no measurement at hand; a wheelchair must be turned before it is pushed the other way.
                backward_factor: if wheelchair { 1.6 } else { 1.25 },
                // Choice: from impact to the first recovery step.
                follow_through_s: 0.3,
            },
            reach: Reach {
                forehand: row.reach.0,
                backhand: row.reach.0 * (1.0 - backhand_loss / 2.0),
                ahead: row.reach.0 * 0.6,
                overhead: row.reach.1,
            },
            forehand: skill(row.forehand, row.forehand_spread),
            backhand: skill(row.backhand, row.backhand_spread),
            serve: ServeSkill {
                first_speed: row.serve.0 * KMH,
                second_speed: row.serve.1 * KMH,
                height: row.serve.2,
                topspin: row.serve.3 * RPM,
                spread: row.serve.4.to_radians(),
            },
        }
    }

    /// Sprint models: juniors from the 10 m and 20 m times of Fernandez-Fernandez, Ulbricht & Ferrauti (2014), adults
    /// from memory (1.03/1.75/3.0 s men, 1.10/1.90/3.3 s women; club 10-20 % slower). Speeds: Kovalchik & Reid (2017)
    /// for professionals and juniors; recreational 60-90 km/h from memory. Spreads are a choice, calibrated for the
    /// professionals (see [`crate::player::scatter`]) and widened step by step below them.
    fn row(self) -> Row {
        match self {
            Self::RedJunior => Row {
                label: "Red junior (about 8)",
                basis: "choice, extrapolated below the published ages",
                sprint: (5.0, 0.85),
                reaction: 0.35,
                forehand: (42.0, 300.0),
                backhand: (38.0, 200.0),
                forehand_spread: (2.7, 3.0),
                backhand_spread: (3.1, 3.4),
                reach: (1.25, 1.95),
                serve: (45.0, 40.0, 1.7, 200.0, 3.2),
            },
            Self::OrangeJunior => Row {
                label: "Orange junior (about 10)",
                basis: "choice, extrapolated below the published ages",
                sprint: (5.7, 0.85),
                reaction: 0.32,
                forehand: (58.0, 600.0),
                backhand: (54.0, 450.0),
                forehand_spread: (2.3, 2.5),
                backhand_spread: (2.6, 2.9),
                reach: (1.45, 2.15),
                serve: (68.0, 58.0, 1.95, 500.0, 2.6),
            },
            Self::GreenJunior => Row {
                label: "Green junior (about 12)",
                basis: "sprint: source (U12); strokes: choice",
                sprint: (6.4, 0.85),
                reaction: 0.28,
                forehand: (78.0, 1000.0),
                backhand: (74.0, 800.0),
                forehand_spread: (2.0, 2.2),
                backhand_spread: (2.2, 2.5),
                reach: (1.6, 2.3),
                serve: (95.0, 80.0, 2.15, 900.0, 1.6),
            },
            Self::JuniorGirl => Row {
                label: "Junior girl (about 16)",
                basis: "sprint and speed: source (U16; junior girls); spin and spread: choice",
                sprint: (6.9, 0.86),
                reaction: 0.22,
                forehand: (110.0, 1700.0),
                backhand: (103.0, 1450.0),
                forehand_spread: (1.55, 1.85),
                backhand_spread: (1.65, 1.95),
                reach: (1.85, 2.6),
                serve: (138.0, 115.0, 2.55, 1500.0, 1.1),
            },
            Self::JuniorBoy => Row {
                label: "Junior boy (about 16)",
                basis: "sprint and speed: source (U16; junior boys); spin and spread: choice",
                sprint: (7.4, 0.86),
                reaction: 0.22,
                forehand: (113.0, 2100.0),
                backhand: (105.0, 1650.0),
                forehand_spread: (1.55, 1.85),
                backhand_spread: (1.7, 2.0),
                reach: (1.9, 2.7),
                serve: (155.0, 128.0, 2.65, 1900.0, 1.1),
            },
            Self::Improver => Row {
                label: "Improver",
                basis: "choice; speed at the low end of recreational play (from memory)",
                sprint: (6.0, 0.95),
                reaction: 0.35,
                forehand: (62.0, 400.0),
                backhand: (56.0, 200.0),
                forehand_spread: (2.4, 2.7),
                backhand_spread: (2.8, 3.1),
                reach: (1.65, 2.45),
                serve: (95.0, 75.0, 2.45, 300.0, 1.9),
            },
            Self::Club => Row {
                label: "Club player",
                basis: "choice; speed and sprint from memory (club adults 10-20 % slower than professionals)",
                sprint: (6.7, 0.93),
                reaction: 0.28,
                forehand: (85.0, 1000.0),
                backhand: (78.0, 700.0),
                forehand_spread: (1.95, 2.25),
                backhand_spread: (2.2, 2.5),
                reach: (1.8, 2.55),
                serve: (130.0, 100.0, 2.55, 900.0, 1.45),
            },
            Self::Tournament => Row {
                label: "Competitive adult",
                basis: "choice between club and professional; landing ellipse: source (Delgado-Garcia et al. 2019)",
                sprint: (7.5, 0.88),
                reaction: 0.23,
                forehand: (105.0, 1800.0),
                backhand: (97.0, 1350.0),
                forehand_spread: (1.85, 2.25),
                backhand_spread: (1.98, 2.38),
                reach: (1.9, 2.65),
                serve: (160.0, 128.0, 2.7, 1800.0, 1.15),
            },
            Self::ProWoman => Row {
                label: "Professional, women",
                basis: "speed, spin, serve: source; sprint from memory; spread calibrated to published error ratios",
                sprint: (8.2, 0.86),
                reaction: 0.2,
                forehand: (111.0, 2050.0),
                backhand: (106.0, 1675.0),
                forehand_spread: (1.4, 1.7),
                backhand_spread: (1.4, 1.7),
                reach: (1.9, 2.67),
                serve: (156.0, 132.0, 2.67, 2100.0, 0.9),
            },
            Self::ProMan => Row {
                label: "Professional, men",
                basis: "speed, spin, serve: source; sprint from memory; spread calibrated to published error ratios",
                sprint: (8.6, 0.86),
                reaction: 0.2,
                forehand: (119.0, 2600.0),
                backhand: (108.0, 1890.0),
                forehand_spread: (1.3, 1.6),
                backhand_spread: (1.35, 1.7),
                reach: (2.05, 2.84),
                serve: (183.0, 150.0, 2.84, 3000.0, 0.95),
            },
            Self::Wheelchair => Row {
                label: "Wheelchair, competitive",
                basis: "choice; two bounces by the rules of wheelchair tennis",
                sprint: (4.0, 1.2),
                reaction: 0.3,
                forehand: (85.0, 1100.0),
                backhand: (75.0, 700.0),
                forehand_spread: (1.8, 2.1),
                backhand_spread: (1.95, 2.25),
                reach: (1.35, 2.0),
                serve: (125.0, 100.0, 2.05, 900.0, 1.4),
            },
        }
    }
}
