//! Long calls: the work runs on a thread of its own without the interpreter's lock, while the
//! calling thread watches for Ctrl-C and reports progress.

use super::stage::Stage;
use crate::error::{Error, Result};
use crate::study::{self, Axis, Progress, Sweep};
use numpy::{IntoPyArray, PyArray1};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::Duration;

type Columns<'py> = (
    Bound<'py, PyDict>,
    Bound<'py, PyArray1<f64>>,
    Bound<'py, PyArray1<f64>>,
);

/// How often Ctrl-C and progress are looked at.
const LOOK: Duration = Duration::from_millis(50);

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

/// Runs `work` beside the interpreter. An exception raised by a signal or by the progress callback
/// stops the work and is raised once it has stopped.
fn watched<T: Send>(
    py: Python<'_>,
    total: usize,
    callback: Option<Py<PyAny>>,
    work: impl FnOnce(&Progress) -> Result<T> + Send,
) -> PyResult<T> {
    let progress = Progress::default();
    let watch = &progress;
    py.detach(|| {
        std::thread::scope(|scope| {
            let (sender, receiver) = channel();
            let worker = scope.spawn(move || {
                let result = work(watch);
                // The receiver outlives the worker; a failed send could only mean it is gone.
                let _ = sender.send(());
                result
            });
            let mut raised = None;
            while let Err(RecvTimeoutError::Timeout) = receiver.recv_timeout(LOOK) {
                let looked = Python::attach(|py| {
                    py.check_signals()?;
                    match &callback {
                        Some(callback) => callback.call1(py, (watch.done(), total)).map(|_| ()),
                        None => Ok(()),
                    }
                });
                if let (Err(error), true) = (looked, raised.is_none()) {
                    watch.cancel();
                    raised = Some(error);
                }
            }
            let result = worker.join();
            if let Some(error) = raised {
                return Err(error);
            }
            let value = match result {
                Ok(result) => result?,
                Err(_) => {
                    return Err(Error::Inconsistent(
                        "a worker thread failed unexpectedly; please report the inputs".to_owned(),
                    )
                    .into());
                }
            };
            if let Some(callback) = &callback {
                Python::attach(|py| callback.call1(py, (total, total)))?;
            }
            Ok(value)
        })
    })
}
