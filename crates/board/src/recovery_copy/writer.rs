//! Writes copies on a thread of its own.

use std::io;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread::{Builder, JoinHandle};

use super::{About, RecoveryCopy, Work};

/// State of the copies so far.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Written {
    /// How many have been written.
    pub count: u64,
    /// The time given with the last one written, s since the beginning of 1970.
    pub kept_at: Option<f64>,
    /// The last error, in words with the remedy; `None` once a copy has been written since.
    pub problem: Option<String>,
}

/// Writes a window's copy without blocking it: work is written when the disk is ready, and newer work
/// replaces older work that still waits. At most one state of the work waits.
#[derive(Debug)]
pub struct RecoveryWriter {
    shared: Arc<Shared>,
    thread: Option<JoinHandle<()>>,
}

#[derive(Debug, Default)]
struct Shared {
    state: Mutex<State>,
    changed: Condvar,
}

#[derive(Debug, Default)]
struct State {
    /// The next thing to do; a later one takes its place.
    next: Option<Job>,
    busy: bool,
    closing: bool,
    written: Written,
}

#[derive(Debug)]
enum Job {
    Keep(Box<(Work, About)>),
    Remove,
    /// Removes the copy and gives its place back; nothing comes after.
    Close,
}

impl RecoveryWriter {
    /// Starts the thread. `told` is called from it after each job, to wake the window.
    ///
    /// # Errors
    /// When the system has no thread left.
    pub fn start(copy: RecoveryCopy, told: impl Fn(&Written) + Send + 'static) -> io::Result<Self> {
        let shared = Arc::new(Shared::default());
        let theirs = Arc::clone(&shared);
        let thread = Builder::new().name("recovery copies".to_owned()).spawn(move || theirs.work(copy, &told))?;
        Ok(Self { shared, thread: Some(thread) })
    }

    /// Hands work over to be written; returns at once. Copying a board for this shares its pages.
    pub fn keep(&self, work: Work, about: About) {
        self.shared.put(Job::Keep(Box::new((work, about))));
    }

    /// Has the copy removed, as after a save; returns at once.
    pub fn remove(&self) {
        self.shared.put(Job::Remove);
    }

    /// State so far.
    #[must_use]
    pub fn written(&self) -> Written {
        self.shared.lock().written.clone()
    }

    /// Waits until all queued work is done.
    pub fn finish(&self) {
        let state = self.shared.lock();
        let idle = self.shared.changed.wait_while(state, |state| state.busy || state.next.is_some());
        drop(idle.unwrap_or_else(PoisonError::into_inner));
    }

    /// Removes the copy, releases its place and waits for it: for a normal close.
    pub fn close(self) {
        self.shared.put(Job::Close);
        // Dropping waits for the thread.
    }
}

impl Drop for RecoveryWriter {
    /// Waits for the queued work. The copy stays, to be found at the next start.
    fn drop(&mut self) {
        self.shared.lock().closing = true;
        self.shared.changed.notify_all();
        if let Some(thread) = self.thread.take() {
            // A panic of the thread was reported already.
            let _ = thread.join();
        }
    }
}

impl Shared {
    fn lock(&self) -> MutexGuard<'_, State> {
        // The state is consistent whenever the lock is free.
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn put(&self, job: Job) {
        self.lock().next = Some(job);
        self.changed.notify_all();
    }

    /// Waits for something to do; `None` when the writer is dropped and nothing is left.
    fn take(&self) -> Option<Job> {
        let state = self.lock();
        let waited = self.changed.wait_while(state, |state| state.next.is_none() && !state.closing);
        let mut state = waited.unwrap_or_else(PoisonError::into_inner);
        state.busy = state.next.is_some();
        state.next.take()
    }

    fn work(&self, copy: RecoveryCopy, told: &dyn Fn(&Written)) {
        while let Some(job) = self.take() {
            let closes = matches!(job, Job::Close);
            let (kept_at, result) = match job {
                Job::Keep(kept) => {
                    let (work, about) = *kept;
                    let result = copy.write(&work, &about).map_err(|error| format!("{error} {}", error.remedy()));
                    (result.is_ok().then_some(about.kept_at), result)
                }
                Job::Remove | Job::Close => (None, copy.remove().map_err(|error| error.to_string())),
            };
            if closes {
                // A place that cannot be released is not locked, so the next start removes it.
                let _ = copy.close();
                self.lock().busy = false;
                self.changed.notify_all();
                return;
            }
            let written = self.done(kept_at, result.err());
            told(&written);
        }
    }

    fn done(&self, kept_at: Option<f64>, problem: Option<String>) -> Written {
        let mut state = self.lock();
        state.busy = false;
        state.written.problem = problem;
        if kept_at.is_some() {
            state.written.count += 1;
            state.written.kept_at = kept_at;
        }
        self.changed.notify_all();
        state.written.clone()
    }
}
