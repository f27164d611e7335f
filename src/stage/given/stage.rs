//! [`Stage`]: a stage as given, resolved once, immutable.

use super::choices;
use super::follow::follows;
use super::leaves::Leaves;
use super::on_record::Named;
use super::requirement::Requirement;
use crate::document::Document;
use crate::error::{Error, Result};
use crate::mass::Maturity;
use crate::material::Catalogue;
use crate::quantity::number;
use crate::stage::chain::assess;
use crate::stage::chain::form::Form;
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::point::Point;
use crate::stage::chain::schema::{INPUT_COUNT, INPUTS, point};
use serde_json::{Map, Value};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Where an input's value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Stated in the file or replaced since.
    Given,
    /// From a row on record.
    Catalogue,
    /// Computed from what is stated instead of it.
    Derived,
    /// Left out: the value that changes nothing.
    Neutral,
    /// Not an input of this stage.
    Absent,
}

impl Origin {
    /// The origin in words, where no row on record says more.
    pub(in crate::stage) const fn words(self) -> &'static str {
        match self {
            Self::Given => "given",
            Self::Catalogue => "on record",
            Self::Derived => "computed from what is stated instead",
            Self::Neutral => "left out, changes nothing",
            Self::Absent => "none",
        }
    }
}

/// Texts of a stage.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Labels {
    /// Name of the stage.
    pub name: String,
    /// What it is.
    pub description: String,
    /// Why the stated MEOP is right.
    pub reason: String,
    /// Rule set: name and source.
    pub rule_set: (String, String),
    /// Liner metal: name and source.
    pub metal: (String, String),
    /// Fibre: name and source.
    pub fibre: (String, String),
    /// Names of the fittings.
    pub fittings: Vec<String>,
    /// Names of the mass items.
    pub items: Vec<String>,
    /// Growth allowances that rest on a maturity: input and class.
    pub maturity: Vec<(String, Maturity)>,
}

/// Tables whose values rest on a row on record or on a source of one's own.
pub(super) const RULE_SET: &str = "rule_set";
pub(super) const LINER_METAL: &str = "tank.liner.metal";
pub(super) const FIBRE: &str = "tank.overwrap.fibre";
pub(super) const SOURCED: [&str; 3] = [RULE_SET, LINER_METAL, FIBRE];

impl Labels {
    /// The tables whose values rest on a source, each with name and source.
    fn sourced(&self) -> [(&'static str, &(String, String)); 3] {
        let labels = [&self.rule_set, &self.metal, &self.fibre];
        std::array::from_fn(|at| (SOURCED[at], labels[at]))
    }

    pub(super) fn read(document: &Document, leaves: &Leaves, form: &Form) -> Self {
        // A text that is none has been told, and its stage is not made.
        let text = |path: &str| {
            leaves
                .text(document, path)
                .ok()
                .flatten()
                .unwrap_or_default()
        };
        let pair = |table: &str| {
            (
                text(&format!("{table}.name")),
                text(&format!("{table}.source")),
            )
        };
        let entry = |list: &str, what: &str, index: usize| {
            let name = text(&format!("{list}[{index}].name"));
            if name.is_empty() {
                format!("{what} {}", index + 1)
            } else {
                name
            }
        };
        let fittings = form.tank.as_ref().map_or(0, |side| side.tank.fittings);
        Self {
            name: text("name"),
            description: text("description"),
            reason: text("pressure.reason"),
            rule_set: pair(RULE_SET),
            metal: pair(LINER_METAL),
            fibre: pair(FIBRE),
            fittings: (0..fittings)
                .map(|index| entry("tank.fitting", "fitting", index))
                .collect(),
            items: (0..form.items)
                .map(|index| entry("mass.item", "item", index))
                .collect(),
            maturity: Vec::new(),
        }
    }
}

/// A stage: its form, its numbers, its texts.
#[derive(Debug, Clone)]
pub struct Stage {
    pub(super) form: Form,
    pub(super) slots: Box<[f64; INPUT_COUNT]>,
    pub(super) origins: Vec<Origin>,
    pub(super) labels: Labels,
    /// Classes of maturity that the document brings.
    pub(super) maturities: Vec<Maturity>,
    /// Rows the stage may name.
    pub(super) catalogue: Arc<Catalogue>,
    /// Rows it names.
    pub(super) named: Vec<Named>,
    /// Where each value stood in the files the stage was read from, as "FILE:LINE".
    pub(super) places: Arc<BTreeMap<String, String>>,
    pub(super) requirements: Arc<[Requirement]>,
    /// Shared by all stages replaced from it.
    pub(super) document: Arc<Map<String, Value>>,
    pub(super) changes: Vec<Vec<(String, Value)>>,
}

impl Stage {
    /// The form.
    pub fn form(&self) -> &Form {
        &self.form
    }

    /// The numbers.
    pub fn point(&self) -> Point<f64> {
        point(&self.slots)
    }

    /// The numbers as slots of the input table.
    pub fn slots(&self) -> &[f64; INPUT_COUNT] {
        &self.slots
    }

    /// The texts.
    pub fn labels(&self) -> &Labels {
        &self.labels
    }

    /// The tables of this stage whose values rest on a source, each with name and source; the name is
    /// empty for values of one's own.
    pub(in crate::stage) fn sourced(
        &self,
    ) -> impl Iterator<Item = (&'static str, &(String, String))> {
        let has = |table: &str| {
            let tank = self.form.tank.as_ref();
            tank.is_some_and(|side| table != FIBRE || side.tank.plies > 0)
        };
        let sourced = self.labels.sourced().into_iter();
        sourced.filter(move |(table, _)| has(table))
    }

    /// What the stage shall do.
    pub fn requirements(&self) -> &[Requirement] {
        &self.requirements
    }

    /// Where the input of a slot comes from.
    pub fn origin(&self, slot: usize) -> Origin {
        self.origins[slot]
    }

    /// Whether a slot holds an input of this stage, or why not.
    pub fn input(&self, slot: usize) -> Result<()> {
        let field = &INPUTS.fields[slot];
        if !self.form.applies(field.applies, field.index) {
            return Err(Error::does_not_apply(&field.path));
        }
        match follows(&self.form, &field.path) {
            Some(reason) => Err(Error::Inconsistent(reason)),
            None => Ok(()),
        }
    }

    /// Reads a value for an input: a text with a unit or a number in SI, within the input's limits.
    pub fn read(&self, path: &str, value: &Value) -> Result<f64> {
        number(&INPUTS.fields[INPUTS.find(path, "input")?], value, true)
    }

    /// Every scalar result of the stage.
    pub fn outcome(&self) -> Outcome<f64> {
        assess(&self.form, &self.point())
    }

    /// SHA-256 over everything that enters the results, as hexadecimal text.
    pub fn digest(&self) -> String {
        let mut hasher = Sha256::new();
        hasher.update(env!("CARGO_PKG_VERSION"));
        let fins = self.form.body().map_or(0, |body| body.fins.count);
        hasher.update(fins.to_le_bytes());
        for choice in choices::CHOICES {
            for index in 0..crate::mass::MAX_ITEMS {
                hasher.update(choice.get(&self.form, index).unwrap_or("-"));
                hasher.update([0]);
            }
        }
        for (slot, value) in self.slots.iter().enumerate() {
            if self.input(slot).is_ok() {
                hasher.update(slot.to_le_bytes());
                hasher.update(value.to_bits().to_le_bytes());
            }
        }
        let curve = &self.form.curve;
        let drag = match &self.form.shell {
            crate::stage::chain::form::Shell::Stated(table) => [table.mach(), table.coefficients()],
            crate::stage::chain::form::Shell::Drawn(_) => [&[][..], &[]],
        };
        for column in [&curve.times[..], &curve.forces].into_iter().chain(drag) {
            hasher.update(column.len().to_le_bytes());
            for number in column {
                hasher.update(number.to_bits().to_le_bytes());
            }
        }
        crate::stage::chain::digested::hexadecimal(&hasher.finalize())
    }
}
