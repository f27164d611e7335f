//! Margins of safety of the tank: allowable / (factor x load) - 1, each separately.

use super::closure::closure_stress;
use super::dimensions::Dimensions;
use super::form::{ClosureKind, PlyKind, TankForm};
use super::membrane::membrane_response;
use super::seam::seam_strength;
use super::tank::Tank;
use crate::numerics::Real;
use crate::quantity::slots;

slots! {
    /// Margins of safety. At proof pressure nothing yields; at burst pressure nothing breaks.
    pub struct Margins<R> {
        /// Liner parent metal against yield at proof pressure (von Mises, elastic load share).
        liner_yield_proof: Ratio, Tank;
        /// Girth seam against yield by axial stress at proof pressure.
        girth_seam_proof: Ratio, GirthSeam;
        /// Longitudinal seam against yield by hoop stress at proof pressure.
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

/// Strength of the cylinder in one direction as a line load, N/m: metal and fibres add.
///
/// Where no fibre carries in that direction the liner counts with its ultimate strength (p = 2 t Su /
/// Dm, the Tresca or Barlow form of the burst pressure). Where fibres carry, the liner counts with
/// its *yield* strength only: fibres break long before the metal has strained to its ultimate, and
/// by Tresca's condition hoop and axial stress may each reach yield together. Fibres count with
/// strand strength x translation efficiency, resolved along the direction.
fn capacity<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    wall: R,
    yield_strength: R,
    ultimate_strength: R,
    carries: fn(PlyKind) -> bool,
    share: fn(PlyKind, R) -> R,
) -> R {
    let fibre_carries = form.ply_kinds[..form.plies]
        .iter()
        .any(|kind| carries(*kind));
    let metal = if fibre_carries {
        yield_strength
    } else {
        ultimate_strength
    };
    tank.overwrap.ply[..form.plies]
        .iter()
        .zip(&form.ply_kinds)
        .fold(metal * wall, |sum, (ply, kind)| {
            let strength = tank.overwrap.fibre.strength * ply.translation_efficiency;
            sum + strength * ply.fibre_thickness * share(*kind, ply.angle)
        })
}

fn around<R: Real>(_kind: PlyKind, angle: R) -> R {
    angle.sin().squared()
}

fn along<R: Real>(kind: PlyKind, angle: R) -> R {
    match kind {
        PlyKind::Helical => angle.cos().squared(),
        PlyKind::Hoop => R::splat(0.0),
    }
}

/// Every margin of the tank under internal pressure. Line loads: hoop p Rm, axial p Ri^2 / (2 Rm).
/// Thrust, bending and acceleration head are not in it.
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
    let (yield_strength, ultimate) = (metal.yield_strength, metal.ultimate_strength);
    let (zone_yield, zone_ultimate) = (
        metal.weld_zone_yield_strength,
        metal.weld_zone_ultimate_strength,
    );
    let (girth_yield, girth_ultimate) = (
        girth(yield_strength, zone_yield),
        girth(ultimate, zone_ultimate),
    );
    let (longitudinal_yield, longitudinal_ultimate) = (
        longitudinal(yield_strength, zone_yield),
        longitudinal(ultimate, zone_ultimate),
    );

    let elastic = membrane_response(
        form,
        tank,
        size.wall,
        loads.proof * axial_load,
        loads.proof * hoop_load,
    );
    let hoop_burst = |yields: R, breaks: R| {
        let line_load = capacity(form, tank, size.wall, yields, breaks, |_| true, around);
        line_load / (loads.burst * hoop_load) - 1.0
    };
    let axial_burst = |yields: R, breaks: R| {
        let helical = |kind| kind == PlyKind::Helical;
        let line_load = capacity(form, tank, size.wall, yields, breaks, helical, along);
        line_load / (loads.burst * axial_load) - 1.0
    };
    let closure = |kind: ClosureKind, thickness: R, pressure: R, strength: R| {
        let stress = closure_stress(
            kind,
            pressure,
            size.inner_diameter,
            thickness,
            metal.poisson_ratio,
        );
        strength / stress - 1.0
    };
    let (fore, aft) = (tank.fore_closure.thickness, tank.aft_closure.thickness);
    Margins {
        liner_yield_proof: yield_strength / elastic.liner_equivalent - 1.0,
        girth_seam_proof: girth_yield / elastic.liner_axial - 1.0,
        longitudinal_seam_proof: longitudinal_yield / elastic.liner_hoop - 1.0,
        fore_closure_proof: closure(form.fore_closure, fore, loads.proof, yield_strength),
        aft_closure_proof: closure(form.aft_closure, aft, loads.proof, yield_strength),
        hoop_burst: hoop_burst(yield_strength, ultimate),
        axial_burst: axial_burst(yield_strength, ultimate),
        girth_seam_burst: axial_burst(girth_yield, girth_ultimate),
        longitudinal_seam_burst: hoop_burst(longitudinal_yield, longitudinal_ultimate),
        fore_closure_burst: closure(form.fore_closure, fore, loads.burst, ultimate),
        aft_closure_burst: closure(form.aft_closure, aft, loads.burst, ultimate),
    }
}
