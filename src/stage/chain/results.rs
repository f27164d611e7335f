//! What the rooms hand over, laid out as results.

use super::form::TankSide;
use super::mass_lines::TankParts;
use super::outcome::{
    AirframeResult, AscentResult, DragResult, Estimate, FlightLoads, Geometry, Pressures,
    TankResult,
};
use super::point::Point;
use super::vehicle::Vehicle;
use crate::airframe::Drag;
use crate::ascent::{Flight, Trajectory, closed_form};
use crate::numerics::Real;
use crate::quantity::Slots;
use crate::vessel::fitting::Flown;
use crate::vessel::{Dimensions, Margins, VesselLoads, margins, membrane_response};

pub(super) fn tank_results<R: Real>(
    side: &TankSide,
    point: &Point<R>,
    size: &Dimensions<R>,
    parts: &TankParts<R>,
) -> (Geometry<R>, TankResult<R>) {
    let zero = R::splat(0.0);
    let geometry = Geometry {
        tank_outer_diameter: size.outer_diameter,
        liner_outer_diameter: size.liner_outer_diameter,
        liner_inner_diameter: size.inner_diameter,
        liner_wall: size.wall,
        liner_minimum_wall: size.minimum_wall,
        overwrap_thickness: size.wrap,
        tank_volume: size.volume,
        tank_length: size.length,
        cylinder_length: size.cylinder_length,
        tank_fineness_ratio: size.length / size.outer_diameter,
        nose_length: zero,
        fin_root_chord: zero,
        fin_span: zero,
    };
    let wall = size.minimum_wall;
    let (axial, hoop) = size.loads_per_pressure();
    let unit = membrane_response(&side.tank, &point.tank, wall, axial, hoop);
    let tank = TankResult {
        mass: parts.total(),
        liner_mass: parts.liner,
        closure_mass: parts.fore_closure + parts.aft_closure,
        fibre_mass: parts.fibre,
        resin_mass: parts.resin,
        liner_hoop_share: unit.liner_hoop * wall / hoop,
        liner_axial_share: unit.liner_axial * wall / axial,
    };
    (geometry, tank)
}

pub(super) fn tank_margins<R: Real>(
    side: &TankSide,
    point: &Point<R>,
    size: &Dimensions<R>,
    pressures: &Pressures<R>,
    loads: &FlightLoads<R>,
    flown: Flown<R>,
) -> Margins<R> {
    let loads = VesselLoads {
        proof: pressures.proof,
        burst: pressures.burst,
        meop: pressures.meop,
        head: loads.acceleration_head,
        compression: loads.thrust_compression,
        // A rule set asks that nothing yields at proof; what it asks of the stand holds in flight.
        yield_factor: point.rule_set.proof_factor,
        burst_factor: point.rule_set.burst_over_meop(side.burst_basis),
        flown,
    };
    margins(&side.tank, &point.tank, size, &loads)
}

pub(super) fn no_tank<R: Real>() -> (Geometry<R>, TankResult<R>, FlightLoads<R>, Margins<R>) {
    let zero = R::splat(0.0);
    (
        Geometry::uniform(zero),
        TankResult::uniform(zero),
        FlightLoads::uniform(zero),
        Margins::uniform(zero),
    )
}

pub(super) fn airframe_results<R: Real>(
    vehicle: &Vehicle<R>,
    drag: &Drag<'_, R>,
) -> AirframeResult<R> {
    let zero = R::splat(0.0);
    let drawn =
        |value: fn(&crate::airframe::Body<R>) -> R| vehicle.body.as_ref().map_or(zero, value);
    AirframeResult {
        length: drawn(|body| body.length),
        diameter: drawn(|body| body.diameter),
        frontal_diameter: drawn(|body| body.frontal_diameter),
        frontal_area: drag.reference_area,
        wetted_area: vehicle.wetted_area,
        fineness_ratio: drawn(|body| body.length / body.diameter),
        centre_of_pressure: vehicle.centre_of_pressure,
        static_margin: vehicle.static_margin,
        burnout_static_margin: vehicle.burnout_static_margin,
    }
}

/// Mach numbers of the drag coefficients among the results.
pub(in crate::stage) const SUBSONIC: f64 = 0.5;
pub(in crate::stage) const TRANSONIC: f64 = 1.1;
pub(in crate::stage) const SUPERSONIC: f64 = 2.0;

pub(super) fn drag_results<R: Real>(drag: &Drag<'_, R>, flight: &Flight<'_, R>) -> DragResult<R> {
    let unit_reynolds = flight.air_at(flight.site_altitude).unit_reynolds;
    let at = |mach| drag.coefficient(R::splat(mach), unit_reynolds, R::splat(0.0));
    DragResult {
        subsonic: at(SUBSONIC),
        transonic: at(TRANSONIC),
        supersonic: at(SUPERSONIC),
    }
}

pub(super) fn ascent_results<R: Real>(trajectory: &Trajectory<R>) -> AscentResult<R> {
    AscentResult {
        lift_off_time: trajectory.lift_off_time,
        rail_exit_speed: trajectory.rail_exit_speed,
        rail_exit_time: trajectory.rail_exit_time,
        burnout_altitude: trajectory.burnout_altitude,
        burnout_speed: trajectory.burnout_speed,
        apogee: trajectory.apogee,
        apogee_time: trajectory.apogee_time,
        apogee_error: trajectory.apogee_error,
        grid_doublings: trajectory.grid_doublings,
        max_dynamic_pressure: trajectory.max_dynamic_pressure,
        max_dynamic_pressure_altitude: trajectory.max_dynamic_pressure_altitude,
        max_mach: trajectory.max_mach,
        max_axial_acceleration: trajectory.max_axial_acceleration,
        apogee_speed: trajectory.apogee_speed,
        downrange: trajectory.downrange,
    }
}

pub(super) fn estimate_results<R: Real>(flight: &Flight<'_, R>) -> Estimate<R> {
    let quick = closed_form::estimate(flight);
    Estimate {
        burnout_speed: quick.burnout_speed,
        burnout_altitude: quick.burnout_altitude,
        apogee: quick.apogee,
    }
}
