//! Forward derivatives through the whole chain against differences.

use crate::example;
use hoopline::numerics::Dual;
use hoopline::stage::{INPUTS, RESULTS, Stage, assess, outcome_slots, point};

fn derivative(stage: &Stage, input: &str, result: &str) -> f64 {
    let slot = INPUTS.slot(input).expect("an input");
    let mut slots = stage.slots().map(|value| Dual::<1> {
        value,
        partials: [0.0],
    });
    slots[slot].partials[0] = 1.0;
    let outcome = assess(stage.form(), &point(&slots));
    let zero = Dual {
        value: 0.0,
        partials: [0.0],
    };
    outcome_slots(&outcome, zero)[RESULTS.slot(result).expect("a result")].partials[0]
}

/// Fourth-order central difference; its error is far below the tolerance for steps of this size.
fn difference(stage: &Stage, input: &str, result: &str) -> f64 {
    let slot = INPUTS.slot(input).expect("an input");
    let at = |value: f64| {
        let mut slots = *stage.slots();
        slots[slot] = value;
        outcome_slots(&assess(stage.form(), &point(&slots)), 0.0)
            [RESULTS.slot(result).expect("a result")]
    };
    let x = stage.slots()[slot];
    let h = if x == 0.0 { 1e-3 } else { x.abs() * 1e-4 };
    (8.0 * (at(x + h) - at(x - h)) - (at(x + 2.0 * h) - at(x - 2.0 * h))) / (12.0 * h)
}

/// The derivative of a result by an input agrees with its central difference, and is there. Where the number of
/// steps changes between two neighbours the apogee jumps by part of its error, so that the difference is
/// taken on the fine grid.
pub(crate) fn agree(stage: &Stage, input: &str, result: &str) {
    let stage = &crate::with(stage, "ascent.grid", "fine");
    let exact = derivative(stage, input, result);
    assert!(exact != 0.0, "{result} does not move with {input}");
    let estimate = difference(stage, input, result);
    approx::assert_relative_eq!(exact, estimate, max_relative = 2e-5);
}

#[test]
fn derivatives_agree_with_differences() {
    let stage = example("petrel_slim.toml");
    for (input, result) in [
        ("tank.outer_diameter", "ascent.apogee"),
        ("tank.liner.wall", "ascent.apogee"),
        ("tank.volume", "ascent.apogee"),
        ("propellant.ullage", "ascent.apogee"),
        ("propellant.fill_temperature", "ascent.apogee"),
        ("pressure.soak_temperature", "margins.girth_seam_proof"),
        ("motor.specific_impulse", "ascent.burnout_altitude"),
        ("motor.thrust", "ascent.max_dynamic_pressure"),
        ("skin.sand_grain_roughness", "ascent.apogee"),
        ("nose.fineness_ratio", "ascent.apogee"),
        ("fins.static_margin", "geometry.fin_root_chord"),
        ("tank.overwrap.ply[0].angle", "margins.axial_burst"),
        ("mass.added", "ascent.apogee"),
        ("drag.friction_multiplier", "ascent.apogee"),
        ("drag.wave_multiplier", "ascent.apogee"),
        ("drag.base_multiplier", "ascent.max_mach"),
        ("rail.elevation", "ascent.apogee"),
        ("rail.elevation", "ascent.downrange"),
        ("motor.thrust", "flight_loads.thrust_compression"),
        ("site.altitude", "ascent.apogee"),
    ] {
        agree(&stage, input, result);
    }
}

#[test]
fn derivatives_by_the_readings_of_a_day() {
    let stage = crate::hot_day();
    for (input, result) in [
        ("atmosphere.site_temperature", "ascent.apogee"),
        ("atmosphere.site_pressure", "ascent.apogee"),
        ("atmosphere.site_pressure", "pressures.meop_closed"),
        ("site.altitude", "ascent.apogee"),
    ] {
        agree(&stage, input, result);
    }
}

#[test]
fn a_torisphere_has_its_derivatives() {
    let stage = crate::vessel::dished(0.9, 0.12);
    for (input, result) in [
        (
            "tank.aft_closure.crown_radius_ratio",
            "geometry.tank_length",
        ),
        ("tank.fore_closure.knuckle_radius_ratio", "ascent.apogee"),
        (
            "tank.aft_closure.knuckle_radius_ratio",
            "margins.aft_closure_flight",
        ),
        (
            "tank.aft_closure.thickness_under_tolerance",
            "margins.aft_closure_burst",
        ),
        (
            "tank.liner.wall_under_tolerance",
            "margins.liner_yield_flight",
        ),
    ] {
        agree(&stage, input, result);
    }
    // Where crown and knuckle are one sphere an input that moves neither still has its derivative.
    let round = crate::vessel::dished(0.5, 0.5);
    let exact = derivative(&round, "tank.volume", "geometry.tank_length");
    let estimate = difference(&round, "tank.volume", "geometry.tank_length");
    approx::assert_relative_eq!(exact, estimate, max_relative = 2e-5);
}

#[test]
fn an_isotensoid_has_its_derivatives() {
    let stage = crate::isotensoid::wound();
    for (input, result) in [
        (
            "tank.aft_closure.turning_radius_ratio",
            "geometry.tank_length",
        ),
        ("tank.fore_closure.turning_radius_ratio", "tank.mass"),
        (
            "tank.aft_closure.turning_radius_ratio",
            "margins.aft_closure_burst",
        ),
        (
            "tank.aft_closure.turning_radius_ratio",
            "margins.aft_junction_proof",
        ),
    ] {
        agree(&stage, input, result);
    }
}

#[test]
fn a_bolted_bulkhead_has_its_derivatives() {
    let stage = crate::bolts::both_ends("petrel_hoop.toml");
    let bolts = |leaf: &str| format!("tank.aft_closure.bolts.{leaf}");
    for (input, result) in [
        (bolts("edge_distance"), "margins.aft_shear_out_burst"),
        (bolts("hole_diameter"), "margins.aft_net_section_flight"),
        (bolts("rim_length"), "tank.mass"),
        ("tank.liner.wall".to_owned(), "margins.aft_seal_gap_flight"),
    ] {
        agree(&stage, &input, result);
    }
}

#[test]
fn lift_off_of_a_slow_start_has_its_derivative() {
    let text = std::fs::read_to_string(crate::example_file("petrel_slim.toml")).expect("a file");
    let ramp = "curve = { rows = [[0, 0], [1.5, 4000], [6, 4600], [7, 3000], [8, 0]] }";
    let text = text.replace("thrust = \"4200 N\"", ramp);
    let stage = Stage::from_toml(&text, std::path::Path::new("ramp.toml")).expect("a stage");
    assert!(stage.outcome().ascent.lift_off_time > 0.1);
    for result in ["ascent.lift_off_time", "ascent.apogee"] {
        let exact = derivative(&stage, "mass.added", result);
        let estimate = difference(&stage, "mass.added", result);
        assert!(exact != 0.0, "{result} does not move");
        approx::assert_relative_eq!(exact, estimate, max_relative = 2e-5);
    }
}
