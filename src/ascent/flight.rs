//! The equations of motion.

use super::leg::Leg;
use super::monitor::Sample;
use crate::airframe::Drag;
use crate::atmosphere::{
    self, Air, EARTH_RADIUS, Exponential, OffStandard, STANDARD_GRAVITY, Stream,
};
use crate::motor::{Curve, Drive};
use crate::numerics::Real;
use crate::quantity::choice;

choice! {
    /// How fine the step grid is. Presets of our own.
    pub enum Grid {
        /// 16 steps in the burn, 28 in the coast, a twentieth of a Mach number each where the drag is steep: of
        /// 3000 vehicles at random, with apogees up to 80 km and thrust of 1.5 to 20 times the weight, 99 %
        /// within 0.1 m of an integrator from elsewhere, all within 0.5 m.
        Trade = "trade",
        /// 128 steps in the burn, 192 in the coast, 0.008 Mach numbers each where the drag is steep: of the same
        /// vehicles 99 % within a millimetre, all within five.
        Fine = "fine",
    }
}

/// Number of steps of a flight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// In the burn, at least: none is longer than this part of it, and every interval of the thrust curve
    /// has one of its own.
    pub burn: usize,
    /// In the coast, an even number.
    pub coast: usize,
    /// Most Mach numbers that a step of the burn passes where the drag is steep.
    pub mach: f64,
}

impl Grid {
    fn steps(self) -> Steps {
        let (burn, coast, mach) = match self {
            Self::Trade => (16, 28, 0.05),
            Self::Fine => (128, 192, 0.008),
        };
        Steps { burn, coast, mach }
    }

    /// Estimated error of the apogee, m, from which on the steps are doubled. The estimate is mostly ten
    /// times the error and more, so that this lies above what the preset promises.
    pub fn tolerance(self) -> f64 {
        match self {
            Self::Trade => 0.6,
            Self::Fine => 0.006,
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

impl<R: Real> AirModel<R> {
    fn lane(&self, lane: usize) -> AirModel<f64> {
        match self {
            Self::Standard => AirModel::Standard,
            Self::OffStandardDay(day) => AirModel::OffStandardDay(day.lane(lane)),
            Self::Exponential(model) => AirModel::Exponential(Exponential {
                surface_density: model.surface_density.lane(lane),
                surface_pressure: model.surface_pressure.lane(lane),
                density_scale_height: model.density_scale_height.lane(lane),
                pressure_scale_height: model.pressure_scale_height.lane(lane),
                planet_radius: model.planet_radius.lane(lane),
            }),
        }
    }
}

impl<'a, R: Real> Flight<'a, R> {
    /// That of one lane, with its drag.
    pub(super) fn lane<'b>(&self, lane: usize, drag: &'b Drag<'b, f64>) -> Flight<'b, f64>
    where
        'a: 'b,
    {
        Flight {
            curve: self.curve,
            drive: self.drive.lane(lane),
            drag,
            air: self.air.lane(lane),
            site_altitude: self.site_altitude.lane(lane),
            course: self.course,
            elevation: self.elevation.lane(lane),
            rail_length: self.rail_length.lane(lane),
            lift_off_mass: self.lift_off_mass.lane(lane),
            mass_ahead: self.mass_ahead.lane(lane),
            grid: self.grid,
        }
    }

    pub(crate) fn air_at(&self, altitude: R) -> Air<R> {
        match &self.air {
            AirModel::Standard => atmosphere::standard(altitude),
            AirModel::OffStandardDay(day) => day.air(altitude),
            AirModel::Exponential(model) => atmosphere::exponential(model, altitude),
        }
    }

    /// What the flight takes from the air.
    #[inline(always)]
    pub(super) fn stream_at(&self, altitude: R) -> Stream<R> {
        match &self.air {
            AirModel::Standard => atmosphere::standard_stream(altitude),
            AirModel::OffStandardDay(day) => day.stream(altitude),
            AirModel::Exponential(_) => self.air_at(altitude).into(),
        }
    }

    /// Altitudes at which the gradient of the temperature jumps, m above sea level.
    pub(super) fn air_limits(&self) -> &'static [f64] {
        match &self.air {
            AirModel::Standard | AirModel::OffStandardDay(_) => &atmosphere::LAYER_LIMITS,
            AirModel::Exponential(_) => &[],
        }
    }

    pub(super) fn planet_radius(&self) -> R {
        match &self.air {
            AirModel::Standard | AirModel::OffStandardDay(_) => R::splat(EARTH_RADIUS),
            AirModel::Exponential(model) => model.planet_radius,
        }
    }

    #[inline(always)]
    pub(super) fn gravity(&self, altitude: R) -> R {
        match &self.air {
            AirModel::Standard | AirModel::OffStandardDay(_) => {
                atmosphere::standard_gravity(altitude)
            }
            AirModel::Exponential(model) => {
                atmosphere::gravity(STANDARD_GRAVITY, model.planet_radius, altitude)
            }
        }
    }

    /// Speed of a circular orbit at an altitude, squared.
    pub(super) fn circular_speed_squared(&self, altitude: R) -> R {
        self.gravity(altitude) * (self.planet_radius() + altitude)
    }

    pub(crate) fn surface_pressure(&self) -> R {
        self.air_at(self.site_altitude).pressure
    }

    /// The steps of its grid, doubled `doublings` times.
    pub(crate) fn steps(&self, doublings: u32) -> Steps {
        let Steps { burn, coast, mach } = self.grid.steps();
        Steps {
            burn: burn << doublings,
            coast: coast << doublings,
            mach: mach / f64::from(1u32 << doublings),
        }
    }

    /// The interval of the thrust curve of a number, which may differ from design to design.
    pub(crate) fn leg(&self, interval: R) -> Leg<R> {
        Leg::new(self.curve, &self.drive, self.lift_off_mass, interval)
    }

    /// Mass at the end of thrust.
    pub(super) fn burnout_mass(&self) -> R {
        let last = self.leg(R::splat((self.curve.intervals() - 1) as f64));
        last.mass(last.span)
    }

    /// What pushes and brakes at a speed in the air of an altitude.
    #[inline(always)]
    pub(super) fn push(
        &self,
        air: &Stream<R>,
        speed: R,
        mass: R,
        thrust: Thrust<'_, R>,
    ) -> Push<R> {
        let mach = speed * air.per_sound_speed;
        let dynamic_pressure = air.density * speed * speed * 0.5;
        let (force, coefficient) = match thrust {
            Thrust::None => (R::splat(0.0), self.drag.coasting(mach, air.unit_reynolds)),
            Thrust::Of(leg, within) => {
                let (force, share) = leg.thrust(within, air.pressure);
                (force, self.drag.coefficient(mach, air.unit_reynolds, share))
            }
        };
        let drag = dynamic_pressure * coefficient * self.drag.reference_area;
        Push {
            axial: (force - drag) / mass,
            force,
            mach,
            dynamic_pressure,
        }
    }

    /// The flight at one instant.
    #[inline(always)]
    pub(super) fn sample(&self, motion: Motion<R>, thrust: Thrust<'_, R>) -> Sample<R> {
        let Motion {
            time,
            altitude,
            speed,
            climb,
            pull,
            mass,
        } = motion;
        let stream = self.stream_at(altitude);
        let Push {
            axial,
            force,
            mach,
            dynamic_pressure,
        } = self.push(&stream, speed, mass, thrust);
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
            pressure_rate: stream.density * speed * acceleration
                + stream.density_slope * (speed.squared() * climb) * 0.5,
        }
    }
}

/// What thrust there is.
#[derive(Debug, Clone, Copy)]
pub(super) enum Thrust<'a, R> {
    None,
    /// In an interval of the curve, at a time within it.
    Of(&'a Leg<R>, R),
}

/// Forces along the path.
#[derive(Debug, Clone, Copy)]
pub(super) struct Push<R> {
    /// (thrust - drag) / mass, m/s2.
    pub axial: R,
    /// Thrust, N.
    pub force: R,
    pub mach: R,
    /// Dynamic pressure, Pa.
    pub dynamic_pressure: R,
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
