"""Fibre thickness by netting analysis."""

import math
from typing import NamedTuple

from hoopline import _core
from hoopline.number import GAUGE_PRESSURE, LENGTH, STRESS, Given, Limits, number

_ANGLE = Limits("rad", 0.0, math.atan(math.sqrt(2.0)) * (1.0 + 1e-12), "angle")


class NettingThickness(NamedTuple):
    """Thickness of fibre alone, m; the laminate's is this over the fibre volume fraction.

    Attributes
    ----------
    helical, hoop
        Of the helical and of the hoop plies.
    """

    helical: float
    hoop: float


def netting_thickness(
    pressure: Given, radius: Given, angle: Given, helical_stress: Given, hoop_stress: Given
) -> NettingThickness:
    """Return the fibre thickness of helical and hoop plies that alone carry a closed cylinder.

    Axial: `t_helical = p R / (2 s cos^2 a)`. Hoop: `t_hoop = (p R - s t_helical sin^2 a) /
    s_hoop`.

    Parameters
    ----------
    pressure
        Internal pressure, Pa gauge.
    radius
        Radius, m.
    angle
        Winding angle of the helical plies from the vessel's axis, rad, to 54.74 degrees
        (`tan^2 a = 2`), where no hoop ply is left to wind.
    helical_stress, hoop_stress
        Stress of the fibre in the helical and in the hoop plies, Pa.

    Returns
    -------
    NettingThickness
        Thickness of fibre alone, m.

    Notes
    -----
    Neither liner nor resin carries anything, and strains are not asked to fit. Source:
    equilibrium; S. Grove, "Optimum fiber orientation in filament wound structures", Journal of
    Materials Science Letters 18, 1999, page 1203.

    Examples
    --------
    >>> fibre = netting_thickness("180 bar gauge", "75 mm", "15 deg", "2500 MPa", "2500 MPa")
    >>> round(fibre.helical * 1e3, 5), round(fibre.hoop * 1e3, 5)  # mm
    (0.28939, 0.52061)
    """
    return NettingThickness(
        *_core.netting_thickness(
            number("pressure", pressure, GAUGE_PRESSURE),
            number("radius", radius, LENGTH),
            number("angle", angle, _ANGLE),
            number("helical_stress", helical_stress, STRESS),
            number("hoop_stress", hoop_stress, STRESS),
        )
    )
