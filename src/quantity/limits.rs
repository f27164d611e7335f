//! A number of the table read from a file or an object, and held to its limits.

use super::field::{Applies, Field};
use super::reading::{read, show, show_apart, wanted};
use super::unit::Quantity;
use crate::error::{Error, Result};
use crate::problem::cut;
use serde_json::Value;

/// Reads one number of the table and checks its limits.
pub(crate) fn number(field: &Field, value: &Value, bare_numbers: bool) -> Result<f64> {
    let unreadable = |problem: String| Error::Unreadable {
        path: field.path.clone(),
        problem,
    };
    let number = match value {
        Value::String(text) => read(text, field.quantity).map_err(unreadable)?,
        Value::Number(number) => {
            let number = number.as_f64().unwrap_or(f64::NAN);
            let pure = matches!(field.quantity, Quantity::Ratio | Quantity::Share);
            if !bare_numbers && !pure {
                return Err(unreadable(format!(
                    "{number} has no unit; write it in quotes with one, such as \"{number} {}\"",
                    field.quantity.printed().symbol
                )));
            }
            if let Some(error) = as_per_cent(field, number) {
                return Err(error);
            }
            number
        }
        other => {
            return Err(unreadable(format!(
                "{} is not {}; write {}{}",
                cut(&other.to_string()),
                field.quantity.with_article(),
                wanted(field.quantity),
                if bare_numbers { "" } else { " in quotes" }
            )));
        }
    };
    in_range(field, number)
}

/// Reads the limit of a result: a number of its quantity, without limits of its own.
pub(crate) fn unlimited(
    path: &str,
    value: &Value,
    quantity: Quantity,
    bare_numbers: bool,
) -> Result<f64> {
    let field = Field {
        path: path.to_owned(),
        quantity,
        lower: f64::NEG_INFINITY,
        upper: f64::INFINITY,
        applies: Applies::Always,
        index: 0,
        doc: "limit of a result.",
    };
    number(&field, value, bare_numbers)
}

/// A bare share that is outside the limits and would be inside them as per cent: what was meant.
fn as_per_cent(field: &Field, number: f64) -> Option<Error> {
    if field.quantity != Quantity::Share || number <= 1.0 || in_range(field, number).is_ok() {
        return None;
    }
    in_range(field, number * 0.01).ok()?;
    let [value, lower, upper] =
        [number, field.lower, field.upper].map(|number| show(number, field.quantity));
    Some(Error::OutOfRange {
        path: field.path.clone(),
        value,
        lower,
        upper,
        hint: format!("write \"{number} %\"; a bare number is a share of 1"),
    })
}

/// Checks a number against the limits of its field.
pub(crate) fn in_range(field: &Field, number: f64) -> Result<f64> {
    // What reading a unit rounds shall not cost a limit as it is printed.
    let slack = 1e-12 * field.lower.abs().max(field.upper.abs());
    let slack = if slack.is_finite() { slack } else { 0.0 };
    if number.is_finite() && field.lower - slack <= number && number <= field.upper + slack {
        return Ok(number);
    }
    let [lower, upper] = [field.lower, field.upper].map(|limit| show(limit, field.quantity));
    let shown = show_apart(number, [field.lower, field.upper], field.quantity);
    let value = if shown == lower || shown == upper {
        let beyond = if number < field.lower {
            "below"
        } else {
            "above"
        };
        format!("a little {beyond} {shown}")
    } else {
        shown
    };
    Err(Error::OutOfRange {
        path: field.path.clone(),
        value,
        lower,
        upper,
        hint: format!(
            "write a value between them; it is the {}",
            lower_first(field.doc)
        ),
    })
}

/// A number of the table that is not there; `path` is where it should stand.
pub(crate) fn missing_number(field: &Field, path: &str) -> Error {
    Error::Missing {
        path: path.to_owned(),
        doc: lower_first(field.doc),
        how: format!("write {}", wanted(field.quantity)),
    }
}

/// Names that a doc line may begin with.
const NAMES: [&str; 2] = ["Mach ", "Poisson"];

/// A sentence from a doc line for use inside another sentence.
pub(crate) fn lower_first(doc: &str) -> String {
    let doc = doc.trim().trim_end_matches('.');
    if NAMES.iter().any(|name| doc.starts_with(name)) {
        return doc.to_owned();
    }
    let mut letters = doc.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if first.is_uppercase() && second.is_lowercase() => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => doc.to_owned(),
    }
}
