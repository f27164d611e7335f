//! A design that the search ended at, with what holds it there.

use super::bound::{Bound, Side};
use super::judge::{Judge, Place};
use crate::stage::{Fault, RESULT_COUNT};
use serde_json::{Value, json};

/// A share of slack up to which a bound counts as reached; our own.
const REACHED: f64 = 1e-6;

/// How a design stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// It meets every bound.
    MeetsAll,
    /// The least violated design of its combination; none there meets every bound.
    Violates,
    /// No design of its combination has results.
    NoResults,
}

impl Standing {
    fn word(self) -> &'static str {
        match self {
            Self::MeetsAll => "meets all bounds",
            Self::Violates => "violates bounds",
            Self::NoResults => "no results",
        }
    }
}

/// A bound with what the design reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// The bound.
    pub bound: Bound,
    /// The result, SI.
    pub result: f64,
    /// How far the result lies inside, as a share of the bound; negative outside.
    pub share: f64,
}

impl Held {
    /// What a design reaches of its bounds, the nearest or most violated first.
    pub(in crate::study) fn all<'a>(
        bounds: impl IntoIterator<Item = &'a Bound>,
        results: &[f64; RESULT_COUNT],
    ) -> Vec<Self> {
        let bounds = bounds.into_iter();
        let mut held: Vec<Self> = bounds
            .map(|bound| Self {
                bound: bound.clone(),
                result: results[bound.slot],
                share: bound.share(results[bound.slot]),
            })
            .collect();
        held.sort_by(|a, b| a.share.total_cmp(&b.share));
        held
    }

    pub(in crate::study) fn json(&self) -> Value {
        json!({
            "path": self.bound.path,
            "side": match self.bound.side { Side::AtLeast => "at_least", Side::AtMost => "at_most" },
            "bound": self.bound.value,
            "value": self.result,
            "scale": self.bound.scale,
            "share": self.share,
            "reached": self.share.abs() <= REACHED,
            "text": self.bound.words(),
        })
    }
}

/// A design.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Values of what was varied: as listed, or SI numbers.
    pub inputs: Vec<(String, Value)>,
    /// How it stands.
    pub standing: Standing,
    /// The goal, SI; none without results.
    pub goal: Option<f64>,
    /// The bounds, the nearest or most violated first.
    pub held: Vec<Held>,
    /// Continuous variables that lie on a limit: path, and whether it is the upper one.
    pub on_limit: Vec<(String, bool)>,
    /// Why it has no results.
    pub reason: Option<String>,
    pub(super) cost: f64,
    pub(super) worst: f64,
}

impl Candidate {
    /// A combination without any design that has results.
    pub(super) fn without_results(inputs: Vec<(String, Value)>, reason: String) -> Self {
        Self {
            inputs,
            standing: Standing::NoResults,
            goal: None,
            held: Vec::new(),
            on_limit: Vec::new(),
            reason: Some(reason),
            cost: f64::INFINITY,
            worst: f64::NEG_INFINITY,
        }
    }

    /// The design at a place of a combination; `paths` are those of the continuous variables.
    pub(super) fn at(
        judge: &Judge<'_>,
        place: &Place,
        listed: &[(String, Value)],
        paths: &[String],
    ) -> Self {
        let continuous = paths.iter().zip(&place.at);
        let inputs = listed
            .iter()
            .cloned()
            .chain(continuous.map(|(path, value)| (path.clone(), Value::from(*value))))
            .collect();
        if !place.seen.sound() {
            let sentence = Fault::from_code(place.seen.code)
                .map_or_else(String::new, |fault| fault.sentence(place.seen.value));
            return Self::without_results(inputs, sentence);
        }
        let results = judge.results(&place.at);
        let held = Held::all(&judge.measure.bounds, &results);
        let limits = paths.iter().zip(&place.at).zip(judge.limits);
        Self {
            inputs,
            standing: if place.seen.meets() {
                Standing::MeetsAll
            } else {
                Standing::Violates
            },
            goal: Some(results[judge.measure.goal]),
            held,
            on_limit: limits
                .filter(|((_, value), (lower, upper))| *value == lower || *value == upper)
                .map(|((path, value), (_, upper))| (path.clone(), value == upper))
                .collect(),
            reason: None,
            cost: place.seen.cost,
            worst: place.seen.worst,
        }
    }

    pub(super) fn json(&self) -> Value {
        let on_limit = self.on_limit.iter().map(
            |(path, upper)| json!({ "path": path, "side": if *upper { "upper" } else { "lower" } }),
        );
        json!({
            "inputs": self.inputs.iter().map(|(path, value)| json!([path, value])).collect::<Vec<_>>(),
            "status": self.standing.word(),
            "goal": self.goal,
            "bounds": self.held.iter().map(Held::json).collect::<Vec<_>>(),
            "on_limit": on_limit.collect::<Vec<_>>(),
            "reason": self.reason,
        })
    }
}
