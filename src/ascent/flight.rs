//! The equations of motion and the run over the grid.

use super::lift_off::lift_off;
use super::monitor::{Monitor, Sample};
use super::step::advance;
use crate::airframe::Drag;
use crate::atmosphere::{self, Air, EARTH_RADIUS, Exponential, STANDARD_GRAVITY};
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

/// The air the flight passes through.
#[derive(Debug, Clone, Copy)]
pub enum AirModel<R> {
    /// U.S. Standard Atmosphere 1976.
    Standard,
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
    /// Length of rail that guides the vehicle, m; zero for none.
    pub rail_length: R,
    /// Mass at ignition, kg.
    pub lift_off_mass: R,
    /// Step grid.
    pub grid: Grid,
}

/// What the ascent comes to. Altitudes are above the launch site.
#[derive(Debug, Clone, Copy)]
pub struct Trajectory<R: Real> {
    /// Time at which thrust first exceeds weight, s after ignition.
    pub lift_off_time: R,
    /// Speed at the end of the rail, m/s.
    pub rail_exit_speed: R,
    /// Altitude at the end of thrust, m.
    pub burnout_altitude: R,
    /// Speed at the end of thrust, m/s.
    pub burnout_speed: R,
    /// Largest altitude, m.
    pub apogee: R,
    /// Time of apogee, s after ignition.
    pub apogee_time: R,
    /// Largest dynamic pressure, Pa.
    pub max_dynamic_pressure: R,
    /// Altitude of the largest dynamic pressure, m.
    pub max_dynamic_pressure_altitude: R,
    /// Largest Mach number.
    pub max_mach: R,
    /// Largest (thrust - drag) / mass, m/s2.
    pub max_axial_acceleration: R,
    /// Designs whose thrust never exceeds their weight.
    pub grounded: R::Mask,
    /// Designs that come to a stop before the end of thrust.
    pub stopped: R::Mask,
}

impl<R: Real> Flight<'_, R> {
    pub(crate) fn air_at(&self, altitude: R) -> Air<R> {
        match &self.air {
            AirModel::Standard => atmosphere::standard(altitude),
            AirModel::Exponential(model) => atmosphere::exponential(model, altitude),
        }
    }

    pub(super) fn gravity(&self, altitude: R) -> R {
        let radius = match &self.air {
            AirModel::Standard => R::splat(EARTH_RADIUS),
            AirModel::Exponential(model) => model.planet_radius,
        };
        atmosphere::gravity(STANDARD_GRAVITY, radius, altitude)
    }

    pub(super) fn surface_pressure(&self) -> R {
        self.air_at(self.site_altitude).pressure
    }

    pub(super) fn knot_time(&self, knot: usize) -> R {
        self.drive.time_scale * self.curve.times[knot]
    }

    pub(super) fn interval_span(&self, interval: usize) -> R {
        self.drive.time_scale * (self.curve.times[interval + 1] - self.curve.times[interval])
    }

    /// Thrust, N, at a time within an interval and an ambient pressure, and the share of full thrust
    /// (at most one). The pressure term fades with that share, so that it ends with the flow.
    pub(super) fn thrust(&self, interval: usize, within: R, pressure: R) -> (R, R) {
        let at_basis = self.basis_thrust(interval, within);
        let share = (at_basis / self.drive.mean_thrust).min(R::splat(1.0));
        let relief = (self.drive.reference_pressure - pressure) * self.drive.exit_area;
        (at_basis + relief * share, share)
    }

    fn basis_thrust(&self, interval: usize, within: R) -> R {
        let forces = &self.curve.forces;
        let start = self.drive.force_scale * forces[interval];
        let rise = self.drive.force_scale * (forces[interval + 1] - forces[interval]);
        start + rise * (within / self.interval_span(interval))
    }

    /// Mass at a time within an interval: the impulse spent so far over the exhaust speed.
    pub(super) fn mass_at(&self, interval: usize, within: R) -> R {
        let scale = self.drive.force_scale * self.drive.time_scale;
        let start = self.drive.force_scale * self.curve.forces[interval];
        let spent = scale * self.curve.impulses[interval]
            + (start + self.basis_thrust(interval, within)) * within * 0.5;
        self.lift_off_mass - spent / self.drive.exhaust_speed
    }

    /// The flight at one instant.
    fn sample(
        &self,
        time: R,
        altitude: R,
        speed: R,
        mass: R,
        thrust: impl Fn(R) -> (R, R),
    ) -> Sample<R> {
        let air = self.air_at(altitude);
        let (force, power) = thrust(air.pressure);
        let mach = speed / air.sound_speed;
        let dynamic_pressure = air.density * speed * speed * 0.5;
        let coefficient = self.drag.coefficient(mach, air.unit_reynolds, power);
        let drag = dynamic_pressure * coefficient * self.drag.reference_area;
        let axial = (force - drag) / mass;
        let acceleration = axial - self.gravity(altitude);
        Sample {
            time,
            altitude,
            speed,
            acceleration,
            axial,
            mach,
            dynamic_pressure,
            pressure_rate: air.density * speed * acceleration
                + air.density_slope * speed.cubed() * 0.5,
        }
    }
}

/// Flies the ascent.
pub fn fly<R: Real>(flight: &Flight<'_, R>) -> Trajectory<R> {
    let zero = R::splat(0.0);
    let (burn_steps, coast_steps) = flight.grid.steps();
    let (lift_off_time, grounded) = lift_off(flight);
    let mut stopped = zero.lt(zero);

    let mut sample = flight.sample(
        lift_off_time,
        flight.site_altitude,
        zero,
        flight.lift_off_mass,
        |_| (zero, zero),
    );
    let mut monitor = Monitor::new(&sample, flight.site_altitude + flight.rail_length);
    for interval in 0..flight.curve.intervals() {
        let knot = flight.knot_time(interval);
        let begin = (lift_off_time - knot)
            .max(zero)
            .min(flight.interval_span(interval));
        let steps = flight.curve.steps(interval, burn_steps);
        let step = (flight.interval_span(interval) - begin) / steps as f64;
        let at = |within: R, [altitude, speed]: [R; 2]| {
            flight.sample(
                knot + within,
                altitude,
                speed,
                flight.mass_at(interval, within),
                |pressure| flight.thrust(interval, within, pressure),
            )
        };
        sample = at(begin, [sample.altitude, sample.speed]);
        for k in 0..steps {
            let within = begin + step * k as f64;
            let state = advance(
                within,
                [sample.altitude, sample.speed],
                step,
                [sample.speed, sample.acceleration],
                |within, state| {
                    let moving = at(within, state);
                    [moving.speed, moving.acceleration]
                },
            );
            let next = at(within + step, state);
            monitor.observe(&sample, &next);
            sample = next;
            stopped = stopped | sample.speed.below(-1e-6);
        }
    }

    let (burnout_altitude, burnout_speed) = (sample.altitude, sample.speed);
    let mass = flight.mass_at(
        flight.curve.intervals() - 1,
        flight.interval_span(flight.curve.intervals() - 1),
    );
    let at = |speed: R, [altitude, time]: [R; 2]| {
        flight.sample(time, altitude, speed, mass, |_| (zero, zero))
    };
    // Stopped designs coast from rest, so that their lanes stay finite.
    let start_speed = burnout_speed.max(zero);
    let step = -(start_speed / coast_steps as f64);
    sample = at(start_speed, [burnout_altitude, sample.time]);
    for k in 0..coast_steps {
        let speed = start_speed + step * k as f64;
        let state = advance(
            speed,
            [sample.altitude, sample.time],
            step,
            [
                speed / sample.acceleration,
                R::splat(1.0) / sample.acceleration,
            ],
            |speed, state| {
                let moving = at(speed, state);
                [
                    speed / moving.acceleration,
                    R::splat(1.0) / moving.acceleration,
                ]
            },
        );
        let next = at(start_speed + step * (k + 1) as f64, state);
        monitor.observe(&sample, &next);
        sample = next;
    }

    Trajectory {
        lift_off_time,
        rail_exit_speed: monitor.rail_exit_speed,
        burnout_altitude: burnout_altitude - flight.site_altitude,
        burnout_speed,
        apogee: sample.altitude - flight.site_altitude,
        apogee_time: sample.time,
        max_dynamic_pressure: monitor.max_dynamic_pressure,
        max_dynamic_pressure_altitude: monitor.max_dynamic_pressure_altitude - flight.site_altitude,
        max_mach: monitor.max_mach,
        max_axial_acceleration: monitor.max_axial,
        grounded,
        stopped,
    }
}
