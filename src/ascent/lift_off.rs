//! When thrust first exceeds weight.

use super::flight::Flight;
use crate::numerics::{Mask, Real, bracketed_newton};

/// Time of lift-off, s after ignition, and a mask of designs that never lift off; `pull` is gravity
/// against the direction of the rail, m/s2. Zero where the thrust exceeds the weight at once. Within an
/// interval thrust is linear and mass quadratic in time, so the balance has a smooth slope and one root.
pub(super) fn lift_off<R: Real>(flight: &Flight<'_, R>, pull: R) -> (R, R::Mask) {
    let excess = |interval: usize, within: R| {
        let (thrust, _) = flight.thrust(interval, within, flight.surface_pressure());
        thrust - flight.mass_at(interval, within) * pull
    };
    let zero = R::splat(0.0);
    let mut grounded = !excess(0, zero).above(0.0);
    let mut time = zero;
    for interval in 0..flight.curve.intervals() {
        let span = flight.interval_span(interval);
        let lifts = grounded & excess(interval, span).above(0.0);
        if !lifts.any() {
            continue;
        }
        let within = bracketed_newton(zero, span, 60, |within| {
            let step = span * 1e-6;
            let slope =
                (excess(interval, within + step) - excess(interval, within - step)) / (step * 2.0);
            (excess(interval, within), slope)
        });
        time = (flight.knot_time(interval) + within).select(time, lifts);
        grounded = grounded & !lifts;
    }
    (time, grounded)
}
