//! Pressures at which the strength of cylinder, seams and closures is spent.

use super::bolt_row::row_burst;
use super::closure::closure_stress;
use super::dimensions::Dimensions;
use super::form::TankForm;
use super::seam::{girth_strength, longitudinal_strength, seam_thickness};
use super::spent::{fibre_strength, spent_pressure};
use super::tank::{Closure, Tank};
use crate::numerics::Real;

/// Pressures, Pa, at which each part bursts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Capacity<R> {
    pub hoop: R,
    pub axial: R,
    pub girth_seam: R,
    pub longitudinal_seam: R,
    pub closures: [R; 2],
}

/// Each at the minimum wall: metal and fibres add, as in [`spent_pressure`].
pub(super) fn capacity<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
) -> Capacity<R> {
    let metal = &tank.liner.metal;
    let wall = size.minimum_wall;
    let (axial_load, hoop_load) = size.loads_per_pressure();
    let (yields, breaks) = (metal.yield_strength, metal.ultimate_strength);
    let zone = (
        metal.weld_zone_yield_strength,
        metal.weld_zone_ultimate_strength,
    );
    let fibre = fibre_strength(form, tank);
    let helical = form.has_helical();
    let around = |yields: R, breaks: R| {
        let metal = if form.plies > 0 { yields } else { breaks };
        spent_pressure(
            metal * wall + fibre.hoop,
            (fibre.helical_around, fibre.helical_along),
            (hoop_load, axial_load),
        )
    };
    let along = |wall: R, yields: R, breaks: R| {
        let metal = if helical { yields } else { breaks };
        spent_pressure(
            metal * wall,
            (fibre.helical_along, fibre.helical_around),
            (axial_load, hoop_load),
        )
    };
    let girth = |parent: R, weld_zone: R| girth_strength(form, tank, parent, weld_zone);
    let longitudinal =
        |parent: R, weld_zone: R| longitudinal_strength(form, tank, parent, weld_zone);
    let throat = seam_thickness(form, tank, wall, Closure::minimum_thickness);
    Capacity {
        hoop: around(yields, breaks),
        axial: along(wall, yields, breaks),
        girth_seam: along(throat, girth(yields, zone.0), girth(breaks, zone.1)),
        longitudinal_seam: around(longitudinal(yields, zone.0), longitudinal(breaks, zone.1)),
        closures: form.closures(tank).map(|(kind, closure)| {
            let (one, nu) = (R::splat(1.0), metal.poisson_ratio);
            let plate = breaks / closure_stress(kind, closure, one, size.inner_diameter, nu);
            if kind.is_bolted() {
                plate.min(row_burst(closure, tank, size))
            } else {
                plate
            }
        }),
    }
}

/// Least pressure, Pa, at which the tank bursts, flight left out.
pub fn burst_pressure<R: Real>(form: &TankForm, tank: &Tank<R>, size: &Dimensions<R>) -> R {
    let parts = capacity(form, tank, size);
    let mut least = parts.hoop.min(parts.axial);
    if form.has_girth_seam() {
        least = least.min(parts.girth_seam);
    }
    if form.has_longitudinal_seam() {
        least = least.min(parts.longitudinal_seam);
    }
    let [fore, aft] = parts.closures;
    least.min(fore).min(aft)
}
