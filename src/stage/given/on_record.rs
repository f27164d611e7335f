//! Rows on record: what a named metal, fibre, tube, sheet or rule set fills in.

use super::leaves::Leaves;
use super::stage::{Origin, RULE_SET, SOURCED, Stage};
use super::stock::{METAL, PLACES, Place};
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::likeness::quoted;
use crate::material::{Catalogue, Row, find};
use crate::quantity::field::is_below;
use crate::stage::chain::schema::INPUTS;
use crate::vessel::DiameterPair;
use crate::vessel::rule_set::{self, PUBLISHED};
use std::sync::Arc;

/// What a rule set's burst pressure may be counted by.
const BURST: [&str; 2] = ["burst_factor", "burst_ratio"];

/// A row that a stage names.
#[derive(Debug, Clone)]
pub(super) struct Named {
    /// Where it is named.
    pub place: &'static Place,
    /// What it stands for.
    pub row: Arc<Row>,
    /// Whether it is the metal of a piece of stock, which no one has named by itself.
    pub lent: bool,
}

/// The table that a row on record fills in with an input, and the names there are.
pub(super) fn row_of(catalogue: &Catalogue, path: &str) -> Option<(&'static str, Vec<String>)> {
    let rows = |kind: &str| {
        let of_kind = catalogue.rows().iter().filter(|row| row.kind == kind);
        of_kind.map(|row| row.name.clone()).collect()
    };
    let table = SOURCED.into_iter().find(|table| is_below(table, path))?;
    let mut places = PLACES.iter();
    let names = match places.find(|place| place.table == Some(table)) {
        Some(place) => rows(place.kind),
        None => PUBLISHED.iter().map(|known| known.name.clone()).collect(),
    };
    Some((table, names))
}

/// Where a named material lacks a value: names those on record that have it.
pub(super) fn name_holders(stage: &Stage, mut error: Error) -> Error {
    if let Error::Missing { path, how, .. } = &mut error
        && let Some((table, key)) = path.rsplit_once('.')
        && let Some(named) = stage.named.iter().find(|named| {
            let place = named.place;
            !place.is_stock() && place.stands_in() == table
        })
    {
        let rows = stage.catalogue.rows().iter();
        let holders: Vec<&str> = rows
            .filter(|row| row.kind == named.row.kind && row.value(key).is_some())
            .map(|row| row.name.as_str())
            .collect();
        if !holders.is_empty() {
            let (kind, holders) = (named.row.kind, quoted(holders));
            *how = format!("{how}, or name a {kind} on record that has it: {holders}");
        }
    }
    error
}

/// Refuses a burst pressure counted on MEOP and on the proof pressure at once.
pub(super) fn refuse_two_bursts(paths: &[&str]) -> Result<()> {
    let replaced = |key: &str| paths.contains(&format!("{RULE_SET}.{key}").as_str());
    if BURST.into_iter().all(replaced) {
        return Err(Error::Inconsistent(
            "rule_set.burst_factor and rule_set.burst_ratio are given together; the first counts the burst \
             pressure on MEOP, the second on the proof pressure: state one"
                .to_owned(),
        ));
    }
    Ok(())
}

impl Stage {
    /// Fills in every row that a document names; a name without a row leaves its table in doubt.
    /// `whole` says that every catalogue could be read: what is missed may stand in one that could not.
    pub(super) fn fill_from_catalogue(
        &mut self,
        document: &Document,
        leaves: &Leaves,
        whole: bool,
        findings: &mut Findings,
    ) {
        let paths = PLACES.iter().map(|place| place.path);
        for path in std::iter::once("rule_set.name").chain(paths) {
            // A name that is no text has been told with the other texts.
            let Ok(Some(name)) = leaves.text(document, path) else {
                continue;
            };
            let place = Place::of(path);
            let taken = match place {
                Some(place) => self.take_named(place, &name),
                None => self.take_rule_set(&name, |path| leaves.get(path).is_some()),
            };
            let table = place.map_or(RULE_SET, Place::stands_in);
            if place.is_some() && !whole {
                findings.damage(table);
            }
            if let Err(error) = taken {
                let follows = !whole && matches!(error, Error::NotOnRecord { .. });
                let none_read = !whole && matches!(error, Error::Unreadable { .. });
                if !follows && !none_read {
                    findings.note(document, At::Value(path), error);
                }
                findings.damage(table);
            }
        }
        if let (Err(error), true) = (self.lend_metal(), whole) {
            findings.note(document, At::Value("tank.liner.tube"), error);
        }
        for (path, error) in self.contradictions() {
            findings.note(document, At::Value(path), error);
        }
    }

    /// Fills in what a named row holds. Of a material, what the row lacks is taken away; of stock, only
    /// what other stock had filled in.
    pub(super) fn take_named(&mut self, place: &'static Place, name: &str) -> Result<()> {
        let row = find(self.catalogue.rows(), place.path, place.kind, name)?;
        self.fill(place, &row)?;
        self.named.retain(|named| named.place.path != place.path);
        self.named.push(Named {
            place,
            row,
            lent: false,
        });
        Ok(())
    }

    fn fill(&mut self, place: &'static Place, row: &Row) -> Result<()> {
        for (key, slot) in place.fills() {
            match row.value(key) {
                Some(written) => {
                    self.slots[slot] =
                        crate::quantity::in_range(&INPUTS.fields[slot], written.number)?;
                    self.origins[slot] = Origin::Catalogue;
                }
                None if !place.is_stock() || self.origins[slot] == Origin::Catalogue => {
                    self.origins[slot] = Origin::Absent;
                }
                None => {}
            }
        }
        let label = (row.name.clone(), row.source.clone());
        match place.kind {
            "metal" => self.labels.metal = label,
            "fibre" => self.labels.fibre = label,
            _ => {}
        }
        Ok(())
    }

    /// A name replaced in a stage: what its row fills in must be an input.
    pub(super) fn replace_named(&mut self, place: &'static Place, name: &str) -> Result<()> {
        if let ("tube", Some(side)) = (place.kind, &mut self.form.tank) {
            side.tank.diameters = DiameterPair::LinerOuterAndWall;
        }
        for (_, slot) in place.fills().into_iter().filter(|_| place.is_stock()) {
            if let Some(reason) = super::follow::follows(&self.form, &INPUTS.fields[slot].path) {
                let path = place.path;
                let problem = format!("{path} cannot be taken: {reason}");
                return Err(Error::Inconsistent(problem));
            }
        }
        self.take_named(place, name)
    }

    /// Gives liner and closures the metal of the stock they are made of, unless one is named.
    pub(super) fn lend_metal(&mut self) -> Result<()> {
        let Some(place) = Place::of(METAL) else {
            return Ok(());
        };
        let metal = self.named.iter().find(|named| named.place.path == METAL);
        if metal.is_some_and(|metal| !metal.lent) {
            return Ok(());
        }
        let lent = metal.map(|metal| metal.row.name.clone());
        let of_stock = self.stock().find_map(|named| named.row.metal.clone());
        if lent == of_stock {
            return Ok(());
        }
        self.named.retain(|named| named.place.path != METAL);
        let Some(name) = of_stock else {
            for (_, slot) in place.fills() {
                self.origins[slot] = Origin::Absent;
            }
            self.labels.metal = (String::new(), String::new());
            return Ok(());
        };
        self.take_named(place, &name)?;
        if let Some(metal) = self.named.last_mut() {
            metal.lent = true;
        }
        Ok(())
    }

    /// Pieces of stock that do not go together: path and what is wrong.
    pub(super) fn contradictions(&self) -> Vec<(&'static str, Error)> {
        let row = |path: &str| self.named.iter().find(|named| named.place.path == path);
        let mut found = Vec::new();
        if let (Some(_), Some(sheet)) = (row("tank.liner.tube"), row("tank.liner.sheet")) {
            let problem = "tank.liner.tube and tank.liner.sheet are given together; each fills in the \
                           liner's wall: name one";
            found.push((sheet.place.path, Error::Inconsistent(problem.to_owned())));
        }
        let Some(metal) = row(METAL) else {
            return found;
        };
        for named in &self.named {
            if let Some(own) = named
                .row
                .metal
                .as_ref()
                .filter(|own| **own != metal.row.name)
            {
                let (path, row) = (named.place.path, &named.row);
                let problem = format!(
                    "{path}: the {} \"{}\" is of \"{own}\", and the liner is of \"{}\"; liner and \
                     closures are of one metal here: take stock of one metal{}",
                    row.kind,
                    row.name,
                    metal.row.name,
                    if metal.lent {
                        String::new()
                    } else {
                        format!(", or name that one as {METAL}")
                    }
                );
                found.push((path, Error::Inconsistent(problem)));
            }
        }
        found
    }

    /// The named row that an input's value was last filled in from, and its name there.
    pub(super) fn filled_from(&self, slot: usize) -> Option<(&Named, &'static str)> {
        self.named.iter().rev().find_map(|named| {
            let mut fills = named.place.fills().into_iter();
            let (key, _) = fills.find(|(_, filled)| *filled == slot)?;
            named.row.value(key).map(|_| (named, key))
        })
    }

    /// The row that the liner's metal is named by, while its strengths stand as it states them.
    pub(in crate::stage) fn metal_on_record(&self) -> Option<&Row> {
        let named = self.named.iter().find(|named| named.place.path == METAL)?;
        let stands = |key: &str| {
            let slot = INPUTS.slot(&format!("tank.liner.metal.{key}"));
            slot.is_some_and(|slot| self.origins[slot] == Origin::Catalogue)
        };
        let whole = stands("yield_strength") && stands("ultimate_strength");
        whole.then_some(&*named.row)
    }

    /// A rule set whose factors are replaced is no longer the published one.
    pub(super) fn name_own_factors(&mut self) {
        let Some(published) = rule_set::named(&self.labels.rule_set.0) else {
            return;
        };
        let given = |key: &str| {
            let slot = INPUTS.slot(&format!("{RULE_SET}.{key}"));
            slot.is_some_and(|slot| {
                let field = &INPUTS.fields[slot];
                self.form.applies(field.applies, field.index) && self.origins[slot] == Origin::Given
            })
        };
        let own = BURST.into_iter().any(given)
            || published.proof_factor.is_some() && given("proof_factor");
        if own {
            let name = format!("stated factors in place of \"{}\"", self.labels.rule_set.0);
            self.labels.rule_set = (name, String::new());
        }
    }

    /// Takes the factors of a published rule set, apart from what is `stated` beside its name. A factor that its
    /// document does not state is asked for.
    pub(super) fn take_rule_set(
        &mut self,
        name: &str,
        stated: impl Fn(&str) -> bool,
    ) -> Result<()> {
        let rule_set = rule_set::named(name).ok_or_else(|| Error::NotOnRecord {
            path: "rule_set.name".to_owned(),
            kind: "rule set",
            given: name.to_owned(),
            known: PUBLISHED.iter().map(|known| known.name.clone()).collect(),
            instead: "leave the name out and state proof_factor, burst_factor (over MEOP) or burst_ratio (over \
                      proof pressure), and their source",
        })?;
        if let Some(side) = &mut self.form.tank
            && !BURST.iter().any(|key| stated(&format!("{RULE_SET}.{key}")))
        {
            side.burst_basis = rule_set.basis;
        }
        for key in BURST.into_iter().chain(["proof_factor"]) {
            let slot = INPUTS.find(&format!("{RULE_SET}.{key}"), "input")?;
            match rule_set.factors().find(|(known, _)| *known == key) {
                Some((_, value)) => {
                    self.slots[slot] = value;
                    self.origins[slot] = Origin::Catalogue;
                }
                None if self.origins[slot] == Origin::Catalogue => {
                    self.origins[slot] = Origin::Absent;
                }
                None => {}
            }
        }
        self.labels.rule_set = (rule_set.name.clone(), rule_set.source.clone());
        Ok(())
    }
}
