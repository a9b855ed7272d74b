//! Audits files and charts on all cores, in order, without keeping the shots.

use std::io::{self, Read};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};

use rayon::prelude::*;
use standpoint_language::{text, tr};

use super::ask::{Ask, Joiner, asks};
use super::findings::Findings;
use super::judge::{AuditedShot, Auditor, Compare};
use crate::import::{BadRow, ReadError, RowReader};
use standpoint_board::chart::model::{Chart, Setup};

/// Shots computed between two reports of progress: a fraction of a second. The stop flag is checked before
/// every shot.
const BATCH: usize = 256;

/// Auditors for all cores.
pub struct Crew {
    pool: rayon::ThreadPool,
    auditors: Vec<Mutex<Auditor>>,
}

/// Why an audit did not finish.
#[derive(Debug, thiserror::Error)]
pub enum AuditError {
    /// The file cannot be read.
    #[error(transparent)]
    Read(#[from] ReadError),
    /// The output cannot be written.
    #[error("{}", tr!("the result could not be written: {}", .0))]
    Write(#[from] io::Error),
    /// The audit was stopped.
    #[error("{}", text("stopped before the end"))]
    Stopped,
    /// The system cannot start threads.
    #[error("{}", tr!("no threads to compute with: {}", .0))]
    Threads(String),
}

/// Progress of an audit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Progress {
    /// Rows read.
    pub rows: u64,
    /// Shots audited.
    pub shots: u64,
    /// Rows that could not be read.
    pub bad: u64,
    /// Bytes read.
    pub bytes: u64,
}

impl Progress {
    /// Estimated seconds left, by the bytes read so far; `None` at the beginning.
    #[must_use]
    pub fn left(&self, bytes: u64, elapsed: f64) -> Option<f64> {
        let told = self.bytes > 0 && self.shots > 0 && elapsed > 0.0;
        told.then(|| elapsed * bytes.saturating_sub(self.bytes) as f64 / self.bytes as f64)
    }
}

/// Takes results in the order of the file.
pub trait Sink {
    /// A shot.
    ///
    /// # Errors
    /// An error of writing; ends the audit.
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()>;

    /// A row that could not be read.
    ///
    /// # Errors
    /// An error of writing; ends the audit.
    fn bad(&mut self, row: &BadRow) -> io::Result<()>;
}

/// A sink that keeps everything, for a window.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CollectedShots {
    /// Shots in order.
    pub shots: Vec<AuditedShot>,
    /// Rows that could not be read.
    pub bad: Vec<BadRow>,
}

impl Sink for CollectedShots {
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()> {
        self.shots.push(shot.clone());
        Ok(())
    }

    fn bad(&mut self, row: &BadRow) -> io::Result<()> {
        self.bad.push(row.clone());
        Ok(())
    }
}

/// Observer of an audit, which may stop it.
pub struct Watch<'w> {
    /// Called with the progress a few times a second.
    pub progress: &'w mut dyn FnMut(Progress),
    /// Set to stop.
    pub stop: &'w AtomicBool,
}

impl Crew {
    /// Auditors for players and conditions; `threads` 0 takes all cores. Whoever takes the number from outside bounds it.
    ///
    /// # Errors
    /// [`AuditError::Threads`] when the system gives none.
    pub fn new(setup: &Setup, compare: Compare, threads: usize) -> Result<Self, AuditError> {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        let pool = pool.map_err(|error| AuditError::Threads(error.to_string()))?;
        let auditors = (0..pool.current_num_threads()).map(|_| Mutex::new(Auditor::new(setup, compare))).collect();
        Ok(Self { pool, auditors })
    }

    /// Audits the rows of a file as they are read. A stopped audit keeps its results; returns whether it finished.
    ///
    /// # Errors
    /// See [`AuditError`]; never [`AuditError::Stopped`].
    pub fn audit_rows_so_far<R: Read>(
        &self,
        mut reader: RowReader<R>,
        sink: &mut dyn Sink,
        watch: &mut Watch<'_>,
    ) -> Result<(Findings, bool), AuditError> {
        let mut work = Work::new(self, sink);
        let (mut joiner, mut progress) = (Joiner::default(), Progress::default());
        loop {
            let row = match reader.next_row() {
                Ok(Some(row)) => row,
                Ok(None) => break,
                // Input that nobody goes on with is left when a stop is wanted.
                Err(_) if watch.stop.load(Ordering::Relaxed) => return Ok((work.so_far(), false)),
                Err(error) => return Err(error.into()),
            };
            progress.rows += 1;
            match row {
                Ok(row) => work.take(joiner.row(row)),
                Err(bad) => {
                    progress.bad += 1;
                    work.take(joiner.finish());
                    work.batch.push(Err(bad));
                }
            }
            if work.batch.len() >= BATCH {
                let done = work.compute(watch.stop)?;
                progress.shots += work.shots;
                progress.bytes = reader.bytes();
                (watch.progress)(progress);
                if !done {
                    return Ok((work.so_far(), false));
                }
            }
        }
        work.take(joiner.finish());
        let done = work.compute(watch.stop)?;
        progress.shots += work.shots;
        progress.bytes = reader.bytes();
        (watch.progress)(progress);
        Ok((work.so_far(), done))
    }

    /// Audits the shots of a chart.
    ///
    /// # Errors
    /// See [`AuditError`].
    pub fn audit_chart(
        &self,
        chart: &Chart,
        sink: &mut dyn Sink,
        watch: &mut Watch<'_>,
    ) -> Result<Findings, AuditError> {
        whole(self.audit_chart_so_far(chart, sink, watch)?)
    }

    /// Audits the shots of a chart; a stopped audit keeps its results. Returns whether it finished.
    ///
    /// # Errors
    /// See [`AuditError`]; never [`AuditError::Stopped`].
    pub fn audit_chart_so_far(
        &self,
        chart: &Chart,
        sink: &mut dyn Sink,
        watch: &mut Watch<'_>,
    ) -> Result<(Findings, bool), AuditError> {
        let mut work = Work::new(self, sink);
        let mut progress = Progress::default();
        let mut asks = asks(chart);
        loop {
            work.batch.extend(asks.by_ref().take(BATCH).map(Ok));
            if work.batch.is_empty() {
                break;
            }
            let done = work.compute(watch.stop)?;
            progress.shots += work.shots;
            progress.rows = progress.shots;
            (watch.progress)(progress);
            if !done {
                return Ok((work.so_far(), false));
            }
        }
        Ok((work.so_far(), true))
    }

    /// The audits of some shots, in order; `None` for those left out after a stop.
    fn audit(&self, batch: &[Result<Ask, BadRow>], stop: &AtomicBool) -> Vec<Option<AuditedShot>> {
        self.pool.install(|| {
            let one = |item: &Result<Ask, BadRow>| {
                let ask = item.as_ref().ok()?;
                if stop.load(Ordering::Relaxed) {
                    return None;
                }
                let own = rayon::current_thread_index().unwrap_or(0) % self.auditors.len();
                let mut auditor = self.auditors[own].lock().unwrap_or_else(PoisonError::into_inner);
                Some(auditor.audit(ask))
            };
            // Short runs: shots differ in cost, and neighbours share caches.
            batch.par_iter().with_max_len(8).map(one).collect()
        })
    }
}

/// Findings of a whole file or chart.
fn whole((findings, done): (Findings, bool)) -> Result<Findings, AuditError> {
    if done { Ok(findings) } else { Err(AuditError::Stopped) }
}

struct Work<'a> {
    crew: &'a Crew,
    batch: Vec<Result<Ask, BadRow>>,
    findings: Findings,
    sink: &'a mut dyn Sink,
    /// Shots of the last batch.
    shots: u64,
}

impl<'a> Work<'a> {
    fn new(crew: &'a Crew, sink: &'a mut dyn Sink) -> Self {
        Self { crew, batch: Vec::with_capacity(BATCH), findings: Findings::default(), sink, shots: 0 }
    }

    fn take(&mut self, ask: Option<Ask>) {
        self.batch.extend(ask.map(Ok));
    }

    /// Results of the rows audited so far.
    fn so_far(self) -> Findings {
        let rows = self.findings.shots() + self.findings.bad_rows;
        Findings { rows, ..self.findings }
    }

    /// Computes the collected batch and passes it on in order, as far as it was computed before a stop; returns whether
    /// all of it was.
    fn compute(&mut self, stop: &AtomicBool) -> Result<bool, AuditError> {
        self.shots = 0;
        let audited = self.crew.audit(&self.batch, stop);
        for (item, audited) in self.batch.drain(..).zip(audited) {
            match (item, audited) {
                (Err(bad), _) => {
                    self.findings.bad_rows += 1;
                    self.sink.bad(&bad)?;
                }
                (Ok(_), Some(shot)) => {
                    self.findings.add(&shot);
                    self.sink.shot(&shot)?;
                    self.shots += 1;
                }
                (Ok(_), None) => return Ok(false),
            }
        }
        Ok(!stop.load(Ordering::Relaxed))
    }
}
