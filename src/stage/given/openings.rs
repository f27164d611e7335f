//! What is stated about the winding, against the tank it is wound on.

use super::stage::Stage;
use crate::error::{Error, Result};
use crate::quantity::{Applies, Quantity, show};
use crate::vessel::dimensions;

/// Where the winding is stated.
pub(super) const TABLE: &str = "tank.overwrap.winding.";

/// Checks that tows are counted whole, and that each polar opening leaves the band room to turn.
pub(in crate::stage) fn check(stage: &Stage) -> Result<()> {
    let form = stage.form();
    let Some(side) = form
        .tank
        .as_ref()
        .filter(|_| form.applies(Applies::Winding, 0))
    else {
        return Ok(());
    };
    let tank = stage.point().tank;
    let given = &tank.overwrap.winding;
    if given.tows_per_band.fract() != 0.0 {
        return Err(Error::Inconsistent(format!(
            "{TABLE}tows_per_band = {} is no whole number; write how many tows lie side by side",
            given.tows_per_band
        )));
    }
    if !form.applies(Applies::HelicalWinding, 0) {
        return Ok(());
    }
    let liner = 0.5 * dimensions(&side.tank, side.shape, &tank).liner_outer_diameter;
    for (name, opening) in [
        ("fore", given.fore_polar_opening_radius),
        ("aft", given.aft_polar_opening_radius),
    ] {
        // A design without a liner is told of as one that cannot close.
        if liner > 0.0 && opening + 0.5 * given.band_width >= liner {
            let length = |value| show(value, Quantity::Length);
            return Err(Error::Inconsistent(format!(
                "{TABLE}{name}_polar_opening_radius = {} and half a band of {} reach beyond the liner's \
                 radius of {}: no band can turn there; give a smaller opening or a narrower band",
                length(opening),
                length(given.band_width),
                length(liner)
            )));
        }
    }
    Ok(())
}
