//! What the chain knows of a tank before it flies, for screening many designs.

use super::form::Form;
use super::mass_lines::tank_parts;
use super::outcome::{FlightLoads, Geometry, Outcome};
use super::point::Point;
use super::results::{tank_margins, tank_results};
use super::walk::{Filled, filled, without_faulty};
use crate::numerics::Real;
use crate::quantity::Slots;
use crate::vessel::Margins;
use crate::vessel::fitting::Flown;

/// What holds for a stage whatever its flight: load, pressures, the tank's dimensions and mass, its
/// margins without loads in flight. The rest is NaN; all is where the tank itself has a fault.
///
/// It costs a small part of [`super::assess`], which gives the same bits with two exceptions, that can
/// but make a design look better here: faults of vehicle and flight are not seen, and a margin that the
/// liquid's head lowers in flight (burst in hoop direction and of the longitudinal seam, yield and burst
/// of the aft closure, all of the bolts that hold it) stands without it. So each of these margins is at least the one of `assess`, in
/// every bit: the head only adds to the pressure that a strength is divided by. Where that is not sure,
/// because liner and wrap share the load anew, the margin is NaN: yield in flight of liner and
/// longitudinal seam. So are those of fittings, whose loads the flight may bring alone. A stage without a tank has load and pressures alone.
pub fn at_rest<R: Real>(form: &Form, point: &Point<R>) -> Outcome<R> {
    let unknown = R::splat(f64::NAN);
    let Filled {
        size,
        load,
        pressures,
        status,
    } = filled(form, point);
    let mut known = Outcome {
        load,
        pressures,
        status,
        ..Outcome::uniform(unknown)
    };
    if let (Some(side), Some(size)) = (&form.tank, &size) {
        let parts = tank_parts(&side.tank, point, size);
        let (geometry, tank) = tank_results(side, point, size, &parts);
        known.geometry = Geometry {
            nose_length: unknown,
            fin_root_chord: unknown,
            fin_span: unknown,
            ..geometry
        };
        known.tank = tank;
        let none = FlightLoads::uniform(R::splat(0.0));
        known.margins = Margins {
            liner_yield_flight: unknown,
            longitudinal_seam_flight: unknown,
            fitting_hold: unknown,
            fitting_bond: unknown,
            fitting_fastener: unknown,
            ..tank_margins(side, point, size, &known.pressures, &none, Flown::at_rest())
        };
    }
    without_faulty(known)
}
