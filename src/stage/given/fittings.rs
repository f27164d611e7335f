//! What is stated about fittings, against the tank they are on.

use super::stage::Stage;
use crate::error::{Error, Result};
use crate::quantity::{Quantity, show};
use crate::vessel::dimensions;
use crate::vessel::fitting::{CaseLoad, FittingHold, Flown};
use std::f64::consts::FRAC_PI_2;

/// Where fittings are stated.
pub(super) const LIST: &str = "tank.fitting";

/// Checks that fasteners are counted whole, that each fitting has a load and fits on the cylinder, and that a pad
/// under the wrap has a hoop ply over it.
pub(in crate::stage) fn check(stage: &Stage) -> Result<()> {
    let Some(side) = &stage.form().tank else {
        return Ok(());
    };
    if side.tank.fittings == 0 {
        return Ok(());
    }
    let names = &stage.labels().fittings;
    for (index, name) in names.iter().enumerate() {
        if names[..index].contains(name) {
            return Err(Error::Inconsistent(format!(
                "{LIST}[{index}].name = \"{name}\" is the name of another fitting too; give each its own"
            )));
        }
    }
    let tank = stage.point().tank;
    let size = dimensions(&side.tank, side.shape, &tank);
    let length = |value| show(value, Quantity::Length);
    for (index, (kind, fitting)) in side.tank.fittings(&tank).enumerate() {
        let at = format!("{LIST}[{index}]");
        let wrong = |problem: String| Err(Error::Inconsistent(problem));
        if fitting.fasteners.fract() != 0.0 {
            return wrong(format!(
                "{at}.fasteners = {} is no whole number; write how many hold the part to the pad",
                fitting.fasteners
            ));
        }
        // What the flight brings counts as a load, whatever it comes to.
        let some = Flown {
            acceleration: 1.0,
            dynamic_pressure: 1.0,
        };
        let cases = fitting.cases(&some);
        if cases.iter().all(CaseLoad::is_none) {
            return wrong(format!(
                "{at}.kind = \"{}\": this fitting has no load in any case; write one, such as \
                 [{LIST}.handling] with radial_force = \"200 N\", or take the fitting out",
                crate::quantity::Choice::word(kind)
            ));
        }
        if kind == FittingHold::WoundIn && !side.tank.has_hoop() {
            return wrong(format!(
                "{at}.kind = \"wound_in\" needs a hoop ply to lie under, and none is wound; wind one, or choose \
                 \"bonded\""
            ));
        }
        let quarter = size.liner_outer_diameter * 0.5 * FRAC_PI_2;
        // A design without a liner or a cylinder is told of as one that cannot close.
        if quarter > 0.0 && fitting.width > quarter {
            return wrong(format!(
                "{at}.width = {} is more than a quarter of the way around the liner, {}: that is a ring and no pad; \
                 give it as several fittings",
                length(fitting.width),
                length(quarter)
            ));
        }
        if size.cylinder_length > 0.0 && fitting.length > size.cylinder_length {
            return wrong(format!(
                "{at}.length = {} is longer than the tank's cylinder, {}; give a shorter pad",
                length(fitting.length),
                length(size.cylinder_length)
            ));
        }
    }
    Ok(())
}
