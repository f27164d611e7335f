//! Thrust: the curve as given, scaled to the propellant it burns.
//!
//! Takes the thrust curve, specific impulse and the propellant burned; hands a scaled drive to `ascent`.
//! In reading order: `curve`, then `drive`.
//!
//! Not in it yet: thrust from the tank's own pressure. It will stand as `injector`, take the blowdown from
//! `fluid`, and hand on a curve, so that `drive` need not know where one comes from.

mod curve;
mod drive;

pub(crate) use curve::KINKS;
pub use curve::{Curve, MAX_CURVE_POINTS};
pub use drive::{Drive, Motor, ThrustBasis, ThrustRule, drive};
