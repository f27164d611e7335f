//! Results of the ascent: no closed formula, so how they come about, what weighs most, and an estimate.

use super::sheet::{DEFINITION, Sheet};
use crate::ascent::Course;
use crate::quantity::{Choice, Quantity as Q};
use crate::stage::chain::schema::RESULTS;

const SOURCE: &str = "Newton's second law of a point mass; classical fourth-order formula of Runge and Kutta (E. \
    Hairer, S. P. Norsett, G. Wanner, \"Solving Ordinary Differential Equations I\", section II.1, from memory)";

/// Writes what enters, and an estimate where there is one; gives how the result comes about.
pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) -> (String, String) {
    for (symbol, path) in [
        ("lift_off", "mass.lift_off"),
        ("burnout", "mass.burnout"),
        ("mean_thrust", "thrust.mean"),
        ("burn_time", "thrust.burn_time"),
        ("subsonic_drag", "drag.subsonic"),
        ("transonic_drag", "drag.transonic"),
        ("supersonic_drag", "drag.supersonic"),
        ("frontal_area", "airframe.frontal_area"),
        ("site_pressure", "pressures.site"),
    ] {
        sheet.result(symbol, path);
    }
    sheet.input("exit_area", "motor.exit_area");
    sheet.input("site_altitude", "site.altitude");
    if sheet.form.rail {
        sheet.input("rail_length", "rail.length");
    }
    let inclined = sheet.form.rail && sheet.form.course == Course::Inclined;
    if inclined {
        sheet.input("elevation", "rail.elevation");
    }
    if matches!(leaf, "burnout_speed" | "burnout_altitude" | "apogee") {
        beside(sheet, leaf);
    }
    let motion = if inclined {
        "along the rail dv/dt = a - g sin(elevation), then du/dt = w^2 / r - g + a u / v upwards and \
         dw/dt = -u w / r + a w / v forwards, with a = (T - D) / m and r the distance from the Earth's centre"
    } else {
        "dv/dt = (T - D) / m - g, straight up"
    };
    let text = format!(
        "Integrated, no closed formula: {motion}, with thrust T at the ambient pressure, drag D = rho v^2 / 2 \
         x coefficient (Mach, Reynolds) x frontal area, mass m falling with the impulse spent, gravity g \
         falling with altitude; steps of the grid \"{}\", doubled where it does not serve. {}",
        sheet.form.grid.word(),
        taken(leaf)
    );
    (text, SOURCE.to_owned())
}

/// Where along the flight a result is taken.
fn taken(leaf: &str) -> &'static str {
    match leaf {
        "lift_off_time" => "Taken where thrust first exceeds weight along the rail.",
        "rail_exit_speed" | "rail_exit_time" => {
            "Taken where the distance along the rail is its length."
        }
        "burnout_altitude" | "burnout_speed" => "Taken at the end of thrust.",
        "apogee" | "apogee_time" | "apogee_speed" | "downrange" => {
            "Taken where the climb ends, after the coast."
        }
        "apogee_error" => {
            "Taken from how far pairs of steps lie from Simpson's rule over both, added up without regard \
             to signs."
        }
        "grid_doublings" => {
            "Counted until that estimated error fell below what the grid takes without more steps."
        }
        "max_mach" => "Taken as the largest of speed over speed of sound at the ends of the steps.",
        "max_axial_acceleration" => "Taken as the largest along the flight of (T - D) / m.",
        _ => "Taken where rho v^2 / 2 is largest along the flight.",
    }
}

/// The closed-form estimate beside the result of the integration.
fn beside(sheet: &mut Sheet<'_>, leaf: &str) {
    let Some(slot) = RESULTS.slot(sheet.path) else {
        return;
    };
    let field = &RESULTS.fields[slot];
    let value = sheet.results[slot];
    sheet.term(
        leaf,
        field.quantity,
        field.doc,
        "this result, by integration",
        value,
    );
    sheet.result("estimated", &format!("estimate.{leaf}"));
    sheet.step(
        "departure",
        format!("estimated / {leaf} - 1"),
        Q::Ratio,
        "departure of the closed-form estimate, for a sanity check",
        DEFINITION,
    );
}
