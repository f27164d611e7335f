//! Where each number of a stage comes from: a line of its file, a row on record and what that was
//! printed in, a class of maturity, another number.

use super::choices::{self, CHOICES};
use super::leaves::TEXTS;
use super::plies::PLIES;
use super::stage::{Origin, Stage};
use super::stock::PLACES;
use crate::error::{Error, Result};
use crate::likeness::near_paths;
use crate::quantity::field::is_below;
use crate::stage::chain::schema::INPUTS;

impl Stage {
    /// Where an input's value comes from in a few words, and what its printed source is, if there is
    /// one.
    pub(in crate::stage) fn origin_and_source(&self, slot: usize) -> (String, String) {
        let path = INPUTS.fields[slot].path.as_str();
        match self.origin(slot) {
            Origin::Catalogue => {
                let (kind, name, source) = self.on_record_of(slot);
                match kind {
                    "class of maturity" => (format!("by maturity: {name}"), source),
                    _ => (format!("on record: {name}"), source),
                }
            }
            Origin::Given => (Origin::Given.words().to_owned(), self.own_source(path)),
            origin => (origin.words().to_owned(), String::new()),
        }
    }

    /// Source of an input's value where that is not the stage itself; else empty.
    pub(in crate::stage) fn printed_source(&self, slot: usize) -> String {
        if self.origin(slot) != Origin::Catalogue {
            return self.own_source(INPUTS.fields[slot].path.as_str());
        }
        let (kind, name, source) = self.on_record_of(slot);
        format!("{kind} \"{name}\": {source}")
    }

    /// Where the value of an input, a choice or a name comes from, in a sentence.
    pub fn source(&self, path: &str) -> Result<String> {
        let own = |told: String| {
            let printed = self.own_source(path);
            let stated = INPUTS
                .slot(path)
                .is_some_and(|slot| self.origin(slot) == Origin::Given);
            if stated && !printed.is_empty() {
                format!("{told}: {printed}")
            } else {
                told
            }
        };
        let replaced = self
            .changes
            .iter()
            .flatten()
            .any(|(known, _)| known == path);
        let standing = self.places.get(path);
        if let Some(slot) = INPUTS.slot(path) {
            self.input(slot)?;
            let words = match self.origin(slot) {
                Origin::Catalogue => {
                    let (kind, name, source) = self.on_record_of(slot);
                    let place = self.filled_from(slot);
                    let place = place.map_or(String::new(), |(named, _)| {
                        format!(" ({})", named.row.place)
                    });
                    format!("{kind} \"{name}\"{place}: {source}")
                }
                Origin::Given if replaced => own("replaced since the stage was read".to_owned()),
                Origin::Given => match (standing, self.curve_standing(path)) {
                    (Some(place), _) => own(format!("stage file {place}")),
                    (None, Some(place)) => format!("motor.curve, stage file {place}"),
                    (None, None) if self.places.is_empty() => {
                        own("given without a file".to_owned())
                    }
                    (None, None) => Origin::Derived.words().to_owned(),
                },
                Origin::Derived => Origin::Derived.words().to_owned(),
                Origin::Neutral => "left out: the value that changes nothing".to_owned(),
                Origin::Absent => "none".to_owned(),
            };
            return Ok(words);
        }
        let choice = choices::find(path);
        let chosen = choice.and_then(|(choice, index)| choice.get(&self.form, index));
        let named = self.named.iter().find(|named| named.place.path == path);
        if let Some(lent) = named.filter(|named| named.lent) {
            let stock = self.stock().find(|other| other.row.metal.is_some());
            return Ok(format!(
                "metal of {}",
                stock.map_or(lent.row.name.as_str(), |stock| stock.place.path)
            ));
        }
        match (standing, chosen) {
            _ if replaced => Ok("replaced since the stage was read".to_owned()),
            (Some(place), _) => Ok(format!("stage file {place}")),
            (None, Some(_)) if choice.is_some_and(|(choice, _)| choice.default.is_some()) => {
                Ok("a default of hoopline's own".to_owned())
            }
            (None, Some(_)) => Ok("given without a file".to_owned()),
            _ if named.is_some() => Ok("given without a file".to_owned()),
            _ if choice.is_some() => Err(Error::does_not_apply(path)),
            _ if TEXTS.iter().any(|(known, _)| *known == path) => Err(Error::Inconsistent(
                format!("{path} is not stated in this stage"),
            )),
            _ => Err(unknown_input(path)),
        }
    }

    /// Kind, name and printed source of the row that filled in an input.
    fn on_record_of(&self, slot: usize) -> (&'static str, String, String) {
        let path = INPUTS.fields[slot].path.as_str();
        let class = self.labels.maturity.iter().find(|(input, _)| input == path);
        if let Some((_, class)) = class {
            return (
                "class of maturity",
                class.name.clone(),
                class.source.clone(),
            );
        }
        if let Some((named, key)) = self.filled_from(slot) {
            let row = &named.row;
            return (row.kind, row.name.clone(), row.source_of(key).to_owned());
        }
        let (name, source) = self.labels.rule_set.clone();
        ("rule set", name, source)
    }

    /// The source given beside values of one's own; a row's is not theirs.
    fn own_source(&self, path: &str) -> String {
        let slot = INPUTS.slot(path);
        if slot.is_none_or(|slot| self.origin(slot) != Origin::Given) {
            return String::new();
        }
        let mut sourced = self.sourced();
        let own = sourced.find(|(table, (name, _))| is_below(table, path) && name.is_empty());
        own.map_or(String::new(), |(_, (_, source))| source.clone())
    }

    /// Where the curve stands that holds level and duration of the thrust.
    fn curve_standing(&self, path: &str) -> Option<&String> {
        let held = matches!(path, "motor.thrust" | "motor.burn_time");
        held.then(|| self.places.get("motor.curve")).flatten()
    }
}

/// An error for a path that is no input, choice or name on record, with those that are near.
pub(super) fn unknown_input(path: &str) -> Error {
    let inputs = INPUTS.fields.iter().map(|field| field.path.as_str());
    let choices = CHOICES.iter().map(|choice| choice.path);
    let places = PLACES.iter().map(|place| place.path);
    Error::Unknown {
        kind: "input",
        given: path.to_owned(),
        suggestions: near_paths(path, inputs.chain(choices).chain(places).chain([PLIES])),
    }
}
