//! What is wound over beyond the cylinder: half an ellipsoid of revolution, with its curvatures.

use crate::numerics::Real;

/// Half an ellipsoid of revolution: radius at its rim, m, and depth, m. As deep as wide is a hemisphere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dome {
    /// Radius where it meets the cylinder, m.
    pub radius: f64,
    /// Depth along the axis, m.
    pub depth: f64,
}

/// A place on the meridian of a dome.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DomePlace {
    /// Distance along the axis from the cylinder's end, m.
    pub axial: f64,
    /// Distance from the axis, m.
    pub radius: f64,
    /// Rise of the radius per length of meridian towards the pole; never positive.
    pub slope: f64,
    /// Length of meridian per parameter, m.
    pub stretch: f64,
    /// Normal curvature along the meridian, 1/m.
    pub meridian_curvature: f64,
    /// Normal curvature along the parallel circle, 1/m.
    pub parallel_curvature: f64,
}

impl Dome {
    /// The place at parameter `t`, from 0 at the rim to 90 degrees at the pole: `r = R cos t`, `z = h sin t`.
    ///
    /// With `g = sqrt(R^2 sin^2 t + h^2 cos^2 t)` the curvatures of the ellipsoid are `R h / g^3` along the
    /// meridian and `h / (R g)` along the parallel.
    pub fn at(&self, parameter: f64) -> DomePlace {
        let (sin, cos): (f64, f64) = (Real::sin(parameter), Real::cos(parameter));
        let (across, along) = (self.radius * sin, self.depth * cos);
        let stretch = (across * across + along * along).sqrt();
        DomePlace {
            axial: self.depth * sin,
            radius: self.radius * cos,
            slope: -across / stretch,
            stretch,
            meridian_curvature: self.radius * self.depth / (stretch * stretch * stretch),
            parallel_curvature: self.depth / (self.radius * stretch),
        }
    }

    /// Parameter of the place at a radius.
    pub fn parameter(&self, radius: f64) -> f64 {
        std::f64::consts::FRAC_PI_2 - super::geodesic::arc_sine(radius / self.radius)
    }
}
