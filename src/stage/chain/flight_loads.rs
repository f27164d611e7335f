//! Load cases that the ascent brings to the tank: liquid head and thrust.

use super::form::{Form, TankSide};
use super::outcome::{FlightLoads, Load, Pressures};
use super::point::Point;
use super::vehicle::Vehicle;
use crate::ascent::Trajectory;
use crate::fluid::nitrous_oxide;
use crate::numerics::Real;
use crate::vessel::{Dimensions, closure_depth, closure_volume};
use std::f64::consts::PI;

/// What the tank bears in flight.
///
/// MEOP is the pressure at the top of the tank. By the standards' definition it includes the "fluid head
/// due to vehicle quasi-steady and dynamic accelerations" (SMC-S-016, 2014, clause 3.24; ECSS-E-ST-32C
/// Rev. 1, note 3, alike); here the head stands apart, because it acts on the aft end only, and is added
/// there. It is quasi-steady (no ignition transient, water hammer or slosh, which those definitions count
/// in too) and takes the contents as at ignition under the largest acceleration of the whole flight: of
/// the liquid column with the vapour above it at the fill temperature, and the mean density over the
/// whole inside length that a tank soaked full of liquid has, the larger.
pub(super) fn flight_loads<R: Real>(
    form: &Form,
    side: &TankSide,
    point: &Point<R>,
    size: &Dimensions<R>,
    load: &Load<R>,
    pressures: &Pressures<R>,
    trajectory: &Trajectory<R>,
) -> FlightLoads<R> {
    let saturated = nitrous_oxide::saturation(point.propellant.fill_temperature);
    let (liquid_column, inside) = columns(side, point, size, load.ullage);
    let as_filled = saturated.liquid_density * liquid_column
        + saturated.vapour_density * (inside - liquid_column);
    let per_area = as_filled.max(load.fill_density * inside);
    let acceleration_head = per_area * trajectory.max_axial_acceleration;
    // A skin over the tank carries the thrust past it.
    let thrust_compression = if form.skin_over_tank() {
        R::splat(0.0)
    } else {
        trajectory.max_compression
    };
    let bore = size.inner_diameter.squared() * (PI / 4.0);
    FlightLoads {
        liquid_column,
        acceleration_head,
        aft_pressure: pressures.meop + acceleration_head,
        proof_with_head: (pressures.meop + acceleration_head) * point.rule_set.proof_factor,
        thrust_compression,
        slack_pressure: thrust_compression / bore,
    }
}

/// Height of the liquid above the aft end of the bore at ignition and inside length of the tank, m, the
/// vehicle standing upright. The height is exact while the level stands in the cylinder; above it the
/// whole inside length is taken, within the aft closure its depth.
fn columns<R: Real>(side: &TankSide, point: &Point<R>, size: &Dimensions<R>, ullage: R) -> (R, R) {
    let diameter = size.inner_diameter;
    let (fore, aft) = (side.tank.fore_closure, side.tank.aft_closure);
    let (fore_closure, aft_closure) = (&point.tank.fore_closure, &point.tank.aft_closure);
    let aft_depth = closure_depth(aft, aft_closure, diameter);
    let in_aft = closure_volume(aft, aft_closure, diameter);
    let bore = diameter.squared() * (PI / 4.0);
    let liquid = size.volume * (-ullage + 1.0);
    let in_cylinder = (liquid - in_aft) / bore;
    let inside = size.cylinder_length + aft_depth + closure_depth(fore, fore_closure, diameter);
    let above = size.cylinder_length.lt(in_cylinder);
    let height = inside.select(in_cylinder.max(R::splat(0.0)) + aft_depth, above);
    (height, inside)
}

/// Structure ahead of the tank's aft end, kg: every line of the mass statement whose centre of gravity
/// lies ahead of the motor section, and the mass added at the vehicle's centre of gravity if that does.
/// Without a drawn body nothing tells where a mass is, and all of it counts.
pub(super) fn mass_ahead<R: Real>(vehicle: &Vehicle<R>, added: R) -> R {
    let Some(body) = &vehicle.body else {
        return vehicle.predicted;
    };
    let zero = R::splat(0.0);
    let ahead = |mass: R, station: R| mass.select(zero, station.lt(body.motor_station));
    let lines = vehicle.statement.lines().iter();
    lines.fold(ahead(added, vehicle.centre_of_gravity), |sum, line| {
        sum + ahead(line.predicted(), line.station)
    })
}
