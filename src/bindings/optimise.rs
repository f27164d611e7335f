//! The search for the best design.

use super::stage::Stage;
use super::watched::watched;
use crate::error::{Error, Result};
use crate::study::{self, Constraint, Direction, Goal, Method, Problem, Variable};
use pyo3::prelude::*;
use serde_json::Value;

/// Searches the best design. `problem` is JSON text `{"goal": path, "minimise": bool, "vary": [[path,
/// [lower, upper] | null, [value, ...] | null], ...], "subject_to": [[path, at_least, at_most], ...] |
/// null}`; returns JSON text.
#[pyfunction]
#[pyo3(signature = (stage, problem, scan = None, threads = None, progress = None))]
pub fn optimise(
    py: Python<'_>,
    stage: &Stage,
    problem: &str,
    scan: Option<usize>,
    threads: Option<usize>,
    progress: Option<Py<PyAny>>,
) -> PyResult<String> {
    let problem = read_problem(problem)?;
    let method = Method { scan, threads };
    let total = method.scanned(&problem);
    let found = watched(py, total, progress, |watch| {
        study::optimise(&stage.0, &problem, method, watch)
    })?;
    Ok(found.json().to_string())
}

pub(super) type Limits = (String, Option<Value>, Option<Value>);
type Varied = (String, Option<(Value, Value)>, Option<Vec<Value>>);

/// Limits as constraints.
pub(super) fn constraints(limits: Vec<Limits>) -> Vec<Constraint> {
    let limits = limits.into_iter();
    limits
        .map(|(path, at_least, at_most)| Constraint {
            path,
            at_least,
            at_most,
        })
        .collect()
}

fn read_problem(text: &str) -> Result<Problem> {
    let unreadable = || Error::Inconsistent("the search is not readable".to_owned());
    let problem: Value = serde_json::from_str(text).map_err(|_| unreadable())?;
    let part = |name: &str| problem.get(name).cloned().unwrap_or(Value::Null);
    let vary: Vec<Varied> = serde_json::from_value(part("vary")).map_err(|_| unreadable())?;
    let subject_to: Option<Vec<Limits>> =
        serde_json::from_value(part("subject_to")).map_err(|_| unreadable())?;
    let variable = |(path, range, values): Varied| match (range, values) {
        (Some((lower, upper)), _) => Variable::Continuous { path, lower, upper },
        (None, values) => Variable::Listed {
            path,
            values: values.unwrap_or_default(),
        },
    };
    Ok(Problem {
        goal: Goal {
            direction: if part("minimise") == Value::Bool(true) {
                Direction::Minimise
            } else {
                Direction::Maximise
            },
            path: part("goal").as_str().ok_or_else(unreadable)?.to_owned(),
        },
        vary: vary.into_iter().map(variable).collect(),
        subject_to: subject_to.map(constraints),
    })
}
