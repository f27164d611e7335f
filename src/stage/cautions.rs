//! Cautions: where a model is used outside its range, and what a reader must not overlook.

use super::form::{AtmosphereModel, Form, PressureBasis};
use super::given::Stage;
use super::outcome::Outcome;
use crate::atmosphere;
use crate::fluid::nitrous_oxide;
use crate::quantity::{Choice, Quantity, show};
use crate::vessel::rule_set::{PUBLISHED, Wall};
use crate::vessel::{Closure, ClosureKind, PlyKind, SeamBasis, axial_line_load, hoop_line_load};

/// Cautions for one design, in words.
pub(super) fn cautions(stage: &Stage, outcome: &Outcome<f64>) -> Vec<String> {
    let form = stage.form();
    let mut cautions = Vec::new();
    pressure(stage, outcome, &mut cautions);
    day(stage, &mut cautions);
    wall(stage, outcome, &mut cautions);
    flight(form, outcome, &mut cautions);
    curve(stage, outcome, &mut cautions);
    cautions
}

fn pressure(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let pressures = &outcome.pressures;
    let soak = stage.point().pressure.soak_temperature;
    let density = outcome.load.fill_density;
    let warmest = soak.max(stage.point().propellant.fill_temperature);
    cautions.extend(closed(warmest, density));
    if pressures.meop_closed > nitrous_oxide::VALID_PRESSURE_MAX {
        cautions.push(
            "the closed tank's pressure is beyond the equation of state's 500 bar".to_owned(),
        );
    }
    if pressures.meop + pressures.site < pressures.fill {
        cautions.push(format!(
            "MEOP is {}, below the {} the tank has when it is filled",
            show(pressures.meop, Quantity::GaugePressure),
            show(pressures.fill, Quantity::AbsolutePressure),
        ));
    }
    let higher = pressures.meop_closed > pressures.meop;
    let meop = show(pressures.meop, Quantity::GaugePressure);
    let otherwise = format!(
        "closed and soaked to {} the tank would reach {}",
        show(warmest, Quantity::Temperature),
        show(pressures.meop_closed, Quantity::GaugePressure),
    );
    match side.basis {
        PressureBasis::Vented if higher => cautions.push(format!(
            "vented: MEOP is {meop} only while the relief is open and passes the warm-up; {otherwise}. \
             Show by test that the relief passes it and cannot be blocked, or fill less, keep the tank \
             cooler, or take the closed basis; what the relief lets out is not taken from the load"
        )),
        PressureBasis::Vented => cautions.push(format!(
            "vented: MEOP is {meop}; even {otherwise}, no more. Any warmer, it holds only while the \
             relief is open and passes the warm-up; what it lets out is not taken from the load"
        )),
        PressureBasis::Stated if higher => cautions.push(format!(
            "MEOP is stated as {meop}, yet {otherwise}"
        )),
        PressureBasis::Stated | PressureBasis::Closed => {}
    }
}

/// Distance, K, below which a closed tank that is not yet full of liquid is called close to it (own
/// limit: about what a soak temperature is known to).
const CLOSE_TO_FULL: f64 = 3.0;

/// What becomes of liquid and vapour in the closed tank at its warmest.
fn closed(warmest: f64, density: f64) -> Option<String> {
    let at = |temperature: f64| show(temperature, Quantity::Temperature);
    let full = nitrous_oxide::liquid_full_temperature(density);
    // The equation of state's own uncertainty is a tenth of a kelvin here; rounded down.
    let tenths = |temperature: f64| (10.0 * (temperature - 273.15)).floor() / 10.0;
    let climb = full.map_or(String::new(), |full| {
        let slope = nitrous_oxide::pressure_slope(full, density) / 1e5;
        format!(
            "full of liquid from {:.1} degC and climbs {slope:.1} bar per kelvin there",
            tenths(full)
        )
    });
    if warmest >= nitrous_oxide::CRITICAL_TEMPERATURE {
        let before = if full.is_some() {
            format!("closed, the tank is {climb}")
        } else {
            nitrous_oxide::dry_temperature(density).map_or_else(
                || "pressure climbs steeply with temperature and load".to_owned(),
                |dry| {
                    format!(
                        "closed, the tank's last liquid is gone at {:.1} degC",
                        tenths(dry)
                    )
                },
            )
        };
        return Some(format!(
            "at {} nitrous oxide is above its critical temperature of 36.4 degC and has no liquid \
             level; {before} ({density:.0} kg/m3 on average)",
            at(warmest)
        ));
    }
    if density >= nitrous_oxide::saturation(warmest).liquid_density {
        let climb = if full.is_some() {
            climb
        } else {
            "full of liquid".to_owned()
        };
        return Some(format!(
            "closed, the tank is {climb} ({density:.0} kg/m3 on average), and it soaks to {}: fill less \
             or keep it cooler",
            at(warmest)
        ));
    }
    let full = full.filter(|full| full - warmest < CLOSE_TO_FULL)?;
    Some(format!(
        "closed, the tank is {climb}: only {:.1} K above the {} it soaks to (own limit: \
         {CLOSE_TO_FULL} K)",
        full - warmest,
        at(warmest)
    ))
}

/// Departure from the standard temperature, K, beyond which a day is questioned (own limit).
const ODD_OFFSET: f64 = 35.0;
/// Departure from the standard pressure, as a share of it, beyond which it is questioned (own limit;
/// weather moves it by up to about 5 %, from memory, while one reduced to sea level is off by 6 % from
/// a site at 500 m on).
const ODD_PRESSURE: f64 = 0.06;

/// Readings at the site that look like another pressure or another place.
fn day(stage: &Stage, cautions: &mut Vec<String>) {
    if stage.form().atmosphere != AtmosphereModel::OffStandardDay {
        return;
    }
    let altitude = stage.point().site.altitude;
    let standard = atmosphere::standard(altitude);
    let read = stage.point().atmosphere.day;
    let offset = read.site_temperature - standard.temperature;
    if offset.abs() > ODD_OFFSET {
        cautions.push(format!(
            "the site's {} is {:.0} K {} than the standard atmosphere at {}; the whole air column is \
             taken to be so (own limit: {ODD_OFFSET} K)",
            show(read.site_temperature, Quantity::Temperature),
            offset.abs(),
            if offset > 0.0 { "warmer" } else { "colder" },
            show(altitude, Quantity::Altitude),
        ));
    }
    let excess = read.site_pressure / standard.pressure - 1.0;
    if excess.abs() > ODD_PRESSURE {
        cautions.push(format!(
            "the site's pressure of {} is {:.1} % {} the {} of the standard atmosphere at {}: is this \
             the station pressure, not the one reduced to sea level? (own limit: {:.0} %)",
            show(read.site_pressure, Quantity::AbsolutePressure),
            100.0 * excess.abs(),
            if excess > 0.0 { "above" } else { "below" },
            show(standard.pressure, Quantity::AbsolutePressure),
            show(altitude, Quantity::Altitude),
            100.0 * ODD_PRESSURE,
        ));
    }
}

fn wall(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
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
    let (name, _) = &stage.labels().rule_set;
    if let Some(rule_set) = PUBLISHED.iter().find(|known| known.name == *name) {
        let overwrapped = side.tank.plies > 0;
        if overwrapped != (rule_set.wall == Wall::Overwrapped) {
            cautions.push(format!(
                "the rule set \"{name}\" covers {}; this tank is {}",
                rule_set.scope,
                if overwrapped {
                    "overwrapped"
                } else {
                    "bare metal"
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
    if side.stated_mass {
        cautions.push(format!(
            "the tank's mass is stated as a what-if ({}); the design as drawn has {}",
            show(stage.point().mass.stated.tank, Quantity::Mass),
            show(outcome.tank.mass, Quantity::Mass)
        ));
    }
}

/// Angles, thicknesses and strengths outside what the tank's models are meant for.
fn parts(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let tank = stage.point().tank;
    let plies = tank.overwrap.ply.iter().zip(&side.tank.ply_kinds);
    for (index, (ply, kind)) in plies.take(side.tank.plies).enumerate() {
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
            torisphere(name, &closure, 2.0 * radius, cautions);
        }
    }
    let metal = tank.liner.metal;
    if side.tank.needs_weld_zone()
        && (metal.weld_zone_yield_strength > metal.yield_strength
            || metal.weld_zone_ultimate_strength > metal.ultimate_strength)
    {
        cautions.push("the weld zone is given as stronger than its parent metal".to_owned());
    }
    seam_in_hoop(stage, outcome, cautions);
    let helical = tank
        .overwrap
        .ply
        .iter()
        .zip(&side.tank.ply_kinds)
        .take(side.tank.plies)
        .filter(|(_, kind)| **kind == PlyKind::Helical)
        .map(|(ply, _)| ply.fibre_thickness / tank.overwrap.fibre_volume_fraction)
        .sum::<f64>();
    let thickest = tank.fore_closure.thickness.max(tank.aft_closure.thickness);
    let rim = outcome.geometry.liner_inner_diameter + 2.0 * (thickest + helical);
    let domed = side.tank.fore_closure.is_domed() || side.tank.aft_closure.is_domed();
    if domed && rim > outcome.geometry.tank_outer_diameter {
        cautions.push(format!(
            "a closure's rim (with helical plies, if any) is {} across, wider than the tank: taper it",
            show(rim, Quantity::Length)
        ));
    }
    if metal.yield_strength > metal.ultimate_strength {
        cautions.push("the metal's yield strength is given above its ultimate strength".to_owned());
    }
}

/// Where the boiler code's formula for torispheres stops.
fn torisphere(name: &str, closure: &Closure<f64>, diameter: f64, cautions: &mut Vec<String>) {
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
}

/// Where a girth weld zone reaches its yield by hoop and axial stress together.
fn seam_in_hoop(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let (size, tank) = (&outcome.geometry, &outcome.tank);
    let inner = 0.5 * size.liner_inner_diameter;
    let (wall, meop) = (size.liner_minimum_wall, outcome.pressures.meop);
    let mean = inner + 0.5 * wall;
    let hoop = tank.liner_hoop_share * hoop_line_load(meop, mean) / wall;
    let axial = tank.liner_axial_share * axial_line_load(meop, inner, mean) / wall;
    let equivalent = (axial * axial - axial * hoop + hoop * hoop).sqrt();
    let reached = stage.point().tank.liner.metal.weld_zone_yield_strength / equivalent;
    let proof = outcome.pressures.proof / outcome.pressures.meop;
    if side.tank.girth_seam.uses_weld_zone() && reached < proof {
        cautions.push(format!(
            "the girth weld zone shares the liner's hoop strain and reaches its own yield (von Mises) \
             at {reached:.2} x MEOP, held by its neighbours; the margin across the seam does not show it"
        ));
    }
}

fn flight(form: &Form, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let ascent = &outcome.ascent;
    let last = match &form.shell {
        super::form::Shell::Drawn(_) => 5.0,
        super::form::Shell::Stated(table) => table.mach()[table.mach().len() - 1],
    };
    if ascent.max_mach > last {
        cautions.push(format!(
            "Mach {:.2} is beyond the last drag knot at Mach {last}; the drag coefficient there holds",
            ascent.max_mach
        ));
    }
    if ascent.apogee > 86_000.0 && form.atmosphere != AtmosphereModel::Exponential {
        cautions.push("air above 86 km is taken as none".to_owned());
    }
    if form.rail && ascent.rail_exit_speed == 0.0 {
        cautions.push("the vehicle does not leave the rail".to_owned());
    }
    if form.body().is_some() && outcome.airframe.static_margin <= 0.0 {
        cautions.push(format!(
            "static margin {:.2}: the vehicle is unstable at lift-off and will not fly this ascent",
            outcome.airframe.static_margin
        ));
    }
    if outcome.geometry.tank_outer_diameter > 0.0
        && outcome.airframe.frontal_diameter
            > outcome.airframe.length / outcome.airframe.fineness_ratio * (1.0 + 1e-9)
    {
        cautions.push(
            "the motor case or nozzle is wider than the body: the step's pressure drag and lift are not \
             in this model"
                .to_owned(),
        );
    }
    if let Some(body) = form.body() {
        let fineness = outcome.geometry.nose_length / outcome.airframe.frontal_diameter;
        if fineness < 2.0 {
            cautions.push(format!(
                "nose fineness {fineness:.1}: the wave drag models hold from about 2 ({})",
                body.nose.word()
            ));
        }
    }
    if form.body().is_some() && outcome.airframe.fineness_ratio > 20.0 {
        cautions.push(format!(
            "fineness ratio {:.1}: body lift at angle of attack moves the centre of pressure forward, \
             and bending matters; neither is in this model",
            outcome.airframe.fineness_ratio
        ));
    }
}

fn curve(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let curve = &stage.form().curve;
    if curve.intervals() == 1 && curve.duration() == 1.0 {
        return;
    }
    let scale = outcome.thrust.impulse / curve.impulse();
    if (scale - 1.0).abs() > 0.01 {
        cautions.push(format!(
            "the thrust curve is scaled by {scale:.3} in impulse to what propellant and specific \
             impulse give"
        ));
    }
}
