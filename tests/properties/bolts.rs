//! A bulkhead held by bolts: equilibrium, monotone margins, which seam and junction are left, what is refused.

use crate::{cautions, example, replaced, with};
use hoopline::quantity::Applies;
use hoopline::stage::{Fault, RESULTS, Stage, assess, at_rest, outcome_slots};
use hoopline::study::{Axis, Progress, sweep};
use hoopline::vessel::{Margins, bolt_force, tube_length};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::f64::consts::PI;

/// A bulkhead and its bolts, invented; strengths as of no metal in particular.
pub fn row(side: &str) -> Vec<(String, Value)> {
    let path = |leaf: &str| format!("tank.{side}_closure.{leaf}");
    let mut changes = vec![
        (path("kind"), json!("flat_bolted")),
        (path("thickness"), json!("32 mm")),
    ];
    for (leaf, value) in [
        ("count", json!(16)),
        ("diameter", json!("8 mm")),
        ("hole_diameter", json!("8.4 mm")),
        ("shear_area", json!("36.6 mm2")),
        ("shear_strength", json!("600 MPa")),
        ("mass", json!("15 g")),
        ("edge_distance", json!("18 mm")),
        ("bearing_yield_strength", json!("390 MPa")),
        ("bearing_ultimate_strength", json!("600 MPa")),
        ("wall_shear_strength", json!("180 MPa")),
        ("fitting_factor", json!(1.15)),
        ("rim_length", json!("45 mm")),
        ("rim_thickness", json!("14 mm")),
        ("seal_gap", json!("0.05 mm")),
        ("largest_seal_gap", json!("0.3 mm")),
    ] {
        changes.push((path(&format!("bolts.{leaf}")), value));
    }
    changes
}

/// The petrel without fibre, its aft closure held by bolts.
pub fn one_end() -> Stage {
    example("petrel_plain.toml")
        .replace(&row("aft"))
        .expect("a bulkhead")
}

/// The petrel without fibre, or with hoop fibre alone, both its closures held by bolts.
pub fn both_ends(name: &str) -> Stage {
    let mut changes = row("fore");
    changes.extend(row("aft"));
    changes.push(("tank.liner.girth_seam.basis".to_owned(), json!("none")));
    example(name).replace(&changes).expect("two bulkheads")
}

/// What grows with the number of bolts at the fore end.
fn strengths(margins: &Margins<f64>) -> [f64; 4] {
    [
        margins.fore_bolt_shear_burst,
        margins.fore_bearing_proof,
        margins.fore_bearing_burst,
        margins.fore_shear_out_burst,
    ]
}

#[test]
fn more_bolts_share_the_load_and_leave_less_wall() {
    let stage = both_ends("petrel_plain.toml");
    let mut last: Option<Margins<f64>> = None;
    for count in ["8", "12", "16", "24", "32"] {
        let margins = with(&stage, "tank.fore_closure.bolts.count", count)
            .outcome()
            .margins;
        if let Some(before) = last {
            for (now, before) in strengths(&margins).into_iter().zip(strengths(&before)) {
                assert!(now > before, "{count} bolts: {now} after {before}");
            }
            assert!(margins.fore_net_section_burst < before.fore_net_section_burst);
            assert!(margins.fore_net_section_proof < before.fore_net_section_proof);
            assert_eq!(margins.fore_seal_gap_proof, before.fore_seal_gap_proof);
        }
        last = Some(margins);
    }
}

#[test]
fn a_thicker_wall_bears_more_and_gives_less() {
    for name in ["petrel_plain.toml", "petrel_hoop.toml"] {
        let stage = both_ends(name);
        let mut last: Option<[f64; 7]> = None;
        for wall in ["4 mm", "5 mm", "6 mm", "7 mm"] {
            let margins = with(&stage, "tank.liner.wall", wall).outcome().margins;
            let [shear, proof, burst, out] = strengths(&margins);
            let now = [
                shear,
                proof,
                burst,
                out,
                margins.fore_net_section_proof,
                margins.fore_net_section_burst,
                margins.fore_seal_gap_proof,
            ];
            if let Some(before) = last {
                let mut pairs = now.iter().zip(before);
                assert!(
                    pairs.all(|(now, before)| *now > before),
                    "{now:?} {before:?}"
                );
            }
            last = Some(now);
        }
    }
}

proptest! {
    /// All bolts together carry the pressure on the bore.
    #[test]
    fn bolts_and_pressure_are_in_equilibrium(
        pressure in 1e5..5e7, bore in 0.03..1.0, count in 2u32..200,
    ) {
        let count = f64::from(count);
        let carried = bolt_force(pressure, bore, count) * count;
        let pressed = pressure * PI * (0.5 * bore) * (0.5 * bore);
        prop_assert!((carried / pressed - 1.0).abs() < 1e-12);
    }
}

/// The load that a margin tells of is the pressure's on the bore, at the aft end with the liquid head.
#[test]
fn the_aft_bolts_carry_the_liquid_head_too() {
    let stage = both_ends("petrel_plain.toml");
    let outcome = stage.outcome();
    let bore = outcome.geometry.liner_inner_diameter;
    let factor = stage.point().rule_set.burst_factor;
    let at = |margin: f64| {
        let worst = 600e6 / (margin + 1.0) * 36.6e-6;
        worst * 16.0 / 1.15 / (PI / 4.0 * bore * bore)
    };
    let head = outcome.flight_loads.acceleration_head;
    assert!(head > 1e4);
    let margins = &outcome.margins;
    for (margin, pressure) in [
        (margins.fore_bolt_shear_burst, outcome.pressures.burst),
        (
            margins.aft_bolt_shear_burst,
            outcome.pressures.burst + factor * head,
        ),
    ] {
        assert!((at(margin) / pressure - 1.0).abs() < 1e-12);
    }
}

#[test]
fn at_rest_only_the_aft_bolts_look_better() {
    for stage in [one_end(), both_ends("petrel_hoop.toml")] {
        let (form, point) = (stage.form(), stage.point());
        let rest = outcome_slots(&at_rest(form, &point), 0.0);
        let whole = outcome_slots(&assess(form, &point), 0.0);
        let mut better = 0;
        for (slot, field) in RESULTS.fields.iter().enumerate() {
            let path = field.path.as_str();
            if !form.applies(field.applies, field.index)
                || ![Applies::ForeBolts, Applies::AftBolts].contains(&field.applies)
            {
                continue;
            }
            if path.starts_with("margins.aft") {
                assert!(rest[slot] > whole[slot], "{path}");
                better += 1;
            } else {
                assert_eq!(rest[slot].to_bits(), whole[slot].to_bits(), "{path}");
            }
        }
        assert_eq!(better, 7);
    }
}

#[test]
fn a_bolted_end_has_neither_seam_nor_junction() {
    let applying = |stage: &Stage| -> Vec<String> {
        let fields = RESULTS.fields.iter();
        let there = fields.filter(|field| stage.form().applies(field.applies, field.index));
        there.map(|field| field.path.clone()).collect()
    };
    let (one, both) = (one_end(), both_ends("petrel_plain.toml"));
    let (of_one, of_both) = (applying(&one), applying(&both));
    let has = |paths: &[String], path: &str| paths.iter().any(|known| known == path);
    assert!(
        has(&of_one, "margins.girth_seam_proof") && has(&of_one, "margins.fore_junction_proof")
    );
    assert!(
        !has(&of_one, "margins.aft_junction_proof") && has(&of_one, "margins.aft_bolt_shear_burst")
    );
    assert!(!has(&of_one, "margins.fore_bolt_shear_burst"));
    assert!(
        !of_both
            .iter()
            .any(|path| path.contains("junction") || path.contains("girth"))
    );
    let seams = |stage: &Stage| stage.layout().expect("a tank")["tank"]["girth_seams"].clone();
    assert_eq!(seams(&one).as_array().map(Vec::len), Some(1));
    assert_eq!(one.junctions().expect("the fore one").len(), 1);
    let error = both.junctions().expect_err("none");
    assert!(
        error.to_string().contains("bolts hold both closures"),
        "{error}"
    );
    // The seam is as thick as the closure that it joins, whatever the bulkhead.
    let thin = with(&one, "tank.aft_closure.thickness", "30 mm")
        .outcome()
        .margins;
    assert_eq!(
        thin.girth_seam_proof,
        one.outcome().margins.girth_seam_proof
    );
}

#[test]
fn rim_and_bolts_are_in_length_and_mass() {
    for stage in [one_end(), both_ends("petrel_hoop.toml")] {
        let outcome = stage.outcome();
        let (form, point) = (stage.form().tank.as_ref().expect("a tank"), stage.point());
        let size = hoopline::vessel::dimensions(&form.tank, form.shape, &point.tank);
        let tube = tube_length(&form.tank, &point.tank, &size);
        let bolted = [form.tank.fore_closure, form.tank.aft_closure];
        let rims = bolted.iter().filter(|kind| kind.is_bolted()).count() as f64 * 0.045;
        assert!((tube - size.cylinder_length - rims).abs() < 1e-12);
        let lines = stage.assess().expect("a sound design").mass_lines;
        let bolts: Vec<_> = lines
            .iter()
            .filter(|line| line.name.ends_with(" bolts"))
            .collect();
        assert_eq!(bolts.len() as f64 * 0.045, rims);
        assert!(
            bolts
                .iter()
                .all(|line| (line.line.basic - 16.0 * 0.015).abs() < 1e-12)
        );
        let tank = &outcome.tank;
        let fittings = point.tank.fittings_mass;
        let wrap = if form.tank.plies > 0 {
            tank.fibre_mass + tank.resin_mass
        } else {
            0.0
        };
        let sum = tank.liner_mass + tank.closure_mass + wrap + fittings + bolts.len() as f64 * 0.24;
        assert!((tank.mass - sum).abs() < 1e-9, "{} {sum}", tank.mass);
    }
}

#[test]
fn a_row_that_cannot_be_made_is_refused_with_its_parameter() {
    let stage = one_end();
    for (leaf, value, told) in [
        (
            "count",
            json!(23.5),
            "bolts.count = 23.5 is no whole number",
        ),
        ("count", json!(1), "tank.aft_closure.bolts.count"),
        (
            "edge_distance",
            json!("4.2 mm"),
            "not more than half of hole_diameter = 8.4",
        ),
        (
            "hole_diameter",
            json!("7.9 mm"),
            "is less than the bolts' diameter of 8",
        ),
        ("rim_length", json!("22 mm"), "ends before the holes do"),
        (
            "rim_length",
            json!("31 mm"),
            "less than the bulkhead's thickness of 32",
        ),
        (
            "count",
            json!(66),
            "bolts.count = 66 holes of 8.4 mm do not fit around the wall, 548 mm",
        ),
        (
            "bearing_yield_strength",
            json!("601 MPa"),
            "is above bearing_ultimate_strength",
        ),
    ] {
        let path = format!("tank.aft_closure.bolts.{leaf}");
        let error = stage.replace(&[(path, value)]).expect_err("refused");
        assert!(error.to_string().contains(told), "{leaf}: {error}");
    }
    let welded = ("tank.liner.girth_seam.basis", json!("weld_zone_strength"));
    let error = replaced(&both_ends("petrel_plain.toml"), &[welded]).expect_err("no seam");
    let told = "tank.liner.girth_seam.basis = \"weld_zone_strength\", but bolts hold both closures";
    assert!(error.to_string().contains(told), "{error}");
    let asked = replaced(
        &example("petrel_plain.toml"),
        &[("tank.aft_closure.kind", json!("flat_bolted"))],
    );
    let error = asked.expect_err("asked for").to_string();
    assert!(
        error.contains("tank.aft_closure.bolts.count is missing"),
        "{error}"
    );
    let helical = example("petrel_slim.toml")
        .replace(&row("aft"))
        .expect_err("free ends");
    assert!(
        helical
            .to_string()
            .contains("over a flat bulkhead they end free"),
        "{helical}"
    );
}

#[test]
fn a_sweep_tells_which_rows_cannot_be_made() {
    let column = |leaf: &str, values: Vec<Value>| {
        let path = format!("tank.aft_closure.bolts.{leaf}");
        let swept = sweep(
            &one_end(),
            &[Axis { path, values }],
            None,
            &Progress::default(),
        );
        let status = swept.expect("a sweep").status;
        status.into_iter().map(Fault::from_code).collect::<Vec<_>>()
    };
    assert_eq!(
        column("count", vec![json!(24.5), json!(24), json!(66)]),
        [Some(Fault::PartOfABolt), None, Some(Fault::HolesOverlap)]
    );
    assert_eq!(
        column(
            "edge_distance",
            vec![json!("4.3 mm"), json!("4.2 mm"), json!("41 mm")]
        ),
        [None, Some(Fault::HolesAtEnd), Some(Fault::RimTooShort)]
    );
    assert_eq!(
        column("rim_length", vec![json!("31 mm")]),
        [Some(Fault::RimTooShort)]
    );
    assert_eq!(
        column("diameter", vec![json!("8.4 mm"), json!("8.5 mm")]),
        [None, Some(Fault::HolesTooNarrow)]
    );
    assert_eq!(
        column("rim_thickness", vec![json!("14 mm"), json!("90 mm")]),
        [None, Some(Fault::RimTooThick)]
    );
    assert_eq!(
        column(
            "bearing_yield_strength",
            vec![json!("600 MPa"), json!("601 MPa")]
        ),
        [None, Some(Fault::StrengthsSwapped)]
    );
}

#[test]
fn what_is_there_when_the_tank_is_autofrettaged_has_to_bear_it() {
    let stage = both_ends("petrel_hoop.toml");
    let plain = stage.outcome();
    let (proof, aft) = (plain.pressures.proof, plain.flight_loads.proof_with_head);
    // Up to the pressures it is judged at anyway nothing changes; above them it goes by the autofrettage's.
    let low = with(&stage, "tank.autofrettage_pressure", "90 bar gauge")
        .outcome()
        .margins;
    assert_eq!(low.fore_bearing_proof, plain.margins.fore_bearing_proof);
    assert_eq!(low.aft_seal_gap_flight, plain.margins.aft_seal_gap_flight);
    let reached = 140e5;
    let high = with(&stage, "tank.autofrettage_pressure", "140 bar gauge")
        .outcome()
        .margins;
    let gap = |margin: f64| 0.3e-3 / (1.0 + margin) - 0.05e-3;
    for (before, after, from) in [
        (
            plain.margins.fore_bearing_proof,
            high.fore_bearing_proof,
            proof,
        ),
        (
            plain.margins.fore_net_section_proof,
            high.fore_net_section_proof,
            proof,
        ),
        (
            plain.margins.aft_bearing_flight,
            high.aft_bearing_flight,
            aft,
        ),
        (
            plain.margins.aft_net_section_flight,
            high.aft_net_section_flight,
            aft,
        ),
    ] {
        assert!(((1.0 + after) / (1.0 + before) * reached / from - 1.0).abs() < 1e-12);
    }
    let grown = gap(high.fore_seal_gap_proof) / gap(plain.margins.fore_seal_gap_proof);
    assert!((grown * proof / reached - 1.0).abs() < 1e-9, "{grown}");
    assert!((gap(high.aft_seal_gap_flight) / gap(high.fore_seal_gap_proof) - 1.0).abs() < 1e-9);
    assert_eq!(high.fore_bearing_burst, plain.margins.fore_bearing_burst);
}

#[test]
fn habits_of_the_trade_and_what_is_left_out_are_told() {
    let stage = one_end();
    let told = cautions(&stage);
    assert!(
        told.contains("the aft bolts are judged by mean stresses"),
        "{told}"
    );
    assert!(
        !told.contains("hole diameters") && !told.contains("14 CFR"),
        "{told}"
    );
    let near = with(&stage, "tank.aft_closure.bolts.edge_distance", "16 mm");
    assert!(cautions(&near).contains("stand 1.90 hole diameters from the end"));
    let close = with(&stage, "tank.aft_closure.bolts.count", "40");
    assert!(cautions(&close).contains("hole diameters apart, closer than 4"));
    let even = with(&stage, "tank.aft_closure.bolts.fitting_factor", "1.1");
    assert!(cautions(&even).contains("fitting factor is 1.1, below the 1.15 that 14 CFR 25.625"));
    let strong = with(
        &stage,
        "tank.aft_closure.bolts.wall_shear_strength",
        "900 MPa",
    );
    assert!(cautions(&strong).contains("a metal shears at less"));
    let borne = [
        (
            "tank.aft_closure.bolts.bearing_ultimate_strength",
            json!("5000 MPa"),
        ),
        ("rule_set.burst_factor", json!(1.4)),
    ];
    let told = cautions(&replaced(&stage, &borne).expect("a stage"));
    assert!(
        told.contains("times the") && told.contains("see which metal"),
        "{told}"
    );
    assert!(told.contains("is not above the proof pressure"), "{told}");
    // A soft wall flows before its proof pressure, and its seal opens further than the elastic margin says.
    let soft = with(&both_ends("petrel_hoop.toml"), "tank.liner.wall", "2 mm");
    let told = cautions(&soft);
    assert!(told.contains("the gap at the fore seal opens to"), "{told}");
    assert!(
        told.contains("hoop plies are counted up to the end of the tube"),
        "{told}"
    );
}
