"""Thin cylinders and spheres under internal pressure: stresses and line loads."""

from hoopline import _core
from hoopline.errors import ValidityError
from hoopline.number import GAUGE_PRESSURE, LENGTH, Given, larger, number

_THIN = 0.1


def hoop_stress(pressure: Given, radius: Given, thickness: Given) -> float:
    """Return the hoop stress of a thin closed cylinder, `p R / t`.

    Parameters
    ----------
    pressure
        Internal pressure, Pa gauge.
    radius
        Radius, m: texts take the inside one, the line loads of this library the mean one.
    thickness
        Wall thickness, m.

    Returns
    -------
    float
        Stress, Pa.

    Raises
    ------
    ValidityError
        The wall is thicker than a tenth of the radius; `thick_cylinder_stress` has no such limit.

    Notes
    -----
    Valid for a wall to a tenth of the radius (common practice, no source), away from the ends.
    Source: equilibrium; R. C. Hibbeler, "Mechanics of Materials", chapter 8.

    Examples
    --------
    A pipe of 8 in diameter and 0.25 in wall under 65 psi bears 1040 psi (Hibbeler, problem 8-3):

    >>> round(hoop_stress("65 psi gauge", "4 in", "0.25 in") / 6894.757)
    1040
    """
    return _core.hoop_stress(*_thin(pressure, radius, thickness))


def axial_stress(pressure: Given, radius: Given, thickness: Given) -> float:
    """Return the axial stress of a thin closed cylinder, or of a thin sphere, `p R / (2 t)`.

    Parameters
    ----------
    pressure
        Internal pressure, Pa gauge.
    radius
        Radius, m: see `hoop_stress`.
    thickness
        Wall thickness, m.

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
    Valid and sourced as `hoop_stress`.

    Examples
    --------
    A sphere of 1.5 m radius under 300 kPa and a wall of 18.8 mm, for 12 MPa (Hibbeler, problem
    8-1):

    >>> round(axial_stress("300 kPa gauge", "1.5 m", "18.8 mm") / 1e6, 1)
    12.0
    """
    return _core.axial_stress(*_thin(pressure, radius, thickness))


def hoop_line_load(pressure: Given, mean_radius: Given) -> float:
    """Return the hoop line load of a cylinder under internal pressure, `p R`.

    Over the wall's thickness it is the mean-diameter (Barlow) stress, a little above the mean of
    Lame's.

    Parameters
    ----------
    pressure
        Internal pressure, Pa gauge.
    mean_radius
        Mean radius, m.

    Returns
    -------
    float
        Line load, N/m.

    Notes
    -----
    Any wall. Source: equilibrium.

    Examples
    --------
    >>> hoop_line_load("60 bar gauge", "75 mm")
    450000.0
    """
    return _core.hoop_line_load(
        number("pressure", pressure, GAUGE_PRESSURE),
        number("mean_radius", mean_radius, LENGTH),
    )


def axial_line_load(pressure: Given, inner_radius: Given, mean_radius: Given) -> float:
    """Return the axial line load of a closed cylinder under pressure, `p Ri^2 / (2 Rm)`.

    The force on the bore, `pi Ri^2 p`, over the mean circumference: exact.

    Parameters
    ----------
    pressure
        Internal pressure, Pa gauge.
    inner_radius
        Inside radius, m.
    mean_radius
        Radius at the middle of the wall, m; not below the inside one.

    Returns
    -------
    float
        Line load, N/m.

    Notes
    -----
    Any wall. Source: equilibrium.

    Examples
    --------
    >>> axial_line_load("60 bar gauge", "75 mm", "75 mm")
    225000.0
    """
    inner = number("inner_radius", inner_radius, LENGTH)
    mean = number("mean_radius", mean_radius, LENGTH)
    if mean < inner:
        larger(("mean_radius", mean), ("inner_radius", inner), LENGTH)
    return _core.axial_line_load(number("pressure", pressure, GAUGE_PRESSURE), inner, mean)


def _thin(pressure: Given, radius: Given, thickness: Given) -> tuple[float, float, float]:
    across = number("radius", radius, LENGTH)
    wall = number("thickness", thickness, LENGTH)
    if wall > _THIN * across * (1.0 + 1e-9):
        raise ValidityError(
            f"thickness = {LENGTH.show(wall)} is more than a tenth of radius = "
            f"{LENGTH.show(across)}, which is not a thin wall; take thick_cylinder_stress"
        )
    return number("pressure", pressure, GAUGE_PRESSURE), across, wall
