//! Where a result comes from: its formula, every number in it with unit and origin, the source of each
//! equation, and what the model leaves out.
//!
//! An explanation is written for one design. A *term* is a leaf: an input, another result, a number read
//! from a table. A *step* is a formula over terms and earlier steps; the last one is the result. Formulas
//! are evaluated as they are printed and held against what the rooms compute, so that an explanation
//! cannot drift away from the model: one that does not give its number is refused.

mod airframe;
mod ascent;
mod bolts;
mod burst;
mod closures;
mod drag;
mod estimate;
mod fittings;
mod flight_loads;
mod formula;
mod geometry;
mod inertia;
mod junctions;
mod known_error;
mod load;
mod margins;
mod mass;
mod masses;
mod pressures;
mod printed;
mod rising;
mod seams;
mod sheet;
mod stability;
mod tank;
mod thrust;
mod wall;

use super::sheet::read_flight;
use crate::ascent::Flight;
use crate::error::{Error, Result};
use crate::quantity::Quantity;
use crate::stage::chain::Settled;
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::schema::{INPUTS, RESULTS, is_margin, outcome_slots};
use crate::stage::given::Stage;
use crate::vessel::rule_set::{self, BurstBasis};
use sheet::Sheet;
use std::collections::HashMap;

/// Unit of a number: that of a quantity, or an SI unit for which there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unit {
    /// A quantity, printed in its own unit.
    Of(Quantity),
    /// An SI unit as it stands.
    Si(&'static str),
}

impl From<Quantity> for Unit {
    fn from(quantity: Quantity) -> Self {
        Self::Of(quantity)
    }
}

/// A leaf of an explanation.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// Name in the formulas.
    pub symbol: String,
    /// Path of the input or result; none for a number that is neither.
    pub path: Option<String>,
    /// What it is.
    pub doc: String,
    /// Its unit.
    pub unit: Unit,
    /// Its value, SI.
    pub value: f64,
    /// Where it comes from, in words.
    pub origin: String,
    /// Published source of the value, or empty.
    pub source: String,
    /// Path to ask for next, if it is a result.
    pub ask: Option<String>,
}

/// A formula and what it gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Name of what it gives.
    pub symbol: String,
    /// Arithmetic over the symbols of terms and earlier steps.
    pub formula: String,
    /// What it gives, in words.
    pub doc: String,
    /// Its unit.
    pub unit: Unit,
    /// Its value, SI.
    pub value: f64,
    /// Source of the equation.
    pub source: String,
}

/// A factor of the rule set and where it is written.
#[derive(Debug, Clone, PartialEq)]
pub struct Factor {
    /// Path of the factor.
    pub path: &'static str,
    /// Its value.
    pub value: f64,
    /// Name of the rule set.
    pub rule_set: String,
    /// Document, edition, paragraph; empty for factors of one's own without a source.
    pub source: String,
    /// What the rule set covers; empty for factors of one's own.
    pub scope: String,
}

/// The margin nearest to the one explained.
#[derive(Debug, Clone, PartialEq)]
pub struct Next {
    /// Whether the margin explained governs.
    pub governs: bool,
    /// The next-smallest margin and its value; none if there is no larger one.
    pub margin: Option<(String, f64)>,
}

/// Where a result comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Explanation {
    /// Path of the result.
    pub path: String,
    /// What it is.
    pub doc: &'static str,
    /// Its quantity.
    pub quantity: Quantity,
    /// Its value, SI.
    pub value: f64,
    /// Leaves, in the order they are needed.
    pub terms: Vec<Term>,
    /// Formulas in the order of the calculation. The last gives the result, unless there is a method.
    pub steps: Vec<Step>,
    /// How a result without closed formula comes about, and the source of the equations.
    pub method: Option<(String, String)>,
    /// What the model leaves out: row of the model table, and a sentence.
    pub known_error: (&'static str, &'static str),
    /// The rule set's factor that enters.
    pub factor: Option<Factor>,
    /// For a margin: where it stands among the others.
    pub next: Option<Next>,
}

impl Stage {
    /// Explains one result of this design.
    ///
    /// Errors: the path is unknown, is an input, does not apply to this stage, or the design has a fault.
    ///
    /// ```
    /// use hoopline::stage::Stage;
    /// let stage = Stage::load("python/hoopline/examples/petrel_slim.toml".as_ref())?;
    /// let proof = stage.explain("pressures.proof")?;
    /// let last = proof.steps.last().unwrap();
    /// assert_eq!(last.formula, "proof_factor * meop");
    /// assert_eq!(last.value, proof.value);
    /// # Ok::<(), hoopline::Error>(())
    /// ```
    pub fn explain(&self, path: &str) -> Result<Explanation> {
        let slot = self.explainable(path)?;
        read_flight(self, |flight, settled, outcome| {
            self.written(slot, flight, settled, outcome)
        })?
    }

    /// The explanation of the result of a slot.
    fn written(
        &self,
        slot: usize,
        flight: &Flight<'_, f64>,
        settled: &Settled<f64>,
        outcome: &Outcome<f64>,
    ) -> Result<Explanation> {
        let field = &RESULTS.fields[slot];
        let path = field.path.as_str();
        let form = self.form();
        let mut sheet = Sheet {
            stage: self,
            form,
            point: self.point(),
            settled,
            outcome,
            flight,
            results: outcome_slots(outcome, 0.0),
            path,
            terms: Vec::new(),
            steps: Vec::new(),
            at: 0,
            known: HashMap::new(),
            faults: Vec::new(),
        };
        let method = write(&mut sheet);
        sheet.checked()?;
        if method.is_none() {
            sheet.prune();
        }
        let factor = self.factor(&sheet);
        let Sheet {
            terms,
            steps,
            results,
            ..
        } = sheet;
        Ok(Explanation {
            path: path.to_owned(),
            doc: field.doc,
            quantity: field.quantity,
            value: results[slot],
            terms,
            steps,
            method,
            known_error: known_error::of(path, form),
            factor,
            next: self.next(path, &results),
        })
    }

    fn explainable(&self, path: &str) -> Result<usize> {
        if let Some(slot) = INPUTS.slot(path) {
            return Err(Error::Inconsistent(match self.input(slot) {
                Ok(()) => format!(
                    "{path} is an input, not a result: it is {}",
                    crate::quantity::show(self.slots()[slot], INPUTS.fields[slot].quantity)
                ),
                Err(reason) => format!("{path} is an input, not a result, and {reason}"),
            }));
        }
        let slot = RESULTS.find(path, "result")?;
        let field = &RESULTS.fields[slot];
        if path.starts_with("status.") || !self.form().applies(field.applies, field.index) {
            return Err(Error::does_not_apply(&format!("result {path}")));
        }
        Ok(slot)
    }

    fn factor(&self, sheet: &Sheet<'_>) -> Option<Factor> {
        let burst = match self.form().tank.as_ref().map(|side| side.burst_basis) {
            Some(BurstBasis::Proof) => "rule_set.burst_ratio",
            _ => "rule_set.burst_factor",
        };
        let paths = [burst, "rule_set.proof_factor"];
        let of_pressure = [("pressures.burst", paths[0]), ("pressures.proof", paths[1])];
        let used = |path: &str| {
            sheet
                .terms
                .iter()
                .any(|term| term.path.as_deref() == Some(path))
        };
        let path = paths.into_iter().find(|path| used(path)).or_else(|| {
            let through = of_pressure.iter().find(|(pressure, _)| used(pressure));
            through.map(|(_, path)| *path)
        })?;
        let (name, source) = &self.labels().rule_set;
        let published = rule_set::named(name);
        Some(Factor {
            path,
            value: self.slots()[INPUTS.slot(path)?],
            rule_set: name.clone(),
            source: source.clone(),
            scope: published.map_or(String::new(), |known| known.scope.clone()),
        })
    }

    fn next(&self, path: &str, results: &[f64]) -> Option<Next> {
        if !is_margin(path) {
            return None;
        }
        let margins = self.margins(results);
        let place = margins.iter().position(|(known, _)| *known == path)?;
        Some(Next {
            governs: place == 0,
            margin: margins
                .get(place + 1)
                .map(|(path, value)| ((*path).to_owned(), *value)),
        })
    }
}

/// Writes the sheet of a result; for one without closed formula, how it comes about.
fn write(sheet: &mut Sheet<'_>) -> Option<(String, String)> {
    let (group, leaf) = sheet.path.split_once('.')?;
    match group {
        "load" => load::write(sheet, leaf),
        "pressures" => pressures::write(sheet, leaf),
        "geometry" => return geometry::write(sheet, leaf),
        "tank" => tank::write(sheet, leaf),
        "mass" => mass::write(sheet, leaf),
        "airframe" => airframe::write(sheet, leaf),
        "drag" => drag::write(sheet, leaf),
        "thrust" => thrust::write(sheet, leaf),
        "ascent" => return Some(ascent::write(sheet, leaf)),
        "estimate" => estimate::write(sheet, leaf),
        "flight_loads" => return flight_loads::write(sheet, leaf),
        "margins" => margins::write(sheet, leaf),
        _ => {}
    }
    None
}
