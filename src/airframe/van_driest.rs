//! A second method for the turbulent friction of a smooth plate in compressible flow; how far it lies
//! from the one of the build-up is the band of the friction.

use super::friction::{compressibility, turbulent_plate};
use crate::atmosphere::exact::SUTHERLAND_TEMPERATURE;
use crate::numerics::{Real, bracketed_newton};

/// What van Driest's second method takes about an adiabatic wall and the flow outside the boundary
/// layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AdiabaticWall {
    /// Share of the stream's kinetic energy that the wall sees as temperature.
    pub recovery_factor: f64,
    /// Temperature outside the boundary layer, K.
    pub edge_temperature: f64,
}

impl AdiabaticWall {
    /// A turbulent boundary layer (recovery factor 0.88, common practice) in the stratosphere of the
    /// standard atmosphere (216.65 K).
    pub const STRATOSPHERE: Self = Self {
        recovery_factor: 0.88,
        edge_temperature: 216.65,
    };

    /// Mean friction coefficient of a smooth plate; see [`van_driest`].
    pub fn friction<R: Real>(&self, mach: f64, log_reynolds: R) -> R {
        // At rest the factor is one, as the limit of 0/0.
        let recovered = (self.recovery_factor * 0.2 * mach * mach).max(1e-12);
        let wall = 1.0 + recovered;
        let angle = libm::asin((recovered / wall).sqrt());
        let factor = recovered / (angle * angle);
        let edge = self.edge_temperature;
        let viscosity = wall * wall.sqrt() * (edge + SUTHERLAND_TEMPERATURE)
            / (edge * wall + SUTHERLAND_TEMPERATURE);
        karman_schoenherr(log_reynolds - libm::log10(viscosity * factor)) / factor
    }
}

/// Mean friction coefficient of a smooth flat plate, turbulent from the leading edge, incompressible
/// (von Karman and Schoenherr): `0.242 / sqrt(C) = log10(Re C)`; takes the decimal logarithm of the
/// Reynolds number. Valid for Re 1e6 to 1e9; 1 to 3 % below
/// [`turbulent_plate`](super::turbulent_plate).
///
/// Source: K. E. Schoenherr, Transactions SNAME 40, 1932, 279-313 (as cited by NASA's Turbulence
/// Modeling Resource; the constant 0.242 from memory, the same law as `0.0586 / log10(Re C)^2` in the
/// CFD-Wiki's list of friction formulas).
///
/// ```
/// let plate = hoopline::airframe::karman_schoenherr(7.0_f64); // Re = 1e7
/// assert!((plate - 0.00293).abs() < 0.5e-5);
/// ```
pub fn karman_schoenherr<R: Real>(log_reynolds: R) -> R {
    // In y = 1 / sqrt(C) the law reads 0.242 y + 2 log10 y = log10 Re, which Newton solves quickly.
    let y = bracketed_newton(R::splat(2.0), R::splat(200.0), 16, |y| {
        let value = y * 0.242 + y.log10() * 2.0 - log_reynolds;
        (value, R::splat(2.0 * std::f64::consts::LOG10_E) / y + 0.242)
    });
    R::splat(1.0) / y.squared()
}

/// Mean friction coefficient of a smooth flat plate in compressible flow, turbulent from the leading
/// edge, by van Driest's second method: an incompressible plate ([`karman_schoenherr`]) at a changed
/// Reynolds number, over a factor. Takes the decimal logarithm of the Reynolds number of the outer
/// flow.
///
/// The wall is [`AdiabaticWall::STRATOSPHERE`]; viscosity follows Sutherland's law. Valid for Re 1e6 to
/// 1e9 and Mach 0 to 5. A wall that is still cool, at 300 K, has more friction: 7 % at Mach 2, 20 % at Mach 3 (Re 3e7).
///
/// The build-up does not use it: the roughness limit of the build-up is stated for the compressible
/// law it stands in ([`compressibility`](super::compressibility)). It is there to say how well friction
/// is known: see [`friction_spread`].
///
/// Source: E. R. van Driest, "The problem of aerodynamic heating", Aeronautical Engineering Review,
/// 1956 (from memory); equations as printed by NASA's Turbulence Modeling Resource, "2D Zero Pressure
/// Gradient High Mach Number Flat Plate Validation Case".
///
/// ```
/// let plate = hoopline::airframe::van_driest(2.0, 7.0_f64);
/// assert!((plate - 0.002316).abs() < 1e-6);
/// ```
pub fn van_driest<R: Real>(mach: f64, log_reynolds: R) -> R {
    AdiabaticWall::STRATOSPHERE.friction(mach, log_reynolds)
}

/// Share by which van Driest's second method ([`van_driest`]) lies above the compressible friction of
/// the build-up ([`turbulent_plate`](super::turbulent_plate) times
/// [`compressibility`](super::compressibility)): a band on the friction of a smooth surface.
///
/// At Reynolds number 1e7: Mach 1 -0.5 %, Mach 2 3.6 %, Mach 3 8.4 %, Mach 4 12.7 %. Of that the two
/// incompressible plates make -2.2 %.
///
/// ```
/// let spread = hoopline::airframe::friction_spread(3.0, 7.0);
/// assert!((spread - 0.0837).abs() < 5e-4);
/// ```
pub fn friction_spread(mach: f64, log_reynolds: f64) -> f64 {
    van_driest(mach, log_reynolds) / (turbulent_plate(log_reynolds) * compressibility(mach)) - 1.0
}
