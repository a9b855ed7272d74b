//! A rally in time: ball and players at each moment, and a playback state driven by the caller's clock.

use glam::{DVec2, DVec3};
use standpoint_geometry::{End, Outcome, PathPoint, Player};

use crate::{model::Board, rally::Resolved};

/// Time from the landing of the split step to the opponent's contact, s: the legs are loaded as the ball is struck.
/// Common practice, no source.
pub const SPLIT_STEP_S: f64 = 0.1;
/// Time the last ball is followed after the rally is decided, s.
const AFTERMATH_S: f64 = 0.8;

/// The part of one shot in the rally.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Index of the shot.
    pub shot: usize,
    /// Time of the contact, s since the rally began.
    pub start: f64,
    /// Time of the next contact or of the end of the rally.
    pub end: f64,
    /// The ball's path; times count from `start`.
    path: Vec<PathPoint>,
    /// Times of bounces, from `start`.
    pub bounces: Vec<f64>,
    hitter_end: End,
    /// Hitter's run: from, to, and its length in time.
    hitter: Run,
    opponent: Run,
    /// Time when the hitter lands from the split step, from `start`, if the rally goes on.
    pub split_step: Option<f64>,
}

/// A run along a straight line.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Run {
    from: DVec2,
    to: DVec2,
    /// Time before the first step, s.
    wait: f64,
    stride: standpoint_geometry::Stride,
}

impl Run {
    fn at(&self, time: f64) -> DVec2 {
        let way = self.to - self.from;
        let length = way.length();
        if length < 1e-9 {
            return self.from;
        }
        self.from + way * (self.stride.distance(time - self.wait) / length).min(1.0)
    }
}

/// A moment of a rally.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// The shot in flight.
    pub shot: usize,
    /// Time since it was struck, s.
    pub since: f64,
    /// Centre of the ball.
    pub ball: DVec3,
    /// The player at the near end.
    pub near: DVec2,
    /// The player at the far end.
    pub far: DVec2,
    /// Whether the hitter is in the split step.
    pub split: bool,
}

/// A rally laid out in time.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Timeline {
    /// The shots in order.
    pub stretches: Vec<Stretch>,
}

impl Timeline {
    /// Lays out the shots that are known, in order, up to the first that ends the rally.
    #[must_use]
    pub fn new<'a>(board: &Board, shots: impl IntoIterator<Item = &'a Resolved>) -> Self {
        let mut stretches = Vec::new();
        let mut start = 0.0;
        for (shot, resolved) in shots.into_iter().enumerate() {
            let Ok(answer) = &resolved.result else { break };
            let spec = &resolved.spec;
            let hitter: Player = board.card(spec.hitter_end).player();
            let opponent: Player = board.card(spec.hitter_end.other()).player();
            let path_end = answer.shot.path.last().map_or(0.0, |p| p.time);
            let from = resolved.situation.hitter_place;
            let (length, hitter_to, opponent_to, over) = match &answer.outcome {
                Outcome::Play(play) => {
                    let to = spec.recover_to.unwrap_or(play.recovery.reached.place);
                    (play.receipt.time, to, play.receipt.place, false)
                }
                Outcome::NoReply(receipt) => (receipt.time, from, receipt.place, true),
                Outcome::Winner { closest, .. } => {
                    let landing = answer.shot.landing.time;
                    let seen = path_end.min(landing + AFTERMATH_S);
                    (seen, from, closest.truncate(), true)
                }
            };
            stretches.push(Stretch {
                shot,
                start,
                end: start + length,
                path: answer.shot.path.clone(),
                bounces: answer.shot.bounces.iter().copied().filter(|t| *t <= length).collect(),
                hitter_end: spec.hitter_end,
                hitter: Run {
                    from,
                    to: hitter_to,
                    wait: hitter.movement.follow_through_s,
                    stride: hitter.movement.stride(),
                },
                opponent: Run {
                    from: spec.opponent_place,
                    to: opponent_to,
                    wait: opponent.movement.reaction_s,
                    stride: opponent.movement.stride(),
                },
                split_step: (!over && length > SPLIT_STEP_S).then_some(length - SPLIT_STEP_S),
            });
            start += length;
            if over {
                break;
            }
        }
        Self { stretches }
    }

    /// Length of the rally, s.
    #[must_use]
    pub fn duration(&self) -> f64 {
        self.stretches.last().map_or(0.0, |s| s.end)
    }

    /// The moment at a time; times outside the rally count as its ends. `None` when there is nothing to play.
    #[must_use]
    pub fn at(&self, time: f64) -> Option<Moment> {
        let stretch = self.stretches.iter().find(|s| time < s.end).or(self.stretches.last())?;
        let since = (time - stretch.start).clamp(0.0, stretch.end - stretch.start);
        let (hitter, opponent) = (stretch.hitter.at(since), stretch.opponent.at(since));
        let (near, far) = match stretch.hitter_end {
            End::Near => (hitter, opponent),
            End::Far => (opponent, hitter),
        };
        let split = stretch.split_step.is_some_and(|t| since >= t);
        Some(Moment { shot: stretch.shot, since, ball: along(&stretch.path, since), near, far, split })
    }
}

/// The place on a sampled path at a time.
fn along(path: &[PathPoint], time: f64) -> DVec3 {
    let after = path.partition_point(|p| p.time <= time);
    match (after.checked_sub(1).and_then(|i| path.get(i)), path.get(after)) {
        (Some(a), Some(b)) => a.point.lerp(b.point, (time - a.time) / (b.time - a.time)),
        (Some(only), None) | (None, Some(only)) => only.point,
        (None, None) => DVec3::ZERO,
    }
}

/// The pace of the playback.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Pace {
    /// Real time.
    #[default]
    True,
    /// Half as fast.
    Half,
    /// A quarter as fast.
    Quarter,
}

impl Pace {
    /// All paces.
    pub const ALL: [Self; 3] = [Self::True, Self::Half, Self::Quarter];

    /// Seconds of the rally that pass in one second.
    #[must_use]
    pub fn factor(self) -> f64 {
        match self {
            Self::True => 1.0,
            Self::Half => 0.5,
            Self::Quarter => 0.25,
        }
    }
}

/// Commands of the playback.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Control {
    /// Starts, from the beginning when it had reached the end.
    Play,
    /// Stops where it is.
    Pause,
    /// Play or pause, whichever changes the state.
    Toggle,
    /// To the next contact.
    Next,
    /// To the contact before.
    Previous,
    /// To a time, s.
    Seek(f64),
    /// Another pace.
    Pace(Pace),
    /// Toggles the loop.
    Loop(bool),
    /// Leaves the playback.
    Stop,
}

/// Playback state, without a clock: takes commands and elapsed time, gives a moment.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Playback {
    /// Time of the rally, s; `None` while the board is not being played.
    pub time: Option<f64>,
    /// Whether time passes.
    pub playing: bool,
    /// Pace of the playback.
    pub pace: Pace,
    /// Whether it starts again at the end.
    pub looping: bool,
}

impl Playback {
    /// Applies a command.
    #[must_use]
    pub fn after(mut self, control: Control, timeline: &Timeline) -> Self {
        let duration = timeline.duration();
        let now = self.time.unwrap_or(0.0);
        match control {
            Control::Play => {
                self.playing = duration > 0.0;
                self.time = Some(if now >= duration { 0.0 } else { now });
            }
            Control::Pause => self.playing = false,
            Control::Toggle if self.playing => self.playing = false,
            Control::Toggle => return self.after(Control::Play, timeline),
            Control::Next => {
                let next = timeline.stretches.iter().map(|s| s.end).find(|t| *t > now + 1e-6);
                (self.time, self.playing) = (Some(next.unwrap_or(duration)), false);
            }
            Control::Previous => {
                let before = timeline.stretches.iter().map(|s| s.start).rfind(|t| *t < now - 1e-6);
                (self.time, self.playing) = (Some(before.unwrap_or(0.0)), false);
            }
            Control::Seek(time) => self.time = Some(time.clamp(0.0, duration)),
            Control::Pace(pace) => self.pace = pace,
            Control::Loop(looping) => self.looping = looping,
            Control::Stop => (self.time, self.playing) = (None, false),
        }
        self
    }

    /// Advances by `dt` seconds of real time.
    #[must_use]
    pub fn passed(mut self, dt: f64, timeline: &Timeline) -> Self {
        let duration = timeline.duration();
        if !self.playing || duration <= 0.0 {
            self.playing = false;
            return self;
        }
        let time = self.time.unwrap_or(0.0) + dt.max(0.0) * self.pace.factor();
        if time < duration {
            self.time = Some(time);
        } else if self.looping {
            self.time = Some(time % duration);
        } else {
            (self.time, self.playing) = (Some(duration), false);
        }
        self
    }
}
