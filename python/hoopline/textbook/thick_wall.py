"""Thick cylinders under internal and external pressure."""

from typing import NamedTuple

from hoopline import _core
from hoopline.number import GAUGE_PRESSURE, LENGTH, Given, larger, number


class CylinderStress(NamedTuple):
    """Stresses at a point of a cylinder, Pa, tension positive.

    Attributes
    ----------
    hoop, radial, axial
        Around the axis, through the wall, along the axis.
    equivalent
        Equivalent stress by von Mises.
    """

    hoop: float
    radial: float
    axial: float
    equivalent: float


def thick_cylinder_stress(
    inner_radius: Given, outer_radius: Given, radius: Given, internal: Given, external: Given
) -> CylinderStress:
    """Return the stresses in a closed elastic cylinder of any wall thickness (Lame).

    `hoop, radial = A +/- B / r^2`, `axial = A`, with `A = (p a^2 - q b^2) / (b^2 - a^2)` and
    `B = (p - q) a^2 b^2 / (b^2 - a^2)`.

    Parameters
    ----------
    inner_radius, outer_radius
        Inside radius a and outside radius b, m.
    radius
        Where the stresses are wanted, from a to b, m.
    internal, external
        Pressure p within and q without, Pa gauge.

    Returns
    -------
    CylinderStress
        Hoop, radial and axial stress, and their equivalent by von Mises, Pa.

    Notes
    -----
    Exact away from the ends for one homogeneous elastic wall whose ends are closed against both
    pressures. Source: G. Lame's solution, in any text on thick cylinders, for instance E. J.
    Hearn, "Mechanics of Materials 1", chapter 10.

    Examples
    --------
    Bore 80 mm, outside 120 mm, 120 MPa within and 40 MPa without: 168 MPa around the bore.

    >>> bore = thick_cylinder_stress("40 mm", "60 mm", "40 mm", "120 MPa gauge", "40 MPa gauge")
    >>> round(bore.hoop / 1e6), round(bore.radial / 1e6)
    (168, -120)
    """
    inner = number("inner_radius", inner_radius, LENGTH)
    outer = number("outer_radius", outer_radius, LENGTH)
    larger(("outer_radius", outer), ("inner_radius", inner), LENGTH)
    wall = LENGTH.between(inner * (1.0 - 1e-12), outer * (1.0 + 1e-12))
    return CylinderStress(
        *_core.thick_cylinder_stress(
            inner,
            outer,
            number("radius", radius, wall),
            number("internal", internal, GAUGE_PRESSURE),
            number("external", external, GAUGE_PRESSURE),
        )
    )
