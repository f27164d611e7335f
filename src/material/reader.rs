//! Reading the rows of a catalogue.

use super::kind::{Kind, Text};
use super::row::{Row, Written, find};
use super::strength::{STRENGTHS, out_of_order};
use crate::document::{At, Document, Findings, text_of};
use crate::error::{Error, Result};
use crate::likeness::near_names;
use crate::problem::cut;
use crate::quantity::{Field, missing_number, number};
use serde_json::{Map, Value};
use std::sync::Arc;

/// Most rows in a catalogue.
const MOST: usize = 2000;

/// Reads the rows of a catalogue that stands at a path of a document (empty for the whole of it) and
/// adds them to those there are; every mistake is noted. A row may name a metal that stands before it
/// or in the same catalogue.
pub(super) fn read(
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
    let mut taken: Vec<(Arc<Row>, String)> = Vec::new();
    let mut lost = false;
    for (key, value) in tree.into_iter().flatten() {
        if key == "schema" && path.is_empty() {
            continue;
        }
        let path = crate::quantity::field::join(path, key);
        let Some(kind) = kinds.iter().find(|kind| kind.word == key) else {
            let error = Error::Unknown {
                kind: "list",
                given: path.clone(),
                suggestions: near_names(key, kinds.iter().map(|kind| kind.word)),
            };
            findings.note(document, At::Key(&path), error);
            continue;
        };
        let Value::Array(list) = value else {
            let problem = format!("{path} is a list; write [[{path}]] above each row");
            findings.note(document, At::Key(&path), Error::Inconsistent(problem));
            continue;
        };
        if rows.len() + list.len() > MOST {
            let problem = format!("{path}: a catalogue holds at most {MOST} rows; split it");
            findings.note(document, At::Key(&path), Error::Inconsistent(problem));
            continue;
        }
        for (index, entry) in list.iter().enumerate() {
            let path = format!("{path}[{index}]");
            let knows = |key: &String| {
                let text = matches!(key.as_str(), "name" | "source");
                text || kind.of_metal && key == "metal"
                    || kind.says().any(|text| text.key == key)
                    || kind.fields.iter().any(|field| field.path == *key)
            };
            let keys = entry.as_object().into_iter().flat_map(Map::keys);
            let reader = Reader {
                document,
                kind,
                path: &path,
                doubt: !keys.into_iter().all(knows),
            };
            match reader.row(entry, rows, findings) {
                Some(row) => {
                    let row = Arc::new(row);
                    rows.push(row.clone());
                    taken.push((row, format!("{path}.metal")));
                }
                None => lost |= kind.word == "metal",
            }
        }
    }
    // A metal that could not be read may be the one that is missed.
    for (row, path) in taken.iter().filter(|_| !lost) {
        if let Some(Err(error)) = row
            .metal
            .as_ref()
            .map(|name| find(rows, path, "metal", name))
        {
            findings.note(document, At::Value(path), error);
        }
    }
}

struct Reader<'a> {
    document: &'a Document,
    kind: &'a Kind,
    path: &'a str,
    /// Whether a name is not known: what seems to be missing may be what was meant by it.
    doubt: bool,
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
            if !self.is_text(key) {
                values.extend(self.value(key, value, findings));
            }
        }
        self.check_strengths(entry, &values, findings);
        let metal = entry.get("metal").filter(|_| self.kind.of_metal);
        let metal = metal.and_then(|_| self.text(entry, "metal", "the metal it is of", findings));
        let said = |text: &&Text| entry.contains_key(text.key);
        let texts = self.kind.texts.iter();
        let texts = texts.chain(self.kind.may_say.iter().filter(said));
        let texts: Option<Vec<_>> = texts
            .map(|text| self.own_text(entry, text, findings))
            .collect();
        let kept = |key: &str| entry.contains_key(key);
        let missing = self.kind.required.iter().filter(|key| !kept(key));
        for key in missing.filter(|_| !self.doubt) {
            let error = self.missing(key);
            findings.note(document, At::Table(&self.at(key)), error);
        }
        let (name, source, texts) = (name?, source?, texts?);
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
        Some(Row {
            kind: self.kind.word,
            name,
            source,
            metal,
            texts,
            values,
            place: document
                .standing(self.path)
                .unwrap_or_else(|| self.path.to_owned()),
        })
    }

    /// Notes a yield strength above the ultimate strength.
    fn check_strengths(
        &self,
        entry: &Map<String, Value>,
        values: &[Written],
        findings: &mut Findings,
    ) {
        for pair in STRENGTHS {
            let found = pair.map(|key| values.iter().find(|value| value.key == key));
            let [Some(yields), Some(breaks)] = found else {
                continue;
            };
            if yields.number > breaks.number {
                let shown = [cut(&yields.text), cut(&breaks.text)];
                let error = out_of_order(self.path, pair, [&shown[0], &shown[1]]);
                let mut at = self.at(pair[0]);
                if entry.get(pair[0]).is_some_and(Value::is_object) {
                    at.push_str(".value");
                }
                findings.note(self.document, At::Value(&at), error);
            }
        }
    }

    fn is_text(&self, key: &str) -> bool {
        matches!(key, "name" | "source")
            || self.kind.of_metal && key == "metal"
            || self.kind.says().any(|text| text.key == key)
    }

    fn at(&self, key: &str) -> String {
        format!("{}.{key}", self.path)
    }

    /// A text of this kind of row, one of its words where it has any.
    fn own_text(
        &self,
        entry: &Map<String, Value>,
        asked: &Text,
        findings: &mut Findings,
    ) -> Option<(&'static str, String)> {
        let text = self.text(entry, asked.key, asked.doc, findings)?;
        if asked.words.is_empty() || asked.words.contains(&text.as_str()) {
            return Some((asked.key, text));
        }
        let path = self.at(asked.key);
        let problem = format!(
            "{path}: \"{}\" is not one of its words; write \"{}\"",
            cut(&text),
            asked.words.join("\" or \"")
        );
        findings.note(
            self.document,
            At::Value(&path),
            Error::Inconsistent(problem),
        );
        None
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
            // What no value can be made of has been noted with the document.
            Some(_) if self.document.is_unreadable(&path) => None,
            Some(value) => {
                let text = match value.as_str() {
                    Some(text) if text.trim().is_empty() => Err(Error::Inconsistent(format!(
                        "{path} is empty: {doc}; write it in quotes"
                    ))),
                    _ => text_of(&path, value).map(str::to_owned),
                };
                findings.take(self.document, At::Value(&path), text)
            }
            None => {
                if !self.doubt {
                    findings.note(self.document, At::Table(&path), missing());
                }
                None
            }
        }
    }

    fn value(&self, key: &str, value: &Value, findings: &mut Findings) -> Option<Written> {
        let (document, path) = (self.document, self.at(key));
        let Some(field) = self.kind.fields.iter().find(|field| field.path == key) else {
            let metal = self.kind.of_metal.then_some("metal");
            let columns = self.kind.fields.iter().map(|field| field.path.as_str());
            let texts = self.kind.says().map(|text| text.key);
            let error = Error::Unknown {
                kind: "field",
                given: path.clone(),
                suggestions: near_names(
                    key,
                    columns.chain(["name", "source"]).chain(metal).chain(texts),
                ),
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
                            suggestions: near_names(other, ["value", "source"]),
                        };
                        findings.note(document, At::Key(&path), error);
                    }
                }
                let reader = Reader {
                    document,
                    kind: self.kind,
                    path: &path,
                    doubt: table
                        .keys()
                        .any(|key| !matches!(key.as_str(), "value" | "source")),
                };
                let source = reader.text(table, "source", "where it was printed", findings);
                let at = format!("{path}.value");
                let Some(value) = table.get("value") else {
                    if !reader.doubt {
                        findings.note(document, At::Table(&at), missing_number(field, &at));
                    }
                    return None;
                };
                (at, value, Some(source?))
            }
            value => (path.clone(), value, None),
        };
        // What no value can be made of has been noted with the document.
        let readable = !document.is_unreadable(&at);
        let number = readable.then(|| self.number(field, value, &at))?;
        let number = findings.take(document, At::Value(&at), number)?;
        let text = match (value, field.quantity.si()) {
            (Value::String(text), _) => text.clone(),
            (number, "") => number.to_string(),
            (number, unit) => format!("{number} {unit}"),
        };
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
            Some(field) => missing_number(field, &path),
            None => Error::Inconsistent(format!("{path} is missing")),
        }
    }
}
