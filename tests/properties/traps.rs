//! Traps found by attacking the library: each was once accepted in silence.

use crate::{cautions, example, example_file, replaced, with};
use hoopline::stage::{Fault, Stage};
use hoopline::study::{Axis, Progress, sweep};
use serde_json::json;
use std::path::Path;

fn edited(name: &str, from: &str, to: &str) -> hoopline::Result<Stage> {
    let file = example_file(name);
    let text = std::fs::read_to_string(&file).expect("a file");
    assert!(text.contains(from), "{from}");
    Stage::from_toml(&text.replacen(from, to, 1), &file)
}

#[test]
fn a_stated_drag_table_never_leaves_its_own_values() {
    let rows = "table = { rows = [[0, 0.15], [0.8, 0.15], [1, 0.6], [1.2, 0.5], [6, 0.15]] }";
    let stage = edited(
        "published/v2_textbook.toml",
        "table = { file = \"v2_drag.csv\" }",
        rows,
    );
    let drag = stage.expect("a stage").outcome().drag;
    for coefficient in [drag.subsonic, drag.transonic, drag.supersonic] {
        assert!((0.15..=0.6).contains(&coefficient), "{drag:?}");
    }
}

#[test]
fn helical_plies_need_domes_however_the_closure_comes_about() {
    let flat = [("tank.fore_closure.kind", json!("flat_clamped"))];
    let error = replaced(&example("petrel_slim.toml"), &flat).expect_err("no dome");
    assert!(error.to_string().contains("helical"), "{error}");
    let axis = Axis {
        path: "tank.fore_closure.kind".to_owned(),
        values: vec![json!("flat_clamped"), json!("hemisphere")],
    };
    let result = sweep(
        &example("petrel_slim.toml"),
        &[axis],
        None,
        &Progress::default(),
    );
    let result = result.expect("a sweep");
    assert_eq!(
        Fault::from_code(result.status[0]),
        Some(Fault::CannotBeBuilt)
    );
    assert_eq!(result.status[1], 0.0);
    assert!(result.columns.iter().all(|(_, column)| column[0].is_nan()));
}

#[test]
fn a_tank_colder_on_the_pad_than_when_filled_keeps_its_fill_pressure() {
    let cold = with(
        &example("petrel_slim.toml"),
        "pressure.soak_temperature",
        "-20 degC",
    );
    let pressures = cold.outcome().pressures;
    assert!(pressures.meop_closed + pressures.site >= pressures.fill * (1.0 - 1e-12));
}

#[test]
fn above_the_critical_temperature_there_is_a_caution() {
    let hot = with(
        &example("petrel_slim.toml"),
        "pressure.soak_temperature",
        "50 degC",
    );
    assert!(cautions(&hot).contains("critical temperature"));
}

#[test]
fn own_factors_are_not_printed_under_a_published_name() {
    let own = with(&example("petrel_slim.toml"), "rule_set.burst_factor", "1.2");
    assert!(
        own.labels().rule_set.0.contains("stated factors"),
        "{:?}",
        own.labels().rule_set
    );
}

#[test]
fn a_burst_ratio_counts_on_the_proof_pressure_whatever_the_proof_factor() {
    let stage = example("petrel_slim.toml");
    let changes = |proof: f64| {
        [
            ("rule_set.name", json!("ADR 2017, fully wrapped")),
            ("rule_set.proof_factor", json!(proof)),
        ]
    };
    for proof in [1.25, 1.5, 2.0] {
        let counted = replaced(&stage, &changes(proof))
            .expect("a stage")
            .outcome();
        let pressures = counted.pressures;
        assert!(
            (pressures.burst / pressures.proof - 2.0).abs() < 1e-14,
            "{proof}"
        );
        let factors = [
            ("rule_set.proof_factor", json!(proof)),
            ("rule_set.burst_factor", json!(2.0 * proof)),
        ];
        let stated = replaced(&stage, &factors).expect("a stage").outcome();
        assert!(
            (counted.margins.aft_closure_burst - stated.margins.aft_closure_burst).abs() < 1e-13
        );
        assert!((counted.margins.hoop_burst - stated.margins.hoop_burst).abs() < 1e-13);
    }
    let error = replaced(&stage, &changes(1.5)[..1]).expect_err("no proof factor");
    assert!(
        error
            .to_string()
            .contains("rule_set.proof_factor is missing"),
        "{error}"
    );
}

#[test]
fn a_rule_set_keeps_to_its_kind_of_wall_and_a_metal_to_its_thickness() {
    let slim = example("petrel_slim.toml");
    let told = |changes: &[(&str, serde_json::Value)]| {
        cautions(&replaced(&slim, changes).expect("a stage"))
    };
    let by_road = |name: &str| {
        told(&[
            ("rule_set.name", json!(name)),
            ("rule_set.proof_factor", json!(1.5)),
        ])
    };
    assert!(by_road("ADR 2017, hoop wrapped").contains("this tank is wound over its closures"));
    assert!(!by_road("ADR 2017, fully wrapped").contains("this tank is"));
    let metal = |name: &str| {
        told(&[
            ("tank.liner.metal.name", json!(name)),
            ("tank.liner.girth_seam.basis", json!("none")),
        ])
    };
    assert!(metal("6061-T6, weld of filler 4043, typical").contains("are typical, an average"));
    assert!(!metal("5083-O sheet").contains("hold from"));
    let thick = told(&[
        ("tank.liner.metal.name", json!("5083-O sheet")),
        ("tank.liner.girth_seam.basis", json!("none")),
        ("tank.aft_closure.thickness", json!("7 mm")),
    ]);
    assert!(
        thick.contains("hold from 0.2 mm to 6.3 mm of thickness; the aft closure is 7 mm"),
        "{thick}"
    );
}

#[test]
fn a_value_given_with_a_metal_overrides_the_row() {
    let changes = [
        ("tank.liner.metal.density", json!("5000 kg/m3")),
        ("tank.liner.metal.name", json!("4130 normalised tube")),
        ("tank.liner.girth_seam.basis", json!("none")),
    ];
    let stage = replaced(&example("petrel_slim.toml"), &changes).expect("a stage");
    assert_eq!(stage.point().tank.liner.metal.density, 5000.0);
}

#[test]
fn a_skin_thicker_than_the_body_is_a_fault() {
    let thick = with(&example("petrel_slim.toml"), "skin.thickness", "90 mm").outcome();
    assert_eq!(
        Fault::from_code(thick.status.code),
        Some(Fault::SkinFillsBody)
    );
}

/// The wave drag of a nose goes by its length over the diameter of its base; a nozzle wider than the
/// body makes the nose no blunter.
#[test]
fn a_wide_nozzle_leaves_the_nose_as_slender_as_it_is() {
    for (fineness, blunt) in [(2.1, false), (1.9, true)] {
        let changes = [
            ("motor.exit_area", json!(0.03)),
            ("nose.fineness_ratio", json!(fineness)),
        ];
        let wide = replaced(&example("petrel_slim.toml"), &changes).expect("a stage");
        let airframe = wide.outcome().airframe;
        let nozzle = (0.03 * 4.0 / std::f64::consts::PI).sqrt();
        approx::assert_relative_eq!(airframe.frontal_diameter, nozzle, max_relative = 1e-15);
        assert!(airframe.diameter < 0.9 * nozzle, "{airframe:?}");
        let told = cautions(&wide);
        assert!(told.contains("wider than the body"), "{told}");
        assert_eq!(told.contains("nose fineness 1.9"), blunt, "{told}");
        assert_eq!(told.contains("nose fineness"), blunt, "{told}");
    }
}

#[test]
fn a_rule_changes_only_on_a_design_that_closes() {
    let small = with(&example("petrel_slim.toml"), "tank.volume", "1 L");
    let error =
        replaced(&small, &[("follow.tank", json!("length"))]).expect_err("it does not close");
    assert!(error.to_string().contains("closures"), "{error}");
}

#[test]
fn an_unstable_vehicle_has_a_caution() {
    let file = example_file("petrel_slim.toml");
    let text = std::fs::read_to_string(&file).expect("a file");
    let (before, rest) = text.split_once("[fins]").expect("fins");
    let (_, after) = rest.split_once("[motor]").expect("a motor");
    let bare = Stage::from_toml(&format!("{before}[motor]{after}"), &file).expect("a stage");
    assert!(cautions(&bare).contains("unstable"));
}

#[test]
fn empty_tables_and_misplaced_ones_are_refused() {
    for (from, to, wanted) in [
        (
            "[rail]\ndirection = \"inclined\"\nelevation = \"86 deg\"\nlength = \"8 m\"",
            "[rail]",
            "rail is empty",
        ),
        (
            "place = \"motor\"\n",
            "place = \"motor\"\n\n[[mass.item]]\n",
            "is empty",
        ),
        (
            "outer_diameter = \"160 mm\"",
            "outer_diameter = { value = 1 }",
            "one value, not a table",
        ),
        ("shape = \"von_karman\"", "shape = 3", "is not a word"),
    ] {
        let error = edited("petrel_slim.toml", from, to).expect_err("refused");
        assert!(error.to_string().contains(wanted), "{error}");
    }
}

#[test]
fn dependent_changes_are_stored_together() {
    let changes = [
        ("tank.liner.girth_seam.basis", json!("joint_efficiency")),
        ("tank.liner.girth_seam.joint_efficiency", json!(0.7)),
    ];
    let stage = replaced(&example("petrel_slim.toml"), &changes).expect("a stage");
    let again = Stage::restore(&stage.store()).expect("restored");
    assert_eq!(stage.digest(), again.digest());
    let asked = replaced(&example("petrel_slim.toml"), &changes[..1]).expect_err("efficiency");
    assert!(
        asked.to_string().contains("joint_efficiency is missing"),
        "{asked}"
    );
}

#[test]
fn too_many_threads_and_too_large_grids_are_refused() {
    let stage = example("petrel_slim.toml");
    let axis = |path: &str, count: u32| Axis {
        path: path.to_owned(),
        values: (0..count)
            .map(|k| json!(0.15 + 1e-6 * f64::from(k)))
            .collect(),
    };
    let axes = [
        axis("tank.outer_diameter", 7000),
        axis("propellant.ullage", 7000),
    ];
    let error = sweep(&stage, &axes, None, &Progress::default()).expect_err("too large");
    assert!(error.to_string().contains("cases"));
    let error =
        sweep(&stage, &axes[..1], Some(100_000), &Progress::default()).expect_err("threads");
    assert!(error.to_string().contains("threads"));
}

#[test]
fn what_is_no_file_is_refused() {
    let error = Stage::load(Path::new("/dev/zero")).expect_err("a device");
    assert!(error.to_string().contains("regular file"), "{error}");
}

#[test]
fn a_welded_liner_outside_the_scope_of_its_rule_set_has_a_caution() {
    let slim = example("petrel_slim.toml");
    let excluded = |stage: &Stage| {
        let cautions = stage.assess().expect("a sound design").cautions;
        cautions
            .iter()
            .any(|text| text.contains("excludes welded liners"))
    };
    for name in ["ISO 11119-2:2020", "DOT-CFFC, fifth revision"] {
        let welded = with(&slim, "rule_set.name", name);
        assert!(excluded(&welded), "{name}");
        assert!(!excluded(&with(
            &welded,
            "tank.liner.girth_seam.basis",
            "none"
        )));
    }
    assert!(!excluded(&slim));
}

#[test]
fn an_autofrettage_above_proof_is_held_against_closures_and_edges() {
    let slim = example("petrel_slim.toml");
    assert!(
        !cautions(&with(&slim, "tank.autofrettage_pressure", "110 bar gauge"))
            .contains("at which these margins stand")
    );
    let told = cautions(&with(&slim, "tank.autofrettage_pressure", "235 bar gauge"));
    let outcome = slim.outcome();
    let at = (1.0 + outcome.margins.aft_closure_proof) * outcome.pressures.proof / 235e5 - 1.0;
    assert!(at < 0.0);
    let shown = format!(
        "margins.aft_closure_proof {:+.2}",
        (at * 100.0).floor() / 100.0
    );
    assert!(told.contains(&shown), "{shown} in {told}");
}
