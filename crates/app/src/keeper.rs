//! Unsaved work is kept: a copy every few seconds after a change, offered again after a crash.

use std::{
    fs,
    path::{Path, PathBuf},
    time::{SystemTime, UNIX_EPOCH},
};

use egui::Context;
use standpoint_board::{
    Board,
    lock::{self, Claimed, FileClaim, Holder},
    recovery_copy::{About, Act, Autosave, EVERY_S, Left, RecoveryCopy, RecoveryError, RecoveryWriter, find_left},
};
use standpoint_language::tr;

use crate::session::Session;

/// Where a fault of the program is written down.
const REPORT: &str = "fault.log";
/// The last report that has been told.
const TOLD: &str = "fault-told.log";

/// Keeps copies of unsaved work and claims the file being worked on.
#[derive(Default)]
pub struct Keeper {
    /// Where copies and claims are; nowhere when there is no place.
    folder: Option<PathBuf>,
    writer: Option<RecoveryWriter>,
    autosave: Autosave,
    claim: Option<FileClaim>,
    /// What went wrong last and has been said.
    said: Option<String>,
}

/// The time, s since the beginning of 1970.
#[must_use]
pub fn now() -> f64 {
    SystemTime::now().duration_since(UNIX_EPOCH).map_or(0.0, |d| d.as_secs_f64())
}

impl Keeper {
    /// Keeps copies in this folder.
    #[must_use]
    pub fn new(folder: Option<PathBuf>) -> Self {
        Self { folder, ..Self::default() }
    }

    /// Where copies, claims and histories are; nowhere when there is no place.
    #[must_use]
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    fn copies(&self) -> Option<PathBuf> {
        self.folder.as_deref().map(copies)
    }

    /// Copies left by windows that did not close in peace.
    #[must_use]
    pub fn left(&self) -> Vec<Left> {
        self.copies().map(|folder| find_left(&folder, now())).unwrap_or_default()
    }

    /// The report of a fault that has not been told yet; from now on it has been.
    #[must_use]
    pub fn fault(&self) -> Option<PathBuf> {
        let folder = self.folder.as_deref()?;
        let told = folder.join(TOLD);
        fs::rename(folder.join(REPORT), &told).ok().map(|()| told)
    }

    /// Looks whether a copy is due. Something that went wrong comes back once, in words.
    pub fn frame(&mut self, ctx: &Context, session: &Session) -> Option<String> {
        self.folder.as_ref()?;
        let history = session.history();
        let seconds = ctx.input(|i| i.time);
        match self.autosave.asked(seconds, history.revision(), history.is_saved()) {
            Act::Nothing => {}
            Act::Keep => {
                if let Err(problem) = self.keep(ctx, session) {
                    self.autosave.failed();
                    return self.once(problem);
                }
            }
            Act::Remove => {
                if let Some(writer) = &self.writer {
                    writer.remove();
                }
            }
        }
        if let Some(wait) = self.autosave.wait_s(seconds) {
            ctx.request_repaint_after_secs(wait as f32 + 0.02);
        }
        let problem = self.writer.as_ref().and_then(|writer| writer.written().problem)?;
        let said = self.once(problem);
        if said.is_some() {
            self.autosave.failed();
        }
        said
    }

    fn once(&mut self, problem: String) -> Option<String> {
        (self.said.as_ref() != Some(&problem)).then(|| {
            self.said = Some(problem.clone());
            tr!("Unsaved work cannot be kept for a crash: {}", problem)
        })
    }

    fn keep(&mut self, ctx: &Context, session: &Session) -> Result<(), String> {
        if self.writer.is_none() {
            let folder = self.copies().unwrap_or_default();
            let copy = RecoveryCopy::open(&folder).map_err(|e| format!("{e}. {}", e.remedy()))?;
            self.writer = Some(writer(ctx, copy)?);
        }
        if let Some(writer) = &self.writer {
            let about = About { original: session.path().map(Path::to_owned), kept_at: now() };
            writer.keep(session.board().clone(), about);
        }
        Ok(())
    }

    /// Another board is in place: the copy of the former one goes with it.
    pub fn replaced(&mut self) {
        self.autosave = Autosave::default();
        if let Some(writer) = &self.writer {
            writer.remove();
        }
    }

    /// Takes a left copy over: its board, and the copy as this window's own.
    ///
    /// # Errors
    ///
    /// In words, with the remedy.
    pub fn restore(&mut self, ctx: &Context, left: &Left) -> Result<Board, String> {
        let words = |e: RecoveryError| format!("{e}. {}", e.remedy());
        let (board, copy) = left.restore().map_err(words)?;
        if let Some(former) = self.writer.replace(writer(ctx, copy)?) {
            former.close();
        }
        Ok(board)
    }

    /// The restored board stands in the session now.
    pub fn restored(&mut self, session: &Session) {
        self.autosave = Autosave::restored(EVERY_S, session.history().revision());
    }

    /// Claims a file for this window; who has it when it is another one.
    pub fn claim(&mut self, path: &Path) -> Option<Holder> {
        let folder = self.folder.as_ref()?.join("open");
        // The former claim goes first: it may be one of the same file.
        self.claim = None;
        match lock::claim(&folder, path, "another window", now()) {
            Claimed::Ours(claim) => {
                self.claim = Some(claim);
                None
            }
            Claimed::Theirs(holder) => Some(holder),
            Claimed::Unguarded(_) => None,
        }
    }

    /// Gives the claim back: the board has no file any more.
    pub fn unclaim(&mut self) {
        self.claim = None;
    }

    /// The window is closed in peace.
    pub fn close(&mut self) {
        if let Some(writer) = self.writer.take() {
            writer.close();
        }
        self.claim = None;
    }

    /// The program comes to an end it did not want: what is not saved is written now.
    pub fn last_words(&mut self, ctx: &Context, session: &Session) {
        if self.folder.is_some() && !session.history().is_saved() && self.keep(ctx, session).is_ok() {
            // Dropping waits until it is written, and leaves the copy.
            self.writer = None;
        }
    }
}

fn copies(folder: &Path) -> PathBuf {
    folder.join("unsaved")
}

fn writer(ctx: &Context, copy: RecoveryCopy) -> Result<RecoveryWriter, String> {
    let ctx = ctx.clone();
    RecoveryWriter::start(copy, move |_| ctx.request_repaint()).map_err(|e| e.to_string())
}

/// Writes faults of the program down before it ends.
pub fn report_faults(folder: Option<&Path>) {
    let Some(folder) = folder.map(Path::to_owned) else { return };
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |fault| {
        let backtrace = std::backtrace::Backtrace::force_capture();
        let version = env!("CARGO_PKG_VERSION");
        let report = format!("Standpoint {version} stopped at {:.0} s since 1970.\n{fault}\n{backtrace}\n", now());
        // Nothing is left to turn to when this fails.
        let _ = fs::create_dir_all(&folder).and_then(|()| fs::write(folder.join(REPORT), report));
        usual(fault);
    }));
}
