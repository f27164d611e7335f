//! Outlines for drawings against the results that the rooms compute in closed form: an outline is
//! integrated numerically, which no formula of the rooms does.

use super::{example, replaced};
use hoopline::airframe::{NoseShape, nose_wetted_area};
use hoopline::stage::Stage;
use proptest::prelude::*;
use serde_json::{Value, json};
use std::f64::consts::PI;

fn variants() -> Vec<(&'static str, Stage)> {
    let slim = example("petrel_slim.toml");
    let dished = |path: &str| {
        [
            (format!("tank.{path}.kind"), json!("torisphere")),
            (format!("tank.{path}.crown_radius_ratio"), json!(0.9)),
            (format!("tank.{path}.knuckle_radius_ratio"), json!(0.12)),
        ]
    };
    let changed = |stage: &Stage, changes: &[(&str, Value)]| {
        replaced(stage, changes).expect("a readable change")
    };
    let hoop = example("petrel_hoop.toml");
    let plain = example("petrel_plain.toml");
    let torispheres: Vec<(String, Value)> = [dished("fore_closure"), dished("aft_closure")]
        .into_iter()
        .flatten()
        .collect();
    vec![
        ("isotensoids", crate::isotensoid::wound()),
        ("torispheres", plain.replace(&torispheres).expect("domes")),
        (
            "ellipsoids",
            changed(
                &slim,
                &[
                    ("tank.fore_closure.kind", json!("ellipsoid_2_1")),
                    ("tank.aft_closure.kind", json!("ellipsoid_2_1")),
                ],
            ),
        ),
        (
            "flat",
            changed(
                &plain,
                &[
                    ("tank.fore_closure.kind", json!("flat_clamped")),
                    ("tank.aft_closure.kind", json!("flat_supported")),
                    ("tank.fore_closure.thickness", json!(0.025)),
                    ("tank.aft_closure.thickness", json!(0.025)),
                ],
            ),
        ),
        (
            "skin over the tank, cone, wide nozzle",
            changed(
                &slim,
                &[
                    ("follow.skin", json!("skin_over_tank")),
                    ("skin.gap", json!(0.004)),
                    ("nose.shape", json!("cone")),
                    ("motor.exit_area", json!(0.04)),
                ],
            ),
        ),
        ("bolted", crate::bolts::both_ends("petrel_hoop.toml")),
        ("slim", slim),
        ("hoop", hoop),
        ("plain", plain),
    ]
}

fn document(stage: &Stage) -> Value {
    let text = stage.assess_json().expect("a sound design");
    let mut page: Value = serde_json::from_str(&text).expect("JSON");
    page["inputs"] = serde_json::from_str(&stage.inputs_json()).expect("JSON");
    page["layout"] = stage.layout().expect("a sound design");
    page
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

fn points(value: &Value) -> Vec<[f64; 2]> {
    let rows = value.as_array().expect("points");
    rows.iter()
        .map(|row| [number(&row[0]), number(&row[1])])
        .collect()
}

/// Volume that a meridian encloses: cones between its points, and the error of second order removed by
/// the same sum over every second point (Richardson).
fn revolved(meridian: &[[f64; 2]]) -> f64 {
    let cones = |points: &[[f64; 2]]| -> f64 {
        points
            .windows(2)
            .map(|pair| {
                let ([x, r], [y, s]) = (pair[0], pair[1]);
                (y - x) * (r * r + r * s + s * s) * (PI / 3.0)
            })
            .sum()
    };
    let every_second: Vec<_> = meridian.iter().copied().step_by(2).collect();
    (4.0 * cones(meridian) - cones(&every_second)) / 3.0
}

#[test]
fn the_inner_outline_holds_the_volume_of_the_tank() {
    for (name, stage) in variants() {
        let page = document(&stage);
        let tank = &page["layout"]["tank"];
        let [fore, aft] = [0, 1].map(|end| number(&tank["cylinder"][end]));
        let bore = number(&tank["inner_diameter"]) * 0.5;
        let caps: f64 = ["fore_closure", "aft_closure"]
            .into_iter()
            .map(|end| {
                let contour = points(&tank[end]["inner"]);
                if contour.len() == 2 {
                    0.0
                } else {
                    revolved(&contour).abs()
                }
            })
            .sum();
        let found = caps + (aft - fore) * bore * bore * PI;
        let volume = number(&page["results"]["geometry.tank_volume"]);
        assert!(
            (found / volume - 1.0).abs() < 2e-6,
            "{name}: {found} m3, not {volume}"
        );
        // The outline drawn as a whole is made of the same points.
        let whole = points(&tank["inner"]);
        let cones: f64 = whole
            .windows(2)
            .map(|pair| {
                let ([x, r], [y, s]) = (pair[0], pair[1]);
                (y - x) * (r * r + r * s + s * s) * (PI / 3.0)
            })
            .sum();
        assert!(
            (cones / volume - 1.0).abs() < 5e-4,
            "{name}: {cones} m3, not {volume}"
        );
    }
}

#[test]
fn metal_between_the_contours_of_a_closure_has_its_mass() {
    for (name, stage) in variants() {
        let page = document(&stage);
        let tank = &page["layout"]["tank"];
        let density = page["inputs"]
            .as_array()
            .expect("inputs")
            .iter()
            .find(|row| row["path"] == "tank.liner.metal.density")
            .map(|row| number(&row["value"]))
            .expect("a density");
        let metal: f64 = ["fore_closure", "aft_closure"]
            .into_iter()
            .map(|end| {
                let (inner, outer) = (points(&tank[end]["inner"]), points(&tank[end]["outer"]));
                if outer.len() == 4 {
                    // A plate, and a rim around what it leaves open.
                    let [radius, within] = [outer[0][1], outer[1][1]];
                    let [rim, plate] =
                        [outer[0][0], outer[2][0]].map(|at| (at - inner[0][0]).abs());
                    let ring = radius * radius - within * within;
                    return (plate * within * within + rim * ring) * PI;
                }
                if inner.len() == 2 {
                    let radius = inner[0][1];
                    return (outer[0][0] - inner[0][0]).abs() * radius * radius * PI;
                }
                revolved(&outer).abs() - revolved(&inner).abs()
            })
            .sum();
        let mass = number(&page["results"]["tank.closure_mass"]);
        // Closed forms take area at mid-thickness, exact to the square of thickness over diameter.
        // A 2:1 ellipsoid's closed form takes a similar ellipsoid half a thickness out, whose crown
        // lies a quarter of a thickness below the middle of an even wall: low in the first power.
        let thin = number(&tank["fore_closure"]["thickness"]) / number(&tank["inner_diameter"]);
        let similar = tank["fore_closure"]["kind"] == "ellipsoid_2_1";
        let allowed = if similar {
            0.6 * thin
        } else {
            2.0 * thin * thin + 1e-4
        };
        let ratio = metal * density / mass;
        assert!((ratio - 1.0).abs() < allowed, "{name}: mass ratio {ratio}");
    }
}

#[test]
fn lengths_and_diameters_are_those_of_the_results() {
    for (name, stage) in variants() {
        let page = document(&stage);
        let (results, layout) = (&page["results"], &page["layout"]);
        let same = |drawn: f64, path: &str| {
            let result = number(&results[path]);
            let off = (drawn - result).abs();
            assert!(
                off <= 1e-12 * result.abs().max(1.0),
                "{name}: {path} drawn {drawn}, not {result}"
            );
        };
        let (tank, vehicle) = (&layout["tank"], &layout["vehicle"]);
        // A dome ends at its apex, a bulkhead's rim beyond its plate.
        let [fore, aft] = ["fore_closure", "aft_closure"].map(|end| {
            let along = points(&tank[end]["outer"]).into_iter().map(|at| at[0]);
            along.fold([f64::MAX, f64::MIN], |[low, high], at| {
                [low.min(at), high.max(at)]
            })
        });
        same(aft[1] - fore[0], "geometry.tank_length");
        same(
            2.0 * points(&tank["fore_closure"]["inner"])[0][1],
            "geometry.liner_inner_diameter",
        );
        same(
            number(&tank["liner_outer_diameter"]),
            "geometry.liner_outer_diameter",
        );
        same(
            number(&tank["outer_diameter"]),
            "geometry.tank_outer_diameter",
        );
        let plies = tank["plies"].as_array().expect("plies");
        if let Some(last) = plies.last() {
            same(
                2.0 * number(&last["outer_radius"]),
                "geometry.tank_outer_diameter",
            );
            same(
                2.0 * number(&plies[0]["inner_radius"]),
                "geometry.liner_outer_diameter",
            );
        }
        let sections = vehicle["sections"].as_array().expect("sections");
        let mut reached = 0.0;
        for section in sections {
            assert_eq!(
                number(&section["from"]),
                reached,
                "{name}: sections do not follow each other"
            );
            reached = number(&section["to"]);
        }
        same(reached, "airframe.length");
        let wide = sections
            .iter()
            .map(|each| number(&each["aft_diameter"]))
            .fold(0.0, f64::max);
        same(wide, "airframe.frontal_diameter");
        let of_tank = sections
            .iter()
            .find(|each| each["name"] == "tank")
            .expect("a tank");
        assert_eq!(of_tank["from"], tank["from"], "{name}");
        same(
            number(&of_tank["to"]) - number(&of_tank["from"]),
            "geometry.tank_length",
        );
        let nose = points(&vehicle["nose"]);
        same(nose.last().expect("a base")[0], "geometry.nose_length");
        same(
            2.0 * nose.last().expect("a base")[1] * number(&results["airframe.fineness_ratio"]),
            "airframe.length",
        );
        let fin = points(&vehicle["fin"]);
        same(fin[3][0] - fin[0][0], "geometry.fin_root_chord");
        same(fin[1][1] - fin[0][1], "geometry.fin_span");
        assert_eq!(fin[3][0], number(&vehicle["length"]), "{name}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Whatever governs the frontal area, tank, skin, motor case or nozzle, results and layout have one
    /// and the same body.
    #[test]
    fn diameters_drawn_are_the_results_to_the_bit(
        case in 0.05..0.4f64,
        exit_area in 0.001..0.1f64,
        gap in 0.0..0.05f64,
        over in any::<bool>(),
    ) {
        let mut changes = vec![
            ("motor.case_diameter", json!(case)),
            ("motor.exit_area", json!(exit_area)),
        ];
        if over {
            changes.push(("follow.skin", json!("skin_over_tank")));
            changes.push(("skin.gap", json!(gap)));
        }
        let stage = replaced(&example("petrel_slim.toml"), &changes).expect("a readable change");
        let airframe = stage.outcome().airframe;
        prop_assume!(airframe.diameter.is_finite());
        let vehicle = &stage.layout().expect("a sound design")["vehicle"];
        let drawn = ["diameter", "frontal_diameter"].map(|key| number(&vehicle[key]).to_bits());
        let results = [airframe.diameter, airframe.frontal_diameter].map(f64::to_bits);
        prop_assert_eq!(drawn, results);
    }
}

/// The rooms give the centre of pressure of a nose alone as its length less volume over base area.
#[test]
fn the_nose_outline_has_the_volume_its_centre_of_pressure_says() {
    for (shape, share) in [("von_karman", 0.5), ("cone", 2.0 / 3.0)] {
        let stage = replaced(
            &example("petrel_slim.toml"),
            &[("nose.shape", json!(shape))],
        )
        .expect("a nose");
        let nose = points(&document(&stage)["layout"]["vehicle"]["nose"]);
        let base = nose.last().expect("a base");
        let volume = if nose.len() == 2 {
            base[0] * base[1] * base[1] * (PI / 3.0)
        } else {
            revolved(&nose)
        };
        let centre = 1.0 - volume / (PI * base[1] * base[1] * base[0]);
        assert!((centre - share).abs() < 1e-4, "{shape}: {centre}");
        // The volume of von Karman's nose does not feel its sine term; the surface does.
        if nose.len() > 2 {
            let surface: f64 = nose
                .windows(2)
                .map(|pair| (pair[1][0] - pair[0][0]) * (pair[0][1] + pair[1][1]) * PI)
                .sum();
            let area = nose_wetted_area(NoseShape::VonKarman, 2.0 * base[1], base[0]);
            assert!(
                (surface / area - 1.0).abs() < 1e-3,
                "{surface} m2, not {area}"
            );
        }
    }
}

#[test]
fn wrap_covers_closures_that_hold_it_up_to_the_turning_radius() {
    for (name, stage) in variants() {
        let page = document(&stage);
        let tank = &page["layout"]["tank"];
        let helical = tank["plies"]
            .as_array()
            .expect("plies")
            .iter()
            .find(|ply| ply["kind"] == "helical");
        let wrap = points(&tank["aft_closure"]["wrap"]);
        let Some(ply) = helical else {
            assert!(
                wrap.is_empty(),
                "{name}: wrap on a closure without helical plies"
            );
            continue;
        };
        let turning = number(&ply["angle"]).sin() * number(&tank["inner_diameter"]) * 0.5;
        let outer = points(&tank["aft_closure"]["outer"]);
        for (cover, metal) in wrap.iter().zip(&outer) {
            assert!(
                metal[1] >= turning,
                "{name}: wrap inside the turning radius"
            );
            let apart = (cover[0] - metal[0]).hypot(cover[1] - metal[1]);
            assert!(
                (apart - number(&ply["thickness"])).abs() < 1e-12,
                "{name}: {apart} m"
            );
        }
        let reached = outer[wrap.len()][1];
        assert!(
            reached < turning,
            "{name}: wrap ends at {reached} m, before {turning} m"
        );
    }
}

#[test]
fn a_stage_with_stated_drag_has_no_body_to_draw() {
    let layout = &document(&example("published/v2_textbook.toml"))["layout"];
    assert_eq!(
        (&layout["vehicle"], &layout["tank"]),
        (&Value::Null, &Value::Null)
    );
}
