//! The inclined ascent: the same bits in lanes, its derivatives, its limits.

use hoopline::airframe::{DragTable, GivenDrag, stated_drag};
use hoopline::ascent::{AirModel, Course, Flight, Grid, Trajectory, fly};
use hoopline::motor::{Curve, Drive};
use hoopline::numerics::{Dual, Lanes, Real};
use std::array::from_fn;
use std::f64::consts::FRAC_PI_2;

/// Elevation rad, lift-off mass kg, length of rail m, factor on the thrust.
type Inputs<R> = [R; 4];

const DESIGN: Inputs<f64> = [1.4, 60.0, 6.0, 1.0];

const VALUES: [&str; 14] = [
    "lift_off_time",
    "rail_exit_speed",
    "rail_exit_time",
    "burnout_altitude",
    "burnout_speed",
    "apogee",
    "apogee_time",
    "apogee_speed",
    "downrange",
    "max_dynamic_pressure",
    "max_dynamic_pressure_altitude",
    "max_mach",
    "max_axial_acceleration",
    "max_compression",
];

fn values<R: Real>(flight: &Trajectory<R>) -> [R; VALUES.len()] {
    [
        flight.lift_off_time,
        flight.rail_exit_speed,
        flight.rail_exit_time,
        flight.burnout_altitude,
        flight.burnout_speed,
        flight.apogee,
        flight.apogee_time,
        flight.apogee_speed,
        flight.downrange,
        flight.max_dynamic_pressure,
        flight.max_dynamic_pressure_altitude,
        flight.max_mach,
        flight.max_axial_acceleration,
        flight.max_compression,
    ]
}

/// Grounded, held, stopped, as ones and zeros.
fn masks<R: Real>(flight: &Trajectory<R>) -> [R; 3] {
    [flight.grounded, flight.held, flight.stopped]
        .map(|mask| R::splat(1.0).select(R::splat(0.0), mask))
}

/// A thrust that rises from nothing, so that lift-off and rail exit fall inside intervals.
fn soar<R: Real>(course: Course, grid: Grid, inputs: Inputs<R>) -> Trajectory<R> {
    let curve = Curve::new(&[
        (0.0, 0.0),
        (0.4, 3800.0),
        (1.1, 3000.0),
        (6.0, 2500.0),
        (6.5, 0.0),
    ])
    .expect("a curve");
    let rows = [(0.0, 0.45), (0.9, 0.45), (1.1, 0.7), (2.0, 0.5), (5.0, 0.3)];
    let table = DragTable::new(&rows).expect("a table");
    let [elevation, mass, rail, factor] = inputs;
    let drag = stated_drag(&table, &GivenDrag::on(R::splat(0.16)));
    fly(&Flight {
        curve: &curve,
        drive: Drive {
            time_scale: R::splat(1.0),
            force_scale: factor,
            mean_thrust: factor * curve.mean(),
            burn_time: R::splat(curve.duration()),
            exhaust_speed: R::splat(2000.0) * factor,
            reference_pressure: R::splat(101_325.0),
            exit_area: R::splat(0.002),
        },
        drag: &drag,
        air: AirModel::Standard,
        site_altitude: R::splat(120.0),
        course,
        elevation,
        rail_length: rail,
        lift_off_mass: mass,
        mass_ahead: R::splat(15.0),
        grid,
    })
}

fn inclined<R: Real>(inputs: Inputs<R>) -> Trajectory<R> {
    soar(Course::Inclined, Grid::Trade, inputs)
}

/// Sixteen different designs: most fly, others never lift off, stay on the rail or fall in the burn.
fn mixed() -> Vec<Inputs<f64>> {
    (0..16)
        .map(|lane| {
            let step = f64::from(lane);
            let [elevation, mass, rail, factor] = DESIGN;
            match lane {
                3 => [elevation, mass, rail, 0.1],
                6 => [elevation, mass, 5000.0, factor],
                9 => [0.2, mass, 0.5, 0.5],
                12 => [0.0, mass, rail, 0.3],
                _ => [
                    0.9 + 0.04 * step,
                    mass + step,
                    2.0 + 0.7 * step,
                    1.0 + 0.1 * step,
                ],
            }
        })
        .collect()
}

fn in_lanes<const N: usize>(designs: &[Inputs<f64>]) {
    for block in designs.chunks(N) {
        let lanes = inclined::<Lanes<N>>(from_fn(|i| Lanes(from_fn(|lane| block[lane][i]))));
        for (lane, design) in block.iter().enumerate() {
            let scalar = inclined(*design);
            let bits = values(&scalar).map(f64::to_bits);
            let own = values(&lanes).map(|value| value.0[lane].to_bits());
            assert_eq!(own, bits, "lane {lane} of {N}: {design:?}");
            let own = masks(&lanes).map(|value| value.0[lane]);
            assert_eq!(own, masks(&scalar), "lane {lane} of {N}: {design:?}");
        }
    }
}

#[test]
fn lanes_of_any_width_equal_scalar_calls_bit_for_bit() {
    let designs = mixed();
    let outcomes: Vec<[f64; 3]> = designs.iter().map(|one| masks(&inclined(*one))).collect();
    for mask in 0..3 {
        let flagged = outcomes.iter().filter(|one| one[mask] > 0.0).count();
        assert!((1..8).contains(&flagged), "{mask}: {outcomes:?}");
    }
    assert_eq!(outcomes[6], [0.0, 1.0, 0.0], "held and nothing else");
    assert_eq!(outcomes[9], [0.0, 0.0, 1.0], "stopped and nothing else");
    in_lanes::<4>(&designs);
    in_lanes::<8>(&designs);
    in_lanes::<16>(&designs);
}

#[test]
fn every_lane_stays_finite() {
    for design in mixed() {
        for (value, name) in values(&inclined(design)).iter().zip(VALUES) {
            assert!(value.is_finite(), "{name} of {design:?}: {value}");
        }
    }
}

#[test]
fn upright_agrees_with_the_vertical_course() {
    for (grid, tolerance) in [(Grid::Trade, 1e-5), (Grid::Fine, 2e-8)] {
        let design = [FRAC_PI_2, 60.0, 6.0, 1.0];
        let vertical = values(&soar(Course::Vertical, grid, design));
        let inclined = values(&soar(Course::Inclined, grid, design));
        for ((one, other), name) in vertical.iter().zip(inclined).zip(VALUES) {
            let tolerance = match name {
                // It lies in the burn after the rail, where the steps differ.
                "max_axial_acceleration" => 1e-4,
                // Found within a step, by a cubic whose ends differ between the courses.
                "max_dynamic_pressure_altitude" => 10.0 * tolerance,
                // The vertical course finds the end of the rail within a step, the inclined one steps to it.
                "rail_exit_speed" | "rail_exit_time" => 3.0 * tolerance,
                _ => tolerance,
            };
            if ["apogee_speed", "downrange"].contains(&name) {
                assert!(other.abs() < 1e-8, "{name} {other}");
            } else {
                approx::assert_relative_eq!(*one, other, max_relative = tolerance);
            }
        }
    }
}

#[test]
fn the_trade_grid_is_fine_enough() {
    let trade = values(&soar(Course::Inclined, Grid::Trade, DESIGN));
    let fine = values(&soar(Course::Inclined, Grid::Fine, DESIGN));
    for ((one, other), name) in trade.iter().zip(fine).zip(VALUES) {
        let tolerance = match name {
            name if name.starts_with("rail_exit") => 1e-6,
            name if name.starts_with("max") => 1e-3,
            _ => 1e-5,
        };
        let off = (one / other - 1.0).abs();
        assert!(
            off < tolerance,
            "{name}: {one} against {other}, off by {off:e}"
        );
    }
}

#[test]
fn derivatives_agree_with_differences() {
    for input in 0..4 {
        let exact = values(&inclined(from_fn(|i| Dual::<1> {
            value: DESIGN[i],
            partials: [f64::from(u8::from(i == input))],
        })));
        let at = |offset: f64| {
            let mut design = DESIGN;
            design[input] += offset;
            values(&inclined(design))
        };
        let h = DESIGN[input] * 1e-4;
        let (near, far) = ([at(h), at(-h)], [at(2.0 * h), at(-2.0 * h)]);
        for (i, name) in VALUES.iter().enumerate() {
            let difference =
                (8.0 * (near[0][i] - near[1][i]) - (far[0][i] - far[1][i])) / (12.0 * h);
            let derivative = exact[i].partials[0];
            let scale = exact[i].value.abs() / DESIGN[input];
            assert!(
                (derivative - difference).abs() < 2e-5 * (difference.abs() + 1e-3 * scale),
                "{name} by input {input}: {derivative} against {difference}"
            );
        }
        for name in ["apogee", "downrange", "rail_exit_speed", "rail_exit_time"] {
            let at = VALUES
                .iter()
                .position(|value| *value == name)
                .expect("a value");
            let still = input == 2 && name == "lift_off_time";
            assert!(
                still || exact[at].partials[0] != 0.0,
                "{name} does not move"
            );
        }
    }
}
