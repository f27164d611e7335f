//! Signs and limits that any right model shows.

use crate::{example, with};
use hoopline::numerics::Real;
use hoopline::stage::{MassLine, Stage};
use hoopline::vessel::membrane_response;
use proptest::prelude::*;

#[test]
fn a_thicker_wall_is_heavier_and_safer() {
    let stage = example("petrel_slim.toml");
    let mut last = (0.0, -1.0, -1.0);
    for wall in ["2 mm", "2.5 mm", "3 mm", "3.5 mm", "3.8 mm"] {
        let outcome = with(&stage, "tank.liner.wall", wall).outcome();
        let now = (
            outcome.tank.mass,
            outcome.margins.girth_seam_proof,
            outcome.margins.hoop_burst,
        );
        assert!(
            now.0 > last.0 && now.1 > last.1 && now.2 > last.2,
            "{wall}: {now:?} after {last:?}"
        );
        last = now;
    }
}

/// The weld zone reaches to both sides of the seam: a closure thinner than the wall weakens it, a
/// thicker one does not help.
#[test]
fn a_girth_seam_is_as_thick_as_its_thinner_side() {
    let stage = example("petrel_slim.toml");
    let margin = |thickness: &str| {
        let margins = with(&stage, "tank.aft_closure.thickness", thickness)
            .outcome()
            .margins;
        (margins.girth_seam_proof, margins.girth_seam_burst)
    };
    // As thick as the wall by its drawing, yet thinner by its larger tolerance.
    let (thin, nominal) = (margin("2.4 mm"), margin("3.4 mm"));
    let (even, thick) = (margin("3.6 mm"), margin("5 mm"));
    assert!(
        thin.0 < nominal.0 && thin.1 < nominal.1,
        "{thin:?} {nominal:?}"
    );
    assert!(
        nominal.0 < even.0 && nominal.1 < even.1,
        "{nominal:?} {even:?}"
    );
    assert_eq!(even, thick);
}

#[test]
fn rougher_is_lower_and_smooth_is_the_limit() {
    let stage = example("petrel_slim.toml");
    let apogee = |height: &str| {
        with(&stage, "skin.sand_grain_roughness", height)
            .outcome()
            .ascent
            .apogee
    };
    let smooth = apogee("0 um");
    assert_eq!(smooth.to_bits(), apogee("0.01 um").to_bits());
    assert!(apogee("20 um") < smooth && apogee("200 um") < apogee("20 um"));
}

#[test]
fn a_small_ullage_fill_goes_liquid_full() {
    let stage = example("petrel_slim.toml");
    let meop = |ullage: &str| {
        with(&stage, "propellant.ullage", ullage)
            .outcome()
            .pressures
            .meop_closed
    };
    // At 15 degC and 5 % ullage the tank is full of liquid well below 35 degC.
    assert!(meop("5 %") > 110e5 && meop("60 %") < 72e5);
}

/// The liner alone carries everything when there is no fibre, and nothing is left over when there is.
#[test]
fn load_shares_add_to_the_line_loads() {
    let slim = example("petrel_slim.toml");
    let tank = slim.point().tank;
    let form = slim.form().tank.expect("a tank").tank;
    let (axial, hoop) = (0.4e6, 0.8e6);
    let response = membrane_response(&form, &tank, 0.003, axial, hoop);
    let fibre = |weight: fn(f64) -> f64| -> f64 {
        tank.overwrap.ply[..form.plies]
            .iter()
            .zip(&form.ply_kinds)
            .map(|(ply, kind)| {
                let along = match kind {
                    hoopline::vessel::PlyKind::Helical => Real::cos(ply.angle).squared(),
                    hoopline::vessel::PlyKind::Hoop => 0.0,
                };
                let around = Real::sin(ply.angle).squared();
                let strain = response.axial_strain * along + response.hoop_strain * around;
                let direction = if weight(0.0) == 0.0 { along } else { around };
                tank.overwrap.fibre.elastic_modulus * ply.fibre_thickness * strain * direction
            })
            .sum()
    };
    let along = fibre(|x| x);
    let around = fibre(|x| x + 1.0);
    approx::assert_relative_eq!(
        response.liner_axial * 0.003 + along,
        axial,
        max_relative = 1e-12
    );
    approx::assert_relative_eq!(
        response.liner_hoop * 0.003 + around,
        hoop,
        max_relative = 1e-12
    );
}

fn mass_lines_add_up(stage: &Stage) {
    let assessment = stage.assess().expect("a sound design");
    let sum = |lines: &[MassLine]| lines.iter().map(|row| row.line.basic).sum::<f64>();
    let basic = sum(&assessment.mass_lines);
    approx::assert_relative_eq!(basic, assessment.outcome.mass.basic, max_relative = 1e-12);
    let mass = assessment.outcome.mass;
    approx::assert_relative_eq!(
        mass.predicted,
        mass.basic + mass.growth_allowance,
        max_relative = 1e-12
    );
    let load = assessment.outcome.load;
    approx::assert_relative_eq!(
        mass.lift_off - mass.burnout,
        load.burned,
        max_relative = 1e-12
    );
    let [at_ignition, at_burnout] = &assessment.propellant_lines;
    approx::assert_relative_eq!(sum(at_ignition), load.propellant, max_relative = 1e-12);
    approx::assert_relative_eq!(sum(at_burnout), load.residual, max_relative = 1e-12);
    let moment = |lines: &[MassLine]| {
        let of = |row: &MassLine| row.line.basic * (row.line.growth_share + 1.0) * row.line.station;
        lines.iter().map(of).sum::<f64>()
    };
    for (lines, total, centre) in [
        (at_ignition, mass.lift_off, mass.centre_of_gravity),
        (at_burnout, mass.burnout, mass.burnout_centre_of_gravity),
    ] {
        let expected = (moment(&assessment.mass_lines) + moment(lines)) / total;
        approx::assert_relative_eq!(centre, expected, max_relative = 1e-12);
    }
}

#[test]
fn mass_adds_up() {
    for name in ["petrel_slim.toml", "petrel_hoop.toml", "petrel_plain.toml"] {
        mass_lines_add_up(&example(name));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Any design within the limits has finite results or a fault with a sentence, never a panic.
    #[test]
    fn every_design_is_sound_or_says_why(
        diameter in 0.03..0.9f64, wall in 0.0002..0.05f64, volume in 0.0005..2.0f64,
        ullage in 0.0..0.99f64, fill in 183.0..309.0f64, soak in 183.0..350.0f64,
        thrust in 1.0..1e6f64, added in -50.0..500.0f64, margin in 0.05..20.0f64,
    ) {
        let stage = example("petrel_slim.toml");
        let changes = [
            ("tank.outer_diameter", diameter), ("tank.liner.wall", wall), ("tank.volume", volume),
            ("propellant.ullage", ullage), ("propellant.fill_temperature", fill),
            ("pressure.soak_temperature", soak), ("motor.thrust", thrust), ("mass.added", added),
            ("fins.static_margin", margin),
        ].map(|(path, value)| (path.to_owned(), serde_json::json!(value)));
        let outcome = stage.replace(&changes).expect("readable").outcome();
        if let Some(fault) = hoopline::stage::Fault::from_code(outcome.status.code) {
            prop_assert!(fault.sentence(outcome.status.value).len() > 20);
        } else {
            prop_assert_eq!(outcome.status.code, 0.0);
            prop_assert!(outcome.ascent.apogee.is_finite() && outcome.ascent.apogee > 0.0);
            prop_assert!(outcome.margins.hoop_burst.is_finite());
            prop_assert!(outcome.tank.mass > 0.0);
            prop_assert!(outcome.ascent.apogee >= outcome.ascent.burnout_altitude);
        }
    }
}
