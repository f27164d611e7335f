//! Pressure at which the strength of liner and fibres in the cylinder is spent.

use super::form::{PlyKind, TankForm};
use super::tank::Tank;
use crate::numerics::Real;

/// Pressure at which the cylinder's strength in one direction is spent, Pa.
///
/// Metal and fibres add. Where no fibre carries in that direction the metal counts with its ultimate
/// strength (p = 2 t Su / Dm, the Tresca or Barlow form of [`super::metal_burst::mean_diameter`]). Where
/// fibres carry, it counts with its *yield* strength: fibres break long before the metal has strained to
/// its ultimate, and by Tresca's condition hoop and axial stress may each reach yield together. Fibres
/// count with strand strength x translation efficiency, resolved along the direction.
///
/// A helical ply that pulls in one direction also pulls across it, and only as much of that as the
/// pressure itself offers there is in equilibrium without compressing the liner. Beyond it the ply
/// counts with that part only:
/// `p = min((m + f + w) / l, (m + f) / (l - (w / a) k))`, m metal, f hoop plies, w and a the helical
/// plies' strength with and across the direction, l and k the line loads per pressure with and across
/// it. For m = f = 0 and both directions this is netting.
pub(super) fn spent_pressure<R: Real>(metal_and_hoop: R, helical: (R, R), load: (R, R)) -> R {
    let ((with, across), (along, beside)) = (helical, load);
    let all = (metal_and_hoop + with) / along;
    let relief = along - with / across.max(R::splat(1e-9)) * beside;
    let balanced = metal_and_hoop / relief;
    all.select(all.min(balanced), !relief.above(0.0))
}

/// Fibre strength as line loads, N/m: hoop plies around, helical plies around and along.
pub(super) struct FibreStrength<R> {
    pub hoop: R,
    pub helical_around: R,
    pub helical_along: R,
}

pub(super) fn fibre_strength<R: Real>(form: &TankForm, tank: &Tank<R>) -> FibreStrength<R> {
    let zero = R::splat(0.0);
    let mut strength = FibreStrength {
        hoop: zero,
        helical_around: zero,
        helical_along: zero,
    };
    for (ply, kind) in form.wound(&tank.overwrap) {
        let full = tank.overwrap.fibre.strength * ply.translation_efficiency * ply.fibre_thickness;
        let around = full * ply.angle.sin().squared();
        match kind {
            PlyKind::Hoop => strength.hoop = strength.hoop + around,
            PlyKind::Helical => {
                strength.helical_around = strength.helical_around + around;
                strength.helical_along = strength.helical_along + full * ply.angle.cos().squared();
            }
        }
    }
    strength
}
