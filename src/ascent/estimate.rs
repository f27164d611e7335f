//! The ascent in closed form, from its flight.

use super::closed_form::{
    burn_distance, burn_speed, coast_height, drag_factor, drag_free_coast, drag_free_distance,
    drag_free_speed,
};
use super::flight::{Course, Flight};
use crate::numerics::Real;

/// Share of the drag-free coast at which its density is taken. Own choice.
const COAST_SHARE: f64 = 0.1;

/// What the closed forms make of an ascent. Altitudes are above the launch site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<R> {
    /// Speed at the end of thrust, m/s.
    pub burnout_speed: R,
    /// Altitude at the end of thrust, m.
    pub burnout_altitude: R,
    /// Largest altitude, m.
    pub apogee: R,
}

/// Estimates burnout and apogee by closed forms, without iteration.
///
/// 1. Thrust `T` is the mean thrust at site pressure, gravity that of the site; in the burn it takes
///    its part along the rail, `g sin(elevation)`.
/// 2. [`drag_free_speed`] and [`drag_free_distance`] with `c = T t / (m0 - m1)`.
/// 3. Burn: [`burn_speed`] and [`burn_distance`] at mean mass, with density and speed of sound at
///    half the altitude of 2 and the power-on drag coefficient at half its speed.
/// 4. Coast: [`coast_height`] of the vertical part of the burnout speed at burnout mass, with the
///    power-off drag coefficient at the burnout speed and the density one tenth up the
///    [`drag_free_coast`].
///
/// For an inclined rail the direction stays that of the rail up to burnout, and the drag of the
/// coast sees the vertical speed only: too high, the more so the lower the rail.
///
/// Where the density and the drag coefficient are taken is our own choice.
///
/// Known error, against the full ascent of the three packaged examples (burnout at 2 km and Mach
/// 1.6), vertical: burnout speed about 3 % low, burnout altitude 5 % high, apogee within 0.6 %, which
/// is better than its parts because the share in step 4 was chosen on these three. From a rail at 80
/// degrees: apogee 3 to 4 % high; at 70 degrees 15 %, at 60 degrees 37 %, at 45 degrees twice as high.
/// The mean mass takes away speed where much of the mass is
/// propellant: for the packaged V-2 case (lift-off 3.1 times the burnout mass, thrust that grows
/// with altitude) burnout speed is 9 % low, burnout altitude 25 % high, apogee 13 % low.
///
/// ```
/// use hoopline::airframe::{DragTable, GivenDrag, stated_drag};
/// use hoopline::ascent::{AirModel, Course, Flight, Grid, closed_form::estimate};
/// use hoopline::motor::{Curve, Drive};
/// let table = DragTable::new(&[(0.0, 0.4), (10.0, 0.4)])?;
/// let flight = Flight {
///     curve: &Curve::constant(),
///     drive: Drive {
///         time_scale: 5.0,
///         force_scale: 4000.0,
///         mean_thrust: 4000.0,
///         burn_time: 5.0,
///         exhaust_speed: 2000.0,
///         reference_pressure: 0.0,
///         exit_area: 0.0,
///     },
///     drag: &stated_drag(&table, &GivenDrag::on(0.2)),
///     air: AirModel::Standard,
///     site_altitude: 0.0,
///     course: Course::Vertical,
///     elevation: std::f64::consts::FRAC_PI_2,
///     rail_length: 6.0,
///     lift_off_mass: 60.0,
///     mass_ahead: 0.0,
///     grid: Grid::Trade,
/// };
/// let quick = estimate(&flight);
/// let full = hoopline::ascent::fly(&flight);
/// assert!((quick.apogee / full.apogee - 1.0).abs() < 0.1);
/// # Ok::<(), hoopline::error::Error>(())
/// ```
pub fn estimate<R: Real>(flight: &Flight<'_, R>) -> Estimate<R> {
    let drive = &flight.drive;
    let incline = match flight.course {
        Course::Vertical => R::splat(1.0),
        Course::Inclined => flight.elevation.sin(),
    };
    let gravity = flight.gravity(flight.site_altitude);
    let pull = gravity * incline;
    let time = drive.burn_time;
    let relief = (drive.reference_pressure - flight.surface_pressure()) * drive.exit_area;
    let thrust = drive.mean_thrust + relief;
    let lift_off = flight.lift_off_mass;
    let burnout = flight.burnout_mass();
    let exhaust_speed = thrust * time / (lift_off - burnout);

    let free_speed = drag_free_speed(exhaust_speed, lift_off, burnout, pull, time);
    let free_distance = drag_free_distance(exhaust_speed, lift_off, burnout, pull, time);
    let resistance = |altitude: R, speed: R, power: f64, mass: R| {
        let air = flight.air_at(flight.site_altitude + altitude);
        let mach = speed / air.sound_speed;
        let power = R::splat(power);
        let coefficient = flight.drag.coefficient(mach, air.unit_reynolds, power);
        drag_factor(air.density, coefficient * flight.drag.reference_area, mass)
    };
    let mean_mass = (lift_off + burnout) * 0.5;
    let in_burn = resistance(
        free_distance * incline * 0.5,
        free_speed * 0.5,
        1.0,
        mean_mass,
    );
    let acceleration = thrust / mean_mass - pull;
    let burnout_speed = burn_speed(acceleration, in_burn, time);
    let burnout_altitude = burn_distance(acceleration, in_burn, time) * incline;

    let climb = burnout_speed * incline;
    let above = burnout_altitude + drag_free_coast(climb, gravity) * COAST_SHARE;
    let in_coast = resistance(above, burnout_speed, 0.0, burnout);
    Estimate {
        burnout_speed,
        burnout_altitude,
        apogee: burnout_altitude + coast_height(climb, in_coast, gravity),
    }
}
