//! What the margins of a bulkhead held by bolts leave out, and which habits of the trade its row departs from.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::settle;
use crate::stage::given::Stage;
use crate::vessel::{Bolts, Dimensions, SeamBasis, risen, wall_growth};
use std::f64::consts::PI;

/// Edge distance over hole diameter: for rivets in a single row FAA AC 43.13-1B, 4-57, asks for two diameters (as quoted
/// elsewhere; the paragraph itself was not seen). For bolts common practice, no source.
const EDGE: f64 = 2.0;
/// Pitch over hole diameter: "seldom less than four times" a rivet's, never less than three (US Navy training manual 14018,
/// chapter 13, rivet spacing). For bolts common practice, no source.
const PITCH: f64 = 4.0;
/// Fitting factor that airworthiness rules ask for where no test has shown the strength (14 CFR 25.625).
const FITTING: f64 = 1.15;

/// Times the ultimate tensile strength of the wall above which its bearing strength is told (own limit).
const BEARING: f64 = 2.5;

/// Of every closure that bolts hold.
pub(super) fn bolts(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let point = stage.point();
    let Some(size) = settle(stage.form(), &point).size else {
        return;
    };
    let pressures = [
        outcome.pressures.proof,
        outcome.flight_loads.proof_with_head,
    ];
    let ends = ["fore", "aft"].into_iter().zip(pressures);
    for ((name, pressure), (kind, closure)) in ends.zip(side.tank.closures(&point.tank)) {
        if !kind.is_bolted() {
            continue;
        }
        let row = &closure.bolts;
        cautions.extend(flowed(stage, &size, name, row, pressure));
        let ultimate = point.tank.liner.metal.ultimate_strength;
        habits(name, row, [size.mean_radius(), ultimate], cautions);
        cautions.push(format!(
            "the {name} bolts are judged by mean stresses: bending of wall and bolts by the offset of their load, bending \
             where the pressure ends at the seal, the stress raised at the holes, and the rim's own holes and threads \
             are in no margin"
        ));
        if side.tank.plies > 0 {
            cautions.push(format!(
                "hoop plies are counted up to the end of the tube at the {name} bolts: what their holes cut, and what the \
                 heads rest on, is in no margin"
            ));
        }
        if side.tank.longitudinal_seam != SeamBasis::None {
            cautions.push(format!(
                "the longitudinal seam runs through the row of {name} bolts, whose margins rest on parent metal: keep \
                 their holes out of the weld zone"
            ));
        }
    }
}

/// A wall that flows before or at the pressure at which the seal's gap is judged.
fn flowed(
    stage: &Stage,
    size: &Dimensions<f64>,
    name: &str,
    row: &Bolts<f64>,
    pressure: f64,
) -> Option<String> {
    let side = stage.form().tank.as_ref()?;
    let tank = stage.point().tank;
    let reached = pressure.max(tank.autofrettage_pressure);
    let [cylinder, _] = risen(&side.tank, &tank, size, reached);
    if cylinder.flow <= 0.0 {
        return None;
    }
    let gap = row.seal_gap + cylinder.strain[1] * size.mean_radius();
    let (axial, _) = size.loads_per_pressure();
    let elastic = wall_growth(&side.tank, &tank, size, axial * reached, reached);
    let length = |value: f64| show((value * 1e6).ceil() * 1e-6, Quantity::Length);
    let bears = if gap > row.largest_seal_gap {
        "beyond"
    } else {
        "within"
    };
    let margin = match name {
        "fore" => "margins.fore_seal_gap_proof",
        _ => "margins.aft_seal_gap_flight",
    };
    Some(format!(
        "the wall flows up to {}: with it the gap at the {name} seal opens to {} (total strains), {bears} the {} that the \
         seal bears; {margin} counts {}, as if all stayed elastic",
        show(reached, Quantity::GaugePressure),
        length(gap),
        show(row.largest_seal_gap, Quantity::Length),
        length(row.seal_gap + elastic),
    ))
}

/// Distances, areas and factors that depart from the trade's habits.
fn habits(name: &str, row: &Bolts<f64>, [radius, ultimate]: [f64; 2], cautions: &mut Vec<String>) {
    let stress = |value| show(value, Quantity::Stress);
    let edge = row.edge_distance / row.hole_diameter;
    if edge < EDGE {
        cautions.push(format!(
            "the {name} bolts stand {edge:.2} hole diameters from the end of the tube, nearer than {EDGE} (for rivets FAA \
             AC 43.13-1B; for bolts common practice, no source); see that the bearing strengths given are for that \
             distance"
        ));
    }
    let pitch = 2.0 * PI * radius / row.count / row.hole_diameter;
    if pitch < PITCH {
        cautions.push(format!(
            "the {name} bolts stand {pitch:.2} hole diameters apart, closer than {PITCH} (common practice, no source)"
        ));
    }
    if row.fitting_factor < FITTING {
        cautions.push(format!(
            "the {name} bolts' fitting factor is {}, below the {FITTING} that 14 CFR 25.625 asks of a joint whose \
             strength no test has shown",
            row.fitting_factor
        ));
    }
    if row.wall_shear_strength > ultimate {
        cautions.push(format!(
            "the wall's shear strength at the {name} bolts is {}, more than the {} that the metal bears in tension: \
             a metal shears at less",
            stress(row.wall_shear_strength),
            stress(ultimate)
        ));
    }
    if row.bearing_ultimate_strength > BEARING * ultimate {
        cautions.push(format!(
            "the wall's bearing strength at the {name} bolts is {}, more than {BEARING} times the {} that the metal \
             bears in tension (own limit): see which metal and edge distance it was read for",
            stress(row.bearing_ultimate_strength),
            stress(ultimate)
        ));
    }
    let section = PI / 4.0 * row.diameter * row.diameter;
    if row.shear_area > section * (1.0 + 1e-3) {
        cautions.push(format!(
            "the {name} bolts' shear area is {}, more than the {} of a round section of their diameter",
            show(row.shear_area, Quantity::Area),
            show(section, Quantity::Area)
        ));
    }
}
