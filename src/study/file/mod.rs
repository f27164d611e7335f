//! Study files: a stage, and the questions asked about it.

mod names;

pub(super) use names::KINDS;
pub use names::{STUDY_TABLES, TableNames};

use self::names::{OPTIMISE, SUBJECT_TO, SWEEP, TOP, VARY};
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::likeness::near_names;
use crate::quantity::{field::join, number};
use crate::stage::{INPUTS, RESULTS, Stage};
use serde_json::{Map, Value};
use std::path::Path;

/// A study file as read: every name known, every value readable.
#[derive(Debug, Clone)]
pub struct StudyFile {
    /// The stage it is about.
    pub stage: Stage,
    /// The file's tables, checked.
    pub tree: Map<String, Value>,
}

impl StudyFile {
    /// Reads a study file and the stage it names; tells every mistake where it stands.
    pub fn load(path: &Path) -> Result<Self> {
        let mut findings = Findings::default();
        let document = Document::load(path, &mut findings)?;
        document.check_schema(&mut findings)?;
        let mut reading = Reading {
            document: &document,
            findings,
        };
        let stage = reading.head();
        for kind in KINDS {
            reading.questions(kind, stage.as_ref());
        }
        reading.findings.conclude()?;
        let stage =
            stage.ok_or_else(|| Error::Inconsistent("the study names no stage".to_owned()))?;
        Ok(Self {
            stage,
            tree: document.tree.clone(),
        })
    }
}

struct Reading<'a> {
    document: &'a Document,
    findings: Findings,
}

impl Reading<'_> {
    fn note(&mut self, at: At<'_>, error: Error) {
        self.findings.note(self.document, at, error);
    }

    fn unreadable(&mut self, path: &str, problem: &str) {
        let error = Error::Unreadable {
            path: path.to_owned(),
            problem: problem.to_owned(),
        };
        self.note(At::Value(path), error);
    }

    fn missing(&mut self, path: &str, doc: &str, how: &str) {
        let error = Error::Missing {
            path: path.to_owned(),
            doc: doc.to_owned(),
            how: how.to_owned(),
        };
        self.note(At::Table(path), error);
    }

    /// Notes every name in a table that is not one of those known.
    fn names(&mut self, prefix: &str, table: &Map<String, Value>, known: &TableNames) {
        let known = known.known();
        for name in table.keys() {
            if !known.contains(&name.as_str()) {
                let path = join(prefix, name);
                let error = Error::Unknown {
                    kind: "name",
                    given: name.clone(),
                    suggestions: near_names(name, known.iter().copied()),
                };
                self.note(At::Key(&path), error);
            }
        }
    }

    /// The text of a name in a table, if it is there.
    fn text<'t>(
        &mut self,
        prefix: &str,
        table: &'t Map<String, Value>,
        name: &str,
    ) -> Option<&'t str> {
        let value = table.get(name)?;
        let text = value.as_str();
        if text.is_none() {
            self.unreadable(&join(prefix, name), "this is a text; put it in quotes");
        }
        text
    }

    /// What stands at the top, and the stage.
    fn head(&mut self) -> Option<Stage> {
        let tree = &self.document.tree;
        self.names("", tree, TOP);
        self.text("", tree, "name");
        self.text("", tree, "description");
        if !KINDS.iter().any(|kind| tree.contains_key(*kind)) {
            self.missing(
                "sweep",
                "a question to ask",
                "write a table [[sweep]] or [[optimise]]",
            );
        }
        if !tree.contains_key("stage") {
            self.missing(
                "stage",
                "the stage file it is about",
                "write stage = \"FILE.toml\", relative to this file",
            );
        }
        let file = self.text("", tree, "stage")?;
        let loaded = Stage::load(&self.document.beside(file));
        self.findings
            .take(self.document, At::Value("stage"), loaded)
    }

    /// The tables of a list.
    fn tables(&mut self, path: &str, list: Option<&Value>) -> Vec<(String, Map<String, Value>)> {
        let rows = match list {
            None => return Vec::new(),
            Some(Value::Array(rows)) => rows,
            Some(_) => {
                let problem = format!("this is a list of tables; write [[{path}]]");
                self.unreadable(path, &problem);
                return Vec::new();
            }
        };
        let mut tables = Vec::new();
        for (index, row) in rows.iter().enumerate() {
            let path = format!("{path}[{index}]");
            match row {
                Value::Object(table) => tables.push((path, table.clone())),
                _ => self.unreadable(&path, "this is not a table"),
            }
        }
        tables
    }

    fn questions(&mut self, kind: &str, stage: Option<&Stage>) {
        let tree = &self.document.tree;
        let mut names: Vec<String> = Vec::new();
        for (path, table) in self.tables(kind, tree.get(kind)) {
            let sweep = kind == "sweep";
            self.names(&path, &table, if sweep { SWEEP } else { OPTIMISE });
            match self.text(&path, &table, "name") {
                None if !table.contains_key("name") => self.missing(
                    &join(&path, "name"),
                    "name of the question",
                    "give it a short one of its own",
                ),
                Some(name) if names.iter().any(|known| known == name) => {
                    let problem = format!("there is already a {kind} \"{name}\"");
                    self.unreadable(&join(&path, "name"), &problem);
                }
                Some(name) => names.push(name.to_owned()),
                None => {}
            }
            let vary = join(&path, "vary");
            let varied = self.tables(&vary, table.get("vary"));
            if varied.is_empty() {
                let how = format!("write [[{kind}.vary]] with path and values");
                self.missing(&vary, "what varies", &how);
            }
            for (path, table) in varied {
                self.variable(&path, &table, stage, sweep);
            }
            if sweep {
                self.results(&path, &table);
            } else {
                self.goal(&path, &table);
                let bounds = join(&path, "subject_to");
                for (path, table) in self.tables(&bounds, table.get("subject_to")) {
                    self.names(&path, &table, SUBJECT_TO);
                    self.response(&path, &table, "response", true);
                }
                self.count(&path, &table, "scan");
            }
        }
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
        match (table.get("values"), ends) {
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
            (None, [Some(from), Some(to)]) => values.extend([from, to]),
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
        self.count(prefix, table, "count");
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
                Ok(())
                | Err(Error::Missing { .. } | Error::Inconsistent(_) | Error::Infeasible(_)) => {}
                Err(error @ Error::Unknown { .. }) => {
                    self.note(At::Value(&key), error);
                    return;
                }
                Err(error) => self.note(At::Value(&at), error),
            }
        }
    }

    fn count(&mut self, prefix: &str, table: &Map<String, Value>, name: &str) {
        if let Some(value) = table.get(name)
            && value.as_u64().is_none_or(|count| count < 2)
        {
            let problem = format!("{value} is not a whole number from 2");
            self.unreadable(&join(prefix, name), &problem);
        }
    }

    /// The results a sweep shows.
    fn results(&mut self, prefix: &str, table: &Map<String, Value>) {
        let path = join(prefix, "results");
        match table.get("results") {
            None => {}
            Some(Value::Array(list)) => {
                for (index, name) in list.iter().enumerate() {
                    let path = format!("{path}[{index}]");
                    match name.as_str() {
                        Some(name) => self.known(&path, name),
                        None => self.unreadable(&path, "this is the path of a result, in quotes"),
                    }
                }
            }
            Some(_) => self.unreadable(&path, "results is a list such as [\"ascent.apogee\"]"),
        }
    }

    /// The result that a search makes small or large.
    fn goal(&mut self, prefix: &str, table: &Map<String, Value>) {
        match (
            table.contains_key("minimise"),
            table.contains_key("maximise"),
        ) {
            (true, false) => self.response(prefix, table, "minimise", false),
            (false, true) => self.response(prefix, table, "maximise", false),
            (false, false) => self.missing(
                &join(prefix, "minimise"),
                "what is sought",
                "write minimise or maximise with the path of a result",
            ),
            (true, true) => {
                let problem = "minimise and maximise exclude each other; keep one";
                let key = join(prefix, "maximise");
                self.note(At::Key(&key), Error::Inconsistent(problem.to_owned()));
            }
        }
    }

    /// The path of a result under a name.
    fn response(&mut self, prefix: &str, table: &Map<String, Value>, name: &str, margins: bool) {
        let path = join(prefix, name);
        match self.text(prefix, table, name) {
            Some("margins") if margins => {}
            Some(result) => self.known(&path, result),
            None if !table.contains_key(name) => {
                self.missing(&path, "the result that is held", "write its dotted path");
            }
            None => {}
        }
    }

    fn known(&mut self, path: &str, result: &str) {
        let found = RESULTS.find(result, "result");
        self.findings
            .take(self.document, At::Value(path), found.map(|_| ()));
    }
}
