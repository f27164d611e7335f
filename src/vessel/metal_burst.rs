//! Burst pressure of a bare metal cylinder with closed ends: the estimates in use, side by side.
//!
//! The margins take [`mean_diameter`], which needs only what a material standard guarantees. The spread
//! is its known error: for a metal that hardens little (strain-hardening exponent n of 0.05, as 6061-T6)
//! the others lie 4 to 16 % above it. It is the lowest only while n is below 0.12: there [`zhu_leis`]
//! crosses it, and for metals that harden strongly (n of 0.3 to 0.5, as annealed austenitic steel)
//! [`zhu_leis`] is 10 to 21 % lower; judge such a tank by both.
//!
//! All are for a sound, ductile, seamless wall of even thickness, in any consistent units. X.-K. Zhu and
//! B. N. Leis, "Evaluation of burst pressure prediction models for line pipes", International Journal of
//! Pressure Vessels and Piping, 2012, compare such estimates with more than a hundred tests: Zhu-Leis
//! fits best, and Tresca forms on the mean diameter are reasonable for yield over ultimate strength of
//! 0.7 to 0.9 (abstract).

use crate::numerics::Real;

/// 2 / sqrt(3): by von Mises, hoop strength of a closed thin cylinder over uniaxial strength.
const MISES: f64 = 1.154_700_538_379_251_5;

/// Burst pressure by the mean diameter: `p = 2 t Su / Dm`, the limit load by Tresca's condition, in
/// Barlow's form.
///
/// Wall t, mean diameter Dm, ultimate strength Su. Thin walls, `t / Dm` to about 0.1. Source: form named in
/// X.-K. Zhu and others, ASME Journal of Pressure Vessel Technology 145(4), 041303, 2023 (abstract: the
/// basis of the boiler code and of piping codes).
///
/// ```
/// let mpa: f64 = hoopline::vessel::metal_burst::mean_diameter(2.0, 150.0, 310.0);
/// assert!((mpa - 8.267).abs() < 5e-4);
/// ```
pub fn mean_diameter<R: Real>(wall: R, mean_diameter: R, ultimate: R) -> R {
    wall * ultimate / mean_diameter * 2.0
}

/// Burst pressure by von Mises' condition: `p = (2 / sqrt 3) 2 t Su / Dm`, the limit load of a closed thin
/// cylinder. An upper estimate: thinning before the peak is not in it.
///
/// Symbols and range as for [`mean_diameter`]; source as there (abstract names the family).
///
/// ```
/// let mpa: f64 = hoopline::vessel::metal_burst::von_mises_limit(2.0, 150.0, 310.0);
/// assert!((mpa - 9.546).abs() < 5e-4);
/// ```
pub fn von_mises_limit<R: Real>(wall: R, mean_diameter: R, ultimate: R) -> R {
    self::mean_diameter(wall, mean_diameter, ultimate) * MISES
}

/// Burst pressure by Faupel: `p = (2 / sqrt 3) Sy ln(b / a) (2 - Sy / Su)`, inside radius a, outside radius
/// b, yield strength Sy, ultimate strength Su.
///
/// Thin and thick walls of ductile steel: International Journal of Pressure Vessels and Piping 88, 2011,
/// pages 119 to 122, finds it simple and reliable for mild steel vessels of both kinds (abstract; authors and
/// title not seen). Form from memory.
///
/// ```
/// let mpa: f64 = hoopline::vessel::metal_burst::faupel(74.0, 76.0, 276.0, 310.0);
/// assert!((mpa - 9.431).abs() < 5e-4);
/// ```
pub fn faupel<R: Real>(inner_radius: R, outer_radius: R, yields: R, ultimate: R) -> R {
    yields * (outer_radius / inner_radius).ln() * (-(yields / ultimate) + 2.0) * MISES
}

/// Burst pressure by Svensson: `p = Su (0.25 / (n + 0.227)) (e / n)^n ln(b / a)`, n the strain-hardening
/// exponent of the true stress, above zero; radii as for [`faupel`].
///
/// Thin and thick walls; n to about 0.5. Source: form from memory (N. L. Svensson, "The bursting pressure
/// of cylindrical and spherical vessels", Journal of Applied Mechanics 25, 1958).
///
/// ```
/// let mpa: f64 = hoopline::vessel::metal_burst::svensson(74.0, 76.0, 310.0, 0.05);
/// assert!((mpa - 9.111).abs() < 5e-4);
/// ```
pub fn svensson<R: Real>(inner_radius: R, outer_radius: R, ultimate: R, hardening: R) -> R {
    let hardened = (hardening * (-hardening.ln() + 1.0)).exp();
    ultimate * hardened * (outer_radius / inner_radius).ln() * 0.25 / (hardening + 0.227)
}

/// Burst pressure by Zhu and Leis: `p = ((2 + sqrt 3) / (4 sqrt 3))^(n + 1) 4 t Su / Dm`, n the
/// strain-hardening exponent, from the average of Tresca's and von Mises' conditions.
///
/// Thin walls; validated on line pipe. Source: X.-K. Zhu and B. N. Leis, "Theoretical and numerical
/// predictions of burst pressure of pipelines", ASME Journal of Pressure Vessel Technology, 2007,
/// doi 10.1115/1.2767352 (abstract read; form from memory).
///
/// ```
/// let mpa: f64 = hoopline::vessel::metal_burst::zhu_leis(2.0, 150.0, 310.0, 0.05);
/// assert!((mpa - 8.635).abs() < 5e-4);
/// ```
pub fn zhu_leis<R: Real>(wall: R, mean_diameter: R, ultimate: R, hardening: R) -> R {
    /// ln((2 + sqrt(3)) / (4 sqrt(3))).
    const AVERAGE_SHEAR: f64 = -0.6186426085291288;
    let share = ((hardening + 1.0) * AVERAGE_SHEAR).exp();
    wall * ultimate / mean_diameter * share * 4.0
}
