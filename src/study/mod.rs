//! Many designs: a full grid over inputs and choices, and the search for the best of them.

mod door;
mod file;
mod optimise;
mod plan;
mod pool;
mod progress;
mod sweep;

pub use door::{FileKind, check, load_stage, load_study, rows_json};
pub use file::{STUDY_TABLES, StudyFile, TableNames};
pub use optimise::{
    Bound, Candidate, Constraint, Direction, Goal, Held, MAX_COMBINATIONS, MAX_CONTINUOUS,
    MAX_SCAN, Method, Optimum, Problem, Side, Standing, Variable, optimise,
};
pub use plan::{Axis, MAX_CASES};
pub use pool::MAX_THREADS;
pub use progress::Progress;
pub use sweep::{Sweep, sweep};
