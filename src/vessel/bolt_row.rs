//! A row of radial bolts that holds a flat bulkhead in the cylinder: stresses of bolts and wall, gap at the seal,
//! margins.
//!
//! The end load is the pressure on the whole bore. Every bolt is taken to carry the same share of it, times the fitting
//! factor, and the metal wall alone takes it up: hoop plies over the row carry no axial load. Friction under
//! preloaded heads, the bolts' bending and the eccentricity between wall and rim are not in it, nor are the rim's own holes
//! and threads.

use super::bolts::Bolts;
use super::dimensions::Dimensions;
use super::form::{ClosureKind, TankForm};
use super::membrane::membrane_response;
use super::tank::{Closure, Tank};
use crate::numerics::Real;
use std::f64::consts::PI;

/// Margins of a bulkhead that bolts hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RowMargins<R> {
    pub bolt_shear_burst: R,
    pub bearing_yield: R,
    pub bearing_burst: R,
    pub shear_out_burst: R,
    pub net_section_yield: R,
    pub net_section_burst: R,
    pub seal_gap: R,
}

/// Load of one bolt, N, and mean stresses that it causes, Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RowStress<R> {
    /// Load of one bolt, N.
    pub force: R,
    /// Shear stress in the bolt.
    pub bolt_shear: R,
    /// Bearing stress on the wall, force over bolt diameter times wall.
    pub bearing: R,
    /// Shear stress in the wall along two planes from the hole's edge to the end of the tube.
    pub shear_out: R,
    /// Axial stress in the wall between the holes.
    pub net_section: R,
}

/// Load of each of a row of bolts, N, of a plug in a bore of the diameter given, m, under a pressure, Pa: even sharing.
///
/// ```
/// // A bore of 150 mm under 9 MPa: 159.0 kN on 24 bolts.
/// let force = hoopline::vessel::bolt_force(9e6, 0.150, 24.0);
/// assert!((force - 6627.0).abs() < 0.5);
/// ```
pub fn bolt_force<R: Real>(pressure: R, bore: R, count: R) -> R {
    pressure * bore.squared() * (PI / 4.0) / count
}

/// Mean stresses of a row of bolts in a wall, each under a force, N; wall and radius of its middle, m.
///
/// - bolt: force over shear area, one plane;
/// - bearing: force over bolt diameter times wall (MIL-HDBK-5 and others so define bearing stress; from memory);
/// - shear-out: force over two planes, each from the hole's edge to the end of the tube, edge distance less half a hole;
/// - net section: force over what the hole leaves of one pitch of the wall.
pub fn row_stress<R: Real>(
    force: R,
    bolts: &Bolts<R>,
    [wall, mean_radius]: [R; 2],
) -> RowStress<R> {
    RowStress {
        force,
        bolt_shear: force / bolts.shear_area,
        bearing: force / (bolts.diameter * wall),
        shear_out: force / (bolts.end_ligament() * wall * 2.0),
        net_section: force / (bolts.ligament(mean_radius) * wall),
    }
}

/// Stresses of the row of a closure per pressure, at the minimum wall, with the fitting factor.
fn per_pressure<R: Real>(closure: &Closure<R>, size: &Dimensions<R>) -> RowStress<R> {
    let bolts = &closure.bolts;
    let force = bolt_force(R::splat(1.0), size.inner_diameter, bolts.count) * bolts.fitting_factor;
    row_stress(force, bolts, [size.minimum_wall, size.mean_radius()])
}

/// Least pressure, Pa, at which bolts or wall of a row fail.
pub(super) fn row_burst<R: Real>(closure: &Closure<R>, tank: &Tank<R>, size: &Dimensions<R>) -> R {
    let (bolts, unit) = (&closure.bolts, per_pressure(closure, size));
    (bolts.shear_strength / unit.bolt_shear)
        .min(bolts.bearing_ultimate_strength / unit.bearing)
        .min(bolts.wall_shear_strength / unit.shear_out)
        .min(tank.liner.metal.ultimate_strength / unit.net_section)
}

/// Radial growth of the cylinder's wall, m, while all is elastic, under an axial line load, N/m, and a pressure, Pa
/// gauge, that acts on both sides of the place: hoop strain of liner and wrap times mean radius.
///
/// At a seal the pressure ends, and a long tube would grow there half as much; a tube's end beside it is less stiff. The
/// whole growth is on the safe side of a long tube, and of a wrap that a gap keeps off it, unless the wrap takes more than
/// about half of the load. Against a thick bare tube the growth of the bore is high by a tenth of wall over radius.
pub fn wall_growth<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    axial: R,
    pressure: R,
) -> R {
    let (_, hoop) = size.loads_per_pressure();
    let response = membrane_response(form, tank, size.minimum_wall, axial, hoop * pressure);
    response.hoop_strain * size.mean_radius()
}

/// What a row is judged at: pressures on the bulkhead against yield and against rupture, Pa gauge; pressures at which
/// the wall grows beside the seal, each with the axial line load there, N/m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RowLoads<R> {
    pub proof: R,
    pub burst: R,
    pub grows: [[R; 2]; 2],
}

/// Margins of the row of a closure; one each where no bolts hold it, of which nothing applies.
pub(super) fn row_margins<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    (kind, closure): (ClosureKind, &Closure<R>),
    loads: &RowLoads<R>,
) -> RowMargins<R> {
    if !kind.is_bolted() {
        let none = R::splat(1.0);
        return RowMargins {
            bolt_shear_burst: none,
            bearing_yield: none,
            bearing_burst: none,
            shear_out_burst: none,
            net_section_yield: none,
            net_section_burst: none,
            seal_gap: none,
        };
    }
    let (bolts, metal) = (&closure.bolts, &tank.liner.metal);
    let unit = per_pressure(closure, size);
    let [here, there] = loads
        .grows
        .map(|[pressure, axial]| wall_growth(form, tank, size, axial, pressure));
    let gap = bolts.seal_gap + here.max(there);
    RowMargins {
        bolt_shear_burst: bolts.shear_strength / (unit.bolt_shear * loads.burst) - 1.0,
        bearing_yield: bolts.bearing_yield_strength / (unit.bearing * loads.proof) - 1.0,
        bearing_burst: bolts.bearing_ultimate_strength / (unit.bearing * loads.burst) - 1.0,
        shear_out_burst: bolts.wall_shear_strength / (unit.shear_out * loads.burst) - 1.0,
        net_section_yield: metal.yield_strength / (unit.net_section * loads.proof) - 1.0,
        net_section_burst: metal.ultimate_strength / (unit.net_section * loads.burst) - 1.0,
        seal_gap: bolts.largest_seal_gap / gap - 1.0,
    }
}
