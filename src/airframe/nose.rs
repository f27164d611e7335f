//! The nose: shapes, wetted area, centre of pressure.

use crate::numerics::Real;
use crate::quantity::{choice, slots};
use std::f64::consts::PI;

choice! {
    /// Shape of the nose.
    pub enum NoseShape {
        /// Cone.
        Cone = "cone",
        /// Von Karman's body of least wave drag for its length and base diameter.
        VonKarman = "von_karman",
    }
}

choice! {
    /// Which measure of the nose stays when the body's diameter changes.
    pub enum NoseRule {
        /// Length over diameter stays.
        Fineness = "fineness",
        /// Length stays.
        Length = "length",
    }
}

slots! {
    /// Numbers of the nose; one of them is the input, by the follow rule.
    pub struct Nose<R> {
        /// Length over body diameter.
        fineness_ratio: Ratio [0.2, 20.0], Body;
        /// Length of the nose.
        length: Length [0.005, 20.0], Body;
    }
}

/// Wetted area of a nose, m2. Cone: pi r sqrt(r^2 + l^2). Von Karman: circumference times length
/// times the mean radius ratio 0.65122 of y/r = sqrt((t - sin 2t / 2) / pi), cos t = 1 - 2 x / l;
/// the slope of the surface is neglected (below 1 % from fineness ratio 3).
pub fn nose_wetted_area<R: Real>(shape: NoseShape, diameter: R, length: R) -> R {
    match shape {
        NoseShape::Cone => {
            let radius = diameter * 0.5;
            radius * (radius.squared() + length.squared()).sqrt() * PI
        }
        NoseShape::VonKarman => diameter * length * (0.651_218_9 * PI),
    }
}

/// Distance from the tip to the centre of pressure of a nose at small angle of attack, m: length
/// less enclosed volume over base area. Cone 2/3, von Karman 1/2 of the length.
///
/// Source: J. S. and J. A. Barrowman, "The Theoretical Prediction of the Center of Pressure", NARAM-8,
/// 1966, equations 29, 32, 58, 76a, 77.
pub fn nose_centre_of_pressure<R: Real>(shape: NoseShape, length: R) -> R {
    match shape {
        NoseShape::Cone => length * (2.0 / 3.0),
        NoseShape::VonKarman => length * 0.5,
    }
}

/// Distance from the tip to the centroid of the nose's surface, m: where the mass of a skin of even
/// thickness sits. Cone 2/3, von Karman 0.61968 of the length (same radius law as the wetted area).
pub(super) fn nose_skin_centroid<R: Real>(shape: NoseShape, length: R) -> R {
    match shape {
        NoseShape::Cone => length * (2.0 / 3.0),
        NoseShape::VonKarman => length * 0.619_683_1,
    }
}

/// How the skin of a nose spreads: variance of its surface along the axis over the squared length, and
/// mean squared radius over the squared base radius. Cone 1/18 and 1/2 (exact), von Karman 0.0628002 and
/// 0.6344378 (same radius law as the wetted area, slope neglected).
pub fn nose_skin_spread(shape: NoseShape) -> [f64; 2] {
    match shape {
        NoseShape::Cone => [1.0 / 18.0, 0.5],
        NoseShape::VonKarman => [0.062_800_2, 0.634_437_8],
    }
}
