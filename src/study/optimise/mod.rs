//! The search for the best design: over listed values and, for each combination of them, along what
//! varies continuously.

pub(super) mod bound;
mod boundary;
mod brent;
mod candidate;
mod combination;
mod conflict;
mod judge;
mod line;
mod optimum;
mod polish;
pub(super) mod problem;
mod round;

pub use bound::{Bound, Side};
pub use candidate::{Candidate, Held, Standing};
pub use optimum::{Optimum, optimise};
pub use problem::{
    Constraint, Direction, Goal, MAX_COMBINATIONS, MAX_CONTINUOUS, MAX_SCAN, Method, Problem,
    Variable,
};
