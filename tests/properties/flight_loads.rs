//! Loads on the tank in flight, and the rail at an elevation, through the whole chain.

use crate::{example, replaced};
use hoopline::stage::{Fault, MassLine, Outcome, Stage};
use hoopline::vessel::fitting::Flown;
use hoopline::vessel::{VesselLoads, dimensions, margins};
use serde_json::{Value, json};
use std::f64::consts::PI;

fn changed(stage: &Stage, changes: &[(&str, Value)]) -> Stage {
    replaced(stage, changes).expect("a stage")
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
        approx::assert_relative_eq!(
            flat.flight_loads.liquid_column,
            expected,
            max_relative = 1e-12
        );
    }
}

/// Between hemispheres the volume below the level is the liquid's.
#[test]
fn column_between_hemispheres() {
    let slim = outcome(&[]);
    let radius = slim.geometry.liner_inner_diameter / 2.0;
    let below = PI * radius * radius * (slim.flight_loads.liquid_column - radius)
        + 2.0 / 3.0 * PI * radius.powi(3);
    let liquid = slim.geometry.tank_volume * (1.0 - slim.load.ullage);
    approx::assert_relative_eq!(below, liquid, max_relative = 1e-12);
    let full = outcome(&[("propellant.ullage", json!(0.001))]);
    let inside = full.geometry.cylinder_length + 2.0 * radius;
    approx::assert_relative_eq!(
        full.flight_loads.liquid_column,
        inside,
        max_relative = 1e-12
    );
}

/// Between flat ends the contents weigh on the aft end with all their mass, whatever the ullage.
#[test]
fn head_between_flat_ends_is_mass_times_acceleration_over_bore() {
    for ullage in [0.05, 0.4, 0.9] {
        let flat = changed(
            &example("petrel_plain.toml"),
            &[
                ("tank.fore_closure.kind", json!("flat_clamped")),
                ("tank.aft_closure.kind", json!("flat_clamped")),
                ("propellant.ullage", json!(ullage)),
            ],
        )
        .outcome();
        let bore = PI / 4.0 * flat.geometry.liner_inner_diameter.powi(2);
        let head = flat.load.oxidiser * flat.ascent.max_axial_acceleration / bore;
        approx::assert_relative_eq!(
            flat.flight_loads.acceleration_head,
            head,
            max_relative = 1e-9
        );
    }
}

/// Between domes it is no less than the mean density over the inside length, nor than liquid and vapour
/// as filled; MEOP stands above it.
#[test]
fn head_between_domes() {
    for ullage in [0.01, 0.25, 0.6, 0.9] {
        let slim = outcome(&[("propellant.ullage", json!(ullage))]);
        let acceleration = slim.ascent.max_axial_acceleration;
        let inside = slim.geometry.cylinder_length + slim.geometry.liner_inner_diameter;
        let full = slim.load.fill_density * inside * acceleration;
        let share = slim.geometry.tank_volume * ullage;
        let (vapour, liquid) = (
            slim.load.vapour / share,
            (slim.load.oxidiser - slim.load.vapour) / (slim.geometry.tank_volume - share),
        );
        let column = slim.flight_loads.liquid_column;
        let filled = (liquid * column + vapour * (inside - column)) * acceleration;
        let head = slim.flight_loads.acceleration_head;
        approx::assert_relative_eq!(head, full.max(filled), max_relative = 1e-9);
        let aft = slim.pressures.meop + head;
        approx::assert_relative_eq!(slim.flight_loads.aft_pressure, aft, max_relative = 1e-12);
        let proof = aft * slim.pressures.proof / slim.pressures.meop;
        approx::assert_relative_eq!(
            slim.flight_loads.proof_with_head,
            proof,
            max_relative = 1e-12
        );
    }
}

/// Without drag the wall pushes the structure ahead of it and nothing else: its mass times the
/// acceleration, largest at burnout.
#[test]
fn force_in_the_wall_without_drag() {
    let stage = changed(
        &example("petrel_slim.toml"),
        &[
            ("drag.friction_multiplier", json!(0.0)),
            ("drag.wave_multiplier", json!(0.0)),
            ("drag.base_multiplier", json!(0.0)),
        ],
    );
    let assessment = stage.assess().expect("a sound design");
    let outcome = &assessment.outcome;
    let motor = outcome.airframe.length - stage.point().motor.length;
    let lines = assessment.mass_lines.iter().map(|row| row.line);
    let ahead: f64 = lines
        .filter(|line| line.station < motor)
        .map(|line| line.basic * (line.growth_share + 1.0))
        .sum();
    let force = ahead * outcome.ascent.max_axial_acceleration;
    approx::assert_relative_eq!(
        outcome.flight_loads.thrust_compression,
        force,
        max_relative = 1e-9
    );
}

/// The margins see the force: a bare liner yields sooner for it, and the chain's margin is the one with it.
#[test]
fn the_flight_margin_of_a_bare_liner_counts_the_thrust() {
    let stage = example("petrel_plain.toml");
    let (outcome, point) = (stage.outcome(), stage.point());
    let side = stage.form().tank.as_ref().expect("a tank");
    let size = dimensions(&side.tank, side.shape, &point.tank);
    let with = |compression: f64| {
        let loads = VesselLoads {
            proof: outcome.pressures.proof,
            burst: outcome.pressures.burst,
            meop: outcome.pressures.meop,
            head: outcome.flight_loads.acceleration_head,
            compression,
            yield_factor: point.rule_set.proof_factor,
            burst_factor: point.rule_set.burst_factor,
            flown: Flown::at_rest(),
        };
        margins(&side.tank, &point.tank, &size, &loads).liner_yield_flight
    };
    let flown = outcome.margins.liner_yield_flight;
    assert_eq!(flown, with(outcome.flight_loads.thrust_compression));
    assert!(flown < with(0.0));
}

/// What is left of the oxidiser fills the tank, so its centre is the tank's.
#[test]
fn the_residual_oxidiser_sits_in_the_middle_of_the_tank() {
    let assessment = example("petrel_slim.toml")
        .assess()
        .expect("a sound design");
    let station = |lines: &[MassLine], name: &str| {
        let line = lines.iter().find(|row| row.name == name);
        line.expect("a line").line.station
    };
    let residual = station(&assessment.propellant_lines[1], "oxidiser residual");
    let cylinder = station(&assessment.mass_lines, "liner cylinder");
    approx::assert_relative_eq!(residual, cylinder, max_relative = 1e-12);
}

/// A mass added at the vehicle's centre of gravity is pushed through the tank's wall like any other ahead
/// of it.
#[test]
fn added_mass_is_pushed_too() {
    let plain = outcome(&[]).flight_loads.thrust_compression;
    let added = outcome(&[("mass.added", json!("5 kg"))])
        .flight_loads
        .thrust_compression;
    let payload = outcome(&[("mass.item[0].mass", json!("9 kg"))])
        .flight_loads
        .thrust_compression;
    assert!(added > plain + 50.0);
    approx::assert_relative_eq!(added, payload, max_relative = 1e-3);
}

/// The wall carries less than the thrust, since the motor is pushed without it, and nothing where a
/// skin passes the tank.
#[test]
fn thrust_through_the_wall() {
    let slim = outcome(&[]);
    let vacuum = slim.thrust.mean + 101_325.0 * example("petrel_slim.toml").point().motor.exit_area;
    assert!(slim.flight_loads.thrust_compression > 0.5 * slim.thrust.mean);
    assert!(slim.flight_loads.thrust_compression < vacuum);
    let bore = PI / 4.0 * slim.geometry.liner_inner_diameter.powi(2);
    approx::assert_relative_eq!(
        slim.flight_loads.slack_pressure * bore,
        slim.flight_loads.thrust_compression,
        max_relative = 1e-12
    );
    let skinned = outcome(&[
        ("follow.skin", json!("skin_over_tank")),
        ("skin.gap", json!("2 mm")),
    ]);
    assert_eq!(skinned.flight_loads.thrust_compression, 0.0);
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
    let seam = [(
        "tank.liner.longitudinal_seam.basis",
        json!("weld_zone_strength"),
    )];
    let seamed = changed(&example("petrel_plain.toml"), &seam);
    let pushed = changed(&seamed, &[("motor.thrust", json!("12 kN"))])
        .outcome()
        .margins;
    let seamed = seamed.outcome().margins;
    assert!(pushed.longitudinal_seam_flight < seamed.longitudinal_seam_flight);
    assert!(seamed.longitudinal_seam_flight < seamed.longitudinal_seam_proof);
    assert_eq!(
        pushed.longitudinal_seam_proof,
        seamed.longitudinal_seam_proof
    );
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
        max_relative = 3e-6 // on the trade grid, whose steps differ between the courses
    );
    let mut last = ninety.ascent;
    for degrees in ["86 deg", "80 deg", "70 deg"] {
        let ascent = outcome(&[("rail.elevation", json!(degrees))]).ascent;
        assert!(ascent.apogee < last.apogee);
        assert!(ascent.downrange > last.downrange);
        assert!(ascent.apogee_speed > last.apogee_speed);
        last = ascent;
    }
    // The least elevation, written in degrees, is within the limit.
    assert!(outcome(&[("rail.elevation", json!("30 deg"))]).status.code == 0.0);
    let held = outcome(&[
        ("rail.length", json!("100 m")),
        ("propellant.oxidiser_residual", json!("90 %")),
        ("propellant.ullage", json!("97 %")),
    ]);
    assert_eq!(Fault::from_code(held.status.code), Some(Fault::HeldByRail));
}
