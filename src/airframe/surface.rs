//! Friction of a surface: a plate's law at the surface's Reynolds number, smooth or rough.

use super::by_mach::{ByMach, log_mach};
use super::friction::{compressibility, cut_off_by_height, cut_off_shift, turbulent_plate};
use super::pressure_drag::subsonic_share;
use crate::numerics::{Polynomial, Real};
use std::sync::LazyLock;

/// Logarithms of Reynolds numbers below this are held there: such a surface is too small or too slow
/// for its friction to matter.
const LEAST_LOG_REYNOLDS: f64 = 5.0;
/// Above this they are held too: a surface of 60 m at Mach 5 at sea level.
const MOST_LOG_REYNOLDS: f64 = 10.0;
/// Least length of a surface, m; keeps the logarithm of a vehicle without fins finite.
const LEAST_LENGTH: f64 = 1e-6;

/// Friction of the incompressible plate against the logarithm of the Reynolds number.
static PLATE: LazyLock<Polynomial<10>> = LazyLock::new(|| {
    Polynomial::interpolating(LEAST_LOG_REYNOLDS, MOST_LOG_REYNOLDS, turbulent_plate)
});

/// A surface that friction acts on. All coefficients refer to the frontal area.
#[derive(Debug, Clone, Copy)]
pub(super) struct Surface<R> {
    log_length: R,
    /// Logarithm of the cut-off Reynolds number, but for its dependence on Mach number.
    log_cut_off: R,
    /// Wetted over reference area, times the multiplier of friction.
    share: R,
    /// What the form factor adds to one at low speed.
    form: R,
}

impl<R: Real> Surface<R> {
    /// That of one lane.
    pub fn lane(&self, lane: usize) -> Surface<f64> {
        Surface {
            log_length: self.log_length.lane(lane),
            log_cut_off: self.log_cut_off.lane(lane),
            share: self.share.lane(lane),
            form: self.form.lane(lane),
        }
    }
}

/// The flow along the surfaces.
#[derive(Clone, Copy)]
pub(super) struct Flow<R> {
    compressibility: R,
    /// Share of the subsonic form factor that stands.
    subsonic: R,
    /// Logarithm of the Reynolds number per metre.
    log_reynolds: R,
    /// What the cut-off Reynolds number takes from the Mach number.
    cut_off_shift: R,
}

impl<R: Real> Flow<R> {
    /// At a Mach number and a unit Reynolds number (decimal logarithm, at Mach 1), from the table.
    #[inline(always)]
    pub fn new(mach: &ByMach<R>, unit_reynolds: R) -> Self {
        Self {
            compressibility: mach.compressibility,
            subsonic: mach.subsonic,
            log_reynolds: mach.log_mach + unit_reynolds,
            cut_off_shift: cut_off_shift(mach.log_mach),
        }
    }
}

impl Flow<f64> {
    /// The same by the laws themselves.
    pub fn exact(mach: f64, unit_reynolds: f64) -> Self {
        Self {
            compressibility: compressibility(mach),
            subsonic: subsonic_share(mach),
            log_reynolds: log_mach(mach) + unit_reynolds,
            cut_off_shift: cut_off_shift(log_mach(mach)),
        }
    }
}

impl<R: Real> Surface<R> {
    /// From its length and the sand-grain height of its roughness, m; its wetted area over the
    /// reference area; what the form factor adds to one.
    pub fn new(length: R, roughness: R, share: R, form: R) -> Self {
        let length = length.max(R::splat(LEAST_LENGTH));
        Self {
            log_length: length.log10(),
            log_cut_off: cut_off_by_height(length, roughness),
            share,
            form,
        }
    }

    /// Friction coefficient, from the polynomial of the plate.
    #[inline(always)]
    pub fn friction(&self, flow: &Flow<R>) -> R {
        self.factor(flow) * PLATE.value(self.governing_reynolds(flow))
    }

    /// Friction coefficient, from the law of the plate.
    pub fn exact_friction(&self, flow: &Flow<R>) -> R {
        self.factor(flow) * turbulent_plate(self.governing_reynolds(flow))
    }

    /// Drag coefficient over the friction coefficient of an incompressible plate.
    #[inline(always)]
    fn factor(&self, flow: &Flow<R>) -> R {
        self.share * (self.form * flow.subsonic + 1.0) * flow.compressibility
    }

    /// Logarithm of the Reynolds number at which friction is taken: roughness holds it at the cut-off.
    #[inline(always)]
    fn governing_reynolds(&self, flow: &Flow<R>) -> R {
        let smooth = self.log_length + flow.log_reynolds;
        smooth
            .min(self.log_cut_off + flow.cut_off_shift)
            .clamp(LEAST_LOG_REYNOLDS, MOST_LOG_REYNOLDS)
    }
}
