//! The shipped catalogue: named rows whose values fill the inputs of a metal or a fibre.

use crate::error::{Error, Result};
use std::sync::LazyLock;

/// One material: its name, where its numbers are printed, and the numbers as written.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Name to put into a stage file.
    pub name: String,
    /// Where the numbers stand.
    pub source: String,
    /// Field name and value as text with a unit.
    pub values: Vec<(String, String)>,
}

/// The metals on record.
pub static METALS: LazyLock<Vec<Row>> = LazyLock::new(|| rows("metal"));
/// The fibres on record.
pub static FIBRES: LazyLock<Vec<Row>> = LazyLock::new(|| rows("fibre"));

/// The row of that name; `path` is where the name was given.
pub fn find<'a>(rows: &'a [Row], path: &str, kind: &'static str, name: &str) -> Result<&'a Row> {
    rows.iter()
        .find(|row| row.name == name)
        .ok_or_else(|| Error::NotOnRecord {
            path: path.to_owned(),
            kind,
            given: name.to_owned(),
            known: rows.iter().map(|row| row.name.clone()).collect(),
            instead: "leave the name out and state the values",
        })
}

/// Rows of one kind. The catalogue is part of the crate and a test reads every row of it, so a row
/// that does not parse can only be met while editing the file.
fn rows(kind: &str) -> Vec<Row> {
    let table: toml::Table = include_str!("catalogue.toml").parse().unwrap_or_default();
    let entries = table.get(kind).and_then(toml::Value::as_array);
    entries
        .into_iter()
        .flatten()
        .filter_map(toml::Value::as_table)
        .map(|entry| {
            let text = |key: &str| entry.get(key).and_then(toml::Value::as_str).unwrap_or("");
            Row {
                name: text("name").to_owned(),
                source: text("source").to_owned(),
                values: entry
                    .iter()
                    .filter(|(key, _)| !matches!(key.as_str(), "name" | "source"))
                    .map(|(key, value)| {
                        let text = value
                            .as_str()
                            .map_or_else(|| value.to_string(), str::to_owned);
                        (key.clone(), text)
                    })
                    .collect(),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::{Fibre, Metal};
    use crate::quantity::{Slots, read};

    #[test]
    fn every_row_reads_within_its_limits_and_names_its_source() {
        let mut metal = Vec::new();
        <Metal<f64> as Slots<f64>>::table("", 0, &mut metal);
        let mut fibre = Vec::new();
        <Fibre<f64> as Slots<f64>>::table("", 0, &mut fibre);
        for (rows, fields) in [(&*METALS, metal), (&*FIBRES, fibre)] {
            assert!(rows.len() >= 2);
            for row in rows {
                assert!(!row.name.is_empty() && row.source.len() > 20, "{row:?}");
                for (name, text) in &row.values {
                    let field = fields
                        .iter()
                        .find(|field| field.path == *name)
                        .expect("known field");
                    let value = read(text, field.quantity).expect("readable value");
                    assert!(
                        field.lower <= value && value <= field.upper,
                        "{name} = {text}"
                    );
                }
            }
        }
    }
}
