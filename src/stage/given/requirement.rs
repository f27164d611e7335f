//! Requirements of a stage as given: what shall hold, by which result it is judged, and how it is
//! verified. They enter no number; the matrix judges them.

use super::choices::{none_of, words};
use super::leaves::Leaves;
use crate::document::{At, Document, Findings};
use crate::error::{Error, LISTED_RESULTS, Result, spaced};
use crate::likeness::{asked, near_paths};
use crate::problem::cut;
use crate::quantity::{Choice, Field, Quantity, choice, show_apart, unlimited};
use crate::stage::chain::form::Form;
use crate::stage::chain::schema::{INPUTS, MARGINS, RESULTS};

pub(super) const LIST: &str = "requirement";

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

/// The requirements of a document; notes all that is wrong with each.
pub(super) fn requirements(
    document: &Document,
    leaves: &Leaves,
    form: &Form,
    findings: &mut Findings,
) -> Vec<Requirement> {
    let mut read: Vec<Requirement> = Vec::new();
    let mut ids: Vec<String> = Vec::new();
    for index in 0..leaves.count(LIST) {
        let row = format!("{LIST}[{index}]");
        let mut reader = Reader {
            document,
            leaves,
            damaged: findings.is_damaged(&row) || findings.is_damaged(LIST),
            row,
            findings: &mut *findings,
        };
        let id = reader.id(&ids);
        ids.extend(id.clone());
        read.extend(reader.rest(id, form));
    }
    read
}

/// Reads one requirement. What is wrong is noted where it stands; then there is no requirement.
struct Reader<'a> {
    document: &'a Document,
    leaves: &'a Leaves,
    row: String,
    /// Whether it holds a name that is not known: what is missing may be what was meant.
    damaged: bool,
    findings: &'a mut Findings,
}

impl Reader<'_> {
    fn path(&self, key: &str) -> String {
        format!("{}.{key}", self.row)
    }

    fn note(&mut self, key: &str, problem: String) {
        let path = self.path(key);
        let error = unreadable(&path, problem);
        self.findings.note(self.document, At::Value(&path), error);
    }

    fn text(&self, key: &str) -> Option<String> {
        self.leaves.stated(self.document, &self.path(key))
    }

    fn asked(&mut self, key: &str, doc: &str, how: &str) -> Option<String> {
        let (document, path, findings) = (self.document, self.path(key), &mut *self.findings);
        let leaves = self.leaves;
        leaves.required(document, &path, [doc, how], self.damaged, findings)
    }

    fn id(&mut self, known: &[String]) -> Option<String> {
        let doc = "short name of the requirement";
        let id = self.asked("id", doc, "write it in quotes")?;
        if let Some(first) = known.iter().position(|other| *other == id) {
            let problem = format!(
                "there is already a requirement \"{id}\", number {} in the file; give this one \
                 another id",
                first + 1
            );
            self.note("id", problem);
        }
        Some(id)
    }

    fn method(&mut self) -> Option<Method> {
        let how = format!("choose {}", words(Method::OPTIONS));
        let word = self.asked("method", "how it is verified", &how)?;
        let path = self.path("method");
        let method = Method::from_word(&word);
        let method = method.ok_or_else(|| none_of(Method::OPTIONS, &path, &word));
        self.findings.take(self.document, At::Value(&path), method)
    }

    /// A limit as given, in SI.
    fn limit(&mut self, key: &str, quantity: Quantity) -> Option<f64> {
        let path = self.path(key);
        // What no value can be made of has been noted with the document.
        let readable = !self.document.is_unreadable(&path);
        let value = self.leaves.get(&path).filter(|_| readable)?;
        let number = unlimited(&path, value, quantity, self.document.bare_numbers);
        self.findings.take(self.document, At::Value(&path), number)
    }

    fn limits(&mut self, form: &Form) -> (Option<String>, [Option<f64>; 2]) {
        let response = self.text("response");
        let keys = ["at_least", "at_most"];
        let given: Vec<&str> = keys
            .into_iter()
            .filter(|key| self.leaves.get(&self.path(key)).is_some())
            .collect();
        let Some(response) = response else {
            let path = self.path("response");
            let told = self.damaged || self.leaves.text(self.document, &path).is_err();
            if let (Some(limit), false) = (given.first(), told) {
                let problem = "a limit needs the result it limits; write response = \"...\"";
                self.note(limit, problem.to_owned());
            }
            return (None, [None; 2]);
        };
        if given.is_empty() && !self.damaged {
            let problem = "a response needs a limit; write at_least, at_most or both below it";
            self.note("response", problem.to_owned());
        }
        let path = self.path("response");
        let quantity = quantity_of(&path, &response, form);
        let Some(quantity) = self
            .findings
            .take(self.document, At::Value(&path), quantity)
        else {
            return (Some(response), [None; 2]);
        };
        let limits = keys.map(|key| self.limit(key, quantity));
        if let [Some(least), Some(most)] = limits
            && least > most
        {
            let problem = format!(
                "at_least = {} lies above at_most = {}, so that nothing meets both; exchange them \
                 or leave one out",
                show_apart(least, [most; 2], quantity),
                show_apart(most, [least; 2], quantity)
            );
            self.note("at_most", problem);
        }
        (Some(response), limits)
    }

    fn rest(&mut self, id: Option<String>, form: &Form) -> Option<Requirement> {
        let text = self.asked("text", "what shall hold", "write it in quotes");
        let method = self.method();
        let (response, [at_least, at_most]) = self.limits(form);
        Some(Requirement {
            id: id?,
            text: text?,
            response,
            at_least,
            at_most,
            method: method?,
            evidence: self.text("evidence"),
        })
    }
}

fn unreadable(path: &str, problem: String) -> Error {
    Error::Unreadable {
        path: path.to_owned(),
        problem,
    }
}

/// The result a response names, which must be one of this stage's.
fn quantity_of(path: &str, response: &str, form: &Form) -> Result<Quantity> {
    if response == MARGINS {
        return if form.tank.is_some() {
            Ok(Quantity::Ratio)
        } else {
            let problem = "this stage has no tank, and so no margins; name another result";
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
        let paths = known().map(|field| field.path.as_str());
        let near = near_paths(response, paths.chain([MARGINS]));
        let hint = format!("{}{LISTED_RESULTS}", spaced(&asked(&near)));
        return Err(unreadable(
            path,
            format!("unknown result \"{}\"; {hint}", cut(response)),
        ));
    };
    if !form.applies(*applies, *index) {
        let problem = format!(
            "the result \"{response}\" does not apply to this stage; name one that does, or give \
             the stage {}",
            applies.needs()
        );
        return Err(unreadable(path, problem));
    }
    Ok(*quantity)
}
