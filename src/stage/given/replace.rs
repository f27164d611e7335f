//! Stages from files and objects, changed and stored.

use super::bolt_rows;
use super::choices;
use super::fittings;
use super::follow::refresh;
use super::on_record;
use super::openings;
use super::plies::PLIES;
use super::resolve::{check, require_all, resolve};
use super::source::unknown_input;
use super::stage::{Origin, Stage};
use super::stock::Place;
use crate::document::{Document, Findings, text_of};
use crate::error::{Error, Result};
use crate::quantity::field::is_below;
use crate::quantity::number;
use crate::stage::chain::form::Form;
use crate::stage::chain::schema::{INPUT_COUNT, INPUTS};
use crate::vessel::ServiceForm;
use crate::vessel::rule_set::BurstBasis;
use serde_json::{Value, json};
use std::path::Path;

impl Stage {
    /// Loads a stage file.
    pub fn load(path: &Path) -> Result<Self> {
        let mut findings = Findings::default();
        resolve(&Document::load(path, &mut findings)?, findings)
    }

    /// Reads a stage from TOML text; `file` is named in errors.
    pub fn from_toml(text: &str, file: &Path) -> Result<Self> {
        let mut findings = Findings::default();
        resolve(&Document::from_toml(text, file, &mut findings)?, findings)
    }

    /// Reads a stage from nested tables as JSON; bare numbers count as SI.
    pub fn from_json(text: &str) -> Result<Self> {
        resolve(&Document::from_json(text)?, Findings::default())
    }

    /// The stage as text from which [`Self::restore`] rebuilds it bit for bit.
    pub fn store(&self) -> String {
        json!({ "stage": *self.document, "changes": self.changes, "places": *self.places })
            .to_string()
    }

    /// Rebuilds a stored stage.
    pub fn restore(text: &str) -> Result<Self> {
        let unreadable = || Error::Inconsistent("not a stored stage".to_owned());
        let stored: Value = serde_json::from_str(text).map_err(|_| unreadable())?;
        let document = stored.get("stage").ok_or_else(unreadable)?;
        let changes = stored.get("changes").cloned().ok_or_else(unreadable)?;
        let changes: Vec<Vec<(String, Value)>> =
            serde_json::from_value(changes).map_err(|_| unreadable())?;
        let mut document = Document::from_json(&document.to_string())?;
        if let Some(places) = stored.get("places") {
            document.noted = serde_json::from_value(places.clone()).map_err(|_| unreadable())?;
        }
        let stage = resolve(&document, Findings::default())?;
        changes
            .iter()
            .try_fold(stage, |stage, together| stage.replace(together))
    }

    /// The stage with some inputs, choices, texts or rows on record replaced together: choices and
    /// rows first, since they decide which numbers are inputs. Everything else follows by the follow
    /// rules; replacing a quantity that follows is an error that names the rule.
    pub fn replace(&self, changes: &[(String, Value)]) -> Result<Self> {
        let mut stage = self.changed(changes)?;
        stage.changes.push(changes.to_vec());
        stage.name_own_factors();
        // A design that does not close keeps its last equivalents; its assessment says why.
        let _ = refresh(&stage.form, &mut stage.slots);
        // Nor does one that has become too slim for its openings; its winding says so.
        let touched = |tables: &[&str]| {
            let mut paths = changes.iter().map(|(path, _)| path);
            paths.any(|path| tables.iter().any(|table| path.starts_with(table)))
        };
        if touched(&[openings::TABLE]) {
            openings::check(&stage)?;
        }
        if touched(&[fittings::LIST]) {
            fittings::check(&stage)?;
        }
        if touched(&bolt_rows::TABLES) {
            bolt_rows::check(&stage)?;
        }
        Ok(stage)
    }

    /// Form and numbers of the stage with something replaced: all that [`Self::replace`] brings to a
    /// result, for a small part of the time. What follows from the inputs is left as it was.
    pub(crate) fn variant(
        &self,
        changes: &[(String, Value)],
    ) -> Result<(Form, Box<[f64; INPUT_COUNT]>)> {
        let stage = self.changed(changes)?;
        Ok((stage.form, stage.slots))
    }

    fn changed(&self, changes: &[(String, Value)]) -> Result<Self> {
        let paths: Vec<&str> = changes.iter().map(|(path, _)| path.as_str()).collect();
        super::maturity::refuse_both(&paths)?;
        on_record::refuse_two_bursts(&paths)?;
        let mut stage = self.clone();
        let is_number = |path: &str| INPUTS.slot(path).is_some();
        for (path, value) in changes.iter().filter(|(path, _)| !is_number(path)) {
            stage.change_choice(path, value)?;
        }
        stage.lend_metal()?;
        // What is given together may make room for each other, in whatever order it stands.
        for (path, _) in changes {
            stage.make_room(path);
        }
        for (path, value) in changes.iter().filter(|(path, _)| is_number(path)) {
            stage.change_number(path, value)?;
        }
        require_all(&stage, true)?;
        check(&stage)?;
        Ok(stage)
    }

    fn change_number(&mut self, path: &str, value: &Value) -> Result<()> {
        let slot = INPUTS.find(path, "input")?;
        let number = number(&INPUTS.fields[slot], value, true)?;
        self.input(slot)?;
        self.slots[slot] = number;
        self.origins[slot] = Origin::Given;
        Ok(())
    }

    fn change_choice(&mut self, path: &str, value: &Value) -> Result<()> {
        let choice = choices::find(path);
        let tank = self.form.tank.is_some();
        if path == PLIES && tank {
            return self.wind(value);
        }
        let text = text_of(path, value);
        match (choice, path) {
            (Some((choice, index)), _) => {
                // The value of what becomes the input must be known before the rule changes.
                if path.starts_with("follow.") {
                    refresh(&self.form, &mut self.slots)?;
                }
                choice.set(&mut self.form, index, path, text?)
            }
            (None, "name") => {
                text?.clone_into(&mut self.labels.name);
                Ok(())
            }
            (None, "description") => {
                text?.clone_into(&mut self.labels.description);
                Ok(())
            }
            (None, "pressure.reason") if tank => {
                text?.clone_into(&mut self.labels.reason);
                Ok(())
            }
            (None, "rule_set.name") if tank => self.take_rule_set(text?, |_| false),
            (None, _) if tank && Place::of(path).is_some() => match Place::of(path) {
                Some(place) => self.replace_named(place, text?),
                None => Ok(()),
            },
            (None, _) if super::maturity::allowance_of(path).is_some() => {
                self.take_maturity(path, text?)
            }
            _ => Err(unknown_input(path)),
        }
    }

    /// Inputs that a stage need not have become inputs by being given.
    fn make_room(&mut self, path: &str) {
        if let Some(side) = &mut self.form.tank {
            side.tank.girth_allowance |= path == "tank.liner.girth_seam.allowable_strain";
            side.stated_mass |= path == "mass.stated.tank";
            side.stated_pressure |= path == "pressure.stated";
            side.relief |= matches!(
                path,
                "pressure.relief_setting" | "pressure.relief_accumulation"
            );
            side.tank.winding |= path.starts_with(openings::TABLE);
            match path {
                "rule_set.burst_factor" => side.burst_basis = BurstBasis::Meop,
                "rule_set.burst_ratio" => side.burst_basis = BurstBasis::Proof,
                _ => {}
            }
            let given = ServiceForm::of(|table| is_below(table, path));
            side.tank.service = side.tank.service.with(given);
        }
    }
}
