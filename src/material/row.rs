//! A row on record: what a name stands for, value by value, each with where it was printed.

use crate::error::{Error, Result};
use serde_json::{Value, json};
use std::sync::Arc;

/// One value of a row.
#[derive(Debug, Clone, PartialEq)]
pub struct Written {
    /// Name of the field it fills.
    pub key: String,
    /// As written, with its unit.
    pub text: String,
    /// In SI.
    pub number: f64,
    /// Where this value was printed, if not where the row was.
    pub source: Option<String>,
}

/// One material or piece of stock.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Kind of row, as in a catalogue file: metal, fibre, tube, sheet.
    pub kind: &'static str,
    /// Name to put into a stage file.
    pub name: String,
    /// Where the numbers stand.
    pub source: String,
    /// Name of the metal a piece of stock is of.
    pub metal: Option<String>,
    /// Texts its kind asks for, by key.
    pub texts: Vec<(&'static str, String)>,
    /// The values.
    pub values: Vec<Written>,
    /// Where the row itself stands, for messages.
    pub place: String,
}

impl Row {
    /// The value of a field.
    pub fn value(&self, key: &str) -> Option<&Written> {
        self.values.iter().find(|value| value.key == key)
    }

    /// A text of its kind, or nothing.
    pub fn text(&self, key: &str) -> &str {
        let found = self.texts.iter().find(|(known, _)| *known == key);
        found.map_or("", |(_, text)| text)
    }

    /// Where the value of a field was printed.
    pub fn source_of(&self, key: &str) -> &str {
        let own = self.value(key).and_then(|value| value.source.as_deref());
        own.unwrap_or(&self.source)
    }

    /// The row as it would stand in a catalogue.
    pub fn json(&self) -> Value {
        let texts = [
            ("name", Some(&self.name)),
            ("source", Some(&self.source)),
            ("metal", self.metal.as_ref()),
        ];
        let texts = texts
            .into_iter()
            .filter_map(|(key, text)| Some((key.to_owned(), json!(text?))));
        let own = self.texts.iter();
        let own = own.map(|(key, text)| ((*key).to_owned(), json!(text)));
        let values = self.values.iter().map(|value| {
            let written = match &value.source {
                None => json!(value.text),
                Some(source) => json!({"value": value.text, "source": source}),
            };
            (value.key.clone(), written)
        });
        Value::Object(texts.chain(own).chain(values).collect())
    }
}

/// The row of that name; `path` is where the name was given.
pub fn find(rows: &[Arc<Row>], path: &str, kind: &'static str, name: &str) -> Result<Arc<Row>> {
    let of_kind = || rows.iter().filter(|row| row.kind == kind);
    let stock = matches!(kind, "tube" | "sheet");
    if stock && of_kind().next().is_none() {
        return Err(Error::Unreadable {
            path: path.to_owned(),
            problem: format!(
                "no {kind} is on record; name a file that holds it as [[{kind}]]: catalogue = \
                 \"stock.toml\""
            ),
        });
    }
    of_kind()
        .find(|row| row.name == name)
        .cloned()
        .ok_or_else(|| Error::NotOnRecord {
            path: path.to_owned(),
            kind,
            given: name.to_owned(),
            known: of_kind().map(|row| row.name.clone()).collect(),
            instead: if stock {
                "write it as a row of a catalogue file"
            } else {
                "leave the name out and state the values, or write it as a row of a catalogue file"
            },
        })
}
