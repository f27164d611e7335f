//! The bending of a dome under pressure and loads at its edge: Reissner's equations of a shell of
//! revolution, by finite volumes along the meridian.
//!
//! Unknown are the turn of the meridian `w` (omega) and the stress function `P` (psi), radius times radial
//! line load. With `s` along the meridian, `r` the radius, `f` the angle between normal and axis, `D` the
//! bending and `E t` the stretching stiffness:
//!
//! ```text
//! D [(r w')' - (cos^2 f / r + nu f' sin f) w] - P sin f = -p r^2 cos f / 2
//! (r P')' - (cos^2 f / r - nu f' sin f) P + E t w sin f = -p cos f (3/2 r sin f + (1 - nu/2) r^2 f')
//! ```
//!
//! The first is the balance of moments, the second keeps the surface whole. Derived from the virtual work of
//! stretching and bending (E. Reissner and E. Meissner gave the equations; from memory), and held against
//! solid finite elements (tests/python). Membrane and edge stresses are both in it, so that an ellipsoid's and
//! a torisphere's changing radii need no approximation. Thin shell: its stresses are off by about the
//! thickness over the radius.

use super::edge::{Edge, Stress};
use super::form::ClosureKind;
use super::meridian::{CELLS, Meridian, meridian};
use super::tank::Closure;
use crate::numerics::Real;

/// Places of a dome: its edge, and the middle of every cell.
pub(super) const PLACES: usize = CELLS + 1;
/// Places among which those within a quarter of the edge wave are, for walls up to a tenth of the radius.
pub(super) const NEAR: usize = 13;

/// Two unknowns at a node as a function of those at the node before: matrix and constant.
type Passed<R> = ([[R; 2]; 2], [R; 2]);

/// A dome under a unit of pressure, solved down to its edge.
pub(super) struct Dome<R> {
    shape: Meridian<R>,
    passed: [Passed<R>; CELLS],
    /// What the edge answers with.
    pub edge: Edge<R>,
    thickness: R,
    bending: R,
    poisson_ratio: R,
    /// Pressure on the middle surface that pulls like a unit of pressure on the inside.
    pressure: R,
}

impl<R: Real> Dome<R> {
    /// Of a closure of inside `diameter` at the thickness given, m, and the metal's modulus, Pa, and
    /// Poisson's ratio.
    pub fn new(
        kind: ClosureKind,
        closure: &Closure<R>,
        diameter: R,
        thickness: R,
        [modulus, nu]: [R; 2],
    ) -> Self {
        let shape = meridian(kind, closure, diameter, thickness);
        let (one, zero) = (R::splat(1.0), R::splat(0.0));
        let stretching = modulus * thickness;
        let bending = stretching * thickness.squared() / ((one - nu.squared()) * 12.0);
        // Stretching over bending; the stress function is carried over the bending stiffness.
        let ratio = stretching / bending;
        let radius = shape.nodes[0].radius;
        let pressure = (diameter * 0.5 / radius).squared();
        let pushed = pressure / bending;
        let flux = shape.cells.map(|cell| cell.radius / cell.length);
        let mut passed: [Passed<R>; CELLS] = [([[zero; 2]; 2], [zero; 2]); CELLS];
        for place in (1..CELLS).rev() {
            let [before, after] = [shape.cells[place - 1], shape.cells[place]];
            let node = shape.nodes[place];
            let length = (before.length + after.length) * 0.5;
            let turn = (before.turn + after.turn) * 0.5;
            let (inward, outward) = (flux[place], flux[place - 1]);
            let round = node.cos.squared() / node.radius * length;
            let poisson = nu * node.sin * turn;
            let whole = inward + outward + round;
            let span = node.sin * length;
            let load = pushed * node.cos * node.radius;
            let loads = [
                -(load * node.radius * length * 0.5),
                -(load * (span * 1.5 + (-nu * 0.5 + 1.0) * node.radius * turn)),
            ];
            let (matrix, constant) = if place + 1 < CELLS {
                passed[place]
            } else {
                ([[zero; 2]; 2], [zero; 2])
            };
            let block = [
                [
                    -(whole + poisson) + inward * matrix[0][0],
                    -span + inward * matrix[0][1],
                ],
                [
                    ratio * span + inward * matrix[1][0],
                    -(whole - poisson) + inward * matrix[1][1],
                ],
            ];
            let inverse = inverted(block);
            let rest = [0, 1].map(|row| loads[row] - inward * constant[row]);
            passed[place - 1] = (
                inverse.map(|row| row.map(|entry| -(entry * outward))),
                applied(inverse, rest),
            );
        }
        let mut dome = Self {
            shape,
            passed,
            edge: Edge::free(),
            thickness,
            bending,
            poisson_ratio: nu,
            pressure,
        };
        dome.edge = dome.at_edge(ratio, pushed);
        dome
    }

    /// Force and couple at the edge for a radial displacement and a turn of it.
    fn at_edge(&self, ratio: R, pushed: R) -> Edge<R> {
        let (edge, first) = (self.shape.cells[0], self.shape.nodes[1]);
        let radius = self.shape.nodes[0].radius;
        let nu = self.poisson_ratio;
        let (length, turn) = (edge.length * 0.5, edge.turn * 0.5);
        let flux = edge.radius / edge.length;
        let (matrix, constant) = self.passed[0];
        let poisson = nu * turn;
        // Loads of half a cell, in which the cosine grows from nought.
        let load = pushed * first.cos * 0.25 * radius;
        let moment_load = -(load * radius * length * 0.5);
        let stretch_load = -(load * (length * 1.5 + (-nu * 0.5 + 1.0) * radius * turn));
        // Radius times slope of turn and of stress function at the edge.
        let bend = [
            flux - flux * matrix[0][0] + poisson,
            length - flux * matrix[0][1],
        ];
        let bend_load = moment_load - flux * constant[0];
        let stretch = [
            -(flux * matrix[1][0]) - ratio * length,
            flux - flux * matrix[1][1] - poisson,
        ];
        let stretch_load = stretch_load - flux * constant[1];
        // Radial displacement = (slope + p r^2 (1 - nu / 2)) / (E t), in terms of turn and stress function.
        let free = (stretch_load + pushed * radius.squared() * (-nu * 0.5 + 1.0)) / ratio;
        let [by_turn, by_stress] = stretch.map(|entry| entry / ratio);
        // Turned about: stress function by displacement and by the edge's turn, the other way round.
        let (stress_w, stress_t) = (R::splat(1.0) / by_stress, by_turn / by_stress);
        let stress_load = -(free / by_stress);
        let scale = self.bending / radius;
        let couple = |by_turn: R, stress: R| -((by_turn + bend[1] * stress) * scale);
        let none = R::splat(0.0);
        Edge {
            stiffness: [
                [stress_w * scale, stress_t * scale],
                [couple(none, stress_w), couple(-bend[0], stress_t)],
            ],
            held: [stress_load * scale, couple(bend_load, stress_load)],
        }
    }

    /// Distances from the edge, m, and surface stresses along the meridian, per pressure, under a displacement
    /// and turn of the edge: at the edge, then in the middle of each cell, as many places as asked for. `loaded`
    /// tells whether the pressure is on, or the stresses are those of the edge's movement alone.
    pub fn stresses<const N: usize>(
        &self,
        [displaced, turned]: [R; 2],
        loaded: bool,
    ) -> [(R, Stress<R>); N] {
        let nu = self.poisson_ratio;
        let zero = R::splat(0.0);
        let pressure = if loaded { self.pressure } else { zero };
        let [force, couple] = self.edge.answer([displaced, turned], loaded);
        let radius = self.shape.nodes[0].radius;
        let mut state = [-turned, force * radius / self.bending];
        // At the edge the moment is known; the hoop line load follows from the displacement.
        let moment = -couple;
        let axial = pressure * radius * 0.5;
        let modulus = self.bending * (-nu.squared() + 1.0) * 12.0 / self.thickness.cubed();
        let hoop = modulus * self.thickness * displaced / radius + nu * axial;
        let edge = self.stress([axial, hoop], [moment, nu * moment]);
        let mut distance = zero;
        let mut all = [(zero, edge); N];
        for (place, entry) in all.iter_mut().skip(1).enumerate() {
            let cell = self.shape.cells[place];
            let [from, to] = [self.shape.nodes[place], self.shape.nodes[place + 1]];
            let next = if place + 1 < CELLS {
                let (matrix, constant) = self.passed[place];
                let moved = applied(matrix, state);
                if loaded {
                    [moved[0] + constant[0], moved[1] + constant[1]]
                } else {
                    moved
                }
            } else {
                [zero; 2]
            };
            let (sin, cos) = ((from.sin + to.sin) * 0.5, (from.cos + to.cos) * 0.5);
            // The meridian's direction is from the apex to the edge.
            let slope = [0, 1].map(|k| (state[k] - next[k]) / cell.length);
            let mean = [0, 1].map(|k| (state[k] + next[k]) * 0.5);
            let stress = mean[1] * self.bending;
            let vertical = pressure * cell.radius * 0.5;
            let line = [
                stress / cell.radius * cos + vertical * sin,
                slope[1] * self.bending + pressure * cell.radius * sin,
            ];
            let around = mean[0] * cos / cell.radius;
            let moments = [
                self.bending * (slope[0] + nu * around),
                self.bending * (around + nu * slope[0]),
            ];
            *entry = (distance + cell.length * 0.5, self.stress(line, moments));
            distance = distance + cell.length;
            state = next;
        }
        all
    }

    fn stress(&self, line: [R; 2], moments: [R; 2]) -> Stress<R> {
        Stress::of(line, moments, self.thickness)
    }
}

fn inverted<R: Real>([[a, b], [c, d]]: [[R; 2]; 2]) -> [[R; 2]; 2] {
    let scale = R::splat(1.0) / (a * d - b * c);
    [[d * scale, -(b * scale)], [-(c * scale), a * scale]]
}

fn applied<R: Real>(matrix: [[R; 2]; 2], [x, y]: [R; 2]) -> [R; 2] {
    matrix.map(|[a, b]| a * x + b * y)
}
