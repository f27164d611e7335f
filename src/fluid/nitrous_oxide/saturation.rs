//! Liquid and vapour in equilibrium.

use super::equation_of_state::{GAS_CONSTANT, Isotherm, REDUCING_DENSITY, Residual};
use super::{CRITICAL_DENSITY, CRITICAL_TEMPERATURE, TRIPLE_TEMPERATURE};
use crate::numerics::Real;

/// Liquid and vapour in equilibrium at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturation<R> {
    /// Vapour pressure, Pa absolute.
    pub pressure: R,
    /// Density of the liquid, kg/m3.
    pub liquid_density: R,
    /// Density of the vapour, kg/m3.
    pub vapour_density: R,
}

/// Distance to the critical temperature, K, below which rounding spoils the equilibrium conditions
/// and the limiting law of the densities takes over.
const NEAR_CRITICAL: f64 = 1.0e-4;
/// Three or four steps suffice; the cap only bounds the work.
const STEPS: usize = 12;
/// Relative step after which the next would be lost in rounding (Newton steps square the error).
const SETTLED: f64 = 1.0e-8;

/// Start values: `rho' / rho_c - 1` and `ln(rho'' / rho_c)` as polynomials without constant term in
/// the square root of the distance to the critical temperature, fitted to the solutions themselves.
const LIQUID_START: [f64; 6] = [
    0.370002,
    -0.12251,
    0.0321184,
    -0.00440606,
    0.000301098,
    -8.06524e-06,
];
const VAPOUR_START: [f64; 6] = [
    -0.373019,
    0.0858312,
    -0.0229254,
    0.00274876,
    -0.000163152,
    3.07522e-06,
];

/// Vapour pressure and densities of liquid and vapour at a temperature in K.
///
/// Equal pressure and equal Gibbs energy of both phases by the equation of state of Lemmon and Span
/// (2006); slopes by the Clausius-Clapeyron equation and by moving along each phase's isotherm.
/// Valid from the triple point, 182.33 K, to the critical point; a temperature outside takes the
/// values at the nearer end.
///
/// ```
/// let tank = hoopline::fluid::nitrous_oxide::saturation(293.15);
/// assert!((tank.pressure / 5.052509e6 - 1.0).abs() < 1e-6);
/// ```
pub fn saturation<R: Real>(temperature: R) -> Saturation<R> {
    let [pressure, liquid_density, vapour_density] = temperature.chart(|temperature| {
        let held = temperature.clamp(TRIPLE_TEMPERATURE, CRITICAL_TEMPERATURE);
        let [pressure, liquid, vapour] = if CRITICAL_TEMPERATURE - held < NEAR_CRITICAL {
            near_critical(held)
        } else {
            equilibrium(held)
        };
        let slope = if held == temperature { 1.0 } else { 0.0 };
        [pressure, liquid, vapour].map(|(value, rate)| (value, rate * slope))
    });
    Saturation {
        pressure,
        liquid_density,
        vapour_density,
    }
}

/// One phase on an isotherm.
struct Phase {
    reduced_density: f64,
    residual: Residual<f64>,
}

impl Phase {
    fn new(isotherm: &Isotherm<f64>, reduced_density: f64) -> Self {
        Self {
            reduced_density,
            residual: isotherm.residual(reduced_density),
        }
    }

    /// Pressure over `rho_r R T`.
    fn pressure(&self) -> f64 {
        self.reduced_density * (1.0 + self.residual.delta)
    }

    /// Derivative of [`Self::pressure`] with respect to the reduced density.
    fn stiffness(&self) -> f64 {
        1.0 + 2.0 * self.residual.delta + self.residual.delta_delta
    }

    /// Gibbs energy over `R T`, but for what both phases share.
    fn gibbs(&self) -> f64 {
        libm::log(self.reduced_density) + self.residual.alpha + self.residual.delta
    }

    /// Entropy over `R`, but for what both phases share.
    fn entropy(&self) -> f64 {
        self.residual.tau - self.residual.alpha - libm::log(self.reduced_density)
    }

    /// Slope of the density along the saturation line, kg/(m3 K), for the slope of the vapour
    /// pressure.
    fn density_slope(&self, temperature: f64, pressure_slope: f64) -> f64 {
        let isochoric = REDUCING_DENSITY
            * GAS_CONSTANT
            * self.reduced_density
            * (1.0 + self.residual.delta - self.residual.delta_tau);
        (pressure_slope - isochoric) / (GAS_CONSTANT * temperature * self.stiffness())
    }
}

/// Pressure, liquid and vapour density, each with its slope, from the equilibrium conditions.
fn equilibrium(temperature: f64) -> [(f64, f64); 3] {
    let isotherm = Isotherm::new(temperature);
    let (mut liquid, mut vapour) = start(temperature);
    for _ in 0..STEPS {
        let (l, v) = (Phase::new(&isotherm, liquid), Phase::new(&isotherm, vapour));
        let pressure_gap = l.pressure() - v.pressure();
        let gibbs_gap = l.gibbs() - v.gibbs();
        // d(gibbs) = d(pressure) / density along an isotherm, which solves the pair by hand.
        let vapour_rise = (pressure_gap - gibbs_gap * liquid) * vapour / (vapour - liquid);
        let liquid_step = (vapour_rise - pressure_gap) / l.stiffness();
        let vapour_step = vapour_rise / v.stiffness();
        liquid += liquid_step;
        vapour += vapour_step;
        if liquid_step.abs() < SETTLED * liquid && vapour_step.abs() < SETTLED * vapour {
            break;
        }
    }
    let (l, v) = (Phase::new(&isotherm, liquid), Phase::new(&isotherm, vapour));
    let pressure_slope = REDUCING_DENSITY * GAS_CONSTANT * (v.entropy() - l.entropy())
        / (1.0 / vapour - 1.0 / liquid);
    [
        (
            REDUCING_DENSITY * GAS_CONSTANT * temperature * v.pressure(),
            pressure_slope,
        ),
        (
            liquid * REDUCING_DENSITY,
            l.density_slope(temperature, pressure_slope),
        ),
        (
            vapour * REDUCING_DENSITY,
            v.density_slope(temperature, pressure_slope),
        ),
    ]
}

/// Reduced densities to start from.
fn start(temperature: f64) -> (f64, f64) {
    let root = (CRITICAL_TEMPERATURE - temperature).sqrt();
    let polynomial = |coefficients: [f64; 6]| {
        coefficients
            .iter()
            .rev()
            .fold(0.0, |sum, c| (sum + c) * root)
    };
    let critical = CRITICAL_DENSITY / REDUCING_DENSITY;
    (
        critical * (1.0 + polynomial(LIQUID_START)),
        critical * libm::exp(polynomial(VAPOUR_START)),
    )
}

/// The same within the last fraction of a kelvin. Any equation of state that is analytic at its
/// critical point has there a mean density linear in the distance to the critical temperature and a
/// density difference proportional to its square root; both are scaled from the edge of that region.
fn near_critical(temperature: f64) -> [(f64, f64); 3] {
    let edge = CRITICAL_TEMPERATURE - NEAR_CRITICAL;
    let [
        (edge_pressure, pressure_slope),
        (edge_liquid, _),
        (edge_vapour, _),
    ] = equilibrium(edge);
    let mean = 0.5 * (edge_liquid + edge_vapour) - CRITICAL_DENSITY;
    let half = 0.5 * (edge_liquid - edge_vapour);
    let root = ((CRITICAL_TEMPERATURE - temperature) / NEAR_CRITICAL).sqrt();
    let middle = CRITICAL_DENSITY + mean * root * root;
    let middle_slope = -mean / NEAR_CRITICAL;
    // At the critical point itself the densities have a vertical tangent, which no slope can carry.
    let half_slope = if root > 0.0 {
        -half / (2.0 * NEAR_CRITICAL * root)
    } else {
        0.0
    };
    [
        (
            edge_pressure + pressure_slope * (temperature - edge),
            pressure_slope,
        ),
        (middle + half * root, middle_slope + half_slope),
        (middle - half * root, middle_slope - half_slope),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::{Dual, Lanes};

    fn columns<R>(state: Saturation<R>) -> [R; 3] {
        [state.pressure, state.liquid_density, state.vapour_density]
    }

    fn assert_slopes(temperature: f64, step: f64, tolerance: f64) {
        let dual = columns(saturation(Dual::<1>::variable(temperature, 0)));
        let warm = columns(saturation(temperature + step));
        let cold = columns(saturation(temperature - step));
        for ((dual, warm), cold) in dual.into_iter().zip(warm).zip(cold) {
            approx::assert_relative_eq!(
                dual.partials[0],
                (warm - cold) / (2.0 * step),
                max_relative = tolerance
            );
        }
    }

    #[test]
    fn slopes_agree_with_differences() {
        for temperature in [185.0, 220.0, 273.15, 293.15, 303.0, 308.0] {
            assert_slopes(temperature, 1e-3, 1e-6);
        }
        assert_slopes(CRITICAL_TEMPERATURE - 1e-2, 1e-5, 1e-5);
        assert_slopes(CRITICAL_TEMPERATURE - 0.5 * NEAR_CRITICAL, 1e-7, 1e-4);
    }

    #[test]
    fn both_phases_meet_the_equilibrium_conditions() {
        for step in 0..=1000 {
            let reach = CRITICAL_TEMPERATURE - NEAR_CRITICAL - TRIPLE_TEMPERATURE;
            let temperature = TRIPLE_TEMPERATURE + reach * f64::from(step) / 1000.0;
            let state = saturation(temperature);
            let isotherm = Isotherm::new(temperature);
            let liquid = Phase::new(&isotherm, state.liquid_density / REDUCING_DENSITY);
            let vapour = Phase::new(&isotherm, state.vapour_density / REDUCING_DENSITY);
            approx::assert_abs_diff_eq!(liquid.pressure(), vapour.pressure(), epsilon = 1e-13);
            approx::assert_abs_diff_eq!(liquid.gibbs(), vapour.gibbs(), epsilon = 1e-13);
            assert!(liquid.stiffness() > 0.0 && vapour.stiffness() > 0.0);
        }
    }

    #[test]
    fn densities_close_in_on_the_critical_point_without_a_step() {
        let mut last = columns(saturation(CRITICAL_TEMPERATURE - 1e-2));
        for step in 1..=20_000 {
            let temperature = CRITICAL_TEMPERATURE - 1e-2 * (1.0 - f64::from(step) / 20_000.0);
            let now = columns(saturation(temperature));
            assert!(
                now[0] > last[0] && now[1] < last[1] && now[2] > last[2],
                "{temperature}"
            );
            assert!(
                last[1] - now[1] < 0.2 && now[2] - last[2] < 0.2,
                "{temperature}"
            );
            last = now;
        }
        assert_eq!(last[1], last[2]);
    }

    #[test]
    fn temperatures_outside_take_the_nearer_end() {
        for (outside, end) in [(100.0, TRIPLE_TEMPERATURE), (400.0, CRITICAL_TEMPERATURE)] {
            for (dual, held) in columns(saturation(Dual::<1>::variable(outside, 0)))
                .into_iter()
                .zip(columns(saturation(end)))
            {
                assert_eq!((dual.value, dual.partials[0]), (held, 0.0));
            }
        }
        let critical = columns(saturation(Dual::<1>::variable(CRITICAL_TEMPERATURE, 0)));
        assert!(critical.iter().all(|column| column.partials[0].is_finite()));
    }

    #[test]
    fn every_lane_gives_the_bits_of_a_scalar_run() {
        let temperatures = [
            150.0, 182.33, 250.0, 293.15, 309.0, 309.5206, 309.520_66, 310.0,
        ];
        let lanes = columns(saturation(Lanes(temperatures)));
        for (lane, temperature) in temperatures.into_iter().enumerate() {
            let scalar = columns(saturation(temperature)).map(f64::to_bits);
            assert_eq!(lanes.map(|column| column.0[lane].to_bits()), scalar);
        }
    }
}
