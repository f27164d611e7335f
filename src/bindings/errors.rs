//! Errors towards Python. The classes live in `hoopline.errors`, so that they pickle.

use crate::error::Error;
use pyo3::PyErr;
use pyo3::exceptions::PyKeyboardInterrupt;

pyo3::import_exception!(hoopline.errors, InputError);
pyo3::import_exception!(hoopline.errors, DataError);

impl From<Error> for PyErr {
    fn from(error: Error) -> Self {
        let text = error.to_string();
        match error {
            Error::File { .. }
            | Error::Mistakes {
                unreadable_files: true,
                ..
            } => DataError::new_err(text),
            Error::Cancelled { .. } => PyKeyboardInterrupt::new_err(text),
            _ => InputError::new_err(text),
        }
    }
}
