//! The audit as files.

use std::path::PathBuf;

use standpoint_board::{
    Board, Units,
    chart::{Chart, Setup},
};
use standpoint_charting::{
    pictures::{Kind, Picture},
    report::{ShotWriter as _, ShotsCsv, summary_csv},
    scouting,
};
use standpoint_geometry::End;
use standpoint_language::text;
use standpoint_sheet::Paper as Sheet;
use standpoint_workbench::{
    chart::{ChartFile, Done, files, worker::Audited},
    wanted::Look,
};

use crate::{
    make,
    offscreen_canvas::OffscreenCanvas,
    pictures::{PicturePress, bytes},
    report::PdfReport,
    scout,
};

/// Writes the pages of a board as sheets of drills.
pub fn drills(path: PathBuf, board: &Board, look: &Look) -> Done {
    let pages = (0..board.pages.len()).collect();
    let bytes = OffscreenCanvas::new().map_err(|error| error.to_string()).and_then(|mut canvas| {
        make::pdf(&mut canvas, &[(board.clone(), pages)], &board.title, look)
            .map_err(|error| format!("{error}. {}", error.remedy()))
    });
    match bytes {
        Ok(bytes) => files::made(path, ChartFile::Drills, &bytes),
        Err(problem) => Done::Written(path, Err(problem)),
    }
}

/// Writes a scouting sheet about a player of the chart that was audited.
pub fn scouting(path: PathBuf, on: Sheet, audited: &Audited, chart: &Chart, player: End) -> Done {
    let profile = scouting::profile(chart, &audited.shots, player);
    let made = scout::document(&profile, &chart.setup, on).and_then(|document| document.to_pdf());
    match made {
        Ok(bytes) => files::made(path, ChartFile::Scouting, &bytes),
        Err(error) => Done::Written(path, Err(error.to_string())),
    }
}

/// Writes pictures of a player's shots: one kind, or all that there are enough shots for.
pub fn pictures(path: PathBuf, audited: &Audited, setup: &Setup, units: Units, of: (End, Option<Kind>)) -> Done {
    let (player, kind) = of;
    let all = audited.pictures.player(player).iter();
    let wanted: Vec<&Picture> =
        all.filter(|picture| kind.is_none_or(|kind| picture.kind == kind) && picture.tells()).collect();
    if wanted.is_empty() {
        return Done::Written(path, Err(text("There are too few shots for a picture.").to_owned()));
    }
    let court = setup.court.court();
    let png = path.extension().is_none_or(|ending| !ending.eq_ignore_ascii_case("svg"));
    let title = setup.card(player).name.clone();
    let made = PicturePress::new().map_err(|error| error.to_string()).and_then(|mut press| {
        let columns = if wanted.len() == 1 { 1 } else { 3 };
        let drawing = press.drawing(&wanted, &court, units, (columns, WIDTH));
        bytes(&drawing, png, &title).map_err(|error| error.to_string())
    });
    match made {
        Ok(bytes) => files::made(path, ChartFile::Pictures, &bytes),
        Err(problem) => Done::Written(path, Err(problem)),
    }
}

/// Width of a picture in a file of its own, points.
const WIDTH: f32 = 320.0;

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
