//! Facts of a match besides its shots: server, winner, score, clock.

use standpoint_geometry::{End, Stroke};
use standpoint_language::mark;

use super::state::State;
use super::{Draft, Join, Notebook};
use standpoint_board::chart::model::{Point, SessionInfo};
use standpoint_board::chart::score::{
    AfterServe, CourtSide, Ending, Log, Miss, ServeCall, ServeNumber, Standing, log, serves,
};
use standpoint_board::file::as_written;

/// A fact about a point; `None` removes it.
#[derive(Debug, Clone, PartialEq)]
pub enum Tell {
    /// The end of the server.
    Server(Option<End>),
    /// The side of the serve.
    Side(Option<CourtSide>),
    /// The end of the winner.
    Winner(Option<End>),
    /// How it ended.
    Ending(Option<Ending>),
    /// Where the last ball went that was missed.
    Miss(Option<Miss>),
    /// The score before it.
    Score(String),
    /// What to add to times for the position in the video, s.
    VideoOffset(Option<f64>),
}

impl Tell {
    fn label(&self) -> &'static str {
        match self {
            Self::Server(_) => mark("Server"),
            Self::Side(_) => mark("Side of the serve"),
            Self::Winner(_) => mark("Winner of the point"),
            Self::Ending(_) => mark("How the point ended"),
            Self::Miss(_) => mark("Where it was missed"),
            Self::Score(_) => mark("Score"),
            Self::VideoOffset(_) => mark("Offset of the video"),
        }
    }

    fn put(self, point: &mut Point) {
        match self {
            Self::Server(server) => point.server = server,
            Self::Side(side) => point.side = side,
            Self::Winner(winner) => point.winner = winner,
            Self::Ending(ending) => point.ending = ending,
            Self::Miss(miss) => point.miss = miss,
            Self::Score(score) => point.score = score,
            Self::VideoOffset(offset) => point.video_offset = offset.map(|offset| as_written(offset, 1.0)),
        }
    }
}

impl Notebook {
    /// Notes a fact about a point. Typing a score or an offset is one step. In a match of known format the ends of
    /// later points follow the score.
    pub fn tell(&mut self, point: usize, tell: Tell) {
        let join = matches!(tell, Tell::Score(_) | Tell::VideoOffset(_)).then_some(Join::Tell(point, tell.label()));
        self.step(tell.label(), join, |state| {
            state.with_point(point, |point| tell.put(point));
            state.follow_score();
        });
    }

    /// Notes facts about a session besides its points.
    pub fn tell_session(&mut self, info: SessionInfo) {
        let at = self.now.setup.sessions.iter().position(|known| known.name == info.name);
        self.step(mark("About the session"), Some(Join::About(at)), |state| {
            let setup = std::sync::Arc::make_mut(&mut state.setup);
            let known = setup.session_mut(&info.name);
            *known = info;
            state.follow_score();
        });
    }

    /// Notes the call of the selected shot, of the current serve, or of the last shot.
    pub fn call(&mut self, call: Option<ServeCall>) {
        self.change(mark("Call of the serve"), |state| match state.meant() {
            Some(shot) => shot.call = call,
            None => state.draft.call = call,
        });
    }

    /// Notes the number of the serve: of the selected shot, of the current one, or of the last one.
    pub fn serve_number(&mut self, number: Option<ServeNumber>) {
        self.change(mark("Number of the serve"), |state| match state.meant() {
            Some(shot) => shot.serve = number,
            None => state.draft.serve = number,
        });
    }

    /// Sets the clock, s: contacts noted from now on have this time. `None` while it is stopped.
    pub fn set_clock(&mut self, seconds: Option<f64>) {
        self.clock = seconds.map(|seconds| as_written(seconds, 1.0));
        // Keys are pressed a reaction time after the contact.
        let by_hand = self.now.setup.session(&self.now.session).is_some_and(|info| info.times_by_hand);
        if self.clock.is_some() && self.live().is_some() && !by_hand {
            let name = self.now.session.clone();
            let info = self.now.setup.session(&name).cloned().unwrap_or(SessionInfo { name, ..SessionInfo::default() });
            self.tell_session(SessionInfo { times_by_hand: true, ..info });
        }
    }

    /// The score before the open point, or before the next one; `None` if unknown.
    #[must_use]
    pub fn standing(&self) -> Option<Standing> {
        self.now.standing()
    }

    /// The score of the whole chart, with its inconsistencies.
    #[must_use]
    pub fn log(&self) -> Log {
        log::log(&self.chart())
    }
}

impl State {
    /// The score before the open point, or before the next one.
    fn standing(&self) -> Option<Standing> {
        self.tally()?.standing()
    }

    /// Result of the current serve for the point; `None` when it is in, or no serve.
    pub(super) fn after_serve(&self) -> Option<AfterServe> {
        let serve = self.draft.shot(None).filter(|shot| shot.stroke == Some(Stroke::Serve))?;
        let before = self.open.and_then(|open| self.points.get(open.point));
        let mut shots = before.map(|point| point.shots.clone()).unwrap_or_default();
        shots.push(serve);
        let whole = shots.len();
        let court = self.setup.board(Vec::new()).conditions().court;
        let serves = serves(&Point { shots, ..Point::default() }, &court);
        match serves.last()? {
            _ if serves.len() < whole => None,
            (_, ServeCall::In) => None,
            (number, ServeCall::Let) => Some(AfterServe::Again(*number)),
            (ServeNumber::First, ServeCall::Fault) => Some(AfterServe::Second),
            (ServeNumber::Second, ServeCall::Fault) => Some(AfterServe::DoubleFault),
        }
    }

    /// Ends the current serve but not the point: the next serve comes from the same end.
    pub(super) fn end_serve(&mut self) {
        let hitter = self.draft.hitter;
        self.shot(None);
        self.draft = Draft { hitter, ..Draft::default() };
    }

    /// Sets the ends of later points by the score if the format of the match is known. Serves alone may be practice, in
    /// which nobody changes ends.
    pub(super) fn follow_score(&mut self) {
        let played = self.setup.session(&self.session).is_some_and(|session| session.format.is_some());
        if self.open.is_some() || !played {
            return;
        }
        if let Some(ends) = self.standing().and_then(|standing| standing.ends) {
            self.ends = ends;
        }
    }
}

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;
    use standpoint_board::chart::ends::Ends;
    use standpoint_board::chart::model::{Chart, Setup};
    use standpoint_board::chart::score::MatchFormat;

    /// An ace of the near end, from the side that is due.
    fn ace(notes: &mut Notebook, end: End, deuce: bool) {
        let side = if deuce { 0.6 } else { -0.6 };
        notes.place(end.turn2(DVec2::new(side, -11.9))).unwrap();
        notes.stroke(Stroke::Serve);
        notes.place(end.turn2(DVec2::new(-4.0 * side, 5.0))).unwrap();
        notes.end_point();
    }

    #[test]
    fn ends_follow_the_score_and_undo_brings_them_back() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        notes.tell_session(SessionInfo { format: Some(MatchFormat::default()), ..SessionInfo::default() });
        for i in 0..4 {
            assert_eq!(notes.ends(), Ends::AsBegun);
            ace(&mut notes, End::Near, i % 2 == 0);
        }
        // After the first game (Rule 10); the other player, who is at the near end now, serves.
        assert_eq!(notes.ends(), Ends::Changed);
        let standing = notes.standing().unwrap();
        assert_eq!((standing.games, standing.server, standing.ends), ([1, 0], End::Far, Some(Ends::Changed)));
        ace(&mut notes, End::Near, true);
        assert_eq!((notes.points()[4].ends, notes.log().troubles.len()), (Ends::Changed, 0));
        assert_eq!(notes.standing().unwrap().points, [0, 1]);
        while notes.points().len() > 3 {
            notes.undo();
        }
        assert_eq!(notes.ends(), Ends::AsBegun);
    }

    #[test]
    fn practice_keeps_the_ends_that_were_chosen() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        notes.change_ends();
        notes.place(DVec2::new(2.0, -12.0)).unwrap();
        notes.place(DVec2::new(2.0, 9.0)).unwrap();
        notes.end_point();
        assert_eq!((notes.ends(), notes.standing()), (Ends::Changed, None));
        // Serves are practised: no match was noted.
        (0..4).for_each(|i| ace(&mut notes, End::Near, i % 2 == 0));
        assert_eq!(notes.ends(), Ends::Changed);
    }

    #[test]
    fn what_is_told_is_a_step_and_changes_the_score() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        ace(&mut notes, End::Near, true);
        notes.tell(0, Tell::Winner(Some(End::Far)));
        assert_eq!(notes.standing().unwrap().points, [0, 1]);
        notes.undo();
        assert_eq!(notes.standing().unwrap().points, [1, 0]);
        for score in ["0", "0-", "0-0 ", "0-0 40-0"] {
            notes.tell(0, Tell::Score(score.to_owned()));
        }
        assert_eq!(notes.standing().unwrap().games, [1, 0]);
        notes.undo();
        assert_eq!(notes.points()[0].score, "", "typing is one step");
        let info = SessionInfo { video: "court 3.mp4".to_owned(), ..SessionInfo::default() };
        notes.tell_session(info.clone());
        assert_eq!(notes.chart().setup.session(""), Some(&info));
        notes.undo();
        assert_eq!(notes.chart().setup.session(""), None);
    }

    #[test]
    fn a_fault_is_followed_by_the_second_serve_and_two_end_the_point() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        let serve = |notes: &mut Notebook, landing: DVec2| {
            notes.place(DVec2::new(0.6, -11.9)).unwrap();
            notes.stroke(Stroke::Serve);
            notes.place(landing).unwrap();
        };
        // Long, then in the net (Rules 19, 20 and 24 a): the end of the point need not be noted.
        serve(&mut notes, DVec2::new(-2.4, 7.5));
        assert!(notes.open_at().is_some() && notes.draft().step() == super::super::ShotPlace::Contact);
        serve(&mut notes, DVec2::new(-0.6, -0.2));
        assert_eq!((notes.open_at(), notes.standing().unwrap().points), (None, [0, 1]));
        // In: the point goes on.
        notes.place(DVec2::new(-0.6, -11.9)).unwrap();
        notes.stroke(Stroke::Serve);
        notes.place(DVec2::new(2.4, 5.0)).unwrap();
        assert_eq!(notes.draft().step(), super::super::ShotPlace::Met);
    }

    #[test]
    fn a_let_is_called_while_the_serve_is_noted_or_after_it() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        notes.place(DVec2::new(0.6, -11.9)).unwrap();
        notes.stroke(Stroke::Serve);
        notes.call(Some(ServeCall::Let));
        notes.place(DVec2::new(-2.4, 5.0)).unwrap();
        assert_eq!(notes.draft().step(), super::super::ShotPlace::Contact);
        notes.place(DVec2::new(0.6, -11.9)).unwrap();
        notes.stroke(Stroke::Serve);
        notes.place(DVec2::new(-2.4, 5.0)).unwrap();
        notes.end_point();
        let point = &notes.points()[0];
        assert_eq!((notes.points().len(), point.shots.len()), (1, 2));
        assert_eq!((point.shots[0].call, point.shots[1].call), (Some(ServeCall::Let), None));
        assert_eq!(notes.standing().unwrap().points, [1, 0]);
    }

    #[test]
    fn every_stroke_keeps_its_time_and_a_clock_that_stands_still_gives_none() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        notes.set_clock(Some(10.0));
        notes.place(DVec2::new(2.0, -12.0)).unwrap();
        notes.set_clock(Some(10.5));
        notes.place(DVec2::new(2.0, 9.0)).unwrap();
        notes.set_clock(Some(11.25));
        notes.place(DVec2::new(2.0, 12.0)).unwrap();
        notes.skip().unwrap();
        notes.set_clock(None);
        notes.place(DVec2::new(-2.0, -9.0)).unwrap();
        notes.place(DVec2::new(-2.0, -12.0)).unwrap();
        notes.end_point();
        let times: Vec<_> = notes.points()[0].shots.iter().map(|shot| (shot.time, shot.met_time)).collect();
        assert_eq!(times, [(Some(10.0), Some(11.25)), (Some(11.25), None)]);
        assert!(standpoint_board::chart::check::check(&notes.chart()).is_empty());
    }
}
