//! How far a long call has come, and whether it should stop.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// Shared between the call and whoever watches it.
#[derive(Debug, Default)]
pub struct Progress {
    done: AtomicUsize,
    cancelled: AtomicBool,
}

impl Progress {
    /// Cases finished so far.
    pub fn done(&self) -> usize {
        self.done.load(Ordering::Relaxed)
    }

    /// Asks the call to stop.
    pub fn cancel(&self) {
        self.cancelled.store(true, Ordering::Relaxed);
    }

    /// Whether the call should stop.
    pub fn is_cancelled(&self) -> bool {
        self.cancelled.load(Ordering::Relaxed)
    }

    pub(super) fn add(&self, cases: usize) {
        self.done.fetch_add(cases, Ordering::Relaxed);
    }
}
