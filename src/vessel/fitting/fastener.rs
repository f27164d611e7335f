//! Fasteners between a pad and the part on it.

use super::case::CaseLoad;
use super::given::Fitting;
use crate::numerics::Real;

/// Times the tensile resistance that the tension beside full shear may reach (EN 1993-1-8:2005, table 3.4, combined
/// shear and tension: `Fv/Fv,Rd + Ft/(1.4 Ft,Rd) <= 1`, with `Ft <= Ft,Rd`; its design resistances are lower than
/// strength times area, by factors that are left to yours).
pub(super) const BESIDE_SHEAR: f64 = 1.4;

/// Share of its strength that the worst fastener is loaded to, without a factor.
///
/// Shear and pull are shared evenly; the moment of the shear about the pad's outside is taken by one fastener at its
/// lever arm, which is too much for a group. Bending of a fastener, preload and prying are not in it.
pub fn fastener_share<R: Real>(fitting: &Fitting<R>, load: &CaseLoad<R>) -> R {
    let shear = load.shear();
    let cut = shear / (fitting.fasteners * fitting.fastener_area * fitting.fastener_shear_strength);
    let tension =
        load.radial / fitting.fasteners + shear * fitting.load_height / fitting.fastener_lever;
    let torn = tension / (fitting.fastener_area * fitting.fastener_tensile_strength);
    (cut + torn / BESIDE_SHEAR).max(torn)
}
