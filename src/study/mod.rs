//! Many designs: a full grid over inputs and choices.

mod plan;
mod progress;
mod sweep;

pub use progress::Progress;
pub use sweep::{Axis, Sweep, sweep};
