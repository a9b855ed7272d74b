//! The comparison for programs.

use std::io::Write;

use serde::Serialize;
use standpoint_board::Units;
use standpoint_geometry::{Answer, Choice, Difference, Outcome, Planned, Quality, Situation, Solver, Weighed};
use standpoint_workbench::{compare::plan, compare_words, words};

use super::Compared;
use crate::{
    args::choice_word,
    fault::Stop,
    json::{AnswerJson, Num, QualityJson, ShotJson},
    load::refusal_kind,
    names,
    round::rounded,
};

impl Compared<'_> {
    pub(super) fn json(&self) -> Body {
        Body {
            best: self.best().map(|w| choice_word(w.choice)),
            choices: self.weighed.iter().zip(self.plans()).map(|(w, plan)| ChoiceJson::new(w, plan)).collect(),
            not_there: self.absent.iter().map(|choice| choice_word(*choice)).collect(),
            differences: self.differences().map(|(a, b, d)| DifferenceJson::new(a.choice, b.choice, &d)).collect(),
        }
    }

    pub(super) fn csv(&self, out: &mut dyn Write) -> Result<(), Stop> {
        let mut csv = csv::Writer::from_writer(out);
        for w in self.weighed {
            csv.serialize(Row::new(w))?;
        }
        Ok(csv.flush()?)
    }
}

#[derive(Debug, Serialize)]
pub(super) struct Body {
    best: Option<&'static str>,
    choices: Vec<ChoiceJson>,
    not_there: Vec<&'static str>,
    differences: Vec<DifferenceJson>,
}

#[derive(Debug, Serialize)]
struct ChoiceJson {
    choice: &'static str,
    playable: bool,
    shot: ShotJson,
    win: Option<Num>,
    #[serde(skip_serializing_if = "Option::is_none")]
    error: Option<WhyNot>,
    #[serde(skip_serializing_if = "Option::is_none")]
    quality: Option<QualityJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    plan: Option<Vec<PlannedJson>>,
    #[serde(flatten)]
    answer: Option<AnswerJson>,
}

#[derive(Debug, Serialize)]
struct WhyNot {
    kind: &'static str,
    message: String,
    remedy: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<Num>,
}

/// A reply with what to play then.
#[derive(Debug, Serialize)]
struct PlannedJson {
    reply: &'static str,
    share: Num,
    shot: ShotJson,
    next: Option<NextJson>,
    words: String,
}

#[derive(Debug, Serialize)]
struct NextJson {
    choice: &'static str,
    shot: ShotJson,
    win: Num,
    other: Option<OtherJson>,
}

#[derive(Debug, Serialize)]
struct OtherJson {
    choice: &'static str,
    win: Num,
}

impl PlannedJson {
    fn new(planned: &Planned, situation: &Situation) -> Self {
        let next = planned.next.as_ref().map(|next| NextJson {
            choice: choice_word(next.choice),
            shot: (&next.shot).into(),
            win: Num(next.win),
            other: next.other.map(|(choice, win)| OtherJson { choice: choice_word(choice), win: Num(win) }),
        });
        Self {
            reply: names::reply(planned.reply),
            share: Num(planned.share),
            shot: (&planned.shot).into(),
            next,
            words: plan::sentence(planned, situation),
        }
    }
}

/// Two shots ahead of so many of the best: each takes a while.
const PLANS: usize = 4;

impl Compared<'_> {
    /// Two shots ahead of the best ones, in the order of all.
    fn plans(&self) -> Vec<Option<Vec<PlannedJson>>> {
        let mut wins: Vec<f64> = self.weighed.iter().filter_map(Weighed::win).collect();
        wins.sort_by(|a, b| b.total_cmp(a));
        let least = wins.get(PLANS - 1).or(wins.last()).copied().unwrap_or(f64::INFINITY);
        let mut solver = Solver::new();
        let mut plan = |w: &Weighed| {
            let situation = Situation { shot: w.shot, ..self.asked.situation };
            w.win().filter(|win| *win >= least)?;
            let planned = solver.plan(&situation).ok()?;
            Some(planned.iter().map(|p| PlannedJson::new(p, &situation)).collect())
        };
        self.weighed.iter().map(&mut plan).collect()
    }
}

impl ChoiceJson {
    fn new(w: &Weighed, plan: Option<Vec<PlannedJson>>) -> Self {
        let why = w.result.as_ref().err().map(|error| {
            let (kind, by) = refusal_kind(error);
            let (message, remedy) = words::refusal(error, Units::Metres);
            WhyNot { kind, message, remedy, by: by.map(Num) }
        });
        let played = w.result.as_ref().ok();
        Self {
            choice: choice_word(w.choice),
            playable: played.is_some(),
            shot: (&w.shot).into(),
            win: w.win().map(Num),
            error: why,
            quality: played.map(|(quality, _)| quality.into()),
            plan,
            answer: played.map(|(_, answer)| AnswerJson::new(answer, &w.shot, false)),
        }
    }
}

#[derive(Debug, Serialize)]
struct DifferenceJson {
    from: &'static str,
    to: &'static str,
    chance_in: Num,
    clearance: Num,
    net_height: Num,
    opponent_time: Option<Num>,
    opponent_time_to_spare: Option<Num>,
    wedge_width_deg: Option<Num>,
    recovery_distance: Option<Num>,
    recovery_lack: Option<Num>,
    exposure: Option<Num>,
    win: Num,
    words: String,
}

impl DifferenceJson {
    fn new(from: Choice, to: Choice, d: &Difference) -> Self {
        Self {
            from: choice_word(from),
            to: choice_word(to),
            chance_in: Num(d.chance_in),
            clearance: Num(d.clearance),
            net_height: Num(d.net_height),
            opponent_time: d.opponent_time.map(Num),
            opponent_time_to_spare: d.opponent_spare.map(Num),
            wedge_width_deg: d.wedge.map(|radians| Num(radians.to_degrees())),
            recovery_distance: d.recovery.map(Num),
            recovery_lack: d.lack.map(Num),
            exposure: d.exposure.map(Num),
            win: Num(d.win),
            words: compare_words::sentence(from, to, d, Units::Metres),
        }
    }
}

/// A choice in one line of CSV.
#[derive(Debug, Default, Serialize)]
struct Row {
    choice: &'static str,
    outcome: &'static str,
    reason: String,
    win: Option<f64>,
    chance_in: Option<f64>,
    clearance: Option<f64>,
    net_height: Option<f64>,
    target_x: f64,
    target_y: f64,
    speed: f64,
    opponent_time: Option<f64>,
    opponent_wing: Option<&'static str>,
    opponent_time_to_spare: Option<f64>,
    wedge_width_deg: Option<f64>,
    spot_x: Option<f64>,
    spot_y: Option<f64>,
    spot_exposure: Option<f64>,
    recovery_distance: Option<f64>,
    recovery_needed: Option<f64>,
    recovery_available: Option<f64>,
    recovery_short_by: Option<f64>,
    exposure_reached: Option<f64>,
}

impl Row {
    fn new(w: &Weighed) -> Self {
        let mut row = Self {
            choice: choice_word(w.choice),
            outcome: "unplayable",
            win: w.win().map(rounded),
            target_x: rounded(w.shot.target.x),
            target_y: rounded(w.shot.target.y),
            speed: rounded(w.shot.speed),
            ..Self::default()
        };
        match &w.result {
            Err(error) => row.reason = words::refusal(error, Units::Metres).0,
            Ok((quality, answer)) => row.fill(quality, answer),
        }
        row
    }

    fn fill(&mut self, quality: &Quality, answer: &Answer) {
        let some = |value: f64| Some(rounded(value));
        self.outcome = names::outcome(answer);
        self.chance_in = some(quality.chance.good);
        self.clearance = some(quality.clearance);
        self.net_height = some(quality.net_height);
        if let Outcome::NoReply(receipt) = &answer.outcome {
            self.opponent_time = some(receipt.time);
            self.opponent_wing = Some(names::wing(receipt.wing));
            self.opponent_time_to_spare = some(receipt.time_to_spare);
        }
        let Some(play) = answer.play() else { return };
        self.opponent_time = some(play.receipt.time);
        self.opponent_wing = Some(names::wing(play.receipt.wing));
        self.opponent_time_to_spare = some(play.receipt.time_to_spare);
        self.wedge_width_deg = some(play.wedge.width().to_degrees());
        self.spot_x = some(play.spot.place.x);
        self.spot_y = some(play.spot.place.y);
        self.spot_exposure = some(play.spot.exposure);
        self.recovery_distance = some(play.recovery.distance);
        self.recovery_needed = some(play.recovery.needed);
        self.recovery_available = some(play.recovery.available);
        self.recovery_short_by = some(play.recovery.short_by);
        self.exposure_reached = some(play.recovery.reached.exposure);
    }
}
