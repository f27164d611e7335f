//! Load cases that the ascent brings to the tank: liquid head and thrust.

use super::form::{Form, TankSide};
use super::outcome::{FlightLoads, Load, Pressures};
use super::point::Point;
use super::vehicle::Vehicle;
use crate::airframe::SkinRule;
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
/// there. It is taken as the full column at ignition under the largest acceleration of the whole flight,
/// which comes when much of the liquid is gone: an upper bound.
pub(super) fn flight_loads<R: Real>(
    form: &Form,
    side: &TankSide,
    point: &Point<R>,
    size: &Dimensions<R>,
    load: &Load<R>,
    pressures: &Pressures<R>,
    trajectory: &Trajectory<R>,
) -> FlightLoads<R> {
    let density = nitrous_oxide::saturation(point.propellant.fill_temperature).liquid_density;
    let liquid_column = liquid_column(side, point, size, load.ullage);
    let acceleration_head = density * liquid_column * trajectory.max_axial_acceleration;
    // A skin over the tank carries the thrust past it.
    let past = form
        .body()
        .is_some_and(|body| body.skin_rule == SkinRule::OverTank);
    let thrust_compression = if past {
        R::splat(0.0)
    } else {
        trajectory.max_compression
    };
    let bore = size.inner_diameter.squared() * (PI / 4.0);
    FlightLoads {
        liquid_column,
        acceleration_head,
        aft_pressure: pressures.meop + acceleration_head,
        thrust_compression,
        slack_pressure: thrust_compression / bore,
    }
}

/// Height of the liquid above the aft end of the bore at ignition, m, the vehicle standing upright:
/// exact while the level stands in the cylinder; above it the whole inside length is taken, within
/// the aft closure its depth.
fn liquid_column<R: Real>(side: &TankSide, point: &Point<R>, size: &Dimensions<R>, ullage: R) -> R {
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
    inside.select(in_cylinder.max(R::splat(0.0)) + aft_depth, above)
}

/// Structure ahead of the tank's aft end, kg: every line of the mass statement whose centre of gravity
/// lies ahead of the motor section. Without a drawn body nothing tells where a mass is, and all of it
/// counts.
pub(super) fn mass_ahead<R: Real>(vehicle: &Vehicle<R>) -> R {
    let Some(body) = &vehicle.body else {
        return vehicle.predicted;
    };
    vehicle
        .statement
        .lines()
        .iter()
        .fold(R::splat(0.0), |sum, line| {
            let mass = line.basic * (line.growth + 1.0);
            sum + mass.select(R::splat(0.0), line.station.lt(body.motor_station))
        })
}
