//! A closed rigid tank that warms at constant mean density: where its liquid and vapour end.

use super::{
    CRITICAL_DENSITY, CRITICAL_TEMPERATURE, Saturation, TRIPLE_TEMPERATURE, VALID_TEMPERATURE_MAX,
    pressure, saturation,
};
use crate::numerics::{Dual, Real, bracketed_newton};

/// Halvings of the bracket, 11 K^0.5 wide, that reach rounding even without one Newton step.
const STEPS: usize = 60;

/// Temperature, K, at which a closed tank of this mean density (kg/m3) becomes full of liquid: the
/// saturated liquid has swollen to that density and no vapour is left. From there the pressure climbs
/// by [`pressure_slope`](super::pressure_slope).
///
/// None below the critical density, where the liquid shrinks instead until it dries up (see
/// [`dry_temperature`]), and above the density of the liquid at the triple point, which fills the tank
/// at any temperature. Source: the saturation line of Lemmon and Span (2006), whose density uncertainty
/// of about 0.1 % (from memory) moves this by 0.1 K at 750 kg/m3.
///
/// ```
/// use hoopline::fluid::nitrous_oxide::liquid_full_temperature;
/// let full = liquid_full_temperature(740.0).unwrap();
/// assert!((full - 298.46030689).abs() < 1e-7);
/// assert_eq!(liquid_full_temperature(300.0), None);
/// ```
pub fn liquid_full_temperature(density: f64) -> Option<f64> {
    let densest = saturation(TRIPLE_TEMPERATURE).liquid_density;
    (density > CRITICAL_DENSITY && density <= densest)
        .then(|| meet(density, |state| state.liquid_density))
}

/// Temperature, K, at which the last liquid evaporates in a closed tank of this mean density (kg/m3):
/// the saturated vapour has reached that density.
///
/// None above the critical density, where the tank becomes full of liquid instead (see
/// [`liquid_full_temperature`]), and below the density of the vapour at the triple point, 2.6 kg/m3.
/// Source: as there.
///
/// ```
/// use hoopline::fluid::nitrous_oxide::dry_temperature;
/// let dry = dry_temperature(200.0).unwrap();
/// assert!((dry - 299.64014166).abs() < 1e-7);
/// assert_eq!(dry_temperature(700.0), None);
/// ```
pub fn dry_temperature(density: f64) -> Option<f64> {
    let thinnest = saturation(TRIPLE_TEMPERATURE).vapour_density;
    (density >= thinnest && density < CRITICAL_DENSITY)
        .then(|| meet(density, |state| state.vapour_density))
}

/// Pressure, Pa absolute, of a closed tank of a mean density (kg/m3) at a temperature (K): on the
/// saturation line while liquid and vapour share it, of the single phase otherwise.
///
/// ```
/// use hoopline::fluid::nitrous_oxide::{closed_pressure, saturation};
/// let shared: f64 = closed_pressure(293.15, 600.0);
/// assert_eq!(shared, saturation(293.15).pressure);
/// assert!(closed_pressure(308.15, 740.0) > 1.1 * saturation(308.15).pressure);
/// ```
pub fn closed_pressure<R: Real>(temperature: R, density: R) -> R {
    let saturated = saturation(temperature);
    let both_phases = temperature.below(CRITICAL_TEMPERATURE)
        & saturated.vapour_density.lt(density)
        & density.lt(saturated.liquid_density);
    saturated
        .pressure
        .select(pressure(temperature, density), both_phases)
}

/// Temperature, K, at which a closed tank of a mean density (kg/m3) reaches a pressure (Pa absolute)
/// while it warms; none outside the equation of state's temperatures.
///
/// ```
/// use hoopline::fluid::nitrous_oxide::{closed_pressure, warmed_to};
/// let temperature = warmed_to(6.0e6, 650.0).unwrap();
/// assert!((closed_pressure(temperature, 650.0) - 6.0e6).abs() < 1.0);
/// ```
pub fn warmed_to(pressure: f64, density: f64) -> Option<f64> {
    let (mut low, mut high) = (TRIPLE_TEMPERATURE, VALID_TEMPERATURE_MAX);
    let reached = |temperature: f64| closed_pressure(temperature, density) >= pressure;
    if reached(low) || !reached(high) {
        return None;
    }
    // The slope jumps where the last vapour or liquid goes; halving does not mind.
    for _ in 0..STEPS {
        let middle = 0.5 * (low + high);
        if reached(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(high)
}

/// Temperature at which one of the saturation densities meets a density. Solved in the square root of
/// the distance to the critical temperature, in which both are smooth up to the critical point.
fn meet(density: f64, of: impl Fn(Saturation<Dual<1>>) -> Dual<1>) -> f64 {
    let temperature = |root: f64| CRITICAL_TEMPERATURE - root * root;
    let furthest = (CRITICAL_TEMPERATURE - TRIPLE_TEMPERATURE).sqrt();
    let root = bracketed_newton(0.0, furthest, STEPS, |root| {
        let found = of(saturation(Dual::variable(temperature(root), 0)));
        (found.value - density, -2.0 * root * found.partials[0])
    });
    temperature(root.clamp(0.0, furthest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ends_and_the_way_back() {
        let triple = saturation(TRIPLE_TEMPERATURE);
        for step in 0..=400 {
            let share = f64::from(step) / 400.0;
            let temperature =
                TRIPLE_TEMPERATURE + share * (CRITICAL_TEMPERATURE - 1e-3 - TRIPLE_TEMPERATURE);
            let state = saturation(temperature);
            let full = liquid_full_temperature(state.liquid_density).expect("a liquid density");
            let dry = dry_temperature(state.vapour_density).expect("a vapour density");
            approx::assert_abs_diff_eq!(full, temperature, epsilon = 1e-9);
            approx::assert_abs_diff_eq!(dry, temperature, epsilon = 1e-9);
        }
        assert_eq!(
            liquid_full_temperature(triple.liquid_density * 1.000_001),
            None
        );
        assert_eq!(dry_temperature(triple.vapour_density * 0.999_999), None);
    }

    #[test]
    fn at_the_critical_density_neither_happens() {
        assert_eq!(liquid_full_temperature(CRITICAL_DENSITY), None);
        assert_eq!(dry_temperature(CRITICAL_DENSITY), None);
        for density in [f64::NAN, f64::INFINITY, 0.0, -1.0] {
            assert_eq!(liquid_full_temperature(density), None);
            assert_eq!(dry_temperature(density), None);
        }
        for near in [1e-9, 1e-6, 1e-3, 0.1, 1.0] {
            let full = liquid_full_temperature(CRITICAL_DENSITY + near).expect("denser");
            let dry = dry_temperature(CRITICAL_DENSITY - near).expect("thinner");
            for end in [full, dry] {
                assert!(end <= CRITICAL_TEMPERATURE && end > CRITICAL_TEMPERATURE - 1e-4);
            }
        }
    }
}
