//! `Stage`.

use crate::error::Error;
use crate::stage;
use pyo3::prelude::*;
use std::path::PathBuf;

/// A stage as given, resolved and immutable.
#[pyclass(frozen, module = "hoopline._core", name = "Stage")]
pub struct Stage(pub(super) stage::Stage);

#[pymethods]
impl Stage {
    /// Loads a stage file.
    #[staticmethod]
    fn load(path: PathBuf) -> PyResult<Self> {
        Ok(Self(stage::Stage::load(&path)?))
    }

    /// Reads a stage from nested tables as JSON text; bare numbers count as SI.
    #[staticmethod]
    fn from_json(text: &str) -> PyResult<Self> {
        Ok(Self(stage::Stage::from_json(text)?))
    }

    /// Rebuilds a stage from what `store` wrote.
    #[staticmethod]
    fn restore(text: &str) -> PyResult<Self> {
        Ok(Self(stage::Stage::restore(text)?))
    }

    /// The stage as text.
    fn store(&self) -> String {
        self.0.store()
    }

    /// Name of the stage.
    #[getter]
    fn name(&self) -> &str {
        &self.0.labels().name
    }

    /// What the stage is.
    #[getter]
    fn description(&self) -> &str {
        &self.0.labels().description
    }

    /// SHA-256 over everything that enters the results.
    #[getter]
    fn digest(&self) -> String {
        self.0.digest()
    }

    /// The follow rules as JSON text.
    fn follow(&self) -> String {
        serde_json::Value::Object(self.0.follow_rules()).to_string()
    }

    /// The stage with inputs replaced; takes a JSON object of dotted paths and values.
    fn replace(&self, changes: &str) -> PyResult<Self> {
        let changes: serde_json::Map<String, serde_json::Value> = serde_json::from_str(changes)
            .map_err(|error| Error::Inconsistent(format!("changes are not readable: {error}")))?;
        let changes: Vec<_> = changes.into_iter().collect();
        Ok(Self(self.0.replace(&changes)?))
    }

    /// The assessment as JSON text.
    fn assess(&self) -> PyResult<String> {
        Ok(self.0.assess_json()?)
    }

    /// What the known errors of the drag models mean for the apogee, as JSON text.
    fn bands(&self) -> String {
        self.0.bands_json()
    }

    /// Where a result comes from, as JSON text.
    fn explain(&self, path: &str) -> PyResult<String> {
        Ok(self.0.explain_json(path)?)
    }

    /// The inputs of this stage as JSON text.
    fn inputs(&self) -> String {
        self.0.inputs_json()
    }
}
