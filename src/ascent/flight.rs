//! The equations of motion.

use super::monitor::Sample;
use crate::airframe::Drag;
use crate::atmosphere::{self, Air, EARTH_RADIUS, Exponential, OffStandard, STANDARD_GRAVITY};
use crate::motor::{Curve, Drive};
use crate::numerics::Real;
use crate::quantity::choice;

choice! {
    /// How fine the step grid is. Presets of our own.
    pub enum Grid {
        /// 64 steps in the burn, 32 in the coast.
        Trade = "trade",
        /// 512 steps in the burn, 256 in the coast.
        Fine = "fine",
    }
}

impl Grid {
    /// Steps in the burn (at least; every thrust interval gets one or more) and in the coast.
    pub fn steps(self) -> (usize, usize) {
        match self {
            Self::Trade => (64, 32),
            Self::Fine => (512, 256),
        }
    }
}

choice! {
    /// Direction of the rail.
    pub enum Course {
        /// Straight up; the climb stays vertical.
        Vertical = "vertical",
        /// At an elevation above the horizon; gravity turns the climb.
        Inclined = "inclined",
    }
}

/// The air the flight passes through.
#[derive(Debug, Clone, Copy)]
pub enum AirModel<R> {
    /// U.S. Standard Atmosphere 1976.
    Standard,
    /// The standard with the temperature and pressure read at the site.
    OffStandardDay(OffStandard<R>),
    /// Exponential density and pressure, as in textbook cases.
    Exponential(Exponential<R>),
}

/// Everything the ascent needs to know.
#[derive(Debug, Clone)]
pub struct Flight<'a, R> {
    /// Thrust curve as given.
    pub curve: &'a Curve,
    /// Its scaling.
    pub drive: Drive<R>,
    /// Drag columns.
    pub drag: &'a Drag<'a, R>,
    /// The air.
    pub air: AirModel<R>,
    /// Launch site above sea level, m.
    pub site_altitude: R,
    /// Direction of the rail.
    pub course: Course,
    /// Angle of the rail above the horizon, rad; only read when inclined.
    pub elevation: R,
    /// Length of rail that guides the vehicle, m; zero for none. An inclined course needs one:
    /// the direction of a body at rest without a rail is undefined.
    pub rail_length: R,
    /// Mass at ignition, kg.
    pub lift_off_mass: R,
    /// Structure ahead of the section whose axial force is watched, kg, without the oxidiser: that
    /// rests on the tank's aft closure, behind the section.
    pub mass_ahead: R,
    /// Step grid.
    pub grid: Grid,
}

impl<R: Real> Flight<'_, R> {
    pub(crate) fn air_at(&self, altitude: R) -> Air<R> {
        match &self.air {
            AirModel::Standard => atmosphere::standard(altitude),
            AirModel::OffStandardDay(day) => day.air(altitude),
            AirModel::Exponential(model) => atmosphere::exponential(model, altitude),
        }
    }

    pub(super) fn planet_radius(&self) -> R {
        match &self.air {
            AirModel::Standard | AirModel::OffStandardDay(_) => R::splat(EARTH_RADIUS),
            AirModel::Exponential(model) => model.planet_radius,
        }
    }

    pub(super) fn gravity(&self, altitude: R) -> R {
        atmosphere::gravity(STANDARD_GRAVITY, self.planet_radius(), altitude)
    }

    /// Speed of a circular orbit at an altitude, squared.
    pub(super) fn circular_speed_squared(&self, altitude: R) -> R {
        self.gravity(altitude) * (self.planet_radius() + altitude)
    }

    pub(crate) fn surface_pressure(&self) -> R {
        self.air_at(self.site_altitude).pressure
    }

    pub(crate) fn knot_time(&self, knot: usize) -> R {
        self.drive.time_scale * self.curve.times[knot]
    }

    pub(crate) fn interval_span(&self, interval: usize) -> R {
        self.drive.time_scale * (self.curve.times[interval + 1] - self.curve.times[interval])
    }

    /// Thrust, N, at a time within an interval and an ambient pressure, and the share of full thrust
    /// (at most one). The pressure term fades only below a tenth of the mean thrust (own choice), so
    /// that it ends with the flow.
    pub(crate) fn thrust(&self, interval: usize, within: R, pressure: R) -> (R, R) {
        let at_basis = self.basis_thrust(interval, within);
        let share = (at_basis / self.drive.mean_thrust).min(R::splat(1.0));
        let relief = (self.drive.reference_pressure - pressure) * self.drive.exit_area;
        let flowing = (at_basis / (self.drive.mean_thrust * 0.1)).min(R::splat(1.0));
        (at_basis + relief * flowing, share)
    }

    fn basis_thrust(&self, interval: usize, within: R) -> R {
        let forces = &self.curve.forces;
        let start = self.drive.force_scale * forces[interval];
        let rise = self.drive.force_scale * (forces[interval + 1] - forces[interval]);
        start + rise * (within / self.interval_span(interval))
    }

    /// Mass at a time within an interval: the impulse spent so far over the exhaust speed.
    pub(crate) fn mass_at(&self, interval: usize, within: R) -> R {
        let scale = self.drive.force_scale * self.drive.time_scale;
        let start = self.drive.force_scale * self.curve.forces[interval];
        let spent = scale * self.curve.impulses[interval]
            + (start + self.basis_thrust(interval, within)) * within * 0.5;
        self.lift_off_mass - spent / self.drive.exhaust_speed
    }

    /// Mass at the end of thrust.
    pub(super) fn burnout_mass(&self) -> R {
        let last = self.curve.intervals() - 1;
        self.mass_at(last, self.interval_span(last))
    }

    /// The flight at one instant.
    pub(super) fn sample(&self, motion: Motion<R>, thrust: impl Fn(R) -> (R, R)) -> Sample<R> {
        let Motion {
            time,
            altitude,
            speed,
            climb,
            pull,
            mass,
        } = motion;
        let air = self.air_at(altitude);
        let (force, power) = thrust(air.pressure);
        let mach = speed / air.sound_speed;
        let dynamic_pressure = air.density * speed * speed * 0.5;
        let coefficient = self.drag.coefficient(mach, air.unit_reynolds, power);
        let drag = dynamic_pressure * coefficient * self.drag.reference_area;
        let axial = (force - drag) / mass;
        let acceleration = axial - pull;
        Sample {
            time,
            altitude,
            speed,
            climb,
            acceleration,
            axial,
            compression: force - (mass - self.mass_ahead) * axial,
            mach,
            dynamic_pressure,
            pressure_rate: air.density * speed * acceleration
                + air.density_slope * (speed.squared() * climb) * 0.5,
        }
    }
}

/// Where a design is and how it moves.
#[derive(Debug, Clone, Copy)]
pub(super) struct Motion<R> {
    pub time: R,
    pub altitude: R,
    pub speed: R,
    /// Change of altitude with time, m/s.
    pub climb: R,
    /// Gravity against the direction of flight, m/s2.
    pub pull: R,
    pub mass: R,
}

impl Flight<'_, f64> {
    /// Time within an interval at which its thrust passes the tenth of the mean below which the
    /// pressure term fades, if it does: there thrust at a pressure has a kink.
    pub(crate) fn kink(&self, interval: usize) -> Option<f64> {
        let span = self.interval_span(interval);
        let [start, end] = [0.0, span].map(|within| self.basis_thrust(interval, within));
        let share = (self.drive.mean_thrust * 0.1 - start) / (end - start);
        (share > 0.0 && share < 1.0).then_some(share * span)
    }
}
