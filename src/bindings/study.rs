//! Study files.

use super::stage::Stage;
use crate::study::StudyFile;
use pyo3::prelude::*;
use serde_json::Value;
use std::path::PathBuf;

/// Reads a study file: the stage it is about, and its tables as JSON text.
#[pyfunction]
pub fn read_study(path: PathBuf) -> PyResult<(Stage, String)> {
    let study = StudyFile::load(&path)?;
    Ok((Stage(study.stage), Value::Object(study.tree).to_string()))
}
