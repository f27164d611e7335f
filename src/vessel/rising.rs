//! The cylinder under one rising pressure from rest, beyond yield: total strains in closed form but for one number.
//!
//! Stress and strain of a metal that flows are tied as in the theory of total strains (Hencky): elastic strain plus
//! one in the direction of the stress deviator. Along a path on which stresses keep their ratio it is the flow of
//! [`super::flow`]; where liner and fibres hand over to each other they do not quite, and the two differ by a few
//! per cent of strain, which the tests measure. For a given amount of flow the wall is linear, so that one root
//! per wall is left: cheap enough for every design of a study.
//!
//! Fibres count as taut. A wall that flows without limit is held at [`FARTHEST`].

use super::dimensions::Dimensions;
use super::form::TankForm;
use super::membrane::wall_stiffness;
use super::seam::{girth_strength, seam_thickness};
use super::tank::{Closure, Tank};
use crate::numerics::Real;

/// Newton steps; the equation is nearly straight, and five are enough (tests).
const STEPS: usize = 8;
/// Times the yield strain, in shear, that a wall may flow before it is taken to flow without limit; own choice.
const FARTHEST: f64 = 200.0;

/// A wall beyond yield.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Risen<R> {
    /// Amount of flow, 1/Pa: plastic strain over the stress deviator.
    pub flow: R,
    /// Axial and hoop strain.
    pub strain: [R; 2],
}

/// Liner metal and wrap of a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rising<R> {
    /// Stiffness against sum and difference of the strains while elastic, Pa.
    stiffness: [R; 2],
    yield_strength: R,
    plastic_modulus: R,
    thickness: R,
    /// Stiffness of the fibres: axial by axial, axial by hoop, hoop by hoop, N/m.
    wrap: [R; 3],
    /// Axial and hoop line load of the fibres where the wall has no strain, N/m.
    ahead: [R; 2],
}

impl<R: Real> Rising<R> {
    /// The liner at a thickness, m, and a yield strength, Pa, under the tank's wrap.
    pub fn new(
        form: &TankForm,
        tank: &Tank<R>,
        size: &Dimensions<R>,
        [thickness, yield_strength]: [R; 2],
    ) -> Self {
        let (metal, zero) = (&tank.liner.metal, R::splat(0.0));
        let nu = metal.poisson_ratio;
        Self {
            stiffness: [
                metal.elastic_modulus / (-nu + 1.0),
                metal.elastic_modulus / (nu + 1.0),
            ],
            yield_strength,
            plastic_modulus: tank.liner.plastic_modulus,
            thickness,
            wrap: wall_stiffness(form, tank, zero),
            ahead: ahead(form, tank, size),
        }
    }

    /// The liner's stiffness after an amount of flow, direct and cross, Pa, and how they change with it.
    fn softened(&self, flow: R) -> [[R; 2]; 2] {
        let [sum, difference] = self.stiffness;
        let sum = sum / (sum * flow * (1.0 / 3.0) + 1.0);
        let difference = difference / (difference * flow + 1.0);
        let [falls, drops] = [sum.squared() * (-1.0 / 3.0), -difference.squared()];
        let halves = |a: R, b: R| [(a + b) * 0.5, (a - b) * 0.5];
        [halves(sum, difference), halves(falls, drops)]
    }

    /// Strains under an axial and a hoop line load, N/m.
    pub fn under(&self, loads: [R; 2]) -> Risen<R> {
        let [axial, hoop] = [0, 1].map(|i| loads[i] - self.ahead[i]);
        let solved = |[aa, ah, hh]: [R; 3], [a, h]: [R; 2]| {
            let determinant = aa * hh - ah * ah;
            [
                (a * hh - h * ah) / determinant,
                (h * aa - a * ah) / determinant,
            ]
        };
        let stiff = |[direct, cross]: [R; 2]| {
            let [aa, ah, hh] = self.wrap;
            let t = self.thickness;
            [aa + direct * t, ah + cross * t, hh + direct * t]
        };
        let at = |flow: R| {
            let [now, change] = self.softened(flow);
            let stiffness = stiff(now);
            let strain = solved(stiffness, [axial, hoop]);
            let pull = stress(change, strain).map(|stress| -stress * self.thickness);
            (strain, solved(stiffness, pull), now, change)
        };
        self.settled(at)
    }

    /// Strains of a zone that carries an axial line load, N/m, at the hoop strain of its neighbours.
    pub fn held(&self, axial: R, hoop_strain: R) -> Risen<R> {
        let (axial, zero) = (axial - self.ahead[0], R::splat(0.0));
        let t = self.thickness;
        let at = |flow: R| {
            let [now, change] = self.softened(flow);
            let stiffness = self.wrap[0] + now[0] * t;
            let along = (axial - (self.wrap[1] + now[1] * t) * hoop_strain) / stiffness;
            let strain = [along, hoop_strain];
            let [pull, _] = stress(change, strain);
            (strain, [-pull * t / stiffness, zero], now, change)
        };
        self.settled(at)
    }

    /// Finds the flow at which the equivalent stress is what the metal has hardened to; `at` gives strains, their
    /// change with the flow, and the liner's stiffness with its change.
    fn settled(&self, at: impl Fn(R) -> ([R; 2], [R; 2], [R; 2], [R; 2])) -> Risen<R> {
        let farthest = R::splat(FARTHEST) / self.stiffness[1];
        let mut flow = R::splat(0.0);
        for _ in 0..STEPS {
            let (strain, moves, now, change) = at(flow);
            let [a, h] = stress(now, strain);
            let [stiffer, shifted] = [stress(change, strain), stress(now, moves)];
            let [da, dh] = [0, 1].map(|i| stiffer[i] + shifted[i]);
            let equivalent = (a * a - a * h + h * h).sqrt();
            let falls = (a * da - (a * dh + h * da) * 0.5 + h * dh) / equivalent;
            let over = self.yield_strength / equivalent;
            let hardens = self.plastic_modulus * (2.0 / 3.0);
            let miss = over + hardens * flow - 1.0;
            let slope = hardens - over * falls / equivalent;
            let next = flow - miss / slope.max(R::splat(1e-30));
            flow = next.max(R::splat(0.0)).min(farthest);
        }
        let (strain, ..) = at(flow);
        Risen { flow, strain }
    }
}

/// Axial and hoop line load, N/m, of the fibres where the wall has no strain: what winding leaves in them, less what
/// the gap takes.
pub(super) fn ahead<R: Real>(form: &TankForm, tank: &Tank<R>, size: &Dimensions<R>) -> [R; 2] {
    let overwrap = &tank.overwrap;
    let mut ahead = [R::splat(0.0); 2];
    let gap = overwrap.gap / (size.inner_diameter * 0.5 + size.wall);
    for (ply, kind) in form.wound(overwrap) {
        let [along, around] = ply.strain_shares(kind);
        let stress = overwrap.winding_stress - around * gap * overwrap.fibre.elastic_modulus;
        let load = stress * ply.fibre_thickness;
        ahead = [ahead[0] + load * along, ahead[1] + load * around];
    }
    ahead
}

/// The larger of the strains of a weld zone, along the vessel or around it, which it has from its neighbours.
pub fn largest_zone_strain<R: Real>([cylinder, zone]: &[Risen<R>; 2]) -> R {
    zone.strain[0].max(cylinder.strain[1])
}

/// Axial and hoop stress of a direct and a cross modulus, Pa.
fn stress<R: Real>([direct, cross]: [R; 2], [a, h]: [R; 2]) -> [R; 2] {
    [direct * a + cross * h, direct * h + cross * a]
}

/// The cylinder at its minimum wall and the girth seam's weld zone, under a pressure, Pa gauge.
pub fn risen<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    pressure: R,
) -> [Risen<R>; 2] {
    let metal = &tank.liner.metal;
    let wall = size.minimum_wall;
    let (axial, hoop) = size.loads_per_pressure();
    let throat = seam_thickness(form, tank, wall, Closure::minimum_thickness);
    let (parent, zone) = (metal.yield_strength, metal.weld_zone_yield_strength);
    let across = girth_strength(form, tank, parent, zone);
    let cylinder = Rising::new(form, tank, size, [wall, parent]);
    let cylinder = cylinder.under([axial * pressure, hoop * pressure]);
    let seam = Rising::new(form, tank, size, [throat, across]);
    [cylinder, seam.held(axial * pressure, cylinder.strain[1])]
}
