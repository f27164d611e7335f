//! Constraints resolved for one form: which result, which side, how a shortfall is weighed.

use super::problem::Constraint;
use crate::error::{Error, Result};
use crate::quantity::{Quantity, show, unlimited};
use crate::stage::{Form, INPUTS, MARGINS, RESULTS, Requirement, is_margin};
use serde_json::Value;

/// Most bounds a design is held to.
pub(super) const MAX_BOUNDS: usize = 128;

/// Which side of its bound a result must lie on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// At or above it.
    AtLeast,
    /// At or below it.
    AtMost,
}

/// One result on one side of one value.
#[derive(Debug, Clone, PartialEq)]
pub struct Bound {
    /// Path of the result.
    pub path: String,
    /// Side.
    pub side: Side,
    /// The value, SI.
    pub value: f64,
    pub(in crate::study) slot: usize,
    /// What a shortfall is measured by.
    pub(super) scale: f64,
}

impl Bound {
    pub(super) fn new(slot: usize, side: Side, value: f64) -> Self {
        let path = RESULTS.fields[slot].path.clone();
        // A margin counts as the share of strength that is short; anything else as a share of its
        // bound. Our own weights; they only matter where no design meets everything.
        let scale = if is_margin(&path) {
            (1.0 + value).abs()
        } else {
            value.abs()
        };
        Self {
            path,
            side,
            value,
            slot,
            scale: if scale > 0.0 { scale } else { 1.0 },
        }
    }

    /// How far a result lies on the right side, as a share of the bound, so that shortfalls of
    /// different kinds can be compared; negative on the wrong side.
    pub fn share(&self, result: f64) -> f64 {
        let slack = match self.side {
            Side::AtLeast => result - self.value,
            Side::AtMost => self.value - result,
        };
        slack / self.scale
    }

    /// The bound in words: `ascent.apogee at least 9000 m`.
    pub fn words(&self) -> String {
        let side = match self.side {
            Side::AtLeast => "at least",
            Side::AtMost => "at most",
        };
        let quantity = RESULTS.fields[self.slot].quantity;
        format!("{} {side} {}", self.path, show(self.value, quantity))
    }
}

/// The bounds a stage is held to: those asked for or, if none are, no margin negative and every
/// requirement of the stage that names a result.
pub(in crate::study) fn bounds(
    form: &Form,
    requirements: &[Requirement],
    constraints: Option<&[Constraint]>,
) -> Result<Vec<Bound>> {
    let mut all: Vec<Bound> = Vec::new();
    let mut take = |path: &str, least: Option<f64>, most: Option<f64>| -> Result<()> {
        for slot in slots(form, path)? {
            for (side, value) in [(Side::AtLeast, least), (Side::AtMost, most)] {
                let bound = value.map(|value| Bound::new(slot, side, value));
                all.extend(bound.filter(|bound| !all.contains(bound)));
            }
        }
        Ok(())
    };
    if let Some(constraints) = constraints {
        for constraint in constraints {
            let (least, most) = sides(constraint, true)?;
            take(&constraint.path, least, most)?;
        }
    } else {
        if form.tank.is_some() {
            take(MARGINS, Some(0.0), None)?;
        }
        for requirement in requirements {
            if let Some(response) = &requirement.response {
                take(response, requirement.at_least, requirement.at_most)?;
            }
        }
    }
    if all.len() > MAX_BOUNDS {
        return Err(Error::Inconsistent(format!(
            "{} bounds are more than the {MAX_BOUNDS} that a search takes",
            all.len()
        )));
    }
    Ok(all)
}

/// Reads both sides of a constraint; `bare_numbers` count as SI.
fn sides(constraint: &Constraint, bare_numbers: bool) -> Result<(Option<f64>, Option<f64>)> {
    let Constraint { path, .. } = constraint;
    let limit = |value: &Option<Value>| -> Result<Option<f64>> {
        let read = |value| unlimited(path, value, quantity_of(path)?, bare_numbers);
        value.as_ref().map(read).transpose()
    };
    match (limit(&constraint.at_least)?, limit(&constraint.at_most)?) {
        (None, None) => Err(Error::Inconsistent(format!(
            "the constraint on {path} has no limit; give at_least, at_most or both"
        ))),
        (Some(low), Some(high)) if low > high => Err(Error::Inconsistent(format!(
            "the constraint on {path} has at_least above at_most; nothing meets both"
        ))),
        both => Ok(both),
    }
}

/// Refuses a constraint of a file that no stage could be held to.
pub(in crate::study) fn check(constraint: &Constraint) -> Result<()> {
    sides(constraint, false).map(|_| ())
}

/// Kind of number that a result, or every margin, is.
fn quantity_of(path: &str) -> Result<Quantity> {
    if path == MARGINS {
        return Ok(Quantity::Ratio);
    }
    Ok(RESULTS.fields[result_slot(path)?].quantity)
}

/// The results a path stands for, all of which a stage of this form must have.
fn slots(form: &Form, path: &str) -> Result<Vec<usize>> {
    if path != MARGINS {
        return Ok(vec![applying(form, path)?]);
    }
    let margins: Vec<usize> = form.margin_slots().collect();
    if margins.is_empty() {
        return Err(Error::Inconsistent(
            "this stage has no tank, and so no margins to hold".to_owned(),
        ));
    }
    Ok(margins)
}

/// Slot of a result that stages of a form have.
pub(super) fn applying(form: &Form, path: &str) -> Result<usize> {
    let slot = result_slot(path)?;
    let field = &RESULTS.fields[slot];
    if form.applies(field.applies, field.index) {
        Ok(slot)
    } else {
        Err(Error::does_not_apply(&format!("the result {path}")))
    }
}

/// Slot of a result; an input is told apart from a name that does not exist.
pub(in crate::study) fn result_slot(path: &str) -> Result<usize> {
    if INPUTS.slot(path).is_some() {
        return Err(Error::Inconsistent(format!(
            "{path} is an input, not a result; the limits of an input stand where it is varied"
        )));
    }
    if path.starts_with("status.") {
        return Err(Error::Inconsistent(format!(
            "{path} is not a result to search by; a design with a fault is never chosen"
        )));
    }
    RESULTS.find(path, "result")
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_limit_in_a_study_file_needs_its_unit_as_one_in_a_stage_file_does() {
        let held = |path: &str, at_least: Value| {
            check(&Constraint {
                path: path.to_owned(),
                at_least: Some(at_least),
                at_most: None,
            })
        };
        let refused = held("tank.mass", json!(7)).expect_err("a number without a unit");
        let told = "tank.mass: 7 has no unit; write it in quotes with one, such as \"7 kg\"";
        assert_eq!(refused.to_string(), told);
        assert_eq!(held("tank.mass", json!("7 kg")), Ok(()));
        assert_eq!(held("margins", json!(0)), Ok(()));
    }
}
