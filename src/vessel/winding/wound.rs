//! The whole wrap as it is wound.

use super::dome::Dome;
use super::liner::{elastic_collapse_pressure, tension_pressure};
use super::ply::{Band, Place, WoundPly, helical, hoop};
use crate::vessel::{
    ClosureKind, Dimensions, PlyKind, Tank, TankForm, closure_area, closure_depth, tube_length,
};
use std::f64::consts::PI;

/// The wrap as it is wound.
#[derive(Debug, Clone, PartialEq)]
pub struct Wound {
    /// The plies, from the liner outwards.
    pub plies: Vec<WoundPly>,
    /// Pressure of the winding tension on a liner that does not give, Pa.
    pub tension_pressure: f64,
    /// Elastic collapse pressure of the bare liner's minimum wall, taken as a long tube, Pa.
    pub collapse_pressure: f64,
    /// Length over which a weld bead has to run out for hoop bands to hold on its flank, m: its height over the
    /// slippage coefficient. On the flank a band along the parallel has `k_g / k_n` equal to its slope.
    pub bead_run_out: f64,
    /// Length of consolidation tape for one layer over all that is wound, m; none without tape.
    pub tape_length: f64,
}

/// Winds a tank's overwrap. Domes are those of the closures' kinds, with the ply's middle for their rim: a
/// closure thicker than the liner, and the build-up of the plies below, are not seen.
pub fn wind(form: &TankForm, tank: &Tank<f64>, size: &Dimensions<f64>) -> Wound {
    let wrap = &tank.overwrap;
    let given = &wrap.winding;
    let band = Band {
        width: given.band_width,
        fibre_section: given.tows_per_band * given.tow_linear_density / wrap.fibre.density,
        slippage_coefficient: given.slippage_coefficient,
        bead_height: given.bead_height,
        laminate_per_fibre: wrap.laminate(1.0),
    };
    let turning = [
        given.fore_polar_opening_radius,
        given.aft_polar_opening_radius,
    ]
    .map(|opening| opening + 0.5 * band.width);
    let closures = form.closures(tank);
    let tube = tube_length(form, tank, size);
    let mut inside = size.liner_outer_diameter * 0.5;
    let mut plies = Vec::with_capacity(form.plies);
    for (ply, kind) in form.wound(wrap) {
        let laminate = wrap.laminate(ply.fibre_thickness);
        let place = Place {
            radius: inside + laminate * 0.5,
            cylinder_length: tube,
            angle: ply.angle,
            fibre_thickness: ply.fibre_thickness,
        };
        plies.push(match kind {
            PlyKind::Hoop => hoop(&place, &band),
            PlyKind::Helical => {
                let domes = closures.map(|(kind, closure)| match kind {
                    ClosureKind::Isotensoid => {
                        Dome::isotensoid(place.radius, closure.turning_radius_ratio)
                    }
                    kind => {
                        let depth = closure_depth(kind, closure, place.radius * 2.0);
                        Dome::ellipsoid(place.radius, depth)
                    }
                });
                helical(&place, &band, domes, turning)
            }
        });
        inside += laminate;
    }
    let radii: Vec<f64> = plies.iter().map(|ply| ply.radius).collect();
    let metal = &tank.liner.metal;
    let over_closures = if form.has_helical() {
        closures
            .map(|(kind, closure)| closure_area(kind, closure, size.outer_diameter))
            .iter()
            .sum()
    } else {
        0.0
    };
    let surface = PI * size.outer_diameter * tube + over_closures;
    let fresh = given.tape_width * (1.0 - given.tape_overlap);
    Wound {
        tension_pressure: tension_pressure(form, wrap, &radii),
        collapse_pressure: elastic_collapse_pressure(
            metal.elastic_modulus,
            metal.poisson_ratio,
            size.minimum_wall,
            size.mean_radius(),
        ),
        bead_run_out: given.bead_height / given.slippage_coefficient,
        tape_length: if fresh > 0.0 { surface / fresh } else { 0.0 },
        plies,
    }
}
