//! What the winding does to the bare liner: its tension presses from outside.

use crate::vessel::{Overwrap, TankForm};

/// External pressure, Pa, at which a long thin tube ovalises and collapses while it is elastic: `E / (4 (1 -
/// nu^2)) (t / r)^3` at the mean radius. W. C. Young, "Roark's Formulas for Stress and Strain", table 35, case
/// 19a, free ends, for lengths from `4.90 r sqrt(r / t)` and r / t above 10; a shorter tube between domes holds
/// more, one that is not round less.
///
/// ```
/// // 29e6 psi, 0.29, 0.375 in on 6.75 in: 1357 psi.
/// let pressure = hoopline::vessel::winding::elastic_collapse_pressure(29e6, 0.29, 0.375, 6.75);
/// assert!((pressure - 1357.0).abs() < 0.5);
/// ```
pub fn elastic_collapse_pressure(
    elastic_modulus: f64,
    poisson_ratio: f64,
    thickness: f64,
    mean_radius: f64,
) -> f64 {
    let slender = thickness / mean_radius;
    elastic_modulus / (4.0 * (1.0 - poisson_ratio * poisson_ratio)) * slender * slender * slender
}

/// Pressure, Pa, with which the plies would press on a liner that does not give: each its winding stress times
/// thickness and `sin^2` of its angle, over its radius (equilibrium of a hoop). `radii` are those of the plies'
/// middles, m. A liner that gives takes less.
pub fn tension_pressure(form: &TankForm, overwrap: &Overwrap<f64>, radii: &[f64]) -> f64 {
    let plies = form.wound(overwrap).zip(radii);
    plies
        .map(|((ply, kind), radius)| {
            let [_, around] = ply.strain_shares(kind);
            overwrap.winding_stress * ply.fibre_thickness * around / radius
        })
        .sum()
}
