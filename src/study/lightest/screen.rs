//! The first step: every option against conditions without which it cannot do.

use super::found::{LightestTank, Verdict};
use super::held::Holding;
use crate::error::{Error, Result};
use crate::stage::at_rest;
use crate::study::blocks::{Block, LANES};
use crate::study::plan::{Built, Plan, Unbuildable};
use crate::study::progress::Progress;
use rayon::prelude::*;

/// Fewest blocks given to a thread at a time.
const TOGETHER: usize = 16;

/// An option that no condition has rejected.
#[derive(Debug, Clone, Copy)]
pub(super) struct Left {
    /// Basic mass of the tank, kg.
    pub mass: f64,
    /// Its number.
    pub option: usize,
    /// Number of its form.
    pub form: usize,
    /// Number of its combination of choices.
    pub variant: usize,
    /// Number of its combination of numbers there.
    pub index: usize,
}

/// The options of one form, one after the other: those of its first combination of choices, then those
/// of the next.
struct Group<'a> {
    form: usize,
    held: &'a [usize],
    /// The combinations of choices, by their number in the plan.
    variants: Vec<(usize, &'a Built)>,
}

/// Screens every option; returns what is left.
pub(super) fn screen(
    plan: &Plan,
    holding: &Holding,
    found: &mut LightestTank,
    progress: &Progress,
) -> Result<Vec<Left>> {
    let each = plan.cases_per_variant();
    let mut groups: Vec<Group<'_>> = (0..plan.forms.len())
        .map(|form| Group {
            form,
            held: holding.named(form),
            variants: Vec::new(),
        })
        .collect();
    for (number, variant) in plan.variants.iter().enumerate() {
        let reason = match &variant.built {
            Err(Unbuildable(reason)) => *reason,
            Ok(built) => match &holding.of_form[built.form] {
                Ok(_) => {
                    groups[built.form].variants.push((number, built));
                    continue;
                }
                Err(reason) => found.reason(reason),
            },
        };
        for index in 0..each {
            found.verdicts[variant.offset + plan.case(index)] = Verdict::Unbuildable { reason };
        }
    }
    let mut left = Vec::new();
    for group in &groups {
        let count = group.variants.len() * each;
        let starts: Vec<usize> = (0..count).step_by(LANES).collect();
        let judged: Option<Vec<[(Verdict, f64); LANES]>> = starts
            .par_iter()
            .with_min_len(TOGETHER)
            .map(|start| judge(plan, holding, group, *start, count, progress))
            .collect();
        let judged = judged.ok_or_else(|| Error::Cancelled {
            done: progress.done(),
            total: plan.cases,
        })?;
        for (number, (verdict, mass)) in judged.into_iter().flatten().take(count).enumerate() {
            let (variant, index) = (group.variants[number / each].0, number % each);
            let option = plan.variants[variant].offset + plan.case(index);
            found.verdicts[option] = verdict;
            found.masses[option] = mass;
            if verdict == Verdict::Open {
                left.push(Left {
                    mass,
                    option,
                    form: group.form,
                    variant,
                    index,
                });
            }
        }
    }
    Ok(left)
}

/// Verdict and tank mass of each option of a block.
fn judge(
    plan: &Plan,
    holding: &Holding,
    group: &Group<'_>,
    start: usize,
    count: usize,
    progress: &Progress,
) -> Option<[(Verdict, f64); LANES]> {
    let each = plan.cases_per_variant();
    let varied = |lane: usize| {
        let number = start + lane;
        plan.slots(group.variants[number / each].1, number % each)
    };
    let taken = LANES.min(count - start);
    let form = &plan.forms[group.form];
    let block = Block::of(at_rest, form, &plan.base, taken, progress, varied)?;
    let (code, value) = holding.status;
    Some(std::array::from_fn(|lane| {
        let result = |slot: usize| block.result(slot, lane);
        let verdict = if result(code) > 0.0 {
            Verdict::NoResults {
                code: result(code),
                value: result(value),
            }
        } else {
            match holding.screened_by(group.held, result) {
                Some(bound) => Verdict::Screened {
                    bound,
                    value: result(holding.bounds[bound].slot),
                },
                None => Verdict::Open,
            }
        };
        (verdict, result(holding.mass))
    }))
}
