//! What edge bending does to the wall, and what is assumed of the girth seam.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::settle;
use crate::stage::given::Stage;
use crate::stage::shown::junctions::junctions as computed;
use crate::vessel::{ClosureKind, SHAKEDOWN, closure_stress};

/// Names what flows locally in the proof test.
pub(super) fn junctions(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let point = stage.point();
    let Some(size) = settle(stage.form(), &point).size else {
        return;
    };
    let strength = if side.tank.has_girth_seam() {
        "the yield strength across the girth seam"
    } else {
        "the yield strength"
    };
    let both = computed(side, &point, &size, outcome.pressures.proof);
    let texts: Vec<Option<String>> = both.iter().map(|junction| {
        let (stress, yields) = (junction.largest(), junction.yield_strength);
        let follows = if stress <= SHAKEDOWN * yields {
            "within twice it, so that it flows once and stays elastic after"
        } else {
            "beyond twice it, so that every test to proof pressure makes it flow again"
        };
        (stress > yields).then(|| {
            format!(
                "the wall flows locally in the proof test: elastic surface stress {} {}, over {strength}, {}; \
                 {follows}",
                show(stress, Quantity::Stress),
                junction.place(),
                show(yields, Quantity::Stress),
            )
        })
    })
    .collect();
    match &texts[..] {
        [Some(fore), Some(aft)] if fore == aft => {
            cautions.push(format!("at the fore and the aft junction {fore}"));
        }
        texts => {
            for (junction, text) in both.iter().zip(texts) {
                cautions.extend(
                    text.as_ref()
                        .map(|text| format!("at the {} junction {text}", junction.side)),
                );
            }
        }
    }
    for junction in &both {
        let closure = match junction.side {
            "fore" => &point.tank.fore_closure,
            _ => &point.tank.aft_closure,
        };
        let nu = point.tank.liner.metal.poisson_ratio;
        let counted = closure_stress(
            junction.closure,
            closure,
            junction.pressure,
            size.inner_diameter,
            nu,
        );
        let plate = junction.rows.iter().filter(|row| row.distance < 0.0);
        let bent = plate.fold(0.0, |most: f64, row| {
            most.max(row.inner_equivalent_stress)
                .max(row.outer_equivalent_stress)
        });
        if junction.closure == ClosureKind::FlatClamped && bent > counted {
            cautions.push(format!(
                "the {name} bulkhead is judged as clamped, but the wall turns with its edge: held by the wall \
                 alone it bends to {}, above the {} that margins.{name}_closure_proof counts",
                show(bent, Quantity::Stress),
                show(counted, Quantity::Stress),
                name = junction.side,
            ));
        }
    }
}

/// A girth seam of which no imperfection is given is taken as perfect.
pub(super) fn seam(stage: &Stage, cautions: &mut Vec<String>) {
    let has = stage.form().tank.as_ref();
    if !has.is_some_and(|side| side.tank.has_girth_seam()) {
        return;
    }
    let seam = stage.point().tank.liner.girth_seam;
    let missing: Vec<&str> = [
        ("misalignment", seam.misalignment),
        ("peaking", seam.peaking),
        ("lack_of_penetration", seam.lack_of_penetration),
    ]
    .into_iter()
    .filter(|(_, size)| *size == 0.0)
    .map(|(name, _)| name)
    .collect();
    if missing.is_empty() {
        return;
    }
    let words = missing.join(", ").replace('_', " ");
    cautions.push(format!(
        "the girth seam is taken as perfect: no {words}; each tenth of the wall by which the walls' middles are \
         offset adds three tenths of the axial stress, and limits for pipes and tubes are typically 1.5 to 3 mm \
         (S. Altstadt and R. Warke, Welding Journal, May 2021): give tank.liner.girth_seam.{} as measured, or as \
         tolerated",
        missing[0],
    ));
}
