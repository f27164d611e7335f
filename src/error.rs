//! The one error type. Each variant carries the parameter, the value, its unit and what is allowed.

use crate::likeness::{asked, near_names, quoted};
use crate::problem::{Place, Problem, cut, listed, parted};
use std::path::PathBuf;

/// What went wrong at the door or in a study. Physical infeasibility of a single design is not an
/// error: it is a status of its outcome (see [`crate::stage::Fault`]).
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A number lies outside the range its table allows.
    #[error("{path} = {value} is outside {lower} to {upper}; {hint}")]
    OutOfRange {
        /// Dotted path of the input.
        path: String,
        /// The value as given, with unit.
        value: String,
        /// Lower limit with unit.
        lower: String,
        /// Upper limit with unit.
        upper: String,
        /// What to change.
        hint: String,
    },
    /// A value cannot be read as the quantity its path asks for.
    #[error("{path}: {problem}")]
    Unreadable {
        /// Dotted path of the input.
        path: String,
        /// What is wrong and what would be right.
        problem: String,
    },
    /// A name that the schema does not hold.
    #[error("unknown {kind} \"{}\"{}", cut(given), hint(kind, suggestions))]
    Unknown {
        /// What kind of name: field, path, unit, metal, ...
        kind: &'static str,
        /// The name as given.
        given: String,
        /// The nearest known names, possibly none.
        suggestions: Vec<String>,
    },
    /// A name for which there is no row on record.
    #[error("{path}: {kind} \"{}\" is not on record{}; on record are {}; or {instead}",
        cut(given),
        behind(", ", &asked(&near_names(given, known.iter().map(String::as_str)))),
        quoted(known))]
    NotOnRecord {
        /// Dotted path of the name.
        path: String,
        /// What kind of row: metal, fibre, rule set, maturity.
        kind: &'static str,
        /// The name as given.
        given: String,
        /// The names there are.
        known: Vec<String>,
        /// What else would do.
        instead: &'static str,
    },
    /// An input that this stage needs is not there.
    #[error("{path} is missing: {doc}; {how}")]
    Missing {
        /// Dotted path of the input.
        path: String,
        /// What the input is.
        doc: String,
        /// How to state it: units or options, never a value that someone might take over.
        how: String,
    },
    /// A row of a table that does not fit its column or the rows before.
    #[error("{path}: row {row}: {problem}")]
    InRow {
        /// Dotted path of the table.
        path: &'static str,
        /// Row, counted from 1.
        row: usize,
        /// What is wrong and what would be right.
        problem: String,
    },
    /// Inputs that contradict or over-determine each other.
    #[error("{0}")]
    Inconsistent(String),
    /// The stage is readable, yet its own base design cannot be evaluated.
    #[error("{0}")]
    Infeasible(String),
    /// Something in a file, with its place.
    #[error("{}", self.problem())]
    InFile {
        /// The file.
        file: PathBuf,
        /// Line, counted from 1.
        line: usize,
        /// Column, counted from 1.
        column: usize,
        /// The line as it stands.
        source_line: String,
        /// What is wrong there.
        message: String,
    },
    /// Mistakes found in one reading, in the order of the file.
    #[error("{}", listed(problems, *more, false))]
    Mistakes {
        /// What is told, one by one.
        problems: Vec<Problem>,
        /// How many more there are.
        more: usize,
        /// Whether all of them are files that cannot be read.
        unreadable_files: bool,
    },
    /// A file that cannot be opened or read.
    #[error("{}: {problem}", file.display())]
    File {
        /// The file.
        file: PathBuf,
        /// What the system said.
        problem: String,
    },
    /// The caller stopped a long call.
    #[error("stopped after {done} of {total} cases")]
    Cancelled {
        /// Cases finished.
        done: usize,
        /// Cases asked for.
        total: usize,
    },
}

/// What to write in place of a name that is not known, and where a result is listed.
fn hint(kind: &str, suggestions: &[String]) -> String {
    let near = asked(suggestions);
    if kind == "result" {
        return format!("; {}{LISTED_RESULTS}", spaced(&near));
    }
    behind("; ", &near)
}

/// Where to look for the path of a result.
pub(crate) const LISTED_RESULTS: &str = "`hoopline schema --results` lists the results";

/// A text with a blank behind it, unless it is empty.
pub(crate) fn spaced(text: &str) -> String {
    if text.is_empty() {
        String::new()
    } else {
        format!("{text} ")
    }
}

fn behind(sign: &str, text: &str) -> String {
    if text.is_empty() {
        String::new()
    } else {
        format!("{sign}{text}")
    }
}

impl Error {
    /// What a stage of another form would have.
    pub(crate) fn does_not_apply(what: &str) -> Self {
        Self::Inconsistent(format!("{what} does not apply to this stage"))
    }

    /// Whether it says that a combination of values, each of which can be read, cannot be built.
    pub(crate) fn is_unbuildable(&self) -> bool {
        matches!(
            self,
            Self::Missing { .. } | Self::Inconsistent(_) | Self::Infeasible(_)
        )
    }

    /// The error as problems, and how many more there are.
    pub fn problems(&self) -> (Vec<Problem>, usize) {
        match self {
            Self::Mistakes { problems, more, .. } => (problems.clone(), *more),
            _ => (vec![self.problem()], 0),
        }
    }

    /// The error as one problem.
    fn problem(&self) -> Problem {
        let (place, sentence) = match self {
            Self::InFile {
                file,
                line,
                column,
                source_line,
                message,
            } => {
                let place = Place {
                    file: file.clone(),
                    line: *line,
                    column: *column,
                    source_line: source_line.clone(),
                    width: (source_line.trim_end().chars().count() + 1)
                        .saturating_sub(*column)
                        .max(1),
                };
                (Some(place), message.clone())
            }
            _ => (None, self.to_string()),
        };
        let (message, hint) = parted(&sentence);
        Problem {
            place,
            path: self.path().to_owned(),
            message,
            hint,
        }
    }

    /// The dotted path an error is about, where it has one.
    pub fn path(&self) -> &str {
        match self {
            Self::OutOfRange { path, .. }
            | Self::Unreadable { path, .. }
            | Self::NotOnRecord { path, .. }
            | Self::Missing { path, .. } => path,
            Self::Unknown { given, .. } => given,
            _ => "",
        }
    }
}

/// Result of anything at the door.
pub type Result<T> = std::result::Result<T, Error>;
