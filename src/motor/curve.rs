//! A thrust curve: ascending times, thrust linear between them.

use crate::error::{Error, Result};

/// Most points a thrust curve may have; the step grid follows every point.
pub const MAX_CURVE_POINTS: usize = 256;

/// Shares of the mean thrust at which the flight's thrust has a kink: below the first the pressure term
/// fades, so that it ends with the flow (own choice), and above the second thrust counts as full.
pub(crate) const KINKS: [f64; 2] = [0.1, 1.0];

/// Thrust against time as given, and the intervals in which the ascent steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Times of the points given, s, from zero.
    pub times: Vec<f64>,
    /// Thrust there, N, at the basis given.
    pub forces: Vec<f64>,
    knots: Vec<Knot>,
}

/// Where a step of the ascent must end: at every point given, and where thrust has a kink between two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Knot {
    /// Time, s.
    pub time: f64,
    /// Thrust, N.
    pub force: f64,
    /// Impulse from the start, N s.
    pub impulse: f64,
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
        if forces.iter().all(|force| *force == 0.0) {
            return wrong(
                "the thrust is zero throughout; give at least one row a thrust above it".to_owned(),
            );
        }
        let knots = knots(&times, &forces);
        Ok(Self {
            times,
            forces,
            knots,
        })
    }

    /// Constant thrust of one newton for one second; [`super::drive()`] scales it.
    pub fn constant() -> Self {
        let (times, forces) = (vec![0.0, 1.0], vec![1.0, 1.0]);
        let knots = knots(&times, &forces);
        Self {
            times,
            forces,
            knots,
        }
    }

    /// Both ends of an interval in which the ascent steps.
    pub(crate) fn interval(&self, interval: usize) -> [Knot; 2] {
        [self.knots[interval], self.knots[interval + 1]]
    }

    /// Time from the first to the last knot, s.
    pub fn duration(&self) -> f64 {
        self.times[self.times.len() - 1]
    }

    /// Total impulse, N s.
    pub fn impulse(&self) -> f64 {
        self.knots[self.knots.len() - 1].impulse
    }

    /// Mean thrust over the duration, N.
    pub fn mean(&self) -> f64 {
        self.impulse() / self.duration()
    }

    /// Number of intervals in which the ascent steps: those between the points given, divided where
    /// thrust passes its mean or a tenth of it.
    pub fn intervals(&self) -> usize {
        self.knots.len() - 1
    }

    /// Steps of each interval on a rail, when the whole burn gets about `total` of them: in proportion to the
    /// interval and even in number, never fewer than two, but for an interval of less than a third of a
    /// step, which takes one. They do not depend on how the curve is scaled, so every design of a study
    /// steps alike.
    pub fn steps(&self, interval: usize, total: usize) -> usize {
        let [start, end] = self.interval(interval);
        let share = (end.time - start.time) / self.duration();
        let wanted = share * total as f64;
        if wanted < SHORT {
            return 1;
        }
        2 * ((wanted * 0.5).ceil() as usize)
    }
}

/// The points given and those between them at which thrust has a kink.
fn knots(times: &[f64], forces: &[f64]) -> Vec<Knot> {
    let points = |k: usize| (times[k], forces[k]);
    let pairs = || (1..times.len()).map(|k| (points(k - 1), points(k)));
    let area = |(start, end): ((f64, f64), (f64, f64))| 0.5 * (start.1 + end.1) * (end.0 - start.0);
    let mean = pairs().map(area).sum::<f64>() / times[times.len() - 1];
    let mut knots = vec![Knot {
        time: times[0],
        force: forces[0],
        impulse: 0.0,
    }];
    for (start, end) in pairs() {
        let rise = end.1 - start.1;
        let mut places: Vec<(f64, f64)> = KINKS
            .into_iter()
            .map(|share| (share * mean - start.1) / rise)
            .filter(|place| (NEAR..1.0 - NEAR).contains(place))
            .map(|place| (start.0 + place * (end.0 - start.0), start.1 + place * rise))
            .collect();
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (time, force) in places.into_iter().chain([end]) {
            let last = knots[knots.len() - 1];
            let impulse = last.impulse + area(((last.time, last.force), (time, force)));
            knots.push(Knot {
                time,
                force,
                impulse,
            });
        }
    }
    knots
}

/// Share of a step that an interval may have and still take only one (own choice): its error is far
/// below that of a full step and needs no watching.
const SHORT: f64 = 1.0 / 3.0;

/// Share of an interval within which a kink counts as lying on its end.
const NEAR: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn intervals_end_where_thrust_passes_its_mean_and_a_tenth_of_it() {
        let curve = Curve::new(&[(1.0, 0.0), (3.0, 4.0), (5.0, 0.0)]).expect("a curve");
        let knots: Vec<(f64, f64, f64)> = (0..curve.intervals())
            .map(|k| curve.interval(k)[1])
            .map(|knot| (knot.time, knot.force, knot.impulse))
            .collect();
        let by_hand = [
            (0.1, 0.2, 0.01),
            (1.0, 2.0, 1.0),
            (2.0, 4.0, 4.0),
            (3.0, 2.0, 7.0),
            (3.9, 0.2, 7.99),
            (4.0, 0.0, 8.0),
        ];
        for (knot, by_hand) in knots.iter().zip(by_hand) {
            approx::assert_relative_eq!(knot.0, by_hand.0, epsilon = 1e-14);
            approx::assert_relative_eq!(knot.1, by_hand.1, epsilon = 1e-14);
            approx::assert_relative_eq!(knot.2, by_hand.2, epsilon = 1e-14);
        }
        assert_eq!(knots.len(), by_hand.len());
        assert_eq!((curve.times.len(), curve.mean()), (3, 2.0));
        assert_eq!(Curve::constant().intervals(), 1);
    }
}
