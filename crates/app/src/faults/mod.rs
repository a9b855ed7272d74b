//! A fault of the program itself: what is unsaved is kept, what happened is written down, and the person is told.
//!
//! When the window's thread comes to a fault, the window is dropped, which keeps the work; then the program starts once
//! more with nothing but a small window that says so, since the event loop of a process cannot be begun twice. A fault of
//! another thread leaves the window standing and is told in its bottom line.

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

/// Where a fault is written down.
const REPORT: &str = "fault.log";
/// The last report that has been told.
const TOLD: &str = "fault-told.log";
/// A report that is longer than this is begun anew, bytes.
const LONGEST: u64 = 1 << 20;
/// Most characters of what a fault says of itself that are told; the report has all.
const LONGEST_WORDS: usize = 300;
/// The program stopped because of a fault of its own; the number that systems use for it.
pub const EXIT_FAULT: u8 = 70;

/// Whether a thread beside the window's came to a fault that has not been told.
static ASIDE: AtomicBool = AtomicBool::new(false);
/// What has become of the work, in sentences.
static WORK: Mutex<Vec<String>> = Mutex::new(Vec::new());

/// Writes faults down from now on.
pub fn write_down(folder: Option<&Path>) {
    let folder = folder.map(Path::to_owned);
    let window = std::thread::current().id();
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |fault| {
        if let Some(folder) = &folder {
            // Nothing is left to turn to when this fails.
            let _ = append(folder, &report(fault));
        }
        if std::thread::current().id() != window {
            ASIDE.store(true, Ordering::Relaxed);
        }
        usual(fault);
    }));
}

/// What happened, where, and in which version.
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

/// The report of faults that have not been told yet; from now on they have been.
#[must_use]
pub fn untold(folder: &Path) -> Option<PathBuf> {
    let told = folder.join(TOLD);
    fs::rename(folder.join(REPORT), &told).ok().map(|()| told)
}

/// Whether a thread beside the window's has come to a fault since this was last asked.
#[must_use]
pub fn aside() -> bool {
    ASIDE.swap(false, Ordering::Relaxed)
}

/// Has a sentence told about what has become of the work.
pub fn say_of_work(sentence: String) {
    work().push(sentence);
}

fn work() -> MutexGuard<'static, Vec<String>> {
    // A list of sentences is whole whenever the lock is free.
    WORK.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Runs the window. When it comes to a fault, what it held has been dropped by the time the person is told: in a window
/// of its own where somebody is `watching`, and on the standard error always.
pub fn guard(folder: Option<&Path>, watching: bool, window: impl FnOnce() -> ExitCode) -> ExitCode {
    let fault = match catch_unwind(AssertUnwindSafe(window)) {
        Ok(code) => return code,
        Err(fault) => fault,
    };
    let args =
        StoppedArgs { fault: words(&*fault), report: folder.and_then(untold), work: std::mem::take(&mut work()) };
    crash_window::complain(&args);
    if watching && let Err(problem) = crash_window::start(&args) {
        eprintln!("standpoint: no window could be opened to say so: {problem}.");
    }
    ExitCode::from(EXIT_FAULT)
}

/// What a fault says of itself.
fn words(fault: &(dyn Any + Send)) -> String {
    let said = fault.downcast_ref::<&str>().copied().or_else(|| fault.downcast_ref::<String>().map(String::as_str));
    said.unwrap_or("no more is known").chars().take(LONGEST_WORDS).collect()
}

/// This program once more, with nothing of what it was asked for.
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
        assert_eq!(untold(&folder), None);
        append(&folder, "first\n").unwrap();
        append(&folder, "second\n").unwrap();
        let told = untold(&folder).unwrap();
        assert_eq!(fs::read_to_string(told).unwrap(), "first\nsecond\n");
        assert_eq!(untold(&folder), None);
        fs::write(folder.join(REPORT), vec![b'x'; LONGEST as usize + 1]).unwrap();
        append(&folder, "after many\n").unwrap();
        assert_eq!(fs::read_to_string(untold(&folder).unwrap()).unwrap(), "after many\n");
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
