//! Fittings: what holds whatever the numbers, and that their margins go through lanes, duals and the screen.

use crate::{cautions, derivative, example_file, lanes, replaced};
use hoopline::numerics::Real;
use hoopline::stage::{Stage, assess, at_rest};
use hoopline::vessel::fitting::{clamping_force, growth_peak, transfer_peak};
use serde_json::{Value, json};
use std::path::Path;

const FITTINGS: &str = r#"
[[tank.fitting]]
name = "lug"
kind = "wound_in"
length = "60 mm"
width = "20 mm"
height = "4 mm"
load_height = "12 mm"
fasteners = 2
fastener_area = "14.2 mm2"
fastener_shear_strength = "400 MPa"
fastener_tensile_strength = "700 MPa"
fastener_lever = "45 mm"
friction_coefficient = 0.25
[tank.fitting.thrust]
carried_mass = "1.5 kg"
[tank.fitting.handling]
radial_force = "150 N"

[[tank.fitting]]
name = "bracket"
kind = "bonded"
length = "40 mm"
width = "20 mm"
height = "3 mm"
load_height = "10 mm"
fasteners = 1
fastener_area = "8.78 mm2"
fastener_shear_strength = "400 MPa"
fastener_tensile_strength = "700 MPa"
fastener_lever = "10 mm"
elastic_modulus = "70 GPa"
poisson_ratio = 0.33
glue_thickness = "2 mm"
glue_shear_modulus = "2 MPa"
bond_shear_strength = "2 MPa"
bond_peel_strength = "1 MPa"
[tank.fitting.drag]
drag_area = "4 cm2"
"#;

/// The slim example with both kinds of fitting.
fn fitted() -> Stage {
    let file = example_file("petrel_slim.toml");
    let text = std::fs::read_to_string(&file).expect("an example");
    let text = text
        .replace("fittings_mass", "fitting_factor = 2\nfittings_mass")
        .replace(
            "fibre_volume_fraction =",
            "winding_stress = \"60 MPa\"\nfibre_volume_fraction =",
        );
    Stage::from_toml(&(text + FITTINGS), Path::new("fitted.toml")).expect("a readable stage")
}

fn margins(stage: &Stage, changes: &[(&str, Value)]) -> [f64; 3] {
    let margins = replaced(stage, changes)
        .expect("a change")
        .outcome()
        .margins;
    [
        margins.fitting_hold,
        margins.fitting_bond,
        margins.fitting_fastener,
    ]
}

#[test]
fn margins_move_as_strength_and_load_do() {
    let stage = fitted();
    let before = margins(&stage, &[]);
    assert!(before.iter().all(|margin| margin.is_finite()), "{before:?}");
    // Which of hold, bond and fasteners each change moves: up, down, or not at all.
    for (path, value, moves) in [
        ("tank.overwrap.winding_stress", json!("80 MPa"), [1, 0, 0]),
        ("tank.fitting[0].length", json!("70 mm"), [1, 0, 0]),
        ("tank.fitting[0].width", json!("24 mm"), [1, 0, 0]),
        (
            "tank.fitting[0].friction_coefficient",
            json!(0.1),
            [-1, 0, 0],
        ),
        (
            "tank.fitting[0].handling.radial_force",
            json!("300 N"),
            [-1, 0, 0],
        ),
        (
            "tank.fitting[0].thrust.tank_pressure",
            json!("20 bar gauge"),
            [1, 0, 0],
        ),
        ("tank.fitting[1].glue_thickness", json!("3 mm"), [0, 1, 0]),
        (
            "tank.fitting[1].glue_shear_modulus",
            json!("4 MPa"),
            [0, -1, 0],
        ),
        (
            "tank.fitting[1].bond_peel_strength",
            json!("2 MPa"),
            [0, 1, 0],
        ),
        (
            "tank.fitting[1].drag.drag_area",
            json!("8 cm2"),
            [0, -1, -1],
        ),
        ("tank.fitting[1].fastener_area", json!("20 mm2"), [0, 0, 1]),
        ("tank.fitting_factor", json!(2.5), [-1, -1, -1]),
    ] {
        let after = margins(&stage, &[(path, value)]);
        let moved = [0, 1, 2].map(|at| match after[at].partial_cmp(&before[at]) {
            Some(order) => order as i32,
            None => panic!("{path}: {after:?}"),
        });
        assert_eq!(moved, moves, "{path}: {before:?} to {after:?}");
    }
}

/// Half the load by twice the factor is the same; twice both is a factor of four.
#[test]
fn a_factor_multiplies_the_load() {
    let stage = fitted();
    let path = "tank.fitting[0].handling.radial_force";
    let [hold, ..] = margins(&stage, &[(path, json!("300 N"))]);
    let more = [(path, json!("600 N")), ("tank.fitting_factor", json!(4.0))];
    let [less, ..] = margins(&stage, &more);
    approx::assert_relative_eq!((hold + 1.0) / (less + 1.0), 4.0, max_relative = 1e-12);
}

#[test]
fn the_same_bits_in_lanes_and_derivatives_that_agree() {
    let stage = fitted();
    lanes::in_lanes::<8>(&stage, &lanes::mixed(&stage));
    for (input, result) in [
        ("tank.overwrap.winding_stress", "margins.fitting_hold"),
        ("tank.fitting[0].height", "margins.fitting_hold"),
        ("tank.fitting[1].glue_shear_modulus", "margins.fitting_bond"),
        ("motor.thrust", "margins.fitting_fastener"),
        ("tank.fitting[1].load_height", "margins.fitting_fastener"),
    ] {
        derivative::agree(&stage, input, result);
    }
}

#[test]
fn the_screen_knows_no_margin_that_the_flight_loads() {
    let stage = fitted();
    let (form, point) = (stage.form(), stage.point());
    let rest = at_rest(form, &point).margins;
    for margin in [rest.fitting_hold, rest.fitting_bond, rest.fitting_fastener] {
        assert!(margin.is_nan());
    }
    assert!(assess(form, &point).margins.fitting_hold.is_finite());
}

/// The margins are the smallest of the sheet, and every result is explained.
#[test]
fn the_sheet_has_the_margins() {
    let stage = fitted();
    let sheet = stage.fittings().expect("fittings");
    let margins = stage.outcome().margins;
    let least = |column: &dyn Fn(&hoopline::stage::FittingRow<f64>) -> f64| {
        let rows = sheet.iter().flat_map(|fitting| &fitting.rows);
        rows.map(column)
            .filter(|margin| !margin.is_nan())
            .fold(f64::INFINITY, f64::min)
    };
    let hold = least(&|row| row.sliding_margin).min(least(&|row| row.lifting_margin));
    assert_eq!(hold, margins.fitting_hold);
    assert_eq!(least(&|row| row.bond_margin), margins.fitting_bond);
    assert_eq!(least(&|row| row.fastener_margin), margins.fitting_fastener);
    for leaf in ["hold", "bond", "fastener"] {
        let path = format!("margins.fitting_{leaf}");
        stage.explain(&path).expect(&path);
    }
    let strong = [("tank.fitting[1].bond_shear_strength", json!("3 MPa"))];
    let soft = replaced(&stage, &strong).expect("a change");
    soft.explain("margins.fitting_bond")
        .expect("explained in flight or in the proof test");
    let [lug, bracket] = &sheet[..] else {
        panic!("two fittings")
    };
    assert_eq!(
        (&lug.cases[..], bracket.cases.last()),
        (&["thrust", "handling"][..], Some(&"proof"))
    );
}

#[test]
fn a_clamp_that_the_empty_tank_loses_is_told() {
    let stage = fitted();
    assert!(!cautions(&stage).contains("loses its clamp"));
    let slack =
        replaced(&stage, &[("tank.overwrap.winding_stress", json!(0.0))]).expect("a change");
    assert!(cautions(&slack).contains("\"lug\" loses its clamp"));
    assert!(slack.outcome().margins.fitting_hold < -0.999);
    let [empty, full] = slack.fittings().expect("fittings")[0]
        .clamping
        .expect("a clamp");
    assert!(empty == 0.0 && full > 1000.0, "{empty}, {full}");
}

/// A pad without height bears the wrap's pressure on its chord; one without width two kinks; a wider, higher or longer
/// one more.
#[test]
fn clamping_in_its_limits() {
    let (pull, radius): (f64, f64) = (40e3, 0.08);
    for step in 1..20 {
        let width = 0.002 * f64::from(step);
        let flat = clamping_force(pull, radius, 0.05, width, 0.0);
        let chord = 2.0 * radius * Real::sin(width / (2.0 * radius));
        approx::assert_relative_eq!(flat, pull / radius * chord * 0.05, max_relative = 1e-12);
        assert!(clamping_force(pull, radius, 0.05, width, 0.002) > flat);
        assert!(clamping_force(pull, radius, 0.06, width, 0.0) > flat);
    }
}

/// Short or long, glue carries between the limits of a rigid pad and of one that strains with the wall; a load is
/// handed over whole, so that its peak never lies below the mean.
#[test]
fn shear_lag_in_its_limits() {
    let (pad, wall, glue, strain) = (2e8, 3e8, 1e12, 1e-3);
    for step in 1..40 {
        let length = 0.005 * f64::from(step);
        let peak = growth_peak(strain, pad, glue, length);
        let rigid = strain * glue * length / 2.0;
        let following = strain * f64::sqrt(pad * glue);
        assert!(peak < rigid && peak < following, "{length}");
        let mean = 1e4 / length;
        let handed = transfer_peak(1e4, pad, wall, glue, length);
        assert!(handed > mean);
        assert!(handed <= transfer_peak(1e4, pad, 1e30, glue, length) * (1.0 + 1e-12));
    }
    let long = growth_peak(strain, pad, glue, 2.0);
    approx::assert_relative_eq!(long, strain * f64::sqrt(pad * glue), max_relative = 1e-9);
}
