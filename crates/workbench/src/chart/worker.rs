//! The audit beside the frames.

use std::{
    sync::{
        Arc, Mutex, PoisonError,
        atomic::{AtomicBool, Ordering},
        mpsc::{self, Receiver, TryRecvError},
    },
    thread,
};

use standpoint_board::chart::Chart;
use standpoint_charting::{
    audit::{AuditError, AuditedShot, Compare, Crew, Findings, Kept, Progress, Watch},
    fit::Habits,
    report::ReportModel,
};
use standpoint_language::text;

/// Everything that came out of an audit.
#[derive(Debug, Clone, PartialEq)]
pub struct Audited {
    /// The state of the notebook that was audited.
    pub version: u64,
    /// Where the spot was looked for.
    pub compare: Compare,
    /// Shots in order.
    pub shots: Vec<AuditedShot>,
    /// What came out.
    pub findings: Findings,
    /// The same, as a report.
    pub report: ReportModel,
}

/// An audit that goes on.
struct Job {
    total: u64,
    stop: Arc<AtomicBool>,
    progress: Arc<Mutex<Progress>>,
    result: Receiver<Result<Audited, String>>,
}

impl Drop for Job {
    fn drop(&mut self) {
        // Its threads look before every shot; nobody waits for them.
        self.stop.store(true, Ordering::Relaxed);
    }
}

/// Audits one chart after the other.
#[derive(Default)]
pub struct Worker {
    job: Option<Job>,
}

impl Worker {
    /// Begins the audit of a chart in the place of any other; `compare` says where the spot is looked for, `wake` is called from its threads.
    pub fn start(&mut self, chart: Chart, version: u64, compare: Compare, wake: impl Fn() + Send + 'static) {
        let (sender, result) = mpsc::channel();
        let stop = Arc::new(AtomicBool::new(false));
        let progress = Arc::new(Mutex::new(Progress::default()));
        let job = Job { total: chart.shots() as u64, stop: Arc::clone(&stop), progress: Arc::clone(&progress), result };
        thread::spawn(move || {
            let mut tell = |now: Progress| {
                *progress.lock().unwrap_or_else(PoisonError::into_inner) = now;
                wake();
            };
            let done = audit(&chart, version, compare, &mut Watch { progress: &mut tell, stop: &stop });
            // A wish to stop is no news.
            if !matches!(done, Err(AuditError::Stopped)) {
                let _ = sender.send(done.map_err(|error| error.to_string()));
            }
            wake();
        });
        self.job = Some(job);
    }

    /// Gives the audit up.
    pub fn stop(&mut self) {
        self.job = None;
    }

    /// How far it is: shots done, and all; `None` while nothing goes on.
    #[must_use]
    pub fn progress(&self) -> Option<(u64, u64)> {
        let job = self.job.as_ref()?;
        Some((job.progress.lock().unwrap_or_else(PoisonError::into_inner).shots, job.total))
    }

    /// What came out, once it has.
    pub fn take(&mut self) -> Option<Result<Audited, String>> {
        match self.job.as_ref()?.result.try_recv() {
            Ok(done) => {
                self.job = None;
                Some(done)
            }
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => {
                self.job = None;
                Some(Err(text("the audit stopped by itself; please report this chart").to_owned()))
            }
        }
    }
}

fn audit(chart: &Chart, version: u64, compare: Compare, watch: &mut Watch<'_>) -> Result<Audited, AuditError> {
    let crew = Crew::new(&chart.setup, compare, 0)?;
    let mut kept = Kept::default();
    let findings = crew.audit_chart(chart, &mut kept, watch)?;
    let mut habits = Habits::default();
    kept.shots.iter().for_each(|shot| habits.add(shot));
    let report = ReportModel::new(&chart.setup, &findings, &habits);
    Ok(Audited { version, compare, shots: kept.shots, findings, report })
}

#[cfg(test)]
mod tests {
    use std::time::{Duration, Instant};

    use standpoint_board::chart::Setup;
    use standpoint_charting::invented::{self, Habit};

    use super::*;

    fn chart(points: usize) -> Chart {
        invented::chart(&Setup::default(), 3, points, [Habit::EXPERT, Habit::MIDDLE])
    }

    #[test]
    fn an_audit_is_done_beside_and_can_be_given_up() {
        let mut worker = Worker::default();
        worker.start(chart(1), 7, Compare::default(), || ());
        let began = Instant::now();
        let done = loop {
            assert!(began.elapsed() < Duration::from_secs(60));
            if let Some(done) = worker.take() {
                break done.unwrap();
            }
            thread::sleep(Duration::from_millis(2));
        };
        assert_eq!((done.version, done.shots.len() as u64), (7, done.report.shots));
        assert_eq!(worker.progress(), None);
        worker.start(chart(2), 8, Compare::default(), || ());
        assert_eq!(worker.progress().map(|(_, all)| all), Some(chart(2).shots() as u64));
        worker.stop();
        assert_eq!((worker.progress(), worker.take()), (None, None));
    }
}
