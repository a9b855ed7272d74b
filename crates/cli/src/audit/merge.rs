//! `audit --merge`: merges parts that were audited separately.

use std::{io::Write, path::Path};

use standpoint_board::{Units, store};
use standpoint_charting::{
    audit::{Summary, SummaryError, summary::SIZE_LIMIT},
    report::{ReportJson, ReportModel, ShotWriter as _, summary_csv},
};

use super::{AuditArgs, Files, text};
use crate::{
    EXIT_INPUT, EXIT_OK, complain,
    fault::{Fault, Stop},
    load::load_fault,
};

/// Merges parts and reports on the whole.
///
/// # Errors
/// A part that cannot be read or is of others, or an answer that cannot be written.
pub fn run(args: &AuditArgs, out: &mut dyn Write) -> Result<u8, Stop> {
    let mut whole: Option<Summary> = None;
    for path in &args.merge {
        let part = read(path)?;
        match &mut whole {
            None => whole = Some(part),
            Some(whole) => whole.merge(&part).map_err(|error| part_fault(path, &error))?,
        }
    }
    let Some(whole) = whole else { return Ok(EXIT_OK) };
    let report = whole.report();
    let mut files = Files::begin(args)?;
    let place = places(&args.merge);
    if let Err(error) = write(args, &whole, &report, &place, &mut files, out) {
        return Err(files.unwritten(error));
    }
    files.finish()?;
    if report.bad_rows == 0 {
        return Ok(EXIT_OK);
    }
    complain(&text::left_out(&place, report.bad_rows, report.rows));
    Ok(EXIT_INPUT)
}

fn write(
    args: &AuditArgs,
    whole: &Summary,
    report: &ReportModel,
    place: &str,
    files: &mut Files,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    if let Some(file) = &mut files.summary {
        summary_csv(report, file)?;
    }
    if let Some(file) = &mut files.part {
        whole.write(file)?;
    }
    let out: &mut dyn Write = match &mut files.answer {
        Some(file) => file,
        None => out,
    };
    if args.form.json {
        ReportJson::new(&mut *out)?.finish(report)
    } else {
        text::write(out, place, report, args.reading.units(Units::Metres))
    }
}

fn read(path: &Path) -> Result<Summary, Box<Fault>> {
    let bytes = store::load_bytes(path, SIZE_LIMIT).map_err(|error| load_fault(path, "summary", &error))?;
    Summary::read(&bytes).map_err(|error| part_fault(path, &error))
}

fn part_fault(path: &Path, error: &SummaryError) -> Box<Fault> {
    Fault::new("summary", &path.display().to_string(), error.to_string(), error.remedy())
}

/// Title of the merged parts.
fn places(parts: &[std::path::PathBuf]) -> String {
    match parts {
        [one] => one.display().to_string(),
        _ => format!("{} parts", parts.len()),
    }
}
