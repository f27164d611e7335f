//! Thrust curve and drag table of a document: rows written in place, or a two-column file.

use super::columns::{self, Columns};
use super::leaves::Leaves;
use crate::airframe::DragTable;
use crate::document::{At, Document, Findings, read_text};
use crate::error::{Error, Result};
use crate::motor::Curve;
use crate::problem::cut;
use crate::quantity::{Quantity, read};
use serde_json::{Map, Value, json};
use std::path::PathBuf;

type Rows = Vec<(f64, f64)>;

const CURVE_COLUMNS: [(&str, Quantity); 2] =
    [("time", Quantity::Time), ("thrust", Quantity::Force)];

/// A table as given: its rows, and the file they stand in with the line of each, if it is a file of
/// its own.
struct Given {
    rows: Rows,
    file: Option<(PathBuf, String, Vec<usize>)>,
}

impl Given {
    /// Puts the place of the row in front of an error about one.
    fn locate(&self, document: &Document, path: &str, error: Error) -> Error {
        match (&error, &self.file) {
            (Error::InRow { row, .. }, None) => {
                document.locate_at(At::Value(&format!("{path}.rows[{}]", row - 1)), error)
            }
            (Error::InRow { row, .. }, Some((file, text, lines))) => {
                let line = lines.get(row - 1).copied().unwrap_or(1);
                in_line(file.clone(), text, line, error.to_string())
            }
            _ => document.locate_at(At::Value(path), error),
        }
    }
}

/// The thrust curve, if one is given.
pub(super) fn curve(document: &Document, leaves: &Leaves) -> Result<Option<Curve>> {
    let path = "motor.curve";
    let Some(given) = rows(document, leaves, path, CURVE_COLUMNS)? else {
        return Ok(None);
    };
    let curve = Curve::new(&given.rows).map_err(|error| given.locate(document, path, error))?;
    Ok(Some(curve))
}

/// The stated drag table.
pub(super) fn drag_table(document: &Document, leaves: &Leaves) -> Result<DragTable> {
    let path = "drag.table";
    let columns = [
        ("mach", Quantity::Ratio),
        ("drag_coefficient", Quantity::Ratio),
    ];
    let given = rows(document, leaves, path, columns)?.ok_or_else(|| Error::Missing {
        path: path.to_owned(),
        doc: "drag coefficient against Mach number, as rows or as a file".to_owned(),
        how: "write { file = \"drag.csv\" } or { rows = [...] }".to_owned(),
    })?;
    DragTable::new(&given.rows).map_err(|error| given.locate(document, path, error))
}

/// The document's tree with the rows of every named file in place of its name, so that it stands on
/// its own.
pub(super) fn embedded(document: &Document, leaves: &Leaves) -> Result<Map<String, Value>> {
    let mut tree = document.tree.clone();
    let drag = leaves
        .get("drag.table")
        .map(|_| drag_table(document, leaves))
        .transpose()?;
    let drag = drag.map(|table| {
        let rows = table.mach().iter().zip(table.coefficients());
        rows.map(|(mach, coefficient)| (*mach, *coefficient))
            .collect()
    });
    for (group, key, rows) in [
        (
            "motor",
            "curve",
            rows(document, leaves, "motor.curve", CURVE_COLUMNS)?.map(|given| given.rows),
        ),
        ("drag", "table", drag),
    ] {
        let rows: Option<Rows> = rows;
        if let (Some(rows), Some(Value::Object(group))) = (rows, tree.get_mut(group)) {
            let rows: Vec<Value> = rows.iter().map(|(a, b)| json!([a, b])).collect();
            group.insert(key.to_owned(), json!({ "rows": rows }));
        }
    }
    Ok(tree)
}

/// `{ file = "name.csv" }`, whose first line names both columns with their units as in
/// `time s,thrust N`; or `{ rows = [[0, 0], [1, 2]] }` in SI.
fn rows(
    document: &Document,
    leaves: &Leaves,
    path: &'static str,
    columns: [(&str, Quantity); 2],
) -> Result<Option<Given>> {
    let Some(value) = leaves.get(path) else {
        return Ok(None);
    };
    let wrong = |problem: String| {
        let error = Error::Unreadable {
            path: path.to_owned(),
            problem,
        };
        document.locate_at(At::Value(path), error)
    };
    let [first, second] =
        columns.map(|(name, quantity)| format!("{name} {}", quantity.si()).trim().to_owned());
    let usage = format!(
        "write {{ rows = [[{first}, {second}], ...] }} or {{ file = \"name.csv\" }} with a first line \
         such as \"{first},{second}\""
    );
    let Value::Object(table) = value else {
        return Err(wrong(format!(
            "{} is not a table; {usage}",
            cut(&value.to_string())
        )));
    };
    match (table.get("file"), table.get("rows"), table.len()) {
        (Some(Value::String(name)), None, 1) => {
            let (file, text, found) = named_columns(document, path, name)?;
            let Columns {
                head,
                header,
                rows,
                lines,
            } = found;
            let mut scales = [1.0; 2];
            for (index, (name_wanted, quantity)) in columns.into_iter().enumerate() {
                let cell = header[index].trim();
                let unit = cell.strip_prefix(name_wanted).map(str::trim);
                let scale = unit.and_then(|unit| read(&format!("1 {unit}"), quantity).ok());
                scales[index] = scale.ok_or_else(|| {
                    let right = [&first, &second][index];
                    let problem = format!(
                        "{path}: column {} is headed \"{}\"; head it \"{right}\" or with another unit",
                        index + 1,
                        cut(cell)
                    );
                    in_line(file.clone(), &text, head, problem)
                })?;
            }
            let scaled = rows.iter().map(|(a, b)| (a * scales[0], b * scales[1]));
            Ok(Some(Given {
                rows: scaled.collect(),
                file: Some((file, text, lines)),
            }))
        }
        (None, Some(Value::Array(list)), 1) => {
            let pair = |row: &Value| {
                let row = row.as_array().filter(|row| row.len() == 2)?;
                Some((row[0].as_f64()?, row[1].as_f64()?))
            };
            let mut taken = Rows::with_capacity(list.len());
            let mut findings = Findings::default();
            for (index, row) in list.iter().enumerate() {
                let at = format!("{path}.rows[{index}]");
                if let Some(row) = pair(row) {
                    taken.push(row);
                    continue;
                }
                let problem = format!(
                    "{} is not a pair of numbers; write [{first}, {second}] without units",
                    cut(&row.to_string())
                );
                let error = Error::InRow {
                    path,
                    row: index + 1,
                    problem,
                };
                findings.note(document, At::Value(&at), error);
            }
            findings.conclude()?;
            Ok(Some(Given {
                rows: taken,
                file: None,
            }))
        }
        _ => Err(wrong(usage)),
    }
}

/// The two columns of a file named in the document, with its path and its text.
fn named_columns(
    document: &Document,
    path: &str,
    name: &str,
) -> Result<(PathBuf, String, Columns)> {
    let file = document.beside(name);
    let text = read_text(&file).map_err(|error| document.locate_at(At::Value(path), error))?;
    match columns::read(&text) {
        Ok(found) => Ok((file, text, found)),
        Err((line, message)) => Err(in_line(file, &text, line, message)),
    }
}

fn in_line(file: PathBuf, text: &str, line: usize, message: String) -> Error {
    Error::InFile {
        source_line: text
            .lines()
            .nth(line.saturating_sub(1))
            .unwrap_or("")
            .to_owned(),
        file,
        line,
        column: 1,
        message,
    }
}
