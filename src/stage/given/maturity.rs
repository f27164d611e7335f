//! Growth allowance by maturity: a class named for a group or an item fills in its allowance.

use super::leaves::Leaves;
use super::stage::{Origin, Stage};
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::mass::{Group, MATURITIES, Maturity};
use crate::quantity::{Field, number};
use crate::stage::chain::schema::INPUTS;

const LIST: &str = "mass.maturity";

/// The input that a maturity fills in: `mass.growth.tank_maturity` fills `mass.growth.tank`,
/// `mass.item[2].maturity` fills `mass.item[2].growth_allowance`.
pub(super) fn allowance_of(path: &str) -> Option<String> {
    match path.strip_suffix("_maturity") {
        Some(group) => Some(group.to_owned()),
        None => path
            .strip_suffix(".maturity")
            .map(|item| format!("{item}.growth_allowance")),
    }
    .filter(|input| INPUTS.slot(input).is_some())
}

/// The classes a document brings; notes all that is wrong with each. A class whose name can be read
/// is there, with an allowance that does not count, so that what names it is not told as well.
fn own(document: &Document, leaves: &Leaves, findings: &mut Findings) -> Vec<Maturity> {
    let mut classes: Vec<Maturity> = Vec::new();
    for index in 0..leaves.count(LIST) {
        let row = format!("{LIST}[{index}]");
        let damaged = findings.is_damaged(&row);
        let mut text = |key: &str, doc: &str| {
            let (path, asked) = (format!("{row}.{key}"), [doc, "write it in quotes"]);
            leaves.required(document, &path, asked, damaged, findings)
        };
        let name = text("name", "what the class is called");
        let source = text("source", "whose experience or which document it is");
        let path = format!("{row}.growth_allowance");
        let known = leaves.get(&path).is_some();
        if !known && !damaged {
            let missing = Error::Missing {
                path: path.clone(),
                doc: "growth allowance as a share of basic mass".to_owned(),
                how: "write a number in %".to_owned(),
            };
            findings.note(document, At::Table(&path), missing);
        }
        let growth_allowance = share(document, leaves, &path, findings);
        let Some(name) = name else {
            findings.damage(LIST);
            continue;
        };
        // None has a name that a document on record has given a meaning.
        let mut others = classes.iter().chain(MATURITIES.iter());
        if others.any(|other| other.name == name) {
            let path = format!("{row}.name");
            let problem =
                format!("{path}: there is already a class \"{name}\"; give this one another name");
            findings.note(document, At::Value(&path), Error::Inconsistent(problem));
            continue;
        }
        classes.push(Maturity {
            name,
            growth_allowance: growth_allowance.unwrap_or(0.0),
            source: source.unwrap_or_default(),
        });
    }
    classes
}

/// A maturity and the number it would fill in cannot both be given.
pub(super) fn refuse_both(paths: &[&str]) -> Result<()> {
    paths.iter().try_for_each(|path| refuse_beside(path, paths))
}

fn refuse_beside(path: &str, paths: &[&str]) -> Result<()> {
    match allowance_of(path).filter(|number| paths.contains(&number.as_str())) {
        None => Ok(()),
        Some(number) => Err(Error::Unreadable {
            path: path.to_owned(),
            problem: format!("given together with {number}, which it fills in; state one"),
        }),
    }
}

fn share(document: &Document, leaves: &Leaves, path: &str, findings: &mut Findings) -> Option<f64> {
    let field = Field {
        path: path.to_owned(),
        ..Maturity::allowance()
    };
    // What no value can be made of has been noted with the document.
    let value = leaves.get(path).filter(|_| !document.is_unreadable(path))?;
    let share = number(&field, value, document.bare_numbers);
    findings.take(document, At::Value(path), share)
}

impl Stage {
    /// Fills in every allowance that a document names a maturity for.
    pub(super) fn fill_from_maturity(
        &mut self,
        document: &Document,
        leaves: &Leaves,
        findings: &mut Findings,
    ) {
        let paths: Vec<&str> = leaves.iter().map(|(path, _)| path).collect();
        for path in &paths {
            if let Err(error) = refuse_beside(path, &paths) {
                findings.note(document, At::Key(path), error);
            }
        }
        self.maturities = own(document, leaves, findings);
        // Whether every class that is meant can be told.
        let in_doubt = (0..leaves.count(LIST))
            .map(|index| format!("{LIST}[{index}]"))
            .chain([LIST.to_owned()])
            .any(|row| findings.is_damaged(&row));
        for (path, _) in leaves.iter() {
            if allowance_of(path).is_none() {
                continue;
            }
            let Ok(Some(word)) = leaves.text(document, path) else {
                continue;
            };
            if let Err(error) = self.take_maturity(path, &word) {
                // The allowance is not missing: its class is not known.
                findings.damage(&allowance_of(path).unwrap_or_default());
                if !(in_doubt && matches!(error, Error::NotOnRecord { .. })) {
                    findings.note(document, At::of(path, &error), error);
                }
            }
        }
    }

    /// Fills in one allowance from a class on record.
    pub(super) fn take_maturity(&mut self, path: &str, word: &str) -> Result<()> {
        let known = || self.maturities.iter().chain(MATURITIES.iter());
        let class = known().find(|class| class.name == word).cloned();
        let class = class.ok_or_else(|| Error::NotOnRecord {
            path: path.to_owned(),
            kind: "maturity",
            given: word.to_owned(),
            known: known().map(|class| class.name.clone()).collect(),
            instead: "write it as [[mass.maturity]] with name, growth_allowance and source",
        })?;
        let input = allowance_of(path).unwrap_or_default();
        let slot = INPUTS.find(&input, "input")?;
        let field = &INPUTS.fields[slot];
        if !self.form.applies(field.applies, field.index) {
            return Err(Error::does_not_apply(path));
        }
        self.slots[slot] = class.growth_allowance;
        self.origins[slot] = Origin::Catalogue;
        self.labels.maturity.retain(|(known, _)| *known != input);
        self.labels.maturity.push((input, class));
        Ok(())
    }

    /// Whether an allowance rests on a class.
    pub(in crate::stage) fn by_maturity(&self, input: &str) -> bool {
        self.labels.maturity.iter().any(|(path, _)| path == input)
    }

    /// The class that a line's allowance rests on, unless a number was stated in its place; `item`
    /// counts the user's items.
    pub(in crate::stage) fn maturity(&self, group: Group, item: usize) -> Option<&Maturity> {
        let input = match group {
            Group::Item => format!("mass.item[{item}].growth_allowance"),
            Group::Propellant => return None,
            part => format!("mass.growth.{}", crate::quantity::Choice::word(part)),
        };
        let slot = INPUTS.slot(&input)?;
        let class = self.labels.maturity.iter().find(|(path, _)| *path == input);
        class
            .filter(|_| self.origins[slot] == Origin::Catalogue)
            .map(|(_, class)| class)
    }
}
