"""Burst pressure of a bare metal cylinder with closed ends: the estimates in use, side by side.

All are for a sound, ductile, seamless wall of even thickness. The margins take `mean_diameter`,
which needs only what a material standard guarantees; for a metal that hardens little (exponent of
0.05, as 6061-T6) the others lie 4 to 16 % above it, and where n is above 0.12 `zhu_leis` lies
below it.
"""

from hoopline import _core
from hoopline.errors import ValidityError
from hoopline.number import LENGTH, STRESS, Given, Limits, larger, number

_HARDENING = Limits("", 0.0, 0.5, "number")
_LEAST_HARDENING = Limits("", 1e-4, 0.5, "number")
_THIN = 0.1


def mean_diameter(wall: Given, mean_diameter: Given, ultimate: Given) -> float:
    """Return the burst pressure by the mean diameter, `p = 2 t Su / Dm`.

    The limit load by Tresca's condition, in Barlow's form.

    Parameters
    ----------
    wall
        Wall thickness t, m.
    mean_diameter
        Diameter at the middle of the wall Dm, m.
    ultimate
        Ultimate strength Su, Pa.

    Returns
    -------
    float
        Burst pressure, Pa gauge.

    Raises
    ------
    ValidityError
        The wall is thicker than a tenth of the mean diameter.

    Notes
    -----
    Valid for `t / Dm` to about 0.1. Source: form named in X.-K. Zhu and others, ASME Journal of
    Pressure Vessel Technology 145(4), 041303, 2023 (abstract).

    Examples
    --------
    >>> round(mean_diameter("2 mm", "150 mm", "310 MPa") / 1e6, 3)
    8.267
    """
    return _core.burst_by_mean_diameter(*_thin(wall, mean_diameter, ultimate))


def von_mises_limit(wall: Given, mean_diameter: Given, ultimate: Given) -> float:
    """Return the burst pressure by von Mises' condition, `p = (2 / sqrt 3) 2 t Su / Dm`.

    The limit load of a closed thin cylinder; an upper estimate, as thinning before the peak is
    not in it.

    Parameters
    ----------
    wall
        Wall thickness t, m.
    mean_diameter
        Diameter at the middle of the wall Dm, m.
    ultimate
        Ultimate strength Su, Pa.

    Returns
    -------
    float
        Burst pressure, Pa gauge.

    Raises
    ------
    ValidityError
        The wall is thicker than a tenth of the mean diameter.

    Notes
    -----
    Valid and sourced as `mean_diameter`, whose source names the family.

    Examples
    --------
    >>> round(von_mises_limit("2 mm", "150 mm", "310 MPa") / 1e6, 3)
    9.546
    """
    return _core.burst_by_von_mises_limit(*_thin(wall, mean_diameter, ultimate))


def faupel(inner_radius: Given, outer_radius: Given, yields: Given, ultimate: Given) -> float:
    """Return the burst pressure by Faupel, `p = (2 / sqrt 3) Sy ln(b / a) (2 - Sy / Su)`.

    Parameters
    ----------
    inner_radius, outer_radius
        Inside radius a and outside radius b, m.
    yields, ultimate
        Yield strength Sy and ultimate strength Su, Pa; the second not below the first.

    Returns
    -------
    float
        Burst pressure, Pa gauge.

    Notes
    -----
    Thin and thick walls of ductile steel. Source: International Journal of Pressure Vessels and
    Piping 88, 2011, pages 119 to 122 (abstract); the form as printed on a tube maker's page on
    burst pressure by Faupel.

    Examples
    --------
    >>> round(faupel("74 mm", "76 mm", "276 MPa", "310 MPa") / 1e6, 3)
    9.431
    """
    yield_strength = number("yields", yields, STRESS)
    return _core.burst_by_faupel(
        *_radii(inner_radius, outer_radius),
        yield_strength,
        number("ultimate", ultimate, STRESS.between(yield_strength, STRESS.upper)),
    )


def svensson(inner_radius: Given, outer_radius: Given, ultimate: Given, hardening: Given) -> float:
    """Return the burst pressure by Svensson, `p = Su (0.25 / (n + 0.227)) (e / n)^n ln(b / a)`.

    Parameters
    ----------
    inner_radius, outer_radius
        Inside radius a and outside radius b, m.
    ultimate
        Ultimate strength Su, Pa.
    hardening
        Strain-hardening exponent n of the true stress, above zero and to 0.5.

    Returns
    -------
    float
        Burst pressure, Pa gauge.

    Notes
    -----
    Thin and thick walls. Source: form from memory (N. L. Svensson, "The bursting pressure of
    cylindrical and spherical vessels", Journal of Applied Mechanics 25, 1958).

    Examples
    --------
    >>> round(svensson("74 mm", "76 mm", "310 MPa", 0.05) / 1e6, 3)
    9.111
    """
    return _core.burst_by_svensson(
        *_radii(inner_radius, outer_radius),
        number("ultimate", ultimate, STRESS),
        number("hardening", hardening, _LEAST_HARDENING),
    )


def zhu_leis(wall: Given, mean_diameter: Given, ultimate: Given, hardening: Given) -> float:
    """Return the burst pressure by Zhu and Leis.

    `p = ((2 + sqrt 3) / (4 sqrt 3))^(n + 1) 4 t Su / Dm`, from the average of Tresca's and von
    Mises' conditions.

    Parameters
    ----------
    wall
        Wall thickness t, m.
    mean_diameter
        Diameter at the middle of the wall Dm, m.
    ultimate
        Ultimate strength Su, Pa.
    hardening
        Strain-hardening exponent n, zero to 0.5.

    Returns
    -------
    float
        Burst pressure, Pa gauge.

    Raises
    ------
    ValidityError
        The wall is thicker than a tenth of the mean diameter.

    Notes
    -----
    Thin walls; validated on line pipe. Source: X.-K. Zhu and B. N. Leis, "Theoretical and
    numerical predictions of burst pressure of pipelines", ASME Journal of Pressure Vessel
    Technology, 2007, doi 10.1115/1.2767352 (abstract read; form from memory).

    Examples
    --------
    >>> round(zhu_leis("2 mm", "150 mm", "310 MPa", 0.05) / 1e6, 3)
    8.635
    """
    return _core.burst_by_zhu_leis(
        *_thin(wall, mean_diameter, ultimate), number("hardening", hardening, _HARDENING)
    )


def _thin(wall: Given, mean_diameter: Given, ultimate: Given) -> tuple[float, float, float]:
    thickness = number("wall", wall, LENGTH)
    across = number("mean_diameter", mean_diameter, LENGTH)
    if thickness > _THIN * across * (1.0 + 1e-9):
        raise ValidityError(
            f"wall = {LENGTH.show(thickness)} is more than a tenth of mean_diameter = "
            f"{LENGTH.show(across)}, for which the formula is not meant; take faupel or svensson"
        )
    return thickness, across, number("ultimate", ultimate, STRESS)


def _radii(inner_radius: Given, outer_radius: Given) -> tuple[float, float]:
    inner = number("inner_radius", inner_radius, LENGTH)
    outer = number("outer_radius", outer_radius, LENGTH)
    larger(("outer_radius", outer), ("inner_radius", inner), LENGTH)
    return inner, outer
