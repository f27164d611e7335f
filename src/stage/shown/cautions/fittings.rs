//! What the margins of attachment fittings do not see.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::settle;
use crate::stage::given::Stage;
use crate::stage::shown::fittings::{StageFitting, fittings as computed};
use crate::vessel::fitting::{CASES, Fitting, Flown};
use crate::vessel::service::ServiceMatter;

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
    let (tank, meop) = (stage.point().tank, outcome.pressures.meop);
    if tank.fittings_mass <= 0.0 {
        cautions.push(
            "tank.fittings_mass is nought although fittings are listed: their mass belongs to it"
                .to_owned(),
        );
    }
    for (fitting, (_, given)) in all.iter().zip(side.tank.fittings(&tank)) {
        stated(&fitting.name, given, meop, cautions);
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
        if !side.tank.service.judges(ServiceMatter::CoolDown) {
            cautions.push(
                "the clamping force of pads under the wrap counts no cool-down: a wrap that sets warm loses tension as \
                 its liner shrinks, some tens of kelvin may take all of it from an empty tank; give \
                 [tank.service.cool_down], or let it set as cold as it serves"
                    .to_owned(),
            );
        }
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

/// What is stated of a fitting beyond what it can be.
fn stated(name: &str, given: &Fitting<f64>, meop: f64, cautions: &mut Vec<String>) {
    for (load, case) in given.cases(&Flown::at_rest()).iter().zip(CASES) {
        if load.tank_pressure > meop {
            cautions.push(format!(
                "the fitting \"{name}\" states {} as the least tank pressure of {case}, above MEOP: {} is counted",
                show(load.tank_pressure, Quantity::GaugePressure),
                show(meop, Quantity::GaugePressure)
            ));
        }
    }
    let reach = given.length.max(given.width);
    if given.fastener_lever > reach {
        cautions.push(format!(
            "the fitting \"{name}\" has fasteners {} from the edge that its part tilts over, beyond its pad of {}",
            show(given.fastener_lever, Quantity::Length),
            show(reach, Quantity::Length)
        ));
    }
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
