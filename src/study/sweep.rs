//! A full grid: every combination of the values of its axes.

use super::blocks::{Block, LANES};
use super::plan::{Axis, Built, Plan};
use super::pool::pool;
use super::progress::Progress;
use crate::error::{Error, Result};
use crate::stage::{Fault, Form, RESULT_COUNT, RESULTS, Stage, assess};
use ndarray::Array1;
use rayon::prelude::*;

/// Blocks evaluated between two looks at cancellation from the collecting thread.
const BATCH: usize = 1024;

/// Results of a sweep, a column per result that applies, in the order of the cases: the first axis
/// varies slowest.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// Result paths and their columns; NaN where a case has a fault.
    pub columns: Vec<(String, Array1<f64>)>,
    /// Fault number of each case, zero for none.
    pub status: Vec<f64>,
    /// The number that tells how far off a case is.
    pub status_value: Vec<f64>,
}

/// Evaluates the full grid over `axes`, on `threads` threads (all there are, if none is given). The
/// outcome does not depend on their number. A case that cannot be built is a row with a status; a
/// value that is not even readable is an error before anything is computed.
pub fn sweep(
    stage: &Stage,
    axes: &[Axis],
    threads: Option<usize>,
    progress: &Progress,
) -> Result<Sweep> {
    pool(threads)?.install(|| run(&Plan::new(stage, axes, progress)?, progress))
}

/// Evaluates every case of a plan.
fn run(plan: &Plan, progress: &Progress) -> Result<Sweep> {
    let per_variant = plan.cases_per_variant();
    let mut table = Filling::new(plan, progress)?;
    let built = plan.variants.iter().filter_map(|variant| {
        let built = variant.built.as_ref().ok()?;
        Some((built, variant.offset))
    });
    let blocks: Vec<(&Built, usize, usize)> = built
        .flat_map(|(built, offset)| {
            (0..per_variant)
                .step_by(LANES)
                .map(move |start| (built, offset, start))
        })
        .collect();
    for batch in blocks.chunks(BATCH) {
        let evaluated: Vec<Option<Block>> = batch
            .par_iter()
            .map(|(built, _, start)| {
                let taken = LANES.min(per_variant - start);
                let varied = |lane| plan.slots(built, start + lane);
                let form = &plan.forms[built.form];
                Block::of(assess, form, &plan.base, taken, progress, varied)
            })
            .collect();
        for ((built, offset, start), block) in batch.iter().zip(evaluated) {
            let Some(block) = block else {
                return Err(Error::Cancelled {
                    done: progress.done(),
                    total: plan.cases,
                });
            };
            for lane in 0..LANES.min(per_variant - start) {
                let case = offset + plan.case(start + lane);
                table.take(case, &plan.forms[built.form], &block.results(lane));
            }
        }
    }
    Ok(table.finish())
}

/// The table being filled.
struct Filling {
    /// A column per result; empty where no case has it.
    columns: Vec<Vec<f64>>,
    status: Vec<f64>,
    status_value: Vec<f64>,
    code: usize,
    value: usize,
}

impl Filling {
    /// Every case begins as one that cannot be built.
    fn new(plan: &Plan, progress: &Progress) -> Result<Self> {
        let columns = RESULTS.fields.iter().map(|field| {
            if progress.is_cancelled() {
                return Err(Error::Cancelled {
                    done: 0,
                    total: plan.cases,
                });
            }
            let mut forms = plan.forms.iter();
            let applies = !field.path.starts_with("status.")
                && forms.any(|form| form.applies(field.applies, field.index));
            Ok(vec![f64::NAN; if applies { plan.cases } else { 0 }])
        });
        Ok(Self {
            columns: columns.collect::<Result<_>>()?,
            status: vec![Fault::CannotBeBuilt.code(); plan.cases],
            status_value: vec![0.0; plan.cases],
            code: RESULTS.find("status.code", "result")?,
            value: RESULTS.find("status.value", "result")?,
        })
    }

    fn take(&mut self, case: usize, form: &Form, results: &[f64; RESULT_COUNT]) {
        self.status[case] = results[self.code];
        self.status_value[case] = results[self.value];
        if self.status[case] > 0.0 {
            return;
        }
        for (slot, field) in RESULTS.fields.iter().enumerate() {
            let applies = form.applies(field.applies, field.index);
            if applies && !self.columns[slot].is_empty() {
                self.columns[slot][case] = results[slot];
            }
        }
    }

    fn finish(self) -> Sweep {
        let paths = RESULTS.fields.iter().map(|field| field.path.clone());
        Sweep {
            columns: paths
                .zip(self.columns)
                .filter(|(_, column)| !column.is_empty())
                .map(|(path, column)| (path, Array1::from(column)))
                .collect(),
            status: self.status,
            status_value: self.status_value,
        }
    }
}
