//! Nitrous oxide: pressure, the states of liquid and vapour in equilibrium, and where a closed tank
//! that warms leaves them.
//!
//! Source: E. W. Lemmon, R. Span, "Short Fundamental Equations of State for 20 Industrial Fluids",
//! Journal of Chemical and Engineering Data 51 (2006), pages 785 to 850.

mod equation_of_state;
mod isochore;
mod saturation;

pub use equation_of_state::{MOLAR_MASS, pressure, pressure_slope};
pub use isochore::{closed_pressure, dry_temperature, liquid_full_temperature, warmed_to};
pub use saturation::{Saturation, saturation};

/// Critical temperature, K: where this equation of state has its critical point. The paper's
/// nominal value, 309.52 K, lies 0.7 mK below.
pub const CRITICAL_TEMPERATURE: f64 = 309.520_678_231_460_13;
/// Critical density, kg/m3, of this equation of state; nominally 452.01 kg/m3.
pub const CRITICAL_DENSITY: f64 = 452.931_477_618_786_04;
/// Temperature of the triple point, K: the lower end of the equation of state.
pub const TRIPLE_TEMPERATURE: f64 = 182.33;
/// Upper end of the equation of state in temperature, K.
pub const VALID_TEMPERATURE_MAX: f64 = 525.0;
/// Upper end of the equation of state in pressure, Pa absolute.
pub const VALID_PRESSURE_MAX: f64 = 50.0e6;
/// Densest state of the saturation line, kg/m3: liquid at the triple point, as computed from the
/// equation of state. A denser liquid exists only by compression beyond saturation.
pub const VALID_DENSITY_MAX: f64 = 1_237.350_9;
