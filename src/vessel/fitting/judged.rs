//! Every fitting in every case: the share of each strength that it takes.

use super::bonded::Bond;
use super::case::{CaseLoad, Flown};
use super::fastener::fastener_share;
use super::given::{Fitting, FittingHold};
use super::wound_in::Clamp;
use crate::numerics::Real;
use crate::vessel::dimensions::Dimensions;
use crate::vessel::form::TankForm;
use crate::vessel::tank::Tank;

/// Shares of strength that one fitting takes in one case, with the factor; zero for what does not hold it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares<R> {
    /// Of the friction under the wrap.
    pub sliding: R,
    /// Of the clamping force at which a corner lifts.
    pub lifting: R,
    /// Of the bond.
    pub bond: R,
    /// Of the fasteners.
    pub fastener: R,
}

/// The largest shares of all fittings in all cases.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst<R> {
    /// Of friction and clamping force.
    pub hold: R,
    /// Of the bond, in a case or in the proof test.
    pub bond: R,
    /// Of the fasteners.
    pub fastener: R,
}

/// Shares of one fitting in one case: a pad under the wrap at the least pressure, for the wrap holds less then; glue
/// at the most, for the wall grows more: MEOP in flight, else the case's own.
pub fn shares<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    (kind, fitting): (FittingHold, &Fitting<R>),
    load: &CaseLoad<R>,
    (meop, bond): (R, Option<&Bond<R>>),
) -> Shares<R> {
    let zero = R::splat(0.0);
    let factor = tank.fitting_factor;
    let fastener = fastener_share(fitting, load) * factor;
    let least = load.tank_pressure.min(meop);
    if let (FittingHold::Bonded, Some(bond)) = (kind, bond) {
        let pressure = if load.flies { meop } else { least };
        return Shares {
            sliding: zero,
            lifting: zero,
            bond: bond.share(fitting, load, pressure) * factor,
            fastener,
        };
    }
    let clamp = Clamp::new(form, tank, size, least);
    Shares {
        sliding: clamp.sliding_share(fitting, load) * factor,
        lifting: clamp.lifting_share(fitting, load) * factor,
        bond: zero,
        fastener,
    }
}

/// The largest shares of all fittings. In the proof test glue follows the wall at proof pressure, which has its
/// factor in it, without any other load.
pub fn worst<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    [meop, proof]: [R; 2],
    flown: &Flown<R>,
) -> Worst<R> {
    let zero = R::splat(0.0);
    let mut worst = Worst {
        hold: zero,
        bond: zero,
        fastener: zero,
    };
    let bond = form
        .has_fitting(FittingHold::Bonded)
        .then(|| Bond::new(form, tank, size, proof));
    for (kind, fitting) in form.fittings(tank) {
        for load in fitting.cases(flown) {
            let took = shares(
                form,
                tank,
                size,
                (kind, fitting),
                &load,
                (meop, bond.as_ref()),
            );
            worst.hold = worst.hold.max(took.sliding).max(took.lifting);
            worst.bond = worst.bond.max(took.bond);
            worst.fastener = worst.fastener.max(took.fastener);
        }
        if let (FittingHold::Bonded, Some(bond)) = (kind, &bond) {
            worst.bond = worst.bond.max(bond.proof_share(fitting, proof));
        }
    }
    worst
}
