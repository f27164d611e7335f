//! Dimensions of the tank from what is given: two of diameters and wall, and one of volume, length
//! and fineness ratio.

use super::bolts::closure_length;
use super::closure::{closure_depth, closure_volume};
use super::form::{DiameterPair, Shape, TankForm};
use super::membrane::{axial_line_load, hoop_line_load};
use super::overwrap::laminate_thickness;
use super::tank::Tank;
use crate::numerics::Real;
use std::f64::consts::PI;

/// The tank's dimensions, all consistent with each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dimensions<R> {
    /// Outside of the finished wrap, m.
    pub outer_diameter: R,
    /// Outside of the liner, m.
    pub liner_outer_diameter: R,
    /// Inside of the liner, m.
    pub inner_diameter: R,
    /// Wall of the liner, nominal, m.
    pub wall: R,
    /// Least wall of the liner that the tolerance leaves, m: what strength is judged by.
    pub minimum_wall: R,
    /// Laminate thickness of all plies, m.
    pub wrap: R,
    /// Length of the cylinder between the closures, m; negative where the closures alone are too
    /// large.
    pub cylinder_length: R,
    /// Overall length over the closures, m.
    pub length: R,
    /// Inside volume, m3.
    pub volume: R,
}

impl<R: Real> Dimensions<R> {
    /// Mean radius of the liner's minimum wall, m.
    pub fn mean_radius(&self) -> R {
        self.inner_diameter * 0.5 + self.minimum_wall * 0.5
    }

    /// Line loads of the cylinder per internal pressure, m: axial and hoop, those of [`axial_line_load`]
    /// and [`hoop_line_load`].
    pub fn loads_per_pressure(&self) -> (R, R) {
        let (one, mean) = (R::splat(1.0), self.mean_radius());
        let axial = axial_line_load(one, self.inner_diameter * 0.5, mean);
        (axial, hoop_line_load(one, mean))
    }
}

/// Resolves the dimensions. The inside volume is that of cylinder and closures; boss bores are not
/// counted.
pub fn dimensions<R: Real>(form: &TankForm, shape: Shape, tank: &Tank<R>) -> Dimensions<R> {
    let wrap = laminate_thickness(form, &tank.overwrap);
    let liner = &tank.liner;
    let liner_outer = match form.diameters {
        DiameterPair::OuterAndWall | DiameterPair::OuterAndInner => {
            tank.outer_diameter - wrap * 2.0
        }
        DiameterPair::LinerOuterAndWall | DiameterPair::LinerOuterAndInner => liner.outer_diameter,
        DiameterPair::InnerAndWall => liner.inner_diameter + liner.wall * 2.0,
    };
    let inner = match form.diameters {
        DiameterPair::OuterAndWall | DiameterPair::LinerOuterAndWall => {
            liner_outer - liner.wall * 2.0
        }
        DiameterPair::OuterAndInner
        | DiameterPair::LinerOuterAndInner
        | DiameterPair::InnerAndWall => liner.inner_diameter,
    };
    let outer = liner_outer + wrap * 2.0;

    let bore = inner.squared() * (PI / 4.0);
    let (fore, aft) = (&tank.fore_closure, &tank.aft_closure);
    let closures = closure_volume(form.fore_closure, fore, inner)
        + closure_volume(form.aft_closure, aft, inner);
    let depths = closure_depth(form.fore_closure, fore, inner)
        + closure_depth(form.aft_closure, aft, inner)
        + closure_length(form.fore_closure, fore)
        + closure_length(form.aft_closure, aft);
    let cylinder = match shape {
        Shape::Volume => (tank.volume - closures) / bore,
        Shape::Length => tank.length - depths,
        Shape::Fineness => tank.fineness_ratio * outer - depths,
    };
    let wall = (liner_outer - inner) * 0.5;
    Dimensions {
        outer_diameter: outer,
        liner_outer_diameter: liner_outer,
        inner_diameter: inner,
        wall,
        minimum_wall: wall * (-liner.wall_under_tolerance + 1.0),
        wrap,
        cylinder_length: cylinder,
        length: cylinder + depths,
        volume: bore * cylinder + closures,
    }
}
