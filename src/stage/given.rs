//! [`Stage`]: a stage as given, resolved once, immutable.

use super::chain::assess;
use super::choices;
use super::document::Document;
use super::follow::{follows, refresh};
use super::form::{Form, PressureBasis};
use super::leaves::{Leaves, number};
use super::outcome::Outcome;
use super::point::Point;
use super::resolve::{item_path, require_all, resolve};
use super::schema::{INPUT_COUNT, INPUTS, point};
use crate::error::{Error, Result, nearest};
use crate::material::{FIBRES, METALS, Row, find};
use crate::quantity::read;
use crate::vessel::rule_set::PUBLISHED;
use serde_json::{Map, Value, json};
use sha2::{Digest, Sha256};
use std::path::Path;

/// Where an input's value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Stated in the file or replaced since.
    Given,
    /// From a row on record.
    Catalogue,
    /// Computed from what is stated instead of it.
    Derived,
    /// Not an input of this stage, or the neutral value.
    Absent,
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
    /// Names of the mass items.
    pub items: Vec<String>,
}

impl Labels {
    pub(super) fn read(document: &Document, leaves: &Leaves, items: usize) -> Result<Self> {
        let text = |path: &str| Ok::<_, Error>(leaves.text(document, path)?.unwrap_or_default());
        let pair = |table: &str| {
            Ok::<_, Error>((
                text(&format!("{table}.name"))?,
                text(&format!("{table}.source"))?,
            ))
        };
        Ok(Self {
            name: text("name")?,
            description: text("description")?,
            reason: text("pressure.reason")?,
            rule_set: pair("rule_set")?,
            metal: pair("tank.liner.metal")?,
            fibre: pair("tank.overwrap.fibre")?,
            items: (0..items)
                .map(|index| {
                    let name = text(&item_path("mass.item", index, "name"))?;
                    Ok(if name.is_empty() {
                        format!("item {}", index + 1)
                    } else {
                        name
                    })
                })
                .collect::<Result<_>>()?,
        })
    }
}

/// A stage: its form, its numbers, its texts.
#[derive(Debug, Clone)]
pub struct Stage {
    pub(super) form: Form,
    pub(super) slots: Box<[f64; INPUT_COUNT]>,
    pub(super) origins: Vec<Origin>,
    pub(super) labels: Labels,
    pub(super) document: Map<String, Value>,
    pub(super) changes: Vec<(String, Value)>,
}

impl Stage {
    /// Loads a stage file.
    pub fn load(path: &Path) -> Result<Self> {
        resolve(&Document::load(path)?)
    }

    /// Reads a stage from TOML text; `file` is named in errors.
    pub fn from_toml(text: &str, file: &Path) -> Result<Self> {
        resolve(&Document::from_toml(text, file)?)
    }

    /// Reads a stage from nested tables as JSON; bare numbers count as SI.
    pub fn from_json(text: &str) -> Result<Self> {
        resolve(&Document::from_json(text)?)
    }

    /// The stage as text from which [`Self::restore`] rebuilds it bit for bit.
    pub fn store(&self) -> String {
        let changes: Vec<Value> = self
            .changes
            .iter()
            .map(|(path, value)| json!([path, value]))
            .collect();
        json!({ "stage": self.document, "changes": changes }).to_string()
    }

    /// Rebuilds a stored stage.
    pub fn restore(text: &str) -> Result<Self> {
        let unreadable = || Error::Inconsistent("not a stored stage".to_owned());
        let stored: Value = serde_json::from_str(text).map_err(|_| unreadable())?;
        let document = stored.get("stage").ok_or_else(unreadable)?;
        let mut stage = Self::from_json(&document.to_string())?;
        for change in stored
            .get("changes")
            .and_then(Value::as_array)
            .ok_or_else(unreadable)?
        {
            let path = change
                .get(0)
                .and_then(Value::as_str)
                .ok_or_else(unreadable)?;
            let value = change.get(1).ok_or_else(unreadable)?;
            stage = stage.replace(&[(path.to_owned(), value.clone())])?;
        }
        Ok(stage)
    }

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

    /// Where the input of a slot comes from.
    pub fn origin(&self, slot: usize) -> Origin {
        self.origins[slot]
    }

    /// Whether a slot holds an input of this stage, or why not.
    pub fn input(&self, slot: usize) -> Result<()> {
        let field = &INPUTS.fields[slot];
        if !self.form.applies(field.applies, field.index) {
            return Err(Error::Inconsistent(format!(
                "{} does not apply to this stage",
                field.path
            )));
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
            super::form::Shell::Stated(table) => [table.mach(), table.coefficients()],
            super::form::Shell::Drawn(_) => [&[][..], &[]],
        };
        for column in [&curve.times[..], &curve.forces].into_iter().chain(drag) {
            hasher.update(column.len().to_le_bytes());
            for number in column {
                hasher.update(number.to_bits().to_le_bytes());
            }
        }
        super::digested::hexadecimal(&hasher.finalize())
    }

    /// The stage with some inputs, choices or rows on record replaced. Everything else follows by
    /// the follow rules; replacing a quantity that follows is an error that names the rule.
    pub fn replace(&self, changes: &[(String, Value)]) -> Result<Self> {
        let mut stage = self.clone();
        for (path, value) in changes {
            stage.change(path, value)?;
            stage.changes.push((path.clone(), value.clone()));
        }
        require_all(&stage, true)?;
        // A design that does not close keeps its last equivalents; its assessment says why.
        let _ = refresh(&stage.form, &mut stage.slots);
        Ok(stage)
    }

    fn change(&mut self, path: &str, value: &Value) -> Result<()> {
        if let Some(slot) = self.optional_slot(path) {
            let field = &INPUTS.fields[slot];
            let number = number(field, value, true)?;
            self.input(slot)?;
            self.slots[slot] = number;
            self.origins[slot] = Origin::Given;
            return Ok(());
        }
        if let Some((choice, index)) = choices::find(path) {
            let word = value.as_str().unwrap_or_default();
            return choice.set(&mut self.form, index, path, word);
        }
        let name = value.as_str().unwrap_or_default();
        match path {
            "tank.liner.metal.name" if self.form.tank.is_some() => self.take_metal(name),
            "tank.overwrap.fibre.name" if self.form.tank.is_some() => self.take_fibre(name),
            "rule_set.name" if self.form.tank.is_some() => self.take_rule_set(name),
            _ => Err(Error::Unknown {
                kind: "input",
                given: path.to_owned(),
                suggestion: nearest(path, INPUTS.fields.iter().map(|field| field.path.as_str())),
            }),
        }
    }

    /// Slot of an input; a stated tank mass becomes one by being replaced.
    fn optional_slot(&mut self, path: &str) -> Option<usize> {
        let slot = INPUTS.slot(path)?;
        if path == "mass.stated.tank"
            && let Some(side) = &mut self.form.tank
        {
            side.stated_mass = true;
        }
        Some(slot)
    }

    pub(super) fn fill_from_catalogue(
        &mut self,
        document: &Document,
        leaves: &Leaves,
    ) -> Result<()> {
        let place = |path: &str| {
            let path = path.to_owned();
            move |error| document.locate(&path, error)
        };
        if let Some(name) = leaves.text(document, "rule_set.name")? {
            self.take_rule_set(&name).map_err(place("rule_set.name"))?;
        }
        if let Some(name) = leaves.text(document, "tank.liner.metal.name")? {
            self.take_metal(&name)
                .map_err(place("tank.liner.metal.name"))?;
        }
        if let Some(name) = leaves.text(document, "tank.overwrap.fibre.name")? {
            self.take_fibre(&name)
                .map_err(place("tank.overwrap.fibre.name"))?;
        }
        let stated = self
            .form
            .tank
            .as_ref()
            .is_some_and(|side| side.basis == PressureBasis::Stated);
        if stated && self.labels.reason.is_empty() {
            return Err(Error::Missing {
                path: "pressure.reason".to_owned(),
                doc: "one sentence that says why the stated MEOP is right".to_owned(),
                example: "highest pressure seen in ten fills".to_owned(),
            });
        }
        Ok(())
    }

    fn take_metal(&mut self, name: &str) -> Result<()> {
        let row = find(&METALS, "metal", name)?;
        self.take_row("tank.liner.metal", row)?;
        self.labels.metal = (row.name.clone(), row.source.clone());
        Ok(())
    }

    fn take_fibre(&mut self, name: &str) -> Result<()> {
        let row = find(&FIBRES, "fibre", name)?;
        self.take_row("tank.overwrap.fibre", row)?;
        self.labels.fibre = (row.name.clone(), row.source.clone());
        Ok(())
    }

    /// Fills a table from a row; entries that the row lacks are taken away.
    fn take_row(&mut self, table: &str, row: &Row) -> Result<()> {
        for (slot, field) in INPUTS.fields.iter().enumerate() {
            let Some(key) = field
                .path
                .strip_prefix(table)
                .and_then(|rest| rest.strip_prefix('.'))
            else {
                continue;
            };
            let written = row.values.iter().find(|(name, _)| name == key);
            self.origins[slot] = Origin::Absent;
            if let Some((_, text)) = written {
                let value = read(text, field.quantity).map_err(|problem| Error::Unreadable {
                    path: field.path.clone(),
                    problem,
                })?;
                self.slots[slot] = value;
                self.origins[slot] = Origin::Catalogue;
            }
        }
        Ok(())
    }

    fn take_rule_set(&mut self, name: &str) -> Result<()> {
        let rule_set = PUBLISHED
            .iter()
            .find(|known| known.name == name)
            .ok_or_else(|| Error::Unknown {
                kind: "rule set",
                given: name.to_owned(),
                suggestion: nearest(name, PUBLISHED.iter().map(|known| known.name.as_str())),
            })?;
        for (path, value) in [
            ("rule_set.proof_factor", rule_set.proof_factor),
            ("rule_set.burst_factor", rule_set.burst_factor),
        ] {
            let slot = INPUTS.find(path, "input")?;
            self.slots[slot] = value;
            self.origins[slot] = Origin::Catalogue;
        }
        self.labels.rule_set = (rule_set.name.clone(), rule_set.source.clone());
        Ok(())
    }
}
