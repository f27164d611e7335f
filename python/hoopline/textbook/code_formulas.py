"""Required thickness under internal pressure by the formulas of the boiler code.

ASME Boiler and Pressure Vessel Code, section VIII division 1, as printed in "Mechanical
Engineering hand book", page 225, table 1 "General Vessel Formulas" (fliphtml5.com, paragraphs of
the 1983 edition); their ranges as used in public calculation sheets of UG-27 and UG-32. Inside
dimensions, corrosion allowance not included. The thickness is the least anywhere, so it compares
with the minimum wall, not the nominal one. What stress is allowed is the code's business: the
formulas do not make a vessel a code vessel.
"""

import math

from hoopline import _core
from hoopline.errors import ValidityError
from hoopline.number import GAUGE_PRESSURE, LENGTH, SHARE, STRESS, Given, Limits, larger, number

_ATTACHMENT = Limits("", 0.1, 0.33, "number")
_ELLIPSOID_FACTOR = Limits("", 0.5, 11.0 / 6.0, "number")
_TORISPHERE_FACTOR = Limits("", 1.0, 1.78, "number")
_THINNEST = 0.002


def cylinder_thickness_by_hoop_stress(
    pressure: Given, inside_radius: Given, stress: Given, efficiency: Given
) -> float:
    """Return the thickness a cylinder needs by its hoop stress, `t = P R / (S E - 0.6 P)`.

    Circumferential stress, which the longitudinal seams see: UG-27(c)(1).

    Parameters
    ----------
    pressure
        Internal pressure P, Pa gauge.
    inside_radius
        Inside radius R, m.
    stress
        Allowable stress S, Pa.
    efficiency
        Joint efficiency E, 0.1 to 1.

    Returns
    -------
    float
        Thickness, m.

    Raises
    ------
    ValidityError
        The pressure is above 0.385 S E, where the thickness would pass half the radius.

    Notes
    -----
    Valid for `P <= 0.385 S E`; within 1 % of Lame's bore stress up to there. Source: see the
    module.

    Examples
    --------
    >>> metres = cylinder_thickness_by_hoop_stress("356 psi gauge", "45 in", "20 ksi", 1.0)
    >>> round(metres / 0.0254, 4)  # in
    0.8096
    """
    given = _loaded(pressure, "inside_radius", inside_radius, stress, efficiency, 0.385)
    return _core.cylinder_thickness_by_hoop_stress(*given)


def cylinder_thickness_by_axial_stress(
    pressure: Given, inside_radius: Given, stress: Given, efficiency: Given
) -> float:
    """Return the thickness a cylinder needs by its axial stress, `t = P R / (2 S E + 0.4 P)`.

    Longitudinal stress, which the girth seams see: UG-27(c)(2).

    Parameters
    ----------
    pressure
        Internal pressure P, Pa gauge.
    inside_radius
        Inside radius R, m.
    stress
        Allowable stress S, Pa.
    efficiency
        Joint efficiency E, 0.1 to 1.

    Returns
    -------
    float
        Thickness, m.

    Raises
    ------
    ValidityError
        The pressure is above 1.25 S E, where the thickness would pass half the radius.

    Notes
    -----
    Valid for `P <= 1.25 S E`. Source: see the module.

    Examples
    --------
    >>> metres = cylinder_thickness_by_axial_stress("356 psi gauge", "45 in", "20 ksi", 1.0)
    >>> round(metres / 0.0254, 4)  # in
    0.3991
    """
    given = _loaded(pressure, "inside_radius", inside_radius, stress, efficiency, 1.25)
    return _core.cylinder_thickness_by_axial_stress(*given)


def sphere_thickness(
    pressure: Given, inside_radius: Given, stress: Given, efficiency: Given
) -> float:
    """Return the thickness a sphere needs, `t = P L / (2 S E - 0.2 P)`: UG-27(d), UG-32.

    Parameters
    ----------
    pressure
        Internal pressure P, Pa gauge.
    inside_radius
        Inside radius L, m.
    stress
        Allowable stress S, Pa.
    efficiency
        Joint efficiency E, 0.1 to 1.

    Returns
    -------
    float
        Thickness, m.

    Raises
    ------
    ValidityError
        The pressure is above 0.665 S E, where the thickness would pass 0.356 L.

    Notes
    -----
    Valid for `P <= 0.665 S E`. Source: see the module.

    Examples
    --------
    A printed sheet comes to 9.145 in with a corrosion allowance of 0.157 in:

    >>> inches = sphere_thickness("3584.6 psi gauge", "96.418 in", "19.585 ksi", 1.0) / 0.0254
    >>> round(inches + 0.157, 3)
    9.145
    """
    given = _loaded(pressure, "inside_radius", inside_radius, stress, efficiency, 0.665)
    return _core.sphere_thickness(*given)


def ellipsoid_factor(inside_diameter: Given, inside_depth: Given) -> float:
    """Return the factor K of an ellipsoid, `K = (2 + (D / 2 h)^2) / 6`: appendix 1-4(c).

    One at 2:1.

    Parameters
    ----------
    inside_diameter
        Inside diameter D, m.
    inside_depth
        Inside depth h, m, from D / 6 to D / 2.

    Returns
    -------
    float
        Factor.

    Notes
    -----
    Valid for `D / 2 h` from 1 to 3 (from memory). Source: see the module.

    Examples
    --------
    >>> ellipsoid_factor("100 mm", "25 mm")
    1.0
    """
    diameter = number("inside_diameter", inside_diameter, LENGTH)
    depths = LENGTH.between(diameter / 6.0 * (1.0 - 1e-12), diameter / 2.0 * (1.0 + 1e-12))
    return _core.ellipsoid_factor(diameter, number("inside_depth", inside_depth, depths))


def ellipsoid_thickness(
    pressure: Given, inside_diameter: Given, factor: Given, stress: Given, efficiency: Given
) -> float:
    """Return the thickness an ellipsoid needs, `t = P D K / (2 S E - 0.2 P)`: appendix 1-4(c).

    Parameters
    ----------
    pressure
        Internal pressure P, Pa gauge.
    inside_diameter
        Inside diameter D, m.
    factor
        Factor K of `ellipsoid_factor`.
    stress
        Allowable stress S, Pa.
    efficiency
        Joint efficiency E, 0.1 to 1.

    Returns
    -------
    float
        Thickness, m.

    Raises
    ------
    ValidityError
        The pressure is above 0.665 S E (the sphere's limit), or the thickness below 0.002 of the
        crown radius, where the knuckle may buckle.

    Notes
    -----
    Valid for a thickness from 0.002 of the crown radius, 0.9 D at 2:1; at other depths that is
    taken in proportion to the ellipse's own radius at the crown (own choice). Below, the buckling
    of the knuckle is to be checked by appendix 1-4(f), which is not here. Source: see the module.

    Examples
    --------
    >>> inches = ellipsoid_thickness("332 psi gauge", "60 in", 1.0, "20 ksi", 1.0) / 0.0254
    >>> round(inches, 4)
    0.4988
    """
    shape = number("factor", factor, _ELLIPSOID_FACTOR)
    over = _loaded(pressure, "inside_diameter", inside_diameter, stress, efficiency, 0.665)
    pressure_si, diameter, stress_si, share = over
    thickness = _core.ellipsoid_thickness(pressure_si, diameter, shape, stress_si, share)
    _keep_from_buckling(thickness, 0.45 * diameter * math.sqrt(6.0 * shape - 2.0))
    return thickness


def torisphere_factor(crown_radius: Given, knuckle_radius: Given) -> float:
    """Return the factor M of a torisphere, `M = (3 + sqrt(L / r)) / 4`: appendix 1-4(d).

    One for a hemisphere, 1.77 for `r = 0.06 L`.

    Parameters
    ----------
    crown_radius
        Inside crown radius L, m.
    knuckle_radius
        Inside knuckle radius r, m, from 0.06 L to L.

    Returns
    -------
    float
        Factor.

    Notes
    -----
    The code takes crown radii up to the outside diameter and knuckle radii from 6 % of it and
    from three thicknesses (UG-32(i)), which bounds `L / r` to 16.7. Source: see the module.

    Examples
    --------
    >>> round(torisphere_factor("1 m", "60 mm"), 2)
    1.77
    """
    crown = number("crown_radius", crown_radius, LENGTH)
    knuckles = LENGTH.between(0.06 * crown * (1.0 - 1e-12), crown * (1.0 + 1e-12))
    return _core.torisphere_factor(crown, number("knuckle_radius", knuckle_radius, knuckles))


def torisphere_thickness(
    pressure: Given, crown_radius: Given, factor: Given, stress: Given, efficiency: Given
) -> float:
    """Return the thickness a torisphere needs, `t = P L M / (2 S E - 0.2 P)`: appendix 1-4(d).

    For `r = 0.06 L` UG-32 prints it as `t = 0.885 P L / (S E - 0.1 P)`.

    Parameters
    ----------
    pressure
        Internal pressure P, Pa gauge.
    crown_radius
        Inside crown radius L, m.
    factor
        Factor M of `torisphere_factor`.
    stress
        Allowable stress S, Pa.
    efficiency
        Joint efficiency E, 0.1 to 1.

    Returns
    -------
    float
        Thickness, m.

    Raises
    ------
    ValidityError
        The pressure is above 0.665 S E (the sphere's limit), or the thickness below 0.002 of the
        crown radius, where the knuckle may buckle.

    Notes
    -----
    Valid for a thickness from 0.002 L; below, the buckling of the knuckle is to be checked by
    appendix 1-4(f), which is not here. Source: see the module.

    Examples
    --------
    >>> inches = torisphere_thickness("235 psi gauge", "72 in", 1.77, "20 ksi", 1.0) / 0.0254
    >>> round(inches, 4)
    0.7496
    """
    shape = number("factor", factor, _TORISPHERE_FACTOR)
    over = _loaded(pressure, "crown_radius", crown_radius, stress, efficiency, 0.665)
    pressure_si, crown, stress_si, share = over
    thickness = _core.torisphere_thickness(pressure_si, crown, shape, stress_si, share)
    _keep_from_buckling(thickness, crown)
    return thickness


def flat_head_thickness(
    pressure: Given, diameter: Given, attachment: Given, stress: Given, efficiency: Given
) -> float:
    """Return the thickness a flat circular head needs, `t = d sqrt(C P / (S E))`: UG-34(c)(2).

    Parameters
    ----------
    pressure
        Internal pressure P, Pa gauge.
    diameter
        Diameter d, m.
    attachment
        C by the way of attachment, 0.1 to 0.33, read off the code's figure UG-34.
    stress
        Allowable stress S, Pa.
    efficiency
        Joint efficiency E, 0.1 to 1.

    Returns
    -------
    float
        Thickness, m.

    Notes
    -----
    Unstayed heads and covers; for covers bolted through a gasket a moment term comes on top,
    which is not here. Source: see the module.

    Examples
    --------
    >>> round(flat_head_thickness("90 bar gauge", "140 mm", 0.3, "69 MPa", 1.0) * 1e3, 2)  # mm
    27.69
    """
    return _core.flat_head_thickness(
        number("pressure", pressure, GAUGE_PRESSURE),
        number("diameter", diameter, LENGTH),
        number("attachment", attachment, _ATTACHMENT),
        number("stress", stress, STRESS),
        number("efficiency", efficiency, SHARE),
    )


def transport_cylinder_stress(pressure: Given, outside: Given, inside: Given) -> float:
    """Return the wall stress of a transport cylinder, `S = P (1.3 D^2 + 0.4 d^2) / (D^2 - d^2)`.

    Parameters
    ----------
    pressure
        Test pressure P, Pa gauge.
    outside, inside
        Outside diameter D and inside diameter d, m.

    Returns
    -------
    float
        Wall stress, Pa.

    Notes
    -----
    Seamless aluminium cylinders; no limit of thickness is printed. It is the hoop strain at the
    bore of a closed thick cylinder times the elastic modulus, with a Poisson's ratio of 0.3.
    Source: 49 CFR 178.46(g) (DOT 3AL; the same formula in 178.36 for steel).

    Examples
    --------
    >>> round(transport_cylinder_stress("3000 psi gauge", "6.0 in", "5.6 in") / 6894.757)  # psi
    38369
    """
    outer = number("outside", outside, LENGTH)
    inner = number("inside", inside, LENGTH)
    larger(("outside", outer), ("inside", inner), LENGTH)
    return _core.transport_cylinder_stress(
        number("pressure", pressure, GAUGE_PRESSURE), outer, inner
    )


def _loaded(
    pressure: Given, name: str, size: Given, stress: Given, efficiency: Given, most: float
) -> tuple[float, float, float, float]:
    """Read what a shell's formula takes, and hold the pressure below `most` S E."""
    load = number("pressure", pressure, GAUGE_PRESSURE)
    across = number(name, size, LENGTH)
    allowable = number("stress", stress, STRESS)
    share = number("efficiency", efficiency, SHARE)
    highest = most * allowable * share
    if load > highest:
        raise ValidityError(
            f"pressure = {GAUGE_PRESSURE.show(load)} is above {most} x stress x efficiency = "
            f"{GAUGE_PRESSURE.show(highest)}, up to which the code's formula holds"
        )
    return load, across, allowable, share


def _keep_from_buckling(thickness: float, crown_radius: float) -> None:
    if thickness < _THINNEST * crown_radius * (1.0 - 1e-9):
        raise ValidityError(
            f"the thickness by the formula, {LENGTH.show(thickness)}, is below {_THINNEST} of the "
            f"crown radius, {LENGTH.show(crown_radius)}: the knuckle may buckle, which appendix "
            "1-4(f) of the code is for and this formula is not"
        )
