//! Wall, closures, plies, seams and the rule set's scope.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::given::Stage;
use crate::vessel::rule_set::PUBLISHED;
use crate::vessel::{Closure, ClosureKind, PlyKind, SeamBasis};

pub(super) fn wall(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let size = &outcome.geometry;
    let thin = size.liner_wall / (size.liner_inner_diameter * 0.5);
    if side.tank.plies > 0 && thin > 0.1 {
        cautions.push(format!(
            "the liner's wall is {:.0} % of its radius; its stresses are those of a thick wall, but how \
             liner and wrap share the load is a thin-wall model, which holds to about 10 %",
            thin * 100.0
        ));
    }
    parts(stage, outcome, cautions);
    let dished = |kind| matches!(kind, ClosureKind::Ellipsoid | ClosureKind::Torisphere);
    if dished(side.tank.fore_closure) || dished(side.tank.aft_closure) {
        cautions.push(
            "an ellipsoid's margins rest on membrane stress at crown and equator, a torisphere's on the \
             boiler code's factor for crown and knuckle: the code's own formula would allow an ellipsoid \
             more, so the two kinds are not judged alike"
                .to_owned(),
        );
    }
    let isotensoid =
        [side.tank.fore_closure, side.tank.aft_closure].contains(&ClosureKind::Isotensoid);
    if isotensoid && side.tank.has_helical() {
        cautions.push(
            "an isotensoid closure's margins are those of its metal alone: the fibre wound over it, for which \
             the shape is made, is not counted in its strength"
                .to_owned(),
        );
    }
    let (name, _) = &stage.labels().rule_set;
    // Factors of one's own still stand in place of a published set, whose scope they do not widen.
    let in_place_of = |known: &str| name == known || name.ends_with(&format!("\"{known}\""));
    if let Some(rule_set) = PUBLISHED.iter().find(|known| in_place_of(&known.name)) {
        let overwrapped = side.tank.plies > 0;
        let over_closures = side.tank.has_helical();
        if !rule_set.wall.covers(overwrapped, over_closures) {
            cautions.push(format!(
                "the rule set \"{name}\" covers {}; this tank is {}",
                rule_set.scope,
                match (overwrapped, over_closures) {
                    (false, _) => "bare metal",
                    (true, false) => "wound around its cylinder only",
                    (true, true) => "wound over its closures",
                }
            ));
        }
        let welded = [side.tank.girth_seam, side.tank.longitudinal_seam]
            .iter()
            .any(|seam| *seam != SeamBasis::None);
        if rule_set.excludes_welded_liners && welded {
            cautions.push(format!(
                "the rule set \"{name}\" excludes welded liners, and this liner is welded: its factors \
                 do not cover it, and qualifying the weld is yours to show"
            ));
        }
    }
    let pressures = &outcome.pressures;
    if pressures.burst <= pressures.proof {
        cautions.push(format!(
            "the burst pressure required, {}, is not above the proof pressure, {}: margins against rupture then ask \
             for less than the tank is tested with; check rule_set",
            show(pressures.burst, Quantity::GaugePressure),
            show(pressures.proof, Quantity::GaugePressure)
        ));
    }
    if side.stated_mass {
        cautions.push(format!(
            "the tank's mass is stated as a what-if ({}); the design as drawn has {}",
            show(stage.point().mass.stated.tank, Quantity::Mass),
            show(outcome.tank.mass, Quantity::Mass)
        ));
    }
}

/// Ultimate over yield strength above which a metal is taken to harden strongly (own limit; a hardening
/// exponent of about 0.12, where one published burst estimate falls below the mean-diameter formula).
const STRONG_HARDENING: f64 = 1.5;

/// Angles, thicknesses and strengths outside what the tank's models are meant for.
fn parts(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let tank = stage.point().tank;
    for (index, (ply, kind)) in side.tank.wound(&tank.overwrap).enumerate() {
        let degrees = ply.angle.to_degrees();
        match kind {
            PlyKind::Helical if degrees > 54.74 => cautions.push(format!(
                "ply {index}, helical at {degrees:.1} degrees: above 54.7 degrees it carries more hoop \
                 than axial load, and winding it over a dome is in doubt"
            )),
            PlyKind::Hoop if degrees < 75.0 => cautions.push(format!(
                "ply {index}, hoop at {degrees:.1} degrees: taken to end free, so its axial share is \
                 left out; below about 75 degrees it is no hoop ply (own limit)"
            )),
            _ => {}
        }
    }
    let radius = outcome.geometry.liner_inner_diameter * 0.5;
    for (name, kind, closure) in [
        ("fore", side.tank.fore_closure, tank.fore_closure),
        ("aft", side.tank.aft_closure, tank.aft_closure),
    ] {
        if kind.is_domed() && closure.thickness > 0.1 * radius {
            cautions.push(format!(
                "the {name} closure is {:.0} % of its radius thick; the membrane model holds to about \
                 10 %",
                100.0 * closure.thickness / radius
            ));
        }
        if kind == ClosureKind::Torisphere {
            let outside = outcome.geometry.liner_outer_diameter;
            torisphere(name, &closure, [2.0 * radius, outside], cautions);
        }
    }
    let metal = tank.liner.metal;
    if side.tank.needs_weld_zone()
        && (metal.weld_zone_yield_strength > metal.yield_strength
            || metal.weld_zone_ultimate_strength > metal.ultimate_strength)
    {
        cautions.push("the weld zone is given as stronger than its parent metal".to_owned());
    }
    let helical = side
        .tank
        .wound(&tank.overwrap)
        .filter(|(_, kind)| *kind == PlyKind::Helical)
        .map(|(ply, _)| tank.overwrap.laminate(ply.fibre_thickness))
        .sum::<f64>();
    let thickest = side
        .tank
        .closures(&tank)
        .into_iter()
        .filter(|(kind, _)| kind.is_domed())
        .fold(0.0, |most: f64, (_, closure)| most.max(closure.thickness));
    let rim = outcome.geometry.liner_inner_diameter + 2.0 * (thickest + helical);
    let domed = side.tank.fore_closure.is_domed() || side.tank.aft_closure.is_domed();
    if domed && rim > outcome.geometry.tank_outer_diameter {
        cautions.push(format!(
            "a closure's rim (with helical plies, if any) is {} across, wider than the tank: taper it",
            show(rim, Quantity::Length)
        ));
    }
    let hardens = metal.ultimate_strength / metal.yield_strength;
    if side.tank.plies == 0 && hardens > STRONG_HARDENING {
        let lowered = (1.0 + outcome.margins.hoop_burst) * 0.8 - 1.0;
        cautions.push(format!(
            "the metal's ultimate strength is {hardens:.1} times its yield strength: a bare tank of so \
             strongly hardening a metal may burst up to 20 % below the mean-diameter formula that the \
             burst margins use; hoop burst would then be {:+.2} (own limit: {STRONG_HARDENING})",
            (lowered * 100.0).floor() / 100.0
        ));
    }
    if metal.yield_strength > metal.ultimate_strength {
        cautions.push("the metal's yield strength is given above its ultimate strength".to_owned());
    }
}

/// Where the boiler code's formula for torispheres stops.
fn torisphere(
    name: &str,
    closure: &Closure<f64>,
    [diameter, outside]: [f64; 2],
    cautions: &mut Vec<String>,
) {
    let crown = closure.crown_radius_ratio * diameter;
    let slender = closure.minimum_thickness() / crown;
    if slender < 0.002 {
        cautions.push(format!(
            "the {name} closure's minimum thickness is {slender:.4} of its crown radius; below 0.002 the \
             knuckle of a torisphere may buckle under internal pressure, which is not checked"
        ));
    }
    let knuckle = closure.knuckle_radius_ratio * diameter;
    if knuckle < 3.0 * closure.thickness {
        cautions.push(format!(
            "the {name} closure's knuckle radius, {}, is less than three times its thickness, the least \
             that the boiler code's formula is for (UG-32)",
            show(knuckle, Quantity::Length)
        ));
    }
    if knuckle < 0.06 * outside * (1.0 - 1e-9) {
        cautions.push(format!(
            "the {name} closure's knuckle radius, {}, is less than 6 % of the outside diameter, the least \
             that the boiler code's formula is for (UG-32)",
            show(knuckle, Quantity::Length)
        ));
    }
    if closure
        .crown_radius_ratio
        .min(1.0 - closure.knuckle_radius_ratio)
        < 0.5 * (1.0 + 1e-9)
    {
        cautions.push(format!(
            "the {name} closure's crown or knuckle has no extent: it is a hemisphere, whose own kind has the \
             stress that fits it"
        ));
    }
}
