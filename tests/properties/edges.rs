//! Edges of what is accepted, and what must not pass in silence.

use crate::{cautions, example, example_file, replaced, with};
use hoopline::quantity::show;
use hoopline::stage::{Fault, INPUTS, Stage};
use serde_json::{Value, json};
use std::path::Path;

/// A limit as printed in its own error can be written.
#[test]
fn limits_as_printed_are_allowed() {
    let stage = example("petrel_slim.toml");
    for field in &INPUTS.fields {
        for limit in [field.lower, field.upper] {
            let text = show(limit, field.quantity);
            let read = stage.read(&field.path, &json!(text));
            assert!(read.is_ok(), "{}: {text}: {read:?}", field.path);
        }
    }
}

#[test]
fn just_outside_says_so() {
    let slim = example("petrel_slim.toml");
    let error =
        replaced(&slim, &[("rail.elevation", json!("90.0001 deg"))]).expect_err("too steep");
    assert!(
        error.to_string().contains("90.0001 deg is outside"),
        "{error}"
    );
}

#[test]
fn orbital_speed_is_a_fault_and_never_an_apogee() {
    let file = example_file("published/v2_textbook.toml");
    let folder = file.parent().expect("a folder").to_owned();
    let text = std::fs::read_to_string(&file).expect("a file");
    let inclined = text.replace(
        "[propellant]",
        "[rail]\ndirection = \"inclined\"\nelevation = \"80 deg\"\nlength = \"20 m\"\n\n[propellant]",
    );
    let stage = Stage::from_toml(&inclined, &folder.join("inclined.toml")).expect("a stage");
    let fault = |changes: &[(&str, Value)]| {
        let outcome = replaced(&stage, changes).expect("a stage").outcome();
        Fault::from_code(outcome.status.code)
    };
    assert_eq!(fault(&[]), None);
    assert_eq!(
        fault(&[("motor.specific_impulse", json!("1000 s"))]),
        Some(Fault::Lost)
    );
    let jet = [
        ("motor.thrust", json!("100 N")),
        ("motor.exit_area", json!("1 m2")),
    ];
    let slim = replaced(&example("petrel_slim.toml"), &jet).expect("a stage");
    assert_eq!(
        Fault::from_code(slim.outcome().status.code),
        Some(Fault::Lost)
    );
}

#[test]
fn air_warmer_than_the_soak_has_a_caution() {
    let day = |degrees: f64| {
        let changes = [
            ("atmosphere.model", json!("off_standard_day")),
            (
                "atmosphere.site_temperature",
                json!(format!("{degrees} degC")),
            ),
            ("atmosphere.site_pressure", json!("982 hPa absolute")),
        ];
        cautions(&replaced(&example("petrel_slim.toml"), &changes).expect("a stage"))
    };
    assert!(
        day(41.0).contains("the air at the site has 41 degC"),
        "{}",
        day(41.0)
    );
    assert!(!day(34.0).contains("the air at the site"));
}

/// From a low rail gravity turns the climb, which the closed form does not know; the two part, and it is
/// said.
#[test]
fn an_estimate_far_off_is_told() {
    let slim = example("petrel_slim.toml");
    assert!(!cautions(&slim).contains("closed-form estimate"));
    let low = replaced(&slim, &[("rail.elevation", json!("45 deg"))]).expect("a stage");
    assert!(cautions(&low).contains("closed-form estimate of the apogee departs by +102 %"));
}

#[test]
fn what_if_inputs_are_named() {
    let slim = example("petrel_slim.toml");
    assert!(!cautions(&slim).contains("what-if"));
    let changes = [
        ("mass.added", json!("-2 kg")),
        ("drag.base_multiplier", json!(0.5)),
    ];
    let text = cautions(&replaced(&slim, &changes).expect("a stage"));
    assert!(
        text.contains("what-if: mass.added = -2 kg, drag.base_multiplier = 0.5"),
        "{text}"
    );
}

#[test]
fn pressure_units_that_are_not_known_are_named() {
    let slim = example("petrel_slim.toml");
    let read = |text: &str| {
        slim.read("pressure.stated", &json!(text))
            .expect_err("no unit")
            .to_string()
    };
    assert!(read("29 inHg gauge").contains("unit \"inHg gauge\" is not"));
    assert!(read("60 bar absolute").contains("wrong pressure basis"));
}

/// What is missing is asked for with its units, and with no value that someone might take over.
#[test]
fn what_is_missing_names_units_and_no_value() {
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    for (line, how) in [
        ("elevation", "write a number in rad, deg"),
        ("soak_temperature", "write a number in K, degC"),
        (
            "wall_under_tolerance",
            "write a bare number or a number in %",
        ),
        ("direction", "choose \"vertical\", \"inclined\""),
    ] {
        let kept = text.lines().filter(|row| !row.starts_with(line));
        let kept = kept.collect::<Vec<_>>().join("\n");
        let error = Stage::from_toml(&kept, Path::new("tank.toml")).expect_err("missing");
        let message = error.to_string();
        assert!(
            message.contains("is missing") && message.contains(how),
            "{message}"
        );
    }
}

#[test]
fn a_list_written_as_a_table_says_how() {
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    let table = format!("{text}\n[mass.maturity]\nname = \"x\"\n");
    let error = Stage::from_toml(&table, Path::new("tank.toml")).expect_err("a table");
    assert!(
        error.to_string().contains("write [[mass.maturity]]"),
        "{error}"
    );
}

#[test]
fn factors_of_ones_own_keep_the_scope_of_what_they_replace() {
    let own = replaced(
        &example("petrel_slim.toml"),
        &[
            ("rule_set.name", json!("ISO 11119-2:2020")),
            ("rule_set.burst_factor", json!(2.5)),
        ],
    );
    assert!(cautions(&own.expect("a stage")).contains("excludes welded liners"));
}

#[test]
fn a_name_that_is_not_on_record_lists_those_that_are() {
    let slim = example("petrel_slim.toml");
    for (path, known) in [
        ("tank.liner.metal.name", "6061-T6 drawn tube"),
        (
            "tank.overwrap.fibre.name",
            "standard modulus carbon, 3530 MPa",
        ),
        ("rule_set.name", "DOT-CFFC, fifth revision"),
        ("mass.item[0].maturity", "off-the-shelf"),
    ] {
        let error = replaced(&slim, &[(path, json!("zzz"))])
            .expect_err("unknown")
            .to_string();
        assert!(error.starts_with(path) && error.contains(known), "{error}");
    }
}

#[test]
fn classes_of_maturity_are_unambiguous() {
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    let with = |rows: &str| {
        let error = Stage::from_toml(&format!("{text}\n{rows}"), Path::new("tank.toml"));
        error.expect_err("refused").to_string()
    };
    let row = |name: &str, source: &str| {
        format!(
            "[[mass.maturity]]\nname = \"{name}\"\ngrowth_allowance = 0.1\nsource = \"{source}\"\n"
        )
    };
    let twice = with(&(row("mine", "own") + &row("mine", "own")));
    assert!(twice.contains("already a class \"mine\""), "{twice}");
    assert!(with(&row("off-the-shelf", "own")).contains("already a class"));
    assert!(with(&row("mine", " ")).contains("mass.maturity[0].source is missing"));
    let both = replaced(
        &example("petrel_slim.toml"),
        &[
            ("mass.growth.tank", json!("5 %")),
            ("mass.growth.tank_maturity", json!("off-the-shelf")),
        ],
    );
    assert!(both.expect_err("both").to_string().contains("state one"));
}

#[test]
fn a_tank_without_a_seam_or_burst_in_its_making_has_no_results() {
    let fault = |stage: &Stage| Fault::from_code(stage.outcome().status.code);
    let slim = example("petrel_slim.toml");
    let lacking = |depth: &str| with(&slim, "tank.liner.girth_seam.lack_of_penetration", depth);
    assert_eq!(fault(&lacking("3.22 mm")), None);
    assert_eq!(fault(&lacking("3.24 mm")), Some(Fault::NoSeam));
    let treated = |pressure: &str| with(&slim, "tank.autofrettage_pressure", pressure);
    assert_eq!(fault(&treated("240 bar gauge")), None);
    assert_eq!(
        fault(&treated("9999 bar gauge")),
        Some(Fault::BreaksInAutofrettage)
    );
}
