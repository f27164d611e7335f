//! What the steps of a flight may have moved its apogee by.

use super::step::passes;
use crate::numerics::Real;
use std::array::from_fn;

/// What the differences from Simpson's rule are multiplied by (own choice): on a smooth stretch the steps err
/// by a sixteenth of them, where the drag bends within a step by as much and more. A scan of vehicles against
/// an integrator from elsewhere sets it (tests/validation/oracle).
const FACTOR: f64 = 2.0;

/// How often the distance across an error of the direction counts: gravity turns on what is turned too
/// far. Own choice, by the same scan.
const TURNED: f64 = 20.0;

/// Differences of altitude, vertical speed and the rest of the state from Simpson's rule.
///
/// Two steps in a row are compared with Simpson's rule over both, which takes the slopes at their ends
/// and sees what the formula of the step cannot see of itself: that the slope bends within it. A pair that
/// passes a limit of layers of the air bends by right and has none.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drift<'l, R, const N: usize> {
    /// Altitudes at which the air has a kink, m.
    limits: &'l [f64],
    /// State and slope at the start of a pair of steps, slope at its middle.
    start: [R; N],
    first: [R; N],
    middle: [R; N],
    halfway: bool,
}

impl<'l, R: Real, const N: usize> Drift<'l, R, N> {
    /// At the start of a pair of steps of one length.
    pub fn begin(state: [R; N], slope: [R; N], limits: &'l [f64]) -> Self {
        Self {
            limits,
            start: state,
            first: slope,
            middle: slope,
            halfway: false,
        }
    }

    /// Takes in the end of a step; returns the differences at the end of the pair, zero at its middle.
    #[inline]
    pub fn step(&mut self, step: R, state: [R; N], slope: [R; N]) -> [R; N] {
        self.halfway = !self.halfway;
        if self.halfway {
            self.middle = slope;
            return [R::splat(0.0); N];
        }
        let third = step * (1.0 / 3.0);
        let apart = from_fn(|i| {
            let simpson = third * (self.first[i] + self.middle[i] * 4.0 + slope[i]);
            state[i] - self.start[i] - simpson
        });
        self.limits.iter().fold(apart, |apart: [R; N], limit| {
            let passes = passes(*limit, self.start[0], state[0]);
            apart.map(|apart| R::splat(0.0).select(apart, passes))
        })
    }
}

/// The differences of a flight so far: root of the sum of squares, so that a few steps that miss a bend count
/// and not the many smooth ones, whose errors cancel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Errors<R> {
    /// Squares of those of altitude, m2.
    altitude: R,
    /// Of vertical speed, m2/s2, and the same times the time of the step and its square.
    climb: [R; 3],
    /// Of the direction of flight, rad2.
    turn: R,
}

impl<R: Real> Errors<R> {
    pub fn none() -> Self {
        let zero = R::splat(0.0);
        Self {
            altitude: zero,
            climb: [zero; 3],
            turn: zero,
        }
    }

    /// Takes in differences of altitude and vertical speed at a time.
    #[inline]
    pub fn add(&mut self, time: R, altitude: R, climb: R) {
        self.altitude = self.altitude + altitude.squared();
        let [none, once, twice] = self.climb;
        let square = climb.squared();
        let by_time = square * time;
        self.climb = [none + square, once + by_time, twice + by_time * time];
    }

    /// Takes in one of the direction of flight.
    #[inline]
    pub fn add_turn(&mut self, angle: R) {
        self.turn = self.turn + angle.squared();
    }

    /// Estimated error of the apogee, m: an error of the speed goes on to the apogee, and drag and
    /// gravity only make less of it; an error of the direction turns the path as a whole and so lifts the
    /// apogee by its distance across.
    pub fn of_apogee(&self, time: R, downrange: R) -> R {
        let [none, once, twice] = self.climb;
        let climb = (none * time - once * 2.0) * time + twice;
        let turn = self.turn * (downrange * TURNED).squared();
        (self.altitude + climb.max(R::splat(0.0)) + turn).sqrt() * FACTOR
    }
}
