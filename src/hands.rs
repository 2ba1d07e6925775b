//! Many hands: the pieces of an ensemble on the threads of a pool.

use std::io::{IsTerminal, Write};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use combcast_core::ensemble::Hands;
use combcast_core::story::grouped;
use rayon::prelude::*;

use crate::output::Failure;

/// Work that takes longer than this says how far it is.
const PATIENCE: Duration = Duration::from_secs(1);
/// How often it says so.
const EVERY: Duration = Duration::from_millis(200);

/// A pool of threads. What it gives back does not depend on their number.
///
/// Where standard error is a terminal, long work shows there how many of its pieces are done.
#[derive(Debug)]
pub struct Threads {
    pool: rayon::ThreadPool,
    begun: Instant,
    shows: bool,
}

impl Threads {
    /// So many threads; otherwise one for each core.
    pub fn new(threads: Option<u16>) -> Result<Self, Failure> {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads.map_or(0, usize::from))
            .build()
            .map_err(|error| Failure::File(format!("threads: {error}")))?;
        Ok(Self {
            pool,
            begun: Instant::now(),
            shows: std::io::stderr().is_terminal(),
        })
    }

    /// Without a word on how far the work is, for those who tell it better.
    pub fn quiet(self) -> Self {
        Self {
            shows: false,
            ..self
        }
    }
}

impl Hands for Threads {
    fn each<T: Send, F: Fn(usize, &mut T) + Sync + Send>(&self, items: &mut [T], work: F) {
        let all = items.len();
        let done = AtomicUsize::new(0);
        let told: Mutex<Option<Instant>> = Mutex::new(None);
        let tell = || {
            let done = done.fetch_add(1, Ordering::Relaxed) + 1;
            if !self.shows || self.begun.elapsed() < PATIENCE {
                return;
            }
            // Whoever finds the line taken leaves it to the other.
            if let Ok(mut told) = told.try_lock()
                && told.is_none_or(|last| last.elapsed() >= EVERY)
            {
                *told = Some(Instant::now());
                let (done, all) = (grouped(done as f64), grouped(all as f64));
                eprint!("\r\u{1b}[K{done} of {all}");
                let _ = std::io::stderr().flush();
            }
        };
        self.pool.install(|| {
            items.par_iter_mut().enumerate().for_each(|(index, item)| {
                work(index, item);
                tell();
            });
        });
        if told.lock().is_ok_and(|told| told.is_some()) {
            eprint!("\r\u{1b}[K");
        }
    }
}
