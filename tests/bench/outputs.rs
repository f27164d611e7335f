//! Everything an ascent tells, as numbers.

use crate::batch::Kept;
use hoopline::ascent::Trajectory;
use hoopline::numerics::Real;

/// Names, in the order of [`all`]; the last four are truth values.
pub const OUTPUTS: [&str; 20] = [
    "lift-off time",
    "rail exit speed",
    "rail exit time",
    "burnout altitude",
    "burnout speed",
    "apogee",
    "apogee time",
    "apogee error",
    "grid doublings",
    "apogee speed",
    "downrange",
    "max dynamic pressure",
    "max dynamic pressure altitude",
    "max Mach",
    "max axial acceleration",
    "max compression",
    "grounded",
    "held",
    "lost",
    "stopped",
];

/// All outputs; the fields are taken apart so that a new one cannot be forgotten here.
pub fn all<R: Real>(flown: &Trajectory<R>) -> [R; OUTPUTS.len()] {
    let Trajectory {
        lift_off_time,
        rail_exit_speed,
        rail_exit_time,
        burnout_altitude,
        burnout_speed,
        apogee,
        apogee_time,
        apogee_error,
        grid_doublings,
        apogee_speed,
        downrange,
        max_dynamic_pressure,
        max_dynamic_pressure_altitude,
        max_mach,
        max_axial_acceleration,
        max_compression,
        grounded,
        held,
        lost,
        stopped,
    } = *flown;
    let truth = |mask| R::splat(1.0).select(R::splat(0.0), mask);
    [
        lift_off_time,
        rail_exit_speed,
        rail_exit_time,
        burnout_altitude,
        burnout_speed,
        apogee,
        apogee_time,
        apogee_error,
        grid_doublings,
        apogee_speed,
        downrange,
        max_dynamic_pressure,
        max_dynamic_pressure_altitude,
        max_mach,
        max_axial_acceleration,
        max_compression,
        truth(grounded),
        truth(held),
        truth(lost),
        truth(stopped),
    ]
}

/// The bits of an output. What is no number counts as one and the same: which bits such a result has is
/// left open by the language and differs with the instructions chosen. Only designs without a result come
/// to it.
pub fn bits(value: f64) -> u64 {
    if value.is_nan() { f64::NAN } else { value }.to_bits()
}

/// Keeps [`all`].
pub struct All;

impl Kept<{ OUTPUTS.len() }> for All {
    fn of<R: Real>(flown: &Trajectory<R>) -> [R; OUTPUTS.len()] {
        all(flown)
    }
}

/// Where an output stands.
pub fn output(name: &str) -> usize {
    OUTPUTS
        .iter()
        .position(|output| *output == name)
        .expect("an output")
}
