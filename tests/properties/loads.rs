//! Loads on the tank in flight, and the rail at an elevation, through the whole chain.

use crate::example;
use hoopline::stage::{Fault, Outcome, Stage};
use serde_json::{Value, json};
use std::f64::consts::PI;

fn changed(stage: &Stage, changes: &[(&str, Value)]) -> Stage {
    let changes: Vec<_> = changes
        .iter()
        .map(|(path, value)| ((*path).to_owned(), value.clone()))
        .collect();
    stage.replace(&changes).expect("a stage")
}

fn outcome(changes: &[(&str, Value)]) -> Outcome<f64> {
    changed(&example("petrel_slim.toml"), changes).outcome()
}

/// A cylinder full of liquid between flat ends holds a column as long as itself; with an ullage the
/// column is shorter by that share.
#[test]
fn column_between_flat_ends() {
    for ullage in [0.05, 0.4] {
        let flat = changed(
            &example("petrel_plain.toml"),
            &[
                ("tank.fore_closure.kind", json!("flat_clamped")),
                ("tank.aft_closure.kind", json!("flat_clamped")),
                ("propellant.ullage", json!(ullage)),
            ],
        )
        .outcome();
        let expected = flat.geometry.cylinder_length * (1.0 - ullage);
        approx::assert_relative_eq!(flat.loads.liquid_column, expected, max_relative = 1e-12);
    }
}

/// Between hemispheres the volume below the level is the liquid's.
#[test]
fn column_between_hemispheres() {
    let slim = outcome(&[]);
    let radius = slim.geometry.liner_inner_diameter / 2.0;
    let below = PI * radius * radius * (slim.loads.liquid_column - radius)
        + 2.0 / 3.0 * PI * radius.powi(3);
    let liquid = slim.geometry.tank_volume * (1.0 - slim.load.ullage);
    approx::assert_relative_eq!(below, liquid, max_relative = 1e-12);
    let full = outcome(&[("propellant.ullage", json!(0.001))]);
    let inside = full.geometry.cylinder_length + 2.0 * radius;
    approx::assert_relative_eq!(full.loads.liquid_column, inside, max_relative = 1e-12);
}

/// rho a h, and MEOP above it.
#[test]
fn head_is_density_times_acceleration_times_height() {
    let slim = outcome(&[]);
    let liquid = slim.load.oxidiser - slim.load.vapour;
    let density = liquid / (slim.geometry.tank_volume * (1.0 - slim.load.ullage));
    let head = density * slim.ascent.max_axial_acceleration * slim.loads.liquid_column;
    approx::assert_relative_eq!(slim.loads.acceleration_head, head, max_relative = 1e-9);
    approx::assert_relative_eq!(
        slim.loads.aft_pressure,
        slim.pressures.meop + head,
        max_relative = 1e-9
    );
}

/// The wall carries less than the thrust, since the motor is pushed without it, and nothing where a
/// skin passes the tank.
#[test]
fn thrust_through_the_wall() {
    let slim = outcome(&[]);
    let vacuum = slim.thrust.mean + 101_325.0 * example("petrel_slim.toml").point().motor.exit_area;
    assert!(slim.loads.thrust_compression > 0.5 * slim.thrust.mean);
    assert!(slim.loads.thrust_compression < vacuum);
    let bore = PI / 4.0 * slim.geometry.liner_inner_diameter.powi(2);
    approx::assert_relative_eq!(
        slim.loads.slack_pressure * bore,
        slim.loads.thrust_compression,
        max_relative = 1e-12
    );
    let skinned = outcome(&[
        ("follow.skin", json!("skin_over_tank")),
        ("skin.gap", json!("2 mm")),
    ]);
    assert_eq!(skinned.loads.thrust_compression, 0.0);
}

/// A harder push lowers the margins that see the flight, and no other.
#[test]
fn acceleration_costs_margin_at_the_aft_end() {
    let gentle = outcome(&[]).margins;
    let hard = outcome(&[("motor.thrust", json!("12 kN"))]).margins;
    assert!(hard.aft_closure_burst < gentle.aft_closure_burst);
    assert!(hard.aft_closure_flight < gentle.aft_closure_flight);
    assert!(hard.hoop_burst < gentle.hoop_burst);
    assert!(hard.liner_yield_flight < gentle.liner_yield_flight);
    assert_eq!(hard.fore_closure_burst, gentle.fore_closure_burst);
    assert_eq!(hard.girth_seam_burst, gentle.girth_seam_burst);
    assert_eq!(hard.liner_yield_proof, gentle.liner_yield_proof);
}

#[test]
fn the_rail_s_elevation() {
    let upright = outcome(&[("rail.direction", json!("vertical"))]);
    let ninety = outcome(&[("rail.elevation", json!("90 deg"))]);
    approx::assert_relative_eq!(
        ninety.ascent.apogee,
        upright.ascent.apogee,
        max_relative = 1e-6
    );
    let mut last = ninety.ascent;
    for degrees in ["86 deg", "80 deg", "70 deg"] {
        let ascent = outcome(&[("rail.elevation", json!(degrees))]).ascent;
        assert!(ascent.apogee < last.apogee);
        assert!(ascent.downrange > last.downrange);
        assert!(ascent.apogee_speed > last.apogee_speed);
        last = ascent;
    }
    let held = outcome(&[
        ("rail.length", json!("100 m")),
        ("propellant.oxidiser_residual", json!("90 %")),
        ("propellant.ullage", json!("97 %")),
    ]);
    assert_eq!(Fault::from_code(held.status.code), Some(Fault::HeldByRail));
}
