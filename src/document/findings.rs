//! Mistakes gathered in one reading: told together, in the order of the file, each once.

use super::{At, Document};
use crate::error::{Error, Result};
use crate::problem::{Problem, parted};

/// How many mistakes are told at once.
pub(super) const TOLD: usize = 20;

/// What a reading has found so far.
#[derive(Debug, Default)]
pub(crate) struct Findings {
    found: Vec<Found>,
    damaged: Vec<String>,
}

#[derive(Debug)]
struct Found {
    /// Where it stands in the file that is read, for the order.
    offset: usize,
    error: Error,
    problem: Problem,
}

impl Findings {
    /// Notes a mistake at a path of a document.
    pub fn note(&mut self, document: &Document, at: At<'_>, error: Error) {
        let offset = document.offset(at);
        if document.is_unreadable(at.path()) && self.tells(at.path()) {
            return;
        }
        match error {
            Error::Mistakes {
                problems,
                unreadable_files,
                ..
            } => {
                for problem in problems {
                    let sentence = problem.to_string();
                    let file = problem.place.as_ref().map(|place| place.file.clone());
                    let error = match (unreadable_files, file) {
                        (true, Some(file)) => Error::File {
                            file,
                            problem: sentence,
                        },
                        _ => Error::Inconsistent(sentence),
                    };
                    self.push(offset, error, problem);
                }
            }
            Error::InFile { .. } => {
                let problem = error.problems().0.remove(0);
                self.push(offset, error, problem);
            }
            error => {
                let (message, hint) = parted(&error.to_string());
                let problem = Problem {
                    place: document.place(at),
                    path: at.path().to_owned(),
                    message,
                    hint,
                };
                self.push(offset, error, problem);
            }
        }
    }

    /// Whether a mistake at this path is told.
    pub fn tells(&self, path: &str) -> bool {
        self.found.iter().any(|known| known.problem.path == path)
    }

    fn push(&mut self, offset: usize, error: Error, problem: Problem) {
        if !self.found.iter().any(|known| known.problem == problem) {
            self.found.push(Found {
                offset,
                error,
                problem,
            });
        }
    }

    /// The value, or nothing and a note of what is wrong with it.
    pub fn take<T>(&mut self, document: &Document, at: At<'_>, result: Result<T>) -> Option<T> {
        match result {
            Ok(value) => Some(value),
            Err(error) => {
                self.note(document, at, error);
                None
            }
        }
    }

    /// Remembers that a table holds a name or row that could not be understood, or that a value of
    /// this path could not be told: what seems to be missing may be what was meant.
    pub fn damage(&mut self, table: &str) {
        self.damaged.push(table.to_owned());
    }

    /// Whether something in a table could not be understood.
    pub fn is_damaged(&self, table: &str) -> bool {
        self.damaged.iter().any(|known| known == table)
    }

    /// Takes over what was found in another document that one place names.
    pub fn include(&mut self, document: &Document, at: At<'_>, mut other: Self) {
        let offset = document.offset(at);
        other.found.sort_by_key(|found| found.offset);
        for found in other.found {
            self.push(offset, found.error, found.problem);
        }
    }

    /// How many mistakes were found so far.
    pub fn count(&self) -> usize {
        self.found.len()
    }

    /// Whether nothing is wrong so far.
    pub fn is_empty(&self) -> bool {
        self.found.is_empty()
    }

    /// What was found, as one error.
    pub fn conclude(mut self) -> Result<()> {
        self.found.sort_by_key(|found| found.offset);
        match self.found.len() {
            0 => return Ok(()),
            1 if self.found[0].problem.place.is_none() => return Err(self.found.remove(0).error),
            _ => {}
        }
        let unreadable_files = self
            .found
            .iter()
            .all(|found| matches!(found.error, Error::File { .. }));
        let more = self.found.len().saturating_sub(TOLD);
        let problems = self.found.into_iter().take(TOLD);
        Err(Error::Mistakes {
            problems: problems.map(|found| found.problem).collect(),
            more,
            unreadable_files,
        })
    }
}
