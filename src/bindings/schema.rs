//! The tables of inputs, results and choices, and rows on record.

use crate::error::{Error, Result};
use crate::likeness::{asked, near_names, near_paths};
use crate::quantity::{self, Choice, Field, OTHER_SIGNS, Quantity};
use crate::stage::{CHOICES, Fault, INPUTS, KINDS, LISTED, LISTS, Method, OTHERS, RESULTS, TEXTS};
use crate::study::STUDY_TABLES;
use pyo3::prelude::*;
use serde_json::{Value, json};

/// Every input, result, choice and text, as JSON text.
#[pyfunction]
pub fn schema() -> String {
    let fields = |fields: &[Field]| fields.iter().map(Field::json).collect::<Vec<Value>>();
    let choices: Vec<Value> = CHOICES
        .iter()
        .map(|choice| {
            let option = |(word, doc): &(&str, &str)| json!({"word": word, "doc": doc});
            let options: Vec<Value> = choice.options.iter().map(option).collect();
            json!({"path": choice.path, "doc": choice.doc, "options": options, "default": choice.default})
        })
        .collect();
    let kinds: Vec<Value> = KINDS
        .iter()
        .map(|kind| {
            json!({
                "word": kind.word,
                "doc": kind.doc,
                "fields": fields(&kind.fields),
                "required": kind.required,
                "of_metal": kind.of_metal,
                "may_say": kind.may_say.iter().map(|text| json!({
                    "key": text.key,
                    "doc": text.doc,
                    "words": text.words,
                })).collect::<Vec<_>>(),
            })
        })
        .collect();
    let pairs = |pairs: &[(&str, &str)]| -> Vec<Value> {
        let pair = |(path, doc): &(&str, &str)| json!({"path": path, "doc": doc});
        pairs.iter().map(pair).collect()
    };
    let quantities: serde_json::Map<String, Value> = Quantity::ALL
        .iter()
        .map(|quantity| {
            let units = quantity.units().iter().map(|unit| unit.symbol);
            let units: Vec<&str> = units.collect();
            (quantity.name().to_owned(), json!(units))
        })
        .collect();
    let signs = OTHER_SIGNS.iter();
    let signs: Vec<Value> = signs.map(|(sign, unit)| json!([sign, unit])).collect();
    let methods: Vec<&str> = Method::OPTIONS.iter().map(|(word, _)| *word).collect();
    let study: Vec<Value> = STUDY_TABLES
        .iter()
        .map(|table| json!({"path": table.path, "names": pairs(table.names)}))
        .collect();
    json!({
        "study": study,
        "safety": crate::stage::SAFETY,
        "other_signs": signs,
        "kinds": kinds,
        "listed": pairs(LISTED),
        "lists": pairs(LISTS),
        "others": pairs(OTHERS),
        "quantities": quantities,
        "methods": methods,
        "inputs": fields(&INPUTS.fields),
        "results": fields(&RESULTS.fields),
        "choices": choices,
        "texts": pairs(TEXTS),
    })
    .to_string()
}

/// The question which known name was meant by one that is not known, or an empty text; of dotted
/// paths the last name counts.
#[pyfunction]
pub fn meant(given: &str, known: Vec<String>, dotted: bool) -> String {
    let known = known.iter().map(String::as_str);
    asked(&if dotted {
        near_paths(given, known)
    } else {
        near_names(given, known)
    })
}

/// A text with a unit for an input, in SI.
#[pyfunction]
pub fn si(path: &str, text: &str) -> PyResult<f64> {
    let quantity = INPUTS.fields[INPUTS.find(path, "input")?].quantity;
    quantity::read(text, quantity).map_err(|problem| {
        Error::Unreadable {
            path: path.to_owned(),
            problem,
        }
        .into()
    })
}

/// A text with a unit in SI; takes the name of what it is, for messages, and the quantity's name of the
/// schema.
#[pyfunction]
pub fn read(name: &str, text: &str, quantity: &str) -> PyResult<f64> {
    quantity::read(text, known(quantity)?).map_err(|problem| {
        Error::Unreadable {
            path: name.to_owned(),
            problem,
        }
        .into()
    })
}

/// A value in SI as it is printed, with its unit; takes the quantity's name of the schema.
#[pyfunction]
pub fn show(value: f64, quantity: &str) -> PyResult<String> {
    Ok(quantity::show(value, known(quantity)?))
}

fn known(quantity: &str) -> Result<Quantity> {
    let names = || Quantity::ALL.iter().map(|known| known.name());
    let place = names().position(|name| name == quantity);
    let found = place.and_then(|place| Quantity::ALL.get(place));
    found.copied().ok_or_else(|| Error::Unknown {
        kind: "quantity",
        given: quantity.to_owned(),
        suggestions: near_names(quantity, names()),
    })
}

/// Why a design has no results, as a sentence.
#[pyfunction]
pub fn reason(code: i64, value: f64) -> String {
    Fault::from_code(code as f64).map_or(String::new(), |fault| fault.sentence(value))
}

/// Short name of a fault number; "ok" for zero.
#[pyfunction]
pub fn fault_word(code: i64) -> &'static str {
    Fault::from_code(code as f64).map_or("ok", Fault::word)
}
