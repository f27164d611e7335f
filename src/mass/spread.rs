//! How far the mass of one part spreads about its own centre of gravity.

use crate::numerics::Real;

/// Mean squared distances of a body of revolution's mass, or of several parts evenly around the axis.
///
/// About its own centre a part of mass m has the roll inertia `m across` and the pitch inertia
/// `m (along + across / 2)`: around the axis the mass lies evenly, so half of its squared distance from
/// the axis counts across each transverse axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread<R> {
    /// What the part is taken for, in words.
    pub shape: &'static str,
    /// Mean squared distance from its own centre of gravity, along the axis, m2.
    pub along: R,
    /// Mean squared distance from the vehicle's axis, m2: the squared radius of gyration in roll.
    pub across: R,
}

impl<R: Real> Spread<R> {
    /// A point on the axis.
    pub fn point() -> Self {
        Self {
            shape: "point on the axis",
            along: R::splat(0.0),
            across: R::splat(0.0),
        }
    }

    /// A hollow cylinder of length h between radii r and R: `h^2 / 12` along, `(R^2 + r^2) / 2` across.
    /// Exact.
    ///
    /// Source: J. A. Myers, "Handbook of Equations for Mass and Area Properties of Various Geometrical
    /// Shapes", NAVWEPS report 7827, 1962, page 10.
    pub fn hollow_cylinder(length: R, inner_radius: R, outer_radius: R) -> Self {
        Self {
            shape: "hollow cylinder",
            along: length.squared() / 12.0,
            across: (inner_radius.squared() + outer_radius.squared()) * 0.5,
        }
    }

    /// A solid cylinder of length h and radius R: `h^2 / 12` along, `R^2 / 2` across. Exact.
    ///
    /// Source: as for the hollow cylinder.
    pub fn solid_cylinder(length: R, radius: R) -> Self {
        Self {
            shape: "solid cylinder",
            ..Self::hollow_cylinder(length, R::splat(0.0), radius)
        }
    }

    /// A thin shell in the shape of a spherical cap of depth h on a base of radius R: `h^2 / 12` along,
    /// `R^2 / 2 + h^2 / 6` across. The surface of a sphere lies evenly along its axis (Archimedes), so
    /// the cap's centre of gravity is at half its depth and both follow.
    ///
    /// Exact for a hemisphere (`2/3 R^2` across, as for the whole sphere) and a disc. A torisphere has more
    /// metal near its rim: `across` is then 7 to 10 % too small.
    pub fn cap(depth: R, radius: R) -> Self {
        Self {
            shape: "thin spherical cap of its depth",
            along: depth.squared() / 12.0,
            across: radius.squared() * 0.5 + depth.squared() / 6.0,
        }
    }

    /// A thin shell of revolution of even thickness by its shape's constants: the variance of its surface
    /// along the axis over the squared length, and the mean squared radius over the squared base radius.
    pub fn shell(shape: &'static str, length: R, radius: R, constants: [f64; 2]) -> Self {
        let [along, across] = constants;
        Self {
            shape,
            along: length.squared() * along,
            across: radius.squared() * across,
        }
    }
}
