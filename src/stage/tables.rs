//! Thrust curve and drag table of a document: rows written in place, or a two-column file.

use super::columns::{self, Columns};
use super::leaves::Leaves;
use crate::airframe::DragTable;
use crate::document::{Document, read_text};
use crate::error::{Error, Result};
use crate::quantity::{Quantity, read};
use serde_json::{Map, Value, json};

type Rows = Vec<(f64, f64)>;

/// The thrust curve as (time s, thrust N), if one is given.
pub(super) fn curve(document: &Document, leaves: &Leaves) -> Result<Option<Rows>> {
    rows(
        document,
        leaves,
        "motor.curve",
        [("time", Quantity::Time), ("thrust", Quantity::Force)],
    )
}

/// The stated drag table.
pub(super) fn drag_table(document: &Document, leaves: &Leaves) -> Result<DragTable> {
    let columns = [
        ("mach", Quantity::Ratio),
        ("drag_coefficient", Quantity::Ratio),
    ];
    let rows = rows(document, leaves, "drag.table", columns)?.ok_or_else(|| Error::Missing {
        path: "drag.table".to_owned(),
        doc: "drag coefficient against Mach number, as rows or as a file".to_owned(),
        how: "write { file = \"drag.csv\" } or { rows = [...] }".to_owned(),
    })?;
    DragTable::new(&rows).map_err(|error| document.locate("drag.table", error))
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
        ("motor", "curve", curve(document, leaves)?),
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
    path: &str,
    columns: [(&str, Quantity); 2],
) -> Result<Option<Rows>> {
    let Some(value) = leaves.get(path) else {
        return Ok(None);
    };
    let wrong = |problem: String| {
        document.locate(
            path,
            Error::Unreadable {
                path: path.to_owned(),
                problem,
            },
        )
    };
    let [first, second] =
        columns.map(|(name, quantity)| format!("{name} {}", quantity.si()).trim().to_owned());
    let usage = format!(
        "write {{ rows = [[{first}, {second}], ...] }} or {{ file = \"name.csv\" }} with a first line \
         such as \"{first},{second}\""
    );
    let Value::Object(table) = value else {
        return Err(wrong(format!("{} is not a table; {usage}", shown(value))));
    };
    match (table.get("file"), table.get("rows"), table.len()) {
        (Some(Value::String(name)), None, 1) => {
            let Columns { header, rows } = named_columns(document, path, name)?;
            let mut scales = [1.0; 2];
            for (index, (name_wanted, quantity)) in columns.into_iter().enumerate() {
                let cell = header[index].trim();
                let unit = cell.strip_prefix(name_wanted).map(str::trim);
                let scale = unit.and_then(|unit| read(&format!("1 {unit}"), quantity).ok());
                scales[index] = scale.ok_or_else(|| {
                    wrong(format!(
                        "\"{name}\": column {} is headed \"{cell}\"; {usage}",
                        index + 1
                    ))
                })?;
            }
            let scaled = rows.iter().map(|(a, b)| (a * scales[0], b * scales[1]));
            Ok(Some(scaled.collect()))
        }
        (None, Some(Value::Array(list)), 1) => {
            let pair = |row: &Value| {
                let row = row.as_array().filter(|row| row.len() == 2)?;
                Some((row[0].as_f64()?, row[1].as_f64()?))
            };
            list.iter()
                .enumerate()
                .map(|(index, row)| {
                    pair(row).ok_or_else(|| {
                        wrong(format!(
                            "row {} is not a pair of numbers: {}",
                            index + 1,
                            shown(row)
                        ))
                    })
                })
                .collect::<Result<Rows>>()
                .map(Some)
        }
        _ => Err(wrong(usage)),
    }
}

/// The two columns of a file named in the document.
fn named_columns(document: &Document, path: &str, name: &str) -> Result<Columns> {
    let file = document.beside(name);
    let text = read_text(&file).map_err(|error| document.locate(path, error))?;
    columns::read(&text).map_err(|(line, message)| Error::InFile {
        source_line: text.lines().nth(line - 1).unwrap_or("").to_owned(),
        file,
        line,
        column: 1,
        message,
    })
}

/// The beginning of a value that is not what it should be.
fn shown(value: &Value) -> String {
    value.to_string().chars().take(60).collect()
}
