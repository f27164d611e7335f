//! A vehicle by the ascent.

use super::physics::Vehicle;
use hoopline::ascent::{AirModel, Course, Flight, Grid, Trajectory, fly};
use hoopline::motor::{Curve, Drive};

/// The same vehicle by the ascent. The curve is given at half its time and in other units of thrust, which
/// the drive undoes.
pub fn stepped(vehicle: &Vehicle<'_>, grid: Grid) -> Trajectory<f64> {
    let (time_scale, force_scale) = (2.0, 1024.0);
    let points: Vec<(f64, f64)> = (vehicle.thrust.iter())
        .map(|(time, force)| (time / time_scale, force / force_scale))
        .collect();
    let curve = Curve::new(&points).expect("a curve");
    let course = match vehicle.elevation {
        None => Course::Vertical,
        Some(_) => Course::Inclined,
    };
    fly(&Flight {
        curve: &curve,
        drive: Drive {
            time_scale,
            force_scale,
            mean_thrust: vehicle.mean_thrust(),
            burn_time: vehicle.burn_time(),
            exhaust_speed: vehicle.exhaust_speed,
            reference_pressure: vehicle.reference_pressure,
            exit_area: vehicle.exit_area,
        },
        drag: vehicle.drag,
        air: AirModel::Standard,
        site_altitude: vehicle.site,
        course,
        elevation: vehicle.elevation.unwrap_or(90.0).to_radians(),
        rail_length: vehicle.rail,
        lift_off_mass: vehicle.mass,
        mass_ahead: 0.0,
        grid,
    })
}
