//! The audit as files.

use std::path::PathBuf;

use standpoint_board::{Units, chart::Setup};
use standpoint_charting::report::{ShotWriter as _, ShotsCsv, summary_csv};
use standpoint_sheet::Paper as Sheet;
use standpoint_workbench::chart::{ChartFile, Done, files, worker::Audited};

use crate::report::PdfReport;

/// Writes the audit shot by shot, group by group, or as a report for printing.
pub fn write(path: PathBuf, paper: ChartFile, on: Sheet, audited: &Audited, setup: &Setup, units: Units) -> Done {
    files::write(path, paper, |file| match paper {
        ChartFile::Summary => summary_csv(&audited.report, file),
        ChartFile::Report => {
            let mut pdf = PdfReport::new(file, setup, units, on);
            audited.shots.iter().try_for_each(|shot| pdf.shot(shot))?;
            pdf.finish(&audited.report)
        }
        _ => {
            let mut csv = ShotsCsv::new(file);
            audited.shots.iter().try_for_each(|shot| csv.shot(shot))?;
            csv.finish(&audited.report)
        }
    })
}
