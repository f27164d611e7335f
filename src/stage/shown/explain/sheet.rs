//! A calculation sheet in the making: terms as leaves, steps as formulas over them.

use super::formula::evaluate;
use super::{Step, Term, Unit};
use crate::ascent::Flight;
use crate::error::{Error, Result};
use crate::quantity::Quantity;
use crate::stage::chain::Settled;
use crate::stage::chain::form::Form;
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::point::Point;
use crate::stage::chain::schema::{INPUTS, RESULT_COUNT, RESULTS};
use crate::stage::given::Stage;
use std::collections::{HashMap, HashSet};
use std::f64::consts::PI;

/// What a step that only names something gives as its source.
pub(super) const DEFINITION: &str = "definition";
/// Source of a step that follows from geometry.
pub(super) const GEOMETRY: &str = "geometry";

/// How far a step may lie from what the room that owns it computes: rounding, never a different formula.
const AGREEMENT: f64 = 1e-9;

/// One design with its results, and what has been written down of it.
pub(super) struct Sheet<'a> {
    pub stage: &'a Stage,
    pub form: &'a Form,
    pub point: Point<f64>,
    pub settled: &'a Settled<f64>,
    pub outcome: &'a Outcome<f64>,
    pub flight: &'a Flight<'a, f64>,
    pub results: [f64; RESULT_COUNT],
    /// Path of the result explained.
    pub path: &'a str,
    pub terms: Vec<Term>,
    pub steps: Vec<Step>,
    /// Place of the step written or met last.
    pub at: usize,
    pub known: HashMap<String, f64>,
    pub faults: Vec<String>,
}

impl Sheet<'_> {
    /// An input as a leaf, with where its value comes from.
    pub fn input(&mut self, symbol: &str, path: &str) -> f64 {
        let Some(slot) = INPUTS.slot(path) else {
            return self.fail(format!("no input {path}"));
        };
        if let Err(error) = self.stage.input(slot) {
            return self.fail(format!("{path} is no input here: {error}"));
        }
        let field = &INPUTS.fields[slot];
        let value = self.stage.slots()[slot];
        let (origin, source) = self.stage.origin_and_source(slot);
        self.leaf(Term {
            symbol: symbol.to_owned(),
            path: Some(path.to_owned()),
            doc: field.doc.to_owned(),
            unit: field.quantity.into(),
            value,
            origin,
            source,
            ask: None,
        })
    }

    /// Another result as a leaf; its own explanation is asked for by its path.
    pub fn result(&mut self, symbol: &str, path: &str) -> f64 {
        let Some(slot) = RESULTS.slot(path) else {
            return self.fail(format!("no result {path}"));
        };
        let field = &RESULTS.fields[slot];
        self.leaf(Term {
            symbol: symbol.to_owned(),
            path: Some(path.to_owned()),
            doc: field.doc.to_owned(),
            unit: field.quantity.into(),
            value: self.results[slot],
            origin: "result".to_owned(),
            source: String::new(),
            ask: Some(path.to_owned()),
        })
    }

    /// A number that is neither an input nor a result, with where it comes from.
    pub fn term(
        &mut self,
        symbol: &str,
        unit: impl Into<Unit>,
        doc: &str,
        origin: &str,
        value: f64,
    ) -> f64 {
        self.leaf(Term {
            symbol: symbol.to_owned(),
            path: None,
            doc: doc.to_owned(),
            unit: unit.into(),
            value,
            origin: origin.to_owned(),
            source: String::new(),
            ask: None,
        })
    }

    fn leaf(&mut self, term: Term) -> f64 {
        let value = term.value;
        match self.known.insert(term.symbol.clone(), value) {
            None => self.terms.push(term),
            Some(before) if before == value => {}
            Some(_) => self
                .faults
                .push(format!("{} means two things", term.symbol)),
        }
        value
    }

    /// A step: its formula over what is known so far gives its value.
    pub fn step(
        &mut self,
        symbol: &str,
        formula: impl Into<String>,
        unit: impl Into<Unit>,
        doc: &str,
        source: &str,
    ) -> f64 {
        let formula = formula.into();
        if self.known.contains_key(symbol) {
            let mut steps = self.steps.iter();
            match steps.position(|step| step.symbol == symbol && step.formula == formula) {
                Some(place) => self.at = place,
                None => self.faults.push(format!("{symbol} means two things")),
            }
            return self.known[symbol];
        }
        let known = &self.known;
        let value = evaluate(&formula, &|name| match name {
            "pi" => Some(PI),
            _ => known.get(name).copied(),
        });
        let value = match value {
            Ok(value) => value,
            Err(problem) => self.fail(format!("{symbol} = {formula}: {problem}")),
        };
        self.known.insert(symbol.to_owned(), value);
        self.at = self.steps.len();
        self.steps.push(Step {
            symbol: symbol.to_owned(),
            formula,
            doc: doc.to_owned(),
            unit: unit.into(),
            value,
            source: source.to_owned(),
        });
        value
    }

    /// The step just written, or met again, stands for a number that a room computes by a function of its own: it takes
    /// that number, and must agree with it.
    pub fn as_computed(&mut self, value: f64) -> f64 {
        if let Some(step) = self.steps.get_mut(self.at) {
            let pure = matches!(step.unit, Unit::Of(Quantity::Ratio | Quantity::Share));
            let scale = value.abs().max(if pure { 1.0 } else { 1e-3 });
            if (step.value - value).abs() <= AGREEMENT * scale {
                step.value = value;
                self.known.insert(step.symbol.clone(), value);
            } else {
                let told = format!("{} = {} is {value} in the model", step.symbol, step.value);
                self.faults.push(told);
            }
        }
        value
    }

    /// The last step: the result itself, under the last name of its path.
    pub fn end(&mut self, formula: impl Into<String>, source: &str) {
        let Some(slot) = RESULTS.slot(self.path) else {
            self.fail(format!("no result {}", self.path));
            return;
        };
        let field = &RESULTS.fields[slot];
        let symbol = self.path.rsplit('.').next().unwrap_or(self.path);
        self.step(symbol, formula, field.quantity, field.doc, source);
        self.as_computed(self.results[slot]);
    }

    /// Takes away what the last step does not rest on.
    pub fn prune(&mut self) {
        let Some(last) = self.steps.last() else {
            return;
        };
        let mut needed: HashSet<String> = HashSet::from([last.symbol.clone()]);
        for step in self.steps.iter().rev() {
            if needed.contains(&step.symbol) {
                needed.extend(symbols(&step.formula).map(str::to_owned));
            }
        }
        self.steps.retain(|step| needed.contains(&step.symbol));
        self.terms.retain(|term| needed.contains(&term.symbol));
    }

    /// Writes a fault down and goes on; nothing is explained in the end.
    fn fail(&mut self, problem: String) -> f64 {
        self.faults.push(problem);
        f64::NAN
    }

    /// An explanation that does not give the number it explains is refused.
    pub fn checked(&self) -> Result<()> {
        match self.faults.first() {
            None => Ok(()),
            Some(fault) => Err(Error::Inconsistent(format!(
                "{} is not explained, because its explanation does not reproduce it ({fault}); this is \
                 a fault of hoopline, the result itself stands",
                self.path
            ))),
        }
    }
}

/// Names in a formula.
fn symbols(formula: &str) -> impl Iterator<Item = &str> {
    let words = formula.split(|letter: char| !letter.is_ascii_alphanumeric() && letter != '_');
    words.filter(|word| word.starts_with(|letter: char| letter.is_ascii_alphabetic()))
}
