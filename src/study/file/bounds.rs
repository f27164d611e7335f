//! The bounds of a search in a study file.

use super::Reading;
use super::names::SUBJECT_TO;
use crate::document::At;
use crate::error::Error;
use crate::quantity::field::join;
use crate::study::optimise::{Constraint, bound};
use serde_json::{Map, Value};

impl Reading<'_> {
    /// Every bound of one search.
    pub(super) fn bounds(&mut self, rows: &[(String, Map<String, Value>)]) {
        let mut held: Vec<&str> = Vec::new();
        for (prefix, table) in rows {
            self.names(prefix, table, SUBJECT_TO);
            let key = join(prefix, "response");
            let before = self.findings.count();
            self.response(prefix, table, "response", true);
            let known = self.findings.count() == before;
            let Some(path) = table.get("response").and_then(Value::as_str) else {
                continue;
            };
            if held.contains(&path) {
                let problem =
                    format!("{path} is held twice; write at_least and at_most in one table");
                self.note(At::Value(&key), Error::Inconsistent(problem));
            }
            held.push(path);
            if known {
                self.sides(prefix, path, table);
            }
        }
    }

    /// The limits of one bound: each by itself, then both together.
    fn sides(&mut self, prefix: &str, path: &str, table: &Map<String, Value>) {
        let constraint = |at_least: Option<&Value>, at_most: Option<&Value>| Constraint {
            path: path.to_owned(),
            at_least: at_least.cloned(),
            at_most: at_most.cloned(),
        };
        let (least, most) = (table.get("at_least"), table.get("at_most"));
        let mut readable = true;
        for (name, constraint) in [
            ("at_least", least.map(|_| constraint(least, None))),
            ("at_most", most.map(|_| constraint(None, most))),
        ] {
            if let Some(Err(error)) = constraint.as_ref().map(bound::check) {
                self.note(At::Value(&join(prefix, name)), error);
                readable = false;
            }
        }
        if let (true, Err(error)) = (readable, bound::check(&constraint(least, most))) {
            self.note(At::Key(&join(prefix, "response")), error);
        }
    }
}
