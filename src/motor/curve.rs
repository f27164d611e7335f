//! A thrust curve: ascending times, thrust linear between them.

use crate::error::{Error, Result};

/// Most points a thrust curve may have; the step grid follows every point.
pub const MAX_CURVE_POINTS: usize = 256;

/// Thrust against time as given, its impulse up to each knot, and the steps the ascent takes in each
/// interval.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Times of the knots, s, from zero.
    pub times: Vec<f64>,
    /// Thrust at the knots, N, at the basis given.
    pub forces: Vec<f64>,
    /// Impulse from the start to each knot, N s.
    pub impulses: Vec<f64>,
}

impl Curve {
    /// Checks and takes a curve. Times count from the first one.
    ///
    /// Errors: fewer than two or more than [`MAX_CURVE_POINTS`] points, times that do not ascend,
    /// a negative or non-finite number, no thrust at all.
    pub fn new(points: &[(f64, f64)]) -> Result<Self> {
        let wrong = |problem: String| Err(Error::Inconsistent(format!("motor.curve: {problem}")));
        if points.len() < 2 {
            return wrong(format!(
                "a thrust curve needs at least two points (time, thrust), this one has {}",
                points.len()
            ));
        }
        if points.len() > MAX_CURVE_POINTS {
            return wrong(format!(
                "{} points are more than {MAX_CURVE_POINTS}; thin the record to the points that \
                 shape it",
                points.len()
            ));
        }
        let in_row = |index: usize, problem: String| {
            Err(Error::InRow {
                path: "motor.curve",
                row: index + 1,
                problem,
            })
        };
        for (index, (time, force)) in points.iter().enumerate() {
            if !time.is_finite() || !force.is_finite() || *force < 0.0 {
                let problem = format!(
                    "{time} s, {force} N must be finite, with thrust not below zero; write it as 0 N or \
                     more"
                );
                return in_row(index, problem);
            }
        }
        for (index, pair) in points.windows(2).enumerate() {
            if pair[1].0 <= pair[0].0 {
                let problem = format!(
                    "times must ascend, and {} s comes after {} s; sort the curve and remove \
                     repeated times",
                    pair[1].0, pair[0].0
                );
                return in_row(index + 1, problem);
            }
        }
        let start = points[0].0;
        let times: Vec<f64> = points.iter().map(|(time, _)| time - start).collect();
        let forces: Vec<f64> = points.iter().map(|(_, force)| *force).collect();
        let mut impulses = vec![0.0];
        for k in 1..times.len() {
            let step = 0.5 * (forces[k] + forces[k - 1]) * (times[k] - times[k - 1]);
            impulses.push(impulses[k - 1] + step);
        }
        let curve = Self {
            times,
            forces,
            impulses,
        };
        if curve.impulse() > 0.0 {
            Ok(curve)
        } else {
            wrong(
                "the thrust is zero throughout; give at least one row a thrust above it".to_owned(),
            )
        }
    }

    /// Constant thrust of one newton for one second; [`super::drive()`] scales it.
    pub fn constant() -> Self {
        Self {
            times: vec![0.0, 1.0],
            forces: vec![1.0, 1.0],
            impulses: vec![0.0, 1.0],
        }
    }

    /// Time from the first to the last knot, s.
    pub fn duration(&self) -> f64 {
        self.times[self.times.len() - 1]
    }

    /// Total impulse, N s.
    pub fn impulse(&self) -> f64 {
        self.impulses[self.impulses.len() - 1]
    }

    /// Mean thrust over the duration, N.
    pub fn mean(&self) -> f64 {
        self.impulse() / self.duration()
    }

    /// Number of intervals between knots.
    pub fn intervals(&self) -> usize {
        self.times.len() - 1
    }

    /// Steps of each interval when the whole burn gets about `total` of them: in proportion to the
    /// interval, never fewer than one. They do not depend on how the curve is scaled, so every
    /// design of a study steps alike.
    pub fn steps(&self, interval: usize, total: usize) -> usize {
        let share = (self.times[interval + 1] - self.times[interval]) / self.duration();
        ((share * total as f64).ceil() as usize).max(1)
    }
}
