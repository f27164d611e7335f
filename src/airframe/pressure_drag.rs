//! Drag by pressure: nose, base and fin thickness. Coefficients of nose and base refer to the
//! frontal area, of fins to one side of one fin.

use super::nose::NoseShape;
use crate::numerics::Real;

/// Wave drag of a nose at supersonic speed.
///
/// Cone: Bonney's fit, `(1.59 + 1.83 / M^2) (atan(0.5 / f))^1.69`, f the fineness ratio; within 2.5 %
/// of exact cone flow to Mach 2, at most 7.5 % high at Mach 3 and 12.5 % at Mach 4. Von
/// Karman: slender-body limit `1 / f^2`, which does not depend on Mach and overstates as Mach grows.
///
/// Source: E. L. Fleeman, "Missile Design and System Engineering", AIAA 2012, chapter 2.4, as quoted
/// from his course slides (fit for cones); the limit follows from slender-body theory. Valid for f from
/// 2 and Mach 1.2 to 4.
pub fn nose_wave_drag<R: Real>(shape: NoseShape, fineness: R, mach: f64) -> R {
    nose_slenderness(shape, fineness) * nose_wave_at(shape, mach)
}

/// What the wave drag of a nose takes from its fineness ratio.
pub(super) fn nose_slenderness<R: Real>(shape: NoseShape, fineness: R) -> R {
    match shape {
        NoseShape::Cone => (R::splat(0.5) / fineness).atan().powf(1.69),
        NoseShape::VonKarman => R::splat(1.0) / fineness.squared(),
    }
}

/// What the wave drag of a nose takes from the Mach number.
pub(super) fn nose_wave_at(shape: NoseShape, mach: f64) -> f64 {
    match shape {
        NoseShape::Cone => 1.59 + 1.83 / (mach * mach),
        NoseShape::VonKarman => 1.0,
    }
}

/// Base drag of a cylindrical base, power off: `0.12 + 0.13 M^2` below Mach 1, `0.25 / M` above.
/// The largest single uncertainty at supersonic speed, about a quarter of itself; for slender rough
/// bodies the subsonic value is high by up to a factor three. Another fit, Raymer's
/// `0.139 + 0.419 (M - 0.161)^2` and `0.064 + 0.042 (M - 3.84)^2`, gives 0.19 against 0.15 at Mach 0.5
/// and 0.21 against 0.13 at Mach 2 (D. P. Raymer, "Aircraft Design: A Conceptual Approach", 6th
/// edition, AIAA 2018, equations 12.37 and 12.38).
///
/// Source: Fleeman, as above.
pub fn base_drag(mach: f64) -> f64 {
    if mach < 1.0 {
        0.12 + 0.13 * mach * mach
    } else {
        0.25 / mach
    }
}

/// Wave drag of one double-wedge fin of thickness ratio `thickness_ratio` at supersonic speed, on
/// the area of one side: `4 (t/c)^2 / sqrt(M^2 - 1)` (Ackeret's linear theory; unswept, which
/// overstates a swept fin).
pub fn fin_wave_drag<R: Real>(thickness_ratio: R, mach: f64) -> R {
    thickness_ratio.squared() * (4.0 / (mach * mach - 1.0).sqrt())
}

/// Subsonic pressure drag of a cone's shoulder, 0.8 sin^2 of the half angle (from memory: Hoerner,
/// "Fluid-Dynamic Drag", 1965); a von Karman nose meets the body without one.
pub(super) fn shoulder_drag<R: Real>(shape: NoseShape, fineness: R) -> R {
    match shape {
        NoseShape::Cone => {
            let tangent = R::splat(0.5) / fineness;
            tangent.squared() / (tangent.squared() + 1.0) * 0.8
        }
        NoseShape::VonKarman => R::splat(0.0),
    }
}

/// Mach number from which all of the wave drag stands; below, formulas for supersonic flow are taken
/// here.
pub(super) const FULL_WAVE_DRAG: f64 = 1.2;

/// Share of the wave drag that stands at a Mach number: none below 0.8, all from 1.2, a smooth ramp
/// between (own choice; transonic drag rise deserves a measured table).
pub(super) fn transonic_ramp(mach: f64) -> f64 {
    let x = ((mach - 0.8) / (FULL_WAVE_DRAG - 0.8)).clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}

/// Share of the subsonic form factor that stands at a Mach number: all below 0.8, none from 1.0.
#[inline]
pub(super) fn subsonic_share<R: Real>(mach: R) -> R {
    let x = ((mach - 0.8) * 5.0).clamp(0.0, 1.0);
    -(x * x * (x * -2.0 + 3.0)) + 1.0
}
