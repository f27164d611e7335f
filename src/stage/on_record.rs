//! Rows on record: what a named metal, fibre or rule set fills in.

use super::given::{Origin, Stage};
use super::leaves::Leaves;
use super::schema::INPUTS;
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::material::{FIBRES, METALS, Row, find};
use crate::vessel::rule_set::PUBLISHED;

/// Fills in what a name stands for.
type Take = fn(&mut Stage, &str) -> Result<()>;

/// The table that a row on record fills in with an input, and the names there are.
pub(super) fn row_of(path: &str) -> Option<(&'static str, Vec<String>)> {
    let rows = |rows: &[std::sync::Arc<Row>]| rows.iter().map(|row| row.name.clone()).collect();
    let below = |table: &str| {
        let rest = path.strip_prefix(table);
        rest.is_some_and(|rest| rest.starts_with('.'))
    };
    match path {
        _ if below("rule_set") => {
            let names = PUBLISHED.iter().map(|known| known.name.clone());
            Some(("rule_set", names.collect()))
        }
        _ if below("tank.liner.metal") => Some(("tank.liner.metal", rows(&METALS))),
        _ if below("tank.overwrap.fibre") => Some(("tank.overwrap.fibre", rows(&FIBRES))),
        _ => None,
    }
}

impl Stage {
    /// Fills in every row that a document names; a name without a row leaves its table in doubt.
    pub(super) fn fill_from_catalogue(
        &mut self,
        document: &Document,
        leaves: &Leaves,
        findings: &mut Findings,
    ) {
        let takes: [(&str, Take); 3] = [
            ("rule_set", Self::take_rule_set),
            ("tank.liner.metal", Self::take_metal),
            ("tank.overwrap.fibre", Self::take_fibre),
        ];
        for (table, take) in takes {
            let path = format!("{table}.name");
            // A name that is no text has been told with the other texts.
            let Ok(Some(name)) = leaves.text(document, &path) else {
                continue;
            };
            if let Err(error) = take(self, &name) {
                findings.note(document, At::Value(&path), error);
                findings.damage(table);
            }
        }
    }

    pub(super) fn take_metal(&mut self, name: &str) -> Result<()> {
        let row = find(&METALS, "tank.liner.metal.name", "metal", name)?;
        self.take_row("tank.liner.metal", &row);
        self.labels.metal = (row.name.clone(), row.source.clone());
        Ok(())
    }

    pub(super) fn take_fibre(&mut self, name: &str) -> Result<()> {
        let row = find(&FIBRES, "tank.overwrap.fibre.name", "fibre", name)?;
        self.take_row("tank.overwrap.fibre", &row);
        self.labels.fibre = (row.name.clone(), row.source.clone());
        Ok(())
    }

    /// A rule set whose factors are replaced is no longer the published one.
    pub(super) fn name_own_factors(&mut self) {
        let own = ["rule_set.proof_factor", "rule_set.burst_factor"]
            .iter()
            .filter_map(|path| INPUTS.slot(path))
            .any(|slot| self.origins[slot] == Origin::Given);
        let published = PUBLISHED
            .iter()
            .any(|known| known.name == self.labels.rule_set.0);
        if own && published {
            let name = format!("stated factors in place of \"{}\"", self.labels.rule_set.0);
            self.labels.rule_set = (name, String::new());
        }
    }

    /// Fills a table from a row; entries that the row lacks are taken away.
    fn take_row(&mut self, table: &str, row: &Row) {
        for (slot, field) in INPUTS.fields.iter().enumerate() {
            let Some(key) = field
                .path
                .strip_prefix(table)
                .and_then(|rest| rest.strip_prefix('.'))
            else {
                continue;
            };
            self.origins[slot] = Origin::Absent;
            if let Some(written) = row.value(key) {
                self.slots[slot] = written.number;
                self.origins[slot] = Origin::Catalogue;
            }
        }
    }

    pub(super) fn take_rule_set(&mut self, name: &str) -> Result<()> {
        let rule_set = PUBLISHED
            .iter()
            .find(|known| known.name == name)
            .ok_or_else(|| Error::NotOnRecord {
                path: "rule_set.name".to_owned(),
                kind: "rule set",
                given: name.to_owned(),
                known: PUBLISHED.iter().map(|known| known.name.clone()).collect(),
                instead: "leave the name out and state proof_factor, burst_factor and their source",
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
