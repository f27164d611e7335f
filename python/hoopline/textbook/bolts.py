"""A row of radial bolts that holds a plug in the bore of a cylinder."""

import math
from typing import NamedTuple

from hoopline import _core
from hoopline.errors import InputError
from hoopline.number import GAUGE_PRESSURE, LENGTH, Given, Limits, larger, number

_COUNT = Limits("", 1.0, 1000.0, "number")
_AREA = Limits("m2", 1e-9, 1.0, "area")


class BoltRow(NamedTuple):
    """Load of one bolt, N, and the mean stresses that it causes, Pa.

    Attributes
    ----------
    force
        Load of one bolt, N.
    bolt_shear
        Shear stress in the bolt.
    bearing
        Bearing stress on the wall, on the bolt's diameter.
    shear_out
        Shear stress in the wall along two planes from the hole's edge to the end of the tube.
    net_section
        Axial stress in the wall between the holes.
    """

    force: float
    bolt_shear: float
    bearing: float
    shear_out: float
    net_section: float


def bolt_row(
    pressure: Given,
    bore: Given,
    wall: Given,
    count: Given,
    diameter: Given,
    hole_diameter: Given,
    shear_area: Given,
    edge_distance: Given,
) -> BoltRow:
    """Return load and stresses of a row of bolts that holds a plug in a bore under pressure.

    `F = p pi D^2 / (4 N)`; in the bolt `F / A`, bearing `F / (d t)`, shear-out
    `F / (2 t (e - h / 2))`, net section `F / (t (pi (D + t) / N - h))`.

    Parameters
    ----------
    pressure
        Pressure p on the plug, Pa gauge.
    bore
        Diameter D of the bore, m.
    wall
        Wall thickness t of the cylinder, m.
    count
        Number N of bolts, whole.
    diameter, hole_diameter
        Diameter d of the bolts and h of their holes in the wall, m.
    shear_area
        Section A of a bolt in the plane between wall and plug, m2.
    edge_distance
        Distance e from the middle of the holes to the end of the tube, m.

    Returns
    -------
    BoltRow
        Load, N, and stresses, Pa.

    Notes
    -----
    Every bolt carries the same share: a fitting factor is yours to multiply by. No friction, no
    bending, no stress raised at the holes. Source: equilibrium, force over area.

    Examples
    --------
    >>> mm = ("150 mm", "3 mm", 24, "6 mm", "6 mm", "20.12 mm2", "15 mm")
    >>> row = bolt_row("9 MPa gauge", *mm)
    >>> round(row.force), round(row.bearing / 1e6, 1), round(row.net_section / 1e6, 1)  # N, MPa
    (6627, 368.2, 157.5)
    """
    pressed = number("pressure", pressure, GAUGE_PRESSURE)
    across, thickness = number("bore", bore, LENGTH), number("wall", wall, LENGTH)
    bolts = number("count", count, _COUNT)
    if bolts != round(bolts):
        raise InputError(f"count = {bolts:g} is no whole number")
    shank, hole = (
        number("diameter", diameter, LENGTH),
        number("hole_diameter", hole_diameter, LENGTH),
    )
    area = number("shear_area", shear_area, _AREA)
    edge = number("edge_distance", edge_distance, LENGTH)
    larger(("edge_distance", edge), ("half of hole_diameter", hole / 2.0), LENGTH)
    pitch = math.pi * (across + thickness) / bolts
    larger(("the pitch of the holes", pitch), ("hole_diameter", hole), LENGTH)
    return BoltRow(*_core.bolt_row(pressed, across, thickness, bolts, shank, hole, area, edge))
