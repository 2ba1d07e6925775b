//! Many hands: the pieces of an ensemble on the threads of a pool.

use combcast_core::ensemble::Hands;
use rayon::prelude::*;

use crate::output::Failure;

/// A pool of threads. What it gives back does not depend on their number.
#[derive(Debug)]
pub struct Threads(rayon::ThreadPool);

impl Threads {
    /// So many threads; otherwise one for each core.
    pub fn new(threads: Option<u16>) -> Result<Self, Failure> {
        rayon::ThreadPoolBuilder::new()
            .num_threads(threads.map_or(0, usize::from))
            .build()
            .map(Self)
            .map_err(|error| Failure::File(format!("threads: {error}")))
    }
}

impl Hands for Threads {
    fn each<T: Send, F: Fn(usize, &mut T) + Sync + Send>(&self, items: &mut [T], work: F) {
        self.0.install(|| {
            items
                .par_iter_mut()
                .enumerate()
                .for_each(|(index, item)| work(index, item));
        });
    }
}
