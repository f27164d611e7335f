//! The threads of a long call.

use crate::error::{Error, Result};

/// Most threads taken.
pub const MAX_THREADS: usize = 256;

/// A pool of that many threads; of as many as the machine has, if none is given.
pub(super) fn pool(threads: Option<usize>) -> Result<rayon::ThreadPool> {
    let mut builder = rayon::ThreadPoolBuilder::new();
    if let Some(threads) = threads {
        if !(1..=MAX_THREADS).contains(&threads) {
            return Err(Error::Inconsistent(format!(
                "threads = {threads}: between 1 and {MAX_THREADS} are taken"
            )));
        }
        builder = builder.num_threads(threads);
    }
    builder
        .build()
        .map_err(|error| Error::Inconsistent(format!("no thread pool: {error}")))
}
