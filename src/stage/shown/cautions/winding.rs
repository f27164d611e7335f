//! Where a wrap does not hold, or cannot be wound as it is given.

use crate::quantity::{Applies, Quantity, show};
use crate::stage::given::{Stage, openings};
use crate::vessel::winding::{HelicalPly, Turn, Wound, WoundPly, wind};
use crate::vessel::{ClosureKind, Tank, TankForm, dimensions};

/// Share by which whole covers may miss the thickness asked for before it is told (own limit).
const FAR_OFF: f64 = 0.05;
/// Share of the elastic collapse pressure from which on the winding tension is told (own limit: a liner that is
/// not quite round collapses below it).
const NEAR_COLLAPSE: f64 = 0.5;
/// Share by which a band may turn elsewhere than an isotensoid's own fibres before it is told (own limit).
const OTHER_TURN: f64 = 0.02;

/// Numbers that are those of carbon fibre, and of aluminium, for a catalogue row does not say what it is (own
/// limits). Glass and basalt are denser, aramid and polymer fibres lighter or softer; no other liner metal is
/// as light and as stiff.
const CARBON_DENSITY: [f64; 2] = [1650.0, 2250.0];
const CARBON_MODULUS: f64 = 150e9;
const ALUMINIUM_DENSITY: [f64; 2] = [2500.0, 2950.0];
const ALUMINIUM_MODULUS: [f64; 2] = [60e9, 85e9];

fn between([low, high]: [f64; 2], value: f64) -> bool {
    low <= value && value <= high
}

/// The same in an assessment, where it is stated how the wrap is wound.
pub(super) fn winding(stage: &Stage, cautions: &mut Vec<String>) {
    let (form, point) = (stage.form(), stage.point());
    let (Some(side), true) = (&form.tank, form.applies(Applies::Winding, 0)) else {
        return;
    };
    if let Err(refused) = openings::check(stage) {
        cautions.push(format!("the wrap cannot be wound: {refused}"));
        return;
    }
    let size = dimensions(&side.tank, side.shape, &point.tank);
    let wound = wind(&side.tank, &point.tank, &size);
    cautions.extend(winding_cautions(&side.tank, &point.tank, &wound));
}

/// Cautions of a wrap as it is wound, in words.
pub(in crate::stage::shown) fn winding_cautions(
    form: &TankForm,
    tank: &Tank<f64>,
    wound: &Wound,
) -> Vec<String> {
    let mut cautions = Vec::new();
    let allowed = tank.overwrap.winding.slippage_coefficient;
    for (index, ply) in wound.plies.iter().enumerate() {
        if let Some(helical) = &ply.helical {
            slip(index, ply, helical, allowed, &mut cautions);
        }
    }
    let given = form.wound(&tank.overwrap);
    for (index, (ply, (stated, _))) in wound.plies.iter().zip(given).enumerate() {
        if stated.fibre_thickness <= 0.0 {
            cautions.push(format!(
                "ply {index} has no thickness, and whole covers lay {} of fibre: take it out, or give it its thickness",
                show(ply.wound_fibre_thickness, Quantity::Length)
            ));
            continue;
        }
        let off = ply.wound_fibre_thickness / stated.fibre_thickness - 1.0;
        if off.abs() > FAR_OFF {
            cautions.push(format!(
                "ply {index}: whole covers, {:.0} of them, lay {} of fibre, {:+.0} % of the {} that strength \
                 and mass rest on: choose tows, band or thickness that fit",
                ply.covers,
                show(ply.wound_fibre_thickness, Quantity::Length),
                100.0 * off,
                show(stated.fibre_thickness, Quantity::Length)
            ));
        }
    }
    matching(form, tank, wound, &mut cautions);
    galvanic(tank, &mut cautions);
    let share = wound.tension_pressure / wound.collapse_pressure;
    if share > NEAR_COLLAPSE {
        cautions.push(format!(
            "the winding tension would press on the bare liner with {}, {:.0} % of the pressure at which it \
             collapses as a long elastic tube; a liner that is not round collapses earlier: wind with less \
             tension or with pressure inside (own limit: {:.0} %)",
            show(wound.tension_pressure, Quantity::PressureDifference),
            100.0 * share,
            100.0 * NEAR_COLLAPSE
        ));
    }
    if wound.bead_run_out > 0.0 && form.has_girth_seam() {
        cautions.push(format!(
            "a weld bead of {} under the wrap has to run out over at least {} on either side, or hoop bands \
             slide off its flank",
            show(tank.overwrap.winding.bead_height, Quantity::Length),
            show(wound.bead_run_out, Quantity::Length)
        ));
    }
    cautions
}

fn slip(
    index: usize,
    ply: &WoundPly,
    helical: &HelicalPly,
    allowed: f64,
    cautions: &mut Vec<String>,
) {
    let degrees = ply.angle.to_degrees();
    if degrees > 54.735_610_317_245_35 {
        cautions.push(format!(
            "ply {index}, helical at {degrees:.1} degrees: above 54.7 degrees netting asks for a negative \
             thickness of hoop plies beside it"
        ));
    }
    for (name, turn) in [("fore", &helical.fore), ("aft", &helical.aft)] {
        let Some(turn) = turn else {
            cautions.push(format!(
                "ply {index} at {degrees:.1} degrees: no friction turns the band at the {name} polar opening; \
                 give another angle or opening"
            ));
            continue;
        };
        let worst = turn.worst();
        let middle = turn.coefficient.abs();
        if middle > allowed {
            cautions.push(format!(
                "ply {index} at {degrees:.1} degrees slides on the {name} closure: to turn at {} its band needs \
                 a slippage coefficient of {middle:.3} all along, allowed are {allowed}; a geodesic turns there \
                 from {:.1} degrees: {}",
                show(turn.turning_radius, Quantity::Length),
                turn.geodesic_angle.to_degrees(),
                remedy(turn)
            ));
        } else if worst.edge_slippage > allowed {
            cautions.push(format!(
                "ply {index} at {degrees:.1} degrees: the edge of the band slides on the {name} closure at a \
                 radius of {}, where it needs a slippage coefficient of {:.3} and its middle {middle:.3}, \
                 allowed are {allowed}: take a narrower band",
                show(worst.radius, Quantity::Length),
                worst.edge_slippage
            ));
        }
    }
}

/// An isotensoid is the shape for a band that turns at its own turning radius, and for no other.
fn matching(form: &TankForm, tank: &Tank<f64>, wound: &Wound, cautions: &mut Vec<String>) {
    let Some(ply) = wound.plies.iter().find(|ply| ply.helical.is_some()) else {
        return;
    };
    let given = &tank.overwrap.winding;
    let openings = [
        ("fore", given.fore_polar_opening_radius),
        ("aft", given.aft_polar_opening_radius),
    ];
    for ((kind, closure), (name, opening)) in form.closures(tank).into_iter().zip(openings) {
        let own = closure.turning_radius_ratio * ply.radius;
        let turns = opening + 0.5 * given.band_width;
        if kind == ClosureKind::Isotensoid && (turns / own - 1.0).abs() > OTHER_TURN {
            cautions.push(format!(
                "the {name} closure is the isotensoid of fibres that turn at {}, and the band's middle turns at \
                 {}, half a band outside the polar opening: give tank.{name}_closure.turning_radius_ratio as \
                 {:.3}, or another opening (own limit: {:.0} %)",
                show(own, Quantity::Length),
                show(turns, Quantity::Length),
                turns / ply.radius,
                100.0 * OTHER_TURN
            ));
        }
    }
}

fn remedy(turn: &Turn) -> &'static str {
    if turn.coefficient > 0.0 {
        "take a larger angle or a smaller opening"
    } else {
        "take a smaller angle or a larger opening"
    }
}

/// Carbon touching aluminium makes a cell that eats the aluminium.
fn galvanic(tank: &Tank<f64>, cautions: &mut Vec<String>) {
    let (fibre, metal) = (&tank.overwrap.fibre, &tank.liner.metal);
    let carbon = between(CARBON_DENSITY, fibre.density) && fibre.elastic_modulus > CARBON_MODULUS;
    let aluminium = between(ALUMINIUM_DENSITY, metal.density)
        && between(ALUMINIUM_MODULUS, metal.elastic_modulus);
    if carbon && aluminium && tank.overwrap.winding.barrier_thickness == 0.0 {
        cautions.push(
            "density and modulus are those of carbon fibre on aluminium, and no barrier is stated between \
             them: wet, the pair corrodes the liner; lay glass cloth or adhesive in between and state its \
             thickness (its mass is an item of its own)"
                .to_owned(),
        );
    }
}
