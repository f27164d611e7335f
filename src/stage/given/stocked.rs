//! The catalogue of a stage: the shipped rows and those of the files it names. The rows travel with
//! the stage, so that a stored one needs no file.

use super::leaves::Leaves;
use super::stage::Stage;
use super::stock::{KINDS, PLACES};
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::mass::MATURITIES;
use crate::material::{Catalogue, Row};
use crate::quantity::Field;
use crate::vessel::rule_set::PUBLISHED;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// Key of a document that names the files, or holds the rows themselves.
pub(super) const KEY: &str = "catalogue";

/// Most files a stage may name.
const MOST_FILES: usize = 20;

/// The catalogue of a document, and whether all of it could be read.
pub(super) fn catalogue(
    document: &Document,
    leaves: &Leaves,
    findings: &mut Findings,
) -> (Catalogue, bool) {
    let mut catalogue = Catalogue::default();
    let before = findings.count();
    let kinds = KINDS.as_slice();
    match leaves.get(KEY) {
        None => {}
        Some(Value::Object(_)) => catalogue.add(document, KEY, kinds, findings),
        Some(value) => {
            for (path, name) in files(document, value, findings) {
                let file = document.beside(&name);
                let mut inside = Findings::default();
                match Document::load(&file, &mut inside) {
                    Ok(other) => match other.check_schema(&mut inside) {
                        Ok(()) => catalogue.add(&other, "", kinds, &mut inside),
                        Err(error) => inside.note(&other, At::Top("schema"), error),
                    },
                    Err(error) => findings.note(document, At::Value(&path), error),
                }
                findings.include(document, At::Value(&path), inside);
            }
        }
    }
    (catalogue, findings.count() == before)
}

/// Reads a catalogue file by itself, for the mistakes in it.
pub fn check_catalogue(path: &Path) -> Result<()> {
    alone(path).map(|_| ())
}

/// The shipped rows and those of a catalogue file if one is given, as JSON text like
/// [`Stage::catalogue_json`].
pub fn catalogue_file_json(path: Option<&Path>) -> Result<String> {
    let catalogue = path.map_or_else(|| Ok(Catalogue::default()), alone)?;
    Ok(rows_json(&catalogue, &[]))
}

fn alone(path: &Path) -> Result<Catalogue> {
    let mut findings = Findings::default();
    let document = Document::load(path, &mut findings)?;
    document.check_schema(&mut findings)?;
    let mut catalogue = Catalogue::default();
    catalogue.add(&document, "", KINDS.as_slice(), &mut findings);
    findings.conclude()?;
    Ok(catalogue)
}

/// The files named, each with its path in the document.
fn files(document: &Document, value: &Value, findings: &mut Findings) -> Vec<(String, String)> {
    let usage = "write catalogue = \"stock.toml\", or a list of such names";
    let wrong = |path: &str, problem: String| Error::Unreadable {
        path: path.to_owned(),
        problem,
    };
    let listed: Vec<(String, &Value)> = match value {
        Value::Array(list) if list.is_empty() || list.len() > MOST_FILES => {
            let problem = format!("between 1 and {MOST_FILES} files can be named; {usage}");
            findings.note(document, At::Value(KEY), wrong(KEY, problem));
            return Vec::new();
        }
        Value::Array(list) => {
            let entries = list.iter().enumerate();
            entries
                .map(|(index, entry)| (format!("{KEY}[{index}]"), entry))
                .collect()
        }
        one => vec![(KEY.to_owned(), one)],
    };
    let mut files: Vec<(String, String)> = Vec::new();
    for (path, entry) in listed {
        let problem = match entry {
            Value::String(name) if name.trim().is_empty() => {
                format!("the name of a file is empty; {usage}")
            }
            Value::String(name) if files.iter().any(|(_, known)| known == name) => {
                format!("\"{name}\" is named twice; take one out")
            }
            Value::String(name) => {
                files.push((path, name.clone()));
                continue;
            }
            // What no value can be made of has been noted with the document.
            _ if document.is_unreadable(&path) => continue,
            other => format!("{other} is not the name of a file; {usage}"),
        };
        findings.note(document, At::Value(&path), wrong(&path, problem));
    }
    files
}

/// Rows of one's own as they stand in a document that needs no file, and where each stood.
pub(super) fn embedded(catalogue: &Catalogue) -> (Map<String, Value>, BTreeMap<String, String>) {
    let mut lists: Map<String, Value> = Map::new();
    let mut places = BTreeMap::new();
    for row in catalogue.own() {
        let list = lists
            .entry(row.kind)
            .or_insert_with(|| Value::Array(Vec::new()));
        if let Value::Array(list) = list {
            places.insert(
                format!("{KEY}.{}[{}]", row.kind, list.len()),
                row.place.clone(),
            );
            list.push(row.json());
        }
    }
    (lists, places)
}

impl Stage {
    /// Puts the rows of every named file in place of its name; returns where each value of the
    /// document stands.
    pub(super) fn take_along(
        &mut self,
        document: &Document,
        leaves: &Leaves,
    ) -> BTreeMap<String, String> {
        let standing = |path: &str| Some((path.to_owned(), document.standing(path)?));
        let mut places: BTreeMap<String, String> = leaves
            .iter()
            .filter_map(|(path, _)| standing(path))
            .collect();
        let (lists, rows) = embedded(&self.catalogue);
        let written = Arc::make_mut(&mut self.document);
        if written.remove(KEY).is_some() && !lists.is_empty() {
            written.insert(KEY.to_owned(), Value::Object(lists));
            places.extend(rows);
        }
        places
    }

    /// Every row a name of this stage can stand for, as JSON text: kind, name, values, source, where
    /// the row stands, and at which paths it can be named.
    pub fn catalogue_json(&self) -> String {
        rows_json(&self.catalogue, &self.maturities)
    }
}

fn rows_json(catalogue: &Catalogue, own: &[crate::mass::Maturity]) -> String {
    let rows = catalogue.rows().iter().map(|row| listed(row));
    let class = |class: &crate::mass::Maturity, place: &str| {
        json!({
            "kind": "maturity",
            "name": class.name,
            "source": class.source,
            "place": place,
            "metal": null,
            "says": {},
            "values": [share("growth_allowance", class.growth_allowance)],
            "paths": ["mass.growth.*_maturity", "mass.item[].maturity"],
        })
    };
    let published = MATURITIES.iter().map(|one| class(one, "shipped classes"));
    let own = own.iter().map(|one| class(one, "stage"));
    let rule_sets = PUBLISHED.iter().map(|known| {
        json!({
            "kind": "rule set",
            "name": known.name,
            "source": known.source,
            "place": "shipped rule sets",
            "metal": null,
            "says": says(&[
                ("scope", known.scope.clone()),
                ("hold", known.hold.clone()),
            ]),
            "values": known.factors().map(|(key, value)| share(key, value)).collect::<Vec<_>>(),
            "paths": ["rule_set.name"],
        })
    });
    let all: Vec<Value> = rows.chain(rule_sets).chain(published).chain(own).collect();
    Value::Array(all).to_string()
}

fn share(key: &str, value: f64) -> Value {
    json!({"key": key, "shown": value.to_string(), "value": value, "unit": "", "source": null})
}

/// Texts of a row as JSON, by their key.
fn says<'a>(texts: impl IntoIterator<Item = &'a (&'static str, String)>) -> Value {
    let texts = texts.into_iter();
    let pairs = texts.map(|(key, text)| ((*key).to_owned(), Value::String(text.clone())));
    Value::Object(pairs.collect())
}

fn listed(row: &Row) -> Value {
    let fields: &[Field] = KINDS
        .iter()
        .find(|kind| kind.word == row.kind)
        .map_or(&[], |kind| &kind.fields);
    let values: Vec<Value> = fields
        .iter()
        .filter_map(|field| {
            let written = row.value(&field.path)?;
            Some(json!({
                "key": field.path,
                "shown": written.text,
                "value": written.number,
                "unit": field.quantity.si(),
                "source": written.source,
            }))
        })
        .collect();
    let paths: Vec<&str> = PLACES
        .iter()
        .filter(|place| place.kind == row.kind)
        .map(|place| place.path)
        .collect();
    json!({
        "kind": row.kind,
        "name": row.name,
        "source": row.source,
        "place": row.place,
        "metal": row.metal,
        "says": says(&row.texts),
        "values": values,
        "paths": paths,
    })
}
