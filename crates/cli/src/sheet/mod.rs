//! `sheet`: sheets to print, pictures and animations of boards, whole folders at once.

mod args;
mod plan;

use std::{io::Write, path::Path};

use standpoint_board::{Board, store};
use standpoint_export::{
    make::{self, MakeError},
    offscreen_canvas::OffscreenCanvas,
};
use standpoint_language::Language;
use standpoint_language::speak;
use standpoint_workbench::{
    session::Session,
    wanted::{Format, Look},
};

use self::{
    args::Picked,
    plan::{Plan, Source},
};
use super::{
    complain,
    fault::{Fault, Stop, line},
    load::read_board,
    output,
};

pub use args::SheetArgs;

/// Makes the requested files; returns whether all could be made. The path of every file goes
/// to standard output, progress to standard error.
///
/// # Errors
/// A command line that asks for what makes no sense, or an output that cannot be written.
pub fn run(args: &SheetArgs, out: &mut dyn Write) -> Result<bool, Stop> {
    let look = args.look();
    let plan = Plan::new(args)?;
    let mut canvas = OffscreenCanvas::new().map_err(|error| {
        Fault::new("program", "standpoint", error.to_string(), "This is a fault of the program; please report it.")
    })?;
    let mut sound = true;
    let mut sources = Vec::new();
    for file in &plan.files {
        match read_board(file).and_then(|board| wanted(board, file, args)) {
            Ok(source) => sources.push(source),
            Err(fault) => {
                sound = false;
                fault.lines.iter().for_each(|line| complain(line));
            }
        }
    }
    if sources.is_empty() {
        return Ok(false);
    }
    let language = args.language;
    let jobs = spoken(language, || plan.jobs(sources));
    let count = jobs.len();
    for (i, job) in jobs.into_iter().enumerate() {
        if count > 1 {
            complain(&format!("[{:>width$}/{count}] {}", i + 1, job.path.display(), width = count.to_string().len()));
        }
        match spoken(language, || made(&mut canvas, &job, &look)) {
            Ok(bytes) => {
                output::tell_of_names(&job.path);
                match store::save_data(&job.path, &bytes) {
                    Ok(()) => writeln!(out, "{}", job.path.display())?,
                    Err(error) => {
                        sound = false;
                        complain(&line(&job.path.display().to_string(), &error.to_string(), error.remedy()));
                    }
                }
            }
            Err(error) => {
                sound = false;
                complain(&line(&job.place(), &error.to_string(), error.remedy()));
            }
        }
        // Flushed, so that both streams stay in order on one terminal.
        out.flush()?;
    }
    Ok(sound)
}

/// Runs something in a language, then switches back to English.
fn spoken<T>(language: Language, something: impl FnOnce() -> T) -> T {
    speak(language);
    let done = something();
    speak(Language::English);
    done
}

/// The board with the requested pages.
fn wanted(mut board: Board, file: &Path, args: &SheetArgs) -> Result<Source, Box<Fault>> {
    board.units = args.reading.units(board.units);
    let pages = match &args.pages {
        None => (0..board.pages.len()).collect(),
        Some(Picked(picked)) => {
            if let Some(missing) = picked.iter().find(|page| **page >= board.pages.len()) {
                let what = format!("there is no page {}", missing + 1);
                let remedy = format!("The board has {}; choose --pages among them.", counted(board.pages.len()));
                return Err(Fault::new("not_there", &file.display().to_string(), what, remedy));
            }
            picked.clone()
        }
    };
    Ok(Source { file: file.to_owned(), board, pages })
}

fn counted(pages: usize) -> String {
    if pages == 1 { "1 page".to_owned() } else { format!("{pages} pages") }
}

fn made(canvas: &mut OffscreenCanvas, job: &plan::Job, look: &Look) -> Result<Vec<u8>, MakeError> {
    match (job.format, job.boards.as_slice()) {
        (Format::Pdf, boards) => make::pdf(canvas, boards, &job.title, look),
        (format, [(board, pages)]) => {
            let mut session = Session::new(board.clone(), None);
            make::page(canvas, &mut session, pages.first().copied().unwrap_or(0), format, look)
        }
        // The plan asks for one page per picture.
        (_, _) => Err(MakeError::NoRally(1)),
    }
}
