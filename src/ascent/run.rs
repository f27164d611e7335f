//! The run over the grid, from ignition to apogee.

use super::flight::Flight;
use super::lift_off::lift_off;
use super::monitor::Monitor;
use super::step::advance;
use crate::numerics::Real;

/// What the ascent comes to. Altitudes are above the launch site.
#[derive(Debug, Clone, Copy)]
pub struct Trajectory<R: Real> {
    /// Time at which thrust first exceeds weight, s after ignition.
    pub lift_off_time: R,
    /// Speed at the end of the rail, m/s.
    pub rail_exit_speed: R,
    /// Altitude at the end of thrust, m.
    pub burnout_altitude: R,
    /// Speed at the end of thrust, m/s.
    pub burnout_speed: R,
    /// Largest altitude, m.
    pub apogee: R,
    /// Time of apogee, s after ignition.
    pub apogee_time: R,
    /// Largest dynamic pressure, Pa.
    pub max_dynamic_pressure: R,
    /// Altitude of the largest dynamic pressure, m.
    pub max_dynamic_pressure_altitude: R,
    /// Largest Mach number.
    pub max_mach: R,
    /// Largest (thrust - drag) / mass, m/s2.
    pub max_axial_acceleration: R,
    /// Designs whose thrust never exceeds their weight.
    pub grounded: R::Mask,
    /// Designs that come to a stop before the end of thrust.
    pub stopped: R::Mask,
}

/// Flies the ascent.
pub fn fly<R: Real>(flight: &Flight<'_, R>) -> Trajectory<R> {
    let zero = R::splat(0.0);
    let (burn_steps, coast_steps) = flight.grid.steps();
    let (lift_off_time, grounded) = lift_off(flight);
    let mut stopped = zero.lt(zero);

    let mut sample = flight.sample(
        lift_off_time,
        flight.site_altitude,
        zero,
        flight.lift_off_mass,
        |_| (zero, zero),
    );
    let mut monitor = Monitor::new(&sample, flight.site_altitude + flight.rail_length);
    for interval in 0..flight.curve.intervals() {
        let knot = flight.knot_time(interval);
        let begin = (lift_off_time - knot)
            .max(zero)
            .min(flight.interval_span(interval));
        let steps = flight.curve.steps(interval, burn_steps);
        let step = (flight.interval_span(interval) - begin) / steps as f64;
        let at = |within: R, [altitude, speed]: [R; 2]| {
            flight.sample(
                knot + within,
                altitude,
                speed,
                flight.mass_at(interval, within),
                |pressure| flight.thrust(interval, within, pressure),
            )
        };
        sample = at(begin, [sample.altitude, sample.speed]);
        monitor.begin(&sample);
        for k in 0..steps {
            let within = begin + step * k as f64;
            let state = advance(
                within,
                [sample.altitude, sample.speed],
                step,
                [sample.speed, sample.acceleration],
                |within, state| {
                    let moving = at(within, state);
                    [moving.speed, moving.acceleration]
                },
            );
            let next = at(within + step, state);
            monitor.observe(&sample, &next);
            sample = next;
            stopped = stopped | sample.speed.below(-1e-6);
        }
    }

    let (burnout_altitude, burnout_speed) = (sample.altitude, sample.speed);
    let mass = flight.mass_at(
        flight.curve.intervals() - 1,
        flight.interval_span(flight.curve.intervals() - 1),
    );
    let at = |speed: R, [altitude, time]: [R; 2]| {
        flight.sample(time, altitude, speed, mass, |_| (zero, zero))
    };
    // Stopped designs coast from rest, so that their lanes stay finite.
    let start_speed = burnout_speed.max(zero);
    let step = -(start_speed / coast_steps as f64);
    sample = at(start_speed, [burnout_altitude, sample.time]);
    for k in 0..coast_steps {
        let speed = start_speed + step * k as f64;
        let state = advance(
            speed,
            [sample.altitude, sample.time],
            step,
            [
                speed / sample.acceleration,
                R::splat(1.0) / sample.acceleration,
            ],
            |speed, state| {
                let moving = at(speed, state);
                [
                    speed / moving.acceleration,
                    R::splat(1.0) / moving.acceleration,
                ]
            },
        );
        let next = at(start_speed + step * (k + 1) as f64, state);
        monitor.observe(&sample, &next);
        sample = next;
    }

    Trajectory {
        lift_off_time,
        rail_exit_speed: monitor.rail_exit_speed,
        burnout_altitude: burnout_altitude - flight.site_altitude,
        burnout_speed,
        apogee: sample.altitude - flight.site_altitude,
        apogee_time: sample.time,
        max_dynamic_pressure: monitor.max_dynamic_pressure,
        max_dynamic_pressure_altitude: monitor.max_dynamic_pressure_altitude - flight.site_altitude,
        max_mach: monitor.max_mach,
        max_axial_acceleration: monitor.max_axial,
        grounded,
        stopped,
    }
}
