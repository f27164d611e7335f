//! The plan of a sweep: what varies, which combinations of choices can be built, case numbers.

use super::digits::digits;
use crate::error::{Error, Result};
use crate::stage::{INPUTS, Stage};
use serde_json::Value;

/// Largest grid taken in one call.
pub const MAX_CASES: usize = 5_000_000;

/// One axis: an input, a choice or a row on record, and its values. Numbers are SI; texts carry a
/// unit, or are the word of a choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// Dotted path.
    pub path: String,
    /// Values, in the order of the grid.
    pub values: Vec<Value>,
}

/// The grid split into variants of equal form; within a variant only slots change.
pub(super) struct Plan {
    pub variants: Vec<Variant>,
    numeric: Vec<NumericAxis>,
    pub cases: usize,
}

pub(super) struct NumericAxis {
    slot: usize,
    values: Vec<f64>,
    stride: usize,
}

pub(super) struct Variant {
    /// None if the combination of choices cannot be built.
    pub stage: Option<Stage>,
    /// Index of its first case in the whole grid.
    pub offset: usize,
}

impl Plan {
    pub fn new(stage: &Stage, axes: &[Axis]) -> Result<Self> {
        for (index, axis) in axes.iter().enumerate() {
            if axis.values.is_empty() {
                return Err(Error::Inconsistent(format!(
                    "{} has no values to sweep",
                    axis.path
                )));
            }
            if axes[..index].iter().any(|other| other.path == axis.path) {
                return Err(Error::Inconsistent(format!("{} is swept twice", axis.path)));
            }
        }
        let cases = axes
            .iter()
            .try_fold(1usize, |product, axis| {
                product.checked_mul(axis.values.len())
            })
            .filter(|cases| *cases <= MAX_CASES)
            .ok_or_else(|| {
                Error::Inconsistent(format!(
                    "this grid has more than {MAX_CASES} cases, more than fit into memory at once; coarsen it or split it"
                ))
            })?;
        let mut strides = vec![1; axes.len()];
        for index in (0..axes.len().saturating_sub(1)).rev() {
            strides[index] = strides[index + 1] * axes[index + 1].values.len();
        }
        // Choices come together: they decide which numbers are inputs, and may ask for some.
        let (numbers, choices): (Vec<_>, Vec<_>) = axes
            .iter()
            .zip(strides)
            .partition(|(axis, _)| INPUTS.slot(&axis.path).is_some());
        let mut numeric = Vec::new();
        let mut first = Vec::new();
        for (axis, stride) in numbers {
            let values = axis
                .values
                .iter()
                .map(|value| stage.read(&axis.path, value));
            numeric.push(NumericAxis {
                slot: INPUTS.find(&axis.path, "input")?,
                values: values.collect::<Result<_>>()?,
                stride,
            });
            first.push((axis.path.clone(), axis.values[0].clone()));
        }
        let mut variants = Vec::new();
        let combinations: usize = choices.iter().map(|(axis, _)| axis.values.len()).product();
        for combination in 0..combinations {
            let mut offset = 0;
            let mut changes = first.clone();
            let last_first = choices.iter().rev();
            let digits = digits(
                combination,
                last_first.clone().map(|(axis, _)| axis.values.len()),
            );
            for ((axis, stride), index) in last_first.zip(digits) {
                offset += index * stride;
                changes.push((axis.path.clone(), axis.values[index].clone()));
            }
            let built = match stage.replace(&changes) {
                Ok(stage) => Some(stage),
                Err(error) if combinations > 1 && error.is_unbuildable() => None,
                Err(error) => return Err(error),
            };
            variants.push(Variant {
                stage: built,
                offset,
            });
        }
        if variants.iter().all(|variant| variant.stage.is_none()) {
            let changes: Vec<_> = axes
                .iter()
                .map(|axis| (axis.path.clone(), axis.values[0].clone()))
                .collect();
            stage.replace(&changes)?;
        }
        Ok(Self {
            variants,
            numeric,
            cases,
        })
    }

    /// Number of combinations of the numbers that vary.
    pub fn cases_per_variant(&self) -> usize {
        self.numeric.iter().map(|axis| axis.values.len()).product()
    }

    /// Slots and values of the `index`-th combination of the numbers that vary.
    pub fn values(&self, index: usize) -> impl Iterator<Item = (usize, f64)> {
        let digits = self.digits(index);
        digits.map(|(axis, digit)| (axis.slot, axis.values[digit]))
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
