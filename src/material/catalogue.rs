//! Catalogues: named rows whose values fill inputs, each with its source. The shipped one and those
//! of a user have one form and are read by the same code.

use super::kind::Kind;
use super::reader::read;
use super::row::Row;
use crate::document::{Document, Findings};
use std::path::Path;
use std::sync::{Arc, LazyLock};

/// What the shipped catalogue is called in messages.
const SHIPPED: &str = "shipped catalogue";

/// The metals on record.
pub static METALS: LazyLock<Vec<Arc<Row>>> = LazyLock::new(|| shipped("metal"));
/// The fibres on record.
pub static FIBRES: LazyLock<Vec<Arc<Row>>> = LazyLock::new(|| shipped("fibre"));

fn shipped(kind: &str) -> Vec<Arc<Row>> {
    let kinds = [Kind::metal(), Kind::fibre()];
    let text = include_str!("catalogue.toml");
    let mut rows = shipped_rows(text, SHIPPED, &kinds, &mut Findings::default());
    rows.retain(|row| row.kind == kind);
    rows
}

/// Rows of a table that is part of the crate, called `name` in messages. A test reads every row of
/// each such table and wants no finding, so a row that does not read can only be met while editing the
/// file; such a row is left out or lacks its value, and never has one that it does not state.
pub(crate) fn shipped_rows(
    text: &str,
    name: &str,
    kinds: &[Kind],
    findings: &mut Findings,
) -> Vec<Arc<Row>> {
    let mut rows = Vec::new();
    if let Ok(document) = Document::from_toml(text, Path::new(name), findings) {
        read(&document, "", kinds, &mut rows, findings);
    }
    rows
}

/// The rows a stage may name: the shipped ones, then its own.
#[derive(Debug, Clone)]
pub struct Catalogue {
    rows: Vec<Arc<Row>>,
    shipped: usize,
}

impl Default for Catalogue {
    fn default() -> Self {
        let rows: Vec<Arc<Row>> = METALS.iter().chain(FIBRES.iter()).cloned().collect();
        let shipped = rows.len();
        Self { rows, shipped }
    }
}

impl Catalogue {
    /// Every row.
    pub fn rows(&self) -> &[Arc<Row>] {
        &self.rows
    }

    /// The rows that are not shipped.
    pub fn own(&self) -> &[Arc<Row>] {
        &self.rows[self.shipped..]
    }

    /// Adds the rows that stand at a path of a document, empty for the whole of it.
    pub(crate) fn add(
        &mut self,
        document: &Document,
        path: &str,
        kinds: &[Kind],
        findings: &mut Findings,
    ) {
        read(document, path, kinds, &mut self.rows, findings);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_row_reads_within_its_limits_and_names_its_source() {
        let mut findings = Findings::default();
        let text = include_str!("catalogue.toml");
        let document = Document::from_toml(text, Path::new(SHIPPED), &mut findings)
            .expect("a sound file of rows");
        let mut rows = Vec::new();
        let kinds = [Kind::metal(), Kind::fibre()];
        read(&document, "", &kinds, &mut rows, &mut findings);
        document
            .check_schema(&mut findings)
            .expect("the form of a catalogue");
        findings.conclude().expect("no mistakes");
        assert!(METALS.len() >= 2 && FIBRES.len() >= 2);
        assert_eq!(rows.len(), METALS.len() + FIBRES.len());
        for row in rows {
            assert!(!row.name.is_empty() && row.source.len() > 20, "{row:?}");
            assert!(row.place.starts_with("shipped catalogue:"), "{row:?}");
        }
    }
}
