//! Winding: what holds on any dome, whatever the opening, and what agrees with the mass statement.

use crate::{example, replaced};
use hoopline::stage::{Fault, Stage, StageWinding};
use hoopline::study::{Axis, Progress, sweep};
use hoopline::vessel::winding::{
    Dome, bands_for_cover, closing_pattern, dome_path, geodesic_angle, needed_slippage,
    turning_length,
};
use hoopline::vessel::{ClosureKind, helical_closure_fibre};
use serde_json::json;
use std::f64::consts::{FRAC_PI_2, PI};

fn domes() -> [Dome; 5] {
    [
        Dome::ellipsoid(0.08, 0.08),
        Dome::ellipsoid(0.08, 0.04),
        Dome::ellipsoid(0.08, 0.13),
        Dome::isotensoid(0.08, 0.4),
        Dome::isotensoid(0.08, 0.6),
    ]
}

fn slim() -> Stage {
    example("petrel_slim.toml")
}

fn wound(stage: &Stage) -> StageWinding {
    stage.winding().expect("a wrap that can be wound")
}

/// The example with polar openings at which its helical ply turns on a geodesic.
fn geodesic() -> Stage {
    let stage = slim();
    let ply = wound(&stage).plies[0];
    let opening = ply.radius * ply.angle.sin() - 0.5 * 0.009;
    let path = |end: &str| format!("tank.overwrap.winding.{end}_polar_opening_radius");
    let (fore, aft) = (path("fore"), path("aft"));
    replaced(&stage, &[(&fore, json!(opening)), (&aft, json!(opening))]).expect("openings")
}

/// A great circle: from the rim to where it turns a quarter, whatever the opening, so that a circuit sweeps 180
/// degrees over each hemisphere; and a quarter of its circumference is laid.
#[test]
fn a_geodesic_sweeps_half_a_turn_over_a_hemisphere() {
    for turning in [0.005, 0.01, 0.03, 0.06, 0.079] {
        let angle = geodesic_angle(0.08, turning);
        let path = dome_path(&domes()[0], angle, 0.0, 0.01).expect("a turn");
        let last = path.turning();
        assert!(
            (2.0 * last.azimuth - PI).abs() < 1e-7,
            "{turning}: {last:?}"
        );
        assert!(
            (last.length - 0.08 * FRAC_PI_2).abs() < 1e-8,
            "{turning}: {last:?}"
        );
    }
}

#[test]
fn without_slip_the_path_keeps_to_clairaut() {
    for dome in domes() {
        for degrees in [5.0f64, 20.0, 50.0] {
            let angle = degrees.to_radians();
            let kept = dome.radius * angle.sin();
            let path = dome_path(&dome, angle, 0.0, 0.01).expect("a turn");
            for place in &path.places {
                let off = place.radius * place.angle.sin() - kept;
                assert!(
                    off.abs() < 1e-8,
                    "{dome:?}, {degrees} degrees: {off} at {place:?}"
                );
            }
            assert!((path.turning().radius - kept).abs() < 1e-8);
            let needed = needed_slippage(&dome, angle, kept).expect("a turn");
            assert!(needed.abs() < 1e-8, "{dome:?}: {needed}");
        }
    }
}

/// The coefficient comes from an equation in `r sin a`, the path from one in the angle: both end at the opening.
#[test]
fn the_path_turns_where_it_shall() {
    for dome in domes() {
        for (degrees, turning) in [(10.0f64, 0.03), (25.0, 0.02), (25.0, 0.05), (50.0, 0.05)] {
            let angle = degrees.to_radians();
            let needed = needed_slippage(&dome, angle, turning).expect("a turn");
            let path = dome_path(&dome, angle, needed, 0.01).expect("a turn");
            let off = path.turning().radius - turning;
            assert!(
                off.abs() < 1e-7,
                "{dome:?}, {degrees} degrees to {turning}: {off}"
            );
            assert_eq!(needed > 0.0, turning > dome.radius * angle.sin());
        }
    }
}

/// A narrow dome as long as a cylinder turns a band like one.
#[test]
fn a_very_deep_dome_turns_like_a_cylinder() {
    let angle = 40f64.to_radians();
    let needed = turning_length(0.08, angle, 0.2);
    let dome = Dome::ellipsoid(0.08, 100.0 * needed);
    let path = dome_path(&dome, angle, 0.2, 0.01).expect("a turn");
    let length = path.turning().axial;
    assert!(
        (length / needed - 1.0).abs() < 1e-3,
        "{length} m for {needed} m"
    );
}

/// Fibre volume of the build-up, integrated over the dome, against the length of fibre that crosses the rim.
#[test]
fn build_up_conserves_fibre() {
    let stage = geodesic();
    let fibre_share = stage.point().tank.overwrap.fibre_volume_fraction;
    for width in ["3 mm", "9 mm", "20 mm"] {
        let half = 0.5e-3
            * width
                .trim_end_matches(" mm")
                .parse::<f64>()
                .expect("a number");
        let ply = wound(&stage).plies[0];
        let opening = json!(ply.radius * ply.angle.sin() - half);
        let changed = replaced(
            &stage,
            &[
                ("tank.overwrap.winding.band_width", json!(width)),
                (
                    "tank.overwrap.winding.fore_polar_opening_radius",
                    opening.clone(),
                ),
                ("tank.overwrap.winding.aft_polar_opening_radius", opening),
            ],
        );
        let all = wound(&changed.expect("a band"));
        let rows: Vec<_> = all.build_ups[0]
            .iter()
            .filter(|row| row.axial_position <= 0.0)
            .collect();
        // Over a sphere the surface between two parallels is 2 pi R dz.
        let volume: f64 = rows
            .windows(2)
            .map(|pair| {
                let apart = pair[1].axial_position - pair[0].axial_position;
                PI * ply.radius * apart * (pair[0].thickness + pair[1].thickness)
            })
            .sum();
        let kind = ClosureKind::Hemisphere;
        let stated = ply.stated_fibre_thickness;
        let closure = &stage.point().tank.fore_closure;
        let fibre = helical_closure_fibre(kind, closure, ply.radius, stated, ply.angle);
        let expected = fibre / fibre_share;
        assert!(
            (volume / expected - 1.0).abs() < 3e-3,
            "{width}: {volume} of {expected} m3"
        );
    }
}

/// On hemispheres and geodesics the tow laid is what the mass statement counts, but for whole covers.
#[test]
fn the_tow_laid_weighs_what_the_mass_statement_counts() {
    let stage = geodesic();
    let all = wound(&stage);
    let counted: f64 = all
        .plies
        .iter()
        .map(|ply| ply.fibre_mass * ply.stated_fibre_thickness / ply.wound_fibre_thickness)
        .sum();
    let stated = stage.outcome().tank.fibre_mass;
    assert_eq!(all.totals.stated_fibre_mass, stated);
    assert!(
        (counted / stated - 1.0).abs() < 1e-7,
        "{counted} kg for {stated} kg"
    );
    let tows = all.totals.tow_length * stage.point().tank.overwrap.winding.tow_linear_density;
    assert!((tows / all.totals.fibre_mass - 1.0).abs() < 1e-12);
}

#[test]
fn patterns_close_and_cover() {
    fn divisor(one: u64, other: u64) -> u64 {
        if other == 0 {
            one
        } else {
            divisor(other, one % other)
        }
    }
    for case in 0..400 {
        let sweep = 0.3 + 0.017 * f64::from(case);
        let bands = bands_for_cover(0.08, 0.2 + 0.003 * f64::from(case), 0.009);
        let pattern = closing_pattern(sweep, bands);
        let circuits = pattern.circuits as f64;
        assert!(circuits >= bands && circuits <= (1.05 * bands).ceil());
        assert_eq!(divisor(pattern.turns, pattern.circuits), 1);
        let lands = (sweep + pattern.nudge) * circuits - pattern.turns as f64;
        assert!(lands.abs() < 1e-9, "{pattern:?}");
        // Of neighbouring whole numbers one has no divisor in common with a prime; two gaps are always enough.
        assert!(pattern.nudge.abs() * circuits < 2.0, "{pattern:?}");
        let beside = pattern.neighbour * pattern.turns % pattern.circuits;
        assert!(beside == 1 || beside == pattern.circuits - 1);
    }
}

#[test]
fn what_does_not_hold_is_told() {
    let told = |path: &str, value: &str| {
        let changed = crate::with(&slim(), path, value);
        wound(&changed).cautions.join("\n")
    };
    assert!(!told("tank.overwrap.winding.bead_height", "0 mm").contains("slide"));
    let steep = told("tank.overwrap.winding.aft_polar_opening_radius", "5 mm");
    assert!(steep.contains("slides on the aft closure"), "{steep}");
    let wide = told("tank.overwrap.winding.band_width", "30 mm");
    assert!(wide.contains("the edge of the band slides"), "{wide}");
    let thick = replaced(
        &slim(),
        &[("tank.overwrap.winding.tows_per_band", json!(5))],
    );
    let thick = wound(&thick.expect("more tows")).cautions.join("\n");
    assert!(thick.contains("whole covers"), "{thick}");
    let bare = told("tank.overwrap.winding.barrier_thickness", "0 mm");
    assert!(bare.contains("carbon fibre on aluminium"), "{bare}");
    let tight = told("tank.overwrap.winding_stress", "500 MPa");
    assert!(
        tight.contains("collapses as a long elastic tube"),
        "{tight}"
    );
    let glass = replaced(
        &slim(),
        &[
            ("tank.overwrap.fibre.name", json!("E-glass")),
            ("tank.overwrap.winding.barrier_thickness", json!(0.0)),
        ],
    );
    let glass = wound(&glass.expect("glass")).cautions.join("\n");
    assert!(!glass.contains("carbon"), "{glass}");
}

#[test]
fn what_cannot_be_is_refused() {
    let refused = |changes: &[(&str, serde_json::Value)]| {
        let refusal = replaced(&slim(), changes).expect_err("no such winding");
        refusal.to_string()
    };
    let wide = refused(&[(
        "tank.overwrap.winding.aft_polar_opening_radius",
        json!("90 mm"),
    )]);
    assert!(wide.contains("no band can turn there"), "{wide}");
    // A slim tank is a design like any other, until it shall be wound.
    let slimmer = crate::with(&slim(), "tank.outer_diameter", "50 mm");
    let refusal = slimmer.winding().expect_err("no room to turn").to_string();
    assert!(refusal.contains("no band can turn there"), "{refusal}");
    let half = refused(&[("tank.overwrap.winding.tows_per_band", json!(2.5))]);
    assert!(half.contains("no whole number"), "{half}");
    let without = example("petrel_hoop.toml")
        .winding()
        .expect_err("nothing stated");
    assert!(without.to_string().contains("[tank.overwrap.winding]"));
    let alone = ("tank.overwrap.winding.band_width", json!("9 mm"));
    let rest = replaced(&example("petrel_hoop.toml"), &[alone]).expect_err("the rest is asked for");
    assert!(rest.to_string().contains("tow_linear_density"), "{rest}");
}

#[test]
fn a_sweep_over_what_cannot_be_wound_has_a_status_where_a_stage_is_refused() {
    let swept = |path: &str, values: [serde_json::Value; 3]| {
        let axis = Axis {
            path: format!("tank.overwrap.winding.{path}"),
            values: values.to_vec(),
        };
        let found = sweep(&slim(), &[axis], None, &Progress::default()).expect("a sweep");
        [0, 1, 2].map(|case| Fault::from_code(found.status[case]))
    };
    let [narrow, wide] = [json!("22 mm"), json!("74.6 mm")];
    for side in ["fore", "aft"] {
        let opening = format!("{side}_polar_opening_radius");
        let beyond = Some(Fault::NoRoomToTurn);
        assert_eq!(
            swept(&opening, [narrow.clone(), wide.clone(), json!("90 mm")]),
            [None, beyond, beyond]
        );
    }
    assert_eq!(
        swept("tows_per_band", [json!(3), json!(2.5), json!(4)]),
        [None, Some(Fault::PartOfATow), None]
    );
}
