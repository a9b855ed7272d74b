//! Turns questions into orders for the worker, and its reports into what is shown. No thread, no window.

use std::sync::Arc;

use standpoint_geometry::{Cause, Choice, Court, Planned, Situation, SolveError, Sweep, Weighed};

use super::{
    debounce::{Debounce, Decision, Policy, Rounds},
    map::Progress,
    state::{CompareState, Item, Target, any_target, free},
    task::{AtNet, Kind, Piece, Work},
    worker::Report,
};

/// The list follows a drag: it is quick, so it is finished before it restarts.
const QUICK: Policy = Policy { patience: 0.0, finishes: true };
/// Longer work is dropped by a change and waits until changes stop.
const LONG: Policy = Policy { patience: 0.12, finishes: false };

/// Shots planned on from at most: each takes about a third of a second.
const PLANS: usize = 4;

/// The kinds of work that something on screen shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Needs {
    /// Shots side by side.
    pub compare: bool,
    /// The aim map.
    pub map: bool,
    /// The sweep of a cause.
    pub sweep: bool,
    /// The place at the net.
    pub net: bool,
    /// Two shots on from the shots that stand beside each other.
    pub plan: bool,
}

/// Order for the worker: replaces all other work of its kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// The kind.
    pub kind: Kind,
    /// Its round.
    pub round: u64,
    /// The work; empty only drops.
    pub works: Vec<Work>,
}

/// A shot of the list with its results so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Which.
    pub item: Item,
    known: Option<(Arc<Situation>, Arc<Weighed>)>,
}

impl Row {
    /// The evaluated shot, once it is known.
    #[must_use]
    pub fn weighed(&self) -> Option<&Weighed> {
        self.known.as_ref().map(|(_, weighed)| &**weighed)
    }

    /// The chance to win with it, when it is known and can be played.
    #[must_use]
    pub fn win(&self) -> Option<f64> {
        self.weighed()?.win()
    }
}

/// What comes back after a shot of the list, and what to play then.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanOf {
    /// After which shot.
    pub item: Item,
    /// The situation with that shot.
    pub situation: Arc<Situation>,
    /// The likeliest replies, each with the best shot against it.
    pub replies: Arc<[Planned]>,
}

/// A sweep, or why there is none.
pub type Swept = Result<Box<Sweep>, SolveError>;

type SweepKey = (Situation, [Choice; 2], Cause);
type Questions = Vec<(Item, Situation)>;

/// Questions and results of the comparison.
#[derive(Default)]
pub struct CompareScheduler {
    compare: Debounce<Questions>,
    /// The questions of the list with their inputs: a cache, because finding the shots is slow.
    questions: Option<(Situation, Vec<Target>, Questions)>,
    net: Debounce<Situation>,
    plan: Debounce<Questions>,
    sweep: Debounce<SweepKey>,
    map: Debounce<Situation>,
    rows: Vec<Row>,
    at_net: Option<Result<Box<AtNet>, SolveError>>,
    plans: Vec<PlanOf>,
    swept: Option<Swept>,
    /// The two shots of the finished sweep, and of the one in progress.
    swept_pair: [Option<[Choice; 2]>; 2],
    building: Option<Progress>,
    shown: Option<Progress>,
    charts: u64,
    court: Court,
    /// Whether all rows are to be computed again, even with unchanged questions.
    outdated: bool,
}

impl CompareScheduler {
    /// Compares what is wanted with what is known and in progress. Returns orders for the worker and after how
    /// many seconds to ask again, if so.
    pub fn update(
        &mut self,
        now: f64,
        drawn: Option<&Situation>,
        state: &CompareState,
        needs: Needs,
    ) -> (Vec<Order>, Option<f64>) {
        let mut orders = Vec::new();
        let mut wait: Option<f64> = None;
        if let Some(drawn) = drawn {
            self.court = drawn.conditions.court;
        }
        let wanted = |need: bool| drawn.filter(|_| need);
        let steps = [
            (Kind::Compare, self.step_compare(now, wanted(needs.compare), state)),
            (Kind::Net, self.net.step(wanted(needs.net).map(free).as_ref(), now, LONG)),
            (Kind::Plan, self.step_plan(now, wanted(needs.plan), state)),
            (Kind::Sweep, self.step_sweep(now, wanted(needs.sweep), state)),
            (Kind::Map, self.map.step(wanted(needs.map).map(any_target).as_ref(), now, LONG)),
        ];
        for (kind, step) in steps {
            match step {
                Decision::Rest => {}
                Decision::Wait(seconds) => wait = Some(wait.map_or(seconds, |w| w.min(seconds))),
                Decision::Cancel => {
                    orders.push(Order { kind, round: self.rounds(kind).round(), works: Vec::new() });
                    // Its replacement has to wait; ask again to begin it then.
                    wait = Some(wait.map_or(LONG.patience, |w| w.min(LONG.patience)));
                }
                Decision::Start => orders.extend(drawn.and_then(|drawn| self.begin(kind, drawn, state))),
            }
        }
        (orders, wait)
    }

    fn questions(&mut self, drawn: &Situation, state: &CompareState) -> Questions {
        if let Some((of, targets, questions)) = &self.questions
            && of == drawn
            && *targets == state.targets
        {
            return questions.clone();
        }
        let questions = state.questions(drawn);
        self.questions = Some((*drawn, state.targets.clone(), questions.clone()));
        questions
    }

    fn step_compare(&mut self, now: f64, drawn: Option<&Situation>, state: &CompareState) -> Decision {
        let questions = drawn.map(|drawn| self.questions(drawn, state));
        let step = self.compare.step(questions.as_ref(), now, QUICK);
        // The list changes at once; figures follow.
        let known = std::mem::take(&mut self.rows);
        let of = |item: Item| known.iter().find(|row| row.item == item).and_then(|row| row.known.clone());
        let listed = questions.map(|all| all.into_iter().map(|(item, _)| Row { item, known: of(item) }).collect());
        self.rows = listed.unwrap_or(known);
        step
    }

    /// The shots that stand beside each other, as they have been aimed; at most so many as are told.
    fn to_plan(&self, drawn: &Situation, state: &CompareState) -> Questions {
        let beside = self.rows.iter().filter(|row| state.shown.contains(&row.item));
        let played = beside.filter_map(|row| Some((row.item, row.weighed().filter(|w| w.result.is_ok())?)));
        let asked = |(item, weighed): (Item, &Weighed)| (item, Situation { shot: weighed.shot, ..free(drawn) });
        played.map(asked).take(PLANS).collect()
    }

    fn step_plan(&mut self, now: f64, drawn: Option<&Situation>, state: &CompareState) -> Decision {
        // Shots are planned on from once they are aimed.
        if drawn.is_some() && !self.compare.is_answered() {
            return Decision::Rest;
        }
        let questions = drawn.map(|drawn| self.to_plan(drawn, state));
        self.plan.step(questions.as_ref(), now, LONG)
    }

    fn begin_plan(&mut self, drawn: &Situation, state: &CompareState) -> Vec<Work> {
        let questions = self.to_plan(drawn, state);
        self.plans.retain(|plan| questions.iter().any(|(item, _)| *item == plan.item));
        questions.into_iter().map(|(item, situation)| Work::Plan(item, Arc::new(situation))).collect()
    }

    fn step_sweep(&mut self, now: f64, drawn: Option<&Situation>, state: &CompareState) -> Decision {
        let key = drawn.and_then(|drawn| {
            let pair = state.pair(drawn)?;
            // A shot that stays as it is drawn moves with the target.
            let fixed = pair.contains(&Choice::AsDrawn);
            Some((if fixed { free(drawn) } else { any_target(drawn) }, pair, state.cause))
        });
        self.sweep.step(key.as_ref(), now, LONG)
    }

    fn begin(&mut self, kind: Kind, drawn: &Situation, state: &CompareState) -> Option<Order> {
        let works = match kind {
            Kind::Compare => self.begin_compare(drawn, state),
            Kind::Net => vec![Work::Net(Arc::new(free(drawn)))],
            Kind::Plan => self.begin_plan(drawn, state),
            Kind::Sweep => {
                let pair = state.pair(drawn)?;
                self.swept_pair[1] = Some(pair);
                vec![Work::Sweep(Arc::new(free(drawn)), pair, state.cause)]
            }
            Kind::Map => {
                self.charts += 16;
                let (progress, works) = Progress::begin(&free(drawn), self.charts);
                self.building = Some(progress);
                works
            }
        };
        let round = self.rounds_mut(kind).began(works.len());
        (!works.is_empty()).then_some(Order { kind, round, works })
    }

    /// Only changed rows are computed again: during a drag of the target only the drawn shot.
    fn begin_compare(&mut self, drawn: &Situation, state: &CompareState) -> Vec<Work> {
        let all = std::mem::take(&mut self.outdated);
        let known = |item: Item| self.rows.iter().find(|row| row.item == item).and_then(|row| row.known.as_ref());
        let new = |(item, situation): &(Item, Situation)| all || known(*item).is_none_or(|(of, _)| **of != *situation);
        let questions = self.questions.as_ref().map(|(_, _, questions)| questions.clone());
        let questions = questions.unwrap_or_else(|| state.questions(drawn));
        questions.into_iter().filter(new).map(|(item, situation)| Work::Compare(item, Arc::new(situation))).collect()
    }

    /// Takes a report; returns whether it was used.
    pub fn take(&mut self, report: Report) -> bool {
        if !self.rounds_mut(report.kind).arrived(report.round) {
            return false;
        }
        match report.piece {
            Piece::Weighed(item, situation, weighed) => {
                if let Some(row) = self.rows.iter_mut().find(|row| row.item == item) {
                    row.known = Some((situation, Arc::from(weighed)));
                }
            }
            Piece::Net(at_net) => self.at_net = Some(at_net),
            Piece::Planned(item, situation, replies) => {
                self.plans.retain(|plan| plan.item != item);
                self.plans.push(PlanOf { item, situation, replies: replies.into() });
            }
            Piece::Swept(swept) => {
                self.swept = Some(swept);
                self.swept_pair[0] = self.swept_pair[1];
            }
            Piece::Cells(cells) => self.take_cells(cells),
        }
        true
    }

    fn take_cells(&mut self, cells: Vec<(usize, Option<standpoint_geometry::AimWorth>)>) {
        let Some(building) = &mut self.building else { return };
        let court = self.court;
        let passed = building.take(cells, &court);
        self.charts = self.charts.max(building.generation());
        if passed {
            self.shown = Some(building.clone());
        }
    }

    fn rounds(&self, kind: Kind) -> &dyn Rounds {
        match kind {
            Kind::Compare => &self.compare,
            Kind::Net => &self.net,
            Kind::Plan => &self.plan,
            Kind::Sweep => &self.sweep,
            Kind::Map => &self.map,
        }
    }

    fn rounds_mut(&mut self, kind: Kind) -> &mut dyn Rounds {
        match kind {
            Kind::Compare => &mut self.compare,
            Kind::Net => &mut self.net,
            Kind::Plan => &mut self.plan,
            Kind::Sweep => &mut self.sweep,
            Kind::Map => &mut self.map,
        }
    }

    /// The shots of the list.
    #[must_use]
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// What an approach leads to.
    #[must_use]
    pub fn at_net(&self) -> Option<&Result<Box<AtNet>, SolveError>> {
        self.at_net.as_ref()
    }

    /// What comes back after a shot of the list, and what to play then, once it is known.
    #[must_use]
    pub fn plan(&self, item: Item) -> Option<&PlanOf> {
        self.plans.iter().find(|plan| plan.item == item)
    }

    /// The sweep and its two shots.
    #[must_use]
    pub fn swept(&self) -> Option<(&Swept, [Choice; 2])> {
        self.swept.as_ref().zip(self.swept_pair[0])
    }

    /// The aim map of the last pass that is complete.
    #[must_use]
    pub fn map(&self) -> Option<&Progress> {
        self.shown.as_ref()
    }

    /// The part of the wanted map that is known, 0 to 1.
    #[must_use]
    pub fn map_part(&self) -> f64 {
        match &self.building {
            _ if self.map.is_answered() => 1.0,
            Some(building) if self.map.is_busy() => building.part(),
            _ => 0.0,
        }
    }

    /// Whether the shown map belongs to the drawn shot: from its first pass on.
    #[must_use]
    pub fn map_is_fresh(&self) -> bool {
        let passes = self.building.as_ref().map_or(0, |b| b.passes().0);
        passes > 0 && (self.map.is_busy() || self.map.is_answered())
    }

    /// Whether work of a kind is in progress.
    #[must_use]
    pub fn is_busy(&self, kind: Kind) -> bool {
        self.rounds(kind).is_busy()
    }

    /// Whether the shown result of a kind answers the current question.
    #[must_use]
    pub fn is_answered(&self, kind: Kind) -> bool {
        self.rounds(kind).is_answered()
    }

    /// Whether nothing wanted of a kind is missing.
    #[must_use]
    pub fn is_settled(&self, kind: Kind) -> bool {
        self.rounds(kind).is_settled()
    }

    /// Computes everything anew after the game behind the figures has changed; former figures stay until then.
    pub fn outdate(&mut self) {
        Kind::ALL.into_iter().for_each(|kind| self.rounds_mut(kind).outdate());
        self.outdated = true;
    }

    /// Forgets everything, for another board.
    pub fn clear(&mut self) {
        (self.rows, self.at_net, self.swept, self.shown) = (Vec::new(), None, None, None);
        self.plans.clear();
    }
}

#[cfg(test)]
mod tests;
