//! The ascent against closed forms.

use hoopline::airframe::{Drag, DragTable, GivenDrag, stated_drag};
use hoopline::ascent::{AirModel, Flight, Grid, Trajectory, fly};
use hoopline::atmosphere::{EARTH_RADIUS, Exponential, STANDARD_GRAVITY};
use hoopline::motor::{Curve, Drive};

/// Diameter whose circle has an area of one square metre.
const UNIT_DIAMETER: f64 = std::f64::consts::FRAC_2_SQRT_PI;

/// Air of even density over a plane: scale heights and radius so large that nothing changes.
fn even_air(density: f64) -> AirModel<f64> {
    AirModel::Exponential(Exponential {
        surface_density: density,
        surface_pressure: 101_325.0,
        density_scale_height: 1e15,
        pressure_scale_height: 1e15,
        planet_radius: 1e15,
    })
}

fn constant_thrust(thrust: f64, burn_time: f64, exhaust_speed: f64) -> Drive<f64> {
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
    fly(&Flight {
        curve,
        drive,
        drag,
        air,
        site_altitude: 0.0,
        rail_length: 6.0,
        lift_off_mass: mass,
        grid: Grid::Fine,
    })
}

fn table(drag_area: f64) -> DragTable {
    DragTable::new(&[(0.0, drag_area), (10.0, drag_area)]).expect("a table")
}

/// A table that refers to one square metre, its coefficients as they stand.
fn as_it_stands() -> GivenDrag<f64> {
    GivenDrag {
        reference_diameter: UNIT_DIAMETER,
        table_multiplier: 1.0,
        friction_multiplier: 1.0,
        wave_multiplier: 1.0,
        base_multiplier: 1.0,
    }
}

/// Rocket equation with gravity: v = c ln R - g t, h = c t (1 - ln R / (R - 1)) - g t^2 / 2 (ProofWiki,
/// "Burnout Height of Upward Rocket under Constant Gravity"), then v^2 / 2g. 130 kg, 75 kg at burnout,
/// c 2000 m/s, 15 s: 952.9929 m/s, 6394.8563 m, 52 699.941 m, computed twice independently.
#[test]
fn rocket_equation_with_gravity() {
    let table = table(0.0);
    let drag = stated_drag(&table, &as_it_stands());
    let thrust = 55.0 * 2000.0 / 15.0;
    let flight = launch(
        even_air(1.225),
        constant_thrust(thrust, 15.0, 2000.0),
        130.0,
        &drag,
    );
    approx::assert_relative_eq!(flight.burnout_speed, 952.9929, max_relative = 1e-7);
    approx::assert_relative_eq!(flight.burnout_altitude, 6394.8563, max_relative = 1e-7);
    approx::assert_relative_eq!(flight.apogee, 52_699.941, max_relative = 1e-7);
    approx::assert_relative_eq!(flight.apogee_time, 112.1782, max_relative = 1e-6);
}

/// Constant thrust and mass against drag: v = sqrt(a/k) tanh(sqrt(a k) t), h = ln cosh(sqrt(a k) t) / k,
/// coast ln(1 + k v^2 / g) / 2k (University of Southampton exercise 7651; Fowles and Cassiday,
/// "Analytical Mechanics", section 2.4). 8 kN, 100 kg, 1.225 kg/m3, drag area 0.016 m2, 5 s:
/// 332.141649 m/s, 853.364379 m, apogee 4644.665850 m at 31.120856 s, computed twice independently.
#[test]
fn drag_at_constant_mass() {
    let table = table(0.016);
    let drag = stated_drag(&table, &as_it_stands());
    let flight = launch(
        even_air(1.225),
        constant_thrust(8000.0, 5.0, 1e15),
        100.0,
        &drag,
    );
    approx::assert_relative_eq!(flight.burnout_speed, 332.141649, max_relative = 1e-8);
    approx::assert_relative_eq!(flight.burnout_altitude, 853.364379, max_relative = 1e-8);
    approx::assert_relative_eq!(flight.apogee, 4644.665850, max_relative = 1e-8);
    approx::assert_relative_eq!(flight.apogee_time, 31.120856, max_relative = 1e-7);
    let terminal = 8000.0 / 100.0 - STANDARD_GRAVITY;
    let rail_exit = (2.0 * terminal * 6.0 * (-9.8e-5 * 6.0f64).exp()).sqrt();
    approx::assert_relative_eq!(flight.rail_exit_speed, rail_exit, max_relative = 1e-4);
}

/// Coast under gravity falling with the square of distance: 1/r_a = 1/r - v^2 / (2 g0 r0^2) (energy
/// equation of the two-body problem).
#[test]
fn coast_under_inverse_square_gravity() {
    let table = table(0.0);
    let drag = stated_drag(&table, &as_it_stands());
    let flight = launch(
        AirModel::Standard,
        constant_thrust(20_000.0, 12.0, 2000.0),
        200.0,
        &drag,
    );
    let radius = EARTH_RADIUS;
    let inverse = 1.0 / (radius + flight.burnout_altitude)
        - flight.burnout_speed.powi(2) / (2.0 * STANDARD_GRAVITY * radius * radius);
    let apogee = 1.0 / inverse - radius;
    assert!(apogee > 60_000.0);
    approx::assert_relative_eq!(flight.apogee, apogee, max_relative = 1e-9);
}

/// Thrust that is highest at ignition: (F0 + (p0 - p) Ae) / m holds there (Newton's law), here with
/// no exit area 9000 N on 60 kg.
#[test]
fn acceleration_at_ignition_counts() {
    let table = table(0.0);
    let drag = stated_drag(&table, &as_it_stands());
    let curve = Curve::new(&[(0.0, 9000.0), (0.4, 3000.0), (5.0, 3000.0)]).expect("a curve");
    let mut drive = constant_thrust(1.0, 1.0, 2000.0);
    drive.mean_thrust = curve.mean();
    drive.burn_time = curve.duration();
    let flight = launch_on(&curve, even_air(1.225), drive, 60.0, &drag);
    approx::assert_relative_eq!(flight.max_axial_acceleration, 150.0, max_relative = 1e-9);
}

/// A thrust that rises as k t lifts m kilograms at t = m g / k (Newton's law; standard gravity).
#[test]
fn lift_off_of_a_rising_thrust() {
    let table = table(0.0);
    let drag = stated_drag(&table, &as_it_stands());
    let curve = Curve::new(&[(0.0, 0.0), (2.0, 4000.0), (6.0, 4000.0)]).expect("a curve");
    let mut drive = constant_thrust(1.0, 1.0, 1e15);
    drive.mean_thrust = curve.mean();
    let flight = launch_on(&curve, even_air(1.225), drive, 60.0, &drag);
    let expected = 60.0 * STANDARD_GRAVITY / 2000.0;
    approx::assert_relative_eq!(flight.lift_off_time, expected, max_relative = 1e-12);
    // From there k t^2 / 2 - g m t over m: speed at the end of the rise, then even acceleration.
    let impulse = |time: f64| 0.5 * 2000.0 * time * time - 60.0 * STANDARD_GRAVITY * time;
    let at_knot = (impulse(2.0) - impulse(expected)) / 60.0;
    let burnout = at_knot + (4000.0 / 60.0 - STANDARD_GRAVITY) * 4.0;
    approx::assert_relative_eq!(flight.burnout_speed, burnout, max_relative = 1e-9);
}
