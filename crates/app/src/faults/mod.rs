//! Faults (panics): unsaved work is kept, a report is written, and the person is told.
//!
//! When the window's thread panics, the window is dropped, which keeps the work. Then the program starts once
//! more with only a crash window, since a process cannot begin its event loop twice. A fault of
//! another thread leaves the window open and is shown in the status line.

mod crash_window;

use std::{
    any::Any,
    fs,
    io::Write as _,
    panic::{AssertUnwindSafe, PanicHookInfo, catch_unwind},
    path::{Path, PathBuf},
    process::{Command, ExitCode},
    sync::{
        Mutex, MutexGuard, PoisonError,
        atomic::{AtomicBool, Ordering},
    },
};

use standpoint_cli::stopped::StoppedArgs;

pub use crash_window::open as tell;

/// Name of the report.
const REPORT: &str = "fault.log";
/// Name of the file that marks the last report shown.
const TOLD: &str = "fault-told.log";
/// Longest report, bytes; a longer one is begun anew.
const LONGEST: u64 = 1 << 20;
/// Most characters of a panic message that are shown; the report has all.
const LONGEST_WORDS: usize = 300;
/// Exit code after a fault, the systems' usual one.
pub const EXIT_FAULT: u8 = 70;

/// Whether a background thread had a fault that has not been shown.
static ASIDE: AtomicBool = AtomicBool::new(false);
/// Sentences about what happened to the work.
static WORK: Mutex<Vec<String>> = Mutex::new(Vec::new());

/// Installs the panic hook that writes reports.
pub fn write_down(folder: Option<&Path>) {
    let folder = folder.map(Path::to_owned);
    let window = std::thread::current().id();
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |fault| {
        if let Some(folder) = &folder {
            // There is no fallback when this fails.
            let _ = append(folder, &report(fault));
        }
        if std::thread::current().id() != window {
            ASIDE.store(true, Ordering::Relaxed);
        }
        usual(fault);
    }));
}

/// The fault, its place, and the version.
fn report(fault: &PanicHookInfo<'_>) -> String {
    let version = env!("CARGO_PKG_VERSION");
    let (system, processor) = (std::env::consts::OS, std::env::consts::ARCH);
    let now = jiff::Timestamp::now().round(jiff::Unit::Second).unwrap_or_default();
    let thread = std::thread::current();
    let thread = thread.name().unwrap_or("without a name");
    let backtrace = std::backtrace::Backtrace::force_capture();
    format!(
        "Standpoint {version} on {system} ({processor}), {now}, came to a fault in the thread {thread}:\n\
         {fault}\n{backtrace}\n"
    )
}

fn append(folder: &Path, report: &str) -> std::io::Result<()> {
    fs::create_dir_all(folder)?;
    let path = folder.join(REPORT);
    let long = fs::metadata(&path).is_ok_and(|there| there.len() > LONGEST);
    let mut file = fs::OpenOptions::new().create(true).append(!long).write(true).truncate(long).open(path)?;
    file.write_all(report.as_bytes())
}

/// The report of faults that have not been shown yet; marks them as shown.
#[must_use]
pub fn unreported(folder: &Path) -> Option<PathBuf> {
    let told = folder.join(TOLD);
    fs::rename(folder.join(REPORT), &told).ok().map(|()| told)
}

/// Whether a background thread had a fault since the last call.
#[must_use]
pub fn aside() -> bool {
    ASIDE.swap(false, Ordering::Relaxed)
}

/// Adds a sentence about what happened to the work.
pub fn say_of_work(sentence: String) {
    work().push(sentence);
}

fn work() -> MutexGuard<'static, Vec<String>> {
    // A list of sentences is whole whenever the lock is free.
    WORK.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Runs the window. After a fault its state has been dropped by the time the person is told: in a crash window
/// if somebody is `watching`, and always on standard error.
pub fn guard(folder: Option<&Path>, watching: bool, window: impl FnOnce() -> ExitCode) -> ExitCode {
    let fault = match catch_unwind(AssertUnwindSafe(window)) {
        Ok(code) => return code,
        Err(fault) => fault,
    };
    let args =
        StoppedArgs { fault: words(&*fault), report: folder.and_then(unreported), work: std::mem::take(&mut work()) };
    crash_window::complain(&args);
    if watching && let Err(problem) = crash_window::start(&args) {
        eprintln!("standpoint: no window could be opened to say so: {problem}.");
    }
    ExitCode::from(EXIT_FAULT)
}

/// The message of a panic.
fn words(fault: &(dyn Any + Send)) -> String {
    let said = fault.downcast_ref::<&str>().copied().or_else(|| fault.downcast_ref::<String>().map(String::as_str));
    said.unwrap_or("no more is known").chars().take(LONGEST_WORDS).collect()
}

/// A command that starts this program without its arguments.
fn again() -> std::io::Result<Command> {
    Ok(Command::new(std::env::current_exe()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reports_follow_each_other_until_they_are_told() {
        let dir = tempfile::tempdir().unwrap();
        let folder = dir.path().join("not there yet");
        assert_eq!(unreported(&folder), None);
        append(&folder, "first\n").unwrap();
        append(&folder, "second\n").unwrap();
        let told = unreported(&folder).unwrap();
        assert_eq!(fs::read_to_string(told).unwrap(), "first\nsecond\n");
        assert_eq!(unreported(&folder), None);
        fs::write(folder.join(REPORT), vec![b'x'; LONGEST as usize + 1]).unwrap();
        append(&folder, "after many\n").unwrap();
        assert_eq!(fs::read_to_string(unreported(&folder).unwrap()).unwrap(), "after many\n");
    }

    #[test]
    fn a_fault_is_caught_and_its_words_are_known() {
        let code = guard(None, false, || ExitCode::SUCCESS);
        assert_eq!(format!("{code:?}"), format!("{:?}", ExitCode::SUCCESS));
        let code = guard(None, false, || panic!("{} of a test", "fault"));
        assert_eq!(format!("{code:?}"), format!("{:?}", ExitCode::from(EXIT_FAULT)));
        assert_eq!(words(&"plain"), "plain");
        assert_eq!(words(&String::from("made")), "made");
        assert_eq!(words(&7), "no more is known");
    }
}
