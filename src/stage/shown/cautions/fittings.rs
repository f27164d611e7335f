//! What the margins of attachment fittings do not see.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::settle;
use crate::stage::given::Stage;
use crate::stage::shown::fittings::{StageFitting, fittings as computed};

/// Share of the clamping force at MEOP below which a pad counts as having lost it when the tank is empty (own
/// limit).
const LOST: f64 = 0.1;

pub(super) fn fittings(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let side = stage.form().tank.as_ref();
    let Some(side) = side.filter(|side| side.tank.fittings > 0) else {
        return;
    };
    let Some(size) = settle(stage.form(), &stage.point()).size else {
        return;
    };
    let all = computed(stage, side, &size, outcome);
    for fitting in &all {
        match fitting.clamping {
            Some([empty, full]) => clamped(fitting, [empty, full], cautions),
            None => glued(fitting, outcome, cautions),
        }
    }
    if let Some(bridged) = all
        .iter()
        .filter_map(|one| one.bridged_length)
        .reduce(f64::max)
    {
        cautions.push(format!(
            "a pad under the wrap lifts it off the liner beside it over up to {}, where liner and wrap do not share \
             the load; filler there takes part of the clamping force if it is no part of the pad, and what the bend \
             over the pad's edge takes from the fibre's strength is not known: try it on a coupon",
            show(bridged, Quantity::Length)
        ));
        cautions.push(
            "the friction coefficient of a pad under the wrap wants a trial with this surface and resin; winding \
             tension that creeps away while the resin cures is not counted either"
                .to_owned(),
        );
    }
    cautions.push(
        "of a fitting are not judged: bearing of its holes, preload and loosening of its fasteners, bending that it \
         puts into the liner, corrosion between carbon and metal"
            .to_owned(),
    );
}

fn clamped(fitting: &StageFitting, [empty, full]: [f64; 2], cautions: &mut Vec<String>) {
    if empty < LOST * full {
        cautions.push(format!(
            "the fitting \"{}\" loses its clamp when the tank is empty: the wrap presses it with {} at MEOP and {} \
             without pressure: wind with tension, or give it something else to hold by",
            fitting.name,
            show(full, Quantity::Force),
            show(empty, Quantity::Force)
        ));
    }
}

fn glued(fitting: &StageFitting, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let [[along, around], _] = fitting.strain;
    let proof = fitting.rows.last();
    let shear = proof.map_or(f64::NAN, |row| row.growth_shear);
    cautions.push(format!(
        "the fitting \"{}\" is glued to a wall that grows: by {:.2} % along and {:.2} % around at MEOP; in the proof \
         test at {} that alone shears the glue at the pad's corner with {} (elastic; eccentric peel, fatigue and \
         cold are not counted): soft or thick glue, a thin or a short pad follow better",
        fitting.name,
        100.0 * along,
        100.0 * around,
        show(outcome.pressures.proof, Quantity::GaugePressure),
        show(shear, Quantity::Stress)
    ));
}
