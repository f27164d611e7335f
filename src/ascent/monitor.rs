//! What is watched along the way: rail exit, largest dynamic pressure, Mach number and acceleration.

use crate::numerics::{Mask, Real};

/// The flight at the end of a step.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sample<R> {
    pub time: R,
    pub altitude: R,
    pub speed: R,
    /// Change of speed with time, m/s2.
    pub acceleration: R,
    /// Acceleration a crew would feel along the axis, (thrust - drag) / mass, m/s2.
    pub axial: R,
    pub mach: R,
    /// Dynamic pressure, Pa, and its change with time.
    pub dynamic_pressure: R,
    pub pressure_rate: R,
}

/// Extremes so far.
#[derive(Debug, Clone, Copy)]
pub(super) struct Monitor<R> {
    pub rail_exit_speed: R,
    pub max_dynamic_pressure: R,
    pub max_dynamic_pressure_altitude: R,
    pub max_mach: R,
    pub max_axial: R,
    rail_end: R,
}

impl<R: Real> Monitor<R> {
    pub fn new(start: &Sample<R>, rail_end: R) -> Self {
        Self {
            rail_exit_speed: R::splat(0.0),
            max_dynamic_pressure: start.dynamic_pressure,
            max_dynamic_pressure_altitude: start.altitude,
            max_mach: start.mach,
            max_axial: start.axial,
            rail_end,
        }
    }

    /// Takes in the start of an interval, where thrust may jump.
    pub fn begin(&mut self, at: &Sample<R>) {
        self.max_axial = self.max_axial.max(at.axial);
    }

    /// Takes in one step.
    pub fn observe(&mut self, from: &Sample<R>, to: &Sample<R>) {
        self.max_mach = self.max_mach.max(to.mach);
        self.max_axial = self.max_axial.max(to.axial);
        self.pass_rail(from, to);
        self.pass_pressure_peak(from, to);
    }

    /// Speed at the end of the rail: speed squared is a cubic in altitude between the ends of the
    /// step, with slope twice the acceleration; exact while the acceleration is constant.
    fn pass_rail(&mut self, from: &Sample<R>, to: &Sample<R>) {
        let passes = from.altitude.lt(self.rail_end) & !to.altitude.lt(self.rail_end);
        if !passes.any() {
            return;
        }
        let rise = to.altitude - from.altitude;
        let x = (self.rail_end - from.altitude) / rise;
        let squared = hermite(
            x,
            from.speed.squared(),
            from.acceleration * rise * 2.0,
            to.speed.squared(),
            to.acceleration * rise * 2.0,
        );
        let speed = squared.max(R::splat(0.0)).sqrt();
        self.rail_exit_speed = speed.select(self.rail_exit_speed, passes);
    }

    /// The peak of dynamic pressure inside a step at whose ends it first rises, then falls: the top
    /// of the cubic through both values and rates.
    fn pass_pressure_peak(&mut self, from: &Sample<R>, to: &Sample<R>) {
        let larger = self.max_dynamic_pressure.lt(to.dynamic_pressure);
        self.raise(to.dynamic_pressure, to.altitude, larger);
        let peaks = from.pressure_rate.above(0.0) & to.pressure_rate.below(0.0);
        if !peaks.any() {
            return;
        }
        let span = to.time - from.time;
        let (start, end) = (from.pressure_rate * span, to.pressure_rate * span);
        // Derivative of the cubic: start + 2 b x + 3 c x^2, with its root between 0 and 1.
        let rise = to.dynamic_pressure - from.dynamic_pressure;
        let b = rise * 3.0 - start * 2.0 - end;
        let c = start + end - rise * 2.0;
        let root = (b.squared() - c * start * 3.0).max(R::splat(0.0)).sqrt();
        let x = (start / (root - b)).clamp(0.0, 1.0);
        let top = hermite(x, from.dynamic_pressure, start, to.dynamic_pressure, end);
        let altitude = hermite(
            x,
            from.altitude,
            from.speed * span,
            to.altitude,
            to.speed * span,
        );
        let higher = peaks & self.max_dynamic_pressure.lt(top);
        self.raise(top, altitude, higher);
    }

    fn raise(&mut self, pressure: R, altitude: R, where_higher: R::Mask) {
        self.max_dynamic_pressure = pressure.select(self.max_dynamic_pressure, where_higher);
        self.max_dynamic_pressure_altitude =
            altitude.select(self.max_dynamic_pressure_altitude, where_higher);
    }
}

/// Cubic through two values and two slopes, at `x` from 0 to 1.
fn hermite<R: Real>(x: R, start: R, start_slope: R, end: R, end_slope: R) -> R {
    let rise = end - start;
    let curvature = rise * 3.0 - start_slope * 2.0 - end_slope;
    let twist = start_slope + end_slope - rise * 2.0;
    start + x * (start_slope + x * (curvature + x * twist))
}
