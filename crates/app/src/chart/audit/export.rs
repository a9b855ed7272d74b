//! The audit as files.

use std::path::PathBuf;

use standpoint_board::chart::report::{ShotWriter as _, ShotsCsv, summary_csv};

use super::super::{Done, Paper, files, worker::Audited};

/// Writes the audit shot by shot, or group by group.
pub fn write(path: PathBuf, paper: Paper, audited: &Audited) -> Done {
    files::write(path, paper, |file| match paper {
        Paper::Summary => summary_csv(&audited.report, file),
        _ => {
            let mut csv = ShotsCsv::new(file);
            audited.shots.iter().try_for_each(|shot| csv.shot(shot))?;
            csv.finish(&audited.report)
        }
    })
}
