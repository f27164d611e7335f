//! The vertical climb over the grid, from ignition to apogee.

use super::cubic::{hermite, reach};
use super::drift::{Drift, Errors};
use super::flight::{Flight, Motion, Steps, Thrust};
use super::intervals::Intervals;
use super::leg::Leg;
use super::lift_off::lift_off;
use super::monitor::{Monitor, Sample};
use super::pacing::{Pacing, Spread};
use super::record::{Record, Spot};
use super::step::advance_through;
use super::trajectory::Trajectory;
use crate::numerics::{Mask, Real};

/// Straight up: the state is altitude and speed in the burn, altitude and time in the coast.
pub(super) fn fly_vertical<R: Real>(
    flight: &Flight<'_, R>,
    steps: Steps,
    record: &mut impl Record<R>,
) -> Trajectory<R> {
    let zero = R::splat(0.0);
    let (lift_off_time, grounded) = lift_off(flight, flight.gravity(flight.site_altitude));
    let start = upward(
        flight,
        lift_off_time,
        flight.site_altitude,
        zero,
        flight.lift_off_mass,
    );
    let start = flight.sample(start, Thrust::None);
    let mut watched = Watched {
        monitor: Monitor::new(&start),
        errors: Errors::none(),
        rail: RailEnd {
            altitude: flight.site_altitude + flight.rail_length,
            time: lift_off_time,
            speed: zero,
        },
    };
    let (burnout, stopped) = burn(flight, steps, &start, &mut watched, record);
    let top = coast(flight, steps.coast, &burnout, &mut watched, record);

    Trajectory {
        lift_off_time,
        rail_exit_speed: watched.rail.speed,
        rail_exit_time: watched.rail.time,
        burnout_altitude: burnout.altitude - flight.site_altitude,
        burnout_speed: burnout.speed,
        apogee: top.altitude - flight.site_altitude,
        apogee_time: top.time,
        apogee_error: watched.errors.of_apogee(top.time, zero),
        grid_doublings: zero,
        apogee_speed: zero,
        downrange: zero,
        max_dynamic_pressure: watched.monitor.dynamic_pressure,
        max_dynamic_pressure_altitude: watched.monitor.peak_altitude - flight.site_altitude,
        max_mach: watched.monitor.mach,
        max_axial_acceleration: watched.monitor.axial,
        max_compression: watched.monitor.compression,
        grounded,
        held: burnout.altitude.lt(watched.rail.altitude),
        lost: !burnout
            .speed
            .squared()
            .lt(flight.circular_speed_squared(burnout.altitude) * 2.0),
        stopped,
    }
}

/// From lift-off to the end of thrust, against time; and which designs stop climbing on the way. Every design
/// goes through the intervals of the thrust curve at its own pace.
fn burn<R: Real>(
    flight: &Flight<'_, R>,
    steps: Steps,
    start: &Sample<R>,
    watched: &mut Watched<R>,
    record: &mut impl Record<R>,
) -> (Sample<R>, R::Mask) {
    let zero = R::splat(0.0);
    let limits = flight.air_limits();
    let per_sound_speed = flight.stream_at(flight.site_altitude).per_sound_speed;
    let longest = flight.drive.burn_time / steps.burn as f64;
    let way = |leg: &Leg<R>| {
        let begin = (start.time - leg.time).max(zero).min(leg.span);
        Pacing::new([begin, leg.span], longest, flight.drag.steep(), steps.mach)
    };
    let at = |leg: &Leg<R>, within: R, [altitude, speed]: [R; 2]| {
        let mass = leg.mass(within);
        let motion = upward(flight, leg.time + within, altitude, speed, mass);
        flight.sample(motion, Thrust::Of(leg, within))
    };
    let mut interval = Intervals::first(flight.curve);
    let mut leg = flight.leg(interval.number);
    let mut pacing = way(&leg);
    while let Some(enters) = interval.enter(pacing.through()) {
        leg = flight.leg(interval.number);
        pacing = way(&leg).entered(&pacing, enters);
    }
    let mut sample = at(&leg, pacing.place, [start.altitude, start.speed]);
    let mut stopped = zero.lt(zero);
    watched.monitor.begin(&sample);
    let spot = Spot::burning(interval.number, pacing.place, longest, zero);
    record.begin(&sample, spot);
    loop {
        let fastest = leg.fastest(pacing.place, sample.acceleration);
        let Some(pair) = pacing.pair(sample.mach, fastest * per_sound_speed) else {
            break;
        };
        let step = pair.step;
        let slope = |within: R, [altitude, speed]: [R; 2]| {
            let air = flight.stream_at(altitude);
            let push = flight.push(&air, speed, leg.mass(within), Thrust::Of(&leg, within));
            [speed, push.axial - flight.gravity(altitude)]
        };
        let mut drift = Drift::begin(
            [sample.altitude, sample.speed],
            [sample.speed, sample.acceleration],
            limits,
        );
        for (k, goes) in pair.goes.into_iter().enumerate() {
            // Whoever is through, or no longer climbs, waits where it is.
            let goes = goes & !stopped;
            if !goes.any() {
                break;
            }
            let within = pair.place + step * k as f64;
            let moved = advance_through(
                limits,
                within,
                [sample.altitude, sample.speed],
                step,
                [sample.speed, sample.acceleration],
                slope,
            );
            let next = at(&leg, within + step, moved).select(&sample, goes);
            let state = [next.altitude, next.speed];
            let rates = [next.speed, next.acceleration];
            let apart = drift.step(step, state, rates);
            let [altitude, climb] = apart.map(|apart| apart.select(zero, goes));
            watched.errors.add(next.time, altitude, climb);
            watched.observe(&sample, &next);
            let spot = Spot::burning(interval.number, within + step, step, zero);
            record.step(&next, spot);
            sample = next;
            stopped = stopped | sample.speed.below(-1e-6);
        }
        while let Some(enters) = interval.enter(pacing.through()) {
            leg = flight.leg(interval.number);
            pacing = way(&leg).entered(&pacing, enters);
        }
    }
    (sample, stopped)
}

/// From burnout to apogee, against speed.
fn coast<R: Real>(
    flight: &Flight<'_, R>,
    steps: usize,
    burnout: &Sample<R>,
    watched: &mut Watched<R>,
    record: &mut impl Record<R>,
) -> Sample<R> {
    let zero = R::splat(0.0);
    let limits = flight.air_limits();
    let mass = flight.burnout_mass();
    let at = |speed: R, [altitude, time]: [R; 2]| {
        flight.sample(upward(flight, time, altitude, speed, mass), Thrust::None)
    };
    let slope = |speed: R, [altitude, _]: [R; 2]| {
        let air = flight.stream_at(altitude);
        let push = flight.push(&air, speed, mass, Thrust::None);
        let pace = R::splat(1.0) / (push.axial - flight.gravity(altitude));
        [speed * pace, pace]
    };
    // Stopped designs coast from rest, so that their lanes stay finite.
    let start_speed = burnout.speed.max(zero);
    let per_sound_speed = flight.stream_at(burnout.altitude).per_sound_speed;
    let steep = flight.drag.steep();
    let steep = steep.map(|mach| R::splat(mach) / per_sound_speed);
    let spread = Spread::new(start_speed, steps, steep);
    let mut sample = at(start_speed, [burnout.altitude, burnout.time]);
    watched.monitor.begin(&sample);
    record.begin(&sample, Spot::coasting(zero));
    for k in (0..steps / 2).rev() {
        let speed = sample.speed;
        let step = (spread.speed(k) - speed) * 0.5;
        let pace = R::splat(1.0) / sample.acceleration;
        let mut drift = Drift::begin([sample.altitude, sample.time], [speed * pace, pace], limits);
        for _ in 0..2 {
            let from = sample.speed;
            let pace = R::splat(1.0) / sample.acceleration;
            let state = advance_through(
                limits,
                from,
                [sample.altitude, sample.time],
                step,
                [from * pace, pace],
                slope,
            );
            let next = at(from + step, state);
            let pace = R::splat(1.0) / next.acceleration;
            let [altitude, _] = drift.step(step, state, [next.speed * pace, pace]);
            watched.errors.add(zero, altitude, zero);
            watched.observe(&sample, &next);
            record.step(&next, Spot::coasting(zero));
            sample = next;
        }
    }
    sample
}

fn upward<R: Real>(flight: &Flight<'_, R>, time: R, altitude: R, speed: R, mass: R) -> Motion<R> {
    Motion {
        time,
        altitude,
        speed,
        climb: speed,
        pull: flight.gravity(altitude),
        mass,
    }
}

/// What is watched on the way.
struct Watched<R> {
    monitor: Monitor<R>,
    errors: Errors<R>,
    rail: RailEnd<R>,
}

impl<R: Real> Watched<R> {
    fn observe(&mut self, from: &Sample<R>, to: &Sample<R>) {
        self.monitor.observe(from, to);
        self.rail.pass(from, to);
    }
}

/// Watches for the end of the rail.
struct RailEnd<R> {
    altitude: R,
    time: R,
    speed: R,
}

impl<R: Real> RailEnd<R> {
    /// Altitude and speed are cubics in time between the ends of the step, with the slopes there; both are
    /// exact while the acceleration changes evenly.
    fn pass(&mut self, from: &Sample<R>, to: &Sample<R>) {
        let passes = from.altitude.lt(self.altitude) & !to.altitude.lt(self.altitude);
        if !passes.any() {
            return;
        }
        let span = to.time - from.time;
        let part = reach(
            self.altitude,
            from.altitude,
            from.speed * span,
            to.altitude,
            to.speed * span,
        );
        let speed = hermite(
            part,
            from.speed,
            from.acceleration * span,
            to.speed,
            to.acceleration * span,
        );
        self.time = (from.time + span * part).select(self.time, passes);
        self.speed = speed.select(self.speed, passes);
    }
}
