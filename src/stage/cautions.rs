//! Cautions: where a model is used outside its range, and what a reader must not overlook.

use super::form::{Form, PressureBasis};
use super::given::Stage;
use super::outcome::Outcome;
use crate::fluid::nitrous_oxide;
use crate::quantity::{Quantity, show};
use crate::vessel::rule_set::{PUBLISHED, Wall};

/// Cautions for one design, in words.
pub(super) fn cautions(stage: &Stage, outcome: &Outcome<f64>) -> Vec<String> {
    let form = stage.form();
    let mut cautions = Vec::new();
    pressure(stage, outcome, &mut cautions);
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
    let full = soak < nitrous_oxide::CRITICAL_TEMPERATURE
        && density >= nitrous_oxide::saturation(soak).liquid_density;
    if full {
        cautions.push(format!(
            "at {} the tank is full of liquid ({:.0} kg/m3 on average): from there its pressure \
             climbs by several bar per kelvin; fill less or keep it cooler",
            show(soak, Quantity::Temperature),
            density
        ));
    }
    if side.basis != PressureBasis::Closed && pressures.meop_closed > pressures.meop {
        cautions.push(format!(
            "MEOP is {} on the {} basis, yet closed and soaked to {} the tank would reach {}",
            show(pressures.meop, Quantity::GaugePressure),
            crate::quantity::Choice::word(side.basis),
            show(soak, Quantity::Temperature),
            show(pressures.meop_closed, Quantity::GaugePressure),
        ));
    }
}

fn wall(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let size = &outcome.geometry;
    let thin = size.liner_wall / (size.liner_inner_diameter * 0.5);
    if thin > 0.1 {
        cautions.push(format!(
            "the liner's wall is {:.0} % of its radius; the thin-wall model holds to about 10 %",
            thin * 100.0
        ));
    }
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
    }
    if side.stated_mass {
        cautions.push(format!(
            "the tank's mass is stated as a what-if ({}); the design as drawn has {}",
            show(stage.point().mass.stated.tank, Quantity::Mass),
            show(outcome.tank.mass, Quantity::Mass)
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
    if ascent.apogee > 86_000.0 && form.atmosphere == super::form::AtmosphereModel::Standard {
        cautions.push("air above 86 km is taken as none".to_owned());
    }
    if form.rail && ascent.rail_exit_speed == 0.0 {
        cautions.push("the vehicle does not leave the rail".to_owned());
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
