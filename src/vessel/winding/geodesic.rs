//! Geodesics: where a band under tension lies without friction, and how far it takes to leave one on a cylinder.

use crate::numerics::Real;

/// Arc sine of a share of one, rad.
pub(super) fn arc_sine(share: f64) -> f64 {
    let share = share.clamp(-1.0, 1.0);
    Real::atan(share / (1.0 + (1.0 - share * share).sqrt())) * 2.0
}

/// Winding angle from the axis of a geodesic at `radius` that turns back at `turning_radius`, rad: Clairaut's
/// relation on a surface of revolution, `r sin a = r0`. A band's middle turns half a band's width outside the
/// polar opening.
///
/// ```
/// // On a cylinder of 75 mm, turning at 20 mm: 15.466 degrees.
/// let angle = hoopline::vessel::winding::geodesic_angle(0.075, 0.020);
/// assert!((angle.to_degrees() - 15.466).abs() < 1e-3);
/// ```
pub fn geodesic_angle(radius: f64, turning_radius: f64) -> f64 {
    arc_sine(turning_radius / radius)
}

/// Length of cylinder, m, over which a band can be turned from `angle` to 90 degrees with an even slippage
/// coefficient, `(R / c) (1 / sin a - 1)`.
///
/// On a cylinder the normal curvature is `sin^2 a / R` and the geodesic curvature `da/dl`; with `dz = cos a dl`
/// their quotient c gives `d(1 / sin a) = -c dz / R`, derived.
///
/// ```
/// let length = hoopline::vessel::winding::turning_length(0.075, 30f64.to_radians(), 0.2);
/// assert!((length - 0.375).abs() < 1e-12);
/// ```
pub fn turning_length(radius: f64, angle: f64, slippage_coefficient: f64) -> f64 {
    let sine: f64 = Real::sin(angle);
    radius / slippage_coefficient * (1.0 / sine - 1.0)
}
