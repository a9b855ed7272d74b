//! Conversion between the layout of version 2 and the board.

use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{
    Shot,
    units::{KMH, RPM},
};

use super::VERSION;
use super::layout::*;
use crate::chart::file::layout::{ChartPart, Seen};
use crate::file::v1::convert::{into, out};
use crate::file::v1::layout::{self as v1, Name, PlaceFile};
use crate::marks::{Appears, Form, Mark, Marks};
use crate::model::{Board, Drill, Page, ShotSpec};
use crate::play_area::PlayArea;
use crate::player_card::PlayerCard;

/// A shot rounded as in a file.
pub fn tidy_shot(shot: &ShotSpec) -> ShotSpec {
    ShotFile::from(shot).into_shot()
}

/// Marks rounded as in a file and clamped to where they may lie; a pen stroke of one point is dropped.
/// `None` when they already are.
pub fn tidy_marks(marks: &Marks, area: &PlayArea) -> Option<Marks> {
    let mut tidy = Vec::with_capacity(marks.list.len());
    for mark in &marks.list {
        let form = FormFile::from(&mark.form.mapped(|place| area.clamp_mark(place))).into_form();
        if !matches!(&form, Form::Pen { points, .. } if points.len() < 2) {
            tidy.push(Mark { form, ..*mark });
        }
    }
    (tidy != marks.list).then(|| Marks { list: tidy, hidden: marks.hidden.clone() })
}

impl From<&Board> for BoardFile {
    fn from(board: &Board) -> Self {
        Self {
            standpoint_board: VERSION,
            title: board.title.clone(),
            court: (&board.court).into(),
            surface: (&board.surface).into(),
            ball: Name(board.ball),
            air: (&board.air).into(),
            flight_law: Name(board.law),
            players: PlayersFile { near: (&board.near).into(), far: (&board.far).into() },
            coached: Name(board.coached),
            units: Name(board.units),
            theme: board.theme.clone(),
            settings: (&board.settings).into(),
            pages: board.pages.iter().map(|page| page.as_ref().into()).collect(),
            chart: Seen(board.chart.as_deref().map(|chart| ChartPart::from(chart).in_board())),
        }
    }
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
            chart: self.chart.0.map(|chart| Arc::new(chart.into_chart())),
        }
    }
}

impl From<&PlayerCard> for PlayerFile {
    fn from(card: &PlayerCard) -> Self {
        let v1::PlayerFile { name, hand, backhand, figures } = card.into();
        Self { name, hand, backhand, figures, habits: Seen(card.habits.as_deref().map(Into::into)) }
    }
}

impl PlayerFile {
    fn into_card(self) -> PlayerCard {
        let Self { name, hand, backhand, figures, habits } = self;
        let card = v1::PlayerFile { name, hand, backhand, figures }.into_card();
        PlayerCard { habits: habits.0.map(|known| Box::new(known.into_habits())), ..card }
    }
}

impl From<&Page> for PageFile {
    fn from(page: &Page) -> Self {
        Self {
            title: page.title.clone(),
            notes: page.notes.clone(),
            cues: page.cues.clone(),
            drill: (!page.drill.is_empty()).then(|| (&page.drill).into()),
            shots: page.shots.iter().map(ShotFile::from).collect(),
            marks: page.marks.list.iter().map(MarkFile::from).collect(),
            hidden_layers: page.marks.hidden.iter().copied().map(Name).collect(),
        }
    }
}

impl PageFile {
    fn into_page(self) -> Page {
        Page {
            title: self.title,
            notes: self.notes,
            cues: self.cues,
            drill: self.drill.map(DrillFile::into_drill).unwrap_or_default(),
            shots: self.shots.into_iter().map(ShotFile::into_shot).collect(),
            marks: Marks {
                list: self.marks.into_iter().map(MarkFile::into_mark).collect(),
                hidden: self.hidden_layers.into_iter().map(|layer| layer.0).collect(),
            },
        }
    }
}

impl From<&Drill> for DrillFile {
    fn from(drill: &Drill) -> Self {
        let Drill { feed, targets, progression, equipment } = drill.clone();
        Self { feed, targets, progression, equipment }
    }
}

impl DrillFile {
    fn into_drill(self) -> Drill {
        let Self { feed, targets, progression, equipment } = self;
        Drill { feed, targets, progression, equipment }
    }
}

impl From<&ShotSpec> for ShotFile {
    fn from(spec: &ShotSpec) -> Self {
        let shot = &spec.shot;
        Self {
            hitter: Name(spec.hitter_end),
            follows: spec.follows,
            stroke: Name(shot.stroke),
            contact: shot.contact.into(),
            target: shot.target.into(),
            speed_kmh: out(shot.speed, KMH),
            topspin_rpm: out(shot.topspin, RPM),
            sidespin_rpm: out(shot.sidespin, RPM),
            receipt: spec.receipt.into(),
            hitter_place: spec.hitter_place.map(PlaceFile::from),
            opponent_place: spec.opponent_place.into(),
            recover_to: spec.recover_to.map(PlaceFile::from),
            recover_in: spec.recover_in.map(Name),
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
            follows: self.follows,
            recover_to: self.recover_to.map(PlaceFile::into_place),
            recover_in: self.recover_in.map(|name| name.0),
        }
    }
}

impl From<&Mark> for MarkFile {
    fn from(mark: &Mark) -> Self {
        Self {
            id: mark.id,
            layer: Name(mark.layer),
            ink: Name(mark.ink),
            appears: (mark.appears != Appears::AT_ONCE).then(|| mark.appears.into()),
            form: (&mark.form).into(),
        }
    }
}

impl MarkFile {
    pub fn into_mark(self) -> Mark {
        Mark {
            id: self.id,
            layer: self.layer.0,
            ink: self.ink.0,
            appears: self.appears.map(AppearsFile::into_appears).unwrap_or_default(),
            form: self.form.into_form(),
        }
    }
}

impl From<Appears> for AppearsFile {
    fn from(appears: Appears) -> Self {
        Self { shot: u32::try_from(appears.shot + 1).unwrap_or(u32::MAX), step: Name(appears.step) }
    }
}

impl AppearsFile {
    fn into_appears(self) -> Appears {
        // A number that is no number of a shot is refused when it is read.
        Appears { shot: (self.shot as usize).saturating_sub(1), step: self.step.0 }
    }
}

impl From<&Form> for FormFile {
    fn from(form: &Form) -> Self {
        match form {
            Form::Pen { points, pattern } => Self::Pen {
                points: points.iter().map(|p| (out(p.x, 1.0), out(p.y, 1.0))).collect(),
                pattern: Name(*pattern),
            },
            Form::Arrow { from, to, bend, pattern } => {
                Self::Arrow { from: (*from).into(), to: (*to).into(), bend: out(*bend, 1.0), pattern: Name(*pattern) }
            }
            Form::Text { at, text, size } => Self::Text { at: (*at).into(), text: text.clone(), size: out(*size, 1.0) },
            Form::Cone { at } => Self::Cone { at: (*at).into() },
            Form::Basket { at } => Self::Basket { at: (*at).into() },
            Form::Person { at, letter } => Self::Person { at: (*at).into(), letter: letter.clone() },
            Form::Zone { from, to, round } => Self::Zone { from: (*from).into(), to: (*to).into(), round: *round },
        }
    }
}

impl FormFile {
    fn into_form(self) -> Form {
        match self {
            Self::Pen { points, pattern } => Form::Pen {
                points: points.into_iter().map(|(x, y)| DVec2::new(into(x, 1.0), into(y, 1.0))).collect(),
                pattern: pattern.0,
            },
            Self::Arrow { from, to, bend, pattern } => {
                Form::Arrow { from: from.into_place(), to: to.into_place(), bend: into(bend, 1.0), pattern: pattern.0 }
            }
            Self::Text { at, text, size } => Form::Text { at: at.into_place(), text, size: into(size, 1.0) },
            Self::Cone { at } => Form::Cone { at: at.into_place() },
            Self::Basket { at } => Form::Basket { at: at.into_place() },
            Self::Person { at, letter } => Form::Person { at: at.into_place(), letter },
            Self::Zone { from, to, round } => Form::Zone { from: from.into_place(), to: to.into_place(), round },
        }
    }
}
