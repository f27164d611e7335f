//! An invented family of vehicles to time ascents on: every design has its own drag, mass and thrust.

use hoopline::airframe::{
    BayRule, Body, BodyForm, Drag, DragTerms, FinForm, FinRule, GivenDrag, NoseRule, NoseShape,
    Planform, SkinRule, build_drag,
};
use hoopline::ascent::{AirModel, Course, Flight, Grid, Trajectory, fly};
use hoopline::atmosphere::STANDARD_GRAVITY;
use hoopline::motor::{Curve, Drive};
use hoopline::numerics::Real;
use std::f64::consts::PI;

/// What differs from design to design, with its range.
pub const VARIED: [(&str, f64, f64); 8] = [
    ("diameter [m]", 0.14, 0.20),
    ("length [m]", 3.4, 4.6),
    ("mass without propellant [kg]", 34.0, 44.0),
    ("propellant [kg]", 15.0, 18.0),
    ("mean thrust [N]", 3200.0, 4800.0),
    ("specific impulse [s]", 195.0, 215.0),
    ("sand-grain roughness [m]", 2e-6, 60e-6),
    ("elevation [deg]", 80.0, 88.0),
];

/// The numbers of one design, in the order of [`VARIED`].
pub type Design<R> = [R; VARIED.len()];

/// The `index`-th design: a point of the Halton sequence, so that any number of them fills the ranges
/// evenly and every run has the same ones.
pub fn design(index: usize) -> Design<f64> {
    const PRIMES: [usize; VARIED.len()] = [2, 3, 5, 7, 11, 13, 17, 19];
    std::array::from_fn(|k| {
        let (mut rest, mut share, mut weight) = (index + 1, 0.0, 1.0);
        while rest > 0 {
            weight /= PRIMES[k] as f64;
            share += weight * (rest % PRIMES[k]) as f64;
            rest /= PRIMES[k];
        }
        let (_, low, high) = VARIED[k];
        low + share * (high - low)
    })
}

/// Time s and thrust N: a rise, a slow fall as the tank empties, a tail. Only its shape counts.
pub fn curve() -> Curve {
    let mut points = vec![(0.0, 0.0), (0.05, 2600.0), (0.12, 4100.0), (0.25, 4400.0)];
    points.extend((1..=12).map(|k| {
        let time = 0.25 + 0.55 * f64::from(k);
        (time, 4400.0 - 160.0 * f64::from(k))
    }));
    points.extend([(7.1, 1900.0), (7.5, 1200.0), (8.2, 500.0), (9.2, 0.0)]);
    Curve::new(&points).expect("a thrust curve")
}

/// Launch site above sea level, m.
pub const SITE_ALTITUDE: f64 = 300.0;
/// Exit area of the nozzle, m2, and the ambient pressure the thrust refers to, Pa.
pub const EXIT_AREA: f64 = 0.006;
pub const REFERENCE_PRESSURE: f64 = 101_325.0;
/// Thickness of the fins, m, and their number.
pub const FIN_THICKNESS: f64 = 0.004;
pub const FINS: usize = 4;

/// Terms of the drag of a design.
pub fn terms<R: Real>(design: &Design<R>) -> DragTerms<R> {
    let [diameter, _, _, _, _, _, roughness, _] = *design;
    let (body, fin) = shapes(design);
    let form = BodyForm {
        nose: NoseShape::VonKarman,
        nose_rule: NoseRule::Length,
        bay_rule: BayRule::Length,
        skin_rule: SkinRule::TankIsAirframe,
        fins: FinForm {
            count: FINS,
            rule: FinRule::Size,
        },
    };
    let (thickness, exit_area) = (R::splat(FIN_THICKNESS), R::splat(EXIT_AREA));
    let given = GivenDrag::on(diameter);
    DragTerms::new(&form, &body, &fin, thickness, roughness, exit_area, &given)
}

/// Body and fin of a design, as far as its drag asks for them.
pub fn shapes<R: Real>(design: &Design<R>) -> (Body<R>, Planform<R>) {
    let [diameter, length, ..] = *design;
    let zero = R::splat(0.0);
    let body = Body {
        diameter,
        frontal_diameter: diameter,
        nose_length: diameter * 5.0,
        payload_bay_length: zero,
        recovery_bay_length: zero,
        tank_station: zero,
        motor_station: zero,
        length,
        wetted_area: diameter * (length - diameter * 1.7) * PI,
        nose_area: zero,
        nose_centroid: zero,
    };
    let fin = Planform {
        root_chord: diameter * 1.4,
        tip_chord: diameter * 0.6,
        span: diameter * 0.8,
        sweep: diameter * 0.8,
        area: diameter.squared() * 0.8,
        mean_chord: diameter,
        mass: zero,
        centroid: zero,
    };
    (body, fin)
}

/// The flight of a design with the drag it is given.
pub fn flight<'a, R: Real>(
    curve: &'a Curve,
    drag: &'a Drag<'a, R>,
    design: &Design<R>,
    course: Course,
    grid: Grid,
) -> Flight<'a, R> {
    let [
        _,
        _,
        dry,
        propellant,
        mean_thrust,
        specific_impulse,
        _,
        elevation,
    ] = *design;
    let exhaust_speed = specific_impulse * STANDARD_GRAVITY;
    let burn_time = propellant * exhaust_speed / mean_thrust;
    Flight {
        curve,
        drive: Drive {
            time_scale: burn_time / curve.duration(),
            force_scale: mean_thrust / curve.mean(),
            mean_thrust,
            burn_time,
            exhaust_speed,
            reference_pressure: R::splat(REFERENCE_PRESSURE),
            exit_area: R::splat(EXIT_AREA),
        },
        drag,
        air: AirModel::Standard,
        site_altitude: R::splat(SITE_ALTITUDE),
        course,
        elevation: elevation * (PI / 180.0),
        rail_length: R::splat(8.0),
        lift_off_mass: dry + propellant,
        mass_ahead: dry * 0.5,
        grid,
    }
}

/// The ascent of a design, its drag columns built on the way.
pub fn ascend<R: Real>(
    curve: &Curve,
    design: &Design<R>,
    course: Course,
    grid: Grid,
) -> Trajectory<R> {
    let drag = build_drag(&terms(design));
    fly(&flight(curve, &drag, design, course, grid))
}
