//! The map for programs.

use std::io::Write;

use glam::DVec2;
use serde::Serialize;
use standpoint_geometry::{AimWorth, NetPosition};

use super::Found;
use crate::{
    fault::Stop,
    json::{Ground, Num},
    names,
    round::rounded,
};

impl Found<'_> {
    pub(super) fn json(&self) -> Body {
        let map = &self.map;
        let reached = |worth: &Option<AimWorth>| worth.as_ref().map(WorthJson::new);
        let aim = |(target, worth): &(DVec2, AimWorth)| TargetJson::new(*target, Some(worth));
        Body {
            stroke: names::stroke(self.asked.situation.shot.stroke),
            approach: self.approach,
            best: aim(&self.best),
            best_if_to_the_middle: self.to_middle.as_ref().map(aim),
            drawn: TargetJson::new(self.asked.situation.shot.target, self.drawn.as_ref()),
            staying_back: reached(&self.staying),
            net: self.at_net.as_ref().map(NetPlaceJson::new),
            map: MapJson {
                origin: map.origin.into(),
                step: Num(map.step),
                columns: map.columns,
                rows: map.rows,
                targets: (0..map.worth.len())
                    .map(|cell| TargetJson::new(map.target(cell), map.worth[cell].flatten().as_ref()))
                    .collect(),
            },
        }
    }

    pub(super) fn csv(&self, out: &mut dyn Write) -> Result<(), Stop> {
        let mut csv = csv::Writer::from_writer(out);
        for cell in 0..self.map.worth.len() {
            csv.serialize(Row::new(self.map.target(cell), self.map.worth[cell].flatten()))?;
        }
        Ok(csv.flush()?)
    }
}

#[derive(Debug, Serialize)]
pub(super) struct Body {
    stroke: &'static str,
    approach: bool,
    best: TargetJson,
    best_if_to_the_middle: Option<TargetJson>,
    drawn: TargetJson,
    #[serde(skip_serializing_if = "Option::is_none")]
    staying_back: Option<WorthJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    net: Option<NetPlaceJson>,
    map: MapJson,
}

#[derive(Debug, Serialize)]
struct MapJson {
    origin: Ground,
    step: Num,
    columns: usize,
    rows: usize,
    targets: Vec<TargetJson>,
}

#[derive(Debug, Serialize)]
struct TargetJson {
    x: Num,
    y: Num,
    playable: bool,
    #[serde(flatten)]
    worth: Option<WorthJson>,
}

impl TargetJson {
    fn new(target: DVec2, worth: Option<&AimWorth>) -> Self {
        Self { x: Num(target.x), y: Num(target.y), playable: worth.is_some(), worth: worth.map(WorthJson::new) }
    }
}

#[derive(Debug, Serialize)]
struct WorthJson {
    win: Num,
    win_from_middle: Num,
    chance_in: Num,
    speed: Num,
}

impl WorthJson {
    fn new(w: &AimWorth) -> Self {
        Self {
            win: Num(w.win),
            win_from_middle: Num(w.win_from_middle),
            chance_in: Num(w.chance_in),
            speed: Num(w.speed),
        }
    }
}

#[derive(Debug, Serialize)]
struct NetPlaceJson {
    x: Num,
    y: Num,
    exposure: Num,
    worst: &'static str,
    line: Num,
    across: Num,
    lob: Num,
    too_close: bool,
    safe_distance: Option<Num>,
}

impl NetPlaceJson {
    fn new(net: &NetPosition) -> Self {
        Self {
            x: Num(net.place.x),
            y: Num(net.place.y),
            exposure: Num(net.exposure),
            worst: names::reply(net.worst),
            line: Num(net.line),
            across: Num(net.across),
            lob: Num(net.lob),
            too_close: net.too_close,
            safe_distance: net.safe_distance.map(Num),
        }
    }
}

/// A target in one line of CSV.
#[derive(Debug, Serialize)]
struct Row {
    x: f64,
    y: f64,
    playable: bool,
    win: Option<f64>,
    win_from_middle: Option<f64>,
    chance_in: Option<f64>,
    speed: Option<f64>,
}

impl Row {
    fn new(target: DVec2, worth: Option<AimWorth>) -> Self {
        let figure = |of: fn(&AimWorth) -> f64| worth.as_ref().map(|w| rounded(of(w)));
        Self {
            x: rounded(target.x),
            y: rounded(target.y),
            playable: worth.is_some(),
            win: figure(|w| w.win),
            win_from_middle: figure(|w| w.win_from_middle),
            chance_in: figure(|w| w.chance_in),
            speed: figure(|w| w.speed),
        }
    }
}
