//! The cylinder through its pressures: equilibrium at every step, elastic returns, order of what begins.

use crate::{example, with};
use hoopline::stage::{Stage, StageLoads};
use hoopline::vessel::{Ending, WallChoice};

fn loads(stage: &Stage) -> StageLoads {
    stage
        .load_history(WallChoice::Minimum)
        .expect("a sound design")
}

fn autofrettaged(name: &str, pressure: &str) -> Stage {
    with(&example(name), "tank.autofrettage_pressure", pressure)
}

/// Fibres by hand from the strains, liner from its stresses: together they carry the pressure.
#[test]
fn liner_and_fibres_carry_the_pressure_at_every_step() {
    let stage = autofrettaged("petrel_slim.toml", "200 bar gauge");
    let (form, point) = (
        stage.form().tank.as_ref().expect("a tank").tank,
        stage.point(),
    );
    let geometry = stage.outcome().geometry;
    let (inner, wall) = (
        0.5 * geometry.liner_inner_diameter,
        geometry.liner_minimum_wall,
    );
    let wrap = &point.tank.overwrap;
    for held in &loads(&stage).history.held {
        let [axial, hoop] = held.wall.strain;
        let mut carried = held.wall.liner.stress.map(|stress| stress * wall);
        for (ply, kind) in form.wound(wrap) {
            let along = match kind {
                hoopline::vessel::PlyKind::Helical => ply.angle.cos().powi(2),
                hoopline::vessel::PlyKind::Hoop => 0.0,
            };
            let around = ply.angle.sin().powi(2);
            let stress = wrap.fibre.elastic_modulus * (along * axial + around * hoop).max(0.0);
            carried[0] += stress * ply.fibre_thickness * along;
            carried[1] += stress * ply.fibre_thickness * around;
        }
        let mean = inner + 0.5 * wall;
        let loads = [inner * inner / (2.0 * mean), mean].map(|load| load * held.pressure);
        for (got, expected) in carried.into_iter().zip(loads) {
            assert!(
                (got - expected).abs() < 1e-3,
                "{held:?}: {got} N/m for {expected} N/m"
            );
        }
    }
}

/// After the autofrettage the wall goes up and down below it without flowing, and comes back to the same
/// strain.
#[test]
fn below_what_it_has_seen_the_wall_is_elastic() {
    let all = loads(&autofrettaged("petrel_slim.toml", "200 bar gauge"));
    let last = |change: usize| {
        let mut held = all.history.held.iter();
        *held
            .rfind(|held| held.change == change)
            .expect("a change that is reached")
    };
    assert_eq!(all.changes[1], "unloading");
    assert!(all.history.begins[0].liner_flow.is_some());
    let (after, again) = (last(1), last(3));
    assert_eq!(after.wall.liner.flowed, again.wall.liner.flowed);
    for k in 0..2 {
        assert!((after.wall.strain[k] - again.wall.strain[k]).abs() < 1e-12);
    }
    assert!(after.wall.liner.stress[1] < 0.0 && after.wall.strain[1] > 0.0);
    assert!(
        all.history.begins[2..5]
            .iter()
            .all(|begins| begins.liner_flow.is_none())
    );
}

#[test]
fn nothing_breaks_before_it_yields() {
    for name in ["petrel_slim.toml", "petrel_hoop.toml", "petrel_plain.toml"] {
        let all = loads(&example(name));
        let (ending, pressure) = all.history.ending;
        assert_ne!(ending, Ending::Holds, "{name}");
        let mut begins = all.history.begins.iter();
        let first = begins
            .find_map(|begins| begins.zone_flow[0])
            .expect("a zone that flows");
        assert!(
            first < pressure,
            "{name}: {first} Pa, {ending:?} at {pressure} Pa"
        );
    }
}

/// A gap leaves the liner alone until it has grown into the wrap; winding tension presses it from the start.
#[test]
fn a_gap_idles_the_wrap_and_tension_presses_the_liner() {
    let stage = example("petrel_slim.toml");
    let at = |stage: &Stage, pressure: f64| {
        let all = loads(stage);
        let reached = all
            .history
            .held
            .iter()
            .find(|held| held.pressure >= pressure);
        reached.expect("a pressure that is reached").wall
    };
    let tight = at(&stage, 0.0);
    let wound = at(
        &with(&stage, "tank.overwrap.winding_stress", "100 MPa"),
        0.0,
    );
    assert!(tight.liner.stress[1].abs() < 1.0);
    assert!(wound.liner.stress[1] < -1e6 && wound.strain[1] < 0.0);
    let gapped = with(&stage, "tank.overwrap.gap", "0.05 mm");
    let alone = loads(&gapped);
    let early = &alone.rows[1];
    approx::assert_relative_eq!(early.liner_hoop_share, 1.0, max_relative = 1e-9);
    assert!(loads(&stage).rows[1].liner_hoop_share < 0.8);
}

/// What has flowed under the autofrettage pressure is elastic up to it: the margin at proof is the ratio of the two
/// pressures, where the liner would flow below.
#[test]
fn autofrettage_raises_the_yield_of_the_liner() {
    let thin = with(&example("petrel_slim.toml"), "tank.liner.wall", "1.5 mm");
    let margins = |stage: &Stage| stage.outcome().margins;
    let before = margins(&thin);
    assert!(before.liner_yield_proof < 0.0);
    let treated = with(&thin, "tank.autofrettage_pressure", "140 bar gauge");
    let proof = treated.outcome().pressures.proof;
    let after = margins(&treated);
    approx::assert_relative_eq!(after.liner_yield_proof, 14e6 / proof - 1.0);
    assert!(after.liner_yield_flight > before.liner_yield_flight);
    assert_eq!(after.girth_seam_burst, before.girth_seam_burst);
    let history = loads(&treated).history;
    assert!(
        history.begins[2].liner_flow.is_none(),
        "flows again in the proof test"
    );
    let again = history.begins[5]
        .liner_flow
        .expect("a liner that flows before burst");
    assert!(again >= 14e6 * (1.0 - 1e-9));
    let light = with(&thin, "tank.autofrettage_pressure", "60 bar gauge");
    assert_eq!(margins(&light).liner_yield_proof, before.liner_yield_proof);
}
