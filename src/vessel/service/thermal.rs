//! Liner and fibres that would like different lengths, held at one strain.

use crate::numerics::Real;
use crate::vessel::flow::equivalent_stress;
use crate::vessel::form::TankForm;
use crate::vessel::membrane::membrane_response;
use crate::vessel::tank::Tank;

/// Stress of a cylinder whose liner and fibres share strains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThermalStress {
    /// Axial and hoop strain from where both were free of thermal stress.
    pub strain: [f64; 2],
    /// Axial and hoop stress of the liner, mean through its wall, Pa.
    pub liner: [f64; 2],
    /// Least and largest stress along a fibre, Pa; both zero without plies.
    pub fibre: [f64; 2],
}

impl ThermalStress {
    /// Equivalent stress of the liner over its yield strength.
    pub fn yield_share(&self, tank: &Tank<f64>) -> f64 {
        equivalent_stress(self.liner) / tank.liner.metal.yield_strength
    }
}

/// Stress, Pa, of a liner that is kept from a free strain in both directions, with its sign turned.
fn held_stress<R: Real>(tank: &Tank<R>, free: R) -> R {
    let metal = &tank.liner.metal;
    metal.elastic_modulus / (-metal.poisson_ratio + 1.0) * free
}

/// Line loads, axial and hoop, N/m, that would strain the cylinder as its free strains do, those of liner and fibre;
/// `wall` is the liner's thickness, m.
pub fn free_pull<R: Real>(form: &TankForm, tank: &Tank<R>, wall: R, free: [R; 2]) -> [R; 2] {
    let mut pull = [wall * held_stress(tank, free[0]); 2];
    for (ply, kind) in form.wound(&tank.overwrap) {
        let shares = ply.strain_shares(kind);
        let alone = free[1] * (shares[0] + shares[1]);
        let stiffness = tank.overwrap.fibre.elastic_modulus * ply.fibre_thickness;
        for (pull, share) in pull.iter_mut().zip(shares) {
            *pull = *pull + stiffness * alone * share;
        }
    }
    pull
}

/// Solves the elastic cylinder under line loads `loads` (axial, hoop; N/m) whose liner would strain by `free[0]` and
/// whose fibres by `free[1]` if each were alone; `wall` is the liner's thickness, m.
///
/// `[K + t Q] e = N + t Q f_l {1, 1} + sum E_f t_f m m^T f_f {1, 1}`, with `K`, `Q` and `m` of
/// [`membrane_response`]; then `s_l = Q (e - f_l {1, 1})` and `s_f = E_f m^T (e - f_f {1, 1})`. Bonded: fibres may be
/// pressed. The resin is left out; it shrinks more than either and would put more tension into the wrap across its
/// fibres, less than its share of the stiffness into the rest.
pub fn thermal_stress(
    form: &TankForm,
    tank: &Tank<f64>,
    wall: f64,
    loads: [f64; 2],
    free: [f64; 2],
) -> ThermalStress {
    let modulus = tank.overwrap.fibre.elastic_modulus;
    let held = held_stress(tank, free[0]);
    let pull = free_pull(form, tank, wall, free);
    let shared = membrane_response(form, tank, wall, loads[0] + pull[0], loads[1] + pull[1]);
    let strain = [shared.axial_strain, shared.hoop_strain];
    let stresses = form.wound(&tank.overwrap).map(|(ply, kind)| {
        let [along, around] = ply.strain_shares(kind);
        modulus * (along * (strain[0] - free[1]) + around * (strain[1] - free[1]))
    });
    let fibre = stresses.fold(None, |range: Option<[f64; 2]>, stress| {
        let [least, most] = range.unwrap_or([stress; 2]);
        Some([least.min(stress), most.max(stress)])
    });
    ThermalStress {
        strain,
        liner: [shared.liner_axial - held, shared.liner_hoop - held],
        fibre: fibre.unwrap_or([0.0; 2]),
    }
}

/// Radial gap that a liner leaves which has come off its wrap, m: the difference of the free strains times the
/// radius between them; zero where the liner presses outwards.
///
/// Every fibre of a wrap by itself strains alike, so that the wrap shrinks as its fibre does along itself.
///
/// ```
/// // Aluminium under carbon, 60 K colder, 75 mm: about a tenth of a millimetre.
/// let gap = hoopline::vessel::service::gap_after(23e-6, 0.0, 60.0, 0.075);
/// assert!((gap - 0.10e-3).abs() < 0.005e-3);
/// ```
pub fn gap_after<R: Real>(liner: R, fibre: R, cooling: R, radius: R) -> R {
    ((liner - fibre) * cooling * radius).max(R::splat(0.0))
}
