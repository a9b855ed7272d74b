//! From what wants to be known to orders for the worker, and from its reports to what is shown. No thread, no window.

use std::sync::Arc;

use standpoint_geometry::{
    compare::{Choice, Weighed},
    court::Court,
    plan::Planned,
    situation::{ReceiptChoice, Situation},
    solver::SolveError,
    sweep::{Cause, Sweep},
};

use super::{
    debounce::{Debounce, Policy, Step},
    map::Progress,
    state::{Item, Target, Weighing},
    task::{AtNet, Kind, Piece, Work},
    worker::Report,
};

/// The comparison follows a drag: it is quick, so it is finished before it begins again.
const QUICK: Policy = Policy { patience: 0.0, finishes: true };
/// What takes longer is dropped by a change and waits until the hand has come to rest.
const LONG: Policy = Policy { patience: 0.12, finishes: false };

/// Shots planned on from at most: each takes about a third of a second.
const PLANS: usize = 4;

/// Which work is wanted, because something on screen shows it.
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

/// What the worker is to do: this work in place of all other of its kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// The kind.
    pub kind: Kind,
    /// Its round.
    pub round: u64,
    /// The work; none drops only.
    pub works: Vec<Work>,
}

/// A shot of the list with what is known of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Which.
    pub item: Item,
    known: Option<(Arc<Situation>, Arc<Weighed>)>,
}

impl Row {
    /// The shot with all that follows, once it has been weighed.
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

/// Where the questions lie and the answers come in.
#[derive(Default)]
pub struct CompareScheduler {
    compare: Debounce<Questions>,
    /// The questions of the list and what they were made from, since finding the shots takes a while.
    questions: Option<(Situation, Vec<Target>, Questions)>,
    net: Debounce<Situation>,
    plan: Debounce<Questions>,
    sweep: Debounce<SweepKey>,
    map: Debounce<Situation>,
    rows: Vec<Row>,
    at_net: Option<Result<Box<AtNet>, SolveError>>,
    plans: Vec<PlanOf>,
    swept: Option<Swept>,
    /// The two shots of the sweep that is there, and of the one that is on the way.
    swept_pair: [Option<[Choice; 2]>; 2],
    building: Option<Progress>,
    shown: Option<Progress>,
    charts: u64,
    court: Court,
    /// Whether all rows are to be weighed again, those too whose question has not changed.
    outdated: bool,
}

impl CompareScheduler {
    /// Compares what wants to be known now with what is known and on the way. Returns orders for the worker and after how
    /// many seconds to ask again, if so.
    pub fn update(
        &mut self,
        now: f64,
        drawn: Option<&Situation>,
        weighing: &Weighing,
        needs: Needs,
    ) -> (Vec<Order>, Option<f64>) {
        let mut orders = Vec::new();
        let mut wait: Option<f64> = None;
        if let Some(drawn) = drawn {
            self.court = drawn.conditions.court;
        }
        let wanted = |need: bool| drawn.filter(|_| need);
        let steps = [
            (Kind::Compare, self.step_compare(now, wanted(needs.compare), weighing)),
            (Kind::Net, self.net.step(wanted(needs.net).map(free).as_ref(), now, LONG)),
            (Kind::Plan, self.step_plan(now, wanted(needs.plan), weighing)),
            (Kind::Sweep, self.step_sweep(now, wanted(needs.sweep), weighing)),
            (Kind::Map, self.map.step(wanted(needs.map).map(any_target).as_ref(), now, LONG)),
        ];
        for (kind, step) in steps {
            match step {
                Step::Rest => {}
                Step::Wait(seconds) => wait = Some(wait.map_or(seconds, |w| w.min(seconds))),
                Step::Cancel => {
                    orders.push(Order { kind, round: self.round(kind), works: Vec::new() });
                    // What comes in its place has to wait; ask again to begin it then.
                    wait = Some(wait.map_or(LONG.patience, |w| w.min(LONG.patience)));
                }
                Step::Start => orders.extend(drawn.and_then(|drawn| self.begin(kind, drawn, weighing))),
            }
        }
        (orders, wait)
    }

    fn questions(&mut self, drawn: &Situation, weighing: &Weighing) -> Questions {
        if let Some((of, targets, questions)) = &self.questions
            && of == drawn
            && *targets == weighing.targets
        {
            return questions.clone();
        }
        let questions = weighing.questions(drawn);
        self.questions = Some((*drawn, weighing.targets.clone(), questions.clone()));
        questions
    }

    fn step_compare(&mut self, now: f64, drawn: Option<&Situation>, weighing: &Weighing) -> Step {
        let questions = drawn.map(|drawn| self.questions(drawn, weighing));
        let step = self.compare.step(questions.as_ref(), now, QUICK);
        // The list follows at once; the figures follow when they are there.
        let known = std::mem::take(&mut self.rows);
        let of = |item: Item| known.iter().find(|row| row.item == item).and_then(|row| row.known.clone());
        let listed = questions.map(|all| all.into_iter().map(|(item, _)| Row { item, known: of(item) }).collect());
        self.rows = listed.unwrap_or(known);
        step
    }

    /// The shots that stand beside each other, as they have been aimed; at most so many as are told.
    fn to_plan(&self, drawn: &Situation, weighing: &Weighing) -> Questions {
        let beside = self.rows.iter().filter(|row| weighing.shown.contains(&row.item));
        let played = beside.filter_map(|row| Some((row.item, row.weighed().filter(|w| w.result.is_ok())?)));
        let asked = |(item, weighed): (Item, &Weighed)| (item, Situation { shot: weighed.shot, ..free(drawn) });
        played.map(asked).take(PLANS).collect()
    }

    fn step_plan(&mut self, now: f64, drawn: Option<&Situation>, weighing: &Weighing) -> Step {
        // Shots are planned on from once they are aimed.
        if drawn.is_some() && !self.compare.is_answered() {
            return Step::Rest;
        }
        let questions = drawn.map(|drawn| self.to_plan(drawn, weighing));
        self.plan.step(questions.as_ref(), now, LONG)
    }

    fn begin_plan(&mut self, drawn: &Situation, weighing: &Weighing) -> Vec<Work> {
        let questions = self.to_plan(drawn, weighing);
        self.plans.retain(|plan| questions.iter().any(|(item, _)| *item == plan.item));
        questions.into_iter().map(|(item, situation)| Work::Plan(item, Arc::new(situation))).collect()
    }

    fn step_sweep(&mut self, now: f64, drawn: Option<&Situation>, weighing: &Weighing) -> Step {
        let key = drawn.and_then(|drawn| {
            let pair = weighing.pair(drawn)?;
            // A shot that stays as it is drawn moves with the target.
            let fixed = pair.contains(&Choice::AsDrawn);
            Some((if fixed { free(drawn) } else { any_target(drawn) }, pair, weighing.cause))
        });
        self.sweep.step(key.as_ref(), now, LONG)
    }

    fn begin(&mut self, kind: Kind, drawn: &Situation, weighing: &Weighing) -> Option<Order> {
        let works = match kind {
            Kind::Compare => self.begin_compare(drawn, weighing),
            Kind::Net => vec![Work::Net(Arc::new(free(drawn)))],
            Kind::Plan => self.begin_plan(drawn, weighing),
            Kind::Sweep => {
                let pair = weighing.pair(drawn)?;
                self.swept_pair[1] = Some(pair);
                vec![Work::Sweep(Arc::new(free(drawn)), pair, weighing.cause)]
            }
            Kind::Map => {
                self.charts += 16;
                let (progress, works) = Progress::begin(&free(drawn), self.charts);
                self.building = Some(progress);
                works
            }
        };
        let round = match kind {
            Kind::Compare => self.compare.began(works.len()),
            Kind::Net => self.net.began(works.len()),
            Kind::Plan => self.plan.began(works.len()),
            Kind::Sweep => self.sweep.began(works.len()),
            Kind::Map => self.map.began(works.len()),
        };
        (!works.is_empty()).then_some(Order { kind, round, works })
    }

    /// Only what has changed is weighed again: while the target is dragged that is the drawn shot alone.
    fn begin_compare(&mut self, drawn: &Situation, weighing: &Weighing) -> Vec<Work> {
        let all = std::mem::take(&mut self.outdated);
        let known = |item: Item| self.rows.iter().find(|row| row.item == item).and_then(|row| row.known.as_ref());
        let new = |(item, situation): &(Item, Situation)| all || known(*item).is_none_or(|(of, _)| **of != *situation);
        let questions = self.questions.as_ref().map(|(_, _, questions)| questions.clone());
        let questions = questions.unwrap_or_else(|| weighing.questions(drawn));
        questions.into_iter().filter(new).map(|(item, situation)| Work::Weigh(item, Arc::new(situation))).collect()
    }

    /// Takes a report. Whether it was of use.
    pub fn take(&mut self, report: Report) -> bool {
        let wanted = match report.kind {
            Kind::Compare => self.compare.arrived(report.round),
            Kind::Net => self.net.arrived(report.round),
            Kind::Plan => self.plan.arrived(report.round),
            Kind::Sweep => self.sweep.arrived(report.round),
            Kind::Map => self.map.arrived(report.round),
        };
        if !wanted {
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

    fn take_cells(&mut self, cells: Vec<(usize, Option<standpoint_geometry::aim_map::Worth>)>) {
        let Some(building) = &mut self.building else { return };
        let court = self.court;
        let passed = building.take(cells, &court);
        self.charts = self.charts.max(building.generation());
        if passed {
            self.shown = Some(building.clone());
        }
    }

    fn round(&self, kind: Kind) -> u64 {
        match kind {
            Kind::Compare => self.compare.round(),
            Kind::Net => self.net.round(),
            Kind::Plan => self.plan.round(),
            Kind::Sweep => self.sweep.round(),
            Kind::Map => self.map.round(),
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

    /// Whether the map that is shown belongs to what is drawn: from its first pass on.
    #[must_use]
    pub fn map_is_fresh(&self) -> bool {
        let passes = self.building.as_ref().map_or(0, |b| b.passes().0);
        passes > 0 && (self.map.is_busy() || self.map.is_answered())
    }

    /// Whether work of a kind goes on.
    #[must_use]
    pub fn is_busy(&self, kind: Kind) -> bool {
        match kind {
            Kind::Compare => self.compare.is_busy(),
            Kind::Net => self.net.is_busy(),
            Kind::Plan => self.plan.is_busy(),
            Kind::Sweep => self.sweep.is_busy(),
            Kind::Map => self.map.is_busy(),
        }
    }

    /// Whether what is shown of a kind answers the question as it is now.
    #[must_use]
    pub fn is_answered(&self, kind: Kind) -> bool {
        match kind {
            Kind::Compare => self.compare.is_answered(),
            Kind::Net => self.net.is_answered(),
            Kind::Plan => self.plan.is_answered(),
            Kind::Sweep => self.sweep.is_answered(),
            Kind::Map => self.map.is_answered(),
        }
    }

    /// Whether nothing of a kind is wanted that is not there.
    #[must_use]
    pub fn is_settled(&self, kind: Kind) -> bool {
        match kind {
            Kind::Compare => self.compare.is_settled(),
            Kind::Net => self.net.is_settled(),
            Kind::Plan => self.plan.is_settled(),
            Kind::Sweep => self.sweep.is_settled(),
            Kind::Map => self.map.is_settled(),
        }
    }

    /// Asks everything again, since the game that figures rest on has become another; the former figures stay until then.
    pub fn outdate(&mut self) {
        self.compare.outdate();
        self.net.outdate();
        self.plan.outdate();
        self.sweep.outdate();
        self.map.outdate();
        self.outdated = true;
    }

    /// Forgets everything, for another board.
    pub fn clear(&mut self) {
        (self.rows, self.at_net, self.swept, self.shown) = (Vec::new(), None, None, None);
        self.plans.clear();
    }
}

/// The situation with the opponent free to meet the ball where they like.
fn free(drawn: &Situation) -> Situation {
    Situation { receipt: ReceiptChoice::Best, ..*drawn }
}

/// The situation as far as it matters to what tries targets of its own: a drag of the target changes nothing.
pub(super) fn any_target(drawn: &Situation) -> Situation {
    let mut situation = free(drawn);
    situation.shot.target = situation.hitter_end.turn2(glam::DVec2::new(0.0, 8.0));
    situation
}

#[cfg(test)]
mod tests;
