//! Mass statement and propulsion bookkeeping.

use crate::Outside;
use hoopline::mass::{Group, MATURITIES, Spread, Statement};
use hoopline::motor::{Curve, Motor, ThrustBasis, ThrustRule, drive};
use hoopline::quantity::Slots;
use hoopline::vessel::{Closure, ClosureKind, closure_metal_volume};
use std::f64::consts::PI;

/// Solar Orbiter EIDA-2656 with ECSS-E-ST-10-02C table 5-1, as quoted in an instrument's margin plan
/// (CAU-ATH-PLA-0008 issue 1, section "Mass Margins"): 5, 10 and 20 % for off-the-shelf, modified and
/// new items.
#[test]
fn maturity_on_record() {
    let quoted = Outside {
        room: "mass",
        source: "Solar Orbiter EIDA-2656, quoted in CAU-ATH-PLA-0008 issue 1",
    };
    assert_eq!(MATURITIES.len(), 3);
    for (class, printed) in MATURITIES.iter().zip([5.0, 10.0, 20.0]) {
        let share = class.growth_allowance * 100.0;
        quoted.printed(&format!("growth of {}, %", class.name), share, printed, 1.0);
    }
}

/// Predicted mass is basic mass plus growth allowance (ANSI/AIAA S-120A-2015, definitions as
/// paraphrased in a public glossary). C. D. Brown, "Elements of Spacecraft Design", AIAA 2002:
/// structure "in the estimated category should be increased by 25%".
#[test]
fn predicted_is_basic_plus_growth() {
    let mut statement = Statement::new();
    statement.push(
        "structure",
        Group::Airframe,
        40.0,
        0.25,
        1.0,
        Spread::point(),
    );
    let brown = Outside {
        room: "mass",
        source: "C. D. Brown, Elements of Spacecraft Design, AIAA 2002: estimated structure + 25 %",
    };
    brown.printed("growth, kg", statement.growth(), 10.0, 0.1);
    let predicted = statement.basic() + statement.growth();
    brown.printed("predicted, kg", predicted, 50.0, 0.1);
}

/// Weight and balance by moments: 340 lb on the nose wheel, 78 in ahead of the main wheels, of 2006 lb
/// in all put the centre of gravity 13.2 in ahead of the main wheels.
#[test]
fn centre_of_gravity() {
    let mut statement = Statement::new();
    statement.push(
        "nose wheel",
        Group::Item,
        340.0,
        0.0,
        -78.0,
        Spread::point(),
    );
    statement.push(
        "main wheels",
        Group::Item,
        2006.0 - 340.0,
        0.0,
        0.0,
        Spread::point(),
    );
    let handbook = Outside {
        room: "mass",
        source: "\"Electronic Calculator\", flight-study.com, 2021, text of chapter 10 of the FAA's \
                 Aircraft Weight and Balance Handbook, FAA-H-8083-1",
    };
    let arm = statement.moment() / statement.basic();
    handbook.printed(
        "centre of gravity behind the main wheels, in",
        arm,
        -13.2,
        0.1,
    );
}

/// A half shell between two spheres holds 2/3 pi (R^3 - r^3) (geometry); area at mid-thickness times
/// thickness errs by the square of thickness over diameter.
#[test]
fn half_shell_of_metal() {
    let (inner, outer) = (0.075f64, 0.079f64);
    let exact = 2.0 / 3.0 * PI * (outer.powi(3) - inner.powi(3));
    let mut closure: Closure<f64> = Closure::uniform(0.0);
    closure.thickness = outer - inner;
    let volume = closure_metal_volume(ClosureKind::Hemisphere, &closure, 2.0 * inner);
    let geometry = Outside {
        room: "mass",
        source: "geometry: 2/3 pi (R^3 - r^3)",
    };
    geometry.relative("half shell, m3", volume, exact, 3e-4);
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
    let course_book = Outside {
        room: "motor",
        source: "K. E. Niemeyer, Rocket Propulsion, vertical launch example",
    };
    course_book.printed("thrust, N", by_duration.mean_thrust, 351_813.57, 0.01);
    motor.thrust = by_duration.mean_thrust;
    let by_level = drive(
        ThrustRule::Level,
        ThrustBasis::Vacuum,
        &curve,
        &motor,
        8610.0,
    );
    course_book.printed("burn time, s", by_level.burn_time, 60.0, 1e-9);
}
