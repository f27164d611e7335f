//! The vertical ascent against closed forms.

use crate::Outside;
use hoopline::airframe::{Drag, DragTable, GivenDrag, stated_drag};
use hoopline::ascent::{AirModel, Course, Flight, Grid, Trajectory, fly};
use hoopline::atmosphere::{EARTH_RADIUS, Exponential, STANDARD_GRAVITY};
use hoopline::motor::{Curve, Drive};

/// Diameter whose circle has an area of one square metre.
pub(crate) const UNIT_DIAMETER: f64 = std::f64::consts::FRAC_2_SQRT_PI;

/// Air of even density over a plane: scale heights and radius so large that nothing changes.
pub(crate) fn even_air(density: f64) -> AirModel<f64> {
    AirModel::Exponential(Exponential {
        surface_density: density,
        surface_pressure: 101_325.0,
        density_scale_height: 1e15,
        pressure_scale_height: 1e15,
        planet_radius: 1e15,
    })
}

pub(crate) fn constant_thrust(thrust: f64, burn_time: f64, exhaust_speed: f64) -> Drive<f64> {
    Drive {
        time_scale: burn_time,
        force_scale: thrust,
        mean_thrust: thrust,
        burn_time,
        exhaust_speed,
        reference_pressure: 0.0,
        exit_area: 0.0,
    }
}

fn launch(
    air: AirModel<f64>,
    drive: Drive<f64>,
    mass: f64,
    drag: &Drag<'_, f64>,
) -> Trajectory<f64> {
    launch_on(&Curve::constant(), air, drive, mass, drag)
}

fn launch_on(
    curve: &Curve,
    air: AirModel<f64>,
    drive: Drive<f64>,
    mass: f64,
    drag: &Drag<'_, f64>,
) -> Trajectory<f64> {
    fly(&upright(curve, air, drive, mass, drag))
}

/// A vertical flight from a rail of 6 m at sea level.
pub(crate) fn upright<'a>(
    curve: &'a Curve,
    air: AirModel<f64>,
    drive: Drive<f64>,
    mass: f64,
    drag: &'a Drag<'a, f64>,
) -> Flight<'a, f64> {
    Flight {
        curve,
        drive,
        drag,
        air,
        site_altitude: 0.0,
        course: Course::Vertical,
        elevation: std::f64::consts::FRAC_PI_2,
        rail_length: 6.0,
        lift_off_mass: mass,
        mass_ahead: 0.0,
        grid: Grid::Fine,
    }
}

pub(crate) fn table(drag_area: f64) -> DragTable {
    DragTable::new(&[(0.0, drag_area), (10.0, drag_area)]).expect("a table")
}

/// v = c ln R - g t, h = c t (1 - ln R / (R - 1)) - g t^2 / 2, then v^2 / 2g.
const ROCKET_EQUATION: Outside = Outside {
    room: "ascent",
    source: "ProofWiki, Burnout Height of Upward Rocket under Constant Gravity; numbers computed \
             twice independently from its formula",
};

#[test]
fn rocket_equation_with_gravity() {
    let table = table(0.0);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let thrust = 55.0 * 2000.0 / 15.0;
    let drive = constant_thrust(thrust, 15.0, 2000.0);
    let flight = launch(even_air(1.225), drive, 130.0, &drag);
    let check = |case: &str, computed, expected, share| {
        ROCKET_EQUATION.relative(case, computed, expected, share);
    };
    check(
        "burnout speed, no drag",
        flight.burnout_speed,
        952.9929,
        1e-7,
    );
    check(
        "burnout altitude, no drag",
        flight.burnout_altitude,
        6394.8563,
        1e-7,
    );
    check("apogee, no drag", flight.apogee, 52_699.941, 1e-7);
    check("apogee time, no drag", flight.apogee_time, 112.1782, 1e-6);
}

/// v = sqrt(a/k) tanh(sqrt(a k) t), h = ln cosh(sqrt(a k) t) / k, coast ln(1 + k v^2 / g) / 2k.
const QUADRATIC_DRAG: Outside = Outside {
    room: "ascent",
    source: "University of Southampton exercise 7651; Fowles and Cassiday, Analytical Mechanics, \
             section 2.4; numbers computed twice independently from its formulas",
};

#[test]
fn drag_at_constant_mass() {
    let table = table(0.016);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let drive = constant_thrust(8000.0, 5.0, 1e15);
    let flight = launch(even_air(1.225), drive, 100.0, &drag);
    let check = |case: &str, computed, expected, share| {
        QUADRATIC_DRAG.relative(case, computed, expected, share);
    };
    check(
        "burnout speed, constant mass",
        flight.burnout_speed,
        332.141649,
        1e-8,
    );
    check(
        "burnout altitude, constant mass",
        flight.burnout_altitude,
        853.364379,
        1e-8,
    );
    check("apogee, constant mass", flight.apogee, 4644.665850, 1e-8);
    check(
        "apogee time, constant mass",
        flight.apogee_time,
        31.120856,
        1e-7,
    );
    // v^2 = (a / k) (1 - exp(-2 k s)) at s = 6 m, and its time acosh(exp(k s)) / sqrt(a k).
    let (a, k): (f64, f64) = (80.0 - STANDARD_GRAVITY, 9.8e-5);
    let exit = (a / k * -(-2.0 * k * 6.0).exp_m1()).sqrt();
    check("rail exit speed", flight.rail_exit_speed, exit, 1e-6);
    let time = (k * 6.0).exp().acosh() / (a * k).sqrt();
    check("rail exit time", flight.rail_exit_time, time, 1e-6);
}

/// v = sqrt(T / K) (1 - x) / (1 + x), x = (m / m0)^n, n = 2 sqrt(T K) / mass flow, K = rho CD A / 2.
const VARYING_MASS: Outside = Outside {
    room: "ascent",
    source: "Newton's second law m v' = T - K v^2 with m falling evenly, separated and integrated; \
             numbers computed twice independently (closed form, Runge-Kutta in Python)",
};

/// Gravity vanishes a thousand metres above a planet of one millimetre.
#[test]
fn drag_at_falling_mass_without_gravity() {
    let table = table(0.016);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let curve = Curve::constant();
    let AirModel::Exponential(mut model) = even_air(1.225) else {
        unreachable!("even air is exponential");
    };
    model.planet_radius = 1e-3;
    let air = AirModel::Exponential(model);
    let drive = constant_thrust(8000.0, 10.0, 2000.0);
    let mut flight = upright(&curve, air, drive, 130.0, &drag);
    flight.site_altitude = 1e3;
    let flight = fly(&flight);
    let check = |case: &str, computed, expected, share| {
        VARYING_MASS.relative(case, computed, expected, share);
    };
    check("burnout speed", flight.burnout_speed, 606.965209, 1e-8);
    check(
        "burnout altitude",
        flight.burnout_altitude,
        3142.451029,
        1e-8,
    );
}

/// 1/r_a = 1/r - v^2 / (2 g0 r0^2).
const TWO_BODIES: Outside = Outside {
    room: "ascent",
    source: "energy equation of the two-body problem (from memory)",
};

#[test]
fn coast_under_inverse_square_gravity() {
    let table = table(0.0);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let drive = constant_thrust(20_000.0, 12.0, 2000.0);
    let flight = launch(AirModel::Standard, drive, 200.0, &drag);
    let radius = EARTH_RADIUS;
    let inverse = 1.0 / (radius + flight.burnout_altitude)
        - flight.burnout_speed.powi(2) / (2.0 * STANDARD_GRAVITY * radius * radius);
    let apogee = 1.0 / inverse - radius;
    assert!(apogee > 60_000.0);
    TWO_BODIES.relative("vertical coast", flight.apogee, apogee, 1e-9);
}

const NEWTON: Outside = Outside {
    room: "ascent",
    source: "Newton's second law, standard gravity 9.80665 m/s2",
};

/// Thrust that is highest at ignition: (F0 + (p0 - p) Ae) / m holds there, here with no exit area
/// 9000 N on 60 kg.
#[test]
fn acceleration_at_ignition_counts() {
    let table = table(0.0);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let curve = Curve::new(&[(0.0, 9000.0), (0.4, 3000.0), (5.0, 3000.0)]).expect("a curve");
    let mut drive = constant_thrust(1.0, 1.0, 2000.0);
    drive.mean_thrust = curve.mean();
    drive.burn_time = curve.duration();
    let flight = launch_on(&curve, even_air(1.225), drive, 60.0, &drag);
    let computed = flight.max_axial_acceleration;
    NEWTON.relative("acceleration at ignition", computed, 150.0, 1e-9);
}

/// A thrust that rises as k t lifts m kilograms at t = m g / k.
#[test]
fn lift_off_of_a_rising_thrust() {
    let table = table(0.0);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let curve = Curve::new(&[(0.0, 0.0), (2.0, 4000.0), (6.0, 4000.0)]).expect("a curve");
    let mut drive = constant_thrust(1.0, 1.0, 1e15);
    drive.mean_thrust = curve.mean();
    let flight = launch_on(&curve, even_air(1.225), drive, 60.0, &drag);
    let expected = 60.0 * STANDARD_GRAVITY / 2000.0;
    NEWTON.relative("lift-off time", flight.lift_off_time, expected, 1e-12);
    // From there k t^2 / 2 - g m t over m: speed at the end of the rise, then even acceleration.
    let impulse = |time: f64| 0.5 * 2000.0 * time * time - 60.0 * STANDARD_GRAVITY * time;
    let at_knot = (impulse(2.0) - impulse(expected)) / 60.0;
    let burnout = at_knot + (4000.0 / 60.0 - STANDARD_GRAVITY) * 4.0;
    NEWTON.relative(
        "burnout speed, rising thrust",
        flight.burnout_speed,
        burnout,
        1e-9,
    );
}

/// With 30 of 100 kg ahead the section carries 30 a + D, largest at the end of thrust: drag
/// 0.5 x 1.225 x 0.016 x 332.141649^2 = 1081.117 N, a = (8000 - D) / 100.
#[test]
fn compression_is_the_mass_ahead_times_acceleration_and_the_drag() {
    let drive = constant_thrust(8000.0, 5.0, 1e15);
    let curve = Curve::constant();
    for (drag_area, expected) in [(0.0, 2400.0), (0.016, 3156.782)] {
        let table = table(drag_area);
        let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
        let mut flight = upright(&curve, even_air(1.225), drive, 100.0, &drag);
        flight.mass_ahead = 30.0;
        let case = format!("compression, drag area {drag_area} m2");
        NEWTON.printed(&case, fly(&flight).max_compression, expected, 1e-3);
    }
}
