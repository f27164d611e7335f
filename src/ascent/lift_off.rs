//! When thrust first exceeds weight.

use super::flight::Flight;
use crate::numerics::{Mask, Real};

/// Time of lift-off, s after ignition, and a mask of designs that never lift off; `pull` is gravity
/// against the direction of the rail, m/s2. Zero where the thrust exceeds the weight at once; closed
/// form elsewhere.
pub(super) fn lift_off<R: Real>(flight: &Flight<'_, R>, pull: R) -> (R, R::Mask) {
    let pressure = flight.surface_pressure();
    let mut time = R::splat(0.0);
    let first = flight.leg(R::splat(0.0));
    let (thrust, _) = first.thrust(time, pressure);
    let mut grounded = !(flight.lift_off_mass * pull).lt(thrust);
    for interval in 0..flight.curve.intervals() {
        if !grounded.any() {
            break;
        }
        let leg = flight.leg(R::splat(interval as f64));
        let (thrust, _) = leg.thrust(leg.span, pressure);
        let lifts = grounded & (leg.mass(leg.span) * pull).lt(thrust);
        if lifts.any() {
            time = (leg.time + leg.balance(pressure, pull)).select(time, lifts);
            grounded = grounded & !lifts;
        }
    }
    (time, grounded)
}
