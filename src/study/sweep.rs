//! A full grid: every combination of the values of its axes.

use super::progress::Progress;
use crate::error::{Error, Result};
use crate::numerics::Lanes;
use crate::stage::{
    INPUT_COUNT, INPUTS, RESULT_COUNT, RESULTS, Stage, assess, outcome_slots, point,
};
use rayon::prelude::*;
use serde_json::Value;

/// Designs evaluated side by side.
const LANES: usize = 16;
/// Blocks evaluated between two looks at cancellation from the collecting thread.
const BATCH: usize = 1024;

/// One axis: an input, a choice or a row on record, and its values. Numbers are SI; texts carry a
/// unit, or are the word of a choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// Dotted path.
    pub path: String,
    /// Values, in the order of the grid.
    pub values: Vec<Value>,
}

/// Results of a sweep, a column per result that applies, in the order of the cases: the first axis
/// varies slowest.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// Result paths and their columns; NaN where a case has a fault.
    pub columns: Vec<(String, Vec<f64>)>,
    /// Fault number of each case, zero for none.
    pub status: Vec<f64>,
    /// The number that tells how far off a case is.
    pub status_value: Vec<f64>,
}

/// Largest grid taken in one call.
pub const MAX_CASES: usize = 50_000_000;

/// Evaluates the full grid over `axes`, on `threads` threads (all there are, if none is given). The
/// outcome does not depend on their number. A case that cannot be built is a row with a status; a
/// value that is not even readable is an error before anything is computed.
pub fn sweep(
    stage: &Stage,
    axes: &[Axis],
    threads: Option<usize>,
    progress: &Progress,
) -> Result<Sweep> {
    let plan = Plan::new(stage, axes)?;
    let mut builder = rayon::ThreadPoolBuilder::new();
    if let Some(threads) = threads {
        if threads == 0 {
            return Err(Error::Inconsistent(
                "threads = 0: at least one is needed".to_owned(),
            ));
        }
        builder = builder.num_threads(threads);
    }
    let pool = builder
        .build()
        .map_err(|error| Error::Inconsistent(format!("no thread pool: {error}")))?;
    pool.install(|| plan.run(progress))
}

/// The grid split into variants of equal form; within a variant only slots change.
struct Plan {
    variants: Vec<Variant>,
    numeric: Vec<NumericAxis>,
    cases: usize,
}

struct NumericAxis {
    slot: usize,
    values: Vec<f64>,
    stride: usize,
}

struct Variant {
    stage: Stage,
    /// Index of its first case in the whole grid.
    offset: usize,
}

impl Plan {
    fn new(stage: &Stage, axes: &[Axis]) -> Result<Self> {
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
                    "this grid has more than {MAX_CASES} cases; coarsen it"
                ))
            })?;
        let mut strides = vec![1; axes.len()];
        for index in (0..axes.len().saturating_sub(1)).rev() {
            strides[index] = strides[index + 1] * axes[index + 1].values.len();
        }
        let mut variants = vec![Variant {
            stage: stage.clone(),
            offset: 0,
        }];
        let mut numeric = Vec::new();
        // Choices first: they may change which numbers are inputs.
        for (axis, stride) in axes.iter().zip(&strides) {
            if INPUTS.slot(&axis.path).is_some() {
                continue;
            }
            let mut split = Vec::new();
            for variant in &variants {
                for (index, value) in axis.values.iter().enumerate() {
                    let change = [(axis.path.clone(), value.clone())];
                    split.push(Variant {
                        stage: variant.stage.replace(&change)?,
                        offset: variant.offset + index * stride,
                    });
                }
            }
            variants = split;
        }
        for (axis, stride) in axes.iter().zip(&strides) {
            let Some(slot) = INPUTS.slot(&axis.path) else {
                continue;
            };
            let values = axis
                .values
                .iter()
                .map(|value| stage.read(&axis.path, value));
            let values = values.collect::<Result<Vec<f64>>>()?;
            // Taking the first value on settles what the path makes of the form (a stated mass).
            let first = [(axis.path.clone(), axis.values[0].clone())];
            for variant in &mut variants {
                variant.stage = variant.stage.replace(&first)?;
            }
            numeric.push(NumericAxis {
                slot,
                values,
                stride: *stride,
            });
        }
        Ok(Self {
            variants,
            numeric,
            cases,
        })
    }

    fn cases_per_variant(&self) -> usize {
        self.numeric.iter().map(|axis| axis.values.len()).product()
    }

    fn run(&self, progress: &Progress) -> Result<Sweep> {
        let per_variant = self.cases_per_variant();
        let blocks: Vec<(usize, usize)> = (0..self.variants.len())
            .flat_map(|variant| {
                (0..per_variant)
                    .step_by(LANES)
                    .map(move |start| (variant, start))
            })
            .collect();
        let applies: Vec<bool> = RESULTS
            .fields
            .iter()
            .map(|field| {
                let form =
                    |variant: &Variant| variant.stage.form().applies(field.applies, field.index);
                !field.path.starts_with("status.") && self.variants.iter().any(form)
            })
            .collect();
        let mut columns: Vec<Vec<f64>> = applies
            .iter()
            .map(|applies| {
                if *applies {
                    vec![f64::NAN; self.cases]
                } else {
                    Vec::new()
                }
            })
            .collect();
        let mut status = vec![0.0; self.cases];
        let mut status_value = vec![0.0; self.cases];
        let code = RESULTS.find("status.code", "result")?;
        let value = RESULTS.find("status.value", "result")?;
        for batch in blocks.chunks(BATCH) {
            let outcomes: Vec<Option<[Lanes<LANES>; RESULT_COUNT]>> = batch
                .par_iter()
                .map(|(variant, start)| {
                    if progress.is_cancelled() {
                        return None;
                    }
                    let slots = self.block(&self.variants[*variant], *start);
                    let outcome = assess(self.variants[*variant].stage.form(), &point(&slots));
                    progress.add(LANES.min(per_variant - start));
                    Some(outcome_slots(&outcome, Lanes([0.0; LANES])))
                })
                .collect();
            for ((variant, start), outcome) in batch.iter().zip(outcomes) {
                let Some(outcome) = outcome else {
                    return Err(Error::Cancelled {
                        done: progress.done(),
                        total: self.cases,
                    });
                };
                let variant = &self.variants[*variant];
                for lane in 0..LANES.min(per_variant - start) {
                    let case = variant.offset + self.case(start + lane);
                    status[case] = outcome[code].0[lane];
                    status_value[case] = outcome[value].0[lane];
                    if status[case] > 0.0 {
                        continue;
                    }
                    for (slot, field) in RESULTS.fields.iter().enumerate() {
                        let form = variant.stage.form();
                        if applies[slot] && form.applies(field.applies, field.index) {
                            columns[slot][case] = outcome[slot].0[lane];
                        }
                    }
                }
            }
        }
        let columns = RESULTS
            .fields
            .iter()
            .zip(columns)
            .zip(applies)
            .filter(|(_, applies)| *applies)
            .map(|((field, column), _)| (field.path.clone(), column))
            .collect();
        Ok(Sweep {
            columns,
            status,
            status_value,
        })
    }

    /// The inputs of a block; lanes beyond the last case repeat it.
    fn block(&self, variant: &Variant, start: usize) -> [Lanes<LANES>; INPUT_COUNT] {
        let mut slots = variant.stage.slots().map(|value| Lanes([value; LANES]));
        let last = self.cases_per_variant() - 1;
        for lane in 0..LANES {
            let mut rest = (start + lane).min(last);
            for axis in self.numeric.iter().rev() {
                slots[axis.slot].0[lane] = axis.values[rest % axis.values.len()];
                rest /= axis.values.len();
            }
        }
        slots
    }

    /// Case number within the whole grid of the `index`-th combination of a variant.
    fn case(&self, index: usize) -> usize {
        let mut rest = index;
        let mut case = 0;
        for axis in self.numeric.iter().rev() {
            case += rest % axis.values.len() * axis.stride;
            rest /= axis.values.len();
        }
        case
    }
}
