//! The dome whose geodesic fibres all pull alike while the fibres alone carry the pressure.

use super::geodesic::arc_sine;
use crate::numerics::Real;
use crate::vessel::isotensoid::rise;

/// Pieces of the integration over a dome (own choice: 1e-12 of the radius); even, for Simpson's rule.
const PIECES: usize = 512;

/// Points (distance from the cylinder's end along the axis, radius), m, of an isotensoid dome of rim radius
/// `radius` whose fibres turn at `turning_radius`: from the rim to `sqrt(3/2) r0`, where the meridian would bend
/// outwards and a cap or boss takes over. For turning radii up to `sqrt(2/3)` of the rim's.
///
/// Equilibrium of fibres that carry `N_hoop / N_meridian = tan^2 a` on a geodesic gives the slope `sin(phi) =
/// (r / R)^3 sqrt((R^2 - r0^2) / (r^2 - r0^2))`, phi the angle of the normal to the axis, and `dz = tan(phi) dr`,
/// derived. With `x = r^2 / R^2` its singularity at the rim divides out: `dz = R cos^3 t sqrt((1 - q) / ((1 - q)
/// (x^2 + x) - q)) dt`, where `r = R cos t` and q is the square of turning radius over radius.
pub fn isotensoid_contour(radius: f64, turning_radius: f64) -> Vec<[f64; 2]> {
    let share = (turning_radius / radius) * (turning_radius / radius);
    let last = arc_sine((1.0 - 1.5 * share).max(0.0).sqrt());
    let piece = last / PIECES as f64;
    let rise = |at: f64| rise(share, Real::cos(at));
    let mut depth = 0.0;
    let mut points = vec![[0.0, radius]];
    for pair in 0..PIECES / 2 {
        let from = (2 * pair) as f64 * piece;
        let sum = rise(from) + 4.0 * rise(from + piece) + rise(from + 2.0 * piece);
        depth += sum * piece / 3.0;
        let cos: f64 = Real::cos(from + 2.0 * piece);
        points.push([radius * depth, radius * cos]);
    }
    points
}

/// Depth, m, of that dome from the rim to `sqrt(3/2) r0`. Without an opening it is 0.59907 R, the second
/// lemniscate constant.
///
/// ```
/// let depth = hoopline::vessel::winding::isotensoid_depth(1.0, 0.0);
/// assert!((depth - 0.599_070_117).abs() < 1e-8);
/// ```
pub fn isotensoid_depth(radius: f64, turning_radius: f64) -> f64 {
    let points = isotensoid_contour(radius, turning_radius);
    points[points.len() - 1][0]
}
