//! The audit on threads of its own.

use std::{
    sync::{
        Arc, Mutex, PoisonError,
        atomic::{AtomicBool, Ordering},
        mpsc::{self, Receiver, TryRecvError},
    },
    thread,
    time::Instant,
};

use standpoint_board::chart::{Chart, Setup};
use standpoint_charting::{
    audit::{AuditError, AuditedShot, CollectedShots, Compare, Crew, Findings, Progress, Watch},
    fit::Habits,
    pictures::Pictures,
    report::ReportModel,
};
use standpoint_language::text;

/// Result of an audit.
#[derive(Debug, Clone, PartialEq)]
pub struct Audited {
    /// Version of the notebook that was audited.
    pub version: u64,
    /// Where the spot was looked for.
    pub compare: Compare,
    /// Shots in order.
    pub shots: Vec<AuditedShot>,
    /// What came out.
    pub findings: Findings,
    /// The findings as a report.
    pub report: ReportModel,
    /// What the shots look like on the court.
    pub pictures: Pictures,
}

impl Audited {
    /// What these shots show.
    #[must_use]
    pub fn made(setup: &Setup, version: u64, compare: Compare, shots: Vec<AuditedShot>, complete: bool) -> Self {
        let (mut findings, mut habits) = (Findings::default(), Habits::default());
        for shot in &shots {
            findings.add(shot);
            habits.add(shot);
        }
        findings.rows = shots.len() as u64;
        let report = ReportModel { complete, ..ReportModel::new(setup, &findings, &habits) };
        let pictures = Pictures::of(&setup.court.court(), &shots);
        Self { version, compare, shots, findings, report, pictures }
    }

    /// The same audit for some of its shots.
    #[must_use]
    pub fn of(setup: &Setup, whole: &Self, shots: Vec<AuditedShot>) -> Self {
        Self::made(setup, whole.version, whole.compare, shots, whole.report.complete)
    }
}

/// An audit in progress.
struct Job {
    total: u64,
    began: Instant,
    stop: Arc<AtomicBool>,
    progress: Arc<Mutex<Progress>>,
    result: Receiver<Result<Audited, String>>,
}

impl Drop for Job {
    fn drop(&mut self) {
        // The threads check the flag before every shot; nobody waits for them.
        self.stop.store(true, Ordering::Relaxed);
    }
}

/// Audits one chart after the other.
#[derive(Default)]
pub struct Worker {
    job: Option<Job>,
}

impl Worker {
    /// Begins the audit of a chart in the place of any other; `compare` says where the spot is looked for, `wake` is
    /// called from its threads.
    pub fn start(&mut self, chart: Chart, version: u64, compare: Compare, wake: impl Fn() + Send + 'static) {
        let (sender, result) = mpsc::channel();
        let stop = Arc::new(AtomicBool::new(false));
        let progress = Arc::new(Mutex::new(Progress::default()));
        let (total, began) = (chart.shots() as u64, Instant::now());
        let job = Job { total, began, stop: Arc::clone(&stop), progress: Arc::clone(&progress), result };
        thread::spawn(move || {
            let mut tell = |now: Progress| {
                *progress.lock().unwrap_or_else(PoisonError::into_inner) = now;
                wake();
            };
            let done = audit(&chart, version, compare, &mut Watch { progress: &mut tell, stop: &stop });
            // A stop before the first shot has no result to send.
            if !matches!(done, Err(AuditError::Stopped)) {
                let _ = sender.send(done.map_err(|error| error.to_string()));
            }
            wake();
        });
        self.job = Some(job);
    }

    /// Stops the audit; the shots done so far become its result.
    pub fn finish_early(&mut self) {
        if let Some(job) = &self.job {
            job.stop.store(true, Ordering::Relaxed);
        }
    }

    /// Estimated seconds left, once the first shot is done.
    #[must_use]
    pub fn left(&self) -> Option<f64> {
        let job = self.job.as_ref()?;
        let done = job.progress.lock().unwrap_or_else(PoisonError::into_inner).shots;
        let elapsed = job.began.elapsed().as_secs_f64();
        (done > 0).then(|| elapsed * job.total.saturating_sub(done) as f64 / done as f64)
    }

    /// Stops the audit without a result.
    pub fn stop(&mut self) {
        self.job = None;
    }

    /// Shots done and in total; `None` while no audit runs.
    #[must_use]
    pub fn progress(&self) -> Option<(u64, u64)> {
        let job = self.job.as_ref()?;
        Some((job.progress.lock().unwrap_or_else(PoisonError::into_inner).shots, job.total))
    }

    /// The result, once there is one.
    pub fn take(&mut self) -> Option<Result<Audited, String>> {
        match self.job.as_ref()?.result.try_recv() {
            Ok(done) => {
                self.job = None;
                Some(done)
            }
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => {
                let wished = self.job.take().is_some_and(|job| job.stop.load(Ordering::Relaxed));
                (!wished).then(|| {
                    Err(text("the report stopped by itself; please tell whoever looks after the program").to_owned())
                })
            }
        }
    }
}

fn audit(chart: &Chart, version: u64, compare: Compare, watch: &mut Watch<'_>) -> Result<Audited, AuditError> {
    let crew = Crew::new(&chart.setup, compare, 0)?;
    let mut kept = CollectedShots::default();
    let (findings, complete) = crew.audit_chart_so_far(chart, &mut kept, watch)?;
    if !complete && kept.shots.is_empty() {
        return Err(AuditError::Stopped);
    }
    let mut habits = Habits::default();
    kept.shots.iter().for_each(|shot| habits.add(shot));
    let report = ReportModel { complete, ..ReportModel::new(&chart.setup, &findings, &habits) };
    let pictures = Pictures::of(&chart.setup.court.court(), &kept.shots);
    Ok(Audited { version, compare, shots: kept.shots, findings, report, pictures })
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

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
        // The shots done so far are kept.
        worker.start(chart(400), 9, Compare::default(), || ());
        let began = Instant::now();
        while worker.left().is_none() {
            assert!(began.elapsed() < Duration::from_secs(60));
            thread::sleep(Duration::from_millis(2));
        }
        worker.finish_early();
        let part = loop {
            assert!(began.elapsed() < Duration::from_secs(60));
            if let Some(done) = worker.take() {
                break done.unwrap();
            }
            thread::sleep(Duration::from_millis(2));
        };
        assert!(!part.report.complete && part.report.shots == part.shots.len() as u64 && !part.shots.is_empty());
        worker.start(chart(2), 8, Compare::default(), || ());
        assert_eq!(worker.progress().map(|(_, all)| all), Some(chart(2).shots() as u64));
        worker.stop();
        assert_eq!((worker.progress(), worker.take()), (None, None));
    }
}
