//! What varies in a question of a study file.

use super::Reading;
use super::names::VARY;
use crate::document::At;
use crate::error::Error;
use crate::quantity::{field::join, number};
use crate::stage::{INPUTS, Stage, find_choice};
use crate::study::MAX_CASES;
use serde_json::{Map, Value};

/// How many values a row of what varies stands for.
fn values_of(table: &Map<String, Value>) -> u64 {
    let listed = table.get("values").and_then(Value::as_array);
    let count = table.get("count").and_then(Value::as_u64);
    listed.map_or(count.unwrap_or(1), |values| values.len() as u64)
}

/// The unit of a number written as text.
fn unit(value: &Value) -> Option<&str> {
    let text = value.as_str()?.trim();
    Some(text.split_once(' ').map_or("", |(_, unit)| unit.trim()))
}

impl Reading<'_> {
    /// Everything that varies in one question.
    pub(super) fn varied(
        &mut self,
        vary: &str,
        rows: &[(String, Map<String, Value>)],
        stage: Option<&Stage>,
        sweep: bool,
    ) {
        let mut paths: Vec<&str> = Vec::new();
        for (prefix, table) in rows {
            self.variable(prefix, table, stage, sweep);
            let Some(path) = table.get("path").and_then(Value::as_str) else {
                continue;
            };
            if paths.contains(&path) {
                let problem = format!("{path} is varied twice; write one table for it");
                let key = join(prefix, "path");
                self.note(At::Value(&key), Error::Inconsistent(problem));
            }
            paths.push(path);
        }
        let cases = rows.iter().try_fold(1u64, |cases, (_, table)| {
            cases.checked_mul(values_of(table).max(1))
        });
        if sweep && cases.is_none_or(|cases| cases > MAX_CASES as u64) {
            let problem =
                format!("this sweep has more than {MAX_CASES} cases; coarsen it or split it");
            self.note(At::Key(vary), Error::Inconsistent(problem));
        }
    }

    /// The two ends of a range: of one unit where it is divided, the lower first where it is searched.
    fn ends(&mut self, prefix: &str, path: &str, ends: [&Value; 2], sweep: bool) {
        let key = join(prefix, "to");
        if find_choice(path).is_some() {
            let problem = format!("{path} is a choice; list its words under values");
            self.note(At::Key(&join(prefix, "from")), Error::Inconsistent(problem));
            return;
        }
        let Some(slot) = INPUTS.slot(path) else {
            return;
        };
        let [from, to] = ends.map(|end| number(&INPUTS.fields[slot], end, false));
        let (Ok(from), Ok(to)) = (from, to) else {
            return;
        };
        let problem = if sweep && unit(ends[0]) != unit(ends[1]) {
            format!("{path}: from and to need one unit, written the same way")
        } else if !sweep && from >= to {
            format!("{path}: from comes first and lies below to")
        } else {
            return;
        };
        self.note(At::Value(&key), Error::Inconsistent(problem));
    }

    /// What varies: a path with values, or with from and to.
    fn variable(
        &mut self,
        prefix: &str,
        table: &Map<String, Value>,
        stage: Option<&Stage>,
        sweep: bool,
    ) {
        self.names(prefix, table, VARY);
        let key = join(prefix, "path");
        let Some(path) = self.text(prefix, table, "path") else {
            if !table.contains_key("path") {
                self.missing(&key, "the input that varies", "write its dotted path");
            }
            return;
        };
        let ends = ["from", "to"].map(|end| table.get(end).map(|value| (join(prefix, end), value)));
        let mut values: Vec<(String, &Value)> = Vec::new();
        match (table.get("values"), &ends) {
            (Some(Value::Array(list)), [None, None]) if !list.is_empty() => {
                let list = list.iter().enumerate();
                values.extend(
                    list.map(|(index, value)| {
                        (format!("{}[{index}]", join(prefix, "values")), value)
                    }),
                );
            }
            (Some(_), [None, None]) => {
                let problem = "values is a list such as [\"3 mm\", \"4 mm\"]";
                self.unreadable(&join(prefix, "values"), problem);
            }
            (None, [Some(from), Some(to)]) => values.extend([from.clone(), to.clone()]),
            _ => {
                let problem = "give either values, or from and to";
                self.note(
                    At::Key(&key),
                    Error::Inconsistent(format!("{path}: {problem}")),
                );
            }
        }
        let ranged = table.contains_key("from");
        if sweep && ranged && !table.contains_key("count") {
            let how = "write a whole number from 2, or list values instead";
            self.missing(
                &join(prefix, "count"),
                "how many values from one to the other",
                how,
            );
        }
        if table.contains_key("count") && !(sweep && ranged) {
            let problem = "count goes with from and to of a sweep; a search looks anywhere between";
            self.note(
                At::Key(&join(prefix, "count")),
                Error::Inconsistent(problem.to_owned()),
            );
        }
        self.count(prefix, table, "count", 2);
        if let (None, [Some((_, from)), Some((_, to))]) = (table.get("values"), &ends) {
            self.ends(prefix, path, [from, to], sweep);
        }
        let Some(stage) = stage else { return };
        for (at, value) in values {
            let read = if let Some(slot) = INPUTS.slot(path) {
                number(&INPUTS.fields[slot], value, false).map(|_| ())
            } else {
                stage
                    .replace(&[(path.to_owned(), value.clone())])
                    .map(|_| ())
            };
            match read {
                // Whether a combination can be built shows when it is tried.
                Ok(()) => {}
                Err(error) if error.is_unbuildable() => {}
                Err(error @ Error::Unknown { .. }) => {
                    self.note(At::Value(&key), error);
                    return;
                }
                Err(error) => self.note(At::Value(&at), error),
            }
        }
    }
}
