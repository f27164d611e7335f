//! Heat from the air to a smooth wall along it, by the friction law of the build-up.

use super::friction::{compressibility, turbulent_plate};
use crate::atmosphere::exact::{GAS_CONSTANT, HEAT_CAPACITY_RATIO, viscosity};

/// Prandtl number of air: viscosity times specific heat over thermal conductivity at sea level, 1.7894e-5 Pa s and
/// 2.5326e-2 W/(m K) ("U.S. Standard Atmosphere, 1976", equations 51 and 53, from memory). Between 200 K and 600 K
/// it changes by 5 %.
pub const PRANDTL: f64 = 0.71;
/// Lowest Reynolds number of the friction law here; slower air takes its friction.
const LEAST_REYNOLDS: f64 = 1e5;

/// Known error of [`heat_transfer_coefficient`], as a share: what friction lacks on a wall still cool (7 % at Mach 2,
/// 20 % at Mach 3, see [`van_driest`](super::van_driest)), and 11 % by which measured turbulent plates scatter about a
/// correlation of their own (J. H. Lienhard V, "Heat Transfer in Flat-Plate Boundary Layers", Journal of Heat Transfer
/// 142 (2020) 061805, abstract); rounded sum, own choice. A nose ahead and roughness are not in it.
pub const HEATING_ERROR: f64 = 0.3;

/// Temperature that a wall takes which keeps no heat, K: `T (1 + r (g - 1) / 2 M^2)` with the recovery factor of a
/// turbulent boundary layer, the cube root of the Prandtl number.
///
/// ```
/// // In the stratosphere at Mach 2: 98 degrees Celsius.
/// let hot = hoopline::airframe::recovery_temperature(216.65, 2.0);
/// assert!((hot - 371.3).abs() < 0.1);
/// ```
pub fn recovery_temperature(temperature: f64, mach: f64) -> f64 {
    let factor = libm::cbrt(PRANDTL);
    temperature * (1.0 + factor * (HEAT_CAPACITY_RATIO - 1.0) / 2.0 * mach * mach)
}

/// Friction coefficient at one place of a smooth flat plate, turbulent from the leading edge, incompressible, of the
/// decimal logarithm of its Reynolds number: that of which [`turbulent_plate`] is the mean up to there,
/// `C (1 - 2.58 / ln Re)`.
pub fn local_friction(log_reynolds: f64) -> f64 {
    turbulent_plate(log_reynolds) * (1.0 - 2.58 / (log_reynolds * std::f64::consts::LN_10))
}

/// Heat transfer coefficient of a smooth wall, W/(m2 K), `length` m behind the leading edge in air of a temperature
/// (K), density (kg/m3) and speed (m/s) outside the boundary layer; to be taken with [`recovery_temperature`].
///
/// Friction of the build-up at that place, compressible over an adiabatic wall, by the analogy of Reynolds with the
/// correction of Colburn: `h = rho u c_p C_f / 2 Pr^(-2/3)`. Turbulent from the tip; a laminar start would be
/// cooler. Known error: [`HEATING_ERROR`].
///
/// Source: textbook analogy, as F. P. Incropera et al., "Fundamentals of Heat and Mass Transfer", section 6.7
/// (from memory).
pub fn heat_transfer_coefficient(temperature: f64, density: f64, speed: f64, length: f64) -> f64 {
    let sound = (HEAT_CAPACITY_RATIO * GAS_CONSTANT * temperature).sqrt();
    let reynolds = (density * speed * length / viscosity(temperature)).max(LEAST_REYNOLDS);
    let friction = local_friction(libm::log10(reynolds)) * compressibility(speed / sound);
    let specific_heat = HEAT_CAPACITY_RATIO / (HEAT_CAPACITY_RATIO - 1.0) * GAS_CONSTANT;
    let colburn = 1.0 / libm::cbrt(PRANDTL * PRANDTL);
    density * speed * specific_heat * friction / 2.0 * colburn
}
