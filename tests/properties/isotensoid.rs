//! Isotensoid closures: what is asked for, what holds whatever the turning radius, and the wrap that fits.

use crate::{example, replaced, with};
use hoopline::quantity::Slots;
use hoopline::stage::Stage;
use hoopline::vessel::winding::{Dome, dome_path, geodesic_angle, needed_slippage};
use hoopline::vessel::{
    Closure, ClosureKind, closure_area, closure_contour, closure_depth, closure_metal_volume,
    closure_stress, closure_volume,
};
use serde_json::json;
use std::f64::consts::PI;

const KIND: ClosureKind = ClosureKind::Isotensoid;

/// The example with a helical ply, both closures isotensoids as thick as they must be.
pub fn wound() -> Stage {
    let mut changes = Vec::new();
    for side in ["fore", "aft"] {
        let path = |leaf: &str| format!("tank.{side}_closure.{leaf}");
        changes.push((path("kind"), json!("isotensoid")));
        changes.push((path("turning_radius_ratio"), json!(0.45)));
        changes.push((path("thickness"), json!("14 mm")));
    }
    example("petrel_slim.toml")
        .replace(&changes)
        .expect("a stage")
}

fn closure(ratio: f64, thickness: f64) -> Closure<f64> {
    let mut closure: Closure<f64> = Closure::uniform(0.0);
    closure.turning_radius_ratio = ratio;
    closure.thickness = thickness;
    closure
}

#[test]
fn the_turning_radius_is_asked_for_where_the_closure_is_an_isotensoid() {
    let slim = example("petrel_slim.toml");
    let kind = "tank.aft_closure.kind";
    let ratio = "tank.aft_closure.turning_radius_ratio";
    let error = replaced(&slim, &[(kind, json!("isotensoid"))]).expect_err("asked for");
    assert!(
        error.to_string().contains(&format!("{ratio} is missing")),
        "{error}"
    );
    let error = replaced(&slim, &[(ratio, json!(0.3))]).expect_err("no isotensoid");
    assert!(error.to_string().contains("does not apply"), "{error}");
    let changes = |value: f64| [(kind, json!("isotensoid")), (ratio, json!(value))];
    let error = replaced(&slim, &changes(0.75)).expect_err("too wide");
    assert!(
        error
            .to_string()
            .contains("turning_radius_ratio = 0.75 is outside 0.01 to 0.7"),
        "{error}"
    );
    assert!(replaced(&slim, &changes(0.7)).is_ok());
}

/// A wider turn is a deeper, larger dome, and one less bent where it is stressed most.
#[test]
fn a_wider_turn_is_a_deeper_dome_of_less_stress() {
    let all = |ratio: f64| {
        let dome = closure(ratio, 0.003);
        [
            closure_depth(KIND, &dome, 0.15),
            closure_volume(KIND, &dome, 0.15),
            closure_area(KIND, &dome, 0.15),
            closure_metal_volume(KIND, &dome, 0.15),
            -closure_stress(KIND, &dome, 6e6, 0.15, 0.33),
        ]
    };
    let mut last = all(0.01);
    for step in 1..=138 {
        let now = all(0.01 + 0.005 * f64::from(step));
        assert!(last.iter().zip(now).all(|(was, is)| *was < is), "{step}");
        last = now;
    }
}

/// The drawn contour, turned around the axis, is the surface and the volume, inside and half through.
#[test]
fn the_contour_is_the_surface() {
    for ratio in [0.01, 0.1, 0.3, 0.5, 0.7] {
        let dome = closure(ratio, 0.006);
        let turned = |offset: f64| {
            let points = closure_contour(KIND, &dome, 0.15, offset);
            let pairs = points.windows(2);
            pairs.fold([0.0; 2], |[volume, area], pair| {
                let ([x, r], [y, s]) = (pair[0], pair[1]);
                let cone = (y - x) * (r * r + r * s + s * s) * (PI / 3.0);
                [volume + cone, area + (y - x).hypot(s - r) * (r + s) * PI]
            })
        };
        let [volume, area] = turned(0.0);
        let [_, middle] = turned(0.003);
        for (drawn, exact) in [
            (volume, closure_volume(KIND, &dome, 0.15)),
            (area, closure_area(KIND, &dome, 0.15)),
            (middle * 0.006, closure_metal_volume(KIND, &dome, 0.15)),
        ] {
            approx::assert_relative_eq!(drawn, exact, max_relative = 1e-3);
        }
    }
}

/// A band of the dome's own turning radius lies on it without friction, over the cap to where it turns.
#[test]
fn its_own_band_needs_no_friction() {
    for ratio in [0.05, 0.2, 0.45, 0.7] {
        let dome = Dome::isotensoid(0.08, ratio);
        let turning = ratio * 0.08;
        let angle = geodesic_angle(0.08, turning);
        let needed = needed_slippage(&dome, angle, turning).expect("a turn");
        assert!(needed.abs() < 1e-9, "{ratio}: {needed}");
        let end = dome_path(&dome, angle, 0.0, 0.005)
            .expect("a turn")
            .turning();
        assert!((end.radius - turning).abs() < 1e-8, "{ratio}: {end:?}");
        assert!(end.edge_slippage < 0.5);
    }
}

/// The tow laid on the cap and curve is what the mass statement counts, where the band turns as the shape wants.
#[test]
fn the_wrap_that_fits_is_counted_and_has_no_caution() {
    let stage = wound();
    let ply = stage.winding().expect("a wrap").plies[0];
    let opening = |turning: f64| json!(turning - 0.5 * 0.009);
    let fitting = |stage: &Stage, turning: f64| {
        let angle = format!("{} deg", geodesic_angle(ply.radius, turning).to_degrees());
        replaced(
            stage,
            &[
                ("tank.overwrap.ply[0].angle", json!(angle)),
                (
                    "tank.overwrap.winding.fore_polar_opening_radius",
                    opening(turning),
                ),
                (
                    "tank.overwrap.winding.aft_polar_opening_radius",
                    opening(turning),
                ),
            ],
        )
        .expect("openings")
    };
    let own = fitting(&stage, 0.45 * ply.radius);
    let wrap = own.winding().expect("a wrap");
    let row = wrap.plies[0];
    assert!(
        row.fore.slippage < 1e-9 && row.aft.slippage < 1e-9,
        "{row:?}"
    );
    let counted: f64 = wrap
        .plies
        .iter()
        .map(|ply| ply.fibre_mass * ply.stated_fibre_thickness / ply.wound_fibre_thickness)
        .sum();
    approx::assert_relative_eq!(counted, own.outcome().tank.fibre_mass, max_relative = 1e-7);
    let told = |stage: &Stage| {
        let cautions = stage.winding().expect("a wrap").cautions.join("; ");
        cautions.contains("is the isotensoid of fibres that turn at")
    };
    assert!(!told(&own));
    let other = fitting(&stage, 0.5 * ply.radius);
    assert!(told(&other));
    let cautions = other.winding().expect("a wrap").cautions.join("; ");
    assert!(
        cautions.contains("tank.fore_closure.turning_radius_ratio as 0.500"),
        "{cautions}"
    );
    let reshaped = with(&other, "tank.fore_closure.turning_radius_ratio", "0.5");
    let reshaped = with(&reshaped, "tank.aft_closure.turning_radius_ratio", "0.5");
    assert!(!told(&reshaped));
}
