//! Requirements of a stage as given: what shall hold, by which result it is judged, and how it is
//! verified. They enter no number; the matrix judges them.

use super::form::Form;
use super::leaves::Leaves;
use super::schema::{INPUTS, RESULTS};
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result, nearest};
use crate::quantity::{Choice, Field, Quantity, choice, read, wanted};
use serde_json::Value;

pub(super) const LIST: &str = "requirement";

/// The response that stands for the smallest margin of safety that applies.
pub(super) const ALL_MARGINS: &str = "margins";

choice! {
    /// How a requirement is verified.
    pub enum Method {
        /// By calculation.
        Analysis = "analysis",
        /// By a test of the article or of its like.
        Test = "test",
        /// By looking at the article, its drawings or its papers.
        Inspection = "inspection",
    }
}

/// One requirement.
#[derive(Debug, Clone, PartialEq)]
pub struct Requirement {
    /// Short name, unique within the stage.
    pub id: String,
    /// What shall hold, in words.
    pub text: String,
    /// Path of the result it is judged by, or `margins` for the smallest of them; none if nothing
    /// here computes it.
    pub response: Option<String>,
    /// Smallest value allowed, SI.
    pub at_least: Option<f64>,
    /// Largest value allowed, SI.
    pub at_most: Option<f64>,
    /// How it is verified.
    pub method: Method,
    /// What shows it, in the user's words.
    pub evidence: Option<String>,
}

/// The requirements of a document; notes what is wrong with each.
pub(super) fn requirements(
    document: &Document,
    leaves: &Leaves,
    form: &Form,
    findings: &mut Findings,
) -> Vec<Requirement> {
    let mut read: Vec<Requirement> = Vec::new();
    for index in 0..leaves.count(LIST) {
        let row = format!("{LIST}[{index}]");
        if findings.is_damaged(&row) {
            continue;
        }
        let one = one(document, leaves, form, index);
        let Some(requirement) = findings.take(document, At::Key(&row), one) else {
            continue;
        };
        if read.iter().any(|other| other.id == requirement.id) {
            let path = format!("{row}.id");
            let problem = format!(
                "{path}: there is already a requirement \"{}\"; give this one another id",
                requirement.id
            );
            findings.note(document, At::Value(&path), Error::Inconsistent(problem));
        }
        read.push(requirement);
    }
    read
}

fn one(document: &Document, leaves: &Leaves, form: &Form, index: usize) -> Result<Requirement> {
    let path = |key: &str| format!("{LIST}[{index}].{key}");
    let text = |key: &str| {
        let found = leaves.text(document, &path(key))?;
        Ok::<_, Error>(found.filter(|text| !text.trim().is_empty()))
    };
    let asked = |key: &str, doc: &str, how: &str| {
        text(key)?.ok_or_else(|| {
            let missing = Error::Missing {
                path: path(key),
                doc: doc.to_owned(),
                how: how.to_owned(),
            };
            document.locate(&path(key), missing)
        })
    };
    let quoted = "write it in quotes";
    let id = asked("id", "short name of the requirement", quoted)?;
    let words = asked("text", "what shall hold", quoted)?;
    let options = Method::OPTIONS
        .iter()
        .map(|(word, _)| format!("\"{word}\""));
    let options = options.collect::<Vec<_>>().join(", ");
    let method = asked("method", "how it is verified", &format!("choose {options}"))?;
    let method = Method::from_word(&method).ok_or_else(|| {
        let near = nearest(&method, Method::OPTIONS.iter().map(|(word, _)| *word))
            .map_or(String::new(), |word| format!("; did you mean \"{word}\"?"));
        let problem = format!("\"{method}\" is none of the options {options}{near}");
        document.locate(&path("method"), unreadable(&path("method"), problem))
    })?;
    let response = text("response")?;
    let limits =
        ["at_least", "at_most"].map(|key| leaves.get(&path(key)).map(|value| (key, value)));
    let given = limits.iter().flatten().next().map(|(key, _)| path(key));
    let (at_least, at_most) = match (&response, given) {
        (None, None) => (None, None),
        (None, Some(limit)) => {
            let problem = "a limit needs the result it limits: write response = \"...\"".to_owned();
            return Err(document.locate(&limit, unreadable(&limit, problem)));
        }
        (Some(_), None) => {
            let problem = "a response needs a limit: write at_least, at_most or both".to_owned();
            return Err(document.locate(&path("response"), unreadable(&path("response"), problem)));
        }
        (Some(response), Some(_)) => {
            let place = |error| document.locate(&path("response"), error);
            let quantity = quantity_of(&path("response"), response, form).map_err(place)?;
            let [least, most] = limits.map(|limit| {
                limit
                    .map(|(key, value)| {
                        number(&path(key), value, quantity, document.bare_numbers)
                            .map_err(|error| document.locate(&path(key), error))
                    })
                    .transpose()
            });
            (least?, most?)
        }
    };
    if let (Some(least), Some(most)) = (at_least, at_most)
        && least > most
    {
        let problem = "at_least lies above at_most; nothing meets both".to_owned();
        return Err(document.locate(&path("at_most"), unreadable(&path("at_most"), problem)));
    }
    Ok(Requirement {
        id,
        text: words,
        response,
        at_least,
        at_most,
        method,
        evidence: text("evidence")?,
    })
}

fn unreadable(path: &str, problem: String) -> Error {
    Error::Unreadable {
        path: path.to_owned(),
        problem,
    }
}

/// The result a response names, which must be one of this stage's.
fn quantity_of(path: &str, response: &str, form: &Form) -> Result<Quantity> {
    if response == ALL_MARGINS {
        return if form.tank.is_some() {
            Ok(Quantity::Ratio)
        } else {
            let problem = "this stage has no tank, and so no margins";
            Err(unreadable(path, problem.to_owned()))
        };
    }
    let known = || {
        let fields = RESULTS.fields.iter();
        fields.filter(|field| !field.path.starts_with("status."))
    };
    let found = known().find(|field| field.path == response);
    let Some(Field {
        quantity,
        applies,
        index,
        ..
    }) = found
    else {
        if INPUTS.slot(response).is_some() {
            let last = response.rsplit('.').next().unwrap_or(response);
            let alike = known().find(|field| field.path.ends_with(last));
            let hint = alike.map_or(String::new(), |field| format!(", such as {}", field.path));
            let problem =
                format!("\"{response}\" is an input; a requirement is judged by a result{hint}");
            return Err(unreadable(path, problem));
        }
        return Err(Error::Unknown {
            kind: "result",
            given: response.to_owned(),
            suggestion: nearest(response, known().map(|field| field.path.as_str())),
        });
    };
    if !form.applies(*applies, *index) {
        let problem = format!("the result \"{response}\" does not apply to this stage");
        return Err(unreadable(path, problem));
    }
    Ok(*quantity)
}

fn number(path: &str, value: &Value, quantity: Quantity, bare_numbers: bool) -> Result<f64> {
    let pure = matches!(quantity, Quantity::Ratio | Quantity::Share);
    match value {
        Value::String(text) => read(text, quantity).map_err(|problem| unreadable(path, problem)),
        Value::Number(number) if bare_numbers || pure => {
            let number = number.as_f64().filter(|number| number.is_finite());
            number.ok_or_else(|| unreadable(path, format!("{value} is not a finite number")))
        }
        other => Err(unreadable(
            path,
            format!(
                "{other} is not {}; write {} in quotes",
                quantity.with_article(),
                wanted(quantity)
            ),
        )),
    }
}
