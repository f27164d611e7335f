//! One combination of the listed values, searched along what varies continuously.

use super::bound::{applying, bounds};
use super::candidate::Candidate;
use super::conflict::Looked;
use super::judge::{Judge, Measure};
use super::line::{self, Found};
use super::polish;
use super::problem::{Goal, Problem};
use crate::error::{Error, Result};
use crate::stage::{INPUTS, RESULTS, Stage};
use crate::study::progress::Progress;
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What varies continuously, resolved once.
pub(super) struct Continuous {
    pub paths: Vec<String>,
    pub slots: Vec<usize>,
    pub limits: Vec<(f64, f64)>,
    /// Points of the scan along each.
    pub points: usize,
}

impl Continuous {
    /// Resolves one more variable.
    pub fn take(&mut self, stage: &Stage, path: &str, lower: &Value, upper: &Value) -> Result<()> {
        let slot = INPUTS.slot(path).ok_or_else(|| {
            let known = crate::stage::find_choice(path).is_some();
            let listed = || format!("{path} is a choice; list its words instead of a range");
            match INPUTS.find(path, "input") {
                Err(error) if !known => error,
                _ => Error::Inconsistent(listed()),
            }
        })?;
        let limits = (stage.read(path, lower)?, stage.read(path, upper)?);
        if limits.0 >= limits.1 {
            return Err(Error::Inconsistent(format!(
                "{path} is to vary from {lower} to {upper}; the lower limit comes first and lies \
                 below the upper one"
            )));
        }
        self.paths.push(path.to_owned());
        self.slots.push(slot);
        self.limits.push(limits);
        Ok(())
    }
}

/// What came of one combination.
pub(super) struct Searched {
    /// The designs it ended at, best first.
    pub candidates: Vec<Candidate>,
    pub looked: Looked,
    pub evaluations: usize,
}

/// Searches one combination.
pub(super) fn search(
    stage: &Stage,
    problem: &Problem,
    listed: &[(String, Value)],
    continuous: &Continuous,
    watch: &Progress,
) -> Result<Searched> {
    let mut changes = listed.to_vec();
    let lowest = continuous.paths.iter().zip(&continuous.limits);
    changes.extend(lowest.map(|(path, limits)| (path.clone(), Value::from(limits.0))));
    let stage = stage.replace(&changes)?;
    let Goal { direction, path } = &problem.goal;
    let measure = Measure {
        goal: applying(stage.form(), path)?,
        direction: *direction,
        bounds: bounds(
            stage.form(),
            stage.requirements(),
            problem.subject_to.as_deref(),
        )?,
        status: (
            RESULTS.find("status.code", "result")?,
            RESULTS.find("status.value", "result")?,
        ),
    };
    let judge = Judge {
        form: stage.form(),
        base: *stage.slots(),
        slots: &continuous.slots,
        limits: &continuous.limits,
        measure: &measure,
        watch,
        evaluations: AtomicUsize::new(0),
    };
    let scan = judge.scan(continuous.points)?;
    let mut met = BTreeMap::new();
    for place in scan.iter().filter(|place| place.seen.sound()) {
        *met.entry(place.seen.met).or_insert(0) += 1;
    }
    let first = scan[0].clone();
    let found = match continuous.slots.len() {
        0 => Found::only(first.clone()),
        1 => line::search(&judge, scan)?,
        _ => polish::search(&judge, &scan, continuous.points)?,
    };
    for place in found.optima.iter().chain(&found.least) {
        *met.entry(place.seen.met).or_insert(0) += 1;
    }
    let ended = if found.optima.is_empty() {
        vec![found.least.unwrap_or(first)]
    } else {
        found.optima
    };
    let candidates = ended
        .iter()
        .map(|place| Candidate::at(&judge, place, listed, &continuous.paths));
    Ok(Searched {
        candidates: candidates.collect(),
        evaluations: judge.evaluations.load(Ordering::Relaxed),
        looked: Looked {
            bounds: measure.bounds.clone(),
            met,
        },
    })
}
