//! The ascent of a vehicle by the adaptive integrator.
//!
//! On the rail it is one-dimensional; from its end on it goes in rectangular coordinates, along the ground
//! and up from there, about a spherical Earth. The angle of the rail counts from the horizon at its end,
//! as in the ascent; counted from the horizon at its foot it would differ by up to 1e-6 rad, and an apogee
//! by some millimetres.

use super::integrator::integrate;
use super::physics::{Vehicle, flow, gravity};
use hoopline::ascent::Trajectory;
use hoopline::atmosphere::EARTH_RADIUS;

/// What is compared; altitudes and distances as in `Trajectory`.
#[derive(Default)]
pub struct Flown {
    pub lift_off_time: f64,
    pub rail_exit_speed: f64,
    pub burnout_altitude: f64,
    pub burnout_speed: f64,
    pub apogee: f64,
    pub apogee_time: f64,
    pub apogee_speed: f64,
    pub downrange: f64,
    pub max_dynamic_pressure: f64,
    pub max_mach: f64,
}

impl From<Trajectory<f64>> for Flown {
    fn from(flown: Trajectory<f64>) -> Self {
        Self {
            lift_off_time: flown.lift_off_time,
            rail_exit_speed: flown.rail_exit_speed,
            burnout_altitude: flown.burnout_altitude,
            burnout_speed: flown.burnout_speed,
            apogee: flown.apogee,
            apogee_time: flown.apogee_time,
            apogee_speed: flown.apogee_speed,
            downrange: flown.downrange,
            max_dynamic_pressure: flown.max_dynamic_pressure,
            max_mach: flown.max_mach,
        }
    }
}

impl Flown {
    fn watch(&mut self, altitude: f64, speed: f64) {
        let [dynamic_pressure, mach] = flow(altitude, speed);
        self.max_dynamic_pressure = self.max_dynamic_pressure.max(dynamic_pressure);
        self.max_mach = self.max_mach.max(mach);
    }
}

/// Restarts where thrust has a kink, at the end of the rail and at the end of the burn. The
/// largest values are looked for at so many samples of each of its steps.
pub fn integrated(vehicle: &Vehicle<'_>, samples: i32) -> Flown {
    let stretches = vehicle.stretches();
    let mut flown = Flown {
        lift_off_time: vehicle.lift_off(&stretches),
        ..Flown::default()
    };
    let exit_time = ride(vehicle, samples, &mut flown);

    let [up, along] = vehicle.direction();
    let foot = EARTH_RADIUS + vehicle.site + vehicle.rail * up;
    let below = |z: f64| foot + z;
    let altitude = |[x, z, ..]: &[f64; 4]| x.hypot(below(*z)) - EARTH_RADIUS;
    let speed = |[.., along, up]: &[f64; 4]| along.hypot(*up);
    let falling = |[x, z, along, up]: &[f64; 4]| -(x * along + below(*z) * up);

    let mut state = [
        0.0,
        0.0,
        flown.rail_exit_speed * along,
        flown.rail_exit_speed * up,
    ];
    let burning = stretches.iter().filter(|stretch| stretch.end > exit_time);
    let coast = [vehicle.burn_time(), vehicle.burn_time() + 1000.0];
    let spans = burning
        .map(|stretch| (Some(stretch), [stretch.start.max(exit_time), stretch.end]))
        .chain([(None, coast)]);
    for (burn, span) in spans {
        if burn.is_none() {
            flown.burnout_altitude = altitude(&state) - vehicle.site;
            flown.burnout_speed = speed(&state);
        }
        let rates = |time: f64, state: &[f64; 4]| {
            let [x, z, along, up] = *state;
            let altitude = altitude(state);
            let burn = burn.map(|stretch| (stretch, time));
            let push = vehicle.axial(burn, altitude, speed(state)) / speed(state);
            let pull = gravity(altitude) / (EARTH_RADIUS + altitude);
            [
                along,
                up,
                push * along - pull * x,
                push * up - pull * below(z),
            ]
        };
        let way = integrate(rates, span, state, falling, samples);
        assert_eq!(
            way.met,
            burn.is_none(),
            "{}: the coast ends it",
            vehicle.name
        );
        for state in &way.states {
            flown.watch(altitude(state), speed(state));
        }
        (flown.apogee_time, state) = way.end;
    }
    let [x, z, ..] = state;
    flown.apogee = altitude(&state) - vehicle.site;
    flown.apogee_speed = speed(&state);
    flown.downrange = vehicle.rail * along + (EARTH_RADIUS + vehicle.site) * x.atan2(below(z));
    flown
}

/// Along the rail, to its end; returns when.
fn ride(vehicle: &Vehicle<'_>, samples: i32, flown: &mut Flown) -> f64 {
    let [up, _] = vehicle.direction();
    let altitude = |distance: f64| vehicle.site + distance * up;
    let end = |[distance, _]: &[f64; 2]| distance - vehicle.rail;
    let (mut time, mut state) = (flown.lift_off_time, [0.0, 0.0]);
    for stretch in vehicle.stretches() {
        if stretch.end <= time {
            continue;
        }
        let rates = |time: f64, [distance, speed]: &[f64; 2]| {
            let altitude = altitude(*distance);
            let axial = vehicle.axial(Some((&stretch, time)), altitude, *speed);
            [*speed, axial - gravity(altitude) * up]
        };
        let way = integrate(rates, [time, stretch.end], state, end, samples);
        for [distance, speed] in &way.states {
            flown.watch(altitude(*distance), *speed);
        }
        (time, state) = way.end;
        if way.met {
            flown.rail_exit_speed = state[1];
            return time;
        }
    }
    panic!("{}: the rail is longer than the burn", vehicle.name);
}
