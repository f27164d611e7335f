//! Margins of safety of the tank: allowable / (factor x load) - 1, each separately.

use super::closure::{closure_stress, closure_yield_ratio};
use super::dimensions::Dimensions;
use super::form::{PlyKind, TankForm};
use super::membrane::membrane_response;
use super::seam::seam_strength;
use super::tank::Tank;
use crate::numerics::Real;
use crate::quantity::slots;

slots! {
    /// Margins of safety: at proof pressure against yield, at burst pressure against rupture.
    pub struct Margins<R> {
        /// Liner parent metal against yield at proof pressure (von Mises, elastic load share).
        liner_yield_proof: Ratio, Tank;
        /// Girth seam against yield by the axial line load across it, at proof pressure.
        girth_seam_proof: Ratio, GirthSeam;
        /// Longitudinal seam against yield by the hoop line load across it, at proof pressure.
        longitudinal_seam_proof: Ratio, LongitudinalSeam;
        /// Fore closure against yield at proof pressure.
        fore_closure_proof: Ratio, Tank;
        /// Aft closure against yield at proof pressure.
        aft_closure_proof: Ratio, Tank;
        /// Cylinder in hoop direction, parent metal and fibres, at burst pressure.
        hoop_burst: Ratio, Tank;
        /// Cylinder in axial direction, parent metal and helical fibres, at burst pressure.
        axial_burst: Ratio, Tank;
        /// Girth seam and helical fibres over it, at burst pressure.
        girth_seam_burst: Ratio, GirthSeam;
        /// Longitudinal seam and fibres over it, at burst pressure.
        longitudinal_seam_burst: Ratio, LongitudinalSeam;
        /// Fore closure against its ultimate strength at burst pressure.
        fore_closure_burst: Ratio, Tank;
        /// Aft closure against its ultimate strength at burst pressure.
        aft_closure_burst: Ratio, Tank;
    }
}

/// Pressures the tank is checked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VesselLoads<R> {
    /// Proof pressure: proof factor x MEOP, Pa gauge.
    pub proof: R,
    /// Required burst pressure: burst factor x MEOP, Pa gauge.
    pub burst: R,
}

/// Pressure at which the cylinder's strength in one direction is spent, Pa.
///
/// Metal and fibres add. Where no fibre carries in that direction the metal counts with its ultimate
/// strength (p = 2 t Su / Dm, the Tresca or Barlow form). Where fibres carry, it counts with its
/// *yield* strength: fibres break long before the metal has strained to its ultimate, and by Tresca's
/// condition hoop and axial stress may each reach yield together. Fibres count with strand strength x
/// translation efficiency, resolved along the direction.
///
/// A helical ply that pulls in one direction also pulls across it, and only as much of that as the
/// pressure itself offers there is in equilibrium without compressing the liner. Beyond it the ply
/// counts with that part only:
/// `p = min((m + f + w) / l, (m + f) / (l - (w / a) k))`, m metal, f hoop plies, w and a the helical
/// plies' strength with and across the direction, l and k the line loads per pressure with and across
/// it. For m = f = 0 and both directions this is netting.
fn spent_pressure<R: Real>(metal_and_hoop: R, helical: (R, R), load: (R, R)) -> R {
    let ((with, across), (along, beside)) = (helical, load);
    let all = (metal_and_hoop + with) / along;
    let relief = along - with / across.max(R::splat(1e-9)) * beside;
    let balanced = metal_and_hoop / relief;
    all.select(all.min(balanced), !relief.above(0.0))
}

/// Fibre strength as line loads, N/m: hoop plies around, helical plies around and along.
struct FibreStrength<R> {
    hoop: R,
    helical_around: R,
    helical_along: R,
}

fn fibre_strength<R: Real>(form: &TankForm, tank: &Tank<R>) -> FibreStrength<R> {
    let zero = R::splat(0.0);
    let mut strength = FibreStrength {
        hoop: zero,
        helical_around: zero,
        helical_along: zero,
    };
    for (ply, kind) in tank.overwrap.ply[..form.plies].iter().zip(&form.ply_kinds) {
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

/// Every margin of the tank under internal pressure. Line loads: hoop p Rm, axial p Ri^2 / (2 Rm).
/// A girth seam is as thick as the thinner of cylinder and domed closure beside it, and is judged by
/// the axial line load across it; that its weld zone may yield in hoop, held by its neighbours, is a
/// caution. Thrust, bending and acceleration head are not in it, nor thermal strain of the wrap.
pub fn margins<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    loads: &VesselLoads<R>,
) -> Margins<R> {
    let metal = &tank.liner.metal;
    let inner_radius = size.inner_diameter * 0.5;
    let mean_radius = inner_radius + size.wall * 0.5;
    let hoop_load = mean_radius;
    let axial_load = inner_radius.squared() / (mean_radius * 2.0);

    let girth = |parent: R, weld_zone: R| {
        let efficiency = tank.liner.girth_seam.joint_efficiency;
        seam_strength(form.girth_seam, parent, weld_zone, efficiency)
    };
    let longitudinal = |parent: R, weld_zone: R| {
        let efficiency = tank.liner.longitudinal_seam.joint_efficiency;
        seam_strength(form.longitudinal_seam, parent, weld_zone, efficiency)
    };
    let (yields, breaks) = (metal.yield_strength, metal.ultimate_strength);
    let (zone_yields, zone_breaks) = (
        metal.weld_zone_yield_strength,
        metal.weld_zone_ultimate_strength,
    );
    let closures = [
        (form.fore_closure, tank.fore_closure.thickness),
        (form.aft_closure, tank.aft_closure.thickness),
    ];
    let seam_wall = closures
        .iter()
        .filter(|(kind, _)| kind.anchors_fibre())
        .fold(size.wall, |thinnest, (_, thickness)| {
            thinnest.min(*thickness)
        });

    let elastic = membrane_response(
        form,
        tank,
        size.wall,
        loads.proof * axial_load,
        loads.proof * hoop_load,
    );
    let fibre = fibre_strength(form, tank);
    let helical = form.ply_kinds[..form.plies].contains(&PlyKind::Helical);
    let around = |yields: R, breaks: R| {
        let metal = if form.plies > 0 { yields } else { breaks };
        let pressure = spent_pressure(
            metal * size.wall + fibre.hoop,
            (fibre.helical_around, fibre.helical_along),
            (hoop_load, axial_load),
        );
        pressure / loads.burst - 1.0
    };
    let along = |wall: R, yields: R, breaks: R| {
        let metal = if helical { yields } else { breaks };
        let pressure = spent_pressure(
            metal * wall,
            (fibre.helical_along, fibre.helical_around),
            (axial_load, hoop_load),
        );
        pressure / loads.burst - 1.0
    };
    let [fore, aft] = closures.map(|(kind, thickness)| {
        let stress = |pressure: R| {
            let nu = metal.poisson_ratio;
            closure_stress(kind, pressure, size.inner_diameter, thickness, nu)
        };
        let equivalent = closure_yield_ratio(kind);
        (
            yields / (stress(loads.proof) * equivalent) - 1.0,
            breaks / stress(loads.burst) - 1.0,
        )
    });
    let across_seam = elastic.liner_axial * size.wall / seam_wall;
    Margins {
        liner_yield_proof: yields / elastic.liner_equivalent - 1.0,
        girth_seam_proof: girth(yields, zone_yields) / across_seam - 1.0,
        longitudinal_seam_proof: longitudinal(yields, zone_yields) / elastic.liner_hoop - 1.0,
        fore_closure_proof: fore.0,
        aft_closure_proof: aft.0,
        hoop_burst: around(yields, breaks),
        axial_burst: along(size.wall, yields, breaks),
        girth_seam_burst: along(
            seam_wall,
            girth(yields, zone_yields),
            girth(breaks, zone_breaks),
        ),
        longitudinal_seam_burst: around(
            longitudinal(yields, zone_yields),
            longitudinal(breaks, zone_breaks),
        ),
        fore_closure_burst: fore.1,
        aft_closure_burst: aft.1,
    }
}
