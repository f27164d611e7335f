//! The history of one ascent: every step of the grid as it was flown.

use super::flight::{Course, Flight, Steps};
use super::monitor::Sample;
use super::record::{Record, Spot};
use crate::quantity::{Field, Slots, choice, slots};
use std::f64::consts::FRAC_PI_2;
use std::sync::LazyLock;

choice! {
    /// Part of the ascent.
    pub enum Phase {
        /// Guided by the rail.
        Rail = "rail",
        /// Free, under thrust.
        Burn = "burn",
        /// Free, after the end of thrust.
        Coast = "coast",
    }
}

slots! {
    /// The flight at one instant.
    pub struct Instant<R> {
        /// Time after ignition.
        time: Time, Always;
        /// Altitude above the launch site.
        altitude: Altitude, Always;
        /// Altitude above sea level.
        altitude_above_sea_level: Altitude, Always;
        /// Distance along the ground from the launch site, at the site's level.
        downrange: Altitude, Always;
        /// Speed along the path.
        speed: Speed, Always;
        /// Angle of the path above the local horizontal.
        path_angle: Angle, Always;
        /// Mach number.
        mach: Ratio, Always;
        /// Dynamic pressure.
        dynamic_pressure: PressureDifference, Always;
        /// Thrust at the ambient pressure of that altitude.
        thrust: Force, Always;
        /// Drag.
        drag: Force, Always;
        /// Mass, propellant left included.
        mass: Mass, Always;
        /// Acceleration that is felt along the axis: (thrust - drag) over mass.
        axial_acceleration: Acceleration, Always;
    }
}

/// The columns of a history.
pub static HISTORY: LazyLock<Vec<Field>> = LazyLock::new(|| {
    let mut fields = Vec::new();
    <Instant<f64> as Slots<f64>>::table("", 0, &mut fields);
    fields
});

/// One row of a history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Part of the ascent.
    pub phase: Phase,
    /// Its numbers.
    pub instant: Instant<f64>,
}

/// Keeps every step of one flight.
pub(super) struct Recorder<'a> {
    flight: &'a Flight<'a, f64>,
    moments: Vec<Moment>,
}

impl<'a> Recorder<'a> {
    pub fn new(flight: &'a Flight<'a, f64>, steps: Steps) -> Self {
        let most = steps.burn + steps.coast + 2 * flight.curve.intervals() + 2;
        Self {
            flight,
            moments: Vec::with_capacity(most),
        }
    }

    pub fn moments(self) -> Vec<Moment> {
        self.moments
    }

    /// The sample with what it does not carry, by the same terms: thrust, drag, mass.
    fn keep(&mut self, at: &Sample<f64>, spot: Spot<f64>) {
        let flight = self.flight;
        let air = flight.stream_at(at.altitude);
        let (mass, (thrust, power)) = match spot.burning {
            Some((interval, within)) => {
                let leg = flight.leg(interval);
                (leg.mass(within), leg.thrust(within, air.pressure))
            }
            None => (flight.burnout_mass(), (0.0, 0.0)),
        };
        let coefficient = flight.drag.coefficient(at.mach, air.unit_reynolds, power);
        self.moments.push(Moment {
            phase: self.phase(at, spot),
            instant: Instant {
                time: at.time,
                altitude: at.altitude - flight.site_altitude,
                altitude_above_sea_level: at.altitude,
                downrange: spot.ground,
                speed: at.speed,
                path_angle: self.path_angle(at, spot),
                mach: at.mach,
                dynamic_pressure: at.dynamic_pressure,
                thrust,
                drag: at.dynamic_pressure * coefficient * flight.drag.reference_area,
                mass,
                axial_acceleration: at.axial,
            },
        });
    }

    fn phase(&self, at: &Sample<f64>, spot: Spot<f64>) -> Phase {
        let flight = self.flight;
        let below = at.altitude < flight.site_altitude + flight.rail_length;
        match spot.burning {
            None => Phase::Coast,
            // Thrust holds a vertical course straight on the rail and off it.
            Some(_) if spot.guided || (flight.course == Course::Vertical && below) => Phase::Rail,
            Some(_) => Phase::Burn,
        }
    }

    fn path_angle(&self, at: &Sample<f64>, spot: Spot<f64>) -> f64 {
        match self.flight.course {
            Course::Vertical => FRAC_PI_2,
            Course::Inclined if spot.guided => self.flight.elevation,
            Course::Inclined => libm::asin((at.climb / at.speed).clamp(-1.0, 1.0)),
        }
    }
}

impl Record<f64> for Recorder<'_> {
    /// Thrust is continuous from one interval to the next, so only lift-off and the coast begin with
    /// a row of their own.
    fn begin(&mut self, at: &Sample<f64>, spot: Spot<f64>) {
        let lifts_off = self.moments.is_empty() && spot.step > 0.0;
        if lifts_off || spot.burning.is_none() {
            self.keep(at, spot);
        }
    }

    /// Before lift-off steps have no length; on the rail a design that has left it waits.
    fn step(&mut self, at: &Sample<f64>, spot: Spot<f64>) {
        let waits = self
            .moments
            .last()
            .is_none_or(|last| last.instant.time.to_bits() == at.time.to_bits());
        if !waits {
            self.keep(at, spot);
        }
    }
}
