//! The climb from an inclined rail, turned by gravity, from ignition to apogee.

use super::drift::{Drift, Errors};
use super::flight::{Flight, Motion, Steps, Thrust};
use super::grading::Grading;
use super::intervals::Intervals;
use super::leg::Leg;
use super::lift_off::lift_off;
use super::monitor::{Monitor, Sample};
use super::pacing::{Pacing, Spread};
use super::rail::{Exit, ride};
use super::record::{Record, Spot};
use super::step::advance_through;
use super::trajectory::Trajectory;
use crate::numerics::{Mask, Real};

/// Speed below which the direction of flight is not told, m/s. Only held or stopped designs, which
/// have no result, come near it.
const STILL: f64 = 1e-9;

/// One instant of the free flight, with the rates of its state.
struct Free<R> {
    sample: Sample<R>,
    /// Rate of the vertical and of the horizontal speed, m/s2.
    vertical_rate: R,
    horizontal_rate: R,
    /// Rate of the distance along the ground, m/s.
    ground_rate: R,
}

/// Polar coordinates over a sphere of radius `R`, at `r = R + h`, zero lift, thrust along the
/// velocity: with vertical speed `u`, horizontal speed `w` and `a = (T - D) / m`,
/// `u' = w^2 / r - g + a u / v`, `w' = -u w / r + a w / v`, `h' = u`, and along the ground at the
/// site's level `x' = w (R + h_site) / r`.
#[inline(always)]
fn free<R: Real>(
    flight: &Flight<'_, R>,
    time: R,
    mass: R,
    [altitude, vertical, horizontal]: [R; 3],
    thrust: Thrust<'_, R>,
) -> Free<R> {
    let radius = flight.planet_radius() + altitude;
    let gravity = flight.gravity(altitude);
    let speed = (vertical.squared() + horizontal.squared()).sqrt();
    let pace = R::splat(1.0) / speed.max(R::splat(STILL));
    let (up, along) = (vertical * pace, horizontal * pace);
    let motion = Motion {
        time,
        altitude,
        speed,
        climb: vertical,
        pull: gravity * up,
        mass,
    };
    let sample = flight.sample(motion, thrust);
    let turn = horizontal / radius;
    Free {
        vertical_rate: turn * horizontal - gravity + sample.axial * up,
        horizontal_rate: sample.axial * along - turn * vertical,
        ground_rate: turn * (flight.planet_radius() + flight.site_altitude),
        sample,
    }
}

impl<R: Real> Free<R> {
    /// Rates of altitude, vertical and horizontal speed and distance along the ground.
    fn rates(&self) -> [R; 4] {
        [
            self.sample.climb,
            self.vertical_rate,
            self.horizontal_rate,
            self.ground_rate,
        ]
    }
}

/// In the burn, at a time after ignition. Compiled into each place that calls it, so that a slope leaves out
/// what only the end of a step asks for.
#[inline(always)]
fn burning<R: Real>(
    flight: &Flight<'_, R>,
    leg: &Leg<R>,
    time: R,
    [altitude, vertical, horizontal, _]: [R; 4],
) -> Free<R> {
    let within = time - leg.time;
    let place = [altitude, vertical, horizontal];
    free(
        flight,
        time,
        leg.mass(within),
        place,
        Thrust::Of(leg, within),
    )
}

/// In the coast, at a vertical speed.
#[inline(always)]
fn coasting<R: Real>(
    flight: &Flight<'_, R>,
    mass: R,
    vertical: R,
    [altitude, horizontal, _, time]: [R; 4],
) -> Free<R> {
    let place = [altitude, vertical, horizontal];
    free(flight, time, mass, place, Thrust::None)
}

/// On the rail, then free in burn and coast.
pub(super) fn fly_inclined<R: Real>(
    flight: &Flight<'_, R>,
    steps: Steps,
    record: &mut impl Record<R>,
) -> Trajectory<R> {
    let zero = R::splat(0.0);
    let incline = flight.elevation.sin();
    let pull = flight.gravity(flight.site_altitude) * incline;
    let (lift_off_time, grounded) = lift_off(flight, pull);
    let start = Motion {
        time: lift_off_time,
        altitude: flight.site_altitude,
        speed: zero,
        climb: zero,
        pull,
        mass: flight.lift_off_mass,
    };
    let start = flight.sample(start, Thrust::None);
    let mut monitor = Monitor::new(&start);
    let mut errors = Errors::none();
    let exit = ride(flight, steps.burn, &start, &mut monitor, record);

    let burnout = burn(flight, steps, &exit, &mut monitor, &mut errors, record);
    let [altitude, horizontal, ground, time] = coast(
        flight,
        steps.coast,
        &burnout,
        &mut monitor,
        &mut errors,
        record,
    );

    Trajectory {
        lift_off_time,
        rail_exit_speed: zero.select(exit.speed, exit.held),
        rail_exit_time: exit.time,
        burnout_altitude: burnout.sample.altitude - flight.site_altitude,
        burnout_speed: burnout.sample.speed,
        apogee: altitude - flight.site_altitude,
        apogee_time: time,
        apogee_error: errors.of_apogee(time, ground),
        grid_doublings: zero,
        apogee_speed: horizontal,
        downrange: ground,
        max_dynamic_pressure: monitor.dynamic_pressure,
        max_dynamic_pressure_altitude: monitor.peak_altitude - flight.site_altitude,
        max_mach: monitor.mach,
        max_axial_acceleration: monitor.axial,
        max_compression: monitor.compression,
        grounded,
        held: exit.held,
        lost: !burnout
            .sample
            .speed
            .squared()
            .lt(flight.circular_speed_squared(burnout.sample.altitude)),
        stopped: burnout.stopped,
    }
}

/// Where thrust ends: altitude, vertical and horizontal speed, distance along the ground.
struct Burnout<R: Real> {
    state: [R; 4],
    sample: Sample<R>,
    stopped: R::Mask,
}

/// Free flight from the rail to the end of thrust.
fn burn<R: Real>(
    flight: &Flight<'_, R>,
    steps: Steps,
    exit: &Exit<R>,
    monitor: &mut Monitor<R>,
    errors: &mut Errors<R>,
    record: &mut impl Record<R>,
) -> Burnout<R> {
    let zero = R::splat(0.0);
    let incline = flight.elevation.sin();
    let mut stopped = exit.stopped;
    let mut sample = exit.sample;
    let mut state = [
        flight.site_altitude + exit.distance * incline,
        exit.speed * incline,
        exit.speed * flight.elevation.cos(),
        exit.distance * flight.elevation.cos(),
    ];
    let rest = Grading::rest(exit, flight.drive.burn_time);
    let limits = flight.air_limits();
    let per_sound_speed = flight.stream_at(flight.site_altitude).per_sound_speed;
    let longest = flight.drive.burn_time / steps.burn as f64;
    let way = |leg: &Leg<R>| {
        let begin = (exit.time - leg.time).max(zero).min(leg.span);
        let grading = Grading::new(rest, leg, begin, longest, flight.drive.burn_time);
        let steep = flight.drag.steep();
        let pacing = Pacing::new(grading.ends, grading.longest, steep, steps.mach);
        (grading, pacing)
    };
    let mut interval = Intervals::first(flight.curve);
    let mut leg = flight.leg(interval.number);
    let (mut grading, mut pacing) = way(&leg);
    while let Some(enters) = interval.enter(pacing.through()) {
        let before = pacing;
        leg = flight.leg(interval.number);
        (grading, pacing) = way(&leg);
        pacing = pacing.entered(&before, enters);
    }
    let (time, _) = grading.time(pacing.place);
    let entry = burning(flight, &leg, time, state);
    let mut flying = !exit.held & !stopped;
    sample = entry.sample.select(&sample, flying);
    let mut rates = entry.rates();
    monitor.begin(&sample);
    let spot = Spot::burning(interval.number, time - leg.time, longest, state[3]);
    record.begin(&sample, spot);
    loop {
        let (time, pace) = grading.time(pacing.place);
        let fastest = leg.fastest(time - leg.time, sample.acceleration);
        let Some(pair) = pacing.pair(sample.mach, fastest * per_sound_speed * pace) else {
            break;
        };
        let step = pair.step;
        let slope = |place: R, state: [R; 4]| {
            let (time, pace) = grading.time(place);
            burning(flight, &leg, time, state)
                .rates()
                .map(|rate| rate * pace)
        };
        let mut first = rates.map(|rate| rate * pace);
        let mut drift = Drift::begin(state, first, limits);
        for (k, goes) in pair.goes.into_iter().enumerate() {
            // Whoever is through, or no longer climbs, waits where it is.
            let goes = goes & flying;
            if !goes.any() {
                break;
            }
            let place = pair.place + step * k as f64;
            let moved = advance_through(limits, place, state, step, first, slope);
            state = std::array::from_fn(|i| moved[i].select(state[i], goes));
            let (time, pace) = grading.time(place + step);
            let end = burning(flight, &leg, time, state);
            let reached = end.rates();
            rates = std::array::from_fn(|i| reached[i].select(rates[i], goes));
            first = rates.map(|rate| rate * pace);
            let [altitude, climb, across, _] = drift.step(step, state, first);
            let angle = across / end.sample.speed.max(R::splat(STILL));
            let [time, altitude, climb, angle] =
                [end.sample.time, altitude, climb, angle].map(|seen| seen.select(zero, goes));
            errors.add(time, altitude, climb);
            errors.add_turn(angle);
            let next = end.sample.select(&sample, goes);
            monitor.observe(&sample, &next);
            let spot = Spot::burning(interval.number, next.time - leg.time, step, state[3]);
            record.step(&next, spot);
            sample = next;
            stopped = stopped | (goes & state[1].below(-1e-6));
            flying = flying & !stopped;
        }
        while let Some(enters) = interval.enter(pacing.through()) {
            let before = pacing;
            leg = flight.leg(interval.number);
            (grading, pacing) = way(&leg);
            pacing = pacing.entered(&before, enters);
        }
    }
    Burnout {
        state,
        sample,
        stopped,
    }
}

/// From burnout to apogee against vertical speed, so that the apogee is the end of the grid: altitude,
/// horizontal speed, distance along the ground and time.
fn coast<R: Real>(
    flight: &Flight<'_, R>,
    steps: usize,
    burnout: &Burnout<R>,
    monitor: &mut Monitor<R>,
    errors: &mut Errors<R>,
    record: &mut impl Record<R>,
) -> [R; 4] {
    let zero = R::splat(0.0);
    let limits = flight.air_limits();
    let mass = flight.burnout_mass();
    let [altitude, vertical, horizontal, ground] = burnout.state;
    let top_speed = vertical.max(zero);
    let per_sound_speed = flight.stream_at(altitude).per_sound_speed;
    let steep = flight.drag.steep().map(|mach| {
        let speed = R::splat(mach) / per_sound_speed;
        (speed.squared() - horizontal.squared()).max(zero).sqrt()
    });
    let spread = Spread::new(top_speed, steps, steep);
    let mut state = [altitude, horizontal, ground, burnout.sample.time];
    let slope = |vertical: R, now: &Free<R>| {
        let pace = R::splat(1.0) / now.vertical_rate;
        [
            vertical * pace,
            now.horizontal_rate * pace,
            now.ground_rate * pace,
            pace,
        ]
    };
    let mut now = coasting(flight, mass, top_speed, state);
    monitor.begin(&now.sample);
    record.begin(&now.sample, Spot::coasting(state[2]));
    let mut from = top_speed;
    for k in (0..steps / 2).rev() {
        let step = (spread.speed(k) - from) * 0.5;
        let mut drift = Drift::begin(state, slope(from, &now), limits);
        for _ in 0..2 {
            state = advance_through(
                limits,
                from,
                state,
                step,
                slope(from, &now),
                |vertical, state| slope(vertical, &coasting(flight, mass, vertical, state)),
            );
            from = from + step;
            let next = coasting(flight, mass, from, state);
            let [altitude, ..] = drift.step(step, state, slope(from, &next));
            errors.add(zero, altitude, zero);
            monitor.observe(&now.sample, &next.sample);
            record.step(&next.sample, Spot::coasting(state[2]));
            now = next;
        }
        from = spread.speed(k);
    }
    state
}
