//! The requirement matrix: every requirement with what it came to, smallest margin first.

use crate::quantity::{Choice, Quantity};
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::schema::{MARGINS, RESULTS, is_margin, outcome_slots};
use crate::stage::given::Stage;
use crate::stage::given::requirement::{Method, Requirement};
use serde_json::{Value, json};

/// What reading a unit rounds shall not cost a requirement, as a share of its limit.
const SLACK: f64 = 1e-12;

/// Where a requirement stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// The calculation meets it; what else its method asks for is stated as evidence.
    Met,
    /// The calculation does not meet it.
    NotMet,
    /// Nothing shown yet by the method it asks for.
    Open,
}

impl Standing {
    /// The word printed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::NotMet => "not met",
            Self::Open => "open",
        }
    }
}

/// One line of the matrix.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// What was judged.
    pub requirement: Requirement,
    /// The result it is judged by, SI.
    pub value: Option<f64>,
    /// The result's path: the smallest margin's own where all of them are asked for.
    pub decided_by: Option<String>,
    /// Allowable over load, less one, as everywhere; none where a ratio means nothing.
    pub margin: Option<f64>,
    /// Where it stands.
    pub standing: Standing,
    /// What that rests on, in words.
    pub basis: String,
}

impl Stage {
    /// Judges every requirement: those not met first, then by margin, smallest first, then those
    /// without one.
    pub fn matrix(&self, outcome: &Outcome<f64>) -> Vec<Judgement> {
        let slots = outcome_slots(outcome, 0.0);
        let mut matrix: Vec<Judgement> = self
            .requirements()
            .iter()
            .map(|requirement| judge(requirement, self.response(requirement, &slots)))
            .collect();
        let rank = |line: &Judgement| match (line.standing, line.margin) {
            (Standing::NotMet, None) => f64::NEG_INFINITY,
            (_, margin) => margin.unwrap_or(f64::INFINITY),
        };
        matrix.sort_by(|a, b| rank(a).total_cmp(&rank(b)));
        matrix
    }

    /// The result that decides a requirement: path, value, kind of number.
    fn response(
        &self,
        requirement: &Requirement,
        slots: &[f64],
    ) -> Option<(&'static str, f64, Quantity)> {
        let response = requirement.response.as_deref()?;
        let slot = if response == MARGINS {
            let margins = self.form().margin_slots();
            margins.min_by(|a, b| slots[*a].total_cmp(&slots[*b]))
        } else {
            let slot = RESULTS.slot(response);
            slot.filter(|slot| {
                let field = &RESULTS.fields[*slot];
                self.form().applies(field.applies, field.index)
            })
        }?;
        let field = &RESULTS.fields[slot];
        Some((field.path.as_str(), slots[slot], field.quantity))
    }
}

fn judge(requirement: &Requirement, response: Option<(&str, f64, Quantity)>) -> Judgement {
    let (value, margin, holds) = match response {
        None => (None, None, None),
        Some((path, value, quantity)) => {
            let ratio = |allowable, load| margin_of(path, quantity, allowable, load);
            let least = requirement
                .at_least
                .map(|limit| (value >= limit - SLACK * limit.abs(), ratio(value, limit)));
            let most = requirement
                .at_most
                .map(|limit| (value <= limit + SLACK * limit.abs(), ratio(limit, value)));
            let holds = [least, most].iter().flatten().all(|(holds, _)| *holds);
            let margins = [least, most]
                .into_iter()
                .flatten()
                .filter_map(|(_, margin)| margin);
            (Some(value), margins.reduce(f64::min), Some(holds))
        }
    };
    let evidence = requirement.evidence.as_deref();
    let method = requirement.method.word();
    let (standing, basis) = match (holds, requirement.method, evidence) {
        (Some(false), _, _) => (Standing::NotMet, "computed here".to_owned()),
        (Some(true), Method::Analysis, None) => (Standing::Met, "computed here".to_owned()),
        (Some(true), _, Some(shown)) => {
            (Standing::Met, format!("computed here; {method}: {shown}"))
        }
        (Some(true), _, None) => (
            Standing::Open,
            format!("computed here and met; the {method} has not shown it yet"),
        ),
        (None, _, _) if requirement.response.is_some() => (
            Standing::Open,
            "the result does not apply to this stage as it was changed".to_owned(),
        ),
        (None, _, Some(shown)) => (Standing::Met, format!("stated; {method}: {shown}")),
        (None, _, None) => (
            Standing::Open,
            format!("nothing here computes it, and no {method} has shown it yet"),
        ),
    };
    Judgement {
        requirement: requirement.clone(),
        value,
        decided_by: response.map(|(path, _, _)| path.to_owned()),
        margin,
        standing,
        basis,
    }
}

/// `allowable / load - 1`. A margin of safety is such a quotient already, so a margin M against a
/// limit L comes to (1 + M) / (1 + L) - 1. Where either side is not positive, or the scale has no
/// natural zero, a quotient means nothing.
fn margin_of(path: &str, quantity: Quantity, allowable: f64, load: f64) -> Option<f64> {
    if is_margin(path) {
        let margin = (1.0 + allowable) / (1.0 + load) - 1.0;
        return (load > -1.0).then_some(margin);
    }
    let scaled = quantity != Quantity::Temperature;
    (scaled && allowable > 0.0 && load > 0.0).then(|| allowable / load - 1.0)
}

impl Judgement {
    pub(super) fn json(&self) -> Value {
        let Requirement {
            id,
            text,
            response,
            at_least,
            at_most,
            method,
            evidence,
        } = &self.requirement;
        json!({
            "id": id,
            "text": text,
            "response": response,
            "at_least": at_least,
            "at_most": at_most,
            "method": method.word(),
            "evidence": evidence,
            "value": self.value,
            "decided_by": self.decided_by,
            "margin": self.margin,
            "status": self.standing.word(),
            "basis": self.basis,
        })
    }
}
