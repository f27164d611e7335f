//! Thrust level, burn time and impulse.

use super::sheet::{DEFINITION, Sheet};
use crate::atmosphere::STANDARD_GRAVITY;
use crate::motor::ThrustRule;
use crate::quantity::Quantity as Q;

const IMPULSE: &str = "thrust x burn time = burned x specific impulse x standard gravity (definition of the \
    specific impulse)";

impl Sheet<'_> {
    /// Standard gravity.
    pub(super) fn standard_gravity(&mut self) {
        self.term(
            "standard_gravity",
            Q::Acceleration,
            "standard acceleration of gravity",
            "constant, U.S. Standard Atmosphere 1976",
            STANDARD_GRAVITY,
        );
    }

    fn burned_impulse(&mut self) {
        self.result("burned", "load.burned");
        self.input("specific_impulse", "motor.specific_impulse");
        self.standard_gravity();
    }
}

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    let level = sheet.form.thrust_rule == ThrustRule::Level;
    match leaf {
        "mean" if level => {
            sheet.input("thrust", "motor.thrust");
            sheet.end("thrust", DEFINITION);
        }
        "mean" => {
            sheet.burned_impulse();
            sheet.input("given_burn_time", "motor.burn_time");
            sheet.end(
                "burned * specific_impulse * standard_gravity / given_burn_time",
                IMPULSE,
            );
        }
        "burn_time" if level => {
            sheet.burned_impulse();
            sheet.input("thrust", "motor.thrust");
            sheet.end(
                "burned * specific_impulse * standard_gravity / thrust",
                IMPULSE,
            );
        }
        "burn_time" => {
            sheet.input("given_burn_time", "motor.burn_time");
            sheet.end("given_burn_time", DEFINITION);
        }
        "impulse" => {
            sheet.result("mean_thrust", "thrust.mean");
            sheet.result("burn_time", "thrust.burn_time");
            sheet.end("mean_thrust * burn_time", DEFINITION);
        }
        _ => {
            sheet.result("mean_thrust", "thrust.mean");
            sheet.result("lift_off", "mass.lift_off");
            sheet.standard_gravity();
            sheet.end("mean_thrust / (lift_off * standard_gravity)", DEFINITION);
        }
    }
}
