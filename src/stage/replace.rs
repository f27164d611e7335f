//! Stages from files and objects, changed and stored.

use super::choices;
use super::document::Document;
use super::follow::refresh;
use super::given::{Origin, Stage};
use super::leaves::number;
use super::resolve::{require_all, resolve};
use super::schema::INPUTS;
use crate::error::{Error, Result, nearest};
use serde_json::{Value, json};
use std::path::Path;

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
}
