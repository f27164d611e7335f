//! Designs judged: the goal, the worst bound, or the fault.

use super::bound::Bound;
use super::problem::Direction;
use crate::error::{Error, Result};
use crate::stage::{Form, INPUT_COUNT, RESULT_COUNT, assess, outcome_slots, point};
use crate::study::blocks::{Block, LANES};
use crate::study::digits::digits;
use crate::study::progress::Progress;
use rayon::prelude::*;
use std::cmp::Ordering;
use std::iter::repeat;
use std::sync::atomic::{AtomicUsize, Ordering as Memory};

/// What is kept of a design seen on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Seen {
    /// The goal, turned so that less is better; infinite for a fault.
    pub cost: f64,
    /// The smallest share of slack; minus infinity for a fault.
    pub worst: f64,
    /// Which bounds are met, a bit each, in their order.
    pub met: u128,
    /// Number of the fault, zero for none.
    pub code: f64,
    /// The number that tells how far off a faulty design is.
    pub value: f64,
}

impl Seen {
    /// Whether it has results and meets every bound.
    pub fn meets(&self) -> bool {
        self.sound() && self.worst >= 0.0
    }

    /// Whether it has results.
    pub fn sound(&self) -> bool {
        self.code == 0.0
    }
}

/// A design seen, and where it lies along the continuous variables.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Place {
    pub at: Vec<f64>,
    pub seen: Seen,
}

impl Place {
    /// Order of two designs that meet everything: the goal decides, then the smaller first variable,
    /// then the second, and so on.
    pub fn order(&self, other: &Self) -> Ordering {
        let order = self.seen.cost.total_cmp(&other.seen.cost);
        order.then_with(|| compare(&self.at, &other.at))
    }

    /// Whether it is the better of two designs that meet everything.
    pub fn beats(&self, other: &Self) -> bool {
        self.order(other).is_lt()
    }

    /// Whether it is the less violated of two designs; ties as for [`Self::order`].
    pub fn less_violated(&self, other: &Self) -> bool {
        let order = other.seen.worst.total_cmp(&self.seen.worst);
        order.then_with(|| compare(&self.at, &other.at)).is_lt()
    }
}

fn compare(a: &[f64], b: &[f64]) -> Ordering {
    let pairs = a.iter().zip(b).map(|(a, b)| a.total_cmp(b));
    pairs.fold(Ordering::Equal, Ordering::then)
}

/// What every design of one form is judged by.
#[derive(Debug, Clone)]
pub(super) struct Measure {
    /// Slot of the goal.
    pub goal: usize,
    pub direction: Direction,
    pub bounds: Vec<Bound>,
    /// Slots of code and value of a fault.
    pub status: (usize, usize),
}

impl Measure {
    /// Judges results.
    pub fn seen(&self, results: &[f64; RESULT_COUNT]) -> Seen {
        let (code, value) = (results[self.status.0], results[self.status.1]);
        let mut seen = Seen {
            cost: f64::INFINITY,
            worst: f64::NEG_INFINITY,
            met: 0,
            code,
            value,
        };
        if !seen.sound() {
            return seen;
        }
        let goal = results[self.goal];
        seen.cost = match self.direction {
            Direction::Minimise => goal,
            Direction::Maximise => -goal,
        };
        // A goal that is not a number is no goal reached.
        if goal.is_nan() {
            seen.cost = f64::INFINITY;
        }
        seen.worst = if goal.is_nan() {
            f64::NAN
        } else {
            f64::INFINITY
        };
        for (index, bound) in self.bounds.iter().enumerate() {
            let share = bound.share(results[bound.slot]);
            // A share that is not a number counts as one that is not met.
            seen.worst = if share < seen.worst || share.is_nan() {
                share
            } else {
                seen.worst
            };
            seen.met |= u128::from(share >= 0.0) << index;
        }
        seen
    }
}

/// One combination of the listed values: its form, its numbers, and what varies continuously.
pub(super) struct Judge<'a> {
    pub form: &'a Form,
    pub base: [f64; INPUT_COUNT],
    /// Slots of the continuous variables.
    pub slots: &'a [usize],
    /// Limits of the continuous variables.
    pub limits: &'a [(f64, f64)],
    pub measure: &'a Measure,
    pub watch: &'a Progress,
    pub evaluations: AtomicUsize,
}

impl Judge<'_> {
    /// Every result at a place.
    pub fn results(&self, at: &[f64]) -> [f64; RESULT_COUNT] {
        let mut slots = self.base;
        for (slot, value) in self.slots.iter().zip(at) {
            slots[*slot] = *value;
        }
        outcome_slots(&assess(self.form, &point(&slots)), 0.0)
    }

    /// Judges one design.
    pub fn place(&self, at: &[f64]) -> Result<Place> {
        Ok(self.place_with_shares(at)?.0)
    }

    /// Judges one design and gives the share of slack of each bound.
    pub fn place_with_shares(&self, at: &[f64]) -> Result<(Place, Vec<f64>)> {
        if self.watch.is_cancelled() {
            return Err(cancelled(self.watch));
        }
        self.evaluations.fetch_add(1, Memory::Relaxed);
        let results = self.results(at);
        let place = Place {
            at: at.to_vec(),
            seen: self.measure.seen(&results),
        };
        let bounds = self.measure.bounds.iter();
        let shares = bounds.map(|bound| bound.share(results[bound.slot]));
        Ok((place, shares.collect()))
    }

    /// Judges an even grid, `points` along each variable, the last variable fastest.
    pub fn scan(&self, points: usize) -> Result<Vec<Place>> {
        if self.slots.is_empty() {
            let place = self.place(&[])?;
            self.watch.add(1);
            return Ok(vec![place]);
        }
        let count = points.pow(self.slots.len() as u32);
        let starts: Vec<usize> = (0..count).step_by(LANES).collect();
        let blocks: Option<Vec<Vec<Place>>> = starts
            .into_par_iter()
            .map(|start| self.block(points, start, count))
            .collect();
        let places: Vec<Place> = blocks
            .ok_or_else(|| cancelled(self.watch))?
            .into_iter()
            .flatten()
            .collect();
        self.evaluations.fetch_add(places.len(), Memory::Relaxed);
        Ok(places)
    }

    /// One block of lanes of the grid; none if the call was stopped.
    fn block(&self, points: usize, start: usize, count: usize) -> Option<Vec<Place>> {
        let taken = LANES.min(count - start);
        let at: Vec<Vec<f64>> = (start..start + taken)
            .map(|index| self.grid_point(points, index))
            .collect();
        let varied = |lane: usize| self.slots.iter().copied().zip(at[lane].iter().copied());
        let block = Block::of(assess, self.form, &self.base, taken, self.watch, varied)?;
        let places = at.into_iter().enumerate().map(|(lane, at)| Place {
            at,
            seen: self.measure.seen(&block.results(lane)),
        });
        Some(places.collect())
    }

    /// A point of an even grid.
    pub fn grid_point(&self, points: usize, index: usize) -> Vec<f64> {
        let mut at = vec![0.0; self.slots.len()];
        let last_first = at.iter_mut().zip(self.limits).rev();
        for ((value, (lower, upper)), step) in last_first.zip(digits(index, repeat(points))) {
            *value = if step + 1 == points {
                *upper
            } else {
                lower + (upper - lower) * (step as f64 / (points - 1) as f64)
            };
        }
        at
    }

    /// The same designs along one variable alone, the others as they are at a place.
    pub fn alone(&self, variable: usize, at: &[f64]) -> Self {
        let mut base = self.base;
        for (slot, value) in self.slots.iter().zip(at) {
            base[*slot] = *value;
        }
        Self {
            base,
            slots: &self.slots[variable..=variable],
            limits: &self.limits[variable..=variable],
            evaluations: AtomicUsize::new(0),
            ..*self
        }
    }

    /// Adds what another judge of the same designs computed.
    pub fn count(&self, other: &Self) {
        let more = other.evaluations.load(Memory::Relaxed);
        self.evaluations.fetch_add(more, Memory::Relaxed);
    }

    /// Values of the continuous variables from shares of their spans.
    pub fn at(&self, unit: &[f64]) -> Vec<f64> {
        let pairs = unit.iter().zip(self.limits);
        pairs
            .map(|(share, (lower, upper))| (lower + share * (upper - lower)).clamp(*lower, *upper))
            .collect()
    }

    /// Shares of the spans of the continuous variables.
    pub fn unit(&self, at: &[f64]) -> Vec<f64> {
        let pairs = at.iter().zip(self.limits);
        pairs
            .map(|(value, (lower, upper))| (value - lower) / (upper - lower))
            .collect()
    }

    /// Span of a continuous variable.
    pub fn span(&self, variable: usize) -> f64 {
        let (lower, upper) = self.limits[variable];
        upper - lower
    }
}

/// The call was stopped.
pub(super) fn cancelled(watch: &Progress) -> Error {
    Error::Cancelled {
        done: watch.done(),
        total: watch.done(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::bound::Side;
    use super::*;
    use crate::stage::RESULTS;

    #[test]
    fn what_is_not_a_number_meets_nothing() {
        let slot = |path: &str| RESULTS.slot(path).expect(path);
        let (mass, apogee, length) = (
            slot("tank.mass"),
            slot("ascent.apogee"),
            slot("airframe.length"),
        );
        for direction in [Direction::Minimise, Direction::Maximise] {
            let measure = Measure {
                goal: mass,
                direction,
                bounds: vec![
                    Bound::new(apogee, Side::AtLeast, 1.0),
                    Bound::new(length, Side::AtMost, 9.0),
                ],
                status: (slot("status.code"), slot("status.value")),
            };
            let mut results = [0.0; RESULT_COUNT];
            (results[mass], results[apogee], results[length]) = (5.0, 2.0, 3.0);
            assert!(measure.seen(&results).meets());
            for index in [mass, apogee, length] {
                let mut broken = results;
                broken[index] = f64::NAN;
                let seen = measure.seen(&broken);
                assert!(seen.sound() && !seen.meets(), "{index}");
                assert!(index != mass || seen.cost == f64::INFINITY);
            }
        }
    }
}
