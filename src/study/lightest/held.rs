//! What the options of each form are held to.

use crate::error::Result;
use crate::stage::{RESULTS, is_margin};
use crate::study::optimise::bound::bounds;
use crate::study::optimise::{Bound, Constraint, Side};
use crate::study::plan::Plan;

/// The bounds of every form, and where the results stand that an option is judged by.
pub(super) struct Holding {
    /// Every bound, once.
    pub bounds: Vec<Bound>,
    /// Which of them each form is held to, or why it cannot be.
    pub of_form: Vec<std::result::Result<Vec<usize>, String>>,
    /// Slot of the tank's mass.
    pub mass: usize,
    /// Slots of code and value of a fault.
    pub status: (usize, usize),
}

impl Holding {
    /// Resolves the constraints for every form of a plan. A form without a result that is asked for
    /// cannot be chosen; if no form has it, that is an error.
    pub fn new(plan: &Plan, constraints: &[Constraint]) -> Result<Self> {
        let mut holding = Self {
            bounds: Vec::new(),
            of_form: Vec::new(),
            mass: RESULTS.find("tank.mass", "result")?,
            status: (
                RESULTS.find("status.code", "result")?,
                RESULTS.find("status.value", "result")?,
            ),
        };
        let mut refused = None;
        for form in &plan.forms {
            let of_form = match bounds(form, &[], Some(constraints)) {
                Ok(own) => Ok(own.into_iter().map(|bound| holding.take(bound)).collect()),
                Err(error) if error.is_unbuildable() => {
                    let reason = error.to_string();
                    refused.get_or_insert(error);
                    Err(reason)
                }
                Err(error) => return Err(error),
            };
            holding.of_form.push(of_form);
        }
        match refused {
            Some(error) if holding.of_form.iter().all(std::result::Result::is_err) => Err(error),
            _ => Ok(holding),
        }
    }

    /// The bounds a form is held to.
    pub fn named(&self, form: usize) -> &[usize] {
        self.of_form[form].as_deref().unwrap_or_default()
    }

    /// Number of a bound.
    fn take(&mut self, bound: Bound) -> usize {
        let known = self.bounds.iter().position(|known| *known == bound);
        known.unwrap_or_else(|| {
            self.bounds.push(bound);
            self.bounds.len() - 1
        })
    }

    /// The bound with the least room of those named, and its room as a share; one whose result is not a
    /// number counts as the worst.
    pub fn worst(&self, named: &[usize], result: impl Fn(usize) -> f64) -> Option<(usize, f64)> {
        let mut worst: Option<(usize, f64)> = None;
        for number in named {
            let bound = &self.bounds[*number];
            let share = bound.share(result(bound.slot));
            if worst.is_none_or(|(_, least)| share < least || share.is_nan() && !least.is_nan()) {
                worst = Some((*number, share));
            }
        }
        worst
    }

    /// The bound that a tank at rest violates most, if it violates any. What is not known at rest is not
    /// a number and violates nothing; a margin that a flight can lower is not held from above.
    pub fn screened_by(&self, named: &[usize], result: impl Fn(usize) -> f64) -> Option<usize> {
        let mut worst: Option<(usize, f64)> = None;
        for number in named {
            let bound = &self.bounds[*number];
            let share = bound.share(result(bound.slot));
            let sure = bound.side == Side::AtLeast || !is_margin(&bound.path);
            if sure && share < worst.map_or(0.0, |(_, least)| least) {
                worst = Some((*number, share));
            }
        }
        worst.map(|(number, _)| number)
    }
}
