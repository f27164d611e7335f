//! Many designs: a full grid over inputs and choices, and the search for the best of them.
//!
//! Takes a stage and what may vary; hands columns of results, or the best design, to Python. In reading
//! order:
//!
//! - `door` (which kind of file is at hand) and `file/` (study files);
//! - designs side by side: `blocks`; numbers of combinations: `digits`;
//! - a full grid: `plan`, `sweep`, on the threads of `pool`, watched through `progress`;
//! - the search: `optimise/`, from `problem` over `judge` and `combination` to `optimum`;
//! - the lightest tank of a list of options, over the plan of a grid: `lightest/`.
//!
//! Not in it yet: random samples within stated spreads (`sample`, beside `sweep`, over the same plan), and
//! the set of designs none of which beats another in every goal (`pareto`, over the columns of either).

mod blocks;
mod digits;
mod door;
mod file;
mod lightest;
mod optimise;
mod plan;
mod pool;
mod progress;
mod sweep;

pub use door::{FileKind, check, load_stage, load_study, rows_json};
pub use file::{STUDY_TABLES, StudyFile, TableNames};
pub use lightest::{LightestTank, MAX_KEPT, Ranked, TankSearch, Verdict, lightest_tank};
pub use optimise::{
    Bound, Candidate, Constraint, Direction, Goal, Held, MAX_COMBINATIONS, MAX_CONTINUOUS,
    MAX_SCAN, Method, Optimum, Problem, Side, Standing, Variable, optimise,
};
pub use plan::{Axis, MAX_CASES};
pub use pool::MAX_THREADS;
pub use progress::Progress;
pub use sweep::{Sweep, sweep};
