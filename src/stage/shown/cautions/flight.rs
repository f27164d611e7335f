//! Ascent, airframe and thrust curve.

use crate::atmosphere::exact::HIGHEST_ALTITUDE;
use crate::quantity::Choice;
use crate::stage::chain::form::{AtmosphereModel, Form, Shell};
use crate::stage::chain::outcome::Outcome;
use crate::stage::given::Stage;

/// Least speed at the end of the rail, m/s (100 ft/s: Student rocket competition Design, Test and
/// Evaluation Guide, as quoted in a team's requirement sheet).
const LEAST_RAIL_EXIT: f64 = 30.48;

/// Least static margin, body diameters (as in a university team's requirement sheet for the same kind of
/// competition, 1.5 to 6).
const LEAST_STATIC_MARGIN: f64 = 1.5;

pub(super) fn flight(form: &Form, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let ascent = &outcome.ascent;
    let last = match &form.shell {
        Shell::Drawn(_) => 5.0,
        Shell::Stated(table) => table.mach()[table.mach().len() - 1],
    };
    if ascent.max_mach > last {
        cautions.push(format!(
            "Mach {:.2} is beyond the last drag knot at Mach {last}; the drag coefficient there holds",
            ascent.max_mach
        ));
    }
    if ascent.apogee > HIGHEST_ALTITUDE && form.atmosphere != AtmosphereModel::Exponential {
        cautions.push("air above 86 km is taken as none".to_owned());
    }
    if form.rail && ascent.rail_exit_speed == 0.0 {
        cautions.push("the vehicle does not leave the rail".to_owned());
    }
    if form.rail && ascent.rail_exit_speed > 0.0 && ascent.rail_exit_speed < LEAST_RAIL_EXIT {
        cautions.push(format!(
            "the vehicle leaves the rail at {:.1} m/s; one competition's guide asks for at least 30.5 m/s \
             (100 ft/s, as quoted in a team's requirement sheet): the slower, the more wind turns it; ask \
             your range",
            // Rounded down: 30.47 shall not read as 30.5.
            (10.0 * ascent.rail_exit_speed).floor() / 10.0
        ));
    }
    let margin = outcome.airframe.static_margin;
    if form.body().is_some() && margin > 0.0 && margin < LEAST_STATIC_MARGIN * (1.0 - 1e-9) {
        cautions.push(format!(
            "static margin {:.2} at lift-off: a university team's requirement sheet asks for at least \
             {LEAST_STATIC_MARGIN} body diameters; body lift and bending, which are not in this model, \
             take some away",
            (100.0 * margin).floor() / 100.0
        ));
    }
    if form.body().is_some() && outcome.airframe.static_margin <= 0.0 {
        cautions.push(format!(
            "static margin {:.2}: the vehicle is unstable at lift-off and will not fly this ascent",
            outcome.airframe.static_margin
        ));
    }
    if outcome.airframe.frontal_diameter > outcome.airframe.diameter {
        cautions.push(
            "the motor case or nozzle is wider than the body: the step's pressure drag and lift are not \
             in this model"
                .to_owned(),
        );
    }
    if let Some(body) = form.body() {
        let fineness = outcome.geometry.nose_length / outcome.airframe.diameter;
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

/// Tells that the grid did not serve the design, and what came of it.
pub(super) fn stepping(form: &Form, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let ascent = &outcome.ascent;
    if ascent.grid_doublings == 0.0 {
        return;
    }
    let (grid, times) = (form.grid.word(), (1u32 << ascent.grid_doublings as u32));
    let mut said = format!(
        "the step grid \"{grid}\" did not serve this design: it was flown with {times} times the steps, \
         estimated error of the apogee {:.2} m",
        ascent.apogee_error
    );
    if ascent.apogee_error >= form.grid.tolerance() {
        said.push_str(", still more than the grid stands for: look for a jump in the drag table");
    }
    cautions.push(said);
}

pub(super) fn curve(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
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
