//! Elastic load share of liner and overwrap in the cylinder.

use super::form::TankForm;
use super::tank::Tank;
use crate::numerics::Real;

/// Hoop stress of a thin closed cylinder, p R / t, Pa.
///
/// ```
/// // A pipe of 8 in diameter and 0.25 in wall under 65 psi: 1040 psi.
/// assert_eq!(hoopline::vessel::hoop_stress(65.0, 4.0, 0.25), 1040.0);
/// ```
pub fn hoop_stress<R: Real>(pressure: R, radius: R, thickness: R) -> R {
    pressure * radius / thickness
}

/// Axial stress of a thin closed cylinder, and the stress of a thin sphere, p R / (2 t), Pa.
pub fn axial_stress<R: Real>(pressure: R, radius: R, thickness: R) -> R {
    pressure * radius / (thickness * 2.0)
}

/// Hoop line load of a cylinder under internal pressure, p R, N/m, at its mean radius: with the wall's
/// thickness below it this is the mean-diameter (Barlow) stress, a little above the mean of Lame's, p times
/// inside radius over thickness.
///
/// ```
/// assert_eq!(hoopline::vessel::hoop_line_load(6e6, 0.075), 0.45e6);
/// ```
pub fn hoop_line_load<R: Real>(pressure: R, mean_radius: R) -> R {
    pressure * mean_radius
}

/// Axial line load of a closed cylinder under internal pressure, p Ri^2 / (2 Rm), N/m: the force on the bore,
/// `pi Ri^2 p`, over the mean circumference (exact).
///
/// ```
/// assert_eq!(hoopline::vessel::axial_line_load(6e6, 0.075, 0.075), 0.225e6);
/// ```
pub fn axial_line_load<R: Real>(pressure: R, inner_radius: R, mean_radius: R) -> R {
    pressure * inner_radius.squared() / (mean_radius * 2.0)
}

/// Response of the cylinder to a pressure, while everything is elastic.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Membrane<R> {
    /// Axial strain.
    pub axial_strain: R,
    /// Hoop strain.
    pub hoop_strain: R,
    /// Axial stress in the liner, Pa.
    pub liner_axial: R,
    /// Hoop stress in the liner, mean through its wall, Pa.
    pub liner_hoop: R,
}

/// Solves the cylinder of a closed vessel: liner (plane stress) and fibres (stiff along themselves
/// only) share strains, and together carry the line loads `axial` and `hoop` in N/m, of pressure those
/// of [`axial_line_load`] and [`hoop_line_load`] at the liner's mean radius.
///
/// `[K + t Q] {e_axial, e_hoop} = {axial, hoop}`, `K = sum E_f t_f m m^T`,
/// `m = (cos^2 a, sin^2 a)`, Q the plane-stress stiffness of the liner. The resin's stiffness is
/// left out, which puts a little more load on the liner. Hoop plies end free at the closures; their
/// axial stiffness (`cos^2 a`) is left out.
pub fn membrane_response<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    wall: R,
    axial: R,
    hoop: R,
) -> Membrane<R> {
    let metal = &tank.liner.metal;
    let nu = metal.poisson_ratio;
    let plane = metal.elastic_modulus / (-(nu * nu) + 1.0);
    let [k_aa, k_ah, k_hh] = wall_stiffness(form, tank, wall);
    let determinant = k_aa * k_hh - k_ah * k_ah;
    let axial_strain = (axial * k_hh - hoop * k_ah) / determinant;
    let hoop_strain = (hoop * k_aa - axial * k_ah) / determinant;
    let liner_axial = plane * (axial_strain + nu * hoop_strain);
    let liner_hoop = plane * (hoop_strain + nu * axial_strain);
    Membrane {
        axial_strain,
        hoop_strain,
        liner_axial,
        liner_hoop,
    }
}

/// Stiffness of liner and fibres at common strain, N/m: axial by axial, axial by hoop, hoop by hoop.
pub fn wall_stiffness<R: Real>(form: &TankForm, tank: &Tank<R>, wall: R) -> [R; 3] {
    let metal = &tank.liner.metal;
    let nu = metal.poisson_ratio;
    let plane = metal.elastic_modulus / (-(nu * nu) + 1.0);
    let (mut k_aa, mut k_ah, mut k_hh) = (plane * wall, plane * wall * nu, plane * wall);
    for (ply, kind) in form.wound(&tank.overwrap) {
        let stiffness = tank.overwrap.fibre.elastic_modulus * ply.fibre_thickness;
        let [along, around] = ply.strain_shares(kind);
        k_aa = k_aa + stiffness * along * along;
        k_ah = k_ah + stiffness * along * around;
        k_hh = k_hh + stiffness * around * around;
    }
    [k_aa, k_ah, k_hh]
}
