//! Pictures of a player's shots on the court: landings, serves, returns, the stroke after the serve, ends of points,
//! and positions. Dots and sums are in bounded memory, shot after shot; a picture needs enough shots.
//!
//! Places are in the player's frame: facing up, with their own half below.

mod dots;

use glam::DVec2;
use standpoint_geometry::{End, Stroke, Wing};
use standpoint_language::{text, tr};

use crate::audit::{AuditedShot, Miss, Outcome};
use standpoint_board::chart::score::{ServeNumber, at};

pub use dots::{Class, Dot, Dots};

/// Least number of shots for a picture. A choice without a source.
pub const FEWEST: u64 = 15;
/// Cells of the map of landings: across and along one half.
pub const CELLS: (usize, usize) = (6, 8);

/// Kind of picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Landings of rally strokes.
    Landings,
    /// Landings of serves, by box and number.
    Serves,
    /// Depths of returns, by the serve.
    Returns,
    /// Contacts and landings of the stroke after the serve.
    ServePlusOne,
    /// Landings of the last ball of points.
    Endings,
    /// Places where the player stood, and where they should have.
    Positions,
}

impl Kind {
    /// All, in the order they are shown.
    pub const ALL: [Self; 6] =
        [Self::Landings, Self::Serves, Self::Returns, Self::ServePlusOne, Self::Endings, Self::Positions];

    /// A title.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Landings => text("Landings in rallies"),
            Self::Serves => text("Serve places"),
            Self::Returns => text("Depth of returns"),
            Self::ServePlusOne => text("The stroke after the serve"),
            Self::Endings => text("Where points end"),
            Self::Positions => text("Positions"),
        }
    }

    /// The part of the court that the picture shows.
    #[must_use]
    pub fn shown(self) -> Shown {
        match self {
            Self::Landings | Self::Returns | Self::Serves => Shown::Beyond,
            Self::Positions => Shown::Own,
            Self::ServePlusOne | Self::Endings => Shown::Whole,
        }
    }

    fn classes(self) -> &'static [Class] {
        match self {
            Self::Landings => &[],
            Self::Serves | Self::Returns => &[Class::FirstServe, Class::SecondServe],
            Self::ServePlusOne => &[Class::Forehand, Class::Backhand],
            Self::Endings => &[Class::Won, Class::Net, Class::Long, Class::Wide],
            Self::Positions => &[Class::Stood],
        }
    }
}

/// Part of the court.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// The half beyond the net.
    Beyond,
    /// The player's own half.
    Own,
    /// All of it.
    Whole,
}

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Kind of picture.
    pub kind: Kind,
    /// Dots by class, in the order of the legend.
    pub dots: Vec<Dots>,
    /// Landings by cell of the half beyond the net, counted from the left and from the net.
    pub cells: [[u64; CELLS.0]; CELLS.1],
    /// Landings out of the court.
    pub out: u64,
}

impl Picture {
    fn new(kind: Kind) -> Self {
        let dots = kind.classes().iter().map(|class| Dots::new(*class)).collect();
        Self { kind, dots, cells: [[0; CELLS.0]; CELLS.1], out: 0 }
    }

    fn dot(&mut self, class: Class, place: DVec2, to: Option<DVec2>) {
        if let Some(dots) = self.dots.iter_mut().find(|dots| dots.class == class) {
            dots.add(place, to);
        }
    }

    /// Number of shots in the picture.
    #[must_use]
    pub fn shots(&self) -> u64 {
        let cells: u64 = self.cells.iter().flatten().sum();
        cells + self.out + self.dots.iter().map(|dots| dots.count).sum::<u64>()
    }

    /// Whether there are enough shots for a picture.
    #[must_use]
    pub fn tells(&self) -> bool {
        self.shots() >= FEWEST
    }

    /// Shares of the landings at three depths from the net, in thirds of the half, for those beyond it.
    #[must_use]
    pub fn depths(&self, half_length: f64) -> Option<[f64; 3]> {
        let all: Vec<f64> = self.dots.iter().flat_map(|dots| &dots.kept).map(|dot| dot.place.y).collect();
        let inside: Vec<f64> = all.into_iter().filter(|y| (0.0..=half_length).contains(y)).collect();
        if (inside.len() as u64) < FEWEST {
            return None;
        }
        let mut counts = [0_usize; 3];
        for y in &inside {
            counts[((y / half_length * 3.0) as usize).min(2)] += 1;
        }
        Some(counts.map(|count| count as f64 / inside.len() as f64))
    }

    /// Description of the picture, for those who cannot see it.
    #[must_use]
    pub fn said(&self) -> String {
        let parts: Vec<String> =
            self.dots.iter().map(|dots| format!("{} {}", dots.count, dots.class.label())).collect();
        if parts.is_empty() { tr!("{} shots", self.shots()) } else { parts.join(", ") }
    }
}

/// The pictures of both players, built shot after shot in the order of the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Pictures {
    half_width: f64,
    half_length: f64,
    players: [Vec<Picture>; 2],
    /// The shot before, which may have been the last of its point.
    before: Option<Before>,
}

/// Facts of the shot before.
#[derive(Debug, Clone, PartialEq)]
struct Before {
    session: std::sync::Arc<str>,
    point: u64,
    began: End,
    /// Serves and what follows them: 0 is a serve, 1 the return, 2 the stroke after it; `None` further on.
    stage: Option<u8>,
    number: Option<ServeNumber>,
    ended: Option<(Class, DVec2)>,
}

impl Pictures {
    /// Pictures without shots, on a court of this size.
    #[must_use]
    pub fn new(court: &standpoint_geometry::Court) -> Self {
        let all = || Kind::ALL.map(Picture::new).to_vec();
        Self { half_width: court.half_width(), half_length: court.half_length(), players: [all(), all()], before: None }
    }

    /// Pictures of all shots of an audit.
    #[must_use]
    pub fn of(court: &standpoint_geometry::Court, shots: &[AuditedShot]) -> Self {
        let mut pictures = Self::new(court);
        shots.iter().for_each(|shot| pictures.add(shot));
        pictures.finish();
        pictures
    }

    /// The pictures of the player who began at an end.
    #[must_use]
    pub fn player(&self, player: End) -> &[Picture] {
        &self.players[at(player)]
    }

    fn picture(&mut self, player: End, kind: Kind) -> &mut Picture {
        let place = Kind::ALL.iter().position(|of| *of == kind).unwrap_or_default();
        &mut self.players[at(player)][place]
    }

    /// Adds the next shot.
    pub fn add(&mut self, shot: &AuditedShot) {
        let follows = self.before.as_ref().is_some_and(|before| {
            before.point == shot.origin.point_number
                && before.session == shot.origin.session
                && shot.origin.shot_number > 1
        });
        if !follows {
            self.finish();
        }
        let before = self.before.take();
        let serve = shot.context.serve;
        let (stage, number) = match (serve, &before) {
            (Some((_, number)), _) => (Some(0), Some(number)),
            (None, Some(before)) if before.began != shot.began => {
                (before.stage.map(|stage| stage + 1).filter(|stage| *stage <= 2), before.number)
            }
            _ => (None, None),
        };
        self.show(shot, stage, number);
        let ended = self.ended(shot);
        self.before = Some(Before {
            session: shot.origin.session.clone(),
            point: shot.origin.point_number,
            began: shot.began,
            stage,
            number,
            ended,
        });
    }

    /// Ends the last point with the last shot.
    pub fn finish(&mut self) {
        if let Some(before) = self.before.take()
            && let Some((class, place)) = before.ended
        {
            self.picture(before.began, Kind::Endings).dot(class, place, None);
        }
    }

    /// The ending of a point, if this was its last shot.
    fn ended(&self, shot: &AuditedShot) -> Option<(Class, DVec2)> {
        if shot.assumed.landing {
            return None;
        }
        let class = match &shot.outcome {
            Outcome::Missed(Miss::Net) => Class::Net,
            Outcome::Missed(Miss::Long) => Class::Long,
            Outcome::Missed(Miss::Wide) => Class::Wide,
            // A fault that another serve follows is not the last shot of a point.
            _ => Class::Won,
        };
        Some((class, shot.landing))
    }

    fn show(&mut self, shot: &AuditedShot, stage: Option<u8>, number: Option<ServeNumber>) {
        let player = shot.began;
        let seen = !shot.assumed.landing;
        let of_serve = |number: ServeNumber| match number {
            ServeNumber::First => Class::FirstServe,
            ServeNumber::Second => Class::SecondServe,
        };
        let netted = shot.outcome == Outcome::Missed(Miss::Net);
        match (stage, number) {
            (Some(0), Some(number)) if seen && !netted => {
                self.picture(player, Kind::Serves).dot(of_serve(number), shot.landing, None);
            }
            (Some(1), Some(number)) if seen && !netted => {
                self.picture(player, Kind::Returns).dot(of_serve(number), shot.landing, None);
            }
            (Some(2), _) => {
                let class = if shot.wing == Wing::Forehand { Class::Forehand } else { Class::Backhand };
                let to = seen.then_some(shot.landing);
                self.picture(player, Kind::ServePlusOne).dot(class, shot.contact, to);
            }
            _ => {}
        }
        if shot.stroke != Stroke::Serve && seen && !netted {
            self.landing(player, shot.landing);
        }
        if let Outcome::Judged(judged) = &shot.outcome {
            self.picture(player, Kind::Positions).dot(Class::Stood, judged.stood, Some(judged.goal));
        }
    }

    fn landing(&mut self, player: End, place: DVec2) {
        let across = (place.x + self.half_width) / (2.0 * self.half_width) * CELLS.0 as f64;
        let along = place.y / self.half_length * CELLS.1 as f64;
        let picture = self.picture(player, Kind::Landings);
        let inside = (0.0..CELLS.0 as f64).contains(&across) && (0.0..CELLS.1 as f64).contains(&along);
        if inside {
            picture.cells[along as usize][across as usize] += 1;
        } else {
            picture.out += 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use standpoint_board::chart::model::Setup;

    use super::dots::DOTS;
    use super::*;
    use crate::audit::{CollectedShots, Compare, Crew, Watch};
    use crate::invented::{self, Habit};

    fn shots(points: usize) -> Vec<AuditedShot> {
        let setup = Setup::default();
        let chart = invented::chart(&setup, 9, points, [Habit::EXPERT, Habit::MIDDLE]);
        let crew = Crew::new(&setup, Compare::default(), 2).unwrap();
        let mut kept = CollectedShots::default();
        let stop = std::sync::atomic::AtomicBool::new(false);
        crew.audit_chart_so_far(&chart, &mut kept, &mut Watch { progress: &mut |_| (), stop: &stop }).unwrap();
        kept.shots
    }

    #[test]
    fn every_shot_is_in_the_picture_that_it_belongs_to() {
        let court = standpoint_geometry::Court::default();
        let shots = shots(24);
        let pictures = Pictures::of(&court, &shots);
        for player in [End::Near, End::Far] {
            let own = |so: &dyn Fn(&AuditedShot) -> bool| {
                shots.iter().filter(|shot| shot.began == player && so(shot)).count() as u64
            };
            let of = |kind: Kind| pictures.player(player).iter().find(|of| of.kind == kind).unwrap();
            let net = |shot: &AuditedShot| shot.outcome == Outcome::Missed(Miss::Net);
            let landed = own(&|s| s.stroke != Stroke::Serve && !s.assumed.landing && !net(s));
            assert_eq!(of(Kind::Landings).shots(), landed);
            assert_eq!(of(Kind::Positions).shots(), own(&|s| s.judged().is_some()));
            assert_eq!(of(Kind::Serves).shots(), own(&|s| s.stroke == Stroke::Serve && !net(s)));
        }
        let points = shots.iter().map(|shot| shot.origin.point_number).max().unwrap();
        let ended: u64 = [End::Near, End::Far].iter().map(|p| pictures.player(*p)[4].shots()).sum();
        assert!(ended <= points && ended > points / 2, "{ended} of {points}");
    }

    #[test]
    fn nothing_is_shown_of_four_shots_and_many_are_thinned() {
        let mut picture = Picture::new(Kind::Serves);
        for i in 0..4 {
            picture.dot(Class::FirstServe, DVec2::new(f64::from(i), 5.0), None);
        }
        assert!(!picture.tells());
        for i in 0..5000 {
            picture.dot(Class::FirstServe, DVec2::new(f64::from(i) * 1e-3, 5.0), None);
        }
        let dots = &picture.dots[0];
        assert!(picture.tells() && dots.count == 5004 && dots.kept.len() <= DOTS && dots.kept.len() > DOTS / 3);
        assert_eq!(picture.depths(12.0), Some([0.0, 1.0, 0.0]));
    }
}
