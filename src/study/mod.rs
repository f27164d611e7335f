//! Many designs: a full grid over inputs and choices.

mod plan;
mod progress;
mod sweep;

pub use plan::{Axis, MAX_CASES};
pub use progress::Progress;
pub use sweep::{MAX_THREADS, Sweep, sweep};
