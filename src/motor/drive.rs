//! From propellant and specific impulse to thrust level and burn time.

use super::curve::Curve;
use crate::atmosphere::STANDARD_GRAVITY;
use crate::atmosphere::exact::SEA_LEVEL_PRESSURE;
use crate::numerics::Real;
use crate::quantity::{choice, slots};

choice! {
    /// Ambient pressure at which the thrust was given.
    pub enum ThrustBasis {
        /// Thrust in vacuum.
        Vacuum = "vacuum",
        /// Thrust at 101325 Pa.
        SeaLevel = "sea_level",
        /// Thrust at the pressure of the test stand.
        Stand = "stand_pressure",
    }
}

choice! {
    /// What stays when the propellant mass changes.
    pub enum ThrustRule {
        /// The mean thrust stays; the burn time follows.
        Level = "level",
        /// The burn time stays; the mean thrust follows.
        Duration = "duration",
    }
}

slots! {
    /// Numbers of the motor. Of mean thrust and burn time one is the input, by the follow rule.
    pub struct Motor<R> {
        /// Mean thrust over the burn time, at its basis.
        thrust: Force [0.1, 1e8], Always;
        /// Time from ignition to the end of thrust.
        burn_time: Time [0.01, 10000.0], Always;
        /// Impulse per weight of propellant burned, at the thrust's basis, with standard gravity.
        specific_impulse: Time [10.0, 1000.0], Always;
        /// Exit area of the nozzle; zero leaves thrust independent of ambient pressure.
        exit_area: Area [0.0, 10.0], Always;
        /// Ambient pressure at which the thrust was measured.
        stand_pressure: AbsolutePressure [0.0, 2e5], StandPressure;
        /// Length of the motor section behind the tank.
        length: Length [0.0, 30.0], Body;
        /// Outside diameter of the motor case.
        case_diameter: Length [0.0, 5.0], Body;
        /// Mass of the motor without propellant.
        mass: Mass [0.0, 100000.0], Body;
    }
}

/// The thrust curve scaled to a design.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drive<R> {
    /// Time of this design over time of the curve.
    pub time_scale: R,
    /// Thrust of this design over thrust of the curve.
    pub force_scale: R,
    /// Mean thrust, N.
    pub mean_thrust: R,
    /// Burn time, s.
    pub burn_time: R,
    /// Impulse per mass of propellant burned, m/s.
    pub exhaust_speed: R,
    /// Ambient pressure the thrust refers to, Pa absolute.
    pub reference_pressure: R,
    /// Exit area, m2.
    pub exit_area: R,
}

impl<R: Real> Drive<R> {
    /// That of one lane.
    pub fn lane(&self, lane: usize) -> Drive<f64> {
        let of = |number: R| number.lane(lane);
        Drive {
            time_scale: of(self.time_scale),
            force_scale: of(self.force_scale),
            mean_thrust: of(self.mean_thrust),
            burn_time: of(self.burn_time),
            exhaust_speed: of(self.exhaust_speed),
            reference_pressure: of(self.reference_pressure),
            exit_area: of(self.exit_area),
        }
    }
}

/// Scales the curve so that its impulse is `burned` kilograms of propellant times specific impulse.
///
/// `thrust x burn time = burned x Isp x 9.80665`: under `level` the time scales, under `duration`
/// the thrust. Mass flow follows the curve at its basis, never the pressure-corrected thrust.
pub fn drive<R: Real>(
    rule: ThrustRule,
    basis: ThrustBasis,
    curve: &Curve,
    motor: &Motor<R>,
    burned: R,
) -> Drive<R> {
    let exhaust_speed = motor.specific_impulse * STANDARD_GRAVITY;
    let impulse = burned * exhaust_speed;
    let (mean_thrust, burn_time) = match rule {
        ThrustRule::Level => (motor.thrust, impulse / motor.thrust),
        ThrustRule::Duration => (impulse / motor.burn_time, motor.burn_time),
    };
    Drive {
        time_scale: burn_time / curve.duration(),
        force_scale: mean_thrust / curve.mean(),
        mean_thrust,
        burn_time,
        exhaust_speed,
        reference_pressure: match basis {
            ThrustBasis::Vacuum => R::splat(0.0),
            ThrustBasis::SeaLevel => R::splat(SEA_LEVEL_PRESSURE),
            ThrustBasis::Stand => motor.stand_pressure,
        },
        exit_area: motor.exit_area,
    }
}
