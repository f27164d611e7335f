//! Along an inclined rail.

use super::cubic::reach;
use super::flight::{Flight, Motion, Thrust};
use super::monitor::{Monitor, Sample};
use super::record::{Record, Spot};
use super::step::advance;
use crate::numerics::{Mask, Real};

/// Shortest rail that the equations take, m: without one the direction at rest is undefined.
const SHORTEST: f64 = 1e-6;

/// How a design leaves the rail, or where on it the thrust ends.
pub(super) struct Exit<R: Real> {
    pub time: R,
    /// Distance along the rail, m.
    pub distance: R,
    pub speed: R,
    pub held: R::Mask,
    pub stopped: R::Mask,
    pub sample: Sample<R>,
}

/// Rides the rail from lift-off at rest (`start`) to its end.
///
/// The direction is fixed: `v' = (T - D) / m - g sin(elevation)`; no friction. The steps are those
/// of the burn, so that none straddles a thrust knot. In the step in which a design reaches the end
/// of the rail, the step is shortened until it ends there: first by the cubic through its ends, then
/// by Newton steps on the step length, `(L - s) / v`.
pub(super) fn ride<R: Real>(
    flight: &Flight<'_, R>,
    steps: usize,
    start: &Sample<R>,
    monitor: &mut Monitor<R>,
    record: &mut impl Record<R>,
) -> Exit<R> {
    let zero = R::splat(0.0);
    let length = flight.rail_length.max(R::splat(SHORTEST));
    let incline = flight.elevation.sin();
    let along = flight.elevation.cos();
    let last = flight.curve.intervals();

    let mut stopped = zero.lt(zero);
    let mut riding = !stopped;
    let mut time = flight.drive.burn_time;
    let mut sample = *start;
    let mut state = [zero, zero];
    for interval in 0..last {
        if !riding.any() {
            break;
        }
        let number = R::splat(interval as f64);
        let leg = flight.leg(number);
        let begin = (start.time - leg.time).max(zero).min(leg.span);
        let count = flight.curve.steps(interval, steps);
        let step = (leg.span - begin) / count as f64;
        let at = |within: R, [distance, speed]: [R; 2]| {
            let altitude = flight.site_altitude + distance * incline;
            let motion = Motion {
                time: leg.time + within,
                altitude,
                speed,
                climb: speed * incline,
                pull: flight.gravity(altitude) * incline,
                mass: leg.mass(within),
            };
            flight.sample(motion, Thrust::Of(&leg, within))
        };
        let slope = |within: R, [distance, speed]: [R; 2]| {
            let altitude = flight.site_altitude + distance * incline;
            let air = flight.stream_at(altitude);
            let push = flight.push(&air, speed, leg.mass(within), Thrust::Of(&leg, within));
            [speed, push.axial - flight.gravity(altitude) * incline]
        };
        sample = at(begin, state).select(&sample, riding);
        monitor.begin(&sample);
        let ground = state[0] * along;
        record.begin(&sample, Spot::guided(number, begin, step, ground));
        for k in 0..count {
            let within = begin + step * k as f64;
            let travel = |step: R| {
                let first = [sample.speed, sample.acceleration];
                advance(within, state, step, first, slope)
            };
            let [mut distance, mut speed] = travel(step);
            let mut taken = step;
            let leaves = riding & !distance.lt(length);
            if leaves.any() {
                let share = reach(length, state[0], state[1] * step, distance, speed * step);
                let mut part = step * share;
                for _ in 0..2 {
                    let [reached, passing] = travel(part);
                    part = part + (length - reached) / passing;
                }
                let [_, passing] = travel(part);
                distance = length.select(distance, leaves);
                speed = passing.select(speed, leaves);
                taken = part.select(step, leaves);
                time = (leg.time + within + part).select(time, leaves);
            }
            stopped = stopped | (riding & speed.below(-1e-6));
            // Whoever slides back rests on the rail's stop, so that its lane stays finite.
            state = [
                distance.max(zero).select(state[0], riding),
                speed.max(zero).select(state[1], riding),
            ];
            let next = at(within + taken, state).select(&sample, riding);
            monitor.observe(&sample, &next);
            let ground = state[0] * along;
            record.step(&next, Spot::guided(number, within + taken, step, ground));
            sample = next;
            riding = riding & !leaves;
        }
    }
    Exit {
        time,
        distance: state[0],
        speed: state[1],
        held: riding,
        stopped,
        sample,
    }
}
