//! Liner and overwrap of the cylinder at one strain, the liner plastic where it must.

use super::flow::{Answer, FlowLaw, Flowed, equivalent_stress};
use super::form::{MAX_PLIES, TankForm};
use super::tank::Tank;

/// Largest number of corrections.
const MOST: usize = 60;
/// Part of the load, or of what the liner yields at if that is more, by which equilibrium may miss.
const CLOSE: f64 = 1e-10;
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
    /// Shares of axial and hoop strain across the fibre.
    across: [f64; 2],
    /// Strain across it that a gap takes before.
    across_gap: f64,
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
                across: [0.0; 2],
                across_gap: 0.0,
            }; MAX_PLIES],
            count: form.plies,
        };
        for (band, (ply, kind)) in wall.bands.iter_mut().zip(form.wound(&tank.overwrap)) {
            let shares = ply.strain_shares(kind);
            let across = ply.strain_shares_across();
            *band = Band {
                shares,
                stiffness: fibre.elastic_modulus * ply.fibre_thickness,
                ahead: tank.overwrap.winding_stress / fibre.elastic_modulus
                    - shares[1] * gap_over_radius,
                breaks_at: fibre.strength * ply.translation_efficiency / fibre.elastic_modulus,
                across,
                across_gap: across[1] * gap_over_radius,
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

    /// Largest strain across the fibre of any ply: what its resin bears.
    pub fn across_fibre(&self, [axial, hoop]: [f64; 2]) -> f64 {
        let bands = self.bands[..self.count].iter();
        bands.fold(0.0, |largest, band| {
            let [a, h] = band.across;
            largest.max(a * axial + h * hoop - band.across_gap)
        })
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
    /// if there is no such strain, because the liner flows without limit. The search for it starts at `near`.
    pub fn under(&self, loads: [f64; 2], before: &Strained, near: [f64; 2]) -> Option<Strained> {
        self.balanced(&self.law, loads, before, near)
    }

    /// The same if the liner did not flow on the way.
    pub fn tried_under(&self, loads: [f64; 2], before: &Strained) -> Option<Strained> {
        self.balanced(&self.law.without_flow(), loads, before, before.strain)
    }

    fn balanced(
        &self,
        law: &FlowLaw,
        loads: [f64; 2],
        before: &Strained,
        near: [f64; 2],
    ) -> Option<Strained> {
        let scale = self.scale(loads[0].abs().max(loads[1].abs()));
        let mut strain = near;
        let flowed = before.liner.flowed;
        for _ in 0..MOST {
            let liner = law.answer(strain, &flowed);
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

    /// As [`SharedWall::under`], but with the line load of one direction (0 axial, 1 hoop) and the strain of the
    /// other given: a zone held by its neighbours. The search starts at the strain `near`.
    pub fn held(
        &self,
        along: usize,
        load: f64,
        other_strain: f64,
        before: &Strained,
        near: f64,
    ) -> Option<Strained> {
        self.held_by(&self.law, along, [load, other_strain], before, near)
    }

    /// The same if the liner did not flow on the way.
    pub fn tried_held(
        &self,
        along: usize,
        load: f64,
        other_strain: f64,
        before: &Strained,
    ) -> Option<Strained> {
        let law = self.law.without_flow();
        self.held_by(
            &law,
            along,
            [load, other_strain],
            before,
            before.strain[along],
        )
    }

    fn held_by(
        &self,
        law: &FlowLaw,
        along: usize,
        [load, other_strain]: [f64; 2],
        before: &Strained,
        near: f64,
    ) -> Option<Strained> {
        let mut strain = [near; 2];
        strain[1 - along] = other_strain;
        let flowed = before.liner.flowed;
        let scale = self.scale(load.abs());
        for _ in 0..MOST {
            let liner = law.answer(strain, &flowed);
            let miss = load - liner.stress[along] * self.thickness - self.wrap_loads(strain)[along];
            if miss.abs() <= CLOSE * scale {
                return Some(Strained { strain, liner });
            }
            // Of the three entries the first belongs to the axial direction, the last to the hoop direction.
            strain[along] += miss / self.stiffness(strain, liner.stiffness)[2 * along];
            if strain[along].is_nan() || strain[along].abs() > COLLAPSED {
                return None;
            }
        }
        None
    }

    fn scale(&self, load: f64) -> f64 {
        load.max(self.law.yield_strength * self.thickness)
    }

    /// Equivalent stress over the yield strength reached, less one.
    pub fn excess(&self, strained: &Strained) -> f64 {
        let liner = &strained.liner;
        equivalent_stress(liner.stress) / self.law.yield_after(liner.flowed.equivalent) - 1.0
    }

    /// The strength that the liner has hardened to over one, Pa, that it cannot exceed; zero for a metal that does
    /// not harden.
    pub fn hardened(&self, strength: f64, strained: &Strained) -> f64 {
        if self.law.plastic_modulus > 0.0 {
            self.law.yield_after(strained.liner.flowed.equivalent) / strength
        } else {
            0.0
        }
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
