//! Crash copies: unsaved work is copied every few seconds after a change, and offered again after a crash.

use std::{
    path::{Path, PathBuf},
    time::{SystemTime, UNIX_EPOCH},
};

use egui::Context;
use standpoint_board::{
    lock::{self, Claimed, FileClaim, Holder},
    recovery_copy::{
        About, Act, Autosave, EVERY_S, Kind, Left, RecoveryCopy, RecoveryError, RecoveryWriter, Work, find_left,
    },
};
use standpoint_language::{text, tr};
use standpoint_workbench::{chart::ChartSource, document::Document};

/// Keeps copies of unsaved work and claims the file being worked on.
#[derive(Default)]
pub struct CrashRecovery {
    /// Folder of copies and claims, if there is one.
    folder: Option<PathBuf>,
    board: Slot,
    chart: Slot,
    claim: Option<FileClaim>,
    /// The last problem that was reported.
    said: Option<String>,
}

/// The copy of one kind of work of the window.
#[derive(Default)]
struct Slot {
    writer: Option<RecoveryWriter>,
    autosave: Autosave,
}

/// The current work: the board with its notes, or the notes that are in a file of their own.
#[derive(Clone, Copy)]
struct Now<'a> {
    kind: Kind,
    document: &'a Document,
    notes: &'a ChartSource,
}

impl Now<'_> {
    fn revision(&self) -> u64 {
        match self.kind {
            Kind::Board => self.document.revision(),
            Kind::Chart => self.notes.notes.version(),
        }
    }

    fn is_saved(&self) -> bool {
        match self.kind {
            Kind::Board => self.document.is_saved(),
            Kind::Chart => self.notes.is_saved(),
        }
    }

    fn original(&self) -> Option<&Path> {
        match self.kind {
            Kind::Board => self.document.path(),
            Kind::Chart => self.notes.path.as_deref(),
        }
    }

    fn work(&self) -> Work {
        match self.kind {
            Kind::Board => self.document.whole().into(),
            Kind::Chart => self.notes.notes.chart().into(),
        }
    }
}

/// The time, s since the beginning of 1970.
#[must_use]
pub fn now() -> f64 {
    SystemTime::now().duration_since(UNIX_EPOCH).map_or(0.0, |d| d.as_secs_f64())
}

impl CrashRecovery {
    /// Keeps copies in this folder.
    #[must_use]
    pub fn new(folder: Option<PathBuf>) -> Self {
        Self { folder, ..Self::default() }
    }

    /// Folder of copies, claims and histories, if there is one.
    #[must_use]
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    fn copies(&self) -> Option<PathBuf> {
        self.folder.as_deref().map(copies)
    }

    /// Copies left by windows that crashed.
    #[must_use]
    pub fn left(&self) -> Vec<Left> {
        self.copies().map(|folder| find_left(&folder, now())).unwrap_or_default()
    }

    /// The report of a fault that has not been shown yet; marks it as shown.
    #[must_use]
    pub fn fault(&self) -> Option<PathBuf> {
        crate::faults::unreported(self.folder.as_deref()?)
    }

    fn slot(&mut self, kind: Kind) -> &mut Slot {
        match kind {
            Kind::Board => &mut self.board,
            Kind::Chart => &mut self.chart,
        }
    }

    /// Writes a copy if one is due. Returns a new problem once, in words.
    pub fn frame(&mut self, ctx: &Context, document: &Document, notes: &ChartSource) -> Option<String> {
        let folder = self.copies()?;
        let mut said = None;
        for kind in [Kind::Board, Kind::Chart] {
            let problem = self.slot(kind).frame(ctx, &folder, Now { kind, document, notes });
            if let Some(words) = problem.and_then(|problem| self.once(problem)) {
                self.slot(kind).autosave.failed();
                said = Some(words);
            }
        }
        said
    }

    fn once(&mut self, problem: String) -> Option<String> {
        (self.said.as_ref() != Some(&problem)).then(|| {
            self.said = Some(problem.clone());
            tr!("Unsaved work cannot be kept for a crash: {}", problem)
        })
    }

    /// Another board was opened: removes the copy of the former one.
    pub fn replaced(&mut self) {
        self.board.autosave = Autosave::default();
        if let Some(writer) = &self.board.writer {
            writer.remove();
        }
    }

    /// Takes over a left copy: returns its work, and makes the copy this window's own.
    ///
    /// # Errors
    ///
    /// In words, with the remedy.
    pub fn restore(&mut self, ctx: &Context, left: &Left) -> Result<Work, String> {
        let words = |e: RecoveryError| format!("{e}. {}", e.remedy());
        let (work, copy) = left.restore().map_err(words)?;
        if let Some(former) = self.slot(left.kind).writer.replace(writer(ctx, copy)?) {
            former.close();
        }
        Ok(work)
    }

    /// The restored work is in place.
    pub fn restored(&mut self, kind: Kind, document: &Document, notes: &ChartSource) {
        let revision = Now { kind, document, notes }.revision();
        self.slot(kind).autosave = Autosave::restored(EVERY_S, revision);
    }

    /// Claims a file for this window; returns the holder if another window has it.
    pub fn claim(&mut self, path: &Path) -> Option<Holder> {
        let folder = self.folder.as_ref()?.join("open");
        // Drops the former claim first: it may be for the same file.
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

    /// Releases the claim: the board has no file any more.
    pub fn unclaim(&mut self) {
        self.claim = None;
    }

    /// The window closes normally.
    pub fn close(&mut self) {
        for writer in [self.board.writer.take(), self.chart.writer.take()].into_iter().flatten() {
            writer.close();
        }
        self.claim = None;
    }

    /// The program stops after a fault: writes unsaved work now, and returns what happened to it.
    pub fn last_words(&mut self, ctx: &Context, document: &Document, notes: &ChartSource) -> Vec<String> {
        let unsaved = [Kind::Board, Kind::Chart].map(|kind| Now { kind, document, notes });
        let unsaved: Vec<Now<'_>> = unsaved.into_iter().filter(|now| !now.is_saved()).collect();
        if unsaved.is_empty() {
            return vec![text("Everything was saved; nothing is lost.").to_owned()];
        }
        let Some(folder) = self.copies() else {
            return vec![text("The latest changes are lost: there is no folder to keep them in.").to_owned()];
        };
        let said = unsaved.into_iter().map(|now| match self.slot(now.kind).last(ctx, &folder, now) {
            Ok(()) => match now.kind {
                Kind::Board => text("Your board is kept and is offered when the program starts again.").to_owned(),
                Kind::Chart => text("Your chart is kept and is offered when the program starts again.").to_owned(),
            },
            Err(problem) => tr!("The latest changes could not be kept: {}", problem),
        });
        said.collect()
    }
}

impl Slot {
    /// Writes the copy if it is due; returns a problem.
    fn frame(&mut self, ctx: &Context, folder: &Path, now: Now<'_>) -> Option<String> {
        let seconds = ctx.input(|i| i.time);
        match self.autosave.asked(seconds, now.revision(), now.is_saved()) {
            Act::Nothing => {}
            Act::Keep => {
                if let Err(problem) = self.keep(ctx, folder, now) {
                    self.autosave.failed();
                    return Some(problem);
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
        self.writer.as_ref().and_then(|writer| writer.written().problem)
    }

    /// Writes the copy, waits until it is on disk, and leaves it there.
    fn last(&mut self, ctx: &Context, folder: &Path, now: Now<'_>) -> Result<(), String> {
        self.keep(ctx, folder, now)?;
        let Some(writer) = self.writer.take() else { return Ok(()) };
        writer.finish();
        writer.written().problem.map_or(Ok(()), Err)
    }

    fn keep(&mut self, ctx: &Context, folder: &Path, now: Now<'_>) -> Result<(), String> {
        if self.writer.is_none() {
            let copy = RecoveryCopy::open(folder, now.kind).map_err(|e| format!("{e}. {}", e.remedy()))?;
            self.writer = Some(writer(ctx, copy)?);
        }
        if let Some(writer) = &self.writer {
            let about = About { original: now.original().map(Path::to_owned), kept_at: self::now() };
            writer.keep(now.work(), about);
        }
        Ok(())
    }
}

fn copies(folder: &Path) -> PathBuf {
    folder.join("unsaved")
}

fn writer(ctx: &Context, copy: RecoveryCopy) -> Result<RecoveryWriter, String> {
    let ctx = ctx.clone();
    RecoveryWriter::start(copy, move |_| ctx.request_repaint()).map_err(|e| e.to_string())
}
