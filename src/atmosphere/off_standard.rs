//! The air on a day that is not standard, from a thermometer and a barometer at the site.

use super::exact::{
    self, GAS_CONSTANT, HEAT_CAPACITY_RATIO, HIGHEST_ALTITUDE, HIGHEST_GEOPOTENTIAL, LAYERS,
    LOWEST_ALTITUDE, SEA_LEVEL_TEMPERATURE, SUTHERLAND_FACTOR, SUTHERLAND_TEMPERATURE,
};
use super::{Air, EARTH_RADIUS, STANDARD_GRAVITY};
use crate::numerics::Real;
use crate::quantity::slots;

slots! {
    /// What thermometer and barometer at the site say.
    pub struct Day<R> {
        /// Temperature of the air at the site, in the shade
        site_temperature: Temperature [200.0, 340.0], OffStandardDay;
        /// Pressure of the air at the site itself (station pressure): not the one reduced to sea
        /// level that weather reports and altimeter settings give
        site_pressure: AbsolutePressure [30.0e3, 115.0e3], OffStandardDay;
    }
}

/// Number of layers.
const COUNT: usize = LAYERS.len();

/// Limits of the layers, m of geopotential altitude; the last one closes the table.
const KNOTS: [f64; COUNT + 1] = knots();
const TABLES: Tables = tables();

/// What a look-up needs of each layer.
struct Tables {
    /// Standard temperature at the base, K.
    temperatures: [f64; COUNT],
    /// Temperature gradient, K/m.
    gradients: [f64; COUNT],
    /// Where there is a gradient: power of the temperature that the pressure follows; else zero.
    exponents: [f64; COUNT],
    /// Where there is none: what the pressure's logarithm gains per metre, times the temperature, K/m;
    /// else zero.
    falls: [f64; COUNT],
}

const fn knots() -> [f64; COUNT + 1] {
    let mut knots = [HIGHEST_GEOPOTENTIAL; COUNT + 1];
    let mut k = 0;
    while k < COUNT {
        knots[k] = LAYERS[k].0;
        k += 1;
    }
    knots
}

const fn tables() -> Tables {
    let mut tables = Tables {
        temperatures: [SEA_LEVEL_TEMPERATURE; COUNT],
        gradients: [0.0; COUNT],
        exponents: [0.0; COUNT],
        falls: [0.0; COUNT],
    };
    let mut k = 0;
    while k < COUNT {
        let gradient = LAYERS[k].1;
        tables.gradients[k] = gradient;
        if gradient == 0.0 {
            tables.falls[k] = -STANDARD_GRAVITY / GAS_CONSTANT;
        } else {
            tables.exponents[k] = -STANDARD_GRAVITY / (GAS_CONSTANT * gradient);
        }
        if k + 1 < COUNT {
            tables.temperatures[k + 1] =
                tables.temperatures[k] + gradient * (KNOTS[k + 1] - KNOTS[k]);
        }
        k += 1;
    }
    tables
}

/// The standard atmosphere on a warmer or colder day, with the pressure of the site.
///
/// At every geopotential altitude the temperature is that of the U.S. Standard Atmosphere 1976 plus
/// the offset found at the site; the pressure follows from the station pressure by the hydrostatic
/// equation with that temperature, and the density from the gas law. This is the usual "ISA plus so
/// many kelvin" day of aircraft performance, hydrostatic throughout; R. L. Carmichael, "Non-standard
/// atmospheres" (Public Domain Aeronautical Software, pdas.com/atmosnonstd.html), names both the
/// constant increment and its weakness: a real day's offset fades or turns round with altitude. An
/// inversion, the real tropopause and humidity (saturated air at 35 degC is about 2 % lighter) are not
/// in it.
///
/// Valid from -5 km to 86 km, beyond which it keeps to the rules of [`standard`](super::standard).
/// With the offset zero and the standard pressure at the site it departs from
/// [`exact::air`](super::exact::air) by rounding, less than 1e-12.
///
/// ```
/// use hoopline::atmosphere::{OffStandard, standard};
/// let hot = OffStandard::new(1_500.0, 303.15, 84_000.0);
/// let air = hot.air(1_500.0);
/// assert!((air.temperature - 303.15).abs() < 1e-9);
/// assert!((air.density - 84_000.0 / (287.0529 * 303.15)).abs() < 1e-6);
/// assert!(hot.air(5_000.0).density < standard(5_000.0).density);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OffStandard<R> {
    /// Departure from the standard temperature, K.
    offset: R,
    /// Temperature at the base of each layer, K, and natural logarithm of the pressure in Pa there.
    bases: [[R; 2]; COUNT],
}

/// A place within a layer.
struct Place<R> {
    temperature: R,
    /// Natural logarithm of the pressure, Pa.
    pressure: R,
    gradient: R,
}

impl<R: Real> OffStandard<R> {
    /// The day from the site's altitude above sea level (m), its temperature (K) and its station
    /// pressure (Pa absolute). One logarithm per layer; do it once per design.
    pub fn new(site_altitude: R, site_temperature: R, site_pressure: R) -> Self {
        let (site, _) = reach(site_altitude);
        let offset = site_temperature - standard_temperature(site);
        let zero = R::splat(0.0);
        let mut day = Self {
            offset,
            bases: TABLES.temperatures.map(|base| [offset + base, zero]),
        };
        // First with the logarithm of the pressure counted from sea level, then moved as a whole to
        // agree with the barometer.
        for k in 1..COUNT {
            let [base, pressure] = day.bases[k - 1];
            let rise = R::splat(KNOTS[k] - KNOTS[k - 1]);
            let top = base + rise * TABLES.gradients[k - 1];
            day.bases[k][1] = pressure
                + (top / base).ln() * TABLES.exponents[k - 1]
                + rise / base * TABLES.falls[k - 1];
        }
        let shift = site_pressure.ln() - day.place(site).pressure;
        for [_, pressure] in &mut day.bases {
            *pressure = *pressure + shift;
        }
        day
    }

    /// Departure of the temperature from the standard one, K.
    pub fn offset(&self) -> R {
        self.offset
    }

    /// The air at a geometric altitude above sea level, m.
    pub fn air(&self, altitude: R) -> Air<R> {
        let zero = R::splat(0.0);
        let (geopotential, stretch) = reach(altitude);
        let Place {
            temperature,
            pressure,
            gradient,
        } = self.place(geopotential);
        let absent = altitude.above(HIGHEST_ALTITUDE);
        let outside = absent | altitude.below(LOWEST_ALTITUDE);

        let warmth = temperature * GAS_CONSTANT;
        let pressure = pressure.exp();
        let density = pressure / warmth;
        let thinning = -(gradient * GAS_CONSTANT + STANDARD_GRAVITY) / warmth;
        let sound_speed = (warmth * HEAT_CAPACITY_RATIO).sqrt();
        let viscosity = temperature * temperature.sqrt() * SUTHERLAND_FACTOR
            / (temperature + SUTHERLAND_TEMPERATURE);
        Air {
            temperature,
            pressure: zero.select(pressure, absent),
            density: zero.select(density, absent),
            density_slope: zero.select(density * thinning * stretch.squared(), outside),
            sound_speed,
            unit_reynolds: (density * sound_speed / viscosity).log10(),
        }
    }

    /// Temperature and pressure at a geopotential altitude, m.
    fn place(&self, geopotential: R) -> Place<R> {
        let cell = geopotential.locate(exact::layer);
        let [bottom, gradient, exponent, fall] = R::gather(cell, |k| {
            let Tables {
                gradients,
                exponents,
                falls,
                ..
            } = &TABLES;
            [KNOTS[k], gradients[k], exponents[k], falls[k]]
        });
        let rise = geopotential - bottom;
        let [base, base_pressure] = R::pick(cell, |k| &self.bases[k]);
        let temperature = base + gradient * rise;
        // One of the two terms is zero, so that no lane has to choose.
        let pressure = base_pressure + (temperature / base).ln() * exponent + rise / base * fall;
        Place {
            temperature,
            pressure,
            gradient,
        }
    }
}

/// Geopotential altitude, m, of a geometric one held within the atmosphere, and the root of its
/// derivative.
fn reach<R: Real>(altitude: R) -> (R, R) {
    let held = altitude.clamp(LOWEST_ALTITUDE, HIGHEST_ALTITUDE);
    let stretch = R::splat(EARTH_RADIUS) / (held + EARTH_RADIUS);
    (stretch * held, stretch)
}

/// Temperature of the standard at a geopotential altitude, m.
fn standard_temperature<R: Real>(geopotential: R) -> R {
    let cell = geopotential.locate(exact::layer);
    let [bottom, base, gradient] = R::gather(cell, |k| {
        [KNOTS[k], TABLES.temperatures[k], TABLES.gradients[k]]
    });
    base + gradient * (geopotential - bottom)
}
