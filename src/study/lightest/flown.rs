//! The last step: what the screen has left, flown from the lightest on.

use super::found::{LightestTank, Ranked, Verdict};
use super::held::Holding;
use super::screen::Left;
use crate::error::{Error, Result};
use crate::stage::{Form, RESULT_COUNT, RESULTS, assess};
use crate::study::blocks::{Block, LANES};
use crate::study::optimise::Held;
use crate::study::plan::Plan;
use crate::study::progress::Progress;
use rayon::prelude::*;

/// Options flown before the first look at how many meet everything, and at most between two looks. No
/// verdict depends on them.
const FIRST: usize = 64;
const MOST: usize = 4096;

/// Flies options in order of tank mass until `keep` of them meet everything; what is heavier still is
/// not judged by its flight, even if it has been flown beside others.
pub(super) fn fly(
    plan: &Plan,
    holding: &Holding,
    left: &[Left],
    keep: usize,
    found: &mut LightestTank,
    progress: &Progress,
) -> Result<()> {
    let (mut at, mut together) = (0, FIRST);
    while at < left.len() && found.ranked.len() < keep {
        let batch = &left[at..left.len().min(at + together)];
        let results = assessed(plan, batch, progress).ok_or_else(|| Error::Cancelled {
            done: progress.done(),
            total: plan.cases,
        })?;
        found.flown += batch.len();
        for (option, results) in batch.iter().zip(results) {
            if found.ranked.len() == keep {
                break;
            }
            at += 1;
            judge(plan, holding, option, &results, found);
        }
        together = (2 * together).min(MOST);
    }
    for option in &left[at..] {
        found.verdicts[option.option] = Verdict::Heavier;
    }
    Ok(())
}

/// Judges an option by the results of the whole chain.
fn judge(
    plan: &Plan,
    holding: &Holding,
    option: &Left,
    results: &[f64; RESULT_COUNT],
    found: &mut LightestTank,
) {
    let (code, value) = (results[holding.status.0], results[holding.status.1]);
    let named = holding.named(option.form);
    found.verdicts[option.option] = if code > 0.0 {
        Verdict::NoResults { code, value }
    } else {
        match holding.worst(named, |slot| results[slot]) {
            // A share that is not a number is not met.
            Some((bound, share)) if share < 0.0 || share.is_nan() => Verdict::Violates {
                bound,
                value: results[holding.bounds[bound].slot],
            },
            _ => {
                let bounds = named.iter().map(|bound| &holding.bounds[*bound]);
                found.ranked.push(Ranked {
                    option: option.option,
                    mass: option.mass,
                    held: Held::all(bounds, results),
                    results: applying(&plan.forms[option.form], results),
                });
                Verdict::Meets {
                    rank: found.ranked.len(),
                }
            }
        }
    };
}

/// Path and value of every result that a form has.
fn applying(form: &Form, results: &[f64; RESULT_COUNT]) -> Vec<(&'static str, f64)> {
    let fields = RESULTS.fields.iter().zip(results);
    fields
        .filter(|(field, _)| {
            !field.path.starts_with("status.") && form.applies(field.applies, field.index)
        })
        .map(|(field, value)| (field.path.as_str(), *value))
        .collect()
}

/// The whole chain for some options, blocks of equal form side by side; results in their order. None if
/// the call was stopped.
fn assessed(plan: &Plan, batch: &[Left], progress: &Progress) -> Option<Vec<[f64; RESULT_COUNT]>> {
    let mut by_form: Vec<Vec<usize>> = vec![Vec::new(); plan.forms.len()];
    for (number, option) in batch.iter().enumerate() {
        by_form[option.form].push(number);
    }
    let blocks: Vec<(usize, &[usize])> = by_form
        .iter()
        .enumerate()
        .flat_map(|(form, numbers)| numbers.chunks(LANES).map(move |block| (form, block)))
        .collect();
    let evaluated: Option<Vec<Block>> = blocks
        .par_iter()
        .map(|(form, numbers)| {
            let varied = |lane: usize| {
                let Left { variant, index, .. } = batch[numbers[lane]];
                let built = plan.variants[variant].built.as_ref().ok();
                built
                    .into_iter()
                    .flat_map(move |built| plan.slots(built, index))
            };
            let taken = numbers.len();
            // The screen has counted them already.
            let uncounted = Progress::default();
            if progress.is_cancelled() {
                return None;
            }
            Block::of(
                assess,
                &plan.forms[*form],
                &plan.base,
                taken,
                &uncounted,
                varied,
            )
        })
        .collect();
    let mut results = vec![[0.0; RESULT_COUNT]; batch.len()];
    for ((_, numbers), block) in blocks.iter().zip(evaluated?) {
        for (lane, number) in numbers.iter().enumerate() {
            results[*number] = block.results(lane);
        }
    }
    Some(results)
}
