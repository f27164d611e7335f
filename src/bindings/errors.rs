//! Errors towards Python. The classes live in `hoopline.errors`, so that they pickle.

use crate::error::Error;
use crate::problem::{Problem, listed};
use pyo3::exceptions::PyKeyboardInterrupt;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

pyo3::import_exception!(hoopline.errors, InputError);
pyo3::import_exception!(hoopline.errors, DataError);

impl From<Error> for PyErr {
    fn from(error: Error) -> Self {
        match error {
            Error::File { .. }
            | Error::Mistakes {
                unreadable_files: true,
                ..
            } => DataError::new_err(Found(error)),
            Error::Cancelled { .. } => PyKeyboardInterrupt::new_err(error.to_string()),
            _ => InputError::new_err(Found(error)),
        }
    }
}

/// What an error of ours is made from: its text, its problems, its text in colour.
struct Found(Error);

impl pyo3::PyErrArguments for Found {
    fn arguments(self, python: Python<'_>) -> Py<PyAny> {
        let (problems, more) = self.0.problems();
        let text = listed(&problems, more, false);
        // Without the class of problems the text is still told.
        self.with_problems(python, &text).unwrap_or_else(|_| {
            PyTuple::new(python, [&text])
                .map_or_else(|_| python.None(), |one| one.into_any().unbind())
        })
    }
}

impl Found {
    fn with_problems(&self, python: Python<'_>, text: &str) -> PyResult<Py<PyAny>> {
        let class = python.import("hoopline.problem")?.getattr("Problem")?;
        let (problems, more) = self.0.problems();
        let made = problems
            .iter()
            .map(|problem| class.call((), Some(&fields(python, problem)?)))
            .collect::<PyResult<Vec<_>>>()?;
        let made = PyTuple::new(python, made)?;
        let coloured = listed(&problems, more, true);
        Ok((text, made, coloured)
            .into_pyobject(python)?
            .into_any()
            .unbind())
    }
}

fn fields<'py>(python: Python<'py>, problem: &Problem) -> PyResult<Bound<'py, PyDict>> {
    let fields = PyDict::new(python);
    let place = problem.place.as_ref();
    fields.set_item("file", place.map(|place| place.file.display().to_string()))?;
    fields.set_item("line", place.map(|place| place.line))?;
    fields.set_item("column", place.map(|place| place.column))?;
    fields.set_item("path", &problem.path)?;
    fields.set_item("message", problem.printable_message())?;
    fields.set_item("help", problem.printable_hint())?;
    fields.set_item("snippet", problem.snippet(false))?;
    Ok(fields)
}
