//! The residual Helmholtz energy of nitrous oxide and the pressure that follows from it.

use crate::numerics::Real;

/// Molar mass, kg/mol.
pub const MOLAR_MASS: f64 = 0.044_012_8;
/// Gas constant of the equation of state, J/(mol K): the value it was fitted with.
const MOLAR_GAS_CONSTANT: f64 = 8.314_472;
/// Gas constant, J/(kg K).
pub(super) const GAS_CONSTANT: f64 = MOLAR_GAS_CONSTANT / MOLAR_MASS;
/// Reducing temperature, K.
pub(super) const REDUCING_TEMPERATURE: f64 = 309.52;
/// Reducing density, kg/m3.
pub(super) const REDUCING_DENSITY: f64 = 10_270.0 * MOLAR_MASS;

/// One term `n delta^d tau^t exp(-delta^l)`; without the exponential where `l` is zero.
struct Term {
    n: f64,
    /// Exponent `t` in eighths: every one is a multiple of 1/8, so that square roots and products
    /// replace the general power.
    eighths: usize,
    d: usize,
    l: usize,
}

const fn term(n: f64, t: f64, d: usize, l: usize) -> Term {
    let eighths = (8.0 * t) as usize;
    Term { n, eighths, d, l }
}

/// Coefficients and exponents of Lemmon and Span (2006) for nitrous oxide, as carried by the open
/// reference library `CoolProp` 8.0.0.
const TERMS: [Term; 12] = [
    term(0.88045, 0.25, 1, 0),
    term(-2.4235, 1.25, 1, 0),
    term(0.38237, 1.5, 1, 0),
    term(0.068917, 0.25, 3, 0),
    term(0.00020367, 0.875, 7, 0),
    term(0.13122, 2.375, 1, 1),
    term(0.46032, 2.0, 2, 1),
    term(-0.0036985, 2.125, 5, 1),
    term(-0.23263, 3.5, 1, 2),
    term(-0.00042859, 6.5, 1, 2),
    term(-0.04281, 4.75, 4, 2),
    term(-0.023038, 12.5, 2, 3),
];

/// What the equation of state needs of one temperature: the factors `n tau^t`.
pub(super) struct Isotherm<R>([R; 12]);

/// The residual Helmholtz energy over `R T`, `alpha`, and its derivatives as they enter the
/// properties; `tau` is the reducing over the actual temperature, `delta` the reduced density.
pub(super) struct Residual<R> {
    /// `alpha` itself.
    pub alpha: R,
    /// `delta d(alpha)/d(delta)`.
    pub delta: R,
    /// `delta^2 d2(alpha)/d(delta)2`.
    pub delta_delta: R,
    /// `tau d(alpha)/d(tau)`.
    pub tau: R,
    /// `delta tau d2(alpha)/d(delta)d(tau)`.
    pub delta_tau: R,
}

impl<R: Real> Isotherm<R> {
    /// At a temperature in K.
    pub fn new(temperature: R) -> Self {
        let tau = R::splat(REDUCING_TEMPERATURE) / temperature;
        // tau to the power of 1/8, 2/8, 4/8, ... 64/8.
        let mut powers = [tau.sqrt().sqrt().sqrt(); 7];
        for k in 1..powers.len() {
            powers[k] = powers[k - 1].squared();
        }
        Self(TERMS.map(|term| {
            let mut factor = R::splat(term.n);
            for (bit, power) in powers.into_iter().enumerate() {
                if term.eighths >> bit & 1 == 1 {
                    factor = factor * power;
                }
            }
            factor
        }))
    }

    /// At a reduced density.
    pub fn residual(&self, delta: R) -> Residual<R> {
        let mut powers = [R::splat(1.0); 8];
        for k in 1..powers.len() {
            powers[k] = powers[k - 1] * delta;
        }
        let decay = [
            R::splat(1.0),
            (-powers[1]).exp(),
            (-powers[2]).exp(),
            (-powers[3]).exp(),
        ];
        let zero = R::splat(0.0);
        let mut sum = Residual {
            alpha: zero,
            delta: zero,
            delta_delta: zero,
            tau: zero,
            delta_tau: zero,
        };
        for (Term { eighths, d, l, .. }, factor) in TERMS.iter().zip(self.0) {
            let (t, l_number) = (*eighths as f64 / 8.0, *l as f64);
            let value = factor * powers[*d] * decay[*l];
            let damping = powers[*l] * l_number;
            let first = -damping + *d as f64;
            sum.alpha = sum.alpha + value;
            sum.delta = sum.delta + value * first;
            sum.delta_delta =
                sum.delta_delta + value * (first * (first - 1.0) - damping * l_number);
            sum.tau = sum.tau + value * t;
            sum.delta_tau = sum.delta_tau + value * first * t;
        }
        sum
    }
}

/// Pressure, Pa absolute, at a temperature in K and a density in kg/m3.
///
/// Valid from the triple point to 525 K and to 50e6 Pa for the single phase, liquid, vapour or
/// beyond the critical point; between the densities of [`saturation`](super::saturation()) the
/// equation describes no stable state. Source: Lemmon and Span (2006);
/// `p = rho R T (1 + delta d(alpha)/d(delta))`.
///
/// ```
/// let pressure = hoopline::fluid::nitrous_oxide::pressure(320.0, 691.05);
/// assert!((pressure / 12.1470938e6 - 1.0).abs() < 1e-8);
/// ```
pub fn pressure<R: Real>(temperature: R, density: R) -> R {
    let residual = Isotherm::new(temperature).residual(density / REDUCING_DENSITY);
    density * temperature * GAS_CONSTANT * (residual.delta + 1.0)
}

/// Slope of pressure with temperature at constant density, Pa/K, at a temperature in K and a density
/// in kg/m3: what a closed rigid tank gains per kelvin once one phase fills it.
///
/// Valid where [`pressure`] is; source: Lemmon and Span (2006);
/// `dp/dT = rho R (1 + delta d(alpha)/d(delta) - delta tau d2(alpha)/d(delta)d(tau))`.
///
/// ```
/// let slope = hoopline::fluid::nitrous_oxide::pressure_slope(323.15, 800.0);
/// assert!((slope / 5.1060481e5 - 1.0).abs() < 1e-8);
/// ```
pub fn pressure_slope<R: Real>(temperature: R, density: R) -> R {
    let residual = Isotherm::new(temperature).residual(density / REDUCING_DENSITY);
    density * GAS_CONSTANT * (residual.delta - residual.delta_tau + 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::{Dual, Lanes};

    const STATES: [(f64, f64); 4] = [
        (200.0, 3.0),
        (293.15, 850.0),
        (309.6, 452.0),
        (450.0, 300.0),
    ];

    #[test]
    fn derivatives_of_alpha_agree_with_differences() {
        for (temperature, density) in STATES {
            let (tau, delta) = (
                REDUCING_TEMPERATURE / temperature,
                density / REDUCING_DENSITY,
            );
            let at =
                |tau: f64, delta: f64| Isotherm::new(REDUCING_TEMPERATURE / tau).residual(delta);
            let (dt, dd) = (tau * 1e-5, delta * 1e-5);
            let (high, low) = (at(tau, delta + dd), at(tau, delta - dd));
            let (cold, warm) = (at(tau + dt, delta), at(tau - dt, delta));
            let here = at(tau, delta);
            let close = |exact: f64, difference: f64| {
                approx::assert_relative_eq!(exact, difference, max_relative = 1e-7, epsilon = 1e-8);
            };
            close(here.delta, delta * (high.alpha - low.alpha) / (2.0 * dd));
            close(here.tau, tau * (cold.alpha - warm.alpha) / (2.0 * dt));
            close(here.delta_tau, tau * (cold.delta - warm.delta) / (2.0 * dt));
            close(
                here.delta_delta,
                delta * (high.delta - low.delta) / (2.0 * dd) - here.delta,
            );
        }
    }

    #[test]
    fn pressure_carries_both_derivatives() {
        for (temperature, density) in STATES {
            let dual = pressure(
                Dual::<2>::variable(temperature, 0),
                Dual::<2>::variable(density, 1),
            );
            assert_eq!(
                dual.value.to_bits(),
                pressure(temperature, density).to_bits()
            );
            let (dt, dr) = (temperature * 1e-6, density * 1e-6);
            let by_temperature = (pressure(temperature + dt, density)
                - pressure(temperature - dt, density))
                / (2.0 * dt);
            let by_density = (pressure(temperature, density + dr)
                - pressure(temperature, density - dr))
                / (2.0 * dr);
            approx::assert_relative_eq!(dual.partials[0], by_temperature, max_relative = 1e-7);
            approx::assert_relative_eq!(
                dual.partials[0],
                pressure_slope(temperature, density),
                max_relative = 1e-12
            );
            approx::assert_relative_eq!(
                dual.partials[1],
                by_density,
                max_relative = 1e-6,
                epsilon = 1.0
            );
        }
    }

    #[test]
    fn every_lane_gives_the_bits_of_a_scalar_run() {
        let lanes = pressure(
            Lanes(STATES.map(|state| state.0)),
            Lanes(STATES.map(|state| state.1)),
        );
        for (lane, (temperature, density)) in STATES.into_iter().enumerate() {
            let scalar: f64 = pressure(temperature, density);
            assert_eq!(lanes.0[lane].to_bits(), scalar.to_bits());
        }
    }
}
