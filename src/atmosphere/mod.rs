//! The air along the flight path, and gravity.
//!
//! Takes altitude and the day at the site; hands air and gravity to `ascent` and to pressures. In reading
//! order: this file, `exact`, `table`, `off_standard`.
//!
//! [`standard`] is the U.S. Standard Atmosphere 1976, read from a table built from the defining
//! constants in [`exact`]; [`OffStandard`] is the same on a day whose temperature and pressure at the
//! site were read; [`exponential`] is the two-parameter atmosphere of textbook cases.

pub mod exact;
mod off_standard;
mod table;

pub use off_standard::{Day, OffStandard};

use crate::numerics::{EvenPlace, Real};
use crate::quantity::slots;
use exact::{HIGHEST_ALTITUDE, HIGHEST_GEOPOTENTIAL, LAYERS, LOWEST_ALTITUDE};

/// Standard acceleration of gravity, m/s2 (U.S. Standard Atmosphere 1976, table of constants).
pub const STANDARD_GRAVITY: f64 = 9.80665;
/// Effective radius of the Earth in the geopotential of the U.S. Standard Atmosphere 1976, m.
pub const EARTH_RADIUS: f64 = 6_356_766.0;

/// Geometric altitudes at which the temperature gradient of the standard atmosphere jumps, m.
pub(crate) const LAYER_LIMITS: [f64; LAYERS.len() - 1] = {
    let mut limits = [0.0; LAYERS.len() - 1];
    let mut k = 0;
    while k < limits.len() {
        let geopotential = LAYERS[k + 1].0;
        limits[k] = EARTH_RADIUS * geopotential / (EARTH_RADIUS - geopotential);
        k += 1;
    }
    limits
};

/// State of the air at one altitude.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air<R> {
    /// Temperature, K.
    pub temperature: R,
    /// Pressure, Pa absolute.
    pub pressure: R,
    /// Density, kg/m3.
    pub density: R,
    /// Change of density with geometric altitude, kg/m4.
    pub density_slope: R,
    /// Speed of sound, m/s.
    pub sound_speed: R,
    /// Decimal logarithm of the unit Reynolds number at Mach 1 (density x sound speed / dynamic
    /// viscosity, 1/m).
    pub unit_reynolds: R,
}

slots! {
    /// An atmosphere whose density and pressure each fall exponentially, as textbook cases use it.
    pub struct Exponential<R> {
        /// Density at the surface
        surface_density: Density [0.01, 100.0], ExponentialAtmosphere;
        /// Pressure at the surface
        surface_pressure: AbsolutePressure [100.0, 1.0e7], ExponentialAtmosphere;
        /// Altitude over which the density falls by the factor e
        density_scale_height: Altitude [100.0, 1.0e5], ExponentialAtmosphere;
        /// Altitude over which the pressure falls by the factor e
        pressure_scale_height: Altitude [100.0, 1.0e5], ExponentialAtmosphere;
        /// Radius of the planet, for the fall of gravity with altitude
        planet_radius: Altitude [1.0e5, 1.0e12], ExponentialAtmosphere;
    }
}

/// The U.S. Standard Atmosphere 1976 at a geometric altitude above sea level, m.
///
/// Valid from -5 km to 86 km; lower altitudes take the values at -5 km. Above 86 km density,
/// pressure and density slope are zero and the other quantities keep their values at 86 km: the
/// density there is 7e-6 kg/m3, so what is left out does not show in an apogee. Temperature is the
/// molecular-scale temperature, which differs from the kinetic one by less than 0.05 % and only
/// above 80 km.
///
/// Source: "U.S. Standard Atmosphere, 1976", NOAA-S/T 76-1562; cubic interpolation in cells of
/// 125 m of geopotential altitude departs from [`exact::air`] by less than 1e-9 of each quantity.
///
/// ```
/// let air = hoopline::atmosphere::standard(5_000.0);
/// assert!((air.temperature - 255.68).abs() < 0.01);
/// ```
pub fn standard<R: Real>(altitude: R) -> Air<R> {
    let Stream {
        pressure,
        density,
        density_slope,
        unit_reynolds,
        ..
    } = standard_stream(altitude);
    let [temperature, sound_speed, ..] = table::WARMTH.values(&place(altitude));
    Air {
        temperature,
        pressure,
        density,
        density_slope,
        sound_speed,
        unit_reynolds,
    }
}

/// What a flight takes from the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stream<R> {
    /// Pressure, Pa absolute.
    pub pressure: R,
    /// Density, kg/m3.
    pub density: R,
    /// Change of density with geometric altitude, kg/m4.
    pub density_slope: R,
    /// One over the speed of sound, s/m.
    pub per_sound_speed: R,
    /// Decimal logarithm of the unit Reynolds number at Mach 1, 1/m.
    pub unit_reynolds: R,
}

impl<R: Real> From<Air<R>> for Stream<R> {
    fn from(air: Air<R>) -> Self {
        Self {
            pressure: air.pressure,
            density: air.density,
            density_slope: air.density_slope,
            per_sound_speed: R::splat(1.0) / air.sound_speed,
            unit_reynolds: air.unit_reynolds,
        }
    }
}

/// The part of [`standard`] that a flight takes, from the same table.
///
/// ```
/// use hoopline::atmosphere::{standard, standard_stream};
/// let (air, stream) = (standard(5_000.0), standard_stream(5_000.0));
/// assert_eq!(stream.density, air.density);
/// assert!((stream.per_sound_speed * air.sound_speed - 1.0).abs() < 1e-9);
/// ```
#[inline(always)]
pub fn standard_stream<R: Real>(altitude: R) -> Stream<R> {
    let place = place(altitude);
    let (table, zero) = (&*table::STREAM, R::splat(0.0));
    let [density, per_sound_speed, unit_reynolds, pressure] = table.values(&place);
    let [thinning, ..] = table.slopes(&place);
    let absent = altitude.above(HIGHEST_ALTITUDE);
    let outside = absent | altitude.below(LOWEST_ALTITUDE);
    Stream {
        pressure: zero.select(pressure, absent),
        density: zero.select(density, absent),
        density_slope: zero.select(thinning * stretch(altitude).squared(), outside),
        per_sound_speed,
        unit_reynolds,
    }
}

/// Where an altitude lies in the tables.
#[inline(always)]
fn place<R: Real>(altitude: R) -> EvenPlace<R> {
    // R h / (R + h), written so that it holds at any height.
    let geopotential = (R::splat(1.0) - stretch(altitude)) * EARTH_RADIUS;
    table::STREAM.place(geopotential.min(R::splat(HIGHEST_GEOPOTENTIAL)))
}

/// Earth's radius over the distance from its centre: the root of the derivative of geopotential
/// altitude. Held below the lowest altitude.
#[inline(always)]
fn stretch<R: Real>(altitude: R) -> R {
    R::splat(EARTH_RADIUS) / (altitude.max(R::splat(LOWEST_ALTITUDE)) + EARTH_RADIUS)
}

/// Acceleration of gravity, m/s2, at an altitude above sea level, m: [`gravity`] with the constants of
/// the U.S. Standard Atmosphere 1976, held below the lowest altitude.
///
/// ```
/// use hoopline::atmosphere::{EARTH_RADIUS, STANDARD_GRAVITY, standard_gravity};
/// assert_eq!(standard_gravity(EARTH_RADIUS), STANDARD_GRAVITY / 4.0);
/// ```
#[inline(always)]
pub fn standard_gravity<R: Real>(altitude: R) -> R {
    stretch(altitude).squared() * STANDARD_GRAVITY
}

/// An exponential atmosphere at an altitude above the surface, m.
///
/// The temperature is that of dry air at this pressure and density, the speed of sound
/// `sqrt(1.4 p / rho)`; viscosity follows Sutherland's law with the constants of the U.S. Standard
/// Atmosphere 1976.
///
/// ```
/// use hoopline::atmosphere::{Exponential, exponential};
/// let model = Exponential {
///     surface_density: 1.225,
///     surface_pressure: 101_325.0,
///     density_scale_height: 10_400.0,
///     pressure_scale_height: 8_400.0,
///     planet_radius: 6_378_388.0,
/// };
/// let air = exponential(&model, 10_400.0);
/// assert!((air.density - 1.225 / std::f64::consts::E).abs() < 1e-12);
/// ```
pub fn exponential<R: Real>(model: &Exponential<R>, altitude: R) -> Air<R> {
    let density = model.surface_density * (-altitude / model.density_scale_height).exp();
    let pressure = model.surface_pressure * (-altitude / model.pressure_scale_height).exp();
    let temperature = pressure / (density * exact::GAS_CONSTANT);
    let sound_speed = (pressure / density * exact::HEAT_CAPACITY_RATIO).sqrt();
    let viscosity = temperature * temperature.sqrt() * exact::SUTHERLAND_FACTOR
        / (temperature + exact::SUTHERLAND_TEMPERATURE);
    Air {
        temperature,
        pressure,
        density,
        density_slope: -density / model.density_scale_height,
        sound_speed,
        unit_reynolds: (density * sound_speed / viscosity).log10(),
    }
}

/// Acceleration of gravity, m/s2, at an altitude above a sphere of the given radius, both in m.
///
/// Source: "U.S. Standard Atmosphere, 1976", NOAA-S/T 76-1562, equation 17 (number from memory).
///
/// ```
/// use hoopline::atmosphere::{EARTH_RADIUS, STANDARD_GRAVITY, gravity};
/// assert_eq!(gravity(STANDARD_GRAVITY, EARTH_RADIUS, EARTH_RADIUS), STANDARD_GRAVITY / 4.0);
/// ```
pub fn gravity<R: Real>(surface_gravity: f64, radius: R, altitude: R) -> R {
    (radius / (radius + altitude)).squared() * surface_gravity
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::{Dual, Lanes};

    fn columns<R>(air: Air<R>) -> [R; 6] {
        [
            air.temperature,
            air.pressure,
            air.density,
            air.density_slope,
            air.sound_speed,
            air.unit_reynolds,
        ]
    }

    fn textbook<R: Real>() -> Exponential<R> {
        Exponential {
            surface_density: R::splat(1.225),
            surface_pressure: R::splat(101_325.0),
            density_scale_height: R::splat(10_400.0),
            pressure_scale_height: R::splat(8_400.0),
            planet_radius: R::splat(6_378_388.0),
        }
    }

    /// Central differences of every column against its derivative, off the cell edges, where the
    /// derivative of the density slope jumps a little.
    fn assert_slopes(air: impl Fn(f64) -> Air<f64>, duals: impl Fn(Dual<1>) -> Air<Dual<1>>) {
        for altitude in [-1_234.0, 37.0, 4_321.0, 15_000.0, 40_010.0, 85_000.0] {
            let step = 1.0;
            let above = columns(air(altitude + step));
            let below = columns(air(altitude - step));
            let exact = columns(duals(Dual::variable(altitude, 0)));
            for ((above, below), exact) in above.into_iter().zip(below).zip(exact) {
                let difference = (above - below) / (2.0 * step);
                approx::assert_relative_eq!(
                    exact.partials[0],
                    difference,
                    max_relative = 1e-6,
                    epsilon = exact.value.abs() * 1e-12
                );
            }
        }
    }

    #[test]
    fn derivatives_agree_with_differences() {
        assert_slopes(standard, standard);
        assert_slopes(
            |h| exponential(&textbook(), h),
            |h| exponential(&textbook(), h),
        );
    }

    #[test]
    fn density_slope_is_the_derivative_of_density() {
        for altitude in [-900.0, 0.0, 11_000.0, 33_333.0, 85_999.0] {
            let air = standard(Dual::<1>::variable(altitude, 0));
            approx::assert_relative_eq!(
                air.density.partials[0],
                air.density_slope.value,
                max_relative = 1e-14
            );
            let air = exponential(&textbook(), Dual::<1>::variable(altitude, 0));
            approx::assert_relative_eq!(
                air.density.partials[0],
                air.density_slope.value,
                max_relative = 1e-14
            );
        }
    }

    #[test]
    fn every_kind_gives_the_bits_of_a_scalar_run() {
        let altitudes = [
            -6_000.0, -1.0, 0.0, 10_999.0, 11_019.1, 30_000.0, 86_000.0, 90_000.0,
        ];
        let lanes = columns(standard(Lanes(altitudes)));
        for (lane, altitude) in altitudes.into_iter().enumerate() {
            let scalar = columns(standard(altitude)).map(f64::to_bits);
            assert_eq!(lanes.map(|column| column.0[lane].to_bits()), scalar);
            let dual = columns(standard(Dual::<2>::variable(altitude, 1)));
            assert_eq!(dual.map(|column| column.value.to_bits()), scalar);
        }
    }

    #[test]
    fn values_hold_outside_the_range_without_slope() {
        let lowest = standard(exact::LOWEST_ALTITUDE);
        for altitude in [-1.0e6, -1.0e7, f64::NEG_INFINITY] {
            let below = standard(altitude);
            assert_eq!(below.density, lowest.density);
            assert_eq!(below.sound_speed, lowest.sound_speed);
            assert_eq!(exact::air(altitude).density_slope, 0.0);
        }
        for altitude in [-1.0e6, -1.0e7, 86_000.1, 1.0e9, f64::INFINITY] {
            for column in columns(standard(Dual::<1>::variable(altitude, 0))) {
                assert_eq!(column.partials[0], 0.0);
                assert!(column.value.is_finite());
            }
        }
    }

    #[test]
    fn an_altitude_that_is_no_number_is_not_hidden() {
        for air in [standard(f64::NAN), exact::air(f64::NAN)] {
            assert!(columns(air).iter().all(|column| column.is_nan()));
        }
    }
}
