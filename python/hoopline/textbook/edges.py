"""Edge bending where a long thin cylinder ends, in the cases that have a formula."""

from hoopline import _core
from hoopline.errors import ValidityError
from hoopline.number import GAUGE_PRESSURE, LENGTH, Given, Limits, number

_THIN = 0.1
_POISSON = Limits("", 0.0, 0.5, "number")
_OFFSET = Limits("m", 0.0, 10.0, "length")


def clamped_end_stress(
    pressure: Given, radius: Given, thickness: Given, poisson_ratio: Given
) -> float:
    """Return the largest axial stress where a cylinder's end can neither grow nor turn.

    `p R / t (1/2 + (1 - nu/2) sqrt(3 / (1 - nu^2)))`, at the inside of the edge; half a `p R / t`
    of it is the membrane stress. A hinged end has none of the rest at its edge.

    Parameters
    ----------
    pressure
        Internal pressure, Pa gauge.
    radius
        Mean radius, m.
    thickness
        Wall thickness, m.
    poisson_ratio
        Poisson's ratio, 0 to 0.5.

    Returns
    -------
    float
        Stress, Pa.

    Raises
    ------
    ValidityError
        The wall is thicker than a tenth of the radius.

    Notes
    -----
    Valid for a long cylinder whose wall is up to a tenth of the radius; off by about thickness over
    radius. Source: S. Timoshenko and S. Woinowsky-Krieger, "Theory of Plates and Shells", section
    115 (from memory).

    Examples
    --------
    In units of `p R / t`:

    >>> round(clamped_end_stress("1 MPa gauge", "100 mm", "1 mm", 0.33) / 100e6, 2)
    2.03
    """
    return _core.clamped_end_stress(*_thin(pressure, radius, thickness, poisson_ratio))


def hemisphere_edge_stress(
    pressure: Given, radius: Given, thickness: Given, poisson_ratio: Given
) -> float:
    """Return the largest axial stress in a cylinder beside a hemisphere of equal thickness.

    `p R / (2 t) (1 + 3/2 exp(-pi/4) sin(pi/4) / sqrt(3 (1 - nu^2)))`, at the outside.

    Parameters
    ----------
    pressure
        Internal pressure, Pa gauge.
    radius
        Mean radius, m.
    thickness
        Thickness of both, m.
    poisson_ratio
        Poisson's ratio, 0 to 0.5.

    Returns
    -------
    float
        Stress, Pa.

    Raises
    ------
    ValidityError
        The wall is thicker than a tenth of the radius.

    Notes
    -----
    Valid as `clamped_end_stress`. Source: the same book, section 116 (from memory).

    Examples
    --------
    In units of the membrane stress `p R / (2 t)`:

    >>> round(hemisphere_edge_stress("1 MPa gauge", "100 mm", "1 mm", 0.3) / 50e6, 3)
    1.293
    """
    return _core.hemisphere_edge_stress(*_thin(pressure, radius, thickness, poisson_ratio))


def offset_factor(offset: Given, thickness: Given) -> float:
    """Return surface over mean axial stress where like walls meet with offset middles.

    `1 + 3 e / t`: each side takes half of the couple.

    Parameters
    ----------
    offset
        Radial offset of the middle surfaces, m.
    thickness
        Thickness of both walls, m.

    Returns
    -------
    float
        Ratio.

    Notes
    -----
    Valid for walls of equal thickness and stiffness, away from other bending. Source: equilibrium;
    the same factor stands in rules for butt joints of plates (from memory).

    Examples
    --------
    >>> offset_factor("1 mm", "3 mm")
    2.0
    """
    return _core.offset_factor(
        number("offset", offset, _OFFSET), number("thickness", thickness, LENGTH)
    )


def _thin(
    pressure: Given, radius: Given, thickness: Given, poisson_ratio: Given
) -> tuple[float, float, float, float]:
    mean = number("radius", radius, LENGTH)
    wall = number("thickness", thickness, LENGTH)
    values = (
        number("pressure", pressure, GAUGE_PRESSURE),
        mean,
        wall,
        number("poisson_ratio", poisson_ratio, _POISSON),
    )
    if wall > _THIN * mean:
        raise ValidityError(
            f"a wall of {wall / mean:.2f} of the radius: edge bending is here that of thin walls, "
            "up to a tenth of the radius"
        )
    return values
