//! A file as written: a tree of values, with the place of each.
//!
//! Takes a file's text; hands a tree of values with places, and the mistakes found, to whoever reads a
//! kind of file. In reading order: `text_file`, `syntax`, this file, `words`, `findings`.

mod findings;
mod syntax;
mod text_file;
mod words;

pub(crate) use findings::Findings;
pub(crate) use text_file::read_text;
pub(crate) use words::{printable, text_of};

use crate::error::{Error, Result};
use crate::problem::{Place, cut};
use serde_json::{Map, Value};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::ops::Range;
use std::path::{Path, PathBuf};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// What of a path is meant.
#[derive(Debug, Clone, Copy)]
pub(crate) enum At<'a> {
    /// Its name.
    Key(&'a str),
    /// Its value.
    Value(&'a str),
    /// The table it should stand in.
    Table(&'a str),
    /// What belongs to the top of the file.
    Top(&'a str),
}

impl<'a> At<'a> {
    /// The path.
    pub fn path(self) -> &'a str {
        match self {
            Self::Key(path) | Self::Value(path) | Self::Table(path) | Self::Top(path) => path,
        }
    }

    /// What an error about a path means: a name is wrong, a value is, or something is not there.
    pub fn of(path: &'a str, error: &Error) -> Self {
        match error {
            Error::Unknown { .. } | Error::Inconsistent(_) => Self::Key(path),
            Error::Missing { .. } => Self::Table(path),
            _ => Self::Value(path),
        }
    }
}

#[derive(Debug, Clone)]
struct Span {
    key: Range<usize>,
    value: Range<usize>,
}

/// The tree and where its values stand.
#[derive(Debug, Clone, Default)]
pub(crate) struct Document {
    /// Nested tables as JSON. A value that is none (a date, a number that is not finite) is null.
    pub tree: Map<String, Value>,
    /// Whether bare numbers count as SI (they do from Python, not in a file).
    pub bare_numbers: bool,
    /// Where values stood, as "FILE:LINE", if the document is rebuilt from one that was read.
    pub noted: BTreeMap<String, String>,
    spans: HashMap<String, Span>,
    /// Paths whose value is none; what is wrong with them has been told.
    unreadable: HashSet<String>,
    file: PathBuf,
    text: String,
    /// Byte at which each line begins.
    lines: Vec<usize>,
}

impl Document {
    /// Reads a TOML file; notes values that are none.
    pub fn load(path: &Path, findings: &mut Findings) -> Result<Self> {
        Self::from_toml(&read_text(path)?, path, findings)
    }

    /// Reads TOML text; `file` is named in errors and is where relative paths start.
    pub fn from_toml(text: &str, file: &Path, findings: &mut Findings) -> Result<Self> {
        let mut document = Self {
            file: file.to_owned(),
            text: text.to_owned(),
            lines: std::iter::once(0)
                .chain(text.match_indices('\n').map(|(at, _)| at + 1))
                .collect(),
            ..Self::default()
        };
        let table = syntax::parse(text, file)?;
        let mut tree = Map::new();
        let mut unreadable = Vec::new();
        document.take_table("", table.get_ref(), &mut tree, &mut unreadable);
        document.tree = tree;
        for (path, error) in unreadable {
            findings.note(&document, At::Value(&path), error);
            document.unreadable.insert(path);
        }
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
        self.locate_at(At::of(path, &error), error)
    }

    /// Puts a place in front of an error, if the document came from a file.
    pub fn locate_at(&self, at: At<'_>, error: Error) -> Error {
        let mut findings = Findings::default();
        findings.note(self, at, error.clone());
        findings.conclude().err().unwrap_or(error)
    }

    /// The value at a top-level name, or at one entry of its list: `"a"`, `"a[2]"`.
    pub fn value(&self, path: &str) -> Option<&Value> {
        match path.split_once('[') {
            Some((name, rest)) => self
                .tree
                .get(name)?
                .get(rest.strip_suffix(']')?.parse::<usize>().ok()?),
            None => self.tree.get(path),
        }
    }

    /// A file named in the document; relative paths start at the document.
    pub fn beside(&self, name: &str) -> PathBuf {
        self.file.parent().unwrap_or(Path::new("")).join(name)
    }

    /// Whether the value at a path is none.
    pub fn is_unreadable(&self, path: &str) -> bool {
        self.unreadable.contains(path)
    }

    /// Where something stands, if the document came from a file.
    pub fn place(&self, at: At<'_>) -> Option<Place> {
        let named = !self.file.as_os_str().is_empty();
        named.then(|| match self.span(at) {
            Some(span) => self.place_of(&span),
            None => self.place_of(&(self.end()..self.end())),
        })
    }

    /// Where a value stands, as "FILE:LINE"; none for what did not come from a file.
    pub fn standing(&self, path: &str) -> Option<String> {
        if let Some(noted) = self.noted.get(path) {
            return Some(noted.clone());
        }
        let line = self.line(self.spans.get(path)?.key.start);
        Some(format!("{}:{line}", self.file.display()))
    }

    /// Notes a schema that is not ours. Of a file with nothing in it only that is told.
    pub fn check_schema(&self, findings: &mut Findings) -> Result<()> {
        let top = At::Top("schema");
        match self.tree.get("schema") {
            Some(value) if value.as_i64() == Some(1) => {}
            Some(value) => {
                let problem =
                    format!("schema = {value} is not known; this version reads schema = 1");
                findings.note(self, At::Value("schema"), Error::Inconsistent(problem));
            }
            None if self.bare_numbers => {}
            None if self.tree.is_empty() => {
                let problem = "there is nothing in this file; begin with schema = 1, and take one \
                               of the packaged examples as a pattern";
                let error = Error::Inconsistent(problem.to_owned());
                return Err(self.locate_at(top, error));
            }
            None if findings.is_damaged("schema") => {}
            None => {
                let problem = "schema is missing; begin the file with schema = 1".to_owned();
                findings.note(self, top, Error::Inconsistent(problem));
            }
        }
        Ok(())
    }

    /// Byte at which something stands, for the order of what is told.
    pub fn offset(&self, at: At<'_>) -> usize {
        self.span(at).map_or(usize::MAX, |span| span.start)
    }

    /// Of a value its own span, of a name its key, of what is not there the header of the nearest
    /// table that is, and at the top the first name.
    fn span(&self, at: At<'_>) -> Option<Range<usize>> {
        if let At::Top(_) = at {
            let keys = self.spans.values().map(|span| span.key.start);
            let first = keys.min().unwrap_or(0);
            return Some(first..first);
        }
        if let At::Table(path) = at {
            let mut table = path;
            while let Some((parent, _)) = table.rsplit_once('.') {
                if let Some(span) = self.spans.get(parent) {
                    return Some(span.key.clone());
                }
                table = parent;
            }
            return None;
        }
        let span = self.spans.get(at.path())?;
        Some(match at {
            At::Value(_) => span.value.clone(),
            _ => span.key.clone(),
        })
    }

    /// Where the last line with anything on it ends.
    fn end(&self) -> usize {
        self.text.trim_end().len()
    }

    /// Line of a byte, counted from 1.
    fn line(&self, at: usize) -> usize {
        self.lines.partition_point(|start| *start <= at).max(1)
    }

    fn place_of(&self, span: &Range<usize>) -> Place {
        Place::of(&self.file, &self.text, span)
    }

    fn take_table(
        &mut self,
        prefix: &str,
        table: &DeTable<'_>,
        tree: &mut Map<String, Value>,
        unreadable: &mut Vec<(String, Error)>,
    ) {
        for (key, value) in table {
            let path = crate::quantity::field::join(prefix, key.get_ref());
            let span = Span {
                key: key.span(),
                value: value.span(),
            };
            self.spans.insert(path.clone(), span);
            let taken = self.take_value(&path, value, unreadable);
            tree.insert(key.get_ref().to_string(), taken);
        }
    }

    fn take_value(
        &mut self,
        path: &str,
        value: &Spanned<DeValue<'_>>,
        unreadable: &mut Vec<(String, Error)>,
    ) -> Value {
        let problem = match value.get_ref() {
            DeValue::Table(table) => {
                let mut tree = Map::new();
                self.take_table(path, table, &mut tree, unreadable);
                return Value::Object(tree);
            }
            DeValue::Array(array) => {
                let mut list = Vec::with_capacity(array.len());
                for (index, entry) in array.iter().enumerate() {
                    let path = format!("{path}[{index}]");
                    let span = Span {
                        key: entry.span(),
                        value: entry.span(),
                    };
                    self.spans.insert(path.clone(), span);
                    list.push(self.take_value(&path, entry, unreadable));
                }
                return Value::Array(list);
            }
            DeValue::String(text) => return Value::String(text.to_string()),
            DeValue::Boolean(truth) => return Value::Bool(*truth),
            DeValue::Integer(integer) => {
                match i64::from_str_radix(integer.as_str(), integer.radix()) {
                    Ok(number) => return Value::from(number),
                    Err(_) => format!(
                        "{} is too large for a whole number; write a smaller one, or with an \
                         exponent as 1e30",
                        cut(integer.as_str())
                    ),
                }
            }
            DeValue::Float(float) => {
                let number = float.as_str().replace('_', "").parse().ok();
                match number.and_then(serde_json::Number::from_f64) {
                    Some(number) => return Value::Number(number),
                    None => format!(
                        "{} is not a finite number; write a finite one",
                        cut(float.as_str())
                    ),
                }
            }
            DeValue::Datetime(date) => {
                format!("the date {date} is not a value here; write a number, or a text in quotes")
            }
        };
        let error = Error::Unreadable {
            path: path.to_owned(),
            problem,
        };
        unreadable.push((path.to_owned(), error));
        Value::Null
    }
}
