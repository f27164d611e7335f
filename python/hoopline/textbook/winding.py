"""Filament winding: geodesics, slip, cover, the isotensoid dome, a liner under tension."""

import math

from hoopline import _core
from hoopline.errors import ValidityError
from hoopline.number import LENGTH, STRESS, Given, Limits, larger, number

_ANGLE = Limits("rad", 1e-3, math.pi / 2.0, "angle")
_COVERED = Limits("rad", 0.0, math.radians(89.9), "angle")
_OPENING = LENGTH.between(0.0, LENGTH.upper)
_SLIPPAGE = Limits("", 1e-3, 1.0)
_MODULUS = STRESS.between(1e8, 1e13)
_POISSON = Limits("", 0.0, 0.5)


def geodesic_angle(radius: Given, turning_radius: Given) -> float:
    """Return the winding angle of a geodesic that turns at a given radius, `r sin a = r0`.

    Parameters
    ----------
    radius
        Distance from the axis where the angle is asked for, m.
    turning_radius
        Radius where the band's middle turns back, m: that of the polar opening and half a band.

    Returns
    -------
    float
        Angle from the axis, rad.

    Notes
    -----
    On any surface of revolution. Source: Clairaut's relation (differential geometry, from memory).

    Examples
    --------
    >>> import math
    >>> round(math.degrees(geodesic_angle("60 mm", "20 mm")), 3)
    19.471
    """
    given = ("radius", number("radius", radius, LENGTH))
    turning = ("turning_radius", number("turning_radius", turning_radius, _OPENING))
    larger(given, turning, LENGTH)
    return _core.geodesic_angle(given[1], turning[1])


def turning_length(radius: Given, angle: Given, slippage_coefficient: Given) -> float:
    """Return the length of cylinder that turns a band to 90 degrees, `(R / c) (1 / sin a - 1)`.

    Parameters
    ----------
    radius
        Radius of the cylinder, m.
    angle
        Winding angle from the axis, rad.
    slippage_coefficient
        Geodesic over normal curvature along the turn.

    Returns
    -------
    float
        Length, m.

    Notes
    -----
    Derived from `k_g / k_n = c` on a cylinder, and agrees with an integration of the path.

    Examples
    --------
    >>> round(turning_length("75 mm", "30 deg", 0.2), 6)
    0.375
    """
    return _core.turning_length(
        number("radius", radius, LENGTH),
        number("angle", angle, _ANGLE),
        number("slippage_coefficient", slippage_coefficient, _SLIPPAGE),
    )


def needed_slippage(radius: Given, depth: Given, angle: Given, turning_radius: Given) -> float:
    """Return the slippage coefficient that turns a band over a dome at a given radius.

    Parameters
    ----------
    radius
        Radius of the dome at its rim, m.
    depth
        Depth of the dome, half an ellipsoid of revolution, m.
    angle
        Winding angle at the rim from the axis, rad.
    turning_radius
        Radius where the band's middle turns back, m.

    Returns
    -------
    float
        Geodesic over normal curvature, even along the dome: positive to turn earlier than a
        geodesic, negative to turn later.

    Raises
    ------
    ValidityError
        No friction does it.

    Notes
    -----
    The least coefficient at the path's worst place. On a hemisphere
    `(r0 - R sin a) / sqrt(R^2 - r0^2)`. Source: `|k_g / k_n| <= mu`, abstract of article 11717,
    Journal of Beijing University of Aeronautics and Astronautics; Liouville's formula.

    Examples
    --------
    >>> round(needed_slippage("80 mm", "80 mm", "30 deg", "48 mm"), 6)
    0.125
    """
    rim = ("radius", number("radius", radius, LENGTH))
    turning = ("turning_radius", number("turning_radius", turning_radius, LENGTH))
    larger(rim, turning, LENGTH)
    deep = number("depth", depth, LENGTH.between(rim[1] * 0.05, rim[1] * 20.0))
    needed = _core.needed_slippage(rim[1], deep, number("angle", angle, _ANGLE), turning[1])
    if needed is None:
        raise ValidityError(
            f"no friction turns a band there: turning_radius = {LENGTH.show(turning[1])} on a dome "
            f"of radius = {LENGTH.show(rim[1])}"
        )
    return needed


def bands_for_cover(radius: Given, angle: Given, band_width: Given) -> float:
    """Return how many bands side by side cover a cylinder, the least `n >= 2 pi R cos a / b`.

    Parameters
    ----------
    radius
        Radius of the cylinder, m.
    angle
        Winding angle from the axis, rad.
    band_width
        Width of the band, m.

    Returns
    -------
    float
        Number of bands, whole; a circuit, out and back, lays one of each hand.

    Notes
    -----
    Source: geometry of the unrolled cylinder.

    Examples
    --------
    >>> bands_for_cover("75 mm", "15 deg", "16 mm")
    29.0
    """
    return _core.bands_for_cover(
        number("radius", radius, LENGTH),
        number("angle", angle, _COVERED),
        number("band_width", band_width, LENGTH),
    )


def isotensoid_depth(radius: Given, turning_radius: Given) -> float:
    """Return the depth of the dome whose geodesic fibres carry all pressure, each pulled alike.

    Parameters
    ----------
    radius
        Radius of the dome at its rim, m.
    turning_radius
        Radius where the fibres turn back, m; zero for a dome without an opening.

    Returns
    -------
    float
        Depth from the rim to `sqrt(3/2)` of the turning radius, where a boss takes over, m.

    Raises
    ------
    ValidityError
        The opening leaves no dome: beyond four fifths of the radius.

    Notes
    -----
    `dz/dr = tan(phi)`, `sin(phi) = (r / R)^3 sqrt((R^2 - r0^2) / (r^2 - r0^2))`, derived. Without
    an opening the shape is that of a balloon of two discs (V. I. Pulov, V. Kovalchuk, I. M.
    Mladenov, Mathematics 12(4), 557, 2024), 0.59907 of the radius deep.

    Examples
    --------
    >>> round(isotensoid_depth("1 m", 0.0), 5)
    0.59907
    """
    rim = ("radius", number("radius", radius, LENGTH))
    turning = ("turning_radius", number("turning_radius", turning_radius, _OPENING))
    larger(rim, turning, LENGTH)
    if turning[1] > 0.8 * rim[1]:
        raise ValidityError(
            f"turning_radius = {LENGTH.show(turning[1])} leaves no isotensoid dome on a radius of "
            f"{LENGTH.show(rim[1])}: it ends at sqrt(2/3) of the radius; up to four fifths is valid"
        )
    return _core.isotensoid_depth(rim[1], turning[1])


def elastic_collapse_pressure(
    elastic_modulus: Given, poisson_ratio: Given, thickness: Given, mean_radius: Given
) -> float:
    """Return the pressure from outside at which a long thin tube collapses while it is elastic.

    `E / (4 (1 - nu^2)) (t / r)^3`.

    Parameters
    ----------
    elastic_modulus
        Elastic modulus, Pa.
    poisson_ratio
        Poisson's ratio.
    thickness, mean_radius
        Wall thickness and mean radius, m.

    Returns
    -------
    float
        Pressure over that inside, Pa.

    Raises
    ------
    ValidityError
        The wall is thicker than a tenth of the radius.

    Notes
    -----
    For tubes longer than `4.90 r sqrt(r / t)` with free ends; a shorter one holds more, one that
    is not round less. Source: W. C. Young, "Roark's Formulas for Stress and Strain", table 35,
    case 19a.

    Examples
    --------
    The source's tube of steel, 6.75 in in radius and 0.375 in thick, 1357 psi:

    >>> psi = 6894.757
    >>> round(elastic_collapse_pressure(29e6 * psi, 0.29, "0.375 in", "6.75 in") / psi)
    1357
    """
    wall = number("thickness", thickness, LENGTH)
    radius = number("mean_radius", mean_radius, LENGTH)
    if wall > 0.1 * radius:
        raise ValidityError(
            f"thickness = {LENGTH.show(wall)} is more than a tenth of mean_radius = "
            f"{LENGTH.show(radius)}: the formula is for thin tubes"
        )
    return _core.elastic_collapse_pressure(
        number("elastic_modulus", elastic_modulus, _MODULUS),
        number("poisson_ratio", poisson_ratio, _POISSON),
        wall,
        radius,
    )
