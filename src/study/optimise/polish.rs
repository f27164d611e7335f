//! The search along several continuous variables: from the best points of a scan, in rounds of
//! ever smaller steps, then along one variable after the other.

use super::judge::{Judge, Place};
use super::line::{self, Found, sort};
use super::round::{towards_feasible, towards_goal};
use crate::error::Result;
use std::cmp::Ordering;

/// From how many points of the scan the rounds start; our own.
const STARTS: usize = 4;
/// First steps of the rounds as shares of the span, after the first round's half a step of the scan;
/// our own.
const STEPS: [f64; 3] = [1e-2, 1e-4, 1e-6];
/// Points of the scan along one variable alone; our own.
const ALONE: usize = 17;
/// Rounds along one variable after the other at the most; our own.
const CYCLES: usize = 8;
/// Gain of a round, as a share of the goal, below which no more is sought; our own.
const GAIN: f64 = 1e-10;
/// Two optima nearer than this share of the span in every variable count as one; our own.
const DISTINCT: f64 = 1e-3;

/// Searches from a scan, `points` along each variable, the last variable fastest.
pub(super) fn search(judge: &Judge<'_>, scan: &[Place], points: usize) -> Result<Found> {
    let first = 0.5 / (points - 1) as f64;
    let steps = || [first].into_iter().chain(STEPS);
    let mut least: Option<Place> = None;
    let mut starts = starts(scan, points, judge.limits.len(), true);
    if starts.is_empty() {
        for mut place in self::starts(scan, points, judge.limits.len(), false) {
            for step in steps() {
                place = towards_feasible(judge, &place, step)?;
            }
            if place.seen.meets() {
                starts.push(place);
            } else if least
                .as_ref()
                .is_none_or(|known| place.less_violated(known))
            {
                least = Some(place);
            }
        }
    }
    let mut optima = Vec::new();
    for mut place in starts {
        for step in steps() {
            place = towards_goal(judge, &place, step)?;
        }
        optima.push(one_by_one(judge, place, 2.0 * first)?);
    }
    sort(&mut optima);
    let mut distinct: Vec<Place> = Vec::new();
    for place in optima {
        if distinct.iter().all(|known| apart(judge, known, &place)) {
            distinct.push(place);
        }
    }
    Ok(Found {
        least: least.filter(|_| distinct.is_empty()),
        optima: distinct,
    })
}

fn apart(judge: &Judge<'_>, a: &Place, b: &Place) -> bool {
    let far = |index: usize| (a.at[index] - b.at[index]).abs() > DISTINCT * judge.span(index);
    (0..a.at.len()).any(far)
}

fn order(a: &Place, b: &Place) -> Ordering {
    match (a.seen.meets(), b.seen.meets()) {
        (true, true) => a.order(b),
        (true, false) => Ordering::Less,
        (false, true) => Ordering::Greater,
        (false, false) if a.less_violated(b) => Ordering::Less,
        (false, false) if b.less_violated(a) => Ordering::Greater,
        (false, false) => Ordering::Equal,
    }
}

/// The best scan points that no neighbour along a variable beats.
fn starts(scan: &[Place], points: usize, variables: usize, feasible: bool) -> Vec<Place> {
    let lowest = |index: usize| {
        (0..variables).all(|variable| {
            let stride = points.pow(variable as u32);
            let position = index / stride % points;
            let before = (position > 0).then(|| index - stride);
            let after = (position + 1 < points).then(|| index + stride);
            let mut beside = before.into_iter().chain(after);
            beside.all(|beside| !order(&scan[beside], &scan[index]).is_lt())
        })
    };
    let mut starts: Vec<Place> = (0..scan.len())
        .filter(|index| scan[*index].seen.sound() && scan[*index].seen.meets() == feasible)
        .filter(|index| lowest(*index))
        .map(|index| scan[index].clone())
        .collect();
    starts.sort_by(order);
    starts.truncate(STARTS);
    starts
}

/// Along one variable after the other by the line search: where a bound has a kink, COBYLA's planes
/// stop short. It goes no further than `reach`, a share of each span, so that islands stay apart.
fn one_by_one(judge: &Judge<'_>, place: Place, reach: f64) -> Result<Place> {
    let mut best = place;
    for _ in 0..CYCLES {
        let before = best.seen.cost;
        for variable in 0..best.at.len() {
            let alone = judge.alone(variable, &best.at);
            let scan: Result<Vec<Place>> = (0..ALONE)
                .map(|index| alone.place(&alone.grid_point(ALONE, index)))
                .collect();
            let found = line::search(&alone, scan?)?;
            judge.count(&alone);
            let near = |other: &&Place| {
                (other.at[0] - best.at[variable]).abs() <= reach * judge.span(variable)
            };
            if let Some(better) = found.optima.iter().find(near)
                && better.seen.cost < best.seen.cost
            {
                best.at[variable] = better.at[0];
                best.seen = better.seen;
            }
        }
        if before - best.seen.cost <= GAIN * before.abs() {
            break;
        }
    }
    Ok(best)
}
