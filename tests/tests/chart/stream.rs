//! Files of any length: read in order on any number of cores, stopped without leaving files, with counts that add up.

use std::{
    io::{self, Read},
    sync::atomic::{AtomicBool, Ordering},
};

use standpoint_board::chart::{Chart, Setup};
use standpoint_charting::{
    audit::{AuditError, CollectedShots, Compare, Crew, Findings, Outcome, Watch},
    fit::Habits,
    import::{Mapping, RowReader, write_chart},
    invented::{self, Habit},
    report::{Passing, ReportJson, ReportModel, ShotWriter, ShotsCsv, summary_csv},
};
use standpoint_geometry::Level;

use crate::larkfield;

fn table(chart: &Chart) -> Vec<u8> {
    let mut table = Vec::new();
    write_chart(chart, &Mapping::default(), &mut table).unwrap();
    table
}

fn run(
    setup: &Setup,
    input: impl Read,
    threads: usize,
    stop: &AtomicBool,
) -> Result<(Findings, CollectedShots), AuditError> {
    let crew = Crew::new(setup, Compare::default(), threads)?;
    let reader = RowReader::new(input, &Mapping::default(), &setup.court)?;
    let mut kept = CollectedShots::default();
    let (findings, done) = crew.audit_rows_so_far(reader, &mut kept, &mut Watch { progress: &mut |_| (), stop })?;
    assert!(done || stop.load(Ordering::Relaxed));
    Ok((findings, kept))
}

#[test]
fn any_number_of_threads_gives_the_same_in_the_same_order() {
    let setup = larkfield(Level::Club);
    let chart = invented::chart(&setup, 8, 12, [Habit::EXPERT, Habit::MIDDLE]);
    let table = table(&chart);
    let runs = [1, 2, 5].map(|threads| run(&setup, table.as_slice(), threads, &AtomicBool::new(false)).unwrap());
    assert_eq!(runs[0], runs[1]);
    assert_eq!(runs[0], runs[2]);
    let lines: Vec<u64> = runs[0].1.shots.iter().filter_map(|shot| shot.origin.line).collect();
    assert_eq!(lines, (2..chart.shots() as u64 + 2).collect::<Vec<_>>());
}

#[test]
fn a_table_and_a_chart_of_the_same_points_say_the_same() {
    let setup = larkfield(Level::Club);
    let mut chart = invented::chart(&setup, 8, 6, [Habit::EXPERT, Habit::MIDDLE]);
    for point in &mut chart.points {
        point.shots.iter_mut().for_each(|shot| (shot.met, shot.opponent_place) = (None, None));
    }
    chart.tidy();
    let (mut from_table, _) = run(&setup, table(&chart).as_slice(), 2, &AtomicBool::new(false)).unwrap();
    let (mut from_chart, _) = crate::audited(&chart);
    for findings in [&mut from_table, &mut from_chart] {
        for shot in findings.players.iter_mut().flat_map(|section| &mut section.costliest) {
            shot.origin.line = None;
        }
    }
    let of = |findings: &Findings| findings.players.clone().map(|section| (section.all.judged(), section.recovery));
    assert_eq!(of(&from_table).map(|of| of.0), of(&from_chart).map(|of| of.0));
    let slopes = [&from_table, &from_chart].map(|findings| of(findings).map(|of| of.1.slope().unwrap().value));
    assert!((slopes[0][0] - slopes[1][0]).abs() < 1e-3 && (slopes[0][1] - slopes[1][1]).abs() < 1e-3, "{slopes:?}");
}

/// Every kind of shot and one bad row, and the counts of each.
#[test]
fn counts_add_up_whatever_became_of_the_shots() {
    let text = "point,hitter,contact_x,contact_y,landing_x,landing_y,met_x,met_y,stood_x,stood_y\n\
                1,near,3,-12,-3,9,-3.4,12.5,0.5,-13\n\
                1,near,3,-12,-3,12.6,,,0.5,-13\n\
                1,near,3,-12,0.3,-0.2,,,0.5,-13\n\
                1,near,3,-12,-4.8,9,,,0.5,-13\n\
                2,near,3,-12,-3,9,-3.4,12.5,,\n\
                2,near,3,-12,-3,9x,-3.4,12.5,0.5,-13\n\
                2,near,3,-12,-3,12.0,-3.4,13.5,0.5,-13\n\
                3,near,2.5,-2.5,,,-3.4,12.5,0.5,-3.5\n";
    let (findings, kept) = run(&larkfield(Level::Club), text.as_bytes(), 1, &AtomicBool::new(false)).unwrap();
    let all = &findings.players[0].all;
    assert_eq!((findings.rows, findings.bad_rows, findings.shots()), (8, 1, 7));
    assert_eq!((all.missed, all.not_seen, all.not_playable), ([1, 1, 1], 1, 0), "{:#?}", kept.shots);
    let counted = all.judged() + all.winners + all.no_reply + all.missed.iter().sum::<u64>() + all.not_seen;
    assert_eq!(counted + all.not_playable, all.shots);
    // The rally went on, so a ball noted a hand beyond the baseline was in.
    assert!(matches!(kept.shots[5].outcome, Outcome::Judged(_)), "{:?}", kept.shots[5]);
    // The ball was taken from the air: the landing is filled in.
    assert!(kept.shots[6].assumed.landing && kept.shots[6].judged().is_some(), "{:?}", kept.shots[6]);
}

#[test]
fn a_wish_to_stop_is_followed_within_a_batch() {
    let setup = larkfield(Level::Club);
    let chart = invented::chart(&setup, 8, 2, [Habit::EXPERT; 2]);
    let line = String::from_utf8(table(&chart)).unwrap();
    let (heading, rows) = line.split_once('\n').unwrap();
    let endless = io::Cursor::new(format!("{heading}\n")).chain(Endless { rows: rows.as_bytes().to_vec(), at: 0 });
    let stop = AtomicBool::new(false);
    let crew = Crew::new(&setup, Compare::default(), 2).unwrap();
    let reader = RowReader::new(endless, &Mapping::default(), &setup.court).unwrap();
    let mut kept = CollectedShots::default();
    let mut progress = |progress: standpoint_charting::audit::Progress| {
        assert!(progress.rows >= progress.shots + progress.bad && progress.bytes > 0);
        stop.store(true, Ordering::Relaxed);
    };
    let result = crew.audit_rows_so_far(reader, &mut kept, &mut Watch { progress: &mut progress, stop: &stop });
    let (findings, done) = result.unwrap();
    assert!(!done && findings.shots() as usize == kept.shots.len(), "what was done is kept");
    assert!(kept.shots.len() < 1100);
}

/// The same rows repeated without end.
struct Endless {
    rows: Vec<u8>,
    at: usize,
}

impl Read for Endless {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let rest = &self.rows[self.at..];
        let count = rest.len().min(out.len());
        out[..count].copy_from_slice(&rest[..count]);
        self.at = (self.at + count) % self.rows.len();
        Ok(count)
    }
}

#[test]
fn reports_are_sound_tables_and_objects() {
    let setup = larkfield(Level::Club);
    let chart = invented::chart(&setup, 8, 5, [Habit::EXPERT, Habit::MIDDLE]);
    let mut text = String::from_utf8(table(&chart)).unwrap();
    text.push_str("only one cell\n");
    let (mut shots, mut object) = (Vec::new(), Vec::new());
    let mut models = Vec::new();
    let mut csv = ShotsCsv::new(&mut shots);
    let mut json = ReportJson::new(&mut object).unwrap();
    let writers: [&mut dyn ShotWriter; 2] = [&mut csv, &mut json];
    for writer in writers {
        let crew = Crew::new(&setup, Compare::default(), 2).unwrap();
        let reader = RowReader::new(text.as_bytes(), &Mapping::default(), &setup.court).unwrap();
        let mut told = 0;
        let mut on_bad = |_: &standpoint_charting::import::BadRow| {
            told += 1;
            Ok(())
        };
        let mut sink = Passing { writer, habits: Habits::default(), on_bad: &mut on_bad };
        let mut watch = Watch { progress: &mut |_| (), stop: &AtomicBool::new(false) };
        let (findings, _) = crew.audit_rows_so_far(reader, &mut sink, &mut watch).unwrap();
        let model = ReportModel::new(&setup, &findings, &sink.habits);
        sink.writer.finish(&model).unwrap();
        assert_eq!(told, 1);
        models.push(model);
    }
    drop((csv, json));
    assert_eq!(models[0], models[1]);
    let shots = String::from_utf8(shots).unwrap();
    // The output has a row for each row of the file; that of the bad row says what is wrong.
    let mut reader = csv::Reader::from_reader(shots.as_bytes());
    let rows: Vec<_> = reader.records().collect::<Result<_, _>>().unwrap();
    assert_eq!(rows.len(), chart.shots() + 1);
    let last = rows.last().unwrap();
    assert_eq!(last.iter().filter(|cell| *cell == "bad_row").count(), 1);
    assert!(last.iter().next_back().unwrap().contains("the row has 1 cells"), "{last:?}");
    let object = String::from_utf8(object).unwrap();
    assert!(object.starts_with("{\n\"standpoint_audit\": 1,\n\"shots\": [\n{\"line\":2,"), "{object}");
    assert!(object.contains("\"bad_rows\": [{\"line\":") && object.contains("estimate of a model"), "{object}");
    assert!(!object.contains("NaN") && !object.contains("inf"));
    let mut summary = Vec::new();
    summary_csv(&models[0], &mut summary).unwrap();
    let summary = String::from_utf8(summary).unwrap();
    assert!(summary.contains("\nnear,stroke,topspin,") && summary.contains("\nfar,wing,backhand,"), "{summary}");
}
