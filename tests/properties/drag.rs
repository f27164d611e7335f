//! How far the drag of the ascent (columns over Mach, friction from tables of its laws) lies
//! from the full build-up of the same terms.

use crate::{example, with};
use hoopline::airframe::{BuildUp, build_drag};
use hoopline::atmosphere;
use hoopline::stage::Stage;

const ALTITUDES: [f64; 8] = [0.0, 2.0, 5.0, 8.0, 11.0, 15.0, 20.0, 25.0];
const ROUGHNESS: [&str; 4] = ["0 um", "5 um", "30 um", "200 um"];

/// Mach 0.3 to 5.
fn mach_numbers() -> impl Iterator<Item = f64> {
    (0..=1880).map(|step| 0.3 + 0.0025 * f64::from(step))
}

/// Bodies from slender to stubby (fineness ratios 38, 25 and 15), and one with a cone.
fn bodies() -> Vec<(&'static str, Stage)> {
    let slim = example("petrel_slim.toml");
    vec![
        ("petrel_slim", slim.clone()),
        ("slender", with(&slim, "tank.outer_diameter", "130 mm")),
        ("stubby", with(&slim, "tank.outer_diameter", "220 mm")),
        ("cone", with(&slim, "nose.shape", "cone")),
    ]
}

fn unit_reynolds(kilometres: f64) -> f64 {
    atmosphere::standard(kilometres * 1e3).unit_reynolds
}

/// The stage with only some of its drag.
fn only(stage: &Stage, friction: f64, pressure: f64) -> Stage {
    let changes = [
        ("drag.friction_multiplier", friction),
        ("drag.wave_multiplier", pressure),
        ("drag.base_multiplier", pressure),
    ];
    stage
        .replace(&changes.map(|(path, value)| (path.to_owned(), serde_json::json!(value))))
        .expect("a readable change")
}

/// Largest share by which the columns depart from the build-up at an altitude.
fn largest_error(stage: &Stage, kilometres: f64) -> f64 {
    let terms = stage.drag_terms().expect("a body");
    let columns = build_drag(&terms);
    let unit = unit_reynolds(kilometres);
    mach_numbers()
        .map(|mach| {
            let exact = BuildUp::new(&terms, mach, unit, 0.0).total;
            (columns.coefficient(mach, unit, 0.0) / exact - 1.0).abs()
        })
        .fold(0.0, f64::max)
}

/// The error that the doc of the columns states.
fn stated(part: &str) -> f64 {
    match part {
        "friction" => 4e-6,
        _ => 0.006,
    }
}

/// Prints the table (`--nocapture`): largest error in per cent at each altitude.
#[test]
fn columns_follow_the_build_up() {
    for (name, stage) in bodies() {
        println!("{name}, km: {ALTITUDES:?}");
        for part in ["friction", "total"] {
            for roughness in ROUGHNESS {
                let rough = with(&stage, "skin.sand_grain_roughness", roughness);
                let friction = only(&rough, 1.0, 0.0);
                let of = if part == "friction" {
                    &friction
                } else {
                    &rough
                };
                let errors = ALTITUDES.map(|altitude| largest_error(of, altitude));
                let shown = errors.map(|error| format!("{:.5}", error * 100.0));
                println!("  {part:9}{roughness:>7}  {}", shown.join("  "));
                for (error, altitude) in errors.into_iter().zip(ALTITUDES) {
                    let stated = stated(part);
                    assert!(
                        error <= stated,
                        "{name} {part} {roughness} {altitude}: {error}"
                    );
                }
            }
        }
    }
}

/// Between the Mach knots: the kink of base drag at Mach 1 and the ends of the transonic ramp.
#[test]
fn pressure_drag_between_the_knots() {
    for (name, stage) in bodies() {
        let error = largest_error(&only(&stage, 0.0, 1.0), 0.0);
        println!("{name}: {:.2} % of pressure drag", error * 100.0);
        assert!(error <= 0.009, "{name}: {error}");
    }
}

/// Where roughness takes over from the smooth plate the friction has a kink in Mach number and
/// altitude, which both sides of the columns' `max` share with the build-up.
#[test]
fn near_the_switch_between_smooth_and_rough() {
    let mut worst: f64 = 0.0;
    let mut seen = 0;
    for (_, stage) in bodies() {
        for micrometres in [2.0, 5.0, 10.0, 20.0, 30.0, 60.0] {
            let height = format!("{micrometres} um");
            let rough = only(
                &with(&stage, "skin.sand_grain_roughness", &height),
                1.0,
                0.0,
            );
            let smooth = with(&rough, "skin.sand_grain_roughness", "0 um")
                .drag_terms()
                .expect("a body");
            let rough_terms = rough.drag_terms().expect("a body");
            for altitude in [0.0, 2.0, 5.0, 8.0, 11.0, 15.0, 20.0] {
                let unit = unit_reynolds(altitude);
                let columns = build_drag(&rough_terms);
                for mach in mach_numbers() {
                    let exact = BuildUp::new(&rough_terms, mach, unit, 0.0);
                    let plain = BuildUp::new(&smooth, mach, unit, 0.0);
                    let apart = exact.body_friction / plain.body_friction - 1.0;
                    if apart > 0.0 && apart < 0.01 {
                        seen += 1;
                        let error = columns.coefficient(mach, unit, 0.0) / exact.total - 1.0;
                        worst = worst.max(error.abs());
                    }
                }
            }
        }
    }
    println!(
        "{seen} points near the switch, largest error {:.5} % of friction",
        worst * 100.0
    );
    assert!(seen > 500 && worst <= 4e-6, "{seen} points, {worst}");
}

/// What it would cost to hold friction at its value at sea level.
#[test]
fn frozen_friction_would_err_much_more() {
    let smooth = only(
        &with(
            &example("petrel_slim.toml"),
            "skin.sand_grain_roughness",
            "0 um",
        ),
        1.0,
        0.0,
    );
    let terms = smooth.drag_terms().expect("a body");
    let frozen = |kilometres: f64| {
        mach_numbers()
            .map(|mach| {
                let there = BuildUp::new(&terms, mach, unit_reynolds(kilometres), 0.0).total;
                1.0 - BuildUp::new(&terms, mach, unit_reynolds(0.0), 0.0).total / there
            })
            .fold(0.0, f64::max)
    };
    let (at_12, at_25) = (frozen(12.0), frozen(25.0));
    println!(
        "frozen at sea level: {:.1} % low at 12 km, {:.1} % at 25 km",
        at_12 * 100.0,
        at_25 * 100.0
    );
    assert!(at_12 > 0.15 && at_25 > 0.35, "{at_12} {at_25}");
}

/// The terms add up, the jet takes away its share of the base, and no term is negative.
#[test]
fn the_build_up_is_the_sum_of_its_terms() {
    let stage = example("petrel_slim.toml");
    let terms = stage.drag_terms().expect("a body");
    let exit = stage.point().motor.exit_area / terms.reference_area;
    for mach in mach_numbers() {
        let coast = BuildUp::new(&terms, mach, 7.0, 0.0);
        let burn = BuildUp::new(&terms, mach, 7.0, 1.0);
        let sum = coast.nose + coast.fins_wave + coast.base + coast.friction();
        approx::assert_relative_eq!(coast.total, sum, max_relative = 1e-14);
        approx::assert_relative_eq!(burn.base, coast.base * (1.0 - exit), max_relative = 1e-12);
        assert!(
            [coast.nose, coast.fins_wave, burn.base]
                .iter()
                .all(|term| *term >= 0.0)
        );
        let columns = build_drag(&terms).coefficient(mach, 7.0, 1.0);
        approx::assert_relative_eq!(columns, burn.total, max_relative = 0.006);
    }
}

#[test]
fn a_stated_drag_has_no_terms() {
    let error = example("published/v2_textbook.toml")
        .drag_terms()
        .expect_err("a table");
    assert!(error.to_string().contains("by term"), "{error}");
}
