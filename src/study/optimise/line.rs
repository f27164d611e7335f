//! The search along one continuous variable: every interval that meets all bounds, and the
//! best design of each.

use super::boundary::{BRACKET, boundary, kept};
use super::brent;
use super::judge::{Judge, Place};
use crate::error::Result;

/// Most places between scan points at which a narrow interval is looked for; our own.
const LOOKS: usize = 8;

/// What a search of one combination found.
#[derive(Debug, Default)]
pub(super) struct Found {
    /// The best design of each interval or valley, best first.
    pub optima: Vec<Place>,
    /// Where nothing meets everything: the least violated design.
    pub least: Option<Place>,
}

impl Found {
    /// What there is where nothing varies continuously.
    pub fn only(place: Place) -> Self {
        let (optima, rest): (Vec<_>, Vec<_>) = [place].into_iter().partition(|p| p.seen.meets());
        Self {
            optima,
            least: rest.into_iter().find(|place| place.seen.sound()),
        }
    }
}

/// Searches a line whose scan is given in rising order.
pub(super) fn search(judge: &Judge<'_>, scan: Vec<Place>) -> Result<Found> {
    let mut line = scan;
    hidden(judge, &mut line)?;
    let intervals = intervals(judge, &line)?;
    let mut optima = Vec::new();
    for interval in &intervals {
        valleys(judge, interval, &mut optima)?;
    }
    sort(&mut optima);
    let sound = line.into_iter().filter(|place| place.seen.sound());
    let least = sound.reduce(|least, place| {
        if place.less_violated(&least) {
            place
        } else {
            least
        }
    });
    Ok(Found {
        least: least.filter(|_| optima.is_empty()),
        optima,
    })
}

/// Best first.
pub(super) fn sort(optima: &mut [Place]) {
    optima.sort_by(Place::order);
}

/// An interval can hide between scan points: wherever the worst bound turns back before it
/// changes sign, its extreme is looked for and joins the line.
fn hidden(judge: &Judge<'_>, line: &mut Vec<Place>) -> Result<()> {
    let mut turns: Vec<usize> = (0..line.len()).filter(|at| turns_back(line, *at)).collect();
    turns.sort_by(|a, b| {
        let distance = |at: &usize| line[*at].seen.worst.abs();
        distance(a).total_cmp(&distance(b)).then(a.cmp(b))
    });
    let mut extremes = Vec::new();
    for at in turns.into_iter().take(LOOKS) {
        let sign = if line[at].seen.meets() { 1.0 } else { -1.0 };
        let (before, after) = (at.saturating_sub(1), (at + 1).min(line.len() - 1));
        let mut extreme: Option<Place> = None;
        let mut failed = None;
        let tolerance = BRACKET * judge.span(0);
        brent::minimum(line[before].at[0], line[after].at[0], tolerance, |x| {
            let place = kept(&mut failed, judge.place(&[x]))?;
            let value = place.seen.sound().then_some(sign * place.seen.worst)?;
            if extreme
                .as_ref()
                .is_none_or(|known| value < sign * known.seen.worst)
            {
                extreme = Some(place);
            }
            Some(value)
        });
        if let Some(error) = failed {
            return Err(error);
        }
        extremes.extend(extreme);
    }
    line.extend(extremes);
    line.sort_by(|a, b| a.at[0].total_cmp(&b.at[0]));
    line.dedup_by(|a, b| a.at == b.at);
    Ok(())
}

/// Whether the worst bound has an extreme towards zero here without reaching it.
fn turns_back(line: &[Place], at: usize) -> bool {
    let here = line[at].seen;
    let beside = |index: Option<usize>| index.and_then(|index| line.get(index)).map(|p| p.seen);
    let neighbours = [beside(at.checked_sub(1)), beside(Some(at + 1))];
    let mut strictly = false;
    for neighbour in neighbours.into_iter().flatten() {
        let same_side = neighbour.meets() == here.meets();
        let nearer = here.worst.abs() <= neighbour.worst.abs();
        if !same_side || !nearer {
            return false;
        }
        strictly |= here.worst != neighbour.worst;
    }
    here.sound() && here.worst.is_finite() && strictly
}

/// Runs of designs that meet everything, their boundaries found.
fn intervals(judge: &Judge<'_>, line: &[Place]) -> Result<Vec<Vec<Place>>> {
    let mut intervals = Vec::new();
    let mut run: Vec<Place> = Vec::new();
    for (index, place) in line.iter().enumerate() {
        let before = index.checked_sub(1).map(|index| &line[index]);
        if place.seen.meets() {
            if let (Some(outside), true) = (before, run.is_empty()) {
                push(&mut run, boundary(judge, place, outside)?);
            }
            push(&mut run, place.clone());
        } else if let (Some(inside), false) = (before, run.is_empty()) {
            push(&mut run, boundary(judge, inside, place)?);
            intervals.push(std::mem::take(&mut run));
        }
    }
    if !run.is_empty() {
        intervals.push(run);
    }
    Ok(intervals)
}

fn push(run: &mut Vec<Place>, place: Place) {
    if run.last().is_none_or(|last| last.at != place.at) {
        run.push(place);
    }
}

/// Every valley of the goal within an interval; of a level one its smallest place.
fn valleys(judge: &Judge<'_>, run: &[Place], optima: &mut Vec<Place>) -> Result<()> {
    let mut start = 0;
    while start < run.len() {
        let cost = run[start].seen.cost;
        let level = run[start..]
            .iter()
            .take_while(|place| place.seen.cost == cost);
        let end = start + level.count();
        let before = start.checked_sub(1).map(|index| &run[index]);
        let after = run.get(end);
        let lower_than = |place: Option<&Place>| place.is_none_or(|p| cost < p.seen.cost);
        if lower_than(before) && lower_than(after) {
            let from = before.unwrap_or(&run[start]);
            let to = after.unwrap_or(&run[end - 1]);
            optima.push(valley(judge, &run[start], from, to)?);
        }
        start = end;
    }
    Ok(())
}

/// The lowest place of a valley.
fn valley(judge: &Judge<'_>, known: &Place, from: &Place, to: &Place) -> Result<Place> {
    let mut best = known.clone();
    let mut failed = None;
    let tolerance = BRACKET * judge.span(0);
    if from.at[0] < to.at[0] {
        brent::minimum(from.at[0], to.at[0], tolerance, |at| {
            let place = kept(&mut failed, judge.place(&[at]))?;
            if !place.seen.meets() {
                return place
                    .seen
                    .sound()
                    .then_some(from.seen.cost.max(to.seen.cost));
            }
            let cost = place.seen.cost;
            if place.beats(&best) {
                best = place;
            }
            Some(cost)
        });
    }
    failed.map_or(Ok(best), Err)
}
