//! An invented season: a folder of matches as CSV files, in which the near player has three habits that cost points.
//!
//! `cargo run --release -p standpoint-charting --example invented_season -- FOLDER [POINTS]`

#![allow(clippy::unwrap_used, reason = "an example says what it could not do, and ends")]

use std::{fs, path::PathBuf};

use glam::{DVec2, dvec2};
use standpoint_board::chart::{Chart, Setup};
use standpoint_charting::{
    import::{Mapping, write_chart},
    invented::{self, Habit},
};
use standpoint_geometry::{End, Wing};

/// Day and seed of each match.
const MATCHES: [(&str, u64); 4] = [("2026-04-12", 11), ("2026-04-26", 12), ("2026-05-10", 13), ("2026-05-24", 14)];

fn main() {
    let mut words = std::env::args().skip(1);
    let folder = PathBuf::from(words.next().expect("name a folder"));
    let points = words.next().map_or(30, |word| word.parse().unwrap());
    fs::create_dir_all(&folder).unwrap();
    for (day, seed) in MATCHES {
        let mut chart = invented::chart(&Setup::default(), seed, points, [Habit::EXPERT, Habit::EXPERT]);
        plant(&mut chart);
        chart.setup.session_mut("League").date = day.parse().ok();
        let mut table = Vec::new();
        write_chart(&chart, &Mapping::default(), &mut table).unwrap();
        fs::write(folder.join(format!("{day} Larkfield league.csv")), table).unwrap();
    }
}

/// The habits, in the frame of the near player, who faces +y: how far from where the model has them.
fn plant(chart: &mut Chart) {
    for point in &mut chart.points {
        point.session = "League".to_owned();
        for shot in point.shots.iter_mut().filter(|shot| shot.hitter == End::Near) {
            let off = match (shot.wing, shot.contact.x) {
                (Some(Wing::Backhand), x) if x < -1.4 => dvec2(1.9, 0.0),
                (Some(Wing::Forehand), x) if x > 1.4 => dvec2(-1.9, 0.0),
                (Some(Wing::Forehand), x) if x < 0.0 => dvec2(0.0, -3.0),
                _ => DVec2::ZERO,
            };
            shot.stood = shot.stood.map(|stood| dvec2((stood + off).x, (stood + off).y.max(-17.5)));
        }
    }
}
