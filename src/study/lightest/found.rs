//! The answer: the lightest options, and what stands in the way of every other.

use super::held::Holding;
use crate::stage::SAFETY;
use crate::study::optimise::{Bound, Held};
use crate::study::plan::Plan;
use serde_json::{Value, json};

/// How an option stands. Bounds and reasons are numbers of the answer's lists.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Verdict {
    /// Not judged yet.
    Open,
    /// It meets everything; the winner is the first.
    Meets {
        /// Place in the order of tank mass, from one.
        rank: usize,
    },
    /// The screen leaves it, and it is heavier than as many options that meet everything as were asked
    /// for.
    Heavier,
    /// A condition without which it cannot do, and what it reaches of it before any flight: the one it
    /// violates most of them.
    Screened {
        /// The bound.
        bound: usize,
        /// The result without loads in flight, SI: of a margin that a flight lowers not yet the last word.
        value: f64,
    },
    /// The bound it violates most, by the whole chain.
    Violates {
        /// The bound.
        bound: usize,
        /// The result, SI.
        value: f64,
    },
    /// A fault leaves it without results.
    NoResults {
        /// Number of the [`Fault`](crate::stage::Fault).
        code: f64,
        /// The number that tells how far off it is.
        value: f64,
    },
    /// Its choices do not go together.
    Unbuildable {
        /// Why.
        reason: usize,
    },
}

impl Verdict {
    /// Three numbers that hold it: which kind in the order of their declaration, then rank, bound, fault
    /// or reason, then the value that belongs to it.
    pub fn numbers(&self) -> [f64; 3] {
        let none = f64::NAN;
        match *self {
            Self::Open => [0.0, none, none],
            Self::Meets { rank } => [1.0, rank as f64, none],
            Self::Heavier => [2.0, none, none],
            Self::Screened { bound, value } => [3.0, bound as f64, value],
            Self::Violates { bound, value } => [4.0, bound as f64, value],
            Self::NoResults { code, value } => [5.0, code, value],
            Self::Unbuildable { reason } => [6.0, reason as f64, none],
        }
    }
}

/// An option that meets everything.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranked {
    /// Its number.
    pub option: usize,
    /// Basic mass of the tank, kg.
    pub mass: f64,
    /// Every bound, the nearest first.
    pub held: Vec<Held>,
    /// Path and value of every result, SI.
    pub results: Vec<(&'static str, f64)>,
}

/// What the search for the lightest tank found.
#[derive(Debug, Clone, PartialEq)]
pub struct LightestTank {
    /// The winner and its runners-up, by tank mass, then by number.
    pub ranked: Vec<Ranked>,
    /// Every bound an option is held to.
    pub bounds: Vec<Bound>,
    /// Every reason why choices do not go together.
    pub reasons: Vec<String>,
    /// How each option stands, in the order of the plan.
    pub verdicts: Vec<Verdict>,
    /// Basic mass of each option's tank, kg; NaN where it cannot be built.
    pub masses: Vec<f64>,
    /// How many options the whole chain was run for.
    pub flown: usize,
}

impl LightestTank {
    pub(super) fn new(plan: &Plan, holding: &Holding) -> Self {
        Self {
            ranked: Vec::new(),
            bounds: holding.bounds.clone(),
            reasons: plan.unbuildable.clone(),
            verdicts: vec![Verdict::Open; plan.cases],
            masses: vec![f64::NAN; plan.cases],
            flown: 0,
        }
    }

    /// Number of a reason, which is added unless it is known.
    pub(super) fn reason(&mut self, text: &str) -> usize {
        let known = self.reasons.iter().position(|known| known == text);
        known.unwrap_or_else(|| {
            self.reasons.push(text.to_owned());
            self.reasons.len() - 1
        })
    }

    /// All but verdicts and masses as JSON.
    pub fn json(&self) -> Value {
        let ranked = self.ranked.iter().map(|ranked| {
            json!({
                "row": ranked.option,
                "results": ranked.results,
                "bounds": ranked.held.iter().map(Held::json).collect::<Vec<_>>(),
            })
        });
        let bounds = self.bounds.iter().map(|bound| {
            let open = Held {
                bound: bound.clone(),
                result: f64::NAN,
                share: f64::NAN,
            };
            open.json()
        });
        json!({
            "ranked": ranked.collect::<Vec<_>>(),
            "bounds": bounds.collect::<Vec<_>>(),
            "reasons": self.reasons,
            "flown": self.flown,
            "safety": SAFETY,
        })
    }
}
