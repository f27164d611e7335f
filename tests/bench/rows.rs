//! What the timed runs keep of an ascent.

use crate::batch::Kept;
use hoopline::ascent::Trajectory;
use hoopline::numerics::Real;

/// Names and units of the numbers kept.
pub const COLUMNS: [&str; 8] = [
    "apogee [m]",
    "burnout altitude [m]",
    "burnout speed [m/s]",
    "apogee time [s]",
    "rail exit speed [m/s]",
    "largest dynamic pressure [Pa]",
    "largest Mach number",
    "largest axial acceleration [m/s2]",
];

/// Keeps what [`COLUMNS`] names.
pub struct Main;

impl Kept<{ COLUMNS.len() }> for Main {
    fn of<R: Real>(flown: &Trajectory<R>) -> [R; COLUMNS.len()] {
        [
            flown.apogee,
            flown.burnout_altitude,
            flown.burnout_speed,
            flown.apogee_time,
            flown.rail_exit_speed,
            flown.max_dynamic_pressure,
            flown.max_mach,
            flown.max_axial_acceleration,
        ]
    }
}
