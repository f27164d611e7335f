//! What a stage lacks, and what would do instead of it.

use super::leaves::TEXTS;
use crate::error::Error;
use crate::quantity::{lower_first, wanted};
use crate::stage::chain::schema::INPUTS;

/// A row on record that is missing, and what would do instead of it.
pub(super) fn missing_row(table: &str, names: &[String]) -> Error {
    let path = format!("{table}.name");
    let doc = TEXTS.iter().find(|(known, _)| *known == path);
    let names: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
    Error::Missing {
        doc: doc.map_or(String::new(), |(_, doc)| (*doc).to_owned()),
        how: format!(
            "choose {}, or state the values and their source",
            names.join(", ")
        ),
        path,
    }
}

/// What is missing, and what would do instead of it.
pub(super) fn missing_beside<'a>(
    path: &str,
    others: impl Iterator<Item = &'a &'static str>,
) -> Error {
    let mut error = missing(path);
    if let Error::Missing { how, .. } = &mut error {
        let others: Vec<&str> = others.copied().collect();
        *how = format!("{how}, or state {} too", others.join(" or "));
    }
    error
}

pub(super) fn missing(path: &str) -> Error {
    let field = INPUTS.slot(path).map(|slot| &INPUTS.fields[slot]);
    Error::Missing {
        path: path.to_owned(),
        doc: field.map_or(String::new(), |field| lower_first(field.doc)),
        how: field.map_or(String::new(), |field| {
            format!("write {}", wanted(field.quantity))
        }),
    }
}
