//! What the cautions say of a closed tank that warms.

use crate::{example, with};
use hoopline::fluid::nitrous_oxide::{liquid_full_temperature, pressure, pressure_slope};
use hoopline::stage::Stage;
use serde_json::json;

fn soaked(ullage: &str, soak: &str) -> Stage {
    let stage = with(&example("petrel_slim.toml"), "propellant.ullage", ullage);
    with(&stage, "pressure.soak_temperature", soak)
}

fn cautions(stage: &Stage) -> String {
    stage.assess().expect("a sound design").cautions.join("; ")
}

fn vented(stage: &Stage, setting: &str) -> Stage {
    let changes = [
        ("pressure.basis", json!("vented")),
        ("pressure.relief_setting", json!(setting)),
        ("pressure.relief_accumulation", json!("10 %")),
    ];
    let changes = changes.map(|(path, value)| (path.to_owned(), value));
    stage.replace(&changes).expect("a relief")
}

/// Filled at 15 degC with 15 % ullage the tank holds 718 kg/m3, full of liquid from 27.5 degC.
#[test]
fn a_full_tank_is_told_with_temperature_and_climb() {
    let full = cautions(&soaked("15 %", "35 degC"));
    assert!(
        full.contains("full of liquid from 27.5 degC and climbs 3.7 bar per kelvin"),
        "{full}"
    );
    let supercritical = cautions(&soaked("15 %", "45 degC"));
    assert!(
        supercritical.contains("critical temperature"),
        "{supercritical}"
    );
    assert!(
        supercritical.contains("full of liquid from 27.5 degC"),
        "{supercritical}"
    );
    let dried = cautions(&soaked("95 %", "45 degC"));
    assert!(dried.contains("last liquid is gone"), "{dried}");
}

#[test]
fn close_to_full_is_told_and_far_from_it_is_not() {
    let near = cautions(&soaked("15 %", "25.5 degC"));
    assert!(near.contains("2.0 K above the 25.5 degC"), "{near}");
    let far = cautions(&soaked("15 %", "24 degC"));
    assert!(!far.contains("full of liquid"), "{far}");
    let empty = cautions(&soaked("95 %", "30 degC"));
    assert!(!empty.contains("full of liquid"), "{empty}");
}

#[test]
fn a_vented_basis_states_both_pressures_and_what_to_do() {
    let stage = vented(&soaked("15 %", "40 degC"), "65 bar gauge");
    let outcome = stage.outcome().pressures;
    let said = cautions(&stage);
    for number in [outcome.meop, outcome.meop_closed] {
        let shown = hoopline::quantity::show(number, hoopline::quantity::Quantity::GaugePressure);
        assert!(said.contains(&shown), "{shown} in {said}");
    }
    assert!(said.contains("only while the relief is open") && said.contains("fill less"));
    let roomy = cautions(&vented(&soaked("60 %", "20 degC"), "65 bar gauge"));
    assert!(roomy.contains("only while the relief is open") && !roomy.contains("Show by test"));
}

/// From the liquid-full temperature on, the closed tank's pressure through the chain is the isochore.
#[test]
fn the_chain_climbs_from_where_the_tank_is_full() {
    let closed = |soak: f64| {
        let change = [("pressure.soak_temperature".to_owned(), json!(soak))];
        let stage = soaked("15 %", "35 degC").replace(&change).expect("a soak");
        let outcome = stage.outcome();
        (
            outcome.pressures.meop_closed + outcome.pressures.site,
            outcome.load.fill_density,
        )
    };
    let density = closed(300.0).1;
    let full = liquid_full_temperature(density).expect("a liquid load");
    let (at, _) = closed(full);
    approx::assert_relative_eq!(at, pressure(full, density), max_relative = 1e-9);
    let (below, above) = (closed(full - 0.01).0, closed(full + 0.01).0);
    approx::assert_relative_eq!(
        (above - at) / 0.01,
        pressure_slope(full, density),
        max_relative = 1e-3
    );
    // While both phases share the tank it climbs with the vapour pressure, far more slowly.
    assert!((at - below) * 2.0 < above - at);
}
