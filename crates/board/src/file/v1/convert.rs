//! Conversion between the layout of version 1 and the board: units, rounding, moved parts.

use std::sync::Arc;

use glam::{DVec2, DVec3};
use standpoint_geometry::{
    Air, BackhandGrip, Hand, Movement, Player, Reach, ReceiptChoice, RunOff, ServeSkill, Settings, Shot, WingSkill,
    units::{DEG, KMH, RPM},
};

use super::layout::*;
use crate::choices::{BounceFigures, CourtChoice, SurfaceChoice};
use crate::marks::Marks;
use crate::model::{Board, Drill, Page, ShotSpec};
use crate::player_card::{Figures, PlayerCard};

/// Steps in one unit of the file: numbers are written to four decimals, 0.1 mm for a length.
const STEPS: f64 = 1e4;

/// The number as the file has it: in `unit`, to four decimals. Adding 0 turns -0 into 0.
pub fn out(value: f64, unit: f64) -> f64 {
    (value / unit * STEPS).round() / STEPS + 0.0
}

/// The number as the board has it. It is rounded first, so that reading a board and reading it after another save
/// agree.
pub fn into(written: f64, unit: f64) -> f64 {
    out(written, 1.0) * unit
}

impl BoardFile {
    /// The board, not checked yet.
    pub fn into_board(self) -> Board {
        Board {
            title: self.title,
            court: self.court.into_choice(),
            surface: self.surface.into_choice(),
            ball: self.ball.0,
            air: self.air.into_air(),
            law: self.flight_law.0,
            near: self.players.near.into_card(),
            far: self.players.far.into_card(),
            coached: self.coached.0,
            units: self.units.0,
            theme: self.theme,
            settings: self.settings.into_settings(),
            pages: self.pages.into_iter().map(|page| Arc::new(page.into_page())).collect(),
            chart: None,
        }
    }
}

impl From<&CourtChoice> for CourtFile {
    fn from(court: &CourtChoice) -> Self {
        let run_off = RunOffFile { behind: out(court.run_off.behind, 1.0), beside: out(court.run_off.beside, 1.0) };
        Self { stage: Name(court.stage), net: Name(court.posts), run_off }
    }
}

impl CourtFile {
    pub fn into_choice(self) -> CourtChoice {
        let run_off = RunOff { behind: into(self.run_off.behind, 1.0), beside: into(self.run_off.beside, 1.0) };
        CourtChoice { stage: self.stage.0, posts: self.net.0, run_off }
    }
}

impl From<&SurfaceChoice> for SurfaceFile {
    fn from(surface: &SurfaceChoice) -> Self {
        let measured = surface.measured.map(|figures| BounceFile {
            friction: out(figures.friction, 1.0),
            restitution: out(figures.restitution, 1.0),
            grip_restitution: out(figures.grip_restitution, 1.0),
        });
        Self { kind: Name(surface.kind), measured }
    }
}

impl SurfaceFile {
    pub fn into_choice(self) -> SurfaceChoice {
        let measured = self.measured.map(|figures| BounceFigures {
            friction: into(figures.friction, 1.0),
            restitution: into(figures.restitution, 1.0),
            grip_restitution: into(figures.grip_restitution, 1.0),
        });
        SurfaceChoice { kind: self.kind.0, measured }
    }
}

impl From<&Air> for AirFile {
    fn from(air: &Air) -> Self {
        Self { temperature_c: out(air.temperature_c, 1.0), altitude_m: out(air.altitude_m, 1.0) }
    }
}

impl AirFile {
    pub fn into_air(self) -> Air {
        Air { temperature_c: into(self.temperature_c, 1.0), altitude_m: into(self.altitude_m, 1.0) }
    }
}

impl From<&Settings> for SettingsFile {
    fn from(settings: &Settings) -> Self {
        Self {
            edge_chance: out(settings.edge_chance, 1.0),
            zone_tolerance: out(settings.zone_tolerance, 1.0),
            ready: Name(settings.ready),
        }
    }
}

impl SettingsFile {
    pub fn into_settings(self) -> Settings {
        Settings {
            edge_chance: into(self.edge_chance, 1.0),
            zone_tolerance: into(self.zone_tolerance, 1.0),
            ready: self.ready.0,
        }
    }
}

impl From<&PlayerCard> for PlayerFile {
    fn from(card: &PlayerCard) -> Self {
        let figures = match &card.figures {
            Figures::Level(level) => FiguresFile::Level(Name(*level)),
            Figures::Custom(player) => player.as_ref().into(),
        };
        Self { name: card.name.clone(), hand: Name(card.hand), backhand: Name(card.grip), figures }
    }
}

impl PlayerFile {
    pub fn into_card(self) -> PlayerCard {
        let (hand, grip) = (self.hand.0, self.backhand.0);
        PlayerCard { name: self.name, hand, grip, figures: self.figures.into_figures(hand, grip), habits: None }
    }
}

impl From<&Player> for FiguresFile {
    fn from(player: &Player) -> Self {
        let (movement, reach, serve) = (&player.movement, &player.reach, &player.serve);
        Self::Custom {
            bounces: player.bounces,
            movement: MovementFile {
                reaction_s: out(movement.reaction_s, 1.0),
                top_speed_m_s: out(movement.v_max, 1.0),
                time_constant_s: out(movement.tau_s, 1.0),
                backward_factor: out(movement.backward_factor, 1.0),
                follow_through_s: out(movement.follow_through_s, 1.0),
            },
            reach: ReachFile {
                forehand: out(reach.forehand, 1.0),
                backhand: out(reach.backhand, 1.0),
                ahead: out(reach.ahead, 1.0),
                overhead: out(reach.overhead, 1.0),
            },
            forehand: (&player.forehand).into(),
            backhand: (&player.backhand).into(),
            serve: ServeFile {
                first_speed_kmh: out(serve.first_speed, KMH),
                second_speed_kmh: out(serve.second_speed, KMH),
                height: out(serve.height, 1.0),
                topspin_rpm: out(serve.topspin, RPM),
                spread_deg: out(serve.spread, DEG),
            },
        }
    }
}

impl FiguresFile {
    fn into_figures(self, hand: Hand, grip: BackhandGrip) -> Figures {
        match self {
            Self::Level(level) => Figures::Level(level.0),
            Self::Custom { bounces, movement, reach, forehand, backhand, serve } => Figures::Custom(Box::new(Player {
                hand,
                grip,
                bounces,
                movement: Movement {
                    reaction_s: into(movement.reaction_s, 1.0),
                    v_max: into(movement.top_speed_m_s, 1.0),
                    tau_s: into(movement.time_constant_s, 1.0),
                    backward_factor: into(movement.backward_factor, 1.0),
                    follow_through_s: into(movement.follow_through_s, 1.0),
                },
                reach: Reach {
                    forehand: into(reach.forehand, 1.0),
                    backhand: into(reach.backhand, 1.0),
                    ahead: into(reach.ahead, 1.0),
                    overhead: into(reach.overhead, 1.0),
                },
                forehand: forehand.into_skill(),
                backhand: backhand.into_skill(),
                serve: ServeSkill {
                    first_speed: into(serve.first_speed_kmh, KMH),
                    second_speed: into(serve.second_speed_kmh, KMH),
                    height: into(serve.height, 1.0),
                    topspin: into(serve.topspin_rpm, RPM),
                    spread: into(serve.spread_deg, DEG),
                },
            })),
        }
    }
}

impl From<&WingSkill> for WingFile {
    fn from(wing: &WingSkill) -> Self {
        Self {
            speed_kmh: out(wing.speed, KMH),
            topspin_rpm: out(wing.topspin, RPM),
            spread_up_deg: out(wing.spread_up, DEG),
            spread_side_deg: out(wing.spread_side, DEG),
        }
    }
}

impl WingFile {
    fn into_skill(self) -> WingSkill {
        WingSkill {
            speed: into(self.speed_kmh, KMH),
            topspin: into(self.topspin_rpm, RPM),
            spread_up: into(self.spread_up_deg, DEG),
            spread_side: into(self.spread_side_deg, DEG),
        }
    }
}

impl PageFile {
    fn into_page(self) -> Page {
        let shots = self.shots.into_iter().map(ShotFile::into_shot).collect();
        Page {
            title: self.title,
            notes: self.notes,
            cues: Vec::new(),
            drill: Drill::default(),
            shots,
            marks: Marks::default(),
        }
    }
}

impl ShotFile {
    fn into_shot(self) -> ShotSpec {
        ShotSpec {
            hitter_end: self.hitter.0,
            shot: Shot {
                contact: self.contact.into_point(),
                stroke: self.stroke.0,
                target: self.target.into_place(),
                speed: into(self.speed_kmh, KMH),
                topspin: into(self.topspin_rpm, RPM),
                sidespin: into(self.sidespin_rpm, RPM),
            },
            receipt: self.receipt.into_choice(),
            hitter_place: self.hitter_place.map(PlaceFile::into_place),
            opponent_place: self.opponent_place.into_place(),
            follows: false,
            recover_to: None,
            recover_in: None,
        }
    }
}

impl From<DVec3> for ContactFile {
    fn from(contact: DVec3) -> Self {
        Self { x: out(contact.x, 1.0), y: out(contact.y, 1.0), height: out(contact.z, 1.0) }
    }
}

impl ContactFile {
    pub fn into_point(self) -> DVec3 {
        DVec3::new(into(self.x, 1.0), into(self.y, 1.0), into(self.height, 1.0))
    }
}

impl From<ReceiptChoice> for ReceiptFile {
    fn from(receipt: ReceiptChoice) -> Self {
        match receipt {
            ReceiptChoice::Best => Self::Best,
            ReceiptChoice::Near(place) => Self::Near { x: out(place.x, 1.0), y: out(place.y, 1.0) },
        }
    }
}

impl ReceiptFile {
    pub fn into_choice(self) -> ReceiptChoice {
        match self {
            Self::Best => ReceiptChoice::Best,
            Self::Near { x, y } => ReceiptChoice::Near(PlaceFile { x, y }.into_place()),
        }
    }
}

impl From<DVec2> for PlaceFile {
    fn from(place: DVec2) -> Self {
        Self { x: out(place.x, 1.0), y: out(place.y, 1.0) }
    }
}

impl PlaceFile {
    pub(crate) fn into_place(self) -> DVec2 {
        DVec2::new(into(self.x, 1.0), into(self.y, 1.0))
    }
}
