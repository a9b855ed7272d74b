//! File work on threads of its own: dialogs, reading and writing.

use std::{
    future::Future,
    path::{Path, PathBuf},
    pin::pin,
    sync::{
        Arc,
        mpsc::{Receiver, Sender, channel},
    },
    task::{Context as TaskContext, Poll, Wake, Waker},
    thread::{self, Thread},
    time::{Duration, Instant},
};

use standpoint_board::{
    Board,
    library::Library,
    problem::Report,
    store::{self, LoadError, SaveError, Stamp},
};
use standpoint_export::make::Preview;
use standpoint_language::text;
use standpoint_workbench::{chart::ChartFile, wanted::Export};

use crate::dialogs::path::Purpose;

/// The ending of board files.
pub const ENDING: &str = "standpoint";
/// A dialog that is dismissed faster than a person could was never shown.
const TOO_QUICK: Duration = Duration::from_millis(400);

/// State of a file when it was last read or written; `None` for a new one.
pub type Stamped = Option<Stamp>;

/// Why a board was not written.
#[derive(Debug)]
pub enum NotWritten {
    /// The file has changed or is gone.
    Changed {
        /// In words.
        said: String,
        /// Whether the file still exists.
        there: bool,
    },
    /// The new file is in its place, but the disk did not confirm it.
    Unconfirmed(Stamped, Vec<String>),
    /// Anything else, each with its remedy.
    Failed(Vec<String>),
}

/// A board was saved.
pub struct Saved {
    /// State of the file.
    pub stamp: Stamp,
    /// Whether it had other names (hard links), which keep the former board.
    pub parted: bool,
}

/// Result of file work.
pub enum Done {
    /// A file was chosen.
    Picked(Purpose, PathBuf),
    /// The dialog was cancelled.
    Dismissed,
    /// Something with a file of the chart room.
    Chart(standpoint_workbench::chart::Done),
    /// The library was read.
    Library(Arc<Library>),
    /// There is no dialog service.
    NoDialog(Purpose),
    /// A file was read.
    Read(PathBuf, Result<(Box<Board>, Stamp), Vec<String>>),
    /// A board was written.
    Written(PathBuf, Box<Board>, Result<Saved, NotWritten>),
    /// A preview of an export was made, or why not.
    Previewed(Box<(Export, usize)>, Result<Preview, String>),
    /// Exports were made: their paths, or the reason they failed.
    Exported(Result<Vec<PathBuf>, Vec<String>>),
}

/// The work in hand.
pub struct Files {
    sender: Sender<Done>,
    receiver: Receiver<Done>,
    in_hand: usize,
}

impl Default for Files {
    fn default() -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver, in_hand: 0 }
    }
}

impl Files {
    /// Whether work is in progress.
    #[must_use]
    pub fn busy(&self) -> bool {
        self.in_hand > 0
    }

    /// Results since the last call.
    pub fn done(&mut self) -> Vec<Done> {
        let done: Vec<Done> = self.receiver.try_iter().collect();
        self.in_hand = self.in_hand.saturating_sub(done.len());
        done
    }

    /// Asks for a file. Without a dialog service the answer is [`Done::NoDialog`].
    pub fn ask(&mut self, ctx: &egui::Context, purpose: Purpose, suggested: &Path) {
        if !dialog_service() {
            self.start(ctx, move || Done::NoDialog(purpose));
            return;
        }
        let (kind, endings): (&str, &[&str]) = match purpose {
            Purpose::Chart(paper) => paper.kind(),
            Purpose::Export(format) => (format.label(), &[format.ending()]),
            _ => (text("Standpoint board"), &[ENDING, "ron"]),
        };
        let mut dialog = rfd::AsyncFileDialog::new().add_filter(kind, endings);
        if let Some(dir) = suggested.parent().filter(|dir| dir.is_dir()) {
            dialog = dialog.set_directory(dir);
        }
        let began = Instant::now();
        let answer: std::pin::Pin<Box<dyn Future<Output = Option<rfd::FileHandle>> + Send>> = match purpose {
            Purpose::Chart(ChartFile::Season | ChartFile::Roster) => Box::pin(dialog.pick_folder()),
            Purpose::Chart(paper) if !paper.is_written() => Box::pin(dialog.pick_file()),
            Purpose::Open => Box::pin(dialog.pick_file()),
            Purpose::OwnFolder => Box::pin(dialog.pick_folder()),
            Purpose::Save | Purpose::Chart(_) | Purpose::Export(_) => {
                let name = suggested.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
                Box::pin(dialog.set_file_name(name).save_file())
            }
        };
        self.start(ctx, move || match wait(answer) {
            Some(handle) => Done::Picked(purpose, handle.path().to_owned()),
            None if began.elapsed() < TOO_QUICK => Done::NoDialog(purpose),
            None => Done::Dismissed,
        });
    }

    /// Reads the teaching boards, those of a folder too.
    pub fn read_library(&mut self, ctx: &egui::Context, own: Option<PathBuf>) {
        self.start(ctx, move || {
            let shipped = Library::shipped();
            Done::Library(Arc::new(match own {
                Some(folder) => shipped.with_folder(&folder),
                None => shipped,
            }))
        });
    }

    /// Works on a file of the chart room.
    pub fn start_chart(
        &mut self,
        ctx: &egui::Context,
        work: impl FnOnce() -> standpoint_workbench::chart::Done + Send + 'static,
    ) {
        self.start(ctx, || Done::Chart(work()));
    }

    /// Makes sheets or pictures.
    pub fn export(
        &mut self,
        ctx: &egui::Context,
        work: impl FnOnce() -> Result<Vec<PathBuf>, Vec<String>> + Send + 'static,
    ) {
        self.start(ctx, move || Done::Exported(work()));
    }

    /// Makes a preview of an export.
    pub fn preview(
        &mut self,
        ctx: &egui::Context,
        of: (Export, usize),
        work: impl FnOnce() -> Result<Preview, String> + Send + 'static,
    ) {
        self.start(ctx, move || Done::Previewed(Box::new(of), work()));
    }

    /// Reads a board.
    pub fn read(&mut self, ctx: &egui::Context, path: PathBuf) {
        self.start(ctx, move || {
            let board = read_board(&path).map(|(board, stamp)| (Box::new(board), stamp));
            Done::Read(path, board)
        });
    }

    /// Writes a board, unless the file has changed from `expected`; `None` overwrites any file.
    pub fn write(&mut self, ctx: &egui::Context, path: PathBuf, board: Board, expected: Stamped) {
        self.start(ctx, move || {
            let parted = store::other_names(&path) > 0;
            let result = write_board(&path, &board, expected).map(|stamp| Saved { stamp, parted });
            Done::Written(path, Box::new(board), result)
        });
    }

    fn start(&mut self, ctx: &egui::Context, work: impl FnOnce() -> Done + Send + 'static) {
        self.in_hand += 1;
        let (sender, ctx) = (self.sender.clone(), ctx.clone());
        thread::spawn(move || {
            // The receiver is gone if the window was closed meanwhile.
            let _ = sender.send(work());
            ctx.request_repaint();
        });
    }
}

/// Whether the desktop may have a dialog service: elsewhere than on Linux it always has.
fn dialog_service() -> bool {
    if !cfg!(target_os = "linux") {
        return true;
    }
    let bus = std::env::var_os("DBUS_SESSION_BUS_ADDRESS").is_some();
    bus || std::env::var_os("XDG_RUNTIME_DIR").is_some_and(|dir| Path::new(&dir).join("bus").exists())
}

/// Wakes the thread that waits for a future.
struct Unpark(Thread);

impl Wake for Unpark {
    fn wake(self: Arc<Self>) {
        self.0.unpark();
    }
}

/// Waits for a future on this thread.
fn wait<T>(future: impl Future<Output = T>) -> T {
    let mut future = pin!(future);
    let waker = Waker::from(Arc::new(Unpark(thread::current())));
    let mut context = TaskContext::from_waker(&waker);
    loop {
        match future.as_mut().poll(&mut context) {
            Poll::Ready(value) => return value,
            Poll::Pending => thread::park(),
        }
    }
}

/// The path with the ending of board files, when it has none.
#[must_use]
pub fn with_ending(path: PathBuf) -> PathBuf {
    if path.extension().is_some() { path } else { path.with_extension(ENDING) }
}

/// Reads a board, or says everything that is wrong with it, each with its remedy.
fn read_board(path: &Path) -> Result<(Board, Stamp), Vec<String>> {
    store::open_board(path).map_err(|error| match error {
        LoadError::Content { report, .. } => lines(&report),
        other => vec![format!("{other}. {}", other.remedy())],
    })
}

/// Writes a board; the former file stays until the new one is complete.
fn write_board(path: &Path, board: &Board, expected: Stamped) -> Result<Stamp, NotWritten> {
    store::save_board_over(path, board, expected.as_ref()).map_err(|error| match error {
        SaveError::Board(report) => NotWritten::Failed(lines(&report)),
        SaveError::ChangedOnDisk(_) => NotWritten::Changed { said: error.to_string(), there: true },
        SaveError::GoneFromDisk(_) => NotWritten::Changed { said: error.to_string(), there: false },
        SaveError::Unconfirmed { .. } => {
            NotWritten::Unconfirmed(Stamp::at(path).ok(), vec![format!("{error}. {}", error.remedy())])
        }
        other => NotWritten::Failed(vec![format!("{other}. {}", other.remedy())]),
    })
}

fn lines(report: &Report) -> Vec<String> {
    report.to_string().lines().map(str::to_owned).collect()
}
