//! `Stage`.

use crate::error::Error;
use crate::stage;
use crate::vessel::WallChoice;
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
        Ok(Self(crate::study::load_stage(&path)?))
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

    /// Outlines of vehicle and tank as JSON text.
    fn layout(&self) -> PyResult<String> {
        Ok(self.0.layout()?.to_string())
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

    /// Every row a name of this stage can stand for, as JSON text.
    fn catalogue(&self) -> String {
        self.0.catalogue_json()
    }

    /// Where an input's value comes from.
    fn source(&self, path: &str) -> PyResult<String> {
        Ok(self.0.source(path)?)
    }

    /// Every step of the ascent as JSON text: columns with units, and the phase of each row.
    fn history(&self) -> PyResult<String> {
        Ok(self.0.history_json()?)
    }

    /// The tank's wall through its pressures as JSON text, of the minimum or the nominal wall.
    fn load_history(&self, nominal: bool) -> PyResult<String> {
        let wall = if nominal {
            WallChoice::Nominal
        } else {
            WallChoice::Minimum
        };
        Ok(self.0.load_history_json(wall)?)
    }

    /// Stress along the meridian at both junctions of cylinder and closure, at proof pressure, as JSON text.
    fn junctions(&self) -> PyResult<String> {
        Ok(self.0.junctions_json()?)
    }

    /// The overwrap as it is wound as JSON text: rows of plies, totals, paths, build-ups, cautions.
    fn winding(&self) -> PyResult<String> {
        Ok(self.0.winding_json()?)
    }

    /// Temperature, cycles and damage of the tank in service as JSON text: values, notes, what is not judged,
    /// columns of the flight, cautions.
    fn service(&self) -> PyResult<String> {
        Ok(self.0.service_json()?)
    }

    /// Attachment fittings as JSON text: of each its loads and margins in each case.
    fn fittings(&self) -> PyResult<String> {
        Ok(self.0.fittings_json()?)
    }

    /// Thrust and propellant left over time as JSON text.
    fn thrust_sheet(&self) -> PyResult<String> {
        Ok(self.0.thrust_json()?)
    }

    /// Drag coefficients over Mach number, as the ascent takes them at an altitude above sea level, m,
    /// as JSON text.
    fn drag_sheet(&self, altitude: f64) -> PyResult<String> {
        Ok(self.0.drag_json(altitude)?)
    }
}
