//! Mass statement and propulsion bookkeeping.

use crate::assert_printed;
use hoopline::mass::{Group, Statement};
use hoopline::motor::{Curve, Motor, ThrustBasis, ThrustRule, drive};
use hoopline::quantity::Slots;
use hoopline::vessel::{Closure, ClosureKind, closure_metal_volume};
use std::f64::consts::PI;

/// Predicted mass is basic mass plus growth allowance (ANSI/AIAA S-120A-2015, definitions as
/// paraphrased in a public glossary). C. D. Brown, "Elements of Spacecraft Design", AIAA 2002:
/// structure "in the estimated category should be increased by 25%".
#[test]
fn predicted_is_basic_plus_growth() {
    let mut statement = Statement::new();
    statement.push("structure", Group::Airframe, 40.0, 0.25, 1.0);
    assert_printed("growth", statement.growth(), 10.0, 0.1);
    assert_printed(
        "predicted",
        statement.basic() + statement.growth(),
        50.0,
        0.1,
    );
}

/// A half shell between two spheres holds 2/3 pi (R^3 - r^3) (geometry); area at mid-thickness times
/// thickness errs by the square of thickness over diameter.
#[test]
fn half_shell_of_metal() {
    let (inner, outer) = (0.075f64, 0.079f64);
    let exact = 2.0 / 3.0 * PI * (outer.powi(3) - inner.powi(3));
    let mut closure: Closure<f64> = Slots::read(&[0.0; 4], &mut 0);
    closure.thickness = outer - inner;
    let volume = closure_metal_volume(ClosureKind::Hemisphere, &closure, 2.0 * inner);
    approx::assert_relative_eq!(volume, exact, max_relative = 3e-4);
}

/// K. E. Niemeyer, "Rocket Propulsion" (open course book), vertical launch example: thrust = Isp g0
/// mp / tb with 250 s, 9.80665 m/s2, 8610 kg, 60 s.
#[test]
fn thrust_from_specific_impulse() {
    let mut motor: Motor<f64> = Slots::read(&[0.0; 16], &mut 0);
    motor.specific_impulse = 250.0;
    motor.burn_time = 60.0;
    let curve = Curve::constant();
    let by_duration = drive(
        ThrustRule::Duration,
        ThrustBasis::Vacuum,
        &curve,
        &motor,
        8610.0,
    );
    assert_printed("thrust, N", by_duration.mean_thrust, 351_813.57, 0.01);
    motor.thrust = by_duration.mean_thrust;
    let by_level = drive(
        ThrustRule::Level,
        ThrustBasis::Vacuum,
        &curve,
        &motor,
        8610.0,
    );
    assert_printed("burn time, s", by_level.burn_time, 60.0, 1e-9);
}
