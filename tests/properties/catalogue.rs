//! Catalogues of one's own: what a named row fills in, what travels with a stage, what is refused.

use crate::{example, example_file, replaced};
use hoopline::stage::Stage;
use serde_json::json;
use std::path::{Path, PathBuf};

const STOCK: &str = r#"schema = 1
[[metal]]
name = "alloy A"
source = "invented"
yield_strength = "200 MPa"
ultimate_strength = { value = "250 MPa", source = "invented, another page" }
elastic_modulus = "70 GPa"
poisson_ratio = 0.33
density = "2700 kg/m3"
weld_zone_yield_strength = "100 MPa"
weld_zone_ultimate_strength = "150 MPa"

[[tube]]
name = "158 x 3.4"
source = "invented tube list"
outer_diameter = "158 mm"
wall = "3.4 mm"
wall_under_tolerance = "5 %"
metal = "alloy A"

[[tube]]
name = "150 x 3"
source = "invented tube list"
outer_diameter = "150 mm"
wall = "3 mm"

[[sheet]]
name = "4 mm"
source = "invented sheet list"
thickness = "4 mm"
thickness_under_tolerance = "8 %"
"#;

/// The folder of a test, with a catalogue in it.
fn folder(name: &str, stock: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("catalogue-{name}"));
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("stock.toml"), stock).expect("a file");
    folder
}

/// Petrel slim with `catalogue = "stock.toml"` and changes of its text.
fn text(changes: &[(&str, &str)]) -> String {
    let file = example_file("petrel_slim.toml");
    let mut text = std::fs::read_to_string(file).expect("a file");
    let first = ("schema = 1\n", "schema = 1\ncatalogue = \"stock.toml\"\n");
    for (from, to) in std::iter::once(&first).chain(changes) {
        assert!(text.contains(from), "{from} is not in the example");
        text = text.replacen(from, to, 1);
    }
    text
}

fn read(name: &str, stock: &str, changes: &[(&str, &str)]) -> hoopline::Result<Stage> {
    let file = folder(name, stock).join("stage.toml");
    Stage::from_toml(&text(changes), &file)
}

fn complaint(name: &str, stock: &str, changes: &[(&str, &str)]) -> String {
    read(name, stock, changes)
        .expect_err("a mistake")
        .to_string()
}

const NO_DIAMETER: (&str, &str) = ("outer_diameter = \"160 mm\"\n", "");
const TUBE: (&str, &str) = ("wall = \"3.4 mm\"\n", "tube = \"158 x 3.4\"\n");
const NO_TOLERANCE: (&str, &str) = (
    "wall_under_tolerance = \"5 %\"      # of the tube as bought, invented\n",
    "",
);
const NO_METAL: (&str, &str) = (
    "[tank.liner.metal]\nname = \"6061-T6 extrusion, as welded\"\n",
    "",
);

fn with_tube(name: &str) -> Stage {
    read(name, STOCK, &[NO_DIAMETER, TUBE, NO_TOLERANCE, NO_METAL]).expect("a stage")
}

#[test]
fn a_tube_gives_what_its_numbers_would_and_lends_its_metal() {
    let named = with_tube("tube");
    let stated = read(
        "stated",
        STOCK,
        &[
            NO_DIAMETER,
            (
                "wall = \"3.4 mm\"\n",
                "outer_diameter = \"158 mm\"\nwall = \"3.4 mm\"\n",
            ),
            ("6061-T6 extrusion, as welded", "alloy A"),
        ],
    )
    .expect("a stage");
    assert_eq!(named.digest(), stated.digest());
    assert_eq!(named.labels().metal.0, "alloy A");
    let source = named.source("tank.liner.wall").expect("an input");
    assert!(source.starts_with("tube \"158 x 3.4\" ("), "{source}");
    assert!(
        source.ends_with("stock.toml:13): invented tube list"),
        "{source}"
    );
    let source = named
        .source("tank.liner.metal.ultimate_strength")
        .expect("an input");
    assert!(source.ends_with("invented, another page"), "{source}");
    let stated = stated.source("tank.liner.wall").expect("an input");
    assert!(stated.starts_with("stage file "), "{stated}");
}

#[test]
fn a_stated_number_takes_the_place_of_the_rows() {
    let changes = [
        NO_DIAMETER,
        (
            "wall = \"3.4 mm\"\n",
            "tube = \"158 x 3.4\"\nwall = \"3 mm\"\n",
        ),
        NO_METAL,
    ];
    let stage = read("stated-wall", STOCK, &changes).expect("a stage");
    assert_eq!(stage.point().tank.liner.wall, 0.003);
    assert_eq!(stage.point().tank.liner.outer_diameter, 0.158);
}

#[test]
fn a_sheet_gives_wall_and_closure_their_thickness() {
    let changes = [
        ("wall = \"3.4 mm\"\n", "sheet = \"4 mm\"\n"),
        ("thickness = \"4.1 mm\"\n", "sheet = \"4 mm\"\n"),
    ];
    let stage = read("sheet", STOCK, &changes).expect("a stage");
    let tank = stage.point().tank;
    assert_eq!(
        (tank.liner.wall, tank.fore_closure.thickness),
        (0.004, 0.004)
    );
    assert!((tank.aft_closure.thickness - 0.0041).abs() < 1e-15);
    // The tolerance is stated in the file and takes the place of the sheet's.
    assert_eq!(tank.liner.wall_under_tolerance, 0.05);
}

#[test]
fn rows_travel_with_the_stage() {
    let stage = with_tube("travels");
    let text = stage.store();
    std::fs::remove_file(folder("travels", STOCK).join("stock.toml")).expect("removed");
    let again = Stage::restore(&text).expect("restored");
    assert_eq!(stage.digest(), again.digest());
    assert_eq!(again.store(), text);
    assert_eq!(stage.catalogue_json(), again.catalogue_json());
    for path in ["tank.liner.wall", "tank.volume", "pressure.basis"] {
        assert_eq!(stage.source(path), again.source(path), "{path}");
    }
    let changed = replaced(&again, &[("tank.liner.wall", json!("3 mm"))]).expect("a wall");
    let changed = Stage::restore(&changed.store()).expect("restored");
    assert_eq!(changed.point().tank.liner.wall, 0.003);
}

#[test]
fn names_are_replaced_and_the_metal_goes_with_the_tube() {
    let stage = with_tube("replaced");
    let error = replaced(&stage, &[("tank.liner.tube", json!("150 x 3"))]).expect_err("no metal");
    // What belonged to the tube goes with it: its tolerance, its metal.
    assert!(
        error
            .to_string()
            .contains("wall_under_tolerance is missing"),
        "{error}"
    );
    let tolerance = ("tank.liner.wall_under_tolerance", json!("5 %"));
    let error = replaced(
        &stage,
        &[("tank.liner.tube", json!("150 x 3")), tolerance.clone()],
    )
    .expect_err("no metal");
    assert!(
        error
            .to_string()
            .contains("tank.liner.metal.yield_strength is missing"),
        "{error}"
    );
    let other = replaced(
        &stage,
        &[
            ("tank.liner.tube", json!("150 x 3")),
            (
                "tank.liner.metal.name",
                json!("6061-T6 extrusion, as welded"),
            ),
            tolerance,
        ],
    )
    .expect("a stage");
    assert_eq!(other.point().tank.liner.outer_diameter, 0.15);
    assert_eq!(other.labels().metal.0, "6061-T6 extrusion, as welded");
    // A tube named in a stage that states its outside diameter becomes what the diameters rest on.
    let plain = read("plain", STOCK, &[]).expect("a stage");
    let tube = replaced(&plain, &[("tank.liner.tube", json!("150 x 3"))]).expect("a tube");
    assert_eq!(tube.point().tank.liner.outer_diameter, 0.15);
    assert!(replaced(&tube, &[("tank.outer_diameter", json!("160 mm"))]).is_err());
}

#[test]
fn what_does_not_go_together_is_refused() {
    let both = [NO_DIAMETER, TUBE];
    let metal = complaint("metal", STOCK, &both);
    assert!(
        metal.contains("is of \"alloy A\", and the liner is of \"6061-T6 extrusion"),
        "{metal}"
    );
    let outside = complaint("outside", STOCK, &[TUBE, NO_METAL]);
    assert!(
        outside.contains("tank.liner.wall (of tank.liner.tube)"),
        "{outside}"
    );
    let wall = [
        NO_DIAMETER,
        (
            "wall = \"3.4 mm\"\n",
            "tube = \"158 x 3.4\"\nsheet = \"4 mm\"\n",
        ),
        NO_METAL,
    ];
    assert!(complaint("wall", STOCK, &wall).contains("name one"));
    let shadow = STOCK.replace("alloy A", "304 annealed sheet");
    let shadow = complaint("shadow", &shadow, &[]);
    assert!(
        shadow.contains("there is already a metal \"304 annealed sheet\" at shipped catalogue:"),
        "{shadow}"
    );
    let near = replaced(&with_tube("near"), &[("tank.liner.tub", json!("150 x 3"))]);
    let near = near.expect_err("no such name").to_string();
    assert!(near.contains("did you mean \"tank.liner.tube\"?"), "{near}");
    let none = Stage::from_toml(
        &text(&[TUBE]).replace("catalogue = \"stock.toml\"\n", ""),
        Path::new("bad.toml"),
    );
    assert!(
        none.expect_err("no tube")
            .to_string()
            .contains("no tube is on record")
    );
}

#[test]
fn mistakes_of_a_catalogue_are_told_where_they_stand_and_all_at_once() {
    let stock = STOCK
        .replace("wall = \"3.4 mm\"", "wall = \"3.4 bar\"")
        .replace("thickness = \"4 mm\"", "thicknes = \"4 mm\"")
        .replace(
            "source = \"invented tube list\"\nouter_diameter = \"150",
            "outer_diameter = \"150",
        )
        .replace(
            "yield_strength = \"200 MPa\"",
            "yield_strength = \"200 kPa\"",
        );
    let changes = [NO_DIAMETER, TUBE, NO_METAL, ("count = 4", "count = 7")];
    let told = complaint("mistakes", &stock, &changes);
    for part in [
        "stock.toml:5:18: metal[0].yield_strength",
        "stock.toml:17:8: tube[0].wall: unit \"bar\" is not a length",
        "write a number in m",
        "stock.toml:21:1: tube[1].source is missing",
        "did you mean \"thickness\"?",
        "fins.count = 7",
    ] {
        assert!(told.contains(part), "{part} is not in\n{told}");
    }
    assert!(!told.contains("exactly two"), "{told}");
    assert!(!told.contains("thickness is missing"), "{told}");
    assert!(!told.contains("tank.liner"), "{told}");
    for (from, to, part) in [
        ("schema = 1\n", "", "begin the file with schema = 1"),
        ("[[tube]]", "[[tubes]]", "did you mean \"tube\"?"),
        (
            "metal = \"alloy A\"",
            "metal = \"alloy B\"",
            "did you mean \"alloy A\"?",
        ),
        ("metal = \"alloy A\"", "metal = 7", "not a text"),
        ("name = \"4 mm\"", "name = \"\"", "is empty"),
        (
            "source = \"invented, another page\"",
            "sauce = \"x\"",
            "did you mean \"source\"?",
        ),
        (
            "wall = \"3 mm\"\n",
            "",
            "tube[1].wall is missing: wall thickness of the tube",
        ),
    ] {
        let told = complaint("one", &STOCK.replacen(from, to, 1), &[]);
        assert!(told.contains(part), "{part} is not in\n{told}");
    }
    let absent = Stage::from_toml(&text(&[]), Path::new("nowhere/stage.toml"));
    let absent = absent.expect_err("no file").to_string();
    assert!(absent.starts_with("nowhere/stage.toml:3:13: "), "{absent}");
    assert!(absent.contains("there is no such file"), "{absent}");
}

#[test]
fn a_stage_without_a_catalogue_is_as_before() {
    let stage = example("petrel_slim.toml");
    assert!(!stage.store().contains("\"catalogue\""));
    let source = stage.source("tank.liner.metal.density").expect("an input");
    assert!(
        source.starts_with("metal \"6061-T6 extrusion, as welded\" (shipped catalogue:"),
        "{source}"
    );
}

#[test]
fn a_value_of_a_row_that_is_none_is_told() {
    let stored = example("petrel_slim.toml").store();
    let mut tree =
        serde_json::from_str::<serde_json::Value>(&stored).expect("JSON")["stage"].take();
    tree["catalogue"] = json!({"metal": [
        {"name": "own", "source": "a certificate", "yield_strength": null},
    ]});
    let read = Stage::from_json(&tree.to_string()).map(|_| ());
    let told = read.expect_err("a row with a gap").to_string();
    assert!(told.contains("yield_strength"), "{told}");
}
