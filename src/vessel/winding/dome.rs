//! What is wound over beyond the cylinder, with its curvatures: half an ellipsoid of revolution, or an isotensoid.

use crate::numerics::Real;
use crate::vessel::isotensoid;

/// Pieces of the integral for a place's distance along the axis of an isotensoid (own choice: 1e-9 of the radius).
const PIECES: usize = 128;

#[derive(Debug, Clone, Copy, PartialEq)]
enum Shape {
    /// Half an ellipsoid of a depth, m.
    Ellipsoid(f64),
    /// An isotensoid of a ratio of turning to rim radius, to the parameter of its inflection; then a spherical cap.
    Isotensoid { ratio: f64, kink: f64 },
}

/// A dome, by the radius at its rim, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dome {
    /// Radius where it meets the cylinder, m.
    pub radius: f64,
    shape: Shape,
}

/// A place on the meridian of a dome.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DomePlace {
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
    /// Half an ellipsoid of revolution of rim radius and depth, m; as deep as wide it is a hemisphere.
    pub const fn ellipsoid(radius: f64, depth: f64) -> Self {
        let shape = Shape::Ellipsoid(depth);
        Self { radius, shape }
    }

    /// An isotensoid of rim radius, m, whose own fibres turn at that ratio of it, 0.01 to 0.7, closed by the cap
    /// of [`crate::vessel::ClosureKind::Isotensoid`].
    pub fn isotensoid(radius: f64, turning_radius_ratio: f64) -> Self {
        let (ratio, kink) = (turning_radius_ratio, isotensoid::last(turning_radius_ratio));
        let shape = Shape::Isotensoid { ratio, kink };
        Self { radius, shape }
    }

    /// The place at parameter `t`, from 0 at the rim to 90 degrees at the pole: `r = R cos t`.
    ///
    /// An ellipsoid has `z = h sin t`; with `g = sqrt(R^2 sin^2 t + h^2 cos^2 t)` its curvatures are `R h / g^3`
    /// along the meridian and `h / (R g)` along the parallel.
    pub fn at(&self, parameter: f64) -> DomePlace {
        let beyond = self.kink().is_some_and(|kink| parameter > kink);
        self.beside_kink(parameter, beyond)
    }

    /// The place at a parameter, on that side of the [`Dome::kink`]; the curve before it ends there.
    pub(super) fn beside_kink(&self, parameter: f64, beyond: bool) -> DomePlace {
        let parameter = match self.shape {
            Shape::Isotensoid { kink, .. } if !beyond => parameter.min(kink),
            _ => parameter,
        };
        let (sin, cos): (f64, f64) = (Real::sin(parameter), Real::cos(parameter));
        match self.shape {
            Shape::Ellipsoid(depth) => {
                let (across, along) = (self.radius * sin, depth * cos);
                let stretch = (across * across + along * along).sqrt();
                DomePlace {
                    radius: self.radius * cos,
                    slope: -across / stretch,
                    stretch,
                    meridian_curvature: self.radius * depth / (stretch * stretch * stretch),
                    parallel_curvature: depth / (self.radius * stretch),
                }
            }
            Shape::Isotensoid { ratio, .. } if beyond => {
                let sphere = self.radius * isotensoid::neck_radius(ratio);
                let radius = self.radius * cos;
                let slope = -(1.0 - (radius / sphere) * (radius / sphere)).sqrt();
                DomePlace {
                    radius,
                    slope,
                    stretch: -self.radius * sin / slope,
                    meridian_curvature: 1.0 / sphere,
                    parallel_curvature: 1.0 / sphere,
                }
            }
            Shape::Isotensoid { ratio, .. } => {
                let place = isotensoid::place(ratio, [cos, sin]);
                DomePlace {
                    radius: self.radius * place.radius,
                    slope: -place.cos,
                    stretch: self.radius * place.pace,
                    meridian_curvature: place.along / self.radius,
                    parallel_curvature: place.around / self.radius,
                }
            }
        }
    }

    /// Parameter at which the meridian's curvature steps: where an isotensoid's cap begins.
    pub(super) fn kink(&self) -> Option<f64> {
        match self.shape {
            Shape::Ellipsoid(_) => None,
            Shape::Isotensoid { kink, .. } => Some(kink),
        }
    }

    /// Distance of the place along the axis from the cylinder's end, m.
    pub fn axial(&self, parameter: f64) -> f64 {
        match self.shape {
            Shape::Ellipsoid(depth) => {
                let sin: f64 = Real::sin(parameter);
                depth * sin
            }
            Shape::Isotensoid { ratio, kink } => {
                let risen = isotensoid::rise_between(ratio, [0.0, parameter.min(kink)], PIECES);
                let cap = isotensoid::cap(ratio);
                let radius: f64 = Real::cos(parameter.max(kink));
                // Height of the cap's zone between its edge and the place.
                let at = (cap.sphere * cap.sphere - radius * radius).sqrt();
                self.radius * (risen + at - cap.sphere * cap.cos)
            }
        }
    }

    /// Parameter of the place at a radius.
    pub fn parameter(&self, radius: f64) -> f64 {
        std::f64::consts::FRAC_PI_2 - super::geodesic::arc_sine(radius / self.radius)
    }
}
