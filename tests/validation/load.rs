//! Load, ullage and the pressure of a closed tank, through the whole chain.

use crate::Outside;
use hoopline::stage::{Outcome, Stage};
use serde_json::json;
use std::path::Path;

const LOAD: Outside = Outside {
    room: "load",
    source: "CoolProp 8.0.0",
};

fn petrel(changes: &[(&str, serde_json::Value)]) -> Outcome<f64> {
    let file =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("python/hoopline/examples/petrel_slim.toml");
    let changes: Vec<_> = changes
        .iter()
        .map(|(path, value)| ((*path).to_owned(), value.clone()))
        .collect();
    let stage = Stage::load(&file).and_then(|stage| stage.replace(&changes));
    stage.expect("a readable stage").outcome()
}

/// Computed with `CoolProp` 8.0.0: 20 L at 20 degC with 15 % ullage hold 13.820724 kg.
#[test]
fn mass_in_a_tank() {
    let changes = [
        ("tank.volume", json!("20 L")),
        ("propellant.fill_temperature", json!("20 degC")),
        ("propellant.ullage", json!("15 %")),
    ];
    LOAD.printed(
        "oxidiser, kg",
        petrel(&changes).load.oxidiser,
        13.820724,
        1e-6,
    );
}

/// The other way round: that mass in 20 L has that ullage, and a load with that ullage has that volume.
#[test]
fn ullage_of_a_mass() {
    let changes = [
        ("tank.volume", json!("20 L")),
        ("propellant.fill_temperature", json!("20 degC")),
        ("follow.load", json!("mass")),
        ("propellant.oxidiser_mass", json!(13.820724)),
    ];
    LOAD.printed("ullage", petrel(&changes).load.ullage, 0.15, 1e-6);
}

/// Computed with `CoolProp` 8.0.0: bar absolute of a closed tank filled at a temperature and ullage
/// (share) and soaked to another temperature; two-phase in the first row, liquid-full or supercritical in the others.
#[test]
fn closed_tank_pressure() {
    for (fill, ullage, soak, printed) in [
        (20.0, 0.20, 30.0, 63.0),
        (20.0, 0.10, 35.0, 89.0),
        (20.0, 0.10, 50.0, 148.0),
        (10.0, 0.05, 30.0, 121.0),
        (25.0, 0.20, 45.0, 100.0),
    ] {
        let outcome = petrel(&[
            ("propellant.fill_temperature", json!(fill + 273.15)),
            ("propellant.ullage", json!(ullage)),
            ("pressure.soak_temperature", json!(soak + 273.15)),
        ]);
        let absolute = (outcome.pressures.meop_closed + outcome.pressures.site) / 1e5;
        let case = format!("closed, {fill} degC, ullage {ullage}, soaked to {soak} degC, bar");
        LOAD.printed(&case, absolute, printed, 1.0);
    }
}
