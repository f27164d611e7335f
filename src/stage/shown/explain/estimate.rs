//! The closed-form estimate of the ascent, line by line.

use super::sheet::{DEFINITION, Sheet};
use crate::ascent::Course;
use crate::atmosphere::EARTH_RADIUS;
use crate::atmosphere::exact::SEA_LEVEL_PRESSURE;
use crate::motor::ThrustBasis;
use crate::quantity::Quantity as Q;
use crate::stage::chain::form::AtmosphereModel;

const ROCKET: &str = "rocket equation less gravity (ProofWiki, \"Burnout Velocity of Upward Rocket under \
    Constant Gravity\", title from memory)";
const HEIGHT: &str = "ProofWiki, \"Burnout Height of Upward Rocket under Constant Gravity\"";
const DRAGGED: &str = "University of Southampton exercise 7651; Fowles and Cassiday, \"Analytical Mechanics\", \
    section 2.4";
const PLACE: &str = "where density and coefficient are taken is our own choice";

/// Below this the power series stands in for its function, as in the closed forms themselves.
const SERIES: f64 = 1e-4;

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    powered(sheet);
    let burn = resistance(
        sheet,
        "burn",
        "free_distance * incline / 2",
        "free_speed / 2",
        1.0,
        "mean_mass",
    );
    sheet.step(
        "acceleration",
        "thrust / mean_mass - pull",
        Q::Acceleration,
        "thrust over mean mass less gravity along the path",
        DEFINITION,
    );
    let z = sheet.step(
        "burn_argument",
        format!("acceleration * {burn} * burn_time ** 2"),
        Q::Ratio,
        "argument of the functions below, squared",
        DRAGGED,
    );
    let speed = if z < 0.0 {
        "acceleration * burn_time".to_owned()
    } else if z < SERIES {
        "acceleration * burn_time * (1 - burn_argument / 3 + burn_argument ** 2 * 2 / 15)"
            .to_owned()
    } else {
        format!("sqrt(acceleration / {burn}) * tanh(sqrt(burn_argument))")
    };
    if leaf == "burnout_speed" {
        return sheet.end(speed, DRAGGED);
    }
    let distance = if z < 0.0 {
        "acceleration * burn_time ** 2 / 2".to_owned()
    } else if z < SERIES {
        "acceleration * burn_time ** 2 / 2 * (1 - burn_argument / 6 + burn_argument ** 2 * 2 / 45)"
            .to_owned()
    } else {
        format!("log1p(sinh(sqrt(burn_argument)) ** 2) / (2 * {burn})")
    };
    if leaf == "burnout_altitude" {
        return sheet.end(format!("{distance} * incline"), DRAGGED);
    }
    sheet.step(
        "burnout_speed",
        speed,
        Q::Speed,
        "speed at the end of thrust",
        DRAGGED,
    );
    sheet.step(
        "burnout_altitude",
        format!("{distance} * incline"),
        Q::Altitude,
        "altitude at the end of thrust",
        DRAGGED,
    );
    coast(sheet);
}

/// Thrust, gravity and the burn without drag.
fn powered(sheet: &mut Sheet<'_>) {
    sheet.input("site_altitude", "site.altitude");
    sheet.standard_gravity();
    if sheet.form.atmosphere == AtmosphereModel::Exponential {
        sheet.input("planet_radius", "atmosphere.planet_radius");
    } else {
        sheet.term(
            "planet_radius",
            Q::Altitude,
            "effective radius of the Earth",
            "constant, U.S. Standard Atmosphere 1976",
            EARTH_RADIUS,
        );
    }
    sheet.step(
        "gravity",
        "standard_gravity * (planet_radius / (planet_radius + site_altitude)) ** 2",
        Q::Acceleration,
        "gravity at the site",
        "U.S. Standard Atmosphere 1976, equation 17 (number from memory)",
    );
    if sheet.flight.course == Course::Inclined {
        sheet.input("elevation", "rail.elevation");
        sheet.step(
            "incline",
            "sin(elevation)",
            Q::Ratio,
            "vertical share of the path",
            DEFINITION,
        );
    } else {
        sheet.term(
            "incline",
            Q::Ratio,
            "vertical share of the path",
            "vertical course",
            1.0,
        );
    }
    sheet.step(
        "pull",
        "gravity * incline",
        Q::Acceleration,
        "gravity along the path",
        DEFINITION,
    );
    thrust_at_site(sheet);
    sheet.result("burn_time", "thrust.burn_time");
    sheet.result("lift_off", "mass.lift_off");
    sheet.result("burnout", "mass.burnout");
    sheet.step(
        "exhaust_speed",
        "thrust * burn_time / (lift_off - burnout)",
        Q::Speed,
        "thrust over mass flow",
        DEFINITION,
    );
    sheet.step(
        "free_speed",
        "exhaust_speed * log(lift_off / burnout) - pull * burn_time",
        Q::Speed,
        "speed at the end of thrust without drag",
        ROCKET,
    );
    sheet.step(
        "free_distance",
        "exhaust_speed * burn_time * (1 - log(lift_off / burnout) / (lift_off / burnout - 1)) - pull * burn_time ** 2 / 2",
        Q::Altitude,
        "distance to the end of thrust without drag",
        HEIGHT,
    );
    sheet.step(
        "mean_mass",
        "(lift_off + burnout) / 2",
        Q::Mass,
        "mean mass of the burn",
        DEFINITION,
    );
}

/// Thrust from its basis to the pressure of the site.
fn thrust_at_site(sheet: &mut Sheet<'_>) {
    sheet.result("mean_thrust", "thrust.mean");
    sheet.result("site_pressure", "pressures.site");
    sheet.input("exit_area", "motor.exit_area");
    match sheet.form.thrust_basis {
        ThrustBasis::Stand => {
            sheet.input("reference_pressure", "motor.stand_pressure");
        }
        ThrustBasis::SeaLevel => {
            sheet.term(
                "reference_pressure",
                Q::AbsolutePressure,
                "ambient pressure of the thrust's basis",
                "thrust basis sea_level",
                SEA_LEVEL_PRESSURE,
            );
        }
        ThrustBasis::Vacuum => {
            sheet.term(
                "reference_pressure",
                Q::AbsolutePressure,
                "ambient pressure of the thrust's basis",
                "thrust basis vacuum",
                0.0,
            );
        }
    }
    sheet.step(
        "thrust",
        "mean_thrust + (reference_pressure - site_pressure) * exit_area",
        Q::Force,
        "mean thrust at site pressure",
        "thrust and ambient pressure on the exit area",
    );
}

/// Drag over mass and speed squared at an altitude and speed; gives its symbol.
fn resistance(
    sheet: &mut Sheet<'_>,
    name: &str,
    altitude: &str,
    speed: &str,
    power: f64,
    mass: &str,
) -> String {
    let height = format!("{name}_altitude");
    let at = sheet.step(
        &height,
        altitude,
        Q::Altitude,
        "altitude above the site at which the air is taken",
        PLACE,
    );
    let speed_symbol = format!("{name}_speed");
    let speed = sheet.step(
        &speed_symbol,
        speed,
        Q::Speed,
        "speed at which the drag coefficient is taken",
        PLACE,
    );
    let air = sheet.flight.air_at(sheet.point.site.altitude + at);
    let origin = match sheet.form.atmosphere {
        AtmosphereModel::Standard => {
            "U.S. Standard Atmosphere 1976 at that altitude above the site"
        }
        AtmosphereModel::OffStandardDay => "the day at the site, at that altitude above it",
        AtmosphereModel::Exponential => "exponential atmosphere at that altitude above the site",
    };
    let [density, coefficient] = ["density", "coefficient"].map(|what| format!("{name}_{what}"));
    sheet.term(
        &density,
        Q::Density,
        "density of the air",
        origin,
        air.density,
    );
    let mach = speed / air.sound_speed;
    let value = sheet
        .flight
        .drag
        .coefficient(mach, air.unit_reynolds, power);
    let state = if power > 0.0 { "on" } else { "off" };
    let origin = format!("drag of the ascent at Mach {mach:.3}, power {state}, at that altitude");
    sheet.term(&coefficient, Q::Ratio, "drag coefficient", &origin, value);
    sheet.result("frontal_area", "airframe.frontal_area");
    let symbol = format!("{name}_drag_factor");
    sheet.step(
        &symbol,
        format!("{density} * {coefficient} * frontal_area / (2 * {mass})"),
        super::Unit::Si("1/m"),
        "drag over mass and speed squared",
        DEFINITION,
    );
    symbol
}

fn coast(sheet: &mut Sheet<'_>) {
    sheet.step(
        "climb",
        "burnout_speed * incline",
        Q::Speed,
        "vertical speed at the end of thrust",
        DEFINITION,
    );
    sheet.step(
        "free_coast",
        "climb ** 2 / (2 * gravity)",
        Q::Altitude,
        "height of the coast without drag",
        "conserved energy",
    );
    let factor = resistance(
        sheet,
        "coast",
        "burnout_altitude + free_coast * 0.1",
        "burnout_speed",
        0.0,
        "burnout",
    );
    let z = sheet.step(
        "coast_argument",
        format!("{factor} * climb ** 2 / gravity"),
        Q::Ratio,
        "drag over weight at the start of the coast",
        DRAGGED,
    );
    let height = if z < SERIES {
        "free_coast * (1 - coast_argument / 2 + coast_argument ** 2 / 3)".to_owned()
    } else {
        format!("log1p(coast_argument) / (2 * {factor})")
    };
    sheet.end(format!("burnout_altitude + {height}"), DRAGGED);
}
