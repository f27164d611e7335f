//! Stresses in a thick closed cylinder under internal and external pressure (Lame), and their
//! equivalent.

use crate::numerics::Real;

/// Principal stresses at a point of a cylinder, Pa, tension positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CylinderStress<R> {
    /// Around the axis.
    pub hoop: R,
    /// Through the wall.
    pub radial: R,
    /// Along the axis.
    pub axial: R,
}

impl<R: Real> CylinderStress<R> {
    /// Equivalent (von Mises) stress, Pa:
    /// `sqrt(((h - r)^2 + (r - a)^2 + (a - h)^2) / 2)`.
    ///
    /// ```
    /// use hoopline::vessel::thick_wall::CylinderStress;
    /// let pull = CylinderStress { hoop: 0.0, radial: 0.0, axial: -7.0 };
    /// assert_eq!(pull.equivalent(), 7.0);
    /// ```
    pub fn equivalent(&self) -> R {
        let squares = (self.hoop - self.radial).squared()
            + (self.radial - self.axial).squared()
            + (self.axial - self.hoop).squared();
        (squares * 0.5).sqrt()
    }
}

/// Stresses in a closed elastic cylinder at `radius`, Pa, under `internal` pressure p on the inner radius
/// a and `external` pressure q on the outer radius b:
/// `hoop, radial = A +/- B / r^2`, `axial = A`, with `A = (p a^2 - q b^2) / (b^2 - a^2)` and
/// `B = (p - q) a^2 b^2 / (b^2 - a^2)`.
///
/// Radii in m, pressures in Pa, `a <= radius <= b`. Exact away from the ends for a homogeneous elastic
/// wall of any thickness whose ends are closed against both pressures. Source: G. Lame's solution, in any
/// text on thick cylinders, for instance E. J. Hearn, "Mechanics of Materials 1", chapter 10.
///
/// ```
/// use hoopline::vessel::thick_wall::thick_cylinder_stress;
/// // Bore 80 mm, outside 120 mm, 120 MPa within and 40 MPa without: 168 MPa around the bore.
/// let bore = thick_cylinder_stress(0.04_f64, 0.06, 0.04, 120e6, 40e6);
/// assert!((bore.hoop - 168e6).abs() < 1.0 && (bore.radial + 120e6).abs() < 1.0);
/// ```
pub fn thick_cylinder_stress<R: Real>(
    inner_radius: R,
    outer_radius: R,
    radius: R,
    internal: R,
    external: R,
) -> CylinderStress<R> {
    let (inner, outer) = (inner_radius.squared(), outer_radius.squared());
    let section = outer - inner;
    let even = (internal * inner - external * outer) / section;
    let uneven = (internal - external) * inner * outer / section / radius.squared();
    CylinderStress {
        hoop: even + uneven,
        radial: even - uneven,
        axial: even,
    }
}
