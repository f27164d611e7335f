//! One round of COBYLA over several continuous variables, keeping the best design it saw.

use super::judge::{Judge, Place};
use crate::error::{Error, Result};
use cobyla::{Func, RhoBeg, StopTols, minimize};
use std::cell::RefCell;

/// Evaluations a round may take; our own.
const EVALUATIONS: usize = 400;
/// Smallest step, as a share of the span; our own.
const LAST_STEP: f64 = 1e-11;
/// The goal is sought this far inside the bounds, so that the last steps meet them; our own.
const INSIDE: f64 = 1e-10;
/// What every bound of a faulty design counts as: far on the wrong side; our own.
const FAULTY: f64 = -1.0;

/// What the solver's functions share.
struct Round<'a> {
    judge: &'a Judge<'a>,
    better: fn(&Place, &Place) -> bool,
    state: RefCell<State>,
}

struct State {
    best: Place,
    last: Option<(Place, Vec<f64>)>,
    failed: Option<Error>,
}

impl<'a> Round<'a> {
    fn new(judge: &'a Judge<'a>, start: &Place, better: fn(&Place, &Place) -> bool) -> Self {
        Self {
            judge,
            better,
            state: RefCell::new(State {
                best: start.clone(),
                last: None,
                failed: None,
            }),
        }
    }

    /// Judges a place given in shares of the span, once for goal and bounds together. None for a
    /// faulty design, and for all once the call has been stopped.
    fn look(&self, unit: &[f64]) -> Option<(Place, Vec<f64>)> {
        let at = self.judge.at(unit);
        let mut state = self.state.borrow_mut();
        if state.failed.is_some() {
            return None;
        }
        let known = state.last.take().filter(|(place, _)| place.at == at);
        let judged = known.map_or_else(|| self.judge.place_with_shares(&at), Ok);
        match judged {
            Ok((place, shares)) => {
                if place.seen.sound() && (self.better)(&place, &state.best) {
                    state.best = place.clone();
                }
                state.last = Some((place.clone(), shares.clone()));
                place.seen.sound().then_some((place, shares))
            }
            Err(error) => {
                state.failed = Some(error);
                None
            }
        }
    }

    /// The best design seen.
    fn best(self) -> Result<Place> {
        let State { best, failed, .. } = self.state.into_inner();
        failed.map_or(Ok(best), Err)
    }
}

/// One round towards the goal from a design that meets everything: the best one seen.
pub(super) fn towards_goal(judge: &Judge<'_>, start: &Place, step: f64) -> Result<Place> {
    let round = Round::new(judge, start, |a, b| a.seen.meets() && a.beats(b));
    let scale = start.seen.cost.abs().max(f64::MIN_POSITIVE);
    let cost = |unit: &[f64], (): &mut ()| {
        let looked = round.look(unit);
        looked.map_or(1.0 - FAULTY, |(place, _)| place.seen.cost / scale)
    };
    let round = &round;
    let share = |index: usize| {
        move |unit: &[f64], (): &mut ()| {
            let looked = round.look(unit);
            looked.map_or(FAULTY, |(_, shares)| shares[index] - INSIDE)
        }
    };
    let shares: Vec<_> = (0..judge.measure.bounds.len()).map(share).collect();
    let unit = judge.unit(&start.at);
    let limits = vec![(0.0, 1.0); unit.len()];
    let end = solve(cost, &unit, &limits, &functions(&shares), step);
    // Looked at once more, so that it counts among those seen.
    drop(round.look(&end));
    let state = round.state.borrow();
    state.failed.clone().map_or(Ok(state.best.clone()), Err)
}

/// One round towards the least violation: the largest `t` that no bound's share lies below.
pub(super) fn towards_feasible(judge: &Judge<'_>, start: &Place, step: f64) -> Result<Place> {
    let round = Round::new(judge, start, Place::less_violated);
    let variables = judge.limits.len();
    let cost = |unit: &[f64], (): &mut ()| -unit[variables];
    let shared = &round;
    let share = |index: usize| {
        move |unit: &[f64], (): &mut ()| {
            let looked = shared.look(&unit[..variables]);
            looked.map_or(FAULTY, |(_, shares)| shares[index] - unit[variables])
        }
    };
    let shares: Vec<_> = (0..judge.measure.bounds.len()).map(share).collect();
    let worst = start.seen.worst;
    let mut unit = judge.unit(&start.at);
    unit.push(worst);
    let mut limits = vec![(0.0, 1.0); variables];
    limits.push((worst - 1.0, worst.abs() + 1.0));
    let end = solve(cost, &unit, &limits, &functions(&shares), step);
    // Looked at once more, so that it counts among those seen.
    drop(shared.look(&end[..variables]));
    drop(shares);
    round.best()
}

fn functions<F: Func<()>>(shares: &[F]) -> Vec<&dyn Func<()>> {
    shares.iter().map(|share| share as &dyn Func<()>).collect()
}

fn solve(
    cost: impl Func<()>,
    start: &[f64],
    limits: &[(f64, f64)],
    bounds: &[&dyn Func<()>],
    step: f64,
) -> Vec<f64> {
    let tolerance = StopTols {
        xtol_abs: vec![LAST_STEP; start.len()],
        ..StopTols::default()
    };
    let step = RhoBeg::All(step);
    let end = minimize(
        cost,
        start,
        limits,
        bounds,
        (),
        EVALUATIONS,
        step,
        Some(tolerance),
    );
    match end {
        Ok((_, end, _)) | Err((_, end, _)) => end,
    }
}
