//! The U.S. Standard Atmosphere 1976 from its defining constants.
//!
//! Source: "U.S. Standard Atmosphere, 1976", NOAA-S/T 76-1562, part 1: seven layers in which the
//! molecular-scale temperature is linear in geopotential altitude, the hydrostatic equation and the
//! perfect-gas law (equations 18, 23, 33a, 33b, 42, 50 and 51; equation numbers from memory).

use super::{Air, EARTH_RADIUS, STANDARD_GRAVITY};

/// Pressure at sea level, Pa.
pub const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
/// Temperature at sea level, K.
pub const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
/// Gas constant of dry air, J/(kg K): the standard's own 8314.32 J/(kmol K), which is not today's
/// value, over 28.9644 kg/kmol.
pub const GAS_CONSTANT: f64 = 8_314.32 / 28.9644;
/// Ratio of the specific heat capacities.
pub const HEAT_CAPACITY_RATIO: f64 = 1.40;
/// Factor of Sutherland's law for the viscosity, kg/(s m K^0.5).
pub const SUTHERLAND_FACTOR: f64 = 1.458e-6;
/// Sutherland's temperature, K.
pub const SUTHERLAND_TEMPERATURE: f64 = 110.4;
/// Lowest geopotential altitude, m: the lowest layer carried on below sea level.
pub const LOWEST_GEOPOTENTIAL: f64 = -5_000.0;
/// The same as a geometric altitude, m.
pub const LOWEST_ALTITUDE: f64 =
    EARTH_RADIUS * LOWEST_GEOPOTENTIAL / (EARTH_RADIUS - LOWEST_GEOPOTENTIAL);
/// Highest geometric altitude, m; there is no air above it here.
pub const HIGHEST_ALTITUDE: f64 = 86_000.0;
/// The same as a geopotential altitude, m.
pub const HIGHEST_GEOPOTENTIAL: f64 =
    EARTH_RADIUS * HIGHEST_ALTITUDE / (EARTH_RADIUS + HIGHEST_ALTITUDE);

/// Base of each layer, m of geopotential altitude, and temperature gradient above it, K/m.
pub(super) const LAYERS: [(f64, f64); 7] = [
    (0.0, -6.5e-3),
    (11_000.0, 0.0),
    (20_000.0, 1.0e-3),
    (32_000.0, 2.8e-3),
    (47_000.0, 0.0),
    (51_000.0, -2.8e-3),
    (71_000.0, -2.0e-3),
];

/// Geopotential altitude of a geometric altitude, both in m.
///
/// ```
/// let geopotential = hoopline::atmosphere::exact::geopotential(86_000.0);
/// assert!((geopotential - 84_852.0).abs() < 0.1);
/// ```
pub fn geopotential(altitude: f64) -> f64 {
    EARTH_RADIUS * altitude / (EARTH_RADIUS + altitude)
}

/// Number of the layer, from 0, that holds a geopotential altitude in m. Below sea level it is
/// layer 0, above 71 km layer 6.
pub fn layer(geopotential: f64) -> usize {
    LAYERS
        .iter()
        .rposition(|(base, _)| *base <= geopotential)
        .unwrap_or(0)
}

/// Temperature (K), pressure (Pa absolute), density (kg/m3), speed of sound (m/s) and decimal
/// logarithm of the unit Reynolds number at Mach 1 (1/m) at a geopotential altitude in m, each with
/// its derivative with respect to that altitude, by the law of the given layer.
///
/// A layer's law may be asked for beyond the layer, which at a limit chooses the side.
pub fn columns(geopotential: f64, layer: usize) -> [(f64, f64); 5] {
    let (mut temperature, mut pressure) = (SEA_LEVEL_TEMPERATURE, SEA_LEVEL_PRESSURE);
    for (below, above) in LAYERS[..=layer].iter().zip(&LAYERS[1..=layer]) {
        let (base, gradient) = *below;
        (temperature, pressure) = climb(temperature, pressure, gradient, above.0 - base);
    }
    let (base, gradient) = LAYERS[layer];
    (temperature, pressure) = climb(temperature, pressure, gradient, geopotential - base);

    let density = pressure / (GAS_CONSTANT * temperature);
    let sound_speed = (HEAT_CAPACITY_RATIO * GAS_CONSTANT * temperature).sqrt();
    let unit_reynolds = libm::log10(density * sound_speed / viscosity(temperature));

    // Relative changes per metre; the pressure's is the hydrostatic equation.
    let warming = gradient / temperature;
    let thinning = -STANDARD_GRAVITY / (GAS_CONSTANT * temperature) - warming;
    let thickening = 1.5 * warming - gradient / (temperature + SUTHERLAND_TEMPERATURE);
    [
        (temperature, gradient),
        (pressure, -density * STANDARD_GRAVITY),
        (density, density * thinning),
        (sound_speed, sound_speed * 0.5 * warming),
        (
            unit_reynolds,
            std::f64::consts::LOG10_E * (thinning + 0.5 * warming - thickening),
        ),
    ]
}

/// Dynamic viscosity at a temperature, Pa s, by Sutherland's law (equation 51).
pub(crate) fn viscosity(temperature: f64) -> f64 {
    SUTHERLAND_FACTOR * temperature * temperature.sqrt() / (temperature + SUTHERLAND_TEMPERATURE)
}

/// Temperature and pressure after a climb within one layer.
fn climb(temperature: f64, pressure: f64, gradient: f64, rise: f64) -> (f64, f64) {
    if gradient == 0.0 {
        let fall = -STANDARD_GRAVITY * rise / (GAS_CONSTANT * temperature);
        return (temperature, pressure * libm::exp(fall));
    }
    let reached = temperature + gradient * rise;
    let exponent = STANDARD_GRAVITY / (GAS_CONSTANT * gradient);
    (
        reached,
        pressure * libm::pow(temperature / reached, exponent),
    )
}

/// The air at a geometric altitude in m, with no table between: slower than
/// [`standard`](super::standard), and what that is measured against. Same range and same rules
/// beyond it.
///
/// ```
/// let air = hoopline::atmosphere::exact::air(0.0);
/// assert_eq!(air.pressure, 101_325.0);
/// ```
pub fn air(altitude: f64) -> Air<f64> {
    let held = altitude.clamp(LOWEST_ALTITUDE, HIGHEST_ALTITUDE);
    let reached = geopotential(held);
    let [temperature, pressure, density, sound_speed, unit_reynolds] =
        columns(reached, layer(reached));
    let presence = if altitude > HIGHEST_ALTITUDE {
        0.0
    } else {
        1.0
    };
    let inside = if held == altitude { 1.0 } else { 0.0 };
    let stretch = EARTH_RADIUS / (EARTH_RADIUS + held);
    Air {
        temperature: temperature.0,
        pressure: pressure.0 * presence,
        density: density.0 * presence,
        density_slope: density.1 * stretch * stretch * inside,
        sound_speed: sound_speed.0,
        unit_reynolds: unit_reynolds.0,
    }
}
