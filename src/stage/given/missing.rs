//! What a stage lacks, and what would do instead of it.

use super::leaves::TEXTS;
use crate::error::Error;
use crate::likeness::quoted;
use crate::quantity::missing_number;
use crate::stage::chain::schema::INPUTS;

/// A row on record that is missing, and what would do instead of it.
pub(super) fn missing_row(table: &str, names: &[String]) -> Error {
    let path = format!("{table}.name");
    let doc = TEXTS.iter().find(|(known, _)| *known == path);
    Error::Missing {
        doc: doc.map_or(String::new(), |(_, doc)| (*doc).to_owned()),
        how: format!(
            "choose {}, or state the values and their source",
            quoted(names)
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
    let mut error = match INPUTS.find(path, "input") {
        Ok(slot) => missing_number(&INPUTS.fields[slot], path),
        Err(unknown) => unknown,
    };
    if let (Error::Missing { how, .. }, "rule_set.burst_factor") = (&mut error, path) {
        how.push_str(", or state rule_set.burst_ratio, which counts it on the proof pressure");
    }
    error
}
