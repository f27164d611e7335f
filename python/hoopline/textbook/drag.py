"""Frontal area, friction, base and wave drag.

Coefficients of nose and base refer to the frontal area, of friction to the wetted area, of a fin
to one side of it.
"""

import math

from hoopline import _core
from hoopline.number import LENGTH, Given, Limits, number

_MACH = Limits("", 0.0, 5.0, "number")
_SUPERSONIC = Limits("", 1.2, 4.0, "number")
# From 1e6 by the source; the build-up holds Reynolds numbers at 1e5.
_REYNOLDS = Limits("", 1e5, 1e9, "number")
_COMPRESSIBLE_REYNOLDS = Limits("", 1e6, 1e9, "number")
_ROUGHNESS = Limits("m", 1e-9, 0.005, "length")
_NOSE_FINENESS = Limits("", 2.0, 20.0, "number")
_THICKNESS_RATIO = Limits("", 0.0, 0.2, "number")


def frontal_area(diameter: Given) -> float:
    """Return the frontal area of a body, `pi d^2 / 4`: what its drag coefficient refers to.

    Parameters
    ----------
    diameter
        Largest diameter, m.

    Returns
    -------
    float
        Area, m2.

    Notes
    -----
    Exact for a round body. Source: geometry.

    Examples
    --------
    >>> round(frontal_area("160 mm") * 1e4, 2)  # cm2
    201.06
    """
    return _core.frontal_area(number("diameter", diameter, LENGTH))


def turbulent_plate(reynolds: Given) -> float:
    """Return the mean friction of a smooth flat plate, `0.455 / (log10 Re)^2.58`.

    Parameters
    ----------
    reynolds
        Reynolds number of the length. Valid for 1e6 to 1e9; down to 1e5 it overstates a plate
        that is partly laminar.

    Returns
    -------
    float
        Friction coefficient on the wetted area.

    Notes
    -----
    Turbulent from the leading edge. Source: Prandtl and Schlichting, 1932, as quoted in public
    course material.

    Examples
    --------
    >>> round(turbulent_plate(1e7), 5)
    0.003
    """
    return _core.turbulent_plate(math.log10(number("reynolds", reynolds, _REYNOLDS)))


def compressibility(mach: Given) -> float:
    """Return compressible over incompressible turbulent friction, `(1 + 0.144 M^2)^-0.65`.

    Parameters
    ----------
    mach
        Mach number, 0 to 5.

    Returns
    -------
    float
        Ratio.

    Notes
    -----
    Adiabatic wall. Against van Driest's second method, with each method's own plate, the friction
    is 4 % low at Mach 2 and 8 % low at Mach 3. Source: D. P. Raymer, "Aircraft Design: A
    Conceptual Approach", AIAA, equation 12.27 (as three public codes citing it agree; the
    equation's own page was not seen).

    Examples
    --------
    >>> round(compressibility(2.0), 3)
    0.744
    """
    return _core.compressibility(number("mach", mach, _MACH))


def cut_off_reynolds(length: Given, roughness: Given, mach: Given) -> float:
    """Return the Reynolds number above which roughness holds the friction of a surface.

    Subsonic `38.21 (l/k)^1.053`, from where the two cross (Mach 0.875) `44.62 (l/k)^1.053
    M^1.16`. Friction is that of the lesser of this and the actual Reynolds number.

    Parameters
    ----------
    length
        Length of the surface l, m.
    roughness
        Equivalent sand-grain height k, m.
    mach
        Mach number, 0 to 5.

    Returns
    -------
    float
        Reynolds number.

    Notes
    -----
    Source: D. P. Raymer, "Aircraft Design: A Conceptual Approach", AIAA, equations 12.28 and
    12.29.

    Examples
    --------
    >>> round(cut_off_reynolds("1 m", "40.5 um", 0.3) / 1e6, 4)
    1.6126
    """
    return float(
        10.0
        ** _core.log_cut_off_reynolds(
            number("length", length, LENGTH),
            number("roughness", roughness, _ROUGHNESS),
            number("mach", mach, _MACH),
        )
    )


def van_driest(mach: Given, reynolds: Given) -> float:
    """Return the mean friction of a smooth flat plate by van Driest's second method.

    The assessment does not use it: its distance from `turbulent_plate` times `compressibility`
    says how well friction is known.

    Parameters
    ----------
    mach
        Mach number, 0 to 5.
    reynolds
        Reynolds number of the outer flow, 1e6 to 1e9.

    Returns
    -------
    float
        Friction coefficient on the wetted area.

    Notes
    -----
    Turbulent from the leading edge, adiabatic wall of recovery factor 0.88 in air of 216.65 K.
    Source: E. R. van Driest, "The problem of aerodynamic heating", Aeronautical Engineering
    Review, 1956 (from memory); equations as printed by NASA's Turbulence Modeling Resource, "2D
    Zero Pressure Gradient High Mach Number Flat Plate Validation Case".

    Examples
    --------
    >>> round(van_driest(2.0, 1e7), 6)
    0.002316
    """
    return _core.van_driest(
        number("mach", mach, _MACH),
        math.log10(number("reynolds", reynolds, _COMPRESSIBLE_REYNOLDS)),
    )


def base_drag(mach: Given) -> float:
    """Return the base drag of a cylindrical base in the coast.

    `0.12 + 0.13 M^2` below Mach 1, `0.25 / M` above.

    Parameters
    ----------
    mach
        Mach number, 0 to 5.

    Returns
    -------
    float
        Drag coefficient on the frontal area.

    Notes
    -----
    Known error about a quarter of itself; for slender rough bodies the subsonic value is high by
    up to a factor of three. Source: E. L. Fleeman, "Missile Design and System Engineering", AIAA
    2012, chapter 2.4, as quoted from his course slides.

    Examples
    --------
    >>> base_drag(2.0)
    0.125
    """
    return _core.base_drag(number("mach", mach, _MACH))


def nose_wave_drag(shape: str, fineness_ratio: Given, mach: Given) -> float:
    """Return the wave drag of a nose at supersonic speed.

    Cone: `(1.59 + 1.83 / M^2) atan(0.5 / f)^1.69`. Von Karman: `1 / f^2`.

    Parameters
    ----------
    shape
        `"cone"` or `"von_karman"`, as in a stage file.
    fineness_ratio
        Length over diameter f, from 2.
    mach
        Mach number, 1.2 to 4.

    Returns
    -------
    float
        Drag coefficient on the area of the nose's base.

    Notes
    -----
    The cone is within 2.5 % of exact flow to Mach 2, at most 7.5 % high at Mach 3 and 12.5 % at
    Mach 4; the slender-body limit of von Karman's nose overstates as Mach grows. Source: E. L.
    Fleeman, "Missile Design and System Engineering", AIAA 2012, chapter 2.4, as quoted from his
    course slides; slender-body theory.

    Examples
    --------
    >>> round(nose_wave_drag("cone", 2.4, 2.0), 3)
    0.141
    """
    return _core.nose_wave_drag(
        str(shape),
        number("fineness_ratio", fineness_ratio, _NOSE_FINENESS),
        number("mach", mach, _SUPERSONIC),
    )


def fin_wave_drag(thickness_ratio: Given, mach: Given) -> float:
    """Return the wave drag of a double-wedge fin at supersonic speed, `4 (t/c)^2 / sqrt(M^2 - 1)`.

    Parameters
    ----------
    thickness_ratio
        Thickness over chord, to 0.2.
    mach
        Mach number, 1.2 to 4.

    Returns
    -------
    float
        Drag coefficient on the area of one side.

    Notes
    -----
    Unswept, which overstates a swept fin; linear theory, for thin fins. Source: J. Ackeret's
    linear theory; C. Airiau et al., exercise book on fundamental aerodynamics, exercise 9.2.

    Examples
    --------
    >>> round(fin_wave_drag(0.05, 2.0), 6)
    0.005774
    """
    return _core.fin_wave_drag(
        number("thickness_ratio", thickness_ratio, _THICKNESS_RATIO),
        number("mach", mach, _SUPERSONIC),
    )
