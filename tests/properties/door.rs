//! Bad input gets an error that says what is wrong, where, and what would be right.

use crate::{example, example_file};
use hoopline::stage::Stage;
use std::path::Path;

fn complaint(from: &str, to: &str) -> String {
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    assert!(text.contains(from), "{from} is not in the example");
    let text = text.replacen(from, to, 1);
    let error = Stage::from_toml(&text, Path::new("bad.toml")).expect_err("an error");
    error.to_string()
}

/// What stands in the example, what is written instead, and what the complaint must say.
const MISTAKES: &[(&str, &str, &str)] = &[
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"-160 mm\"",
        "outside 20 mm to 3000 mm",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"0 mm\"",
        "outside 20 mm",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"160 km\"",
        "outside 20 mm",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"nan mm\"",
        "does not begin with a number",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"160 bar\"",
        "not a length",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"160\"",
        "no unit",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = 160",
        "no unit",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = nan",
        "not a finite number",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = inf",
        "not a finite number",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diametre = \"160 mm\"",
        "did you mean \"tank.outer_diameter\"",
    ),
    (
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"160 mm\"\nlength = \"1 m\"",
        "state one",
    ),
    ("outer_diameter = \"160 mm\"\n", "", "exactly two of"),
    ("[nose]", "[noze]", "did you mean \"nose\""),
    (
        "wall = \"3.4 mm\"",
        "wall = \"80 mm\"",
        "inside diameter of",
    ),
    (
        "volume = \"24 L\"",
        "volume = \"1 L\"",
        "closures alone are too large",
    ),
    (
        "ullage = \"25 %\"",
        "oxidiser_mass = \"40 kg\"",
        "cannot hold the load",
    ),
    (
        "thrust = \"4200 N\"",
        "thrust = \"100 N\"",
        "thrust never exceeds weight",
    ),
    (
        "basis = \"closed\"",
        "basis = \"stated\"",
        "pressure.reason is missing",
    ),
    (
        "soak_temperature = \"35 degC\"\n",
        "",
        "pressure.soak_temperature is missing",
    ),
    (
        "name = \"6061-T6 extrusion, as welded\"",
        "name = \"6061-T6 drawn tube\"",
        "weld_zone_yield_strength is missing",
    ),
    (
        "name = \"6061-T6 extrusion, as welded\"",
        "name = \"6061-T6 drawn tubes\"",
        "did you mean \"6061-T6 drawn tube\"",
    ),
    (
        "kind = \"hemisphere\"",
        "kind = \"flat_clamped\"",
        "end free",
    ),
    (
        "kind = \"hemisphere\"",
        "kind = \"hemisfere\"",
        "did you mean \"hemisphere\"",
    ),
    ("count = 4", "count = 7", "three or four fins"),
    ("schema = 1", "schema = 2", "schema = 1"),
    ("schema = 1", "schema = ", "bad.toml:2:"),
    (
        "thrust = \"4200 N\"",
        "curve = { rows = [] }",
        "at least two points",
    ),
    (
        "thrust = \"4200 N\"",
        "curve = { rows = [[0, 1], [2, 5], [1, 5]] }",
        "times must ascend",
    ),
    (
        "thrust = \"4200 N\"",
        "curve = { rows = [[0, 1], [2, -5]] }",
        "not below zero",
    ),
    (
        "thrust = \"4200 N\"",
        "curve = { rows = [[0, 0], [2, 0]] }",
        "zero throughout",
    ),
    (
        "thrust = \"4200 N\"",
        "curve = { file = \"nowhere.csv\" }",
        "there is no such file",
    ),
    ("thrust = \"4200 N\"", "curve = 5", "is not a table"),
    (
        "thrust = \"4200 N\"\n",
        "",
        "motor.thrust, motor.burn_time is missing",
    ),
    (
        "soak_temperature = \"35 degC\"",
        "stated = \"60 bar\"",
        "does not say whether it is gauge or absolute",
    ),
    (
        "soak_temperature = \"35 degC\"",
        "stated = \"60 bar absolute\"",
        "wrong pressure basis",
    ),
];

#[test]
fn each_mistake_is_explained() {
    for (from, to, wanted) in MISTAKES {
        let message = if wanted.contains("thrust never") {
            let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
            let stage = Stage::from_toml(&text.replacen(from, to, 1), Path::new("bad.toml"))
                .expect("readable");
            stage.assess().expect_err("no ascent").to_string()
        } else {
            complaint(from, to)
        };
        assert!(
            message.contains(wanted),
            "{to}\n  said: {message}\n  wanted: {wanted}"
        );
    }
}

/// What is printed for several changes of the example, its first lines in the order told.
fn told(changes: &[(&str, &str)]) -> Vec<String> {
    let mut text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    for (from, to) in changes {
        assert!(text.contains(from), "{from} is not in the example");
        text = text.replacen(from, to, 1);
    }
    let error = Stage::from_toml(&text, Path::new("bad.toml")).expect_err("an error");
    let shown = error.to_string();
    let firsts = shown.lines().filter(|line| line.starts_with("bad.toml:"));
    firsts.map(str::to_owned).collect()
}

#[test]
fn every_independent_mistake_is_told_in_the_order_of_the_file() {
    let told = told(&[
        ("count = 4", "count = 7"),
        (
            "outer_diameter = \"160 mm\"",
            "outer_diameter = \"160 bar\"",
        ),
        ("kind = \"hemisphere\"", "kind = \"hemisfere\""),
        ("soak_temperature = \"35 degC\"\n", ""),
    ]);
    assert_eq!(told.len(), 4, "{told:#?}");
    for word in [
        "160 bar|\"bar\"",
        "hemisfere",
        "soak_temperature",
        "fins.count",
    ] {
        let alike = |line: &&String| word.split('|').any(|word| line.contains(word));
        assert_eq!(told.iter().filter(alike).count(), 1, "{word}: {told:#?}");
    }
    let lines = told.iter().map(|line| {
        let line = line
            .split(':')
            .nth(1)
            .and_then(|line| line.parse::<usize>().ok());
        line.expect("a line")
    });
    assert!(lines.is_sorted(), "{told:#?}");
}

#[test]
fn what_is_missing_points_at_its_table_and_a_wrong_value_at_the_value() {
    for (from, to, place) in [
        (
            "outer_diameter = \"160 mm\"\n",
            "",
            "bad.toml:31:2: exactly two",
        ),
        (
            "soak_temperature = \"35 degC\"\n",
            "",
            "bad.toml:24:2: pressure.soak",
        ),
        ("schema = 1", "schema = 2", "bad.toml:2:10: schema = 2"),
    ] {
        let told = told(&[(from, to)]);
        assert!(told[0].starts_with(place), "{told:#?}");
    }
}

#[test]
fn what_follows_from_a_mistake_is_not_told() {
    for (from, to) in [
        ("outer_diameter = \"160 mm\"", "outer_diamter = \"160 mm\""),
        ("[nose]", "[noze]"),
        ("basis = \"closed\"", "basis = \"clsoed\""),
        ("thrust = \"4200 N\"", "trust = \"4200 N\""),
        (
            "name = \"6061-T6 extrusion, as welded\"",
            "name = \"6061-T6 extrusions\"",
        ),
    ] {
        let told = told(&[(from, to)]);
        assert_eq!(told.len(), 1, "{to}: {told:#?}");
    }
}

#[test]
fn the_place_in_the_file_is_named() {
    let message = complaint(
        "outer_diameter = \"160 mm\"",
        "outer_diameter = \"160 bar\"",
    );
    assert!(message.contains("bad.toml:32:"), "{message}");
    assert!(
        message.contains("outer_diameter = \"160 bar\""),
        "{message}"
    );
}

#[test]
fn files_that_cannot_be_read() {
    let missing = Stage::load(Path::new("nowhere.toml")).expect_err("missing");
    assert!(missing.to_string().contains("there is no such file"));
    let folder = Stage::load(Path::new(env!("CARGO_MANIFEST_DIR"))).expect_err("a folder");
    assert!(folder.to_string().contains("folder"));
}

#[test]
fn a_stored_stage_comes_back_bit_for_bit() {
    let stage = crate::with(
        &example("petrel_slim.toml"),
        "tank.outer_diameter",
        "151 mm",
    );
    let again = Stage::restore(&stage.store()).expect("restored");
    assert_eq!(stage.digest(), again.digest());
    assert_eq!(
        stage.outcome().ascent.apogee.to_bits(),
        again.outcome().ascent.apogee.to_bits()
    );
    assert_ne!(stage.digest(), example("petrel_slim.toml").digest());
    let curve = example("published/v2_textbook.toml");
    assert_eq!(
        curve.digest(),
        Stage::restore(&curve.store()).expect("restored").digest()
    );
}

/// Stages that differ in anything that enters the results have different digests.
#[test]
fn the_digest_sees_every_difference() {
    let file = example_file("petrel_slim.toml");
    let text = std::fs::read_to_string(&file).expect("a file");
    let digest = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        let stage = Stage::from_toml(&text.replacen(from, to, 1), &file).expect("a stage");
        stage.digest()
    };
    let base = example("petrel_slim.toml").digest();
    assert_eq!(base, digest("name = \"Petrel slim\"", "name = \"Petrel\""));
    for (from, to) in [
        ("count = 4", "count = 3"),
        ("wall = \"3.4 mm\"", "wall = \"3.5 mm\""),
        ("shape = \"von_karman\"", "shape = \"cone\""),
        ("place = \"motor\"", "place = \"tank\""),
        (
            "[rail]\ndirection = \"inclined\"\nelevation = \"86 deg\"\nlength = \"8 m\"\n",
            "",
        ),
        (
            "thrust = \"4200 N\"",
            "curve = { rows = [[0, 4000], [5, 4400]] }",
        ),
    ] {
        assert_ne!(base, digest(from, to), "{from} to {to}");
    }
}
