//! Geometry of a torisphere: a spherical crown that runs into the cylinder by a knuckle, a piece of
//! torus, with one tangent where they meet.

use crate::numerics::Real;
use std::f64::consts::{FRAC_PI_2, PI};

/// Depth, volume and area of a torisphere of unit diameter; each scales with its power of the
/// diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct UnitTorisphere<R> {
    pub depth: R,
    pub volume: R,
    pub area: R,
}

/// Smallest distance, over diameter, that a centre of curvature is held away from another: it keeps
/// the angle defined where crown and knuckle become one sphere.
const CLOSEST: f64 = 1e-15;

/// Exact depth, volume and area by cap and swept knuckle, for crown radius `crown` and knuckle radius
/// `knuckle` over the diameter, `crown` >= 1/2 >= `knuckle`.
///
/// With the knuckle's centre `b = 1/2 - r` off the axis and the crown's centre `c = L - r` from it, the
/// crown ends at the angle `sin beta = b / c` from the axis:
/// `depth = L - sqrt(c^2 - b^2)`; the cap has height `h = L (1 - cos beta)`, volume
/// `pi h^2 (3 L - h) / 3` and area `2 pi L h`; the knuckle's half meridian section, from `beta` to 90
/// degrees, is swept around the axis.
///
/// At `L = r = 1/2` crown and knuckle are one hemisphere, and the angle does not matter.
pub(super) fn unit_torisphere<R: Real>(crown: R, knuckle: R) -> UnitTorisphere<R> {
    let offset = -knuckle + 0.5;
    let apart = (crown - knuckle).max(R::splat(CLOSEST));
    // (c - b) (c + b): no digits are lost where crown and cylinder are nearly of one radius.
    let height = ((crown - 0.5) * (crown + 0.5 - knuckle * 2.0))
        .max(R::splat(0.0))
        .sqrt();
    let (sin, cos) = (offset / apart, height / apart);
    // Half-angle form: defined from 0 to 90 degrees.
    let beta = (offset / (apart + height)).atan() * 2.0;
    let sweep = -beta + FRAC_PI_2;

    let cap = crown * (-cos + 1.0);
    let cap_volume = cap.squared() * (crown * 3.0 - cap) * (PI / 3.0);
    let first = cos;
    let second = (sweep + sin * cos) * 0.5;
    let third = cos - cos.cubed() / 3.0;
    let knuckle_volume = knuckle
        * (offset.squared() * first + offset * knuckle * second * 2.0 + knuckle.squared() * third)
        * PI;
    UnitTorisphere {
        depth: crown - height,
        volume: cap_volume + knuckle_volume,
        area: (crown * cap + knuckle * (offset * sweep + knuckle * cos)) * (2.0 * PI),
    }
}
