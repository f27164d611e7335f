//! The tank in service: what holds whatever the numbers.

use crate::{example, replaced};
use hoopline::stage::{Stage, outcome_slots};
use hoopline::vessel::service::{
    Heating, WallLayer, heat_up, universal_slopes, universal_slopes_life,
};
use serde_json::{Value, json};

const SERVICE: &str = "tank.service";

fn slim(changes: &[(&str, Value)]) -> Stage {
    let stage = example("petrel_slim.toml");
    let paths: Vec<(String, Value)> = changes
        .iter()
        .map(|(path, value)| (format!("tank.{path}"), value.clone()))
        .collect();
    let changes: Vec<(&str, Value)> = paths
        .iter()
        .map(|(path, value)| (path.as_str(), value.clone()))
        .collect();
    replaced(&stage, &changes).expect("a stage")
}

fn cooled(fibre: f64, temperature: f64) -> Stage {
    slim(&[
        ("service.stress_free_temperature", json!(350.0)),
        ("service.cool_down.temperature", json!(temperature)),
        ("liner.metal.thermal_expansion", json!(20e-6)),
        ("overwrap.fibre.thermal_expansion", json!(fibre)),
    ])
}

#[test]
fn alike_liner_and_fibre_have_no_thermal_stress() {
    let alike = cooled(20e-6, 280.0).service().expect("a sheet").values;
    assert_eq!(alike.cool_down.gap, 0.0);
    assert!(alike.cool_down.liner_yield_share < 1e-9, "{alike:?}");
    let warm = cooled(0.0, 350.0).service().expect("a sheet").values;
    assert!(warm.cool_down.liner_yield_share < 1e-9, "{warm:?}");
}

#[test]
fn cold_pulls_a_metal_liner_and_presses_its_fibre() {
    let mut last = (0.0, 0.0);
    for temperature in [340.0, 300.0, 240.0] {
        let told = cooled(0.0, temperature)
            .service()
            .expect("a sheet")
            .values
            .cool_down;
        assert!(
            told.gap > last.0 && told.liner_hoop_stress > last.1,
            "{told:?}"
        );
        assert!(told.least_fibre_stress < 0.0, "{told:?}");
        // Twice the cooling is twice the stress: nothing flows here.
        let scale = told.gap / (350.0 - temperature);
        assert!((scale / (20e-6 * 0.0787) - 1.0).abs() < 0.05, "{scale}");
        last = (told.gap, told.liner_hoop_stress);
    }
}

#[test]
fn what_is_not_given_is_not_judged_and_changes_no_result() {
    let bare = example("petrel_slim.toml");
    let judged = cooled(0.0, 280.0);
    let bits = |stage: &Stage| outcome_slots(&stage.outcome(), 0.0).map(f64::to_bits);
    assert_eq!(bits(&bare), bits(&judged));
    let service = bare.service().expect("a sheet");
    assert_eq!(service.not_judged.len(), 7);
    assert!(service.values.cool_down.gap.is_nan() && service.cautions.is_empty());
    let missing = replaced(
        &bare,
        &[(&format!("{SERVICE}.hold.life_factor"), json!(4.0))],
    );
    assert!(missing.is_err());
}

/// No wall gets hotter than the air that heats it, nor the surface colder than the mean while it is heated.
#[test]
fn a_wall_stays_between_its_start_and_the_air() {
    for coefficient in [0.0, 30.0, 300.0, 3e4, 1e9] {
        let rows: Vec<Heating> = (0..20)
            .map(|second| Heating {
                time: f64::from(second),
                recovery_temperature: 300.0 + 8.0 * f64::from(second),
                coefficient,
            })
            .collect();
        let wall = WallLayer {
            thickness: 1e-3,
            heat_capacity: 1500.0,
            conductivity: 0.5,
        };
        let heated = heat_up(&rows, &wall, 300.0, 1000.0);
        for (row, [mean, surface]) in rows.iter().zip(&heated.temperatures) {
            let air = row.recovery_temperature + 1e-9;
            assert!(300.0 - 1e-9 <= *mean && *mean <= surface + 1e-9 && *surface <= air);
        }
        assert_eq!(heated.time_above, 0.0);
    }
}

#[test]
fn life_undoes_the_range_of_strain_and_falls_with_it() {
    let mut last = f64::INFINITY;
    for cycles in [1e7, 1e5, 300.0, 20.0, 1.0] {
        let range = universal_slopes(5e-3, 0.4, cycles);
        let life = universal_slopes_life(5e-3, 0.4, range);
        assert!((life / cycles - 1.0).abs() < 1e-9, "{cycles}: {life}");
        assert!(life < last);
        last = life;
    }
    assert_eq!(universal_slopes_life(5e-3, 0.4, 0.0), 1e8);
    assert_eq!(universal_slopes_life(5e-3, 0.4, 1e3), 1e-3);
}
