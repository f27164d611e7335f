//! Turbulent skin friction of a flat plate, its compressibility and roughness.

use crate::numerics::Real;

/// Mean friction coefficient of a smooth flat plate, turbulent from the leading edge, incompressible
/// (Prandtl and Schlichting): `0.455 / (log10 Re)^2.58`; takes the decimal logarithm of the Reynolds
/// number. Valid for Re 1e6 to 1e9; below, it overstates a partly laminar plate.
///
/// Source: Prandtl and Schlichting, 1932, as quoted in public course material.
///
/// ```
/// let plate = hoopline::airframe::turbulent_plate(7.0_f64); // Re = 1e7
/// assert!((plate - 0.00300).abs() < 0.5e-5);
/// ```
pub fn turbulent_plate<R: Real>(log_reynolds: R) -> R {
    log_reynolds.powf(-2.58) * 0.455
}

/// Ratio of compressible to incompressible turbulent friction, adiabatic wall (Frankl and Voishel):
/// `(1 + 0.144 M^2)^-0.65`. Against the ratio of van Driest's second method it reads 6 % low at Mach 2
/// and 10 % low at Mach 3 (Re 1e7); as friction, with each method's own plate, 4 % and 8 %: see
/// [`friction_spread`](super::friction_spread).
///
/// Source: D. P. Raymer, "Aircraft Design: A Conceptual Approach", AIAA, equation 12.27 (as three
/// public codes citing it agree; the equation's own page was not seen).
pub fn compressibility(mach: f64) -> f64 {
    libm::pow(1.0 + 0.144 * mach * mach, -0.65)
}

/// Decimal logarithm of the cut-off Reynolds number: above it, roughness of height `roughness` on a
/// surface of length `length` holds friction at the value it has there. Subsonic
/// `38.21 (l/k)^1.053`, from where the two cross (Mach 0.875) `44.62 (l/k)^1.053 M^1.16`.
///
/// Source: Raymer, as above, equations 12.28 and 12.29. A surface without roughness has none: the
/// height is held above a nanometre.
pub fn cut_off_reynolds<R: Real>(length: R, roughness: R, mach: f64) -> R {
    cut_off_by_height(length, roughness) + cut_off_shift(libm::log10(mach.max(0.1)))
}

/// Part of the logarithm of the cut-off Reynolds number that comes from length over height.
pub(super) fn cut_off_by_height<R: Real>(length: R, roughness: R) -> R {
    (length / roughness.max(R::splat(1e-9))).log10() * 1.053
}

/// Part of the logarithm of the cut-off Reynolds number that comes from the Mach number, whose decimal
/// logarithm it takes.
#[inline]
pub(super) fn cut_off_shift<R: Real>(log_mach: R) -> R {
    (log_mach * 1.16 + LOG_SUPERSONIC).max(R::splat(LOG_SUBSONIC))
}

/// Decimal logarithms of 44.62 and 38.21.
const LOG_SUPERSONIC: f64 = 1.649_529_565_947_818_9;
const LOG_SUBSONIC: f64 = 1.582_177_037_688_408_8;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn logarithms_of_the_cut_off() {
        approx::assert_relative_eq!(LOG_SUPERSONIC, libm::log10(44.62), epsilon = 1e-15);
        approx::assert_relative_eq!(LOG_SUBSONIC, libm::log10(38.21), epsilon = 1e-15);
    }
}
