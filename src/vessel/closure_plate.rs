//! The bending of a flat bulkhead whose edge the cylinder's wall holds.

use super::edge::{Edge, Stress};
use crate::numerics::Real;

/// Places from edge to centre.
const PLACES: usize = 9;

/// A plate under a unit of pressure.
///
/// A circular plate of the wall's mean radius `a`, loaded over the bore's radius `c`. Free to turn, its edge
/// turns by `p c^2 (2 a^2 - c^2) / (8 a D (1 + nu))`; a couple `C` at the edge turns it by `C a / (D (1 + nu))`
/// (plates by Kirchhoff, small deflection; the first is the second's reciprocal, and gives the known
/// `p a^3 / (8 D (1 + nu))` for a load all over). A line force `F` widens it by `F a (1 - nu) / (E t)`.
/// The wall meets it at its inside, half a thickness off its middle.
pub(super) struct Plate<R> {
    radius: R,
    load_radius: R,
    thickness: R,
    nu: R,
    /// What the edge answers with.
    pub edge: Edge<R>,
    /// Line force per displacement of the middle's edge, and half the thickness if the edge turns along.
    stretch: [R; 2],
    turning: R,
    free_turn: R,
    held: bool,
}

impl<R: Real> Plate<R> {
    /// Of a plate of the thickness given, m, whose edge turns with the wall where `held`, and else freely.
    pub fn new(radius: R, bore: R, thickness: R, [modulus, nu]: [R; 2], held: bool) -> Self {
        let one = R::splat(1.0);
        let none = R::splat(0.0);
        let load_radius = bore * 0.5;
        let bending = modulus * thickness.cubed() / ((one - nu.squared()) * 12.0);
        let (a, c) = (radius.squared(), load_radius.squared());
        let stretch = modulus * thickness / (radius * (one - nu));
        let turning = bending * (nu + 1.0) / radius;
        // It bulges away from the pressure, and turns the wall's edge inwards.
        let free_turn = -(c * (a * 2.0 - c) / (radius * bending * (nu + 1.0) * 8.0));
        let arm = if held { thickness * 0.5 } else { none };
        let edge = if held {
            let across = -(stretch * arm);
            Edge {
                stiffness: [
                    [stretch, across],
                    [across, stretch * arm.squared() + turning],
                ],
                held: [none, -(turning * free_turn)],
            }
        } else {
            Edge {
                stiffness: [[stretch, none], [none, none]],
                held: [none; 2],
            }
        };
        Self {
            radius,
            load_radius,
            thickness,
            nu,
            edge,
            stretch: [stretch, arm],
            turning,
            free_turn,
            held,
        }
    }

    /// Distances from the edge, m, and surface stresses from edge to centre, per pressure, radial and around.
    pub fn stresses(&self, [displaced, turned]: [R; 2], loaded: bool) -> [(R, Stress<R>); PLACES] {
        let none = R::splat(0.0);
        let [stretch, arm] = self.stretch;
        let force = stretch * (displaced - arm * turned);
        let free = if loaded { self.free_turn } else { none };
        // Positive where it stretches the inside.
        let edge = if self.held {
            self.turning * (turned - free)
        } else {
            none
        };
        let pressure = if loaded {
            (self.load_radius / self.radius).squared() / 16.0
        } else {
            none
        };
        let nu = self.nu;
        let whole = self.radius.squared();
        std::array::from_fn(|place| {
            let share = 1.0 - place as f64 / (PLACES - 1) as f64;
            let within = whole * (share * share);
            let radial = edge - pressure * (nu + 3.0) * (whole - within);
            let around = edge - pressure * ((nu + 3.0) * whole - (nu * 3.0 + 1.0) * within);
            (
                self.radius * (1.0 - share),
                Stress::of([force; 2], [-radial, -around], self.thickness),
            )
        })
    }
}
