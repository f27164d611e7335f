//! Catalogues: named rows whose values fill inputs, each with its source. The shipped one and those
//! of a user have one form and are read by the same code.

use super::row::{Row, Written};
use super::{Fibre, Metal};
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result, nearest};
use crate::quantity::{Field, Slots, lower_first, number, wanted};
use serde_json::{Map, Value};
use std::path::Path;
use std::sync::{Arc, LazyLock};

/// What the shipped catalogue is called in messages.
const SHIPPED: &str = "shipped catalogue";

/// A kind of row.
#[derive(Debug)]
pub struct Kind {
    /// Name of its list in a catalogue: `[[metal]]`.
    pub word: &'static str,
    /// What such a row is.
    pub doc: &'static str,
    /// The values it may hold.
    pub fields: Vec<Field>,
    /// The values it must hold; what else a stage needs, the stage asks for.
    pub required: &'static [&'static str],
}

fn fields<T: Slots<f64>>() -> Vec<Field> {
    let mut fields = Vec::with_capacity(T::COUNT);
    T::table("", 0, &mut fields);
    fields
}

impl Kind {
    /// Metals of liner and closures.
    pub fn metal() -> Self {
        Self {
            word: "metal",
            doc: "a metal of liner and closures",
            fields: fields::<Metal<f64>>(),
            required: &[],
        }
    }

    /// Fibres of the overwrap.
    pub fn fibre() -> Self {
        Self {
            word: "fibre",
            doc: "a fibre of the overwrap",
            fields: fields::<Fibre<f64>>(),
            required: &[],
        }
    }
}

/// The metals on record.
pub static METALS: LazyLock<Vec<Arc<Row>>> = LazyLock::new(|| shipped("metal"));
/// The fibres on record.
pub static FIBRES: LazyLock<Vec<Arc<Row>>> = LazyLock::new(|| shipped("fibre"));

/// Rows of one kind. The catalogue is part of the crate and a test reads every row of it, so a row
/// that does not read can only be met while editing the file.
fn shipped(kind: &str) -> Vec<Arc<Row>> {
    let mut findings = Findings::default();
    let mut rows = Vec::new();
    let text = include_str!("catalogue.toml");
    if let Ok(document) = Document::from_toml(text, Path::new(SHIPPED), &mut findings) {
        let kinds = [Kind::metal(), Kind::fibre()];
        read(&document, "", &kinds, &mut rows, &mut findings);
    }
    rows.retain(|row| row.kind == kind);
    rows
}

/// Reads the rows of a catalogue that stands at a path of a document (empty for the whole of it) and
/// adds them to those there are; every mistake is noted.
fn read(
    document: &Document,
    path: &str,
    kinds: &[Kind],
    rows: &mut Vec<Arc<Row>>,
    findings: &mut Findings,
) {
    let tree = if path.is_empty() {
        Some(&document.tree)
    } else {
        document.value(path).and_then(Value::as_object)
    };
    for (key, value) in tree.into_iter().flatten() {
        let path = crate::quantity::field::join(path, key);
        if key == "schema" {
            continue;
        }
        let Some(kind) = kinds.iter().find(|kind| kind.word == key) else {
            let error = Error::Unknown {
                kind: "list",
                given: path.clone(),
                suggestion: nearest(key, kinds.iter().map(|kind| kind.word)),
            };
            findings.note(document, At::Key(&path), error);
            continue;
        };
        let Value::Array(list) = value else {
            let problem = format!("{path} is a list; write [[{path}]] above each row");
            findings.note(document, At::Key(&path), Error::Inconsistent(problem));
            continue;
        };
        for (index, entry) in list.iter().enumerate() {
            let path = format!("{path}[{index}]");
            let reader = Reader {
                document,
                kind,
                path: &path,
            };
            if let Some(row) = reader.row(entry, rows, findings) {
                rows.push(Arc::new(row));
            }
        }
    }
}

struct Reader<'a> {
    document: &'a Document,
    kind: &'a Kind,
    path: &'a str,
}

impl Reader<'_> {
    fn row(&self, entry: &Value, rows: &[Arc<Row>], findings: &mut Findings) -> Option<Row> {
        let document = self.document;
        let Value::Object(entry) = entry else {
            let problem = format!("{} is not a table; write name, source, values", self.path);
            findings.note(document, At::Value(self.path), Error::Inconsistent(problem));
            return None;
        };
        let name = self.text(entry, "name", "what the row is called", findings);
        let source = self.text(entry, "source", "where its values were printed", findings);
        let mut values = Vec::new();
        for (key, value) in entry {
            if !matches!(key.as_str(), "name" | "source") {
                values.extend(self.value(key, value, findings));
            }
        }
        let kept = |key: &str| entry.contains_key(key);
        for key in self.kind.required.iter().filter(|key| !kept(key)) {
            let error = self.missing(key);
            findings.note(document, At::Table(&self.at(key)), error);
        }
        let (name, source) = (name?, source?);
        if let Some(other) = rows
            .iter()
            .find(|row| row.kind == self.kind.word && row.name == name)
        {
            let problem = format!(
                "{}: there is already a {} \"{name}\" at {}; give this one another name",
                self.path, self.kind.word, other.place
            );
            let at = self.at("name");
            findings.note(document, At::Value(&at), Error::Inconsistent(problem));
            return None;
        }
        let place = document.place(At::Value(&self.at("name")));
        Some(Row {
            kind: self.kind.word,
            name,
            source,
            values,
            place: place.map_or_else(
                || self.path.to_owned(),
                |place| format!("{}:{}:{}", place.file.display(), place.line, place.column),
            ),
        })
    }

    fn at(&self, key: &str) -> String {
        format!("{}.{key}", self.path)
    }

    /// A text that must be there and say something.
    fn text(
        &self,
        entry: &Map<String, Value>,
        key: &str,
        doc: &str,
        findings: &mut Findings,
    ) -> Option<String> {
        let path = self.at(key);
        let missing = || Error::Missing {
            path: path.clone(),
            doc: doc.to_owned(),
            how: "write it in quotes".to_owned(),
        };
        match entry.get(key) {
            Some(Value::String(text)) if !text.trim().is_empty() => Some(text.clone()),
            Some(Value::Null) => None,
            Some(other) => {
                let problem = match other {
                    Value::String(_) => format!("{path} is empty: {doc}; write it in quotes"),
                    _ => format!("{path}: {other} is not a text; put it in quotes"),
                };
                let error = Error::Inconsistent(problem);
                findings.note(self.document, At::Value(&path), error);
                None
            }
            None => {
                findings.note(self.document, At::Table(&path), missing());
                None
            }
        }
    }

    fn value(&self, key: &str, value: &Value, findings: &mut Findings) -> Option<Written> {
        let (document, path) = (self.document, self.at(key));
        let Some(field) = self.kind.fields.iter().find(|field| field.path == key) else {
            let columns = self.kind.fields.iter().map(|field| field.path.as_str());
            let error = Error::Unknown {
                kind: "field",
                given: path.clone(),
                suggestion: nearest(key, columns.chain(["name", "source"])),
            };
            findings.note(document, At::Key(&path), error);
            return None;
        };
        let (at, value, source) = match value {
            Value::Object(table) => {
                for other in table.keys() {
                    if !matches!(other.as_str(), "value" | "source") {
                        let path = format!("{path}.{other}");
                        let error = Error::Unknown {
                            kind: "field",
                            given: path.clone(),
                            suggestion: nearest(other, ["value", "source"]),
                        };
                        findings.note(document, At::Key(&path), error);
                    }
                }
                let reader = Reader {
                    document,
                    kind: self.kind,
                    path: &path,
                };
                let source = reader.text(table, "source", "where it was printed", findings);
                let at = format!("{path}.value");
                let Some(value) = table.get("value") else {
                    findings.note(document, At::Table(&at), missing_value(field, &at));
                    return None;
                };
                (at, value, Some(source?))
            }
            value => (path.clone(), value, None),
        };
        let number = self.number(field, value, &at);
        // What a value is when it cannot be read has been told with its place.
        let number = (!value.is_null()).then_some(number)?;
        let number = findings.take(document, At::Value(&at), number)?;
        let text = value
            .as_str()
            .map_or_else(|| value.to_string(), str::to_owned);
        Some(Written {
            key: key.to_owned(),
            text,
            number,
            source,
        })
    }

    fn number(&self, field: &Field, value: &Value, at: &str) -> Result<f64> {
        let field = Field {
            path: at.to_owned(),
            ..field.clone()
        };
        number(&field, value, self.document.bare_numbers)
    }

    fn missing(&self, key: &str) -> Error {
        let path = self.at(key);
        match self.kind.fields.iter().find(|field| field.path == key) {
            Some(field) => missing_value(field, &path),
            None => Error::Inconsistent(format!("{path} is missing")),
        }
    }
}

fn missing_value(field: &Field, path: &str) -> Error {
    Error::Missing {
        path: path.to_owned(),
        doc: lower_first(field.doc),
        how: format!("write {}", wanted(field.quantity)),
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
        findings.conclude().expect("no mistakes");
        assert!(METALS.len() >= 2 && FIBRES.len() >= 2);
        assert_eq!(rows.len(), METALS.len() + FIBRES.len());
        for row in rows {
            assert!(!row.name.is_empty() && row.source.len() > 20, "{row:?}");
            assert!(row.place.starts_with("shipped catalogue:"), "{row:?}");
        }
    }
}
