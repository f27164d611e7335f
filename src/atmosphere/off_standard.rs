//! The air on a day that is not standard, from a thermometer and a barometer at the site.

use super::exact::{
    self, GAS_CONSTANT, HEAT_CAPACITY_RATIO, HIGHEST_ALTITUDE, HIGHEST_GEOPOTENTIAL, LAYERS,
    LOWEST_ALTITUDE, SEA_LEVEL_TEMPERATURE, SUTHERLAND_FACTOR, SUTHERLAND_TEMPERATURE,
};
use super::{Air, EARTH_RADIUS, STANDARD_GRAVITY, Stream, table};
use crate::numerics::Real;
use crate::quantity::slots;
use std::array::from_fn;
use std::f64::consts::LOG10_E;

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
    /// What [`Self::stream`] adds to the logarithm of the temperature times the exponent for that of the
    /// pressure, in each layer: a constant, and a gain per metre.
    rows: [[R; 2]; COUNT],
}

/// A place within a layer.
struct Place<R> {
    temperature: R,
    /// Natural logarithm of the pressure, Pa.
    pressure: R,
    gradient: R,
}

impl<R: Real> OffStandard<R> {
    /// That of one lane.
    pub fn lane(&self, lane: usize) -> OffStandard<f64> {
        let rows = |rows: &[[R; 2]; COUNT]| rows.map(|row| row.map(|entry| entry.lane(lane)));
        OffStandard {
            offset: self.offset.lane(lane),
            bases: rows(&self.bases),
            rows: rows(&self.rows),
        }
    }

    /// The day from the site's altitude above sea level (m), its temperature (K) and its station
    /// pressure (Pa absolute). One logarithm per layer; do it once per design.
    pub fn new(site_altitude: R, site_temperature: R, site_pressure: R) -> Self {
        let (site, _) = reach(site_altitude);
        let offset = site_temperature - standard_temperature(site);
        let zero = R::splat(0.0);
        let mut day = Self {
            offset,
            bases: TABLES.temperatures.map(|base| [offset + base, zero]),
            rows: [[zero; 2]; COUNT],
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
        day.rows = from_fn(|k| {
            let [base, pressure] = day.bases[k];
            let constant = pressure - base.ln() * TABLES.exponents[k];
            [constant, R::splat(TABLES.falls[k]) / base]
        });
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

    /// What a flight takes from the air at a geometric altitude, m: that of [`Self::air`] within 2e-9,
    /// from tables instead of logarithms and exponentials.
    #[inline(always)]
    pub fn stream(&self, altitude: R) -> Stream<R> {
        let zero = R::splat(0.0);
        let (geopotential, stretch) = reach(altitude);
        let cell = geopotential.locate(layer);
        let [bottom, gradient, exponent] = R::gather(cell, |k| {
            [KNOTS[k], TABLES.gradients[k], TABLES.exponents[k]]
        });
        let [base, _] = R::pick(cell, |k| &self.bases[k]);
        let [constant, fall] = R::pick(cell, |k| &self.rows[k]);
        let rise = geopotential - bottom;
        let temperature = base + gradient * rise;
        let place = table::BY_TEMPERATURE.place(temperature);
        let [per_sound_speed, thickness, per_warmth, logarithm] =
            table::BY_TEMPERATURE.values(&place);
        let log_pressure = constant + logarithm * exponent + rise * fall;
        let [pressure, ..] = table::EXPONENTIAL.values(&table::EXPONENTIAL.place(log_pressure));
        let density = pressure * per_warmth;
        let thinning = -(gradient * GAS_CONSTANT + STANDARD_GRAVITY) * per_warmth;
        let absent = altitude.above(HIGHEST_ALTITUDE);
        let outside = absent | altitude.below(LOWEST_ALTITUDE);
        Stream {
            pressure: zero.select(pressure, absent),
            density: zero.select(density, absent),
            density_slope: zero.select(density * thinning * stretch.squared(), outside),
            per_sound_speed,
            unit_reynolds: log_pressure * LOG10_E + thickness,
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

/// Number of the layer that holds a geopotential altitude within the atmosphere, without a search: every
/// layer begins on a whole kilometre.
#[inline(always)]
fn layer(geopotential: f64) -> usize {
    let kilometres = (geopotential * 1e-3).max(0.0) as usize;
    usize::from(LAYER_AT_KILOMETRE[kilometres & (LAYER_AT_KILOMETRE.len() - 1)])
}

static LAYER_AT_KILOMETRE: [u8; 128] = {
    let mut layers = [0; 128];
    let mut kilometre = 0;
    while kilometre < layers.len() {
        let mut k = 0;
        while k + 1 < COUNT && LAYERS[k + 1].0 <= kilometre as f64 * 1000.0 {
            k += 1;
        }
        layers[kilometre] = k as u8;
        kilometre += 1;
    }
    layers
};

/// Temperature of the standard at a geopotential altitude, m.
fn standard_temperature<R: Real>(geopotential: R) -> R {
    let cell = geopotential.locate(exact::layer);
    let [bottom, base, gradient] = R::gather(cell, |k| {
        [KNOTS[k], TABLES.temperatures[k], TABLES.gradients[k]]
    });
    base + gradient * (geopotential - bottom)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::{Dual, Lanes};

    const DAYS: [(f64, f64, f64); 4] = [
        (0.0, 200.0, 101_325.0),
        (0.0, 340.0, 115_000.0),
        (1_500.0, 303.15, 84_000.0),
        (4_000.0, 340.0, 60_000.0),
    ];

    #[test]
    fn a_stream_from_tables_is_the_air() {
        for (site, temperature, pressure) in DAYS {
            let day = OffStandard::new(site, temperature, pressure);
            for step in -120..2_300 {
                let altitude = 39.7 * f64::from(step);
                let (found, exact) = (day.stream(altitude), Stream::from(day.air(altitude)));
                let close = |a: f64, b: f64| {
                    approx::assert_relative_eq!(a, b, max_relative = 2e-9, epsilon = 1e-300);
                };
                close(found.pressure, exact.pressure);
                close(found.density, exact.density);
                close(found.density_slope, exact.density_slope);
                close(found.per_sound_speed, exact.per_sound_speed);
                approx::assert_relative_eq!(
                    found.unit_reynolds,
                    exact.unit_reynolds,
                    epsilon = 1e-9
                );
            }
        }
    }

    #[test]
    fn its_slope_is_that_of_its_density_and_lanes_have_its_bits() {
        let altitudes = [
            -100.0, 1_499.0, 10_990.0, 15_000.0, 20_001.0, 60_000.0, 85_000.0, 90_000.0,
        ];
        let [site, temperature, pressure] = [1_500.0, 303.15, 84_000.0];
        let lanes = OffStandard::new(
            Lanes([site; 8]),
            Lanes([temperature; 8]),
            Lanes([pressure; 8]),
        );
        let lanes = lanes.stream(Lanes(altitudes));
        let alone = OffStandard::new(site, temperature, pressure);
        let dual = [site, temperature, pressure].map(<Dual<1> as Real>::splat);
        let dual = OffStandard::new(dual[0], dual[1], dual[2]);
        for (lane, altitude) in altitudes.into_iter().enumerate() {
            let found = alone.stream(altitude);
            assert_eq!(lanes.density.0[lane].to_bits(), found.density.to_bits());
            assert_eq!(
                lanes.unit_reynolds.0[lane].to_bits(),
                found.unit_reynolds.to_bits()
            );
            let slope = dual.stream(Dual::variable(altitude, 0)).density.partials[0];
            approx::assert_relative_eq!(slope, found.density_slope, max_relative = 1e-6);
        }
    }
}
