//! The plan of a sweep: what varies, which combinations of choices can be built, case numbers.

use super::digits::digits;
use super::progress::Progress;
use crate::error::{Error, Result};
use crate::stage::{Form, INPUT_COUNT, INPUTS, Stage};
use rayon::prelude::*;
use serde_json::Value;
use std::collections::HashMap;

/// Largest grid taken in one call.
pub const MAX_CASES: usize = 5_000_000;

/// One axis: an input, a choice or a row on record, and its values. Numbers are SI; texts carry a
/// unit, or are the word of a choice. Values that are tables hold what changes together, by path; then
/// the axis has a name of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// Dotted path, or the name of what changes together.
    pub path: String,
    /// Values, in the order of the grid.
    pub values: Vec<Value>,
}

impl Axis {
    /// What a value changes: path and value, one or several.
    fn changes(&self, index: usize) -> Result<Vec<(String, Value)>> {
        match &self.values[index] {
            Value::Object(together) if together.is_empty() => Err(Error::Inconsistent(format!(
                "{}: a value that changes nothing; write {{path: value, ...}}",
                self.path
            ))),
            Value::Object(together) => Ok(together.clone().into_iter().collect()),
            value => Ok(vec![(self.path.clone(), value.clone())]),
        }
    }

    /// Every path it changes.
    fn paths(&self) -> Vec<&str> {
        let mut paths: Vec<&str> = Vec::new();
        for value in &self.values {
            match value {
                Value::Object(together) => paths.extend(together.keys().map(String::as_str)),
                _ => paths.push(&self.path),
            }
        }
        paths.sort_unstable();
        paths.dedup();
        paths
    }

    /// Whether it varies a number alone.
    fn is_number(&self) -> bool {
        INPUTS.slot(&self.path).is_some() && !self.values.iter().any(Value::is_object)
    }
}

/// The grid split into variants of equal form; within a variant only slots change.
pub(super) struct Plan {
    /// The slots of the stage that varies.
    pub base: Box<[f64; INPUT_COUNT]>,
    /// Every form there is, once.
    pub forms: Vec<Form>,
    pub variants: Vec<Variant>,
    /// Why combinations of choices cannot be built, each reason once.
    pub unbuildable: Vec<String>,
    numeric: Vec<NumericAxis>,
    pub cases: usize,
}

pub(super) struct NumericAxis {
    slot: usize,
    values: Vec<f64>,
    stride: usize,
}

pub(super) struct Variant {
    /// What the combination of choices comes to, or why it cannot be built.
    pub built: std::result::Result<Built, Unbuildable>,
    /// Index of its first case in the whole grid.
    pub offset: usize,
}

/// A combination of choices that can be built.
pub(super) struct Built {
    /// Which form.
    pub form: usize,
    /// Slots in which it departs from the base, and their values.
    pub departs: Vec<(usize, f64)>,
}

/// Which reason forbids a combination of choices.
#[derive(Clone, Copy)]
pub(super) struct Unbuildable(pub usize);

impl Plan {
    /// The plan of a grid around a stage. Where no combination of choices can be built, that is an error.
    pub fn new(stage: &Stage, axes: &[Axis], progress: &Progress) -> Result<Self> {
        check(axes)?;
        let cases = count(axes)?;
        let mut strides = vec![1; axes.len()];
        for index in (0..axes.len().saturating_sub(1)).rev() {
            strides[index] = strides[index + 1] * axes[index + 1].values.len();
        }
        // Choices come together: they decide which numbers are inputs, and may ask for some.
        let (numbers, choices): (Vec<_>, Vec<_>) = axes
            .iter()
            .zip(strides)
            .partition(|(axis, _)| axis.is_number());
        let mut plan = Self {
            base: Box::new(*stage.slots()),
            forms: Vec::new(),
            variants: Vec::new(),
            unbuildable: Vec::new(),
            numeric: Vec::new(),
            cases,
        };
        let mut first = Vec::new();
        for (axis, stride) in numbers {
            let values = axis
                .values
                .iter()
                .map(|value| stage.read(&axis.path, value));
            plan.numeric.push(NumericAxis {
                slot: INPUTS.find(&axis.path, "input")?,
                values: values.collect::<Result<_>>()?,
                stride,
            });
            first.push((axis.path.clone(), axis.values[0].clone()));
        }
        let combinations: usize = choices.iter().map(|(axis, _)| axis.values.len()).product();
        let combined: Vec<_> = (0..combinations)
            .into_par_iter()
            .map(|number| {
                let (offset, changes) = combination(&choices, number);
                let built = if progress.is_cancelled() {
                    Err(Error::Cancelled {
                        done: 0,
                        total: cases,
                    })
                } else {
                    changes.and_then(|more| departures(stage, &[first.clone(), more].concat()))
                };
                (offset, built)
            })
            .collect();
        plan.take(combined)?;
        if plan.forms.is_empty() {
            let mut changes = Vec::new();
            for axis in axes {
                changes.extend(axis.changes(0)?);
            }
            stage.replace(&changes)?;
        }
        Ok(plan)
    }

    /// Takes the combinations of choices, each with its offset, in their order.
    fn take(&mut self, combined: Vec<(usize, Result<Departing>)>) -> Result<()> {
        let several = combined.len() > 1;
        let (mut known, mut reasons) = (HashMap::new(), HashMap::new());
        for (offset, built) in combined {
            let built = match built {
                Ok((form, departs)) => {
                    let next = self.forms.len();
                    let number = *known.entry(form.clone()).or_insert(next);
                    if number == next {
                        self.forms.push(form);
                    }
                    Ok(Built {
                        form: number,
                        departs,
                    })
                }
                Err(error) if several && error.is_unbuildable() => {
                    let reason = error.to_string();
                    let next = self.unbuildable.len();
                    let number = *reasons.entry(reason.clone()).or_insert(next);
                    if number == next {
                        self.unbuildable.push(reason);
                    }
                    Err(Unbuildable(number))
                }
                Err(error) => return Err(error),
            };
            self.variants.push(Variant { built, offset });
        }
        Ok(())
    }

    /// Number of combinations of the numbers that vary.
    pub fn cases_per_variant(&self) -> usize {
        self.numeric.iter().map(|axis| axis.values.len()).product()
    }

    /// Slots and values in which the `index`-th combination of the numbers that vary departs from the
    /// base, for a combination of choices.
    pub fn slots(&self, built: &Built, index: usize) -> impl Iterator<Item = (usize, f64)> {
        let digits = self.digits(index);
        let numbers = digits.map(|(axis, digit)| (axis.slot, axis.values[digit]));
        built.departs.iter().copied().chain(numbers)
    }

    /// Case number within the whole grid of the `index`-th combination of a variant.
    pub fn case(&self, index: usize) -> usize {
        let digits = self.digits(index);
        digits.map(|(axis, digit)| digit * axis.stride).sum()
    }

    /// Which value each number takes in the `index`-th combination of them, the last number first.
    fn digits(&self, index: usize) -> impl Iterator<Item = (&NumericAxis, usize)> {
        let last_first = self.numeric.iter().rev();
        let sizes = last_first.clone().map(|axis| axis.values.len());
        last_first.zip(digits(index, sizes))
    }
}

/// Refuses axes without values, and what is varied twice.
fn check(axes: &[Axis]) -> Result<()> {
    let mut seen: Vec<&str> = Vec::new();
    for axis in axes {
        if axis.values.is_empty() {
            let problem = format!("{} has no values to try", axis.path);
            return Err(Error::Inconsistent(problem));
        }
        for path in axis.paths() {
            if seen.contains(&path) {
                return Err(Error::Inconsistent(format!("{path} is varied twice")));
            }
            seen.push(path);
        }
    }
    Ok(())
}

/// How many cases the grid has.
fn count(axes: &[Axis]) -> Result<usize> {
    axes.iter()
        .try_fold(1usize, |product, axis| {
            product.checked_mul(axis.values.len())
        })
        .filter(|cases| *cases <= MAX_CASES)
        .ok_or_else(|| {
            Error::Inconsistent(format!(
                "this grid has more than {MAX_CASES} cases, more than fit into memory at once; coarsen it or split it"
            ))
        })
}

/// Where the cases of a combination of choices begin, and what it changes.
fn combination(choices: &[(&Axis, usize)], number: usize) -> (usize, Result<Vec<(String, Value)>>) {
    let (mut offset, mut changes) = (0, Ok(Vec::new()));
    let last_first = choices.iter().rev();
    let sizes = last_first.clone().map(|(axis, _)| axis.values.len());
    for ((axis, stride), index) in last_first.zip(digits(number, sizes)) {
        offset += index * stride;
        changes = changes.and_then(|mut changes| {
            changes.extend(axis.changes(index)?);
            Ok(changes)
        });
    }
    (offset, changes)
}

/// A form, and the slots in which it departs from the base.
type Departing = (Form, Vec<(usize, f64)>);

/// What changes to a stage come to.
fn departures(stage: &Stage, changes: &[(String, Value)]) -> Result<Departing> {
    let (form, slots) = stage.variant(changes)?;
    let pairs = stage.slots().iter().zip(slots.iter()).enumerate();
    let departs = pairs.filter(|(_, (base, own))| base.to_bits() != own.to_bits());
    Ok((form, departs.map(|(slot, (_, own))| (slot, *own)).collect()))
}
