//! A stage as written: a tree of values, with the place of each in its file.

use super::columns::{self, Columns};
use crate::error::{Error, Result};
use serde_json::{Map, Value};
use std::collections::HashMap;
use std::ops::Range;
use std::path::{Path, PathBuf};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Largest file taken, bytes.
const MAX_FILE: u64 = 4 * 1024 * 1024;

/// The tree and where its values stand.
#[derive(Debug, Clone, Default)]
pub struct Document {
    /// Nested tables as JSON.
    pub tree: Map<String, Value>,
    /// Whether bare numbers count as SI (they do from Python, not in a file).
    pub bare_numbers: bool,
    spans: HashMap<String, Range<usize>>,
    file: PathBuf,
    text: String,
}

impl Document {
    /// Reads a TOML file.
    pub fn load(path: &Path) -> Result<Self> {
        Self::from_toml(&read_text(path)?, path)
    }

    /// Reads TOML text; `file` is named in errors and is where relative paths start.
    pub fn from_toml(text: &str, file: &Path) -> Result<Self> {
        let mut document = Self {
            file: file.to_owned(),
            text: text.to_owned(),
            ..Self::default()
        };
        let table = DeTable::parse(text).map_err(|error| {
            let span = error.span().unwrap_or(0..0);
            document.at_span(&span, error.message().trim().to_owned())
        })?;
        let mut tree = Map::new();
        document.take_table("", table.get_ref(), &mut tree)?;
        document.tree = tree;
        Ok(document)
    }

    /// Reads a tree of JSON, as Python hands it over.
    pub fn from_json(text: &str) -> Result<Self> {
        match serde_json::from_str(text) {
            Ok(Value::Object(tree)) => Ok(Self {
                tree,
                bare_numbers: true,
                ..Self::default()
            }),
            Ok(_) => Err(Error::Inconsistent(
                "a stage is a table of tables".to_owned(),
            )),
            Err(error) => Err(Error::Inconsistent(format!(
                "not readable as JSON: {error}"
            ))),
        }
    }

    /// Puts the place of `path` in front of an error, if the document came from a file.
    pub fn locate(&self, path: &str, error: Error) -> Error {
        match (self.spans.get(path), &error) {
            (_, Error::InFile { .. } | Error::File { .. }) | (None, _) => error,
            (Some(span), _) => self.at_span(span, error.to_string()),
        }
    }

    /// Reads a two-column file named in the document; relative paths start at the document.
    pub(super) fn columns(&self, path: &str, name: &str) -> Result<Columns> {
        let file = self.file.parent().unwrap_or(Path::new("")).join(name);
        let text = read_text(&file).map_err(|error| self.locate(path, error))?;
        columns::read(&text).map_err(|(line, message)| Error::InFile {
            source_line: text.lines().nth(line - 1).unwrap_or("").to_owned(),
            file,
            line,
            column: 1,
            message,
        })
    }

    fn at_span(&self, span: &Range<usize>, message: String) -> Error {
        let start = span.start.min(self.text.len());
        let before = self.text.get(..start).unwrap_or("");
        let line = before.matches('\n').count() + 1;
        let column = before
            .chars()
            .rev()
            .take_while(|letter| *letter != '\n')
            .count()
            + 1;
        Error::InFile {
            file: self.file.clone(),
            line,
            column,
            source_line: self.text.lines().nth(line - 1).unwrap_or("").to_owned(),
            message,
        }
    }

    fn take_table(
        &mut self,
        prefix: &str,
        table: &DeTable<'_>,
        tree: &mut Map<String, Value>,
    ) -> Result<()> {
        for (key, value) in table {
            let path = crate::quantity::field::join(prefix, key.get_ref());
            self.spans.insert(path.clone(), key.span());
            let taken = self.take_value(&path, value)?;
            tree.insert(key.get_ref().to_string(), taken);
        }
        Ok(())
    }

    fn take_value(&mut self, path: &str, value: &Spanned<DeValue<'_>>) -> Result<Value> {
        Ok(match value.get_ref() {
            DeValue::Table(table) => {
                let mut tree = Map::new();
                self.take_table(path, table, &mut tree)?;
                Value::Object(tree)
            }
            DeValue::Array(array) => {
                let mut list = Vec::with_capacity(array.len());
                for (index, entry) in array.iter().enumerate() {
                    let path = format!("{path}[{index}]");
                    self.spans.insert(path.clone(), entry.span());
                    list.push(self.take_value(&path, entry)?);
                }
                Value::Array(list)
            }
            DeValue::String(text) => Value::String(text.to_string()),
            DeValue::Boolean(truth) => Value::Bool(*truth),
            DeValue::Integer(integer) => {
                let number =
                    i64::from_str_radix(integer.as_str(), integer.radix()).map_err(|_| {
                        self.at_span(&value.span(), "this whole number is too large".to_owned())
                    })?;
                Value::from(number)
            }
            DeValue::Float(float) => {
                let number = float.as_str().replace('_', "").parse().ok();
                number
                    .and_then(serde_json::Number::from_f64)
                    .map(Value::Number)
                    .ok_or_else(|| {
                        self.at_span(&value.span(), format!("{path} is not a finite number"))
                    })?
            }
            DeValue::Datetime(_) => {
                return Err(self.at_span(&value.span(), format!("{path} cannot be a date")));
            }
        })
    }
}

fn read_text(path: &Path) -> Result<String> {
    let problem = |problem: String| Error::File {
        file: path.to_owned(),
        problem,
    };
    let about = std::fs::metadata(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => problem("there is no such file".to_owned()),
        _ => problem(error.to_string()),
    })?;
    if about.is_dir() {
        return Err(problem("this is a folder, not a file".to_owned()));
    }
    if !about.is_file() {
        return Err(problem("not a regular file".to_owned()));
    }
    if about.len() > MAX_FILE {
        return Err(problem(format!("larger than {} MB", MAX_FILE / 1_048_576)));
    }
    std::fs::read_to_string(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::InvalidData => problem("not text in UTF-8".to_owned()),
        _ => problem(error.to_string()),
    })
}
