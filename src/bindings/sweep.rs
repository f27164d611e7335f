//! The sweep over a full grid.

use super::stage::Stage;
use super::watched::watched;
use crate::error::{Error, Result};
use crate::study::{self, Axis, Sweep};
use numpy::{IntoPyArray, PyArray1};
use pyo3::prelude::*;
use pyo3::types::PyDict;

type Columns<'py> = (
    Bound<'py, PyDict>,
    Bound<'py, PyArray1<f64>>,
    Bound<'py, PyArray1<f64>>,
);

/// Evaluates a full grid. `axes` is JSON text `[[path, [value, ...]], ...]`; returns result columns
/// by path, status numbers and status values.
#[pyfunction]
#[pyo3(signature = (stage, axes, threads = None, progress = None))]
pub fn sweep<'py>(
    py: Python<'py>,
    stage: &Stage,
    axes: &str,
    threads: Option<usize>,
    progress: Option<Py<PyAny>>,
) -> PyResult<Columns<'py>> {
    let axes = read_axes(axes)?;
    let total = axes.iter().map(|axis| axis.values.len()).product();
    let result = watched(py, total, progress, |watch| {
        study::sweep(&stage.0, &axes, threads, watch)
    })?;
    let Sweep {
        columns,
        status,
        status_value,
    } = result;
    let table = PyDict::new(py);
    for (path, column) in columns {
        table.set_item(path, column.into_pyarray(py))?;
    }
    Ok((
        table,
        status.into_pyarray(py),
        status_value.into_pyarray(py),
    ))
}

fn read_axes(text: &str) -> Result<Vec<Axis>> {
    let pairs: Vec<(String, Vec<serde_json::Value>)> = serde_json::from_str(text)
        .map_err(|error| Error::Inconsistent(format!("axes are not readable: {error}")))?;
    Ok(pairs
        .into_iter()
        .map(|(path, values)| Axis { path, values })
        .collect())
}
