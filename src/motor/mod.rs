//! Thrust: the curve as given, scaled to the propellant it burns.

mod curve;
mod drive;

pub(crate) use curve::KINKS;
pub use curve::{Curve, MAX_CURVE_POINTS};
pub use drive::{Drive, Motor, ThrustBasis, ThrustRule, drive};
