//! The search along several continuous variables: from the best points of a scan, in rounds of
//! ever smaller steps.

use super::judge::{Judge, Place};
use super::line::{Found, sort};
use super::round::{towards_feasible, towards_goal};
use crate::error::Result;
use std::cmp::Ordering;

/// From how many points of the scan the rounds start; our own.
const STARTS: usize = 4;
/// First steps of the rounds as shares of the span, after the first round's half a step of the scan;
/// our own.
const STEPS: [f64; 3] = [1e-2, 1e-4, 1e-6];
/// Two optima nearer than this share of the span in every variable count as one; our own.
const DISTINCT: f64 = 1e-3;
/// Halvings of the way from the best design to one beyond its boundary; our own.
const HALVINGS: usize = 40;
/// A design this near to a limit, as a share of the span, is tried on it; our own.
const NEAR: f64 = 1e-6;

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
            let (best, end) = towards_goal(judge, &place, step)?;
            place = to_boundary(judge, best, end.as_ref())?;
        }
        optima.push(onto_limits(judge, place)?);
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

/// The solver may end a hair beyond a boundary: the way there is halved to the last design inside.
fn to_boundary(judge: &Judge<'_>, best: Place, end: Option<&Place>) -> Result<Place> {
    let better = |end: &&Place| !end.seen.meets() && end.seen.cost < best.seen.cost;
    let Some(end) = end.filter(better) else {
        return Ok(best);
    };
    let (from, to) = (judge.unit(&best.at), judge.unit(&end.at));
    let (mut inside, mut outside) = (0.0, 1.0);
    let mut kept = best;
    for _ in 0..HALVINGS {
        let middle: f64 = 0.5 * (inside + outside);
        let unit: Vec<f64> = from
            .iter()
            .zip(&to)
            .map(|(from, to)| from + middle * (to - from))
            .collect();
        let place = judge.place(&judge.at(&unit))?;
        if place.seen.meets() {
            inside = middle;
            if place.beats(&kept) {
                kept = place;
            }
        } else {
            outside = middle;
        }
    }
    Ok(kept)
}

/// A design a hair from a limit moves onto it, where that costs nothing.
fn onto_limits(judge: &Judge<'_>, place: Place) -> Result<Place> {
    let mut best = place;
    for variable in 0..best.at.len() {
        let (lower, upper) = judge.limits[variable];
        for limit in [lower, upper] {
            let gap = (best.at[variable] - limit).abs();
            if gap > 0.0 && gap <= NEAR * judge.span(variable) {
                let mut at = best.at.clone();
                at[variable] = limit;
                let place = judge.place(&at)?;
                if place.seen.meets() && place.seen.cost <= best.seen.cost {
                    best = place;
                }
            }
        }
    }
    Ok(best)
}
