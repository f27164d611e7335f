//! Moments of inertia of a list of lines about an axis of the vehicle's.

use super::statement::Line;
use crate::numerics::Real;

/// Moments of inertia, kg m2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inertia<R> {
    /// About a transverse axis: pitch, and yaw alike.
    pub pitch: R,
    /// About the vehicle's axis.
    pub roll: R,
}

/// Moments of inertia of predicted masses, about the transverse axis at a station and about the
/// vehicle's axis: each line's own and, by the parallel-axis theorem, mass times squared distance.
///
/// Source: J. L. Meriam and L. G. Kraige, "Engineering Mechanics: Dynamics", appendix B (from memory);
/// R. L. Zimmerman and J. H. Nakai, "Are You Sure? Uncertainty in Mass Properties Engineering", Society of
/// Allied Weight Engineers, paper 3360, 2005.
///
/// ```
/// use hoopline::mass::{Group, Line, Spread, inertia};
/// let mass = |station| Line {
///     name: "ball",
///     group: Group::Item,
///     basic: 2.0,
///     growth_share: 0.0,
///     station,
///     spread: Spread::point(),
/// };
/// // Two balls of 2 kg, 3 m to each side of station 5 m.
/// let found = inertia(&[&[mass(2.0), mass(8.0)]], 5.0);
/// assert_eq!((found.pitch, found.roll), (36.0, 0.0));
/// ```
pub fn inertia<R: Real>(lists: &[&[Line<R>]], station: R) -> Inertia<R> {
    let zero = R::splat(0.0);
    let mut found = Inertia {
        pitch: zero,
        roll: zero,
    };
    for line in lists.iter().copied().flatten() {
        let own = line.own_inertia();
        found.pitch =
            found.pitch + own.pitch + line.predicted() * (line.station - station).squared();
        found.roll = found.roll + own.roll;
    }
    found
}
