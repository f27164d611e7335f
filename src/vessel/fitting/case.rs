//! The loads of a fitting in each case.

use super::given::Fitting;
use crate::numerics::Real;

/// The cases, in their order.
pub const CASES: [&str; 4] = ["thrust", "drag", "ejection", "handling"];

/// What the flight brings to fittings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flown<R> {
    /// Largest axial acceleration, (thrust - drag) over mass, m/s2.
    pub acceleration: R,
    /// Largest dynamic pressure, Pa.
    pub dynamic_pressure: R,
}

impl<R: Real> Flown<R> {
    /// Nothing flies.
    pub fn at_rest() -> Self {
        let zero = R::splat(0.0);
        Self {
            acceleration: zero,
            dynamic_pressure: zero,
        }
    }
}

/// The loads of one case, without a factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CaseLoad<R> {
    /// Force along the vessel, N.
    pub axial: R,
    /// Force around the vessel, N.
    pub tangential: R,
    /// Force that pulls off the vessel, N.
    pub radial: R,
    /// Least pressure in the tank, Pa gauge.
    pub tank_pressure: R,
    /// Whether the tank may as well be at MEOP, as on its way up.
    pub flies: bool,
}

/// Square of a force along the shell that counts as none, N2: it keeps the derivative of the root a number.
const NONE: f64 = 1e-30;

impl<R: Real> CaseLoad<R> {
    /// Force along the shell, N.
    pub fn shear(&self) -> R {
        (self.axial.squared() + self.tangential.squared() + NONE).sqrt()
    }

    /// Pull, N, at a pad's corner that the forces and their moment come to: pressure under the pad is taken as
    /// linear, so that the corner has `(N + 6 M_x / L + 6 M_y / w) / A` of the pull `N` and the moments about both
    /// middles of a pad of length `L` and width `w`.
    pub fn corner_pull(&self, fitting: &Fitting<R>, arm: R) -> R {
        let tilting = self.axial / fitting.length + self.tangential / fitting.width;
        self.radial + tilting * arm * 6.0
    }
}

impl CaseLoad<f64> {
    /// Whether there is no force at all.
    pub fn is_none(&self) -> bool {
        self.axial == 0.0 && self.tangential == 0.0 && self.radial == 0.0
    }
}

impl<R: Real> Fitting<R> {
    /// The loads of every case, in the order of [`CASES`].
    pub fn cases(&self, flown: &Flown<R>) -> [CaseLoad<R>; 4] {
        let (thrust, drag) = (&self.thrust, &self.drag);
        let stated = |load: &super::given::StatedLoad<R>| CaseLoad {
            axial: load.axial_force,
            tangential: load.tangential_force,
            radial: load.radial_force,
            tank_pressure: load.tank_pressure,
            flies: false,
        };
        [
            CaseLoad {
                axial: thrust.axial_force + thrust.carried_mass * flown.acceleration.abs(),
                tangential: thrust.tangential_force,
                radial: thrust.radial_force,
                tank_pressure: thrust.tank_pressure,
                flies: true,
            },
            CaseLoad {
                axial: drag.axial_force + drag.drag_area * flown.dynamic_pressure,
                tangential: drag.tangential_force,
                radial: drag.radial_force,
                tank_pressure: drag.tank_pressure,
                flies: true,
            },
            stated(&self.ejection),
            stated(&self.handling),
        ]
    }
}
