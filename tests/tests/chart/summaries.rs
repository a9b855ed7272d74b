//! Merged summaries of parts equal the summary of the whole to the last digit; and stopping keeps what is done.

use std::sync::atomic::{AtomicBool, Ordering};

use proptest::{collection::vec, prelude::*, sample::select};
use standpoint_board::chart::{Chart, Setup};
use standpoint_charting::{
    audit::{
        AuditedShot, CollectedShots, Compare, Crew, Findings, Outcome, Progress, Watch,
        summary::{Summary, SummaryError},
    },
    fit::Habits,
    import::{Mapping, RowReader, write_chart},
    invented::{self, Habit},
    report::{ReportModel, summary_csv},
    stats::{Line, Moments},
};
use standpoint_geometry::{AimError, Level};

use crate::{audited, larkfield};

fn gathered(setup: &Setup, shots: &[AuditedShot]) -> Summary {
    let (mut findings, mut habits) = (Findings::default(), Habits::default());
    for shot in shots {
        findings.add(shot);
        habits.add(shot);
    }
    findings.rows = shots.len() as u64;
    Summary::new(setup, &findings, &habits)
}

fn text(summary: &Summary) -> String {
    let mut out = Vec::new();
    summary.write(&mut out).unwrap();
    String::from_utf8(out).unwrap()
}

/// Audited shots of an invented session, with every outcome.
fn shots() -> (Chart, Vec<AuditedShot>) {
    let mut chart = invented::chart(&larkfield(Level::Club), 5, 14, [Habit::EXPERT, Habit::MIDDLE]);
    for (i, point) in chart.points.iter_mut().enumerate() {
        point.session = format!("Day {}", i % 5);
        if let (true, Some(shot)) = (i % 4 == 0, point.shots.last_mut()) {
            shot.stood = None;
        }
    }
    let mut shots = audited(&chart).1.shots;
    for (i, shot) in shots.iter_mut().enumerate().filter(|(i, _)| i % 7 == 0) {
        let by = i as f64 / 10.0;
        let aim = match i % 5 {
            0 => AimError::Net { by },
            1 => AimError::TooSlow { short_by: by },
            2 => AimError::Long { by },
            3 => AimError::VolleyFromBehind { by },
            _ => AimError::TooFast,
        };
        shot.outcome = Outcome::NotPlayable(aim.into());
    }
    (chart, shots)
}

/// Cuts shots between points and numbers the points of each part from 1, as the files of the parts would.
fn cut(shots: &[AuditedShot], places: &[usize]) -> Vec<Vec<AuditedShot>> {
    let last = shots.last().map_or(0, |shot| shot.origin.point_number);
    let mut bounds: Vec<u64> = places.iter().map(|place| *place as u64 % (last + 1)).collect();
    bounds.extend([0, last]);
    bounds.sort_unstable();
    let part = |pair: &[u64]| {
        let own = shots.iter().filter(|shot| (pair[0] + 1..=pair[1]).contains(&shot.origin.point_number));
        own.cloned()
            .map(|mut shot| {
                shot.origin.point_number -= pair[0];
                shot
            })
            .collect()
    };
    bounds.windows(2).map(part).collect()
}

#[test]
fn parts_put_together_are_the_whole_to_the_last_digit() {
    let (chart, shots) = shots();
    let whole = gathered(&chart.setup, &shots);
    // Many random cuts, in place of a property test: the sums are whole numbers, so all must agree.
    let mut dice: u64 = 11;
    for parts in 1..40usize {
        let places: Vec<usize> = (0..parts % 5)
            .map(|_| {
                dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                (dice >> 40) as usize
            })
            .collect();
        let mut merged = gathered(&chart.setup, &[]);
        for part in cut(&shots, &places) {
            // Through a file, as when read on another machine.
            let part = Summary::read(text(&gathered(&chart.setup, &part)).as_bytes()).unwrap();
            merged.merge(&part).unwrap();
        }
        assert_eq!(text(&merged), text(&whole), "{places:?}");
        assert_eq!(merged.report(), whole.report());
    }
}

#[test]
fn the_report_of_a_summary_is_that_of_the_audit() {
    let (chart, shots) = shots();
    let (mut findings, mut habits) = (Findings::default(), Habits::default());
    shots.iter().for_each(|shot| {
        findings.add(shot);
        habits.add(shot);
    });
    findings.rows = shots.len() as u64;
    let mut direct = ReportModel::new(&chart.setup, &findings, &habits);
    let summary = Summary::read(text(&Summary::new(&chart.setup, &findings, &habits)).as_bytes()).unwrap().report();
    for player in &mut direct.players {
        assert!(!player.costliest.is_empty() && !player.blocks.is_empty());
        player.blocks.clear();
        player.costliest.iter_mut().for_each(|moment| moment.line = None);
    }
    assert_eq!(summary, direct);
    let table = |report: &ReportModel| {
        let mut out = Vec::new();
        summary_csv(report, &mut out).unwrap();
        out
    };
    assert_eq!(table(&summary), table(&direct));
}

#[test]
fn what_is_no_summary_or_of_other_players_is_refused_with_the_reason() {
    let setup = larkfield(Level::Club);
    let summary = gathered(&setup, &[]);
    let refused = |text: &str| Summary::read(text.as_bytes()).unwrap_err();
    assert_eq!(refused(""), SummaryError::NotASummary);
    assert_eq!(refused("{\"shots\": []}"), SummaryError::NotASummary);
    assert_eq!(refused("{\"standpoint_summary\": 7, \"more\": 1}"), SummaryError::Newer { found: 7, known: 1 });
    let written = text(&summary);
    let shorter = refused(&written.replacen("\"bad_rows\":0", "\"bad_rows\":3", 1));
    assert!(matches!(&shorter, SummaryError::Damaged { reason } if reason.contains("add up")), "{shorter}");
    let digits = "0".repeat(64);
    assert!(matches!(refused(&written.replacen(&digits, "12", 1)), SummaryError::Damaged { .. }));
    let mut one = summary.clone();
    let mut other = summary.clone();
    other.setup.title = "Monday".to_owned();
    assert_eq!(one.merge(&other), Ok(()));
    other.setup.air.altitude_m = 2000.0;
    assert_eq!(one.merge(&other), Err(SummaryError::OtherPlayers));
    assert!(!SummaryError::OtherPlayers.remedy().is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    /// Any values, in any order, in any parts.
    #[test]
    fn sums_do_not_depend_on_the_order_or_the_parts(
        values in vec((-1e4..1e4f64, select(vec![1e-9, 1e-3, 1.0, 1e4])), 0..40),
        at in 0usize..40,
        turned in any::<bool>(),
    ) {
        let values: Vec<f64> = values.iter().map(|(value, scale)| value * scale).collect();
        let whole = Moments::of(values.iter().copied());
        let (a, b) = values.split_at(at.min(values.len()));
        let (mut first, second) = (Moments::of(a.iter().copied()), Moments::of(b.iter().rev().copied()));
        if turned {
            let mut swapped = second;
            swapped.merge(&first);
            first = swapped;
        } else {
            first.merge(&second);
        }
        prop_assert_eq!(first, whole);
        let line = |values: &[f64]| {
            let mut line = Line::default();
            values.windows(2).for_each(|pair| line.add(pair[0], pair[1]));
            line
        };
        let (mut left, right) = (line(a), line(b));
        left.merge(&right);
        if let (Some(before), Some(after)) = (a.last(), b.first()) {
            left.add(*before, *after);
        }
        prop_assert_eq!(left, line(&values));
    }

    /// Compared with the definition, computed in two passes for least rounding.
    #[test]
    fn means_and_deviations_are_what_their_definitions_say(values in vec(-50.0..50.0f64, 2..60), shift in -1e5..1e5f64) {
        let shifted: Vec<f64> = values.iter().map(|value| value + shift).collect();
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        let squares = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>();
        let moments = Moments::of(shifted);
        prop_assert!((moments.mean().unwrap() - mean - shift).abs() < 1e-8);
        prop_assert!((moments.deviation().unwrap() - (squares / (n - 1.0)).sqrt()).abs() < 1e-8);
    }
}

#[test]
fn stopping_keeps_what_is_done() {
    let setup = larkfield(Level::Club);
    let chart = invented::chart(&setup, 8, 80, [Habit::EXPERT, Habit::MIDDLE]);
    let mut table = Vec::new();
    write_chart(&chart, &Mapping::default(), &mut table).unwrap();
    let stop = AtomicBool::new(false);
    let crew = Crew::new(&setup, Compare::default(), 2).unwrap();
    let reader = RowReader::new(table.as_slice(), &Mapping::default(), &setup.court).unwrap();
    let mut kept = CollectedShots::default();
    let mut progress = |_: Progress| stop.store(true, Ordering::Relaxed);
    let mut watch = Watch { progress: &mut progress, stop: &stop };
    let (findings, done) = crew.audit_rows_so_far(reader, &mut kept, &mut watch).unwrap();
    assert!(!done && chart.shots() > 300);
    assert_eq!((findings.shots(), findings.rows), (256, 256));
    assert_eq!(kept.shots.len(), 256);
    let all = audited(&chart).1;
    assert!(kept.shots.iter().zip(&all.shots).all(|(a, b)| a.direction == b.direction && a.side == b.side));
}

#[test]
fn time_that_is_left_is_told_by_the_bytes() {
    let progress = Progress { rows: 10, shots: 8, bad: 2, bytes: 250 };
    assert_eq!(progress.left(1000, 3.0), Some(9.0));
    assert_eq!(progress.left(200, 3.0), Some(0.0));
    assert_eq!(Progress::default().left(1000, 3.0), None);
}
