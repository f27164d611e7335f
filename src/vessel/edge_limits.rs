//! Edge bending in the cases that have a formula: what the junctions of a tank come to in their limits.
//!
//! The chain does not use them; they are for checks by hand. All are of a long thin cylinder under internal
//! pressure `p`, of mean radius `R`, wall `t` and Poisson's ratio `nu`, with closed ends.

use crate::numerics::Real;

/// Largest axial stress where the end can neither grow nor turn, Pa:
/// `p R / t (1/2 + (1 - nu/2) sqrt(3 / (1 - nu^2)))`, 2.03 p R / t at nu 0.33. It stands at the inside of the edge.
///
/// From the wave of a beam on an elastic foundation, `M = 2 b^2 D u` for a free growth `u` held back at a
/// clamped edge (S. Timoshenko and S. Woinowsky-Krieger, "Theory of Plates and Shells", section 115; from
/// memory, derived anew).
///
/// ```
/// let stress = hoopline::vessel::edge_limits::clamped_end_stress(1.0, 1.0, 1.0, 0.33);
/// assert!((stress - 2.03_f64).abs() < 0.005);
/// ```
pub fn clamped_end_stress<R: Real>(pressure: R, radius: R, thickness: R, nu: R) -> R {
    let bent = (-nu * 0.5 + 1.0) * (R::splat(3.0) / (-nu.squared() + 1.0)).sqrt();
    pressure * radius / thickness * (bent + 0.5)
}

/// Largest axial stress in a cylinder with a hemisphere of the same thickness, Pa:
/// `p R / (2 t) (1 + 3/2 exp(-pi/4) sin(pi/4) / sqrt(3 (1 - nu^2)))`, 1.29 p R / (2 t). It stands at the outside, a
/// distance of `pi / (4 b)` from the edge.
///
/// Both edges are equally stiff, the couple between them is nought and the force `p / (8 b)` (S. Timoshenko
/// and S. Woinowsky-Krieger, "Theory of Plates and Shells", section 116; from memory, derived anew).
///
/// ```
/// let stress = hoopline::vessel::edge_limits::hemisphere_edge_stress(2.0, 1.0, 1.0, 0.3);
/// assert!((stress - 1.293_f64).abs() < 0.0005);
/// ```
pub fn hemisphere_edge_stress<R: Real>(pressure: R, radius: R, thickness: R, nu: R) -> R {
    /// exp(-pi/4) sin(pi/4), the largest value of the wave.
    const CREST: f64 = 0.322_396_941_945_148_3;
    let bent = R::splat(1.5 * CREST) / ((-nu.squared() + 1.0) * 3.0).sqrt();
    pressure * radius / (thickness * 2.0) * (bent + 1.0)
}

/// Axial stress at the surface over the mean one where two like walls meet with their middle surfaces offset by
/// `offset`, m: `1 + 3 e / t`.
///
/// Each side takes half of the couple, line load times offset (equilibrium; the same factor stands in
/// rules for butt joints of plates, from memory).
///
/// ```
/// assert_eq!(hoopline::vessel::edge_limits::offset_factor(0.001, 0.003), 2.0);
/// ```
pub fn offset_factor<R: Real>(offset: R, thickness: R) -> R {
    offset / thickness * 3.0 + 1.0
}
