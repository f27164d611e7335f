//! The document flattened to dotted paths, with every name checked against the schema.

use super::choices::{CHOICES, split_index};
use crate::document::{At, Document, Findings, text_of};
use crate::error::{Error, Result};
use crate::likeness::near_paths;
use crate::mass::MAX_ITEMS;
use crate::stage::chain::schema::INPUTS;
use crate::vessel::{MAX_FITTINGS, MAX_PLIES};
use serde_json::{Map, Value};

/// Texts a stage may hold: path (`[]` for an index) and meaning.
pub const TEXTS: &[(&str, &str)] = &[
    ("name", "name of the stage"),
    ("description", "what the stage is"),
    ("pressure.reason", "why the stated MEOP is right"),
    (
        "rule_set.name",
        "a published rule set on record, whose factors it fills in",
    ),
    ("rule_set.source", "where factors of one's own come from"),
    (
        "tank.liner.metal.name",
        "a metal on record, whose values it fills in",
    ),
    (
        "tank.liner.metal.source",
        "where values of one's own come from",
    ),
    (
        "tank.liner.tube",
        "a tube on record, whose outside diameter and wall it fills in",
    ),
    (
        "tank.liner.sheet",
        "a sheet on record, whose thickness it fills in as the wall",
    ),
    (
        "tank.fore_closure.sheet",
        "a sheet on record, whose thickness it fills in",
    ),
    (
        "tank.aft_closure.sheet",
        "a sheet on record, whose thickness it fills in",
    ),
    (
        "tank.overwrap.fibre.name",
        "a fibre on record, whose values it fills in",
    ),
    (
        "tank.overwrap.fibre.source",
        "where values of one's own come from",
    ),
    ("tank.fitting[].name", "name of the fitting"),
    ("mass.item[].name", "name of the item"),
    (
        "mass.item[].maturity",
        "class of maturity that fills in the item's growth allowance",
    ),
    (
        "mass.growth.tank_maturity",
        "class of maturity that fills in mass.growth.tank",
    ),
    (
        "mass.growth.airframe_maturity",
        "class of maturity that fills in mass.growth.airframe",
    ),
    (
        "mass.growth.motor_maturity",
        "class of maturity that fills in mass.growth.motor",
    ),
    (
        "mass.maturity[].name",
        "name of a class of maturity of one's own",
    ),
    (
        "mass.maturity[].source",
        "whose experience or which document the class is",
    ),
    ("requirement[].id", "short name of a requirement"),
    ("requirement[].text", "what shall hold"),
    (
        "requirement[].response",
        "path of the result it is judged by, or margins for the smallest of them",
    ),
    (
        "requirement[].method",
        "how it is verified: analysis, test, inspection",
    ),
    ("requirement[].evidence", "what shows it"),
];

/// Numbers of lists that fill no input, or only by a name: path and meaning.
pub const LISTED: &[(&str, &str)] = &[
    (
        "mass.maturity[].growth_allowance",
        "growth allowance of that class, as a share of basic mass",
    ),
    ("requirement[].at_least", "smallest value allowed"),
    ("requirement[].at_most", "largest value allowed"),
];

/// Whole numbers, tables and files: path and meaning.
pub const OTHERS: &[(&str, &str)] = &[
    ("schema", "number of this form of the file"),
    (
        "catalogue",
        "catalogue file or files whose rows the stage may name, relative to this file",
    ),
    ("fins.count", "number of fins"),
    (
        "tank.overwrap.plies",
        "how many of the plies listed are wound, from the liner outwards; all if left out",
    ),
    ("motor.curve", "thrust over time, as rows or as a file"),
    (
        "drag.table",
        "drag coefficient over Mach number, as rows or as a file",
    ),
];

/// Lists of tables, and what one entry is.
pub const LISTS: &[(&str, &str)] = &[
    ("tank.overwrap.ply", "a ply of the overwrap"),
    (
        "tank.fitting",
        "an attachment fitting on the tank's cylinder",
    ),
    ("mass.item", "an item of mass"),
    ("mass.maturity", "a class of maturity of one's own"),
    ("requirement", "what the stage shall do"),
];

fn is_other(path: &str) -> bool {
    OTHERS.iter().any(|(known, _)| *known == path)
}

fn is_list(path: &str) -> bool {
    LISTS.iter().any(|(known, _)| *known == path)
}

/// Every value of a document by its path, in the order written.
#[derive(Debug, Default)]
pub(super) struct Leaves {
    values: Vec<(String, Value)>,
}

impl Leaves {
    /// Flattens a document; notes names that are not known, each with the nearest known one.
    pub fn of(document: &Document, findings: &mut Findings) -> Self {
        let mut leaves = Self::default();
        leaves.flatten(document, "", &document.tree, findings);
        leaves
    }

    /// The value at a path.
    pub fn get(&self, path: &str) -> Option<&Value> {
        let entry = self.values.iter().find(|(known, _)| known == path);
        entry.map(|(_, value)| value)
    }

    /// Whether anything stands below a table.
    pub fn any_below(&self, table: &str) -> bool {
        let prefix = format!("{table}.");
        self.values
            .iter()
            .any(|(path, _)| path.starts_with(&prefix))
    }

    /// How many entries a list of tables has.
    pub fn count(&self, list: &str) -> usize {
        let prefix = format!("{list}[");
        self.values
            .iter()
            .filter(|(path, _)| path.starts_with(&prefix))
            .map(|(path, _)| split_index(path).1 + 1)
            .max()
            .unwrap_or(0)
    }

    /// All paths and values.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Value)> {
        self.values
            .iter()
            .map(|(path, value)| (path.as_str(), value))
    }

    /// A text.
    pub fn text(&self, document: &Document, path: &str) -> Result<Option<String>> {
        let text = self.get(path).map(|value| text_of(path, value)).transpose();
        text.map(|text| text.map(str::to_owned))
            .map_err(|error| document.locate(path, error))
    }

    /// A text that says something. What is no text has been told with the other texts.
    pub fn stated(&self, document: &Document, path: &str) -> Option<String> {
        let text = self.text(document, path).ok().flatten();
        text.filter(|text| !text.trim().is_empty())
    }

    /// As [`Self::stated`], for a text that must be there: `told` says that what is missing may stand
    /// under a name that is not known.
    pub fn required(
        &self,
        document: &Document,
        path: &str,
        [doc, how]: [&str; 2],
        told: bool,
        findings: &mut Findings,
    ) -> Option<String> {
        let stated = self.stated(document, path);
        if stated.is_none() && !told && self.text(document, path).is_ok() {
            let missing = Error::Missing {
                path: path.to_owned(),
                doc: doc.to_owned(),
                how: how.to_owned(),
            };
            findings.note(document, At::Table(path), missing);
        }
        stated
    }

    fn flatten(
        &mut self,
        document: &Document,
        prefix: &str,
        table: &Map<String, Value>,
        findings: &mut Findings,
    ) {
        for (key, value) in table {
            let path = crate::quantity::field::join(prefix, key);
            let pattern = split_index(&path).0;
            let wrong = match value {
                Value::Object(inner) if !is_other(&path) => {
                    if is_leaf(&path, &pattern) {
                        Error::Inconsistent(format!(
                            "{path} is one value, not a table; write one value behind the \
                             equals sign"
                        ))
                    } else if is_list(&path) {
                        Error::Inconsistent(format!("{path} is a list; write [[{path}]]"))
                    } else if !is_table(&pattern) {
                        unknown(&path, &pattern, findings)
                    } else if inner.is_empty() {
                        empty(&path)
                    } else {
                        self.flatten(document, &path, inner, findings);
                        continue;
                    }
                }
                Value::Array(list) if is_list(&path) => {
                    self.flatten_list(document, &path, list, findings);
                    continue;
                }
                _ if is_leaf(&path, &pattern) => {
                    self.values.push((path, value.clone()));
                    continue;
                }
                _ if is_list(&path) => {
                    Error::Inconsistent(format!("{path} is a list; write [[{path}]]"))
                }
                _ if is_table(&pattern) => Error::Inconsistent(format!(
                    "{path} is a table, not one value; write [{path}] and its values below"
                )),
                _ => unknown(&path, &pattern, findings),
            };
            findings.note(document, At::Key(&path), wrong);
            findings.damage(prefix);
            findings.damage(&path);
        }
    }

    fn flatten_list(
        &mut self,
        document: &Document,
        path: &str,
        list: &[Value],
        findings: &mut Findings,
    ) {
        let most = most_entries(path);
        if list.len() > most {
            let problem = format!(
                "{path} has {} entries, and {most} can be handled; put some of them together",
                list.len()
            );
            let first = format!("{path}[{most}]");
            findings.note(document, At::Key(&first), Error::Inconsistent(problem));
        }
        let list_path = path;
        for (index, entry) in list.iter().enumerate().take(most) {
            let path = format!("{path}[{index}]");
            let wrong = match entry {
                Value::Object(inner) if inner.is_empty() => empty(&path),
                Value::Object(inner) => {
                    self.flatten(document, &path, inner, findings);
                    continue;
                }
                _ => Error::Inconsistent(format!(
                    "{path} is not a table; write [[{list_path}]] and its values below"
                )),
            };
            findings.note(document, At::Key(&path), wrong);
            findings.damage(&path);
        }
    }

    /// Whether something meant for a path may stand in a table under a name that is not known.
    pub fn in_doubt(&self, path: &str, findings: &Findings) -> bool {
        if findings.is_damaged(path) {
            return true;
        }
        let mut inner = path;
        while !inner.is_empty() {
            let table = inner.rsplit_once('.').map_or("", |(table, _)| table);
            if findings.is_damaged(table) {
                return true;
            }
            if self.any_below(table) {
                return false;
            }
            inner = table;
        }
        false
    }
}

fn empty(path: &str) -> Error {
    Error::Inconsistent(format!("{path} is empty; fill it in or take it out"))
}

fn known_patterns() -> impl Iterator<Item = String> {
    let inputs = INPUTS.fields.iter().map(|field| split_index(&field.path).0);
    let choices = CHOICES.iter().map(|choice| choice.path.to_owned());
    let texts = TEXTS.iter().map(|(path, _)| (*path).to_owned());
    let others = LISTED.iter().chain(OTHERS);
    let others = others.map(|(path, _)| (*path).to_owned());
    inputs.chain(choices).chain(texts).chain(others)
}

fn is_leaf(path: &str, pattern: &str) -> bool {
    INPUTS.slot(path).is_some()
        || is_other(path)
        || CHOICES.iter().any(|choice| choice.path == pattern)
        || TEXTS
            .iter()
            .chain(LISTED)
            .any(|(known, _)| *known == pattern)
}

fn is_table(pattern: &str) -> bool {
    let prefix = format!("{pattern}.");
    known_patterns().any(|known| known.starts_with(&prefix))
}

/// Suggests what is near, in the same table or in another; where nothing is near it lists the names
/// there are. What is suggested is in doubt.
fn unknown(path: &str, pattern: &str, findings: &mut Findings) -> Error {
    let table = pattern.rsplit_once('.').map_or("", |(table, _)| table);
    let prefix = if table.is_empty() {
        String::new()
    } else {
        format!("{table}.")
    };
    let known: Vec<String> = known_patterns().collect();
    let mut siblings: Vec<&str> = Vec::new();
    for rest in known.iter().filter_map(|name| name.strip_prefix(&prefix)) {
        let own = rest.split('.').next().unwrap_or(rest);
        let own = own.strip_suffix("[]").unwrap_or(own);
        if !siblings.contains(&own) {
            siblings.push(own);
        }
    }
    let near = near_paths(pattern, with_tables(&known));
    if near.is_empty() {
        siblings.sort_unstable();
        return Error::Inconsistent(format!(
            "unknown field \"{path}\"; the names known here are {}",
            siblings.join(", ")
        ));
    }
    let near: Vec<String> = near.iter().map(|near| with_index_of(path, near)).collect();
    for one in &near {
        findings.damage(one);
    }
    if let Some(list) = near.iter().find(|near| is_list(near)) {
        return Error::Inconsistent(format!(
            "unknown field \"{path}\"; an entry of the list \"{list}\" may be meant: write \
             [[{list}]] and its values below"
        ));
    }
    if let [one] = near.as_slice()
        && !table.is_empty()
        && !one.contains('.')
        && is_table(one)
    {
        return Error::Inconsistent(format!(
            "unknown field \"{path}\"; \"{one}\" is a table of its own: write [{one}] and its \
             values below"
        ));
    }
    Error::Unknown {
        kind: "field",
        given: path.to_owned(),
        suggestions: near,
    }
}

/// Paths, and before each the tables and lists it stands in.
fn with_tables(known: &[String]) -> impl Iterator<Item = &str> {
    known.iter().flat_map(|path| {
        let ends = path.match_indices('.').map(|(end, _)| end);
        let tables = ends.map(|end| path[..end].trim_end_matches("[]"));
        tables.chain([path.as_str()])
    })
}

/// The most entries that a list may have.
fn most_entries(list: &str) -> usize {
    match list {
        "mass.item" => MAX_ITEMS,
        "tank.overwrap.ply" => MAX_PLIES,
        "tank.fitting" => MAX_FITTINGS,
        _ => usize::MAX,
    }
}

/// The path of a pattern in the entry of the list that another path is in.
fn with_index_of(path: &str, pattern: &str) -> String {
    let entry = path.split_once(']').map(|(entry, _)| format!("{entry}]"));
    match entry {
        Some(entry) => pattern.replacen(&split_index(&entry).0, &entry, 1),
        None => pattern.to_owned(),
    }
}
