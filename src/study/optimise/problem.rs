//! What is searched for: the goal, the variables, the constraints; and the preset of the method.

use serde_json::Value;

/// Which way the goal goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// The smallest value is sought.
    Minimise,
    /// The largest value is sought.
    Maximise,
}

/// One result, to be made small or large.
#[derive(Debug, Clone, PartialEq)]
pub struct Goal {
    /// Which way.
    pub direction: Direction,
    /// Path of a result.
    pub path: String,
}

/// What may change. Values are SI numbers, texts with a unit, or words of a choice.
#[derive(Debug, Clone, PartialEq)]
pub enum Variable {
    /// A number, anywhere between two limits.
    Continuous {
        /// Path of an input.
        path: String,
        /// Lower limit.
        lower: Value,
        /// Upper limit.
        upper: Value,
    },
    /// A number, a choice or a row on record, at one of the values listed.
    Listed {
        /// Path.
        path: String,
        /// The values.
        values: Vec<Value>,
    },
}

impl Variable {
    /// Its path.
    pub fn path(&self) -> &str {
        match self {
            Self::Continuous { path, .. } | Self::Listed { path, .. } => path,
        }
    }
}

/// A result held between limits: SI numbers or texts with a unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Constraint {
    /// Path of a result, or `margins` for every margin that applies.
    pub path: String,
    /// Smallest value allowed.
    pub at_least: Option<Value>,
    /// Largest value allowed.
    pub at_most: Option<Value>,
}

/// The problem: goal, variables, constraints.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// What is made small or large.
    pub goal: Goal,
    /// What may change, in the order that settles ties.
    pub vary: Vec<Variable>,
    /// What must hold. None: no margin negative, and every requirement of the stage that names a
    /// result; a rule of our own.
    pub subject_to: Option<Vec<Constraint>>,
}

/// How the search is run. Every preset is our own.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Method {
    /// Points of the scan along each continuous variable; by their number if not given.
    pub scan: Option<usize>,
    /// Threads; as many as there are if not given. The outcome does not depend on it.
    pub threads: Option<usize>,
}

/// Most continuous variables taken.
pub const MAX_CONTINUOUS: usize = 4;
/// Most combinations of listed values taken.
pub const MAX_COMBINATIONS: usize = 10_000;
/// Most points of a scan, all combinations together.
pub const MAX_SCAN: usize = 1_000_000;
/// Points along each variable for one to four of them, our own.
const SCAN: [usize; MAX_CONTINUOUS] = [129, 33, 13, 8];
/// Fewest points along a variable with which a scan says anything.
pub(in crate::study) const LEAST_SCAN: usize = 3;

impl Method {
    /// How many designs the scan looks at before the search closes in, for a bar of progress.
    pub fn scanned(&self, problem: &Problem) -> usize {
        let mut continuous = 0;
        let mut combinations = 1usize;
        for variable in &problem.vary {
            match variable {
                Variable::Continuous { .. } => continuous += 1,
                Variable::Listed { values, .. } => {
                    combinations = combinations.saturating_mul(values.len());
                }
            }
        }
        let grid = self.points(continuous).saturating_pow(continuous as u32);
        grid.saturating_mul(combinations)
    }

    /// Points along each of `continuous` variables.
    pub(super) fn points(&self, continuous: usize) -> usize {
        let preset = SCAN[continuous.clamp(1, MAX_CONTINUOUS) - 1];
        self.scan.unwrap_or(preset)
    }
}
