//! Study files: a stage, and the questions asked about it.

mod bounds;
mod names;
mod varied;

pub(super) use names::KINDS;
pub use names::{STUDY_TABLES, TableNames};

use self::names::{OPTIMISE, SWEEP, TOP};
use crate::document::{At, Document, Findings, printable};
use crate::error::{Error, Result};
use crate::likeness::near_names;
use crate::quantity::field::join;
use crate::stage::{MARGINS, RESULTS, Stage};
use crate::study::optimise::{bound::result_slot, problem::LEAST_SCAN};
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
        let path = join(prefix, name);
        let Some(text) = value.as_str() else {
            self.unreadable(&path, "this is a text; put it in quotes");
            return None;
        };
        if let Err(error) = printable(&path, text) {
            self.note(At::Value(&path), error);
        } else if !prefix.is_empty() && text.trim().is_empty() {
            self.unreadable(&path, "this text is empty; write something into it");
        }
        Some(text)
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
            self.varied(&vary, &varied, stage, sweep);
            if sweep {
                self.results(&path, &table);
            } else {
                self.goal(&path, &table);
                let bounds = join(&path, "subject_to");
                let bounds = self.tables(&bounds, table.get("subject_to"));
                self.bounds(&bounds);
                self.count(&path, &table, "scan", LEAST_SCAN as u64);
            }
        }
    }

    fn count(&mut self, prefix: &str, table: &Map<String, Value>, name: &str, least: u64) {
        if let Some(value) = table.get(name)
            && value.as_u64().is_none_or(|count| count < least)
        {
            let problem = format!("{value} is not a whole number from {least}");
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
            Some(MARGINS) if margins => {}
            Some(result) => {
                let found = result_slot(result).map(|_| ());
                self.findings.take(self.document, At::Value(&path), found);
            }
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
