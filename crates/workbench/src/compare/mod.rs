//! Comparison of shots on threads of its own.
//!
//! [`state`] is what the person asks for, [`scheduler`] turns it into orders and takes results, [`debounce`] decides when
//! work begins and is dropped, [`worker`] holds the threads and [`task`] is what they do. [`map`] and [`chart`] are the
//! aim map as it arrives and as it is drawn, [`plan`] is what follows two shots ahead, [`words`] has the wording.

pub mod chart;
pub mod debounce;
pub mod map;
pub mod plan;
pub mod scheduler;
pub mod state;
pub mod task;
pub mod words;
pub mod worker;

use standpoint_board::ShotSpec;
use standpoint_geometry::ReadyArea;

use crate::{session::Session, settings::Settings};
use scheduler::{CompareScheduler, Needs, Row};
use state::{Change, CompareState, Page};
use task::Kind;
use worker::Worker;

/// Longest delay before new figures are shown, so that many share one frame, s.
pub const GATHER_S: f32 = 0.03;

/// State of the comparison of shots in a window.
pub struct Comparison {
    state: CompareState,
    scheduler: CompareScheduler,
    worker: Worker,
}

impl Comparison {
    /// Nothing compared yet; the threads call `wake` when figures are ready, which are to be taken within [`GATHER_S`].
    #[must_use]
    pub fn new(wake: impl Fn() + Send + Sync + 'static) -> Self {
        let worker = Worker::new(wake);
        Self { state: CompareState::default(), scheduler: CompareScheduler::default(), worker }
    }

    /// Takes finished work and orders what is wanted at `now`, s on the clock of the frames; returns after how
    /// many seconds this is to be called again.
    pub fn update(&mut self, now: f64, session: &Session, settings: &Settings) -> Option<f64> {
        for report in self.worker.take() {
            self.scheduler.take(report);
        }
        let needs = self.needs(session, settings);
        // Nothing can be compared on a board whose shot is not valid.
        let drawn = session.situation().filter(|situation| situation.validate().is_empty());
        let (orders, wait) = self.scheduler.update(now, drawn, &self.state, needs);
        for order in orders {
            self.worker.start(order.kind, order.round, order.works);
        }
        wait
    }

    fn needs(&self, session: &Session, settings: &Settings) -> Needs {
        let page = |page| settings.comparing && self.state.page == page;
        let on_court = self.state.on_court(settings);
        Needs {
            compare: on_court.ghosts || page(Page::Shots),
            map: on_court.aim || page(Page::Aim),
            sweep: page(Page::Turn),
            plan: page(Page::Shots),
            net: page(Page::Net) || (on_court.net && is_approach(session)),
        }
    }

    /// Changes what is compared.
    pub fn change(&mut self, change: Change, session: &Session) {
        self.state.change(change, &session.court(), session.hitter_end());
    }

    /// Computes everything anew after the game behind the figures has changed.
    pub fn outdate(&mut self) {
        self.scheduler.outdate();
    }

    /// Forgets the shots of the former board.
    pub fn clear(&mut self) {
        self.state.targets.clear();
        self.scheduler.clear();
    }

    /// What is weighed.
    #[must_use]
    pub fn state(&self) -> &CompareState {
        &self.state
    }

    /// Whether any work is in progress.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        Kind::ALL.into_iter().any(|kind| self.scheduler.is_busy(kind))
    }

    /// What is known.
    #[must_use]
    pub fn scheduler(&self) -> &CompareScheduler {
        &self.scheduler
    }

    /// The shots that stand beside each other and exist there, in the order of the list; their rank gives the letter.
    #[must_use]
    pub fn beside(&self) -> Vec<&Row> {
        self.scheduler.rows().iter().filter(|row| self.state.shown.contains(&row.item)).collect()
    }

    /// The reply whose consequence is shown on the court: the one chosen, or else the likeliest to the best of the shots beside
    /// each other.
    #[must_use]
    pub fn shown_plan(&self) -> Option<(&scheduler::PlanOf, usize)> {
        let beside = self.beside();
        let there = |item: state::Item, reply: usize| {
            let plan = beside.iter().find(|row| row.item == item).and_then(|_| self.scheduler.plan(item))?;
            (reply < plan.replies.len()).then_some((plan, reply))
        };
        let chosen = self.state.planned.and_then(|(item, reply)| there(item, reply));
        let best = || {
            let wins = beside.iter().filter_map(|row| Some((row.item, row.win()?)));
            wins.max_by(|a, b| a.1.total_cmp(&b.1)).and_then(|(item, _)| there(item, 0))
        };
        chosen.or_else(best)
    }

    /// The chart of the aim map, if there is one.
    #[must_use]
    pub fn chart(&self) -> Option<&std::sync::Arc<chart::Chart>> {
        self.scheduler.map()?.chart(self.state.to_middle)
    }

    /// Whether everything that is wanted has been computed.
    #[must_use]
    pub fn is_settled(&self) -> bool {
        Kind::ALL.into_iter().all(|kind| self.scheduler.is_settled(kind))
    }
}

/// What makes an approach of the shot that is none, and the other way round. A shot that would be followed to the net
/// anyway is kept from it.
#[must_use]
pub fn approach_or_not(session: &Session) -> Option<ReadyArea> {
    if !is_approach(session) {
        return Some(ReadyArea::Net);
    }
    let usual = session.shot().map(|spec| session.board().ready_area(&ShotSpec { recover_in: None, ..*spec }));
    (usual == Some(ReadyArea::Net)).then_some(ReadyArea::Anywhere)
}

/// Whether the shot is an approach: the hitter follows it to the net.
#[must_use]
pub fn is_approach(session: &Session) -> bool {
    session.situation().is_some_and(|situation| situation.settings.ready == ReadyArea::Net)
}
