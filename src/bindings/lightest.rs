//! The search for the lightest tank.

use super::optimise::{Limits, constraints};
use super::stage::Stage;
use super::watched::watched;
use crate::error::{Error, Result};
use crate::study::{self, Axis, TankSearch};
use numpy::{IntoPyArray, PyArray1};
use pyo3::prelude::*;
use serde_json::Value;

type Column<'py> = Bound<'py, PyArray1<f64>>;
type Found<'py> = (String, Column<'py>, Column<'py>, Column<'py>, Column<'py>);

/// Finds the lightest tank of a list of options. `search` is JSON text `{"vary": [[path, [value, ...]],
/// ...], "subject_to": [[path, at_least, at_most], ...], "keep": count}`; returns JSON text, the three
/// numbers of every option's verdict, and the mass of its tank.
#[pyfunction]
#[pyo3(signature = (stage, search, threads = None, progress = None))]
pub fn lightest_tank<'py>(
    py: Python<'py>,
    stage: &Stage,
    search: &str,
    threads: Option<usize>,
    progress: Option<Py<PyAny>>,
) -> PyResult<Found<'py>> {
    let search = read_search(search, threads)?;
    let total = search.axes.iter().map(|axis| axis.values.len()).product();
    let found = watched(py, total, progress, |watch| {
        study::lightest_tank(&stage.0, &search, watch)
    })?;
    let column = |number: usize| -> Vec<f64> {
        let verdicts = found.verdicts.iter();
        verdicts.map(|verdict| verdict.numbers()[number]).collect()
    };
    Ok((
        found.json().to_string(),
        column(0).into_pyarray(py),
        column(1).into_pyarray(py),
        column(2).into_pyarray(py),
        found.masses.into_pyarray(py),
    ))
}

fn read_search(text: &str, threads: Option<usize>) -> Result<TankSearch> {
    let unreadable = || Error::Inconsistent("the search is not readable".to_owned());
    let search: Value = serde_json::from_str(text).map_err(|_| unreadable())?;
    let part = |name: &str| search.get(name).cloned().unwrap_or(Value::Null);
    let vary: Vec<(String, Vec<Value>)> =
        serde_json::from_value(part("vary")).map_err(|_| unreadable())?;
    let subject_to: Vec<Limits> =
        serde_json::from_value(part("subject_to")).map_err(|_| unreadable())?;
    let axes = vary.into_iter().map(|(path, values)| Axis { path, values });
    Ok(TankSearch {
        axes: axes.collect(),
        subject_to: constraints(subject_to),
        keep: serde_json::from_value(part("keep")).map_err(|_| unreadable())?,
        threads,
    })
}
