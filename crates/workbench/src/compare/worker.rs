//! Two threads that take work from a queue, each with a solver of its own.

use std::{
    collections::VecDeque,
    sync::{
        Arc, Condvar, Mutex, PoisonError,
        atomic::{AtomicU64, Ordering},
        mpsc::{self, Receiver, Sender},
    },
    thread::{self, JoinHandle},
};

use standpoint_geometry::Solver;

use super::task::{Kind, Piece, Work};

/// How many threads at most.
pub const THREADS: usize = 2;

/// A piece that is done.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Of which kind of work.
    pub kind: Kind,
    /// Of which round.
    pub round: u64,
    /// What was found.
    pub piece: Piece,
}

type Wake = Box<dyn Fn() + Send + Sync>;

struct Job {
    kind: Kind,
    round: u64,
    work: Work,
}

#[derive(Default)]
struct Queue {
    jobs: VecDeque<Job>,
    closing: bool,
}

impl Queue {
    /// Replaces the remaining work of a kind, before less urgent work.
    fn put(&mut self, kind: Kind, round: u64, works: Vec<Work>) {
        self.jobs.retain(|job| job.kind != kind);
        let at = self.jobs.iter().position(|job| job.kind > kind).unwrap_or(self.jobs.len());
        let rest = self.jobs.split_off(at);
        self.jobs.extend(works.into_iter().map(|work| Job { kind, round, work }));
        self.jobs.extend(rest);
    }
}

struct Shared {
    queue: Mutex<Queue>,
    more: Condvar,
    /// The wanted round of each kind.
    rounds: [AtomicU64; Kind::COUNT],
    wake: Wake,
}

/// The threads. They start with the first work and sleep while there is none.
pub struct Worker {
    shared: Arc<Shared>,
    threads: Vec<JoinHandle<()>>,
    sender: Sender<Report>,
    reports: Receiver<Report>,
}

impl Worker {
    /// A worker that calls `wake` from its threads whenever there is something to take.
    #[must_use]
    pub fn new(wake: impl Fn() + Send + Sync + 'static) -> Self {
        let (sender, reports) = mpsc::channel();
        let shared = Arc::new(Shared {
            queue: Mutex::default(),
            more: Condvar::new(),
            rounds: std::array::from_fn(|_| AtomicU64::new(0)),
            wake: Box::new(wake),
        });
        Self { shared, threads: Vec::new(), sender, reports }
    }

    /// Drops all work of a kind and begins this work in its order; empty work only drops.
    pub fn start(&mut self, kind: Kind, round: u64, works: Vec<Work>) {
        if !works.is_empty() {
            self.hire();
        }
        self.shared.rounds[kind as usize].store(round, Ordering::Release);
        let mut queue = self.shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
        queue.put(kind, round, works);
        drop(queue);
        self.shared.more.notify_all();
    }

    /// Results since the last call.
    pub fn take(&self) -> impl Iterator<Item = Report> + '_ {
        self.reports.try_iter()
    }

    fn hire(&mut self) {
        while self.threads.len() < THREADS {
            let (shared, sender) = (Arc::clone(&self.shared), self.sender.clone());
            let name = format!("weigh {}", self.threads.len() + 1);
            match thread::Builder::new().name(name).spawn(move || labour(&shared, &sender)) {
                Ok(thread) => self.threads.push(thread),
                // One thread is enough, only slower; with none, figures stay empty.
                Err(_) => break,
            }
        }
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        let mut queue = self.shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
        queue.closing = true;
        queue.jobs.clear();
        drop(queue);
        for round in &self.shared.rounds {
            round.store(u64::MAX, Ordering::Release);
        }
        self.shared.more.notify_all();
        for thread in self.threads.drain(..) {
            // A panic has been reported already.
            let _ = thread.join();
        }
    }
}

/// Main loop of a thread.
fn labour(shared: &Shared, sender: &Sender<Report>) {
    let mut solver = Solver::new();
    while let Some(Job { kind, round, work }) = next(shared) {
        let stale = || shared.rounds[kind as usize].load(Ordering::Acquire) != round;
        let Some(piece) = work.done(&mut solver, &stale) else { continue };
        if stale() || sender.send(Report { kind, round, piece }).is_err() {
            continue;
        }
        (shared.wake)();
    }
}

/// The next job, once there is one; `None` at the end.
fn next(shared: &Shared) -> Option<Job> {
    let mut queue = shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
    loop {
        if queue.closing {
            return None;
        }
        if let Some(job) = queue.jobs.pop_front() {
            return Some(job);
        }
        queue = shared.more.wait(queue).unwrap_or_else(PoisonError::into_inner);
    }
}

#[cfg(test)]
mod tests {
    use std::time::{Duration, Instant};

    use glam::dvec2;
    use standpoint_board::Board;

    use super::*;
    use crate::compare::state::Item;

    fn situation() -> Arc<standpoint_geometry::Situation> {
        Arc::new(Board::demo().situation(0, 0).unwrap())
    }

    fn cells(count: usize) -> Vec<Work> {
        let situation = situation();
        (0..count).map(|i| Work::Cells(Arc::clone(&situation), vec![(i, dvec2(1.0, 9.0))])).collect()
    }

    fn wait(worker: &Worker, count: usize) -> Vec<Report> {
        let began = Instant::now();
        let mut all = Vec::new();
        while all.len() < count {
            assert!(began.elapsed() < Duration::from_secs(60), "{} of {count} pieces came", all.len());
            all.extend(worker.take());
            thread::sleep(Duration::from_millis(1));
        }
        all
    }

    #[test]
    fn a_new_round_drops_what_is_left_of_the_former() {
        let mut worker = Worker::new(|| ());
        worker.start(Kind::Map, 1, cells(8000));
        wait(&worker, 3);
        worker.start(Kind::Map, 2, cells(4));
        let mut seen = Vec::new();
        while seen.iter().filter(|r: &&Report| r.round == 2).count() < 4 {
            seen.extend(wait(&worker, 1));
        }
        let old = seen.iter().filter(|r| r.round == 1).count();
        assert!(old < 400, "{old} pieces of the dropped round were still done");
        thread::sleep(Duration::from_millis(30));
        assert_eq!(worker.take().count(), 0, "nothing comes after the last piece");
    }

    #[test]
    fn the_urgent_kind_goes_first_and_a_new_round_takes_the_place_of_its_own_kind_only() {
        let mut queue = Queue::default();
        let order = |queue: &Queue| queue.jobs.iter().map(|job| (job.kind, job.round)).collect::<Vec<_>>();
        queue.put(Kind::Map, 1, cells(3));
        queue.put(Kind::Compare, 1, vec![Work::Compare(Item::Target(7), situation())]);
        assert_eq!(order(&queue), [(Kind::Compare, 1), (Kind::Map, 1), (Kind::Map, 1), (Kind::Map, 1)]);
        queue.put(Kind::Map, 2, cells(1));
        assert_eq!(order(&queue), [(Kind::Compare, 1), (Kind::Map, 2)]);
        queue.put(Kind::Compare, 2, Vec::new());
        assert_eq!(order(&queue), [(Kind::Map, 2)]);
    }

    #[test]
    fn kinds_do_not_drop_each_other() {
        let mut worker = Worker::new(|| ());
        worker.start(Kind::Map, 1, cells(40));
        worker.start(Kind::Compare, 1, vec![Work::Compare(Item::Target(7), situation())]);
        let all = wait(&worker, 41);
        let compared: Vec<_> = all.iter().filter(|r| r.kind == Kind::Compare).collect();
        assert_eq!((compared.len(), all.len()), (1, 41));
        assert!(matches!(compared[0].piece, Piece::Weighed(Item::Target(7), ..)));
    }

    #[test]
    fn it_wakes_whoever_waits_and_ends_when_dropped() {
        let woken = Arc::new(AtomicU64::new(0));
        let count = Arc::clone(&woken);
        let mut worker = Worker::new(move || {
            count.fetch_add(1, Ordering::Relaxed);
        });
        worker.start(Kind::Map, 1, cells(2));
        wait(&worker, 2);
        worker.start(Kind::Map, 2, cells(500));
        let began = Instant::now();
        drop(worker);
        assert!(began.elapsed() < Duration::from_secs(2));
        assert!(woken.load(Ordering::Relaxed) >= 2);
    }
}
