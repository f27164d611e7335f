//! Strength of a welded seam.

use super::form::TankForm;
use super::tank::{Closure, Tank};
use crate::numerics::Real;
use crate::quantity::choice;

choice! {
    /// How a seam's strength is taken. Joint efficiency (how sure we are of the weld) and weld-zone
    /// strength (what welding does to the metal) are two things; which of them is used is stated.
    pub enum SeamBasis {
        /// There is no such seam.
        None = "none",
        /// Strength of the weld zone, as welded.
        WeldZone = "weld_zone_strength",
        /// Joint efficiency on the parent metal's strength.
        JointEfficiency = "joint_efficiency",
        /// Joint efficiency on the weld zone's strength.
        Both = "weld_zone_strength_and_joint_efficiency",
    }
}

impl SeamBasis {
    /// Whether the weld zone's strength enters.
    pub fn uses_weld_zone(self) -> bool {
        matches!(self, Self::WeldZone | Self::Both)
    }

    /// Whether a joint efficiency enters.
    pub fn uses_efficiency(self) -> bool {
        matches!(self, Self::JointEfficiency | Self::Both)
    }
}

/// Strength to set against the stress across a seam, Pa.
///
/// ```
/// use hoopline::vessel::{SeamBasis, seam_strength};
/// // A single-welded butt joint without backing and without radiography, 0.60, on 175 MPa.
/// assert!((seam_strength(SeamBasis::Both, 260e6, 175e6, 0.6) - 105e6_f64).abs() < 1.0);
/// ```
pub fn seam_strength<R: Real>(basis: SeamBasis, parent: R, weld_zone: R, efficiency: R) -> R {
    match basis {
        SeamBasis::None => parent,
        SeamBasis::WeldZone => weld_zone,
        SeamBasis::JointEfficiency => parent * efficiency,
        SeamBasis::Both => weld_zone * efficiency,
    }
}

/// Strength across the girth seam of a tank, Pa, of a strength of its parent metal and one of its weld zone.
pub fn girth_strength<R: Real>(form: &TankForm, tank: &Tank<R>, parent: R, weld_zone: R) -> R {
    let efficiency = tank.liner.girth_seam.joint_efficiency;
    seam_strength(form.girth_seam, parent, weld_zone, efficiency)
}

/// The same of its longitudinal seam.
pub fn longitudinal_strength<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    parent: R,
    weld_zone: R,
) -> R {
    let efficiency = tank.liner.longitudinal_seam.joint_efficiency;
    seam_strength(form.longitudinal_seam, parent, weld_zone, efficiency)
}

/// Thickness of a girth seam's throat, m: that of the cylinder's wall, or of a domed closure beside it where
/// that is thinner, by the measure given, less what lacks penetration; not below zero.
pub fn seam_thickness<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    wall: R,
    measure: impl Fn(&Closure<R>) -> R,
) -> R {
    let closures = form.closures(tank).into_iter();
    let thinnest = closures
        .filter(|(kind, _)| kind.is_domed())
        .fold(wall, |thinnest, (_, closure)| {
            thinnest.min(measure(closure))
        });
    (thinnest - tank.liner.girth_seam.lack_of_penetration).max(R::splat(0.0))
}
