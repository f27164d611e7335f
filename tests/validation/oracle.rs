//! The ascent against an adaptive integrator from elsewhere, the equations of motion written anew.
//!
//! Nothing of the ascent's own stepping is used. What is taken over is part of the model and checked
//! elsewhere: the drag coefficient at a Mach number, and the exact standard atmosphere, which the ascent
//! reads from a table.

mod integrated;
mod integrator;
mod physics;
mod scan;
mod shapes;
mod stepped;
mod varied;

use crate::Outside;
use hoopline::airframe::{DragTable, GivenDrag, stated_drag};
use hoopline::ascent::Grid;
use integrated::{Flown, integrated};
use physics::Vehicle;
use shapes::{STATED, drawn};
use stepped::stepped;

const ADAPTIVE: Outside = Outside {
    room: "ascent",
    source: "crate differential-equations 0.6.1 (R. D. Gast), its DOP853 at a tolerance of 1e-12, \
             restarted where thrust has a kink; Newton's second law in rectangular coordinates",
};

const STEADY: [(f64, f64); 2] = [(0.0, 4200.0), (7.0, 4200.0)];
const RAMP_AND_TAIL: [(f64, f64); 8] = [
    (0.0, 0.0),
    (0.06, 3100.0),
    (0.2, 4600.0),
    (3.0, 4000.0),
    (6.5, 3100.0),
    (6.9, 1500.0),
    (7.8, 400.0),
    (8.6, 0.0),
];
const LONG: [(f64, f64); 6] = [
    (0.0, 0.0),
    (0.3, 9500.0),
    (12.0, 8600.0),
    (18.0, 7200.0),
    (18.5, 2500.0),
    (20.0, 0.0),
];
const WEAK: [(f64, f64); 5] = [
    (0.0, 0.0),
    (0.5, 1500.0),
    (4.0, 1100.0),
    (5.0, 900.0),
    (5.4, 0.0),
];

/// A quantity, and the shares of it by which the trade and the fine grid may differ from the integrator.
type Compared = (&'static str, fn(&Flown) -> f64, [f64; 2]);

/// What is compared beside the apogee. The shares are what the steps leave.
const COMPARED: [Compared; 9] = [
    ("lift-off time, s", |one| one.lift_off_time, [1e-9; 2]),
    (
        "rail exit speed, m/s",
        |one| one.rail_exit_speed,
        [2e-5, 1e-7],
    ),
    (
        "burnout altitude, m",
        |one| one.burnout_altitude,
        [2e-5, 1e-7],
    ),
    ("burnout speed, m/s", |one| one.burnout_speed, [5e-6, 1e-7]),
    ("apogee time, s", |one| one.apogee_time, [2e-5, 2e-7]),
    ("speed at apogee, m/s", |one| one.apogee_speed, [2e-4, 1e-6]),
    ("downrange, m", |one| one.downrange, [2e-4, 1e-6]),
    (
        "largest pressure, Pa",
        |one| one.max_dynamic_pressure,
        [2e-5, 1e-7],
    ),
    ("largest Mach number", |one| one.max_mach, [1e-5, 1e-6]),
];
/// Samples of each step of the integrator among which the largest pressure and Mach number are looked for.
const SAMPLES: i32 = 128;
/// Below it, in its unit, a quantity counts as zero.
const NOTHING: f64 = 1e-6;

/// Compares vehicles on both grids: the apogee of each within a tolerance in m, of the rest the vehicle
/// that is furthest off.
fn compare(vehicles: &[Vehicle<'_>], tolerances: [f64; 2]) {
    let expected: Vec<Flown> = vehicles
        .iter()
        .map(|vehicle| integrated(vehicle, SAMPLES))
        .collect();
    for (k, grid) in [Grid::Trade, Grid::Fine].into_iter().enumerate() {
        let computed: Vec<Flown> = (vehicles.iter())
            .map(|vehicle| stepped(vehicle, grid).into())
            .collect();
        let case = |i: usize, quantity: &str| format!("{grid:?}, {}: {quantity}", vehicles[i].name);
        for (i, (computed, expected)) in computed.iter().zip(&expected).enumerate() {
            let off = computed.apogee - expected.apogee;
            println!("{} off by {off:+.2e}", case(i, "apogee, m"));
            let case = case(i, "apogee, m");
            ADAPTIVE.within(&case, computed.apogee, expected.apogee, tolerances[k]);
        }
        for (quantity, of, shares) in COMPARED {
            let pair = |i: usize| [of(&computed[i]), of(&expected[i])];
            let off = |i: usize| {
                let [computed, expected] = pair(i);
                (computed - expected).abs() / expected.abs().max(NOTHING)
            };
            let worst = (0..vehicles.len())
                .max_by(|i, j| off(*i).total_cmp(&off(*j)))
                .expect("a vehicle");
            let case = case(worst, quantity);
            println!("{case} off by {:.1e} of it", off(worst));
            let [computed, expected] = pair(worst);
            let tolerance = shares[k] * expected.abs().max(NOTHING);
            ADAPTIVE.within(&case, computed, expected, tolerance);
        }
    }
}

/// What the presets promise: a tenth of a metre and a millimetre.
#[test]
fn flights_within_the_lowest_layer_of_the_air() {
    let [smooth, rough] = [2e-6, 60e-6].map(|roughness| drawn(0.16, 3.6, roughness, 0.006));
    let stubby = drawn(0.22, 2.8, 150e-6, 0.003);
    let table = DragTable::new(&STATED).expect("a table");
    let stated = stated_drag(&table, &GivenDrag::on(0.17));
    let steady = Vehicle {
        name: "steady, smooth, vertical",
        thrust: &STEADY,
        reference_pressure: 101_325.0,
        exit_area: 0.006,
        exhaust_speed: 2000.0,
        mass: 55.0,
        drag: &smooth,
        site: 300.0,
        rail: 8.0,
        elevation: None,
    };
    let with_tail = Vehicle {
        name: "tail, rough, vertical",
        thrust: &RAMP_AND_TAIL,
        drag: &rough,
        ..steady
    };
    let on_table = Vehicle {
        name: "tail, stated drag, vertical",
        drag: &stated,
        ..with_tail
    };
    let vehicles = [
        Vehicle {
            name: "steady, rough, 84 deg",
            drag: &rough,
            elevation: Some(84.0),
            ..steady
        },
        Vehicle {
            name: "tail, smooth, 80 deg",
            drag: &smooth,
            elevation: Some(80.0),
            ..with_tail
        },
        Vehicle {
            name: "tail, stated drag, in vacuum, 75 deg",
            reference_pressure: 0.0,
            site: 1200.0,
            elevation: Some(75.0),
            ..on_table
        },
        Vehicle {
            name: "slow, stubby, 82 deg",
            thrust: &WEAK,
            drag: &stubby,
            mass: 48.0,
            exit_area: 0.003,
            rail: 5.0,
            elevation: Some(82.0),
            ..steady
        },
        steady,
        with_tail,
        on_table,
    ];
    compare(&vehicles, [0.1, 1e-3]);
}

/// The temperature gradient of the standard atmosphere jumps at 11, 20 and 32 km, within steps of the coast.
#[test]
fn flights_through_several_layers_of_the_air() {
    let large = drawn(0.25, 6.0, 10e-6, 0.012);
    let vertical = Vehicle {
        name: "high, vertical",
        thrust: &LONG,
        reference_pressure: 101_325.0,
        exit_area: 0.012,
        exhaust_speed: 2000.0,
        mass: 160.0,
        drag: &large,
        site: 300.0,
        rail: 10.0,
        elevation: None,
    };
    let vehicles = [
        Vehicle {
            name: "high, 85 deg",
            elevation: Some(85.0),
            ..vertical
        },
        vertical,
    ];
    compare(&vehicles, [0.1, 1e-3]);
}

/// Gravity turns a slow vehicle most right after the rail, where its speed doubles within a few steps of a
/// long burn.
#[test]
fn flights_that_turn_far() {
    let large = drawn(0.25, 6.0, 10e-6, 0.012);
    let heavy = Vehicle {
        name: "heavy, 78 deg",
        thrust: &LONG,
        reference_pressure: 101_325.0,
        exit_area: 0.012,
        exhaust_speed: 2000.0,
        mass: 250.0,
        drag: &large,
        site: 300.0,
        rail: 10.0,
        elevation: Some(78.0),
    };
    let heavier = Vehicle {
        name: "heavier, 84 deg",
        mass: 350.0,
        elevation: Some(84.0),
        ..heavy
    };
    compare(&[heavy, heavier], [0.1, 1e-3]);
}
