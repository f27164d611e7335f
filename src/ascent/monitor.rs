//! What is watched along the way: largest dynamic pressure, Mach number, acceleration and axial force.

use super::cubic::{hermite, top};
use crate::numerics::{Mask, Real};

/// The flight at the end of a step.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sample<R> {
    pub time: R,
    pub altitude: R,
    pub speed: R,
    /// Change of altitude with time, m/s.
    pub climb: R,
    /// Change of speed with time, m/s2.
    pub acceleration: R,
    /// Acceleration a crew would feel along the axis, (thrust - drag) / mass, m/s2.
    pub axial: R,
    /// Axial compressive force at the section that is watched, N.
    pub compression: R,
    pub mach: R,
    /// Dynamic pressure, Pa, and its change with time.
    pub dynamic_pressure: R,
    pub pressure_rate: R,
}

impl<R: Real> Sample<R> {
    /// `self` where the mask is true, `other` elsewhere.
    pub fn select(&self, other: &Self, mask: R::Mask) -> Self {
        Self {
            time: self.time.select(other.time, mask),
            altitude: self.altitude.select(other.altitude, mask),
            speed: self.speed.select(other.speed, mask),
            climb: self.climb.select(other.climb, mask),
            acceleration: self.acceleration.select(other.acceleration, mask),
            axial: self.axial.select(other.axial, mask),
            compression: self.compression.select(other.compression, mask),
            mach: self.mach.select(other.mach, mask),
            dynamic_pressure: self.dynamic_pressure.select(other.dynamic_pressure, mask),
            pressure_rate: self.pressure_rate.select(other.pressure_rate, mask),
        }
    }
}

/// Largest values so far.
#[derive(Debug, Clone, Copy)]
pub(super) struct Monitor<R> {
    pub dynamic_pressure: R,
    pub peak_altitude: R,
    pub mach: R,
    pub axial: R,
    pub compression: R,
}

impl<R: Real> Monitor<R> {
    pub fn new(start: &Sample<R>) -> Self {
        Self {
            dynamic_pressure: start.dynamic_pressure,
            peak_altitude: start.altitude,
            mach: start.mach,
            axial: start.axial,
            compression: start.compression,
        }
    }

    /// Takes in the start of an interval or of the coast, where thrust may jump.
    pub fn begin(&mut self, at: &Sample<R>) {
        self.axial = self.axial.max(at.axial);
        self.compression = self.compression.max(at.compression);
    }

    /// Takes in one step.
    pub fn observe(&mut self, from: &Sample<R>, to: &Sample<R>) {
        self.pass_mach_peak(from, to);
        self.begin(to);
        self.pass_pressure_peak(from, to);
    }

    /// The same for the Mach number, whose rate takes the change of the speed of sound from both ends. At
    /// rest there is no rate, and no peak.
    fn pass_mach_peak(&mut self, from: &Sample<R>, to: &Sample<R>) {
        self.mach = self.mach.max(to.mach);
        let span = to.time - from.time;
        let [start, end] = [from, to].map(|at| at.mach / at.speed);
        let rise = |at: &Sample<R>, per_sound_speed: R| {
            at.acceleration * per_sound_speed * span + at.speed * (end - start)
        };
        let (start, end) = (rise(from, start), rise(to, end));
        let peaks = start.above(0.0) & end.below(0.0);
        if !peaks.any() {
            return;
        }
        let x = top(from.mach, start, to.mach, end);
        let mach = hermite(x, from.mach, start, to.mach, end);
        self.mach = self.mach.max(mach).select(self.mach, peaks);
    }

    /// The peak of dynamic pressure inside a step at whose ends it first rises, then falls: the top
    /// of the cubic through both values and rates.
    fn pass_pressure_peak(&mut self, from: &Sample<R>, to: &Sample<R>) {
        let larger = self.dynamic_pressure.lt(to.dynamic_pressure);
        self.raise(to.dynamic_pressure, to.altitude, larger);
        let peaks = from.pressure_rate.above(0.0) & to.pressure_rate.below(0.0);
        if !peaks.any() {
            return;
        }
        let span = to.time - from.time;
        let (start, end) = (from.pressure_rate * span, to.pressure_rate * span);
        let x = top(from.dynamic_pressure, start, to.dynamic_pressure, end);
        let highest = hermite(x, from.dynamic_pressure, start, to.dynamic_pressure, end);
        let altitude = hermite(
            x,
            from.altitude,
            from.climb * span,
            to.altitude,
            to.climb * span,
        );
        let higher = peaks & self.dynamic_pressure.lt(highest);
        self.raise(highest, altitude, higher);
    }

    fn raise(&mut self, pressure: R, altitude: R, where_higher: R::Mask) {
        self.dynamic_pressure = pressure.select(self.dynamic_pressure, where_higher);
        self.peak_altitude = altitude.select(self.peak_altitude, where_higher);
    }
}
