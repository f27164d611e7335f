//! Margins of safety of the tank: allowable / (factor x load) - 1, each separately.

use super::bolt_row::{RowLoads, row_margins};
use super::bore::bore_stress;
use super::capacity::capacity;
use super::closure::{closure_stress, closure_yield_ratio};
use super::dimensions::Dimensions;
use super::fitting::{FittingHold, Flown, worst};
use super::form::TankForm;
use super::junction::Junction;
use super::rising::{largest_zone_strain, risen};
use super::seam::{girth_strength, longitudinal_strength, seam_thickness};
use super::tank::{Closure, Tank};
use crate::numerics::Real;
use crate::quantity::slots;
use std::f64::consts::PI;

slots! {
    /// Margins of safety: at proof pressure and in flight against yield, at burst pressure against
    /// rupture.
    pub struct Margins<R> {
        /// Liner parent metal against yield at proof pressure (von Mises at the bore, elastic load share; elastic up to the autofrettage pressure after that).
        liner_yield_proof: Ratio, Tank;
        /// Liner parent metal against yield at proof factor x flight loads: MEOP, liquid head, thrust (von Mises at the bore).
        liner_yield_flight: Ratio, Tank;
        /// Girth seam against yield by the axial line load across it, at proof pressure.
        girth_seam_proof: Ratio, GirthSeam;
        /// Longitudinal seam against yield by the hoop stress across it at the bore, at proof pressure.
        longitudinal_seam_proof: Ratio, LongitudinalSeam;
        /// Longitudinal seam against yield at proof factor x (MEOP + liquid head).
        longitudinal_seam_flight: Ratio, LongitudinalSeam;
        /// Fore closure against yield at proof pressure.
        fore_closure_proof: Ratio, Tank;
        /// Aft closure against yield at proof pressure.
        aft_closure_proof: Ratio, Tank;
        /// Aft closure against yield at proof factor x (MEOP + liquid head).
        aft_closure_flight: Ratio, Tank;
        /// Fore junction of cylinder and closure against shakedown: range of membrane and bending stress from no pressure
        /// to proof pressure against twice the yield strength, across the girth seam where there is one.
        fore_junction_proof: Ratio, ForeJunction;
        /// Aft junction of cylinder and closure against shakedown, as the fore one.
        aft_junction_proof: Ratio, AftJunction;
        /// Cylinder in hoop direction, parent metal and fibres, at burst factor x (MEOP + liquid head).
        hoop_burst: Ratio, Tank;
        /// Cylinder in axial direction, parent metal and helical fibres, at burst pressure.
        axial_burst: Ratio, Tank;
        /// Girth seam and helical fibres over it, at burst pressure.
        girth_seam_burst: Ratio, GirthSeam;
        /// Larger strain of the girth seam's weld zone, along or around the vessel, at burst pressure, reached once from
        /// rest, against the strain that it bears.
        girth_zone_strain_burst: Ratio, GirthAllowance;
        /// Longitudinal seam and fibres over it, at burst factor x (MEOP + liquid head).
        longitudinal_seam_burst: Ratio, LongitudinalSeam;
        /// Fore closure against its ultimate strength at burst pressure.
        fore_closure_burst: Ratio, Tank;
        /// Aft closure against its ultimate strength at burst factor x (MEOP + liquid head).
        aft_closure_burst: Ratio, Tank;
        /// Fittings under the wrap against sliding and lifting off, at fitting factor x load, at the least pressure of
        /// each case; the smallest over fittings and cases.
        fitting_hold: Ratio, WoundInFittings;
        /// Glue of bonded fittings, peak shear and pull, at fitting factor x (load, growth at MEOP) and by the growth at
        /// proof pressure; the smallest over fittings and cases.
        fitting_bond: Ratio, BondedFittings;
        /// Fasteners of the fittings, shear and tension, at fitting factor x load; the smallest over fittings and cases.
        fitting_fastener: Ratio, Fittings;
        /// Bolts of the fore closure in shear against their ultimate strength, at burst pressure.
        fore_bolt_shear_burst: Ratio, ForeBolts;
        /// Wall under the fore bolts in bearing, against bearing yield, at proof or autofrettage pressure.
        fore_bearing_proof: Ratio, ForeBolts;
        /// Wall under the fore bolts in bearing, against its bearing ultimate strength, at burst pressure.
        fore_bearing_burst: Ratio, ForeBolts;
        /// Wall from the fore holes to the end of the tube, two shear planes each, against its ultimate shear strength,
        /// at burst pressure.
        fore_shear_out_burst: Ratio, ForeBolts;
        /// Wall between the fore holes in tension, against yield, at proof or autofrettage pressure.
        fore_net_section_proof: Ratio, ForeBolts;
        /// Wall between the fore holes in tension, against its ultimate strength, at burst pressure.
        fore_net_section_burst: Ratio, ForeBolts;
        /// Largest gap that the fore seal bears over the gap as assembled and the wall's elastic growth, at proof
        /// or autofrettage pressure.
        fore_seal_gap_proof: Ratio, ForeBolts;
        /// Bolts of the aft closure in shear against their ultimate strength, at burst factor x (MEOP + liquid head).
        aft_bolt_shear_burst: Ratio, AftBolts;
        /// Wall under the aft bolts in bearing, against bearing yield, at proof factor x (MEOP + liquid head) or
        /// autofrettage pressure.
        aft_bearing_flight: Ratio, AftBolts;
        /// Wall under the aft bolts in bearing, against its bearing ultimate strength, at burst factor x (MEOP + liquid
        /// head).
        aft_bearing_burst: Ratio, AftBolts;
        /// Wall from the aft holes to the end of the tube, two shear planes each, against its ultimate shear strength,
        /// at burst factor x (MEOP + liquid head).
        aft_shear_out_burst: Ratio, AftBolts;
        /// Wall between the aft holes in tension, against yield, at proof factor x (MEOP + liquid head) or
        /// autofrettage pressure.
        aft_net_section_flight: Ratio, AftBolts;
        /// Wall between the aft holes in tension, against its ultimate strength, at burst factor x (MEOP + liquid
        /// head).
        aft_net_section_burst: Ratio, AftBolts;
        /// Largest gap that the aft seal bears over the gap as assembled and the wall's elastic growth, at proof factor
        /// x (MEOP + liquid head) or autofrettage pressure.
        aft_seal_gap_flight: Ratio, AftBolts;
    }
}

/// Times the yield strength that the range of membrane plus bending stress may reach at a junction (ASME Boiler
/// and Pressure Vessel Code, section VIII division 2, 5.5.6.1: range of primary plus secondary equivalent
/// stress, effects of gross structural discontinuities included, within S_PS; the larger of three times the allowable
/// stress and twice the yield strength to edition 2023, from 2025 yield strength cold plus hot: abstract of paper
/// 120788, "Rewriting the Ratcheting Stress Limits", Pressure Vessels and Piping Conference).
pub const SHAKEDOWN: f64 = 2.0;

/// What the tank is checked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VesselLoads<R> {
    /// Proof pressure: proof factor x MEOP, Pa gauge.
    pub proof: R,
    /// Required burst pressure: burst factor x MEOP, Pa gauge.
    pub burst: R,
    /// MEOP, Pa gauge.
    pub meop: R,
    /// Pressure of the liquid column at the aft end under the largest axial acceleration, Pa.
    pub head: R,
    /// Largest axial compressive force that thrust puts into the tank's wall, N.
    pub compression: R,
    /// Factor on flight loads against yield.
    pub yield_factor: R,
    /// Factor on flight loads against rupture.
    pub burst_factor: R,
    /// What the flight brings to fittings.
    pub flown: Flown<R>,
}

/// Every margin of the tank.
///
/// Strength rests on the minimum wall and the minimum thickness of the closures. Line loads are those of
/// [`Dimensions::loads_per_pressure`].
///
/// In flight the liquid weighs more, and its head adds to the pressure at the aft end: what holds it in,
/// the cylinder around and the aft closure, is judged at factor x (MEOP + head). The axial direction is
/// judged at the pressure alone. Cut the tank at a section: the wall's tension is the pressure above the
/// liquid times the bore, less the mass ahead times its acceleration, less the drag ahead; the head
/// below cancels against the inertia of the liquid that causes it. So the tension is largest before
/// ignition, at full pressure and no acceleration, and axial and girth seam margins take the burst
/// pressure as it is. While thrust lasts it only relieves it; recovery
/// loads are not in it. But less axial tension beside the same hoop stress may mean
/// more equivalent stress (in a bare liner it does, whose axial stress is midway between hoop and radial):
/// the liner's yield in flight is the worse of with and without the compression, under the head either
/// way.
///
/// A liner that has flowed under the autofrettage pressure is elastic again up to that pressure: the same
/// residual stresses that the wrap leaves in it close the way back. So its yield is judged by the higher of first
/// flow and autofrettage pressure over the load's pressure. In flight this leaves out what thrust takes from the
/// axial load (a few per cent of it); a liner that flows backwards when it is emptied flows earlier, which the
/// load history tells as a caution.
///
/// A girth seam is as thick as the thinner of cylinder and domed closure beside it, and is judged by
/// the axial line load across it; that its weld zone may yield in hoop, held by its neighbours, is a
/// caution. It joins the closures that no bolts hold. Bending, buckling under thrust of a tank without pressure, and
/// thermal strain of the wrap are not in it, but for the clamp of fittings.
pub fn margins<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    loads: &VesselLoads<R>,
) -> Margins<R> {
    let metal = &tank.liner.metal;
    let wall = size.minimum_wall;
    let (axial_load, _) = size.loads_per_pressure();

    let (yields, breaks) = (metal.yield_strength, metal.ultimate_strength);
    let zone_yields = metal.weld_zone_yield_strength;
    let girth_yields = girth_strength(form, tank, yields, zone_yields);
    let longitudinal_yields = longitudinal_strength(form, tank, yields, zone_yields);
    let closures = form.closures(tank);
    let seam_wall = seam_thickness(form, tank, wall, Closure::minimum_thickness);

    let bore = |pressure: R, axial: R| bore_stress(form, tank, size, pressure, axial);
    let proof = bore(loads.proof, loads.proof * axial_load);
    let in_flight = (loads.meop + loads.head) * loads.yield_factor;
    let pull = loads.meop * axial_load * loads.yield_factor;
    let relief = loads.compression * loads.yield_factor / (size.mean_radius() * (2.0 * PI));
    let flight = bore(in_flight, pull)
        .equivalent()
        .max(bore(in_flight, pull - relief).equivalent());
    let burst_aft = loads.burst + loads.head * loads.burst_factor;

    let parts = capacity(form, tank, size);
    // A wave of stress that bends the edges back and forth is secondary: it may flow once and then stay elastic
    // if its range is within twice the yield strength.
    let within = girth_yields * SHAKEDOWN / loads.proof;
    let [fore_junction, aft_junction] = closures.map(|(kind, closure)| {
        if kind.is_bolted() {
            return R::splat(1.0);
        }
        within / Junction::new(form, tank, size, kind, closure).largest() - 1.0
    });
    let [fore_end, aft_end] = closures;
    // Bolts and seal are there when the tank is autofrettaged; they have to stay elastic in it.
    let reached = tank.autofrettage_pressure;
    let row = |proof: R, burst: R, axial: R| RowLoads {
        proof: proof.max(reached),
        burst,
        grows: [[proof, axial], [reached, reached * axial_load]],
    };
    let fore_row = row(loads.proof, loads.burst, loads.proof * axial_load);
    let aft_row = row(in_flight, burst_aft, pull - relief);
    let fore_bolts = row_margins(form, tank, size, fore_end, &fore_row);
    let aft_bolts = row_margins(form, tank, size, aft_end, &aft_row);
    let [fore, aft] = closures.map(|(kind, closure)| {
        let nu = metal.poisson_ratio;
        let unit = closure_stress(kind, closure, R::splat(1.0), size.inner_diameter, nu);
        (unit * closure_yield_ratio(kind), unit)
    });
    let zone_strain = if form.judges_girth_zone() {
        largest_zone_strain(&risen(form, tank, size, loads.burst))
    } else {
        R::splat(1.0)
    };
    let elastic =
        |first_flow: R, pressure: R| first_flow.max(tank.autofrettage_pressure / pressure) - 1.0;
    let fittings = worst(form, tank, size, [loads.meop, loads.proof], &loads.flown);
    let spare = |there: bool, share: R| {
        let share = if there { share } else { R::splat(1.0) };
        R::splat(1.0) / share - 1.0
    };
    Margins {
        liner_yield_proof: elastic(yields / proof.equivalent(), loads.proof),
        liner_yield_flight: elastic(yields / flight, in_flight),
        girth_seam_proof: girth_yields * seam_wall / (proof.axial * wall) - 1.0,
        longitudinal_seam_proof: longitudinal_yields / proof.hoop - 1.0,
        longitudinal_seam_flight: longitudinal_yields / bore(in_flight, pull).hoop - 1.0,
        fore_closure_proof: yields / (fore.0 * loads.proof) - 1.0,
        aft_closure_proof: yields / (aft.0 * loads.proof) - 1.0,
        aft_closure_flight: yields / (aft.0 * in_flight) - 1.0,
        fore_junction_proof: fore_junction,
        aft_junction_proof: aft_junction,
        hoop_burst: parts.hoop / burst_aft - 1.0,
        axial_burst: parts.axial / loads.burst - 1.0,
        girth_seam_burst: parts.girth_seam / loads.burst - 1.0,
        girth_zone_strain_burst: tank.liner.girth_seam.allowable_strain / zone_strain - 1.0,
        longitudinal_seam_burst: parts.longitudinal_seam / burst_aft - 1.0,
        fore_closure_burst: breaks / (fore.1 * loads.burst) - 1.0,
        aft_closure_burst: breaks / (aft.1 * burst_aft) - 1.0,
        fitting_hold: spare(form.has_fitting(FittingHold::WoundIn), fittings.hold),
        fitting_bond: spare(form.has_fitting(FittingHold::Bonded), fittings.bond),
        fitting_fastener: spare(form.fittings > 0, fittings.fastener),
        fore_bolt_shear_burst: fore_bolts.bolt_shear_burst,
        fore_bearing_proof: fore_bolts.bearing_yield,
        fore_bearing_burst: fore_bolts.bearing_burst,
        fore_shear_out_burst: fore_bolts.shear_out_burst,
        fore_net_section_proof: fore_bolts.net_section_yield,
        fore_net_section_burst: fore_bolts.net_section_burst,
        fore_seal_gap_proof: fore_bolts.seal_gap,
        aft_bolt_shear_burst: aft_bolts.bolt_shear_burst,
        aft_bearing_flight: aft_bolts.bearing_yield,
        aft_bearing_burst: aft_bolts.bearing_burst,
        aft_shear_out_burst: aft_bolts.shear_out_burst,
        aft_net_section_flight: aft_bolts.net_section_yield,
        aft_net_section_burst: aft_bolts.net_section_burst,
        aft_seal_gap_flight: aft_bolts.seal_gap,
    }
}
