//! Changes of the board, and how each is applied.

mod court;
pub mod figures;
mod label;

use glam::DVec2;
use standpoint_board::{Board, Drill, KnownHabits, PlayerCard, ShotSpec, SurfaceChoice, Units};
use standpoint_geometry::{
    BackhandGrip, BallType, End, FlightLaw, Hand, Level, NetPosts, ReadyArea, ReceiptChoice, Shot, Stage, Stroke,
    SurfaceKind, units::KMH,
};
use standpoint_language::mark;

use crate::{selection::Selection, sketch::draw::kept};

use court::change_court;
use figures::PlayerFigure;

pub use court::board_of_stage;

/// Begin and end of a change that spans several frames, such as a drag.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gesture {
    /// Begins, with the label of the step in menus.
    Begin(&'static str),
    /// Ends and becomes one step.
    Commit,
    /// It is given up.
    Cancel,
    /// A series of small changes is over.
    Seal,
}

/// The colours of the court.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Colours {
    /// Those of the surface.
    #[default]
    Surface,
    /// Black on white.
    Paper,
    /// Strong contrast.
    Bright,
}

impl Colours {
    /// The colours a board names; an unknown name means those of the surface.
    #[must_use]
    pub fn named(name: &str) -> Self {
        match name {
            "paper" => Self::Paper,
            "bright" => Self::Bright,
            _ => Self::Surface,
        }
    }

    /// The name in a board.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Surface => "surface",
            Self::Paper => "paper",
            Self::Bright => "bright",
        }
    }
}

/// Kind of ground, which decides the colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Ground {
    /// Clay.
    Clay,
    /// Grass.
    Grass,
    /// Hard court and everything else.
    #[default]
    Hard,
}

/// A change of the board. Places are in the world frame, units are SI.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "each names what it sets")]
pub enum Edit {
    Target(DVec2),
    Contact(DVec2),
    ContactHeight(f64),
    HitterPlace(Option<DVec2>),
    OpponentPlace(DVec2),
    Receipt(ReceiptChoice),
    Stroke(Stroke),
    Shot(Shot),
    /// This shot, and others after it in place of those that are there.
    PlayOn {
        shot: Shot,
        then: Vec<ShotSpec>,
    },
    Speed(f64),
    Topspin(f64),
    Sidespin(f64),
    SwapEnds,
    Mirror,
    MirrorBoard,
    SwapHands,
    Name(End, String),
    Level(End, Level),
    Hand(End, Hand),
    Grip(End, BackhandGrip),
    /// One figure of a player, in SI units.
    Figure(End, PlayerFigure, f64),
    /// How often the ball may bounce before the player strikes it.
    Bounces(End, u8),
    Player(End, Box<PlayerCard>),
    /// What was seen of where a player sends the ball, or nothing.
    Habits(End, Option<Box<KnownHabits>>),
    /// Whether answers rest on that.
    UseHabits(End, bool),
    Court(Stage, NetPosts),
    Surface(SurfaceKind),
    Ball(BallType),
    Temperature(f64),
    Altitude(f64),
    Law(FlightLaw),
    Units(Units),
    Colours(Colours),
    RecoverTo(Option<DVec2>),
    RecoverIn(Option<ReadyArea>),
    Coach(End),
    PageTitle(String),
    PageNotes(String),
    PageCues(Vec<String>),
    PageDrill(DrillPart, String),
}

/// A part of the drill of a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DrillPart {
    /// How the balls come.
    Feed,
    /// What is aimed at.
    Targets,
    /// How it gets harder or easier.
    Progression,
    /// What is needed.
    Equipment,
}

impl DrillPart {
    /// All parts, in the order of the sheet.
    pub const ALL: [Self; 4] = [Self::Feed, Self::Targets, Self::Progression, Self::Equipment];

    /// Label in English; translated where it is shown.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Feed => mark("Feed"),
            Self::Targets => mark("Targets"),
            Self::Progression => mark("Progression"),
            Self::Equipment => mark("Equipment"),
        }
    }

    /// Its text in a drill.
    #[must_use]
    pub fn of(self, drill: &Drill) -> &String {
        match self {
            Self::Feed => &drill.feed,
            Self::Targets => &drill.targets,
            Self::Progression => &drill.progression,
            Self::Equipment => &drill.equipment,
        }
    }

    fn of_mut(self, drill: &mut Drill) -> &mut String {
        match self {
            Self::Feed => &mut drill.feed,
            Self::Targets => &mut drill.targets,
            Self::Progression => &mut drill.progression,
            Self::Equipment => &mut drill.equipment,
        }
    }
}

impl Edit {
    /// Whether the change builds on where the contact and the players really are.
    #[must_use]
    pub fn needs_places(&self) -> bool {
        self.detaches() || matches!(self, Self::Stroke(_))
    }

    /// Whether a shot that follows another one starts by itself after this change.
    #[must_use]
    pub fn detaches(&self) -> bool {
        matches!(self, Self::Contact(_) | Self::ContactHeight(_) | Self::HitterPlace(_) | Self::Stroke(Stroke::Serve))
    }

    /// Whether only the view changes: it is saved with the board, but is no change that would have to be saved, nor a step
    /// that is taken back.
    #[must_use]
    pub fn is_view(&self) -> bool {
        matches!(self, Self::Units(_) | Self::Colours(_))
    }

    /// Key of the series that repeated changes of this kind join, see [`standpoint_board::History::apply_joined`].
    #[must_use]
    pub fn series(&self) -> u64 {
        use std::hash::{DefaultHasher, Hash as _, Hasher as _};
        let mut hasher = DefaultHasher::new();
        std::mem::discriminant(self).hash(&mut hasher);
        if let Self::Name(end, _) | Self::Figure(end, ..) = self {
            end.hash(&mut hasher);
        }
        if let Self::Figure(_, figure, _) = self {
            figure.hash(&mut hasher);
        }
        if let Self::PageDrill(part, _) = self {
            part.hash(&mut hasher);
        }
        hasher.finish()
    }

    /// Makes the change. Places are kept where they make sense.
    pub fn apply(&self, board: &mut Board, at: Selection) {
        match self {
            Self::Name(end, name) => board.card_mut(*end).name.clone_from(name),
            Self::Level(end, level) => {
                let before = board.card(*end).player();
                board.card_mut(*end).figures = standpoint_board::Figures::Level(*level);
                crate::strokes::adapt(board, at.page, *end, &before);
            }
            Self::Hand(end, hand) => board.card_mut(*end).hand = *hand,
            Self::Grip(end, grip) => board.card_mut(*end).grip = *grip,
            Self::Figure(end, figure, value) => *figure.place(board.card_mut(*end).make_custom()) = *value,
            Self::Habits(end, known) => board.card_mut(*end).habits.clone_from(known),
            Self::UseHabits(end, used) => {
                if let Some(known) = &mut board.card_mut(*end).habits {
                    known.used = *used;
                }
            }
            Self::Bounces(end, bounces) => board.card_mut(*end).make_custom().bounces = *bounces,
            Self::Player(end, card) => {
                let before = board.card(*end).player();
                board.card_mut(*end).clone_from(card);
                crate::strokes::adapt(board, at.page, *end, &before);
            }
            Self::Court(stage, posts) => change_court(board, *stage, *posts),
            Self::Surface(kind) => board.surface = SurfaceChoice::usual(*kind),
            Self::Ball(kind) => board.ball = *kind,
            Self::Temperature(c) => board.air.temperature_c = *c,
            Self::Altitude(m) => board.air.altitude_m = *m,
            Self::Law(law) => board.law = *law,
            Self::Units(units) => board.units = *units,
            Self::Colours(colours) => colours.name().clone_into(&mut board.theme),
            Self::Coach(end) => board.coached = *end,
            Self::PageTitle(_) | Self::PageNotes(_) | Self::PageCues(_) | Self::PageDrill(..) => {
                self.apply_to_page(board, at);
            }
            Self::Mirror => {
                mirror_page(board, at.page);
                keep_marks(board, at.page..at.page + 1);
            }
            Self::MirrorBoard => {
                let pages = 0..board.pages.len();
                pages.clone().for_each(|page| mirror_page(board, page));
                keep_marks(board, pages);
            }
            Self::SwapHands => {
                board.near.mirror();
                board.far.mirror();
            }
            Self::SwapEnds => {
                board.turn_page(at.page);
                keep_marks(board, at.page..at.page + 1);
            }
            Self::PlayOn { shot, then } => {
                // A shot that stays as it is keeps where it is met, if that was chosen by hand.
                if board.shot(at.page, at.shot).is_some_and(|spec| !same(&spec.shot, shot)) {
                    Self::Shot(*shot).apply_to_shot(board, at);
                }
                play_on(board, at, then);
            }
            Self::Stroke(stroke) => crate::strokes::choose(board, at, *stroke),
            _ => self.apply_to_shot(board, at),
        }
    }

    fn apply_to_page(&self, board: &mut Board, at: Selection) {
        let Some(page) = board.page_mut(at.page) else { return };
        match self {
            Self::PageTitle(title) => page.title.clone_from(title),
            Self::PageNotes(notes) => page.notes.clone_from(notes),
            Self::PageCues(cues) => page.cues.clone_from(cues),
            Self::PageDrill(part, text) => part.of_mut(&mut page.drill).clone_from(text),
            _ => {}
        }
    }

    fn apply_to_shot(&self, board: &mut Board, at: Selection) {
        let area = board.play_area();
        if let Self::OpponentPlace(place) = self
            && board.shot(at.page, at.shot).is_some_and(|spec| spec.follows)
        {
            // Where the opponent waits is where they recovered to after their own shot.
            let before = Selection { shot: at.shot.saturating_sub(1), ..at };
            return Self::RecoverTo(Some(*place)).apply_to_shot(board, before);
        }
        let Some(spec) = board.shot_mut(at.page, at.shot) else { return };
        let (here, there) = (spec.hitter_end, spec.hitter_end.other());
        match self {
            Self::Target(place) => spec.shot.target = area.clamp_at(there, *place),
            Self::Contact(place) => {
                let before = spec.shot.contact;
                spec.shot.contact = area.clamp_contact(here, place.extend(before.z));
                // A hitter placed by hand moves along with the ball.
                let moved = (spec.shot.contact - before).truncate();
                spec.hitter_place = spec.hitter_place.map(|p| area.clamp_at(here, p + moved));
            }
            Self::ContactHeight(z) => {
                spec.shot.contact = area.clamp_contact(here, spec.shot.contact.truncate().extend(*z));
            }
            Self::HitterPlace(place) => spec.hitter_place = place.map(|p| area.clamp_at(here, p)),
            Self::OpponentPlace(place) => spec.opponent_place = area.clamp_at(there, *place),
            Self::Receipt(choice) => {
                spec.receipt = match *choice {
                    ReceiptChoice::Best => ReceiptChoice::Best,
                    ReceiptChoice::Near(place) => ReceiptChoice::Near(area.clamp_at(there, place)),
                }
            }
            Self::Shot(shot) => {
                // The contact stays; a receipt chosen for the former shot does not apply to this one.
                let contact = spec.shot.contact;
                spec.shot = Shot { contact, target: area.clamp_at(there, shot.target), ..*shot };
                spec.receipt = ReceiptChoice::Best;
            }
            Self::Speed(v) => spec.shot.speed = *v,
            Self::Topspin(w) => spec.shot.topspin = *w,
            Self::Sidespin(w) => spec.shot.sidespin = *w,
            Self::RecoverTo(place) => spec.recover_to = place.map(|p| area.clamp_at(here, p)),
            Self::RecoverIn(area) => spec.recover_in = *area,
            _ => {}
        }
    }
}

/// Clamps the marks of pages to the area where marks may lie.
fn keep_marks(board: &mut Board, pages: std::ops::Range<usize>) {
    let area = board.play_area();
    for page in pages {
        let Some(page) = board.page_mut(page) else { continue };
        for mark in &mut page.marks.list {
            mark.form = kept(&mark.form, |place| area.clamp_mark(place));
        }
    }
}

/// Whether two shots from the same contact are one.
fn same(a: &Shot, b: &Shot) -> bool {
    *a == Shot { contact: a.contact, ..*b }
}

/// Puts shots after the one at `at`, in place of those that are there, each on its own side of the play area.
fn play_on(board: &mut Board, at: Selection, then: &[ShotSpec]) {
    let area = board.play_area();
    let Some(page) = board.page_mut(at.page) else { return };
    page.shots.truncate(at.shot + 1);
    page.shots.extend(then.iter().map(|spec| {
        let (here, there) = (spec.hitter_end, spec.hitter_end.other());
        let mut spec = *spec;
        spec.shot.speed = spec.shot.speed.clamp(11.0 * KMH, 270.0 * KMH);
        spec.shot.contact = area.clamp_contact(here, spec.shot.contact);
        spec.shot.target = area.clamp_at(there, spec.shot.target);
        spec.hitter_place = spec.hitter_place.map(|p| area.clamp_at(here, p));
        spec.opponent_place = area.clamp_at(there, spec.opponent_place);
        spec.recover_to = spec.recover_to.map(|p| area.clamp_at(here, p));
        spec
    }));
}

/// Mirrors one page left to right, as for the other wing. The players stay as they are.
fn mirror_page(board: &mut Board, page: usize) {
    if let Some(page) = board.page_mut(page) {
        *page = page.mirrored();
    }
}

#[cfg(test)]
mod tests;
