//! What the steps of a flight may have moved its apogee by.

use crate::numerics::Real;
use std::array::from_fn;

/// Share of the difference from Simpson's rule that counts as error (own choice): on a smooth stretch the
/// steps themselves err by a sixteenth of it, at a kink by up to a quarter.
const SHARE: f64 = 0.25;

/// How often the distance across an error of the direction counts: gravity turns on what is turned too
/// far. Own choice, set by slow vehicles on a fine grid (a property test).
const TURNED: f64 = 30.0;

/// Estimated errors of altitude and vertical speed, added up without regard to their signs.
///
/// Two steps in a row are compared with Simpson's rule over both, which takes the slopes at their ends
/// and sees what the formula of the step cannot see of itself: that the slope bends within it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drift<R, const N: usize> {
    /// State and slope at the start of a pair of steps, slope at its middle.
    start: [R; N],
    first: [R; N],
    middle: [R; N],
    halfway: bool,
}

impl<R: Real, const N: usize> Drift<R, N> {
    /// At the start of a row of steps of one length.
    pub fn begin(state: [R; N], slope: [R; N]) -> Self {
        Self {
            start: state,
            first: slope,
            middle: slope,
            halfway: false,
        }
    }

    /// Takes in the end of a step; returns the estimated errors of the pair that ends there, which are
    /// zero in between.
    #[inline]
    pub fn step(&mut self, step: R, state: [R; N], slope: [R; N]) -> [R; N] {
        self.halfway = !self.halfway;
        if self.halfway {
            self.middle = slope;
            return [R::splat(0.0); N];
        }
        let third = step * (1.0 / 3.0);
        let error = from_fn(|i| {
            let simpson = third * (self.first[i] + self.middle[i] * 4.0 + slope[i]);
            (state[i] - self.start[i] - simpson).abs() * SHARE
        });
        (self.start, self.first) = (state, slope);
        error
    }
}

/// The errors of a flight so far.
#[derive(Debug, Clone, Copy)]
pub(super) struct Errors<R> {
    /// Of the altitude, m.
    altitude: R,
    /// Of the vertical speed, m/s, and the same times the time of the step, m.
    climb: R,
    climb_by_time: R,
    /// Of the direction of flight, rad.
    turn: R,
}

impl<R: Real> Errors<R> {
    pub fn none() -> Self {
        let zero = R::splat(0.0);
        Self {
            altitude: zero,
            climb: zero,
            climb_by_time: zero,
            turn: zero,
        }
    }

    /// Takes in errors of altitude and vertical speed at a time.
    #[inline]
    pub fn add(&mut self, time: R, altitude: R, climb: R) {
        self.altitude = self.altitude + altitude;
        self.climb = self.climb + climb;
        self.climb_by_time = self.climb_by_time + climb * time;
    }

    /// Takes in an error of the direction of flight.
    #[inline]
    pub fn add_turn(&mut self, angle: R) {
        self.turn = self.turn + angle;
    }

    /// Estimated error of the apogee, m: an error of the speed goes on to the apogee, and drag and
    /// gravity only make less of it; an error of the direction turns the path as a whole and so lifts the
    /// apogee by its distance across.
    pub fn of_apogee(&self, time: R, downrange: R) -> R {
        self.altitude + self.climb * time - self.climb_by_time + self.turn * downrange * TURNED
    }
}
