//! The edges that meet at a junction: what each answers with, stresses at its surfaces, and the cylinder's.

use super::dimensions::Dimensions;
use super::form::TankForm;
use super::membrane::{axial_line_load, hoop_line_load, membrane_response, wall_stiffness};
use super::tank::Tank;
use crate::numerics::Real;

/// Line force, N/m, and couple, N, that an edge asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Edge<R> {
    /// By radial displacement, m, and turn, rad.
    pub stiffness: [[R; 2]; 2],
    /// Under a unit of pressure with neither.
    pub held: [R; 2],
}

impl<R: Real> Edge<R> {
    /// One that asks for nothing.
    pub fn free() -> Self {
        let none = R::splat(0.0);
        Self {
            stiffness: [[none; 2]; 2],
            held: [none; 2],
        }
    }

    /// Force and couple for a movement.
    pub fn answer(&self, [displaced, turned]: [R; 2], loaded: bool) -> [R; 2] {
        [0, 1].map(|row| {
            let [by_w, by_t] = self.stiffness[row];
            let moved = by_w * displaced + by_t * turned;
            if loaded {
                moved + self.held[row]
            } else {
                moved
            }
        })
    }
}

/// Stresses at both surfaces, along the meridian and around.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stress<R> {
    /// At the inside.
    pub inner: [R; 2],
    /// At the outside.
    pub outer: [R; 2],
}

impl<R: Real> Stress<R> {
    /// From line loads, N/m, and moments, N, that stretch the outside where positive.
    pub(super) fn of(line: [R; 2], moments: [R; 2], thickness: R) -> Self {
        let mean = line.map(|load| load / thickness);
        let bent = moments.map(|moment| moment * 6.0 / thickness.squared());
        Self {
            inner: [mean[0] - bent[0], mean[1] - bent[1]],
            outer: [mean[0] + bent[0], mean[1] + bent[1]],
        }
    }

    pub(super) fn nought() -> Self {
        let none = [R::splat(0.0); 2];
        Self {
            inner: none,
            outer: none,
        }
    }

    pub(super) fn plus(&self, other: &Self, scale: R) -> Self {
        let sum = |a: [R; 2], b: [R; 2]| [a[0] + b[0] * scale, a[1] + b[1] * scale];
        Self {
            inner: sum(self.inner, other.inner),
            outer: sum(self.outer, other.outer),
        }
    }

    /// Squared equivalent (von Mises) stresses at inside and outside; `pressed` is the pressure on the inside.
    pub fn equivalent_squared(&self, pressed: R) -> [R; 2] {
        let of = |[a, h]: [R; 2], r: R| {
            ((a - h).squared() + (h + r).squared() + (a + r).squared()) * 0.5
        };
        [of(self.inner, pressed), of(self.outer, R::splat(0.0))]
    }
}

/// The cylinder's edge.
pub(super) struct Wall<R> {
    pub radius: R,
    pub thickness: R,
    pub bending: R,
    pub plane: R,
    pub nu: R,
    /// Wave number, 1/m.
    pub wave: R,
    /// Free radial growth.
    pub growth: R,
    /// Axial per hoop strain while the axial load stays.
    pub follows: R,
    /// Line loads of the liner, axial and hoop.
    pub loads: [R; 2],
    pub edge: Edge<R>,
}

impl<R: Real> Wall<R> {
    /// Of a tank, at the liner's minimum wall, under a unit of pressure.
    pub fn new(form: &TankForm, tank: &Tank<R>, size: &Dimensions<R>) -> Self {
        let metal = &tank.liner.metal;
        let (thickness, inner, radius) = (
            size.minimum_wall,
            size.inner_diameter * 0.5,
            size.mean_radius(),
        );
        let one = R::splat(1.0);
        let axial = axial_line_load(one, inner, radius);
        let hoop = hoop_line_load(one, inner);
        let free = membrane_response(form, tank, thickness, axial, hoop);
        let [aa, ah, hh] = wall_stiffness(form, tank, thickness);
        let nu = metal.poisson_ratio;
        let plane = metal.elastic_modulus / (-(nu * nu) + 1.0);
        let bending = plane * thickness.cubed() / 12.0;
        let foundation = (hh - ah * ah / aa) / radius.squared();
        let wave = (foundation / (bending * 4.0)).sqrt().sqrt();
        let growth = free.hoop_strain * radius;
        let (square, cube) = (wave.squared() * bending * 2.0, wave.cubed() * bending * 4.0);
        Self {
            radius,
            thickness,
            bending,
            plane,
            nu,
            wave,
            growth,
            follows: -(ah / aa),
            loads: [free.liner_axial * thickness, free.liner_hoop * thickness],
            edge: Edge {
                stiffness: [[cube, square], [square, wave * bending * 2.0]],
                held: [-(cube * growth), -(square * growth)],
            },
        }
    }

    /// Stresses where the decaying wave's cosine and sine are these.
    pub fn stress(
        &self,
        [displaced, turned]: [R; 2],
        loaded: bool,
        [cos, sin]: [f64; 2],
    ) -> Stress<R> {
        let none = R::splat(0.0);
        let (growth, loads) = if loaded {
            (self.growth, self.loads)
        } else {
            (none, [none; 2])
        };
        let a = displaced - growth;
        let b = turned / self.wave + a;
        let hoop = (a * cos + b * sin) / self.radius;
        let axial = self.follows * hoop;
        let stiff = self.plane * self.thickness;
        let line = [
            loads[0] + stiff * (axial + self.nu * hoop),
            loads[1] + stiff * (hoop + self.nu * axial),
        ];
        let moment = self.bending * self.wave.squared() * 2.0 * (b * cos - a * sin);
        Stress::of(line, [moment, self.nu * moment], self.thickness)
    }
}
