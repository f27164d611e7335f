//! A pad glued onto the outside: shear lag in the glue, of a wall that grows below it and of a load that leaves it.

use super::case::CaseLoad;
use super::given::Fitting;
use crate::numerics::Real;
use crate::vessel::dimensions::Dimensions;
use crate::vessel::form::TankForm;
use crate::vessel::membrane::{membrane_response, wall_stiffness};
use crate::vessel::rising::{ahead, risen};
use crate::vessel::tank::Tank;

fn tanh<R: Real>(x: R) -> R {
    let [y] = x.chart(|x| {
        let value = libm::tanh(x);
        [(value, 1.0 - value * value)]
    });
    y
}

/// Peak shear stress, Pa, in the glue under a pad on a wall that strains by `strain` and is not held back by it.
///
/// The pad's line load `N` follows `dN/dx = tau`, the glue `d(tau)/dx = k (e - N / K)` with its stiffness `k = G /
/// t_a`, Pa/m, and the pad's `K`, N/m; both ends of the pad are free. So `N'' = l^2 (N - K e)` with `l^2 = k / K`, and
/// the ends have `tau = e K l tanh(l L / 2)`. A long pad strains with the wall, and its ends carry `e sqrt(k K)`; a
/// short one slides along as if rigid, with `e k L / 2`.
///
/// ```
/// use hoopline::vessel::fitting::growth_peak;
/// // 0.2 % under 5 mm of 70 GPa, glue of 1 GPa and 0.2 mm: sqrt(k K) = 41.83 GPa, l L / 2 = 2.39.
/// let peak = growth_peak(0.002, 70e9 * 0.005, 1e9 / 0.2e-3, 0.04);
/// assert!((peak / 82.3e6 - 1.0).abs() < 2e-3);
/// ```
pub fn growth_peak<R: Real>(strain: R, pad: R, glue: R, length: R) -> R {
    let decay = (glue / pad).sqrt();
    strain * pad * decay * tanh(decay * length * 0.5)
}

/// Peak shear stress, Pa, in the glue of a pad that hands a line load to the wall: the load enters the pad at one
/// end of its length and leaves the wall beyond the other.
///
/// O. Volkersen, Luftfahrtforschung 15 (1938), pages 41 to 47 (from memory, derived again from the equations of
/// [`growth_peak`] with a wall of stiffness `W` that gives way): `tau = tau_mean (l L / 2) (coth(l L / 2) + |W - K| /
/// (W + K) tanh(l L / 2))`, `l^2 = k (1 / K + 1 / W)`. A short lap has the mean everywhere.
///
/// ```
/// use hoopline::vessel::fitting::transfer_peak;
/// // Alike on both sides and long: half of l L times the mean; 1 mm of it: the mean.
/// let (load, k) = (1e5, 5e12);
/// assert!((transfer_peak(load, 2e8, 2e8, k, 0.2) / (load / 0.2 * 22.36) - 1.0).abs() < 1e-3);
/// assert!((transfer_peak(load, 2e8, 2e8, k, 1e-3) / (load / 1e-3) - 1.0).abs() < 5e-3);
/// ```
pub fn transfer_peak<R: Real>(line_load: R, pad: R, wall: R, glue: R, length: R) -> R {
    let one = R::splat(1.0);
    let half = (glue * (one / pad + one / wall)).sqrt() * length * 0.5;
    let unlike = (wall - pad).abs() / (wall + pad);
    let along = tanh(half);
    line_load / length * half * (one / along + unlike * along)
}

/// How much stiffer than the pad a wall is that does not give way: as good as rigid (own choice).
const RIGID: f64 = 1e12;

/// What the glue under pads has to follow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bond<R> {
    /// Axial and hoop strain of the wall at no pressure beyond that of the time of gluing: what has flowed since.
    pub grown: [R; 2],
    /// Axial and hoop strain per pressure, 1/Pa.
    pub strain_per_pressure: [R; 2],
    /// Stiffness of the wall along and around, N/m.
    pub wall: [R; 2],
}

impl<R: Real> Bond<R> {
    /// The wall under pads that were glued on, without pressure, after the autofrettage and before the proof test
    /// at `proof`, Pa gauge: where the liner flows in that, what it keeps stays in the glue.
    pub fn new(form: &TankForm, tank: &Tank<R>, size: &Dimensions<R>, proof: R) -> Self {
        let zero = R::splat(0.0);
        let (axial, hoop) = size.loads_per_pressure();
        let wall = size.minimum_wall;
        let unit = membrane_response(form, tank, wall, axial, hoop);
        let strain_per_pressure = [unit.axial_strain, unit.hoop_strain];
        let [ahead_axial, ahead_hoop] = ahead(form, tank, size);
        let wound = membrane_response(form, tank, wall, -ahead_axial, -ahead_hoop);
        let wound = [wound.axial_strain, wound.hoop_strain];
        let [cylinder, _] = risen(form, tank, size, proof);
        let has_been = !tank.autofrettage_pressure.lt(proof);
        let grown = [0, 1].map(|i| {
            let elastic = wound[i] + strain_per_pressure[i] * proof;
            let kept = (cylinder.strain[i] - elastic).max(zero);
            zero.select(kept, has_been)
        });
        let [along, _, around] = wall_stiffness(form, tank, wall);
        Self {
            grown,
            strain_per_pressure,
            wall: [along, around],
        }
    }

    /// Axial and hoop strain at a pressure, Pa gauge, since the pad was glued on.
    pub fn strain(&self, pressure: R) -> [R; 2] {
        [0, 1].map(|i| self.grown[i] + self.strain_per_pressure[i] * pressure)
    }

    /// Peak shear stress, Pa, in the glue at the pad's ends, along and around, of the wall's growth alone. Each
    /// direction is taken as that of a plate that follows the wall in the other: strain `e_x + nu e_y`, stiffness
    /// `E t / (1 - nu^2)`, more than a strip has.
    pub fn growth(&self, fitting: &Fitting<R>, pressure: R) -> [R; 2] {
        let nu = fitting.poisson_ratio;
        let strain = self.strain(pressure);
        let sizes = [fitting.length, fitting.width];
        [0, 1].map(|i| {
            let strain = (strain[i] + nu * strain[1 - i]).abs();
            growth_peak(strain, pad_stiffness(fitting), glue(fitting), sizes[i])
        })
    }

    /// Peak shear stress, Pa, along and around, of a case's forces alone: the larger with a wall as wide as the pad
    /// and with one that does not give way.
    pub fn transfer(&self, fitting: &Fitting<R>, load: &CaseLoad<R>) -> [R; 2] {
        let (pad, glue) = (pad_stiffness(fitting), glue(fitting));
        let sizes = [fitting.length, fitting.width];
        let forces = [load.axial, load.tangential];
        [0, 1].map(|i| {
            let line_load = forces[i] / sizes[1 - i];
            let peak = |wall: R| transfer_peak(line_load, pad, wall, glue, sizes[i]);
            peak(self.wall[i]).max(peak(pad * RIGID))
        })
    }

    /// Share of the bond's shear strength that growth alone takes in the proof test at `proof`, Pa gauge.
    pub fn proof_share(&self, fitting: &Fitting<R>, proof: R) -> R {
        let [along, around] = self.growth(fitting, proof);
        (along.squared() + around.squared()).sqrt() / fitting.bond_shear_strength
    }

    /// Share of the bond's strength that growth at a pressure and a case's forces take together, without a factor.
    ///
    /// Peaks of both directions meet at a corner, and add up there; pull is linear under the pad. Shares of shear
    /// and of pull are summed (own choice, on the safe side of any rounder rule).
    pub fn share(&self, fitting: &Fitting<R>, load: &CaseLoad<R>, pressure: R) -> R {
        let growth = self.growth(fitting, pressure);
        let transfer = self.transfer(fitting, load);
        let [along, around] = [0, 1].map(|i| growth[i] + transfer[i]);
        let shear = (along.squared() + around.squared()).sqrt();
        let arm = fitting.load_height + fitting.height;
        let pull = load.corner_pull(fitting, arm) / fitting.area();
        shear / fitting.bond_shear_strength + pull / fitting.bond_peel_strength
    }
}

fn pad_stiffness<R: Real>(fitting: &Fitting<R>) -> R {
    let nu = fitting.poisson_ratio;
    fitting.elastic_modulus * fitting.height / (-(nu * nu) + 1.0)
}

fn glue<R: Real>(fitting: &Fitting<R>) -> R {
    fitting.glue_shear_modulus / fitting.glue_thickness
}
