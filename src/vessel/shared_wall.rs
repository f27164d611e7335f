//! Liner and overwrap of the cylinder at one strain, the liner plastic where it must.

use super::flow::{Answer, FlowLaw, Flowed};
use super::form::{MAX_PLIES, TankForm};
use super::tank::Tank;

/// Largest number of corrections.
const MOST: usize = 60;
/// Part of the load, or of what the liner yields at if that is more, by which equilibrium may miss.
const CLOSE: f64 = 1e-12;
/// Strain beyond which the wall is taken to have collapsed: far above what fibres and liners bear, and
/// the model of small strains ends before.
const COLLAPSED: f64 = 0.2;

/// A ply as the wall sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Band {
    /// Its shares of axial and hoop strain.
    shares: [f64; 2],
    /// Elastic modulus times fibre thickness, N/m.
    stiffness: f64,
    /// Strain of the fibre where the wall has none: of winding tension, less that of a gap.
    ahead: f64,
    /// Strain at which it breaks.
    breaks_at: f64,
}

/// The wall of the cylinder, or of a weld zone under the same wrap.
#[derive(Debug, Clone, PartialEq)]
pub struct SharedWall {
    /// The liner's metal.
    pub law: FlowLaw,
    /// The liner's thickness, m.
    pub thickness: f64,
    bands: [Band; MAX_PLIES],
    count: usize,
}

/// A wall in equilibrium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strained {
    /// Axial and hoop strain.
    pub strain: [f64; 2],
    /// The liner's stress, stiffness and flow.
    pub liner: Answer,
}

impl SharedWall {
    /// Of a tank with a liner of a thickness, m, and a radial gap between liner and wrap, over their radius.
    pub fn new(
        form: &TankForm,
        tank: &Tank<f64>,
        law: FlowLaw,
        thickness: f64,
        gap_over_radius: f64,
    ) -> Self {
        let fibre = &tank.overwrap.fibre;
        let mut wall = Self {
            law,
            thickness,
            bands: [Band {
                shares: [0.0; 2],
                stiffness: 0.0,
                ahead: 0.0,
                breaks_at: f64::INFINITY,
            }; MAX_PLIES],
            count: form.plies,
        };
        for (band, (ply, kind)) in wall.bands.iter_mut().zip(form.wound(&tank.overwrap)) {
            let shares = ply.strain_shares(kind);
            *band = Band {
                shares,
                stiffness: fibre.elastic_modulus * ply.fibre_thickness,
                ahead: tank.overwrap.winding_stress / fibre.elastic_modulus
                    - shares[1] * gap_over_radius,
                breaks_at: fibre.strength * ply.translation_efficiency / fibre.elastic_modulus,
            };
        }
        wall
    }

    /// Largest fibre strain over the one at which it breaks, and the number of its ply.
    pub fn nearest_to_break(&self, strain: [f64; 2]) -> Option<(usize, f64)> {
        let bands = self.bands[..self.count].iter().enumerate();
        bands
            .map(|(ply, band)| (ply, band.strain(strain) / band.breaks_at))
            .reduce(|worst, next| if next.1 > worst.1 { next } else { worst })
    }

    /// Line loads of the wrap, axial and hoop, N/m.
    pub fn wrap_loads(&self, strain: [f64; 2]) -> [f64; 2] {
        let mut loads = [0.0; 2];
        for band in &self.bands[..self.count] {
            let force = band.stiffness * band.strain(strain);
            for (load, share) in loads.iter_mut().zip(band.shares) {
                *load += force * share;
            }
        }
        loads
    }

    /// Its stiffness with a liner's: axial by axial, axial by hoop, hoop by hoop, N/m.
    fn stiffness(&self, strain: [f64; 2], liner: [f64; 3]) -> [f64; 3] {
        let mut sum = liner.map(|modulus| modulus * self.thickness);
        for band in &self.bands[..self.count] {
            if band.strain(strain) > 0.0 {
                let [a, h] = band.shares;
                for (entry, part) in sum.iter_mut().zip([a * a, a * h, h * h]) {
                    *entry += band.stiffness * part;
                }
            }
        }
        sum
    }

    /// The strain at which the wall carries an axial and a hoop line load, N/m, from a state before; none
    /// if there is no such strain, because the liner flows without limit.
    pub fn under(&self, loads: [f64; 2], before: &Strained) -> Option<Strained> {
        let scale = self.scale(loads[0].abs().max(loads[1].abs()));
        let mut strain = before.strain;
        let flowed = before.liner.flowed;
        for _ in 0..MOST {
            let liner = self.law.answer(strain, &flowed);
            let wrap = self.wrap_loads(strain);
            let miss = [0, 1].map(|i| loads[i] - liner.stress[i] * self.thickness - wrap[i]);
            if miss.iter().all(|miss| miss.abs() <= CLOSE * scale) {
                return Some(Strained { strain, liner });
            }
            let step = solved(self.stiffness(strain, liner.stiffness), miss)?;
            strain = [0, 1].map(|i| strain[i] + step[i]);
            if strain
                .iter()
                .any(|strain| strain.is_nan() || strain.abs() > COLLAPSED)
            {
                return None;
            }
        }
        None
    }

    /// As [`SharedWall::under`], but with the hoop strain given: a zone held by its neighbours.
    pub fn held(&self, axial: f64, hoop_strain: f64, before: &Strained) -> Option<Strained> {
        let mut strain = [before.strain[0], hoop_strain];
        let flowed = before.liner.flowed;
        let scale = self.scale(axial.abs());
        for _ in 0..MOST {
            let liner = self.law.answer(strain, &flowed);
            let miss = axial - liner.stress[0] * self.thickness - self.wrap_loads(strain)[0];
            if miss.abs() <= CLOSE * scale {
                return Some(Strained { strain, liner });
            }
            let [stiffness, ..] = self.stiffness(strain, liner.stiffness);
            strain[0] += miss / stiffness;
            if strain[0].is_nan() || strain[0].abs() > COLLAPSED {
                return None;
            }
        }
        None
    }

    fn scale(&self, load: f64) -> f64 {
        load.max(self.law.yield_strength * self.thickness)
    }

    /// Whether the liner has hardened up to a strength, Pa.
    pub fn hardened_to(&self, strength: f64, strained: &Strained) -> bool {
        let hardens = self.law.plastic_modulus > 0.0;
        hardens && self.law.yield_after(strained.liner.flowed.equivalent) >= strength
    }

    /// As it stands with no load and no flow.
    pub fn unstrained(&self) -> Strained {
        Strained {
            strain: [0.0; 2],
            liner: self.law.answer([0.0; 2], &Flowed::default()),
        }
    }
}

impl Band {
    fn strain(&self, [axial, hoop]: [f64; 2]) -> f64 {
        (self.shares[0] * axial + self.shares[1] * hoop + self.ahead).max(0.0)
    }
}

/// Solves a symmetric pair of equations; none if it is singular.
fn solved([aa, ah, hh]: [f64; 3], [a, h]: [f64; 2]) -> Option<[f64; 2]> {
    let determinant = aa * hh - ah * ah;
    (determinant > 0.0).then(|| {
        [
            (a * hh - h * ah) / determinant,
            (h * aa - a * ah) / determinant,
        ]
    })
}
