//! The best design of all combinations, its runners-up, and what stands in the way of a better one.

use super::bound::Bound;
use super::candidate::{Candidate, Standing};
use super::combination::{Continuous, Searched, search};
use super::conflict::in_the_way;
use super::judge::cancelled;
use super::problem::{
    LEAST_SCAN, MAX_COMBINATIONS, MAX_CONTINUOUS, MAX_SCAN, Method, Problem, Variable,
};
use crate::error::{Error, Result};
use crate::stage::{SAFETY, Stage};
use crate::study::digits::digits;
use crate::study::pool::pool;
use crate::study::progress::Progress;
use rayon::prelude::*;
use serde_json::{Value, json};

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct Optimum {
    /// Every design the search ended at: those that meet all bounds by the goal, then the violated
    /// ones, least violated first, then combinations without results. The first is the best.
    pub candidates: Vec<Candidate>,
    /// Where only listed values vary: the least violated of the designs that are better by the goal
    /// than the best one, which shows what stands in the way.
    pub next: Option<usize>,
    /// Bounds that no design looked at meets, whatever else holds.
    pub never: Vec<Bound>,
    /// Bounds that no design looked at meets together, though each is met by some.
    pub conflict: Vec<Bound>,
    /// Limits of what varied between two, SI.
    pub ranges: Vec<(String, (f64, f64))>,
    /// Designs computed.
    pub evaluations: usize,
}

impl Optimum {
    /// Whether a design meets every bound.
    pub fn feasible(&self) -> bool {
        let best = self.candidates.first();
        best.is_some_and(|best| best.standing == Standing::MeetsAll)
    }

    /// As JSON.
    pub fn json(&self) -> Value {
        let words = |bounds: &[Bound]| bounds.iter().map(Bound::words).collect::<Vec<_>>();
        json!({
            "candidates": self.candidates.iter().map(Candidate::json).collect::<Vec<_>>(),
            "next": self.next,
            "never": words(&self.never),
            "conflict": words(&self.conflict),
            "ranges": self.ranges,
            "evaluations": self.evaluations,
            "safety": SAFETY,
        })
    }
}

/// Searches the best design around a stage. The outcome does not depend on the number of threads.
/// A combination of listed values that cannot be built is a candidate without results; an unreadable
/// value is an error before anything is computed.
pub fn optimise(
    stage: &Stage,
    problem: &Problem,
    method: Method,
    watch: &Progress,
) -> Result<Optimum> {
    let (listed, continuous) = variables(stage, problem, method)?;
    let combinations = combinations(&listed)?;
    if method.scanned(problem) > MAX_SCAN {
        return Err(Error::Inconsistent(format!(
            "this search would scan more than {MAX_SCAN} designs; lower scan, or list fewer values"
        )));
    }
    let searched: Vec<Result<Searched>> = pool(method.threads)?.install(|| {
        let combinations = combinations.par_iter();
        combinations
            .map(|listed| search(stage, problem, listed, &continuous, watch))
            .collect()
    });
    if watch.is_cancelled() {
        return Err(cancelled(watch));
    }
    let (mut candidates, mut looked, mut evaluations) = (Vec::new(), Vec::new(), 0);
    let mut refused = None;
    for (searched, listed) in searched.into_iter().zip(combinations) {
        match searched {
            Ok(searched) => {
                candidates.extend(searched.candidates);
                looked.push(searched.looked);
                evaluations += searched.evaluations;
            }
            Err(error) if error.is_unbuildable() => {
                candidates.push(Candidate::without_results(listed, error.to_string()));
                refused.get_or_insert(error);
            }
            Err(error) => return Err(error),
        }
    }
    if let (true, Some(error)) = (looked.is_empty(), refused) {
        return Err(error);
    }
    candidates.sort_by(|a, b| {
        let violated = b.worst.total_cmp(&a.worst);
        let order = a.standing.cmp(&b.standing);
        order.then(match a.standing {
            Standing::MeetsAll => a.cost.total_cmp(&b.cost),
            _ => violated,
        })
    });
    let mut optimum = Optimum {
        next: None,
        never: Vec::new(),
        conflict: Vec::new(),
        ranges: continuous
            .paths
            .into_iter()
            .zip(continuous.limits)
            .collect(),
        evaluations,
        candidates,
    };
    if !optimum.feasible() {
        let found = in_the_way(&looked);
        (optimum.never, optimum.conflict) = (found.never, found.together);
    } else if continuous.slots.is_empty() {
        let best = optimum.candidates[0].cost;
        optimum.next = optimum.candidates.iter().position(|candidate| {
            candidate.standing == Standing::Violates && candidate.cost < best
        });
    }
    Ok(optimum)
}

type Listed = Vec<(String, Vec<Value>)>;

/// The variables apart by kind.
fn variables(stage: &Stage, problem: &Problem, method: Method) -> Result<(Listed, Continuous)> {
    let mut listed: Listed = Vec::new();
    let mut continuous = Continuous {
        paths: Vec::new(),
        slots: Vec::new(),
        limits: Vec::new(),
        points: 1,
    };
    if problem.vary.is_empty() {
        return Err(Error::Inconsistent("there is nothing to vary".to_owned()));
    }
    for (index, variable) in problem.vary.iter().enumerate() {
        let path = variable.path();
        if problem.vary[..index]
            .iter()
            .any(|other| other.path() == path)
        {
            return Err(Error::Inconsistent(format!("{path} is varied twice")));
        }
        match variable {
            Variable::Continuous { lower, upper, .. } => {
                continuous.take(stage, path, lower, upper)?;
            }
            Variable::Listed { values, .. } if values.is_empty() => {
                return Err(Error::Inconsistent(format!("{path} has no values to try")));
            }
            Variable::Listed { values, .. } => listed.push((path.to_owned(), values.clone())),
        }
    }
    let count = continuous.slots.len();
    if count > MAX_CONTINUOUS {
        return Err(Error::Inconsistent(format!(
            "{count} ranges are more than the {MAX_CONTINUOUS} that a search takes; list values for \
             some, or fix them"
        )));
    }
    if count > 0 {
        continuous.points = method.points(count);
        if continuous.points < LEAST_SCAN {
            return Err(Error::Inconsistent(format!(
                "scan = {}: at least {LEAST_SCAN} points along a range are needed",
                continuous.points
            )));
        }
    }
    Ok((listed, continuous))
}

/// Every combination of the listed values, the first variable slowest; a single empty one if nothing
/// is listed.
fn combinations(listed: &Listed) -> Result<Vec<Vec<(String, Value)>>> {
    let count = listed
        .iter()
        .try_fold(1usize, |count, (_, values)| count.checked_mul(values.len()))
        .filter(|count| *count <= MAX_COMBINATIONS)
        .ok_or_else(|| {
            Error::Inconsistent(format!(
                "more than {MAX_COMBINATIONS} combinations of listed values; list fewer, or sweep"
            ))
        })?;
    let combination = |index: usize| {
        let last_first = listed.iter().rev();
        let digits = digits(index, last_first.clone().map(|(_, values)| values.len()));
        let mut values: Vec<(String, Value)> = last_first
            .zip(digits)
            .map(|((path, values), digit)| (path.clone(), values[digit].clone()))
            .collect();
        values.reverse();
        values
    };
    Ok((0..count).map(combination).collect())
}
