//! Study files.

use super::stage::Stage;
use crate::study;
use pyo3::prelude::*;
use serde_json::Value;
use std::path::PathBuf;

/// Reads a study file: the stage it is about, and its tables as JSON text.
#[pyfunction]
pub fn read_study(path: PathBuf) -> PyResult<(Stage, String)> {
    let study = study::load_study(&path)?;
    Ok((Stage(study.stage), Value::Object(study.tree).to_string()))
}

/// The rows that names can stand for in a file, or without one the shipped ones, as JSON text.
#[pyfunction]
#[pyo3(signature = (path=None))]
pub fn rows_on_record(path: Option<PathBuf>) -> PyResult<String> {
    Ok(study::rows_json(path.as_deref())?)
}

/// Reads a stage, study or catalogue file for the mistakes in it.
#[pyfunction]
pub fn check_file(path: PathBuf) -> PyResult<()> {
    study::check(&path)?;
    Ok(())
}
