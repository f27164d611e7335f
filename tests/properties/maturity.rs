//! Growth allowances that rest on a class of maturity.

use crate::example_file;
use hoopline::stage::Stage;
use serde_json::json;
use std::path::Path;

const CLASSES: &str = "
[[mass.maturity]]
name = \"drawn\"
growth_allowance = \"16 %\"
source = \"invented for this test\"

[[mass.maturity]]
name = \"weighed\"
growth_allowance = 0
source = \"invented for this test\"
";

fn stage(change: impl Fn(String) -> String) -> hoopline::error::Result<Stage> {
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    Stage::from_toml(&change(text + CLASSES), Path::new("tank.toml"))
}

fn with_class(word: &str) -> hoopline::error::Result<Stage> {
    stage(|text| {
        text.replace("tank = \"12 %\"", &format!("tank_maturity = \"{word}\""))
            .replace(
                "mass = \"4 kg\"\ngrowth_allowance = \"0 %\"",
                "mass = \"4 kg\"\nmaturity = \"weighed\"",
            )
    })
}

#[test]
fn a_class_fills_in_the_allowance_and_is_named() {
    let stage = with_class("drawn").expect("a stage");
    assert_eq!(stage.point().mass.growth.tank, 0.16);
    assert_eq!(stage.point().mass.item[0].growth_allowance, 0.0);
    let lines = stage.assess().expect("a sound design").mass_lines;
    let class = |name: &str| {
        let line = lines.iter().find(|line| line.name == name).expect("a line");
        line.maturity.as_ref().map(|(class, _)| class.clone())
    };
    assert_eq!(class("liner cylinder").as_deref(), Some("drawn"));
    assert_eq!(class("payload").as_deref(), Some("weighed"));
    let motor = class("motor");
    assert_eq!(motor.as_deref(), Some("off-the-shelf, minor modifications"));
    assert_eq!(class("avionics"), None);
}

#[test]
fn a_class_can_be_replaced_and_a_number_takes_its_place() {
    let stage = with_class("drawn").expect("a stage");
    let change = |path: &str, value| {
        let changed = stage.replace(&[(path.to_owned(), value)]);
        changed.expect("a stage")
    };
    let weighed = change("mass.growth.tank_maturity", json!("weighed"));
    assert_eq!(weighed.point().mass.growth.tank, 0.0);
    let own = change("mass.growth.tank", json!("3 %"));
    let lines = own.assess().expect("a sound design").mass_lines;
    assert!(lines[0].maturity.is_none());
    let restored = Stage::restore(&weighed.store()).expect("a stage");
    assert_eq!(restored.digest(), weighed.digest());
}

#[test]
fn an_unknown_class_and_a_class_without_a_source_say_what_to_do() {
    let unknown = with_class("drwan").expect_err("unknown").to_string();
    assert!(unknown.contains("did you mean \"drawn\""), "{unknown}");
    let bare = stage(|text| text.replacen("source = \"invented for this test\"\n", "", 1));
    let error = bare.expect_err("no source").to_string();
    assert!(error.contains("mass.maturity[0].source"), "{error}");
    let large = stage(|text| text.replace("\"16 %\"", "\"300 %\""));
    let error = large.expect_err("too large").to_string();
    assert!(error.contains("200 %"), "{error}");
}
