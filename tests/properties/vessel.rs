//! The tank as a pressure vessel: limits and signs of shells, tolerances and flight loads.

use crate::{example, with};
use hoopline::quantity::Slots;
use hoopline::stage::{Fault, Stage};
use hoopline::study::{Axis, Progress, sweep};
use hoopline::vessel::fitting::Flown;
use hoopline::vessel::thick_wall::thick_cylinder_stress;
use hoopline::vessel::{
    Closure, ClosureKind, DiameterPair, Margins, VesselLoads, bore_stress, closure_area,
    closure_depth, closure_metal_volume, closure_volume, dimensions, margins,
};
use proptest::prelude::*;
use serde_json::json;

const TORISPHERE: ClosureKind = ClosureKind::Torisphere;

fn closure(thickness: f64, crown: f64, knuckle: f64) -> Closure<f64> {
    let mut closure: Closure<f64> = Closure::uniform(0.0);
    closure.thickness = thickness;
    closure.crown_radius_ratio = crown;
    closure.knuckle_radius_ratio = knuckle;
    closure
}

/// A torisphere whose crown has the cylinder's radius is a hemisphere, whatever its knuckle, and one
/// close to it is close.
#[test]
fn a_torisphere_ends_in_a_hemisphere() {
    let measures = |kind, head: &Closure<f64>| {
        [
            closure_depth(kind, head, 0.16),
            closure_volume(kind, head, 0.16),
            closure_area(kind, head, 0.16),
            closure_metal_volume(kind, head, 0.16),
        ]
    };
    for (crown, knuckle, share) in [
        (0.5, 0.5, 1e-12),
        (0.5, 0.2, 1e-12),
        (0.5, 0.06, 1e-12),
        (0.5 + 1e-10, 0.5 - 1e-10, 1e-4),
        (0.5 + 1e-10, 0.2, 1e-4),
        (1.0, 0.5, 1e-12),
    ] {
        let head = closure(0.003, crown, knuckle);
        let dome = measures(ClosureKind::Hemisphere, &head);
        for (is, hemisphere) in measures(TORISPHERE, &head).into_iter().zip(dome) {
            approx::assert_relative_eq!(is, hemisphere, max_relative = share);
        }
    }
}

/// The petrel without fibre, both closures torispheres.
pub fn dished(crown: f64, knuckle: f64) -> Stage {
    let mut changes = Vec::new();
    for side in ["fore", "aft"] {
        let path = |leaf: &str| format!("tank.{side}_closure.{leaf}");
        changes.push((path("kind"), json!("torisphere")));
        changes.push((path("crown_radius_ratio"), json!(crown)));
        changes.push((path("knuckle_radius_ratio"), json!(knuckle)));
        changes.push((path("thickness"), json!("12 mm")));
    }
    example("petrel_plain.toml")
        .replace(&changes)
        .expect("a stage")
}

#[test]
fn the_ratios_are_asked_for_where_the_closure_is_a_torisphere() {
    let plain = example("petrel_plain.toml");
    let kind = ("tank.aft_closure.kind".to_owned(), json!("torisphere"));
    let crown = ("tank.aft_closure.crown_radius_ratio".to_owned(), json!(0.8));
    let knuckle = (
        "tank.aft_closure.knuckle_radius_ratio".to_owned(),
        json!(0.1),
    );
    let error = plain
        .replace(std::slice::from_ref(&kind))
        .expect_err("asked for");
    assert!(
        error
            .to_string()
            .contains("tank.aft_closure.crown_radius_ratio is missing"),
        "{error}"
    );
    let error = plain
        .replace(&[kind.clone(), crown.clone()])
        .expect_err("asked for");
    assert!(
        error
            .to_string()
            .contains("tank.aft_closure.knuckle_radius_ratio is missing"),
        "{error}"
    );
    let error = plain
        .replace(std::slice::from_ref(&crown))
        .expect_err("no torisphere");
    assert!(error.to_string().contains("does not apply"), "{error}");
    let dished = plain.replace(&[kind, crown, knuckle]).expect("a stage");
    assert!(dished.outcome().margins.aft_closure_proof.is_finite());
    let fore = [(
        "tank.fore_closure.crown_radius_ratio".to_owned(),
        json!(0.8),
    )];
    let error = dished.replace(&fore).expect_err("the fore closure is none");
    assert!(error.to_string().contains("does not apply"), "{error}");
}

#[test]
fn sweeping_to_a_torisphere_without_ratios_is_a_row_with_a_reason() {
    let axis = |values| Axis {
        path: "tank.aft_closure.kind".to_owned(),
        values,
    };
    let run = |stage: &Stage, values| sweep(stage, &[axis(values)], None, &Progress::default());
    let plain = example("petrel_plain.toml");
    let both = run(&plain, vec![json!("torisphere"), json!("hemisphere")]).expect("a sweep");
    assert_eq!(Fault::from_code(both.status[0]), Some(Fault::CannotBeBuilt));
    assert_eq!(both.status[1], 0.0);
    let alone = run(&plain, vec![json!("torisphere")]).expect_err("asked for");
    assert!(
        alone.to_string().contains("crown_radius_ratio is missing"),
        "{alone}"
    );
    let known = run(
        &dished(0.9, 0.15),
        vec![json!("torisphere"), json!("ellipsoid_2_1")],
    );
    assert_eq!(known.expect("a sweep").status, [0.0, 0.0]);
}

#[test]
fn helical_plies_over_a_torisphere_are_refused_for_its_own_reason() {
    let changes = [
        ("tank.aft_closure.kind".to_owned(), json!("torisphere")),
        ("tank.aft_closure.crown_radius_ratio".to_owned(), json!(0.8)),
        (
            "tank.aft_closure.knuckle_radius_ratio".to_owned(),
            json!(0.15),
        ),
    ];
    let error = example("petrel_slim.toml")
        .replace(&changes)
        .expect_err("no geodesic");
    assert!(error.to_string().contains("hoop compression"), "{error}");
    assert!(
        example("petrel_hoop.toml").replace(&changes).is_ok(),
        "hoop plies do not mind"
    );
}

#[test]
fn where_the_torisphere_formula_stops_there_is_a_caution() {
    let cautions = |stage: &Stage| stage.assess().expect("a sound design").cautions.join("; ");
    let sound = cautions(&dished(0.8, 0.25));
    assert!(
        !sound.contains("buckle") && !sound.contains("three times"),
        "{sound}"
    );
    assert!(cautions(&dished(0.8, 0.1)).contains("three times its thickness"));
    let slender = with(&dished(1.0, 0.06), "tank.aft_closure.thickness", "0.3 mm");
    assert!(cautions(&slender).contains("the aft closure's minimum thickness is 0.0016 of"));
}

fn strength(margins: &Margins<f64>) -> [f64; 9] {
    [
        margins.liner_yield_proof,
        margins.liner_yield_flight,
        margins.girth_seam_proof,
        margins.fore_closure_proof,
        margins.aft_closure_flight,
        margins.hoop_burst,
        margins.axial_burst,
        margins.girth_seam_burst,
        margins.aft_closure_burst,
    ]
}

/// More tolerance leaves the drawing as it is and takes from every margin.
#[test]
fn a_larger_tolerance_costs_strength_and_nothing_else() {
    for (name, helical) in [("petrel_slim.toml", true), ("petrel_plain.toml", false)] {
        let stage = example(name);
        let mut last: Option<hoopline::stage::Outcome<f64>> = None;
        for share in ["0 %", "4 %", "12.5 %", "50 %"] {
            let mut design = with(&stage, "tank.liner.wall_under_tolerance", share);
            for side in ["fore", "aft"] {
                let path = format!("tank.{side}_closure.thickness_under_tolerance");
                design = with(&design, &path, share);
            }
            let now = design.outcome();
            if let Some(last) = last {
                for (is, was) in strength(&now.margins).iter().zip(strength(&last.margins)) {
                    assert!(*is < was, "{name}, {share}: {is} after {was}");
                }
                assert_eq!(now.mass, last.mass);
                assert_eq!(now.ascent.apogee, last.ascent.apogee);
                assert_eq!(now.geometry.liner_wall, last.geometry.liner_wall);
                assert!(now.geometry.liner_minimum_wall < last.geometry.liner_minimum_wall);
                assert!(!helical || now.tank.liner_hoop_share < last.tank.liner_hoop_share);
            }
            last = Some(now);
        }
    }
}

/// A wall with a tolerance is as strong as a wall of its minimum without, of the same bore.
#[test]
fn strength_is_that_of_the_minimum_wall() {
    let stage = example("petrel_slim.toml");
    let side = stage.form().tank.expect("a tank");
    let (mut form, mut thin) = (side.tank, stage.point().tank);
    form.diameters = DiameterPair::InnerAndWall;
    thin.liner.inner_diameter = 0.15;
    let mut drawn = thin;
    thin.liner.wall = 0.004 * (1.0 - 0.1);
    thin.liner.wall_under_tolerance = 0.0;
    (drawn.liner.wall, drawn.liner.wall_under_tolerance) = (0.004, 0.1);
    let of = |tank: &hoopline::vessel::Tank<f64>| {
        let size = dimensions(&form, side.shape, tank);
        strength(&margins(&form, tank, &size, &loads(0.0, 0.0)))
    };
    for (drawn, thin) in of(&drawn).into_iter().zip(of(&thin)) {
        approx::assert_relative_eq!(drawn, thin, max_relative = 1e-12);
    }
}

fn loads(head: f64, compression: f64) -> VesselLoads<f64> {
    VesselLoads {
        proof: 9e6,
        burst: 18e6,
        meop: 6e6,
        head,
        compression,
        yield_factor: 1.5,
        burst_factor: 3.0,
        flown: Flown::at_rest(),
    }
}

/// Head loads what holds the liquid in, around and aft; thrust loads the wall along; neither adds to the
/// axial tension, which is largest before ignition.
#[test]
fn flight_loads_go_where_they_belong() {
    for (name, bare) in [("petrel_slim.toml", false), ("petrel_plain.toml", true)] {
        let stage = example(name);
        let side = stage.form().tank.expect("a tank");
        let tank = stage.point().tank;
        let size = dimensions(&side.tank, side.shape, &tank);
        let under =
            |head, compression| margins(&side.tank, &tank, &size, &loads(head, compression));
        let still = under(0.0, 0.0);
        assert_eq!(still.liner_yield_flight, still.liner_yield_proof);
        assert_eq!(still.aft_closure_flight, still.aft_closure_proof);
        let heavy = under(2e5, 0.0);
        assert!(heavy.hoop_burst < still.hoop_burst);
        assert!(heavy.aft_closure_burst < still.aft_closure_burst);
        assert!(heavy.longitudinal_seam_burst < still.longitudinal_seam_burst);
        assert!(heavy.aft_closure_flight < still.aft_closure_flight);
        assert!(heavy.liner_yield_flight < still.liner_yield_flight);
        // 3 x (6 + 0.2) against 18 MPa: the strength is the same.
        approx::assert_relative_eq!(
            (heavy.hoop_burst + 1.0) * 18.6,
            (still.hoop_burst + 1.0) * 18.0,
            max_relative = 1e-12
        );
        let same = |flown: &Margins<f64>| {
            [
                (flown.axial_burst, still.axial_burst),
                (flown.girth_seam_proof, still.girth_seam_proof),
                (flown.girth_seam_burst, still.girth_seam_burst),
                (flown.fore_closure_burst, still.fore_closure_burst),
                (flown.liner_yield_proof, still.liner_yield_proof),
            ]
            .into_iter()
            .all(|(is, was)| is == was)
        };
        assert!(same(&heavy));
        let pushed = under(0.0, 30e3);
        assert!(same(&pushed) && pushed.hoop_burst == still.hoop_burst);
        assert!(pushed.liner_yield_flight <= still.liner_yield_flight);
        // Midway between hoop and radial stress, a bare liner's axial stress already yields latest.
        assert_eq!(pushed.liner_yield_flight < still.liner_yield_flight, bare);
        // Pulled along instead, the liner is no better off: without thrust counts too.
        assert!(under(0.0, -5e3).liner_yield_flight <= still.liner_yield_flight);
    }
}

proptest! {
    /// Metal is what lies between the inside and a torisphere one thickness larger, to the square of
    /// thickness over diameter; area and volume thus check each other.
    #[test]
    fn a_torisphere_s_metal_lies_between_two_torispheres(
        crown in 0.51..1.0f64, knuckle in 0.06..0.49f64, thickness in 1e-5..1e-3f64,
    ) {
        let head = closure(thickness, crown, knuckle);
        let wide = 1.0 + 2.0 * thickness;
        let out = closure(thickness, (crown + thickness) / wide, (knuckle + thickness) / wide);
        let between = closure_volume(TORISPHERE, &out, wide) - closure_volume(TORISPHERE, &head, 1.0);
        let metal = closure_metal_volume(TORISPHERE, &head, 1.0);
        prop_assert!((metal / between - 1.0).abs() < 2.0 * thickness * thickness / 0.06 + 1e-9);
        let depth = closure_depth(TORISPHERE, &head, 1.0);
        prop_assert!(depth > knuckle && depth <= 0.5 + 1e-12);
    }

    /// A thick wall tends to a thin one: stress times wall over pressure times radius tends to one, and to
    /// a half along.
    #[test]
    fn a_thick_wall_tends_to_a_thin_one(slender in 1e-7..1e-3f64, place in 0.0..1.0f64) {
        let (inner, outer) = (0.075, 0.075 * (1.0 + slender));
        let stress = thick_cylinder_stress(inner, outer, inner + place * (outer - inner), 6e6, 0.0);
        prop_assert!((stress.hoop * slender / 6e6 - 1.0).abs() < 1.1 * slender + 1e-8);
        prop_assert!((stress.axial * slender / 6e6 - 0.5).abs() < 1.1 * slender + 1e-8);
        prop_assert!(stress.radial <= 1e-3 && stress.radial >= -6e6 - 1e-3);
    }

    /// A bare liner's bore is Lame's, axial stress included; a wrapped one's is relieved.
    #[test]
    fn the_bore_of_a_bare_liner_is_exact(wall in 0.001..0.03f64) {
        let millimetres = json!(wall);
        let changes = [("tank.liner.wall".to_owned(), millimetres)];
        let bore = |name: &str| {
            let stage = example(name).replace(&changes).expect("a stage");
            let side = stage.form().tank.expect("a tank");
            let tank = stage.point().tank;
            let size = dimensions(&side.tank, side.shape, &tank);
            let inner = 0.5 * size.inner_diameter;
            let outer = inner + size.minimum_wall;
            let axial = hoopline::vessel::axial_line_load(9e6, inner, 0.5 * (inner + outer));
            let exact = thick_cylinder_stress(inner, outer, inner, 9e6, 0.0);
            (bore_stress(&side.tank, &tank, &size, 9e6, axial), exact)
        };
        let (plain, exact) = bore("petrel_plain.toml");
        approx::assert_relative_eq!(plain.hoop, exact.hoop, max_relative = 1e-9);
        approx::assert_relative_eq!(plain.axial, exact.axial, max_relative = 1e-9);
        approx::assert_relative_eq!(plain.radial, -9e6, max_relative = 1e-9);
        let (wrapped, exact) = bore("petrel_slim.toml");
        prop_assert!(wrapped.hoop < exact.hoop && wrapped.axial < exact.axial);
        approx::assert_relative_eq!(wrapped.radial, -9e6, max_relative = 1e-9);
    }
}
