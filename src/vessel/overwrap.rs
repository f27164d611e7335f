//! The fibre overwrap: plies, netting, fibre on the closures.

use super::form::{ClosureKind, MAX_PLIES, PlyKind, TankForm};
use super::isotensoid;
use super::tank::{Closure, Tank};
use super::winding::Winding;
use crate::material::Fibre;
use crate::numerics::Real;
use crate::quantity::slots;
use std::f64::consts::PI;

slots! {
    /// Numbers of the overwrap.
    pub struct Overwrap<R> {
        /// Share of fibre in the laminate's volume.
        fibre_volume_fraction: Share [0.1, 0.9], Overwrap;
        /// Density of the resin.
        resin_density: Density [500.0, 3000.0], Overwrap;
        /// Stress that winding tension would leave in the fibre if the liner did not give.
        winding_stress: Stress [0.0, 2e9], Overwrap;
        /// Radial gap between liner and wrap before the first pressure.
        gap: Length [0.0, 0.01], Overwrap;
        /// Strain across the fibre at which the resin of a ply cracks, its transverse strength over its transverse
        /// modulus; none where cracks are not asked for.
        cracking_strain: Share [0.0, 0.1], Overwrap;
    } groups {
        /// The fibre.
        fibre: Fibre<R>,
        /// The plies, from the liner outwards.
        ply: [Ply<R>; MAX_PLIES],
        /// How they are wound.
        winding: Winding<R>,
    }
}

slots! {
    /// One ply.
    pub struct Ply<R> {
        /// Winding angle from the vessel's axis; 90 degrees is hoop.
        angle: Angle [0.0, std::f64::consts::FRAC_PI_2], Ply;
        /// Thickness of the fibre alone; the laminate's is this over the fibre volume fraction.
        fibre_thickness: Length [0.0, 0.05], Ply;
        /// Share of the strand strength that the fibre delivers in the vessel.
        translation_efficiency: Share [0.05, 1.0], Ply;
    }
}

impl<R: Real> Ply<R> {
    /// What the fibre's strain takes of axial and hoop strain: `cos^2` and `sin^2` of its angle. Hoop plies end
    /// free at the closures; their axial share is left out.
    pub fn strain_shares(&self, kind: PlyKind) -> [R; 2] {
        let along = match kind {
            PlyKind::Helical => self.angle.cos().squared(),
            PlyKind::Hoop => R::splat(0.0),
        };
        [along, self.angle.sin().squared()]
    }

    /// What the strain across the fibre takes of axial and hoop strain.
    pub fn strain_shares_across(&self) -> [R; 2] {
        [self.angle.sin().squared(), self.angle.cos().squared()]
    }
}

impl<R: Real> Overwrap<R> {
    /// Laminate thickness, m, of a thickness of fibre alone, m.
    pub fn laminate(&self, fibre_thickness: R) -> R {
        fibre_thickness / self.fibre_volume_fraction
    }
}

/// Laminate thickness of all plies, m: fibre thickness over fibre volume fraction.
pub fn laminate_thickness<R: Real>(form: &TankForm, overwrap: &Overwrap<R>) -> R {
    let fibre = overwrap.ply[..form.plies]
        .iter()
        .fold(R::splat(0.0), |sum, ply| sum + ply.fibre_thickness);
    if form.plies == 0 {
        fibre
    } else {
        overwrap.laminate(fibre)
    }
}

/// Fibre-only thickness of helical and hoop plies by netting analysis, m: the fibres alone carry a
/// closed cylinder of radius `radius` under `pressure` at fibre stresses `helical_stress` and
/// `hoop_stress`; `angle` is the helical winding angle from the axis.
///
/// Axial: `t_helical = p R / (2 s cos^2 a)`. Hoop: `t_hoop = (p R - s t_helical sin^2 a) / s_hoop`.
/// Above 54.74 degrees (tan^2 a = 2) the helical plies alone over-carry the hoop load and the
/// thickness turns negative.
///
/// ```
/// let angle = 15f64.to_radians();
/// let (helical, hoop) = hoopline::vessel::netting_thickness(18e6, 0.075, angle, 2500e6, 2500e6);
/// assert!((helical - 0.28939e-3).abs() < 1e-8 && (hoop - 0.52061e-3).abs() < 1e-8);
/// ```
pub fn netting_thickness<R: Real>(
    pressure: R,
    radius: R,
    angle: R,
    helical_stress: R,
    hoop_stress: R,
) -> (R, R) {
    let load = pressure * radius;
    let helical = load / (helical_stress * angle.cos().squared() * 2.0);
    let hoop = (load - helical_stress * helical * angle.sin().squared()) / hoop_stress;
    (helical, hoop)
}

/// Fibre volume that one helical ply lays on one closure, m3.
///
/// Fibres cross the equator with `2 pi R t cos a` of cross-section in all, on their way in or out;
/// each crossing owns the way to the turning point. On a hemisphere that geodesic is a quarter of a
/// great circle, `pi R / 2`, whatever the angle. On a 2:1 ellipsoid the meridian's length is
/// taken, 1.21106 R (complete elliptic integral of the second kind at k^2 = 3/4); the geodesic is
/// shorter, so the fibre is overstated by 1 % at 10 degrees, 3 % at 20, 8 % at 30. On an isotensoid it is
/// the geodesic that turns at the closure's own turning radius, exact for a ply that does. No helical ply holds
/// on the other kinds.
pub fn helical_closure_fibre<R: Real>(
    kind: ClosureKind,
    closure: &Closure<R>,
    radius: R,
    thickness: R,
    angle: R,
) -> R {
    radius.squared()
        * thickness
        * angle.cos()
        * (fibre_path_over_radius(kind, closure) * (2.0 * PI))
}

/// Way of a fibre from the equator of a closure to its turning point, over the radius.
pub(crate) fn fibre_path_over_radius<R: Real>(kind: ClosureKind, closure: &Closure<R>) -> R {
    match kind {
        ClosureKind::Hemisphere => R::splat(PI / 2.0),
        // Complete elliptic integral of the second kind at k^2 = 3/4.
        ClosureKind::Ellipsoid => R::splat(1.211_056_027_568_459),
        ClosureKind::Isotensoid => isotensoid::fibre_path(closure.turning_radius_ratio),
        ClosureKind::Torisphere
        | ClosureKind::FlatClamped
        | ClosureKind::FlatSupported
        | ClosureKind::FlatBolted => R::splat(0.0),
    }
}

/// Fibre volume of the whole overwrap, m3: each ply on its own mean radius over the cylinder, and
/// helical plies over the closures.
pub fn fibre_volume<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    liner_outer_radius: R,
    cylinder_length: R,
) -> R {
    let overwrap = &tank.overwrap;
    let mut volume = R::splat(0.0);
    let mut inside = liner_outer_radius;
    for (ply, kind) in form.wound(overwrap) {
        let laminate = overwrap.laminate(ply.fibre_thickness);
        let mean = inside + laminate * 0.5;
        volume = volume + mean * cylinder_length * ply.fibre_thickness * (2.0 * PI);
        if kind == PlyKind::Helical {
            for (kind, closure) in form.closures(tank) {
                volume = volume
                    + helical_closure_fibre(kind, closure, mean, ply.fibre_thickness, ply.angle);
            }
        }
        inside = inside + laminate;
    }
    volume
}
