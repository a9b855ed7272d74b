//! Points played by the model compared with the published tables.

use standpoint_geometry::worth::PlayedStroke;

use super::{
    PROFESSIONAL, played, solved,
    table::{Bin, bins, middle_eight_tenths, slope},
};

macro_rules! table {
    ($name:literal) => {
        include_str!(concat!("../../../data/rally/", $name, ".csv"))
    };
}

const BASELINE: f64 = 11.885;
/// Allowed difference of a stroke's worth from the published one, in points won.
const CLOSE: f64 = 0.04;
/// Allowed difference of the slopes, as a share.
const SLOPE: f64 = 1.0 / 3.0;

fn depth(s: &PlayedStroke) -> f64 {
    f64::from(s.contact[1]) - BASELINE
}

fn height(s: &PlayedStroke) -> f64 {
    f64::from(s.contact[2])
}

fn sideways(s: &PlayedStroke) -> f64 {
    f64::from(s.contact[0]).abs()
}

fn available(s: &PlayedStroke) -> f64 {
    f64::from(s.available)
}

/// Simulated strokes in a bin, the share won by the striker, and its standard error.
fn share(strokes: &[&PlayedStroke], bin: &Bin, of: fn(&PlayedStroke) -> f64) -> Option<(f64, f64)> {
    let inside = strokes.iter().filter(|s| bin.holds(of(s)));
    let n = inside.clone().count() as f64;
    let won = inside.filter(|s| s.won).count() as f64 / n;
    (n >= 50.0).then(|| (won, (won * (1.0 - won) / n).sqrt()))
}

/// Compares the simulated strokes with one table for men and women: every bin of the middle eight tenths, give or take
/// one standard error of the simulation, and the slope over them. All deviations are reported at once.
fn hold(table: &str, air: bool, of: fn(&PlayedStroke) -> f64) {
    let mut off = Vec::new();
    for (group, (_, name)) in PROFESSIONAL.iter().enumerate() {
        // The third stroke of the point and later, as the tables were counted.
        let strokes: Vec<&PlayedStroke> = played(group).iter().filter(|s| s.number >= 3 && s.air == air).collect();
        let compared: Vec<(Bin, f64, f64)> = middle_eight_tenths(&bins(table, name, "p_win"))
            .into_iter()
            .filter_map(|bin| share(&strokes, &bin, of).map(|(won, error)| (bin, won, error)))
            .collect();
        assert!(compared.len() >= 3, "{name}: {} bins with enough strokes", compared.len());
        for (bin, won, error) in &compared {
            if (won - bin.win).abs() > CLOSE + error {
                off.push(format!("{name} {:.1} to {:.1}: {won:.3} instead of {:.3}", bin.low, bin.high, bin.win));
            }
        }
        let real = slope(compared.iter().map(|(bin, ..)| (*bin, bin.win)));
        let ours = slope(compared.iter().map(|(bin, won, _)| (*bin, *won)));
        if (ours - real).abs() > SLOPE * real.abs() {
            off.push(format!("{name}: slope {ours:.4} instead of {real:.4}"));
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}

#[test]
fn a_groundstroke_is_worth_what_it_was_by_contact_depth() {
    hold(table!("ground_by_contact_depth"), false, depth);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn a_groundstroke_is_worth_what_it_was_by_contact_height() {
    hold(table!("ground_by_contact_height"), false, height);
}

#[test]
fn a_groundstroke_is_worth_what_it_was_by_time_available() {
    hold(table!("ground_by_time_available"), false, available);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn a_groundstroke_is_worth_what_it_was_by_sideways_place() {
    hold(table!("ground_by_contact_lateral"), false, sideways);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn a_volley_is_worth_what_it_was_by_contact_height() {
    hold(table!("volley_by_contact_height"), true, height);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn a_volley_is_worth_what_it_was_by_contact_depth() {
    hold(table!("volley_by_contact_depth"), true, depth);
}

#[test]
fn a_neutral_ball_is_worth_a_little_less_than_half() {
    // The striker of a groundstroke wins the point in 0.480 of cases (253,394 strokes, README of the tables). Neutral: the
    // middle four tenths of strokes by contact depth, sideways place and time available at once (`deciles.csv`, pooled).
    for (group, (_, name)) in PROFESSIONAL.iter().enumerate() {
        let neutral: Vec<f64> = (played(group).iter())
            .filter(|s| s.number >= 3 && !s.air)
            .filter(|s| (0.41..=1.755).contains(&depth(s)))
            .filter(|s| (1.859..=3.369).contains(&sideways(s)))
            .filter(|s| (1.289..=1.514).contains(&available(s)))
            .map(|s| f64::from(s.worth))
            .collect();
        assert!(neutral.len() > 300, "{name}: {} strokes", neutral.len());
        let mean = neutral.iter().sum::<f64>() / neutral.len() as f64;
        assert!((0.44..=0.50).contains(&mean), "{name}: {mean:.3}");
    }
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn an_unhurried_ball_is_worth_what_it_was_by_contact_depth() {
    // Unhurried by the table's count: own way under 3 m, over 1.2 s available, within 3 m of the middle.
    let mut off = Vec::new();
    for (group, (_, name)) in PROFESSIONAL.iter().enumerate() {
        let all = played(group);
        let calm: Vec<&PlayedStroke> = (2..all.len())
            .filter(|&i| {
                let (s, own) = (&all[i], &all[i - 2]);
                let way = (s.contact[0] - own.contact[0]).hypot(s.contact[1] - own.contact[1]);
                let same = own.point == s.point && own.striker == s.striker;
                s.number >= 3 && !s.air && same && way < 3.0 && s.available > 1.2 && s.contact[0].abs() < 3.0
            })
            .map(|i| &all[i])
            .collect();
        let bins = middle_eight_tenths(&bins(table!("unpressured_ground_by_contact_depth"), name, "p_win"));
        assert!(bins.len() >= 3);
        for bin in bins {
            let (won, error) = share(&calm, &bin, depth).expect("enough strokes");
            if (won - bin.win).abs() > CLOSE + error {
                off.push(format!("{name} {:.1} to {:.1}: {won:.3} instead of {:.3}", bin.low, bin.high, bin.win));
            }
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}

#[test]
fn a_first_serve_beats_a_second() {
    // Points won: men 0.700 on first serves in, 0.502 on second ones with double faults; women 0.628 and 0.455 (`points.csv`).
    for (level, group) in PROFESSIONAL {
        for ad in [false, true] {
            let [first, second] = solved(level).serve(0, ad).expect("a court with boxes").worth;
            assert!(first > second + 0.02, "{group}: first {first:.3}, second {second:.3}");
        }
    }
}
