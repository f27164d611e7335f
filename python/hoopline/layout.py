"""Outlines of vehicle and tank as the rooms compute them, for drawings to scale.

Stations are metres from the nose tip; for a stage whose drag is stated they count from the tank's
fore end. A point is (station, distance from the axis), m.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Point = tuple[float, float]
Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A section of the body.

    Attributes
    ----------
    name
        nose, payload bay, recovery bay, tank or motor.
    start, end
        Where it begins and ends, m from the nose tip.
    fore_diameter, aft_diameter
        Diameters at its two ends, m.
    """

    name: str
    start: float
    end: float
    fore_diameter: float
    aft_diameter: float


@dataclass(frozen=True, slots=True)
class VehicleLayout:
    """Outline of the vehicle in side view.

    Attributes
    ----------
    length, diameter, frontal_diameter
        Overall length, body diameter and largest diameter, m.
    sections
        Sections of the body from the nose tip aft, without gaps.
    nose
        Outline of the nose from tip to base.
    fin_count, fin
        Number of fins, and the corners of one in side view; empty for none.
    motor_case_diameter, nozzle_exit_diameter
        Diameters, m.
    centre_of_gravity, burnout_centre_of_gravity, centre_of_pressure
        Stations, m; the centre of pressure is that of small angle of attack and low speed.
    static_margin
        Distance from centre of gravity at ignition to centre of pressure, body diameters.
    """

    length: float
    diameter: float
    frontal_diameter: float
    sections: tuple[Section, ...]
    nose: Outline
    fin_count: int
    fin: Outline
    motor_case_diameter: float
    nozzle_exit_diameter: float
    centre_of_gravity: float
    burnout_centre_of_gravity: float
    centre_of_pressure: float
    static_margin: float


@dataclass(frozen=True, slots=True)
class BoltRow:
    """The row of radial bolts that holds a flat bulkhead.

    Attributes
    ----------
    count
        Number of bolts.
    station
        Where the row stands, m.
    diameter, hole_diameter
        Of the bolts and of their holes in the wall, m.
    rim_thickness
        Radial thickness of the bulkhead's rim, which they go into, m.
    """

    count: float
    station: float
    diameter: float
    hole_diameter: float
    rim_thickness: float


@dataclass(frozen=True, slots=True)
class ClosureLayout:
    """Contours of a closure, each from the cylinder's end to the axis.

    Attributes
    ----------
    kind
        Word of the closure's kind.
    station
        Where the cylinder ends and the closure begins, m.
    thickness
        Nominal thickness, m.
    inner, outer
        Inside and outside of the metal.
    wrap
        Outside of the helical plies up to the radius where their fibres turn back; empty where
        no ply holds.
    bolts
        The bolts that hold it; None where none do.
    """

    kind: str
    station: float
    thickness: float
    inner: Outline
    outer: Outline
    wrap: Outline
    bolts: BoltRow | None


@dataclass(frozen=True, slots=True)
class PlyLayout:
    """One ply over the cylinder.

    Attributes
    ----------
    kind
        "helical" or "hoop".
    angle
        Winding angle from the axis, rad.
    thickness
        Laminate thickness, m.
    inner_radius, outer_radius
        Radii of its two sides, m.
    """

    kind: str
    angle: float
    thickness: float
    inner_radius: float
    outer_radius: float


@dataclass(frozen=True, slots=True)
class TankLayout:
    """Half section of the tank.

    Attributes
    ----------
    start, end, length
        Ends over the closures, and the length between, m.
    outer_diameter, liner_outer_diameter, inner_diameter, wall, wrap
        Of the cylinder, m; the wrap's is the laminate thickness of all plies.
    cylinder
        Where the cylinder begins and ends, m.
    tube
        Where liner and plies begin and end, m: with the cylinder, or beyond it over the rim of a
        bulkhead that bolts hold.
    inner
        Inside outline from the fore to the aft end.
    fore_closure, aft_closure
        Contours of the closures.
    plies
        Plies from the liner outwards.
    girth_seams
        Stations of the seams between cylinder and closures; empty for none, and none where bolts
        hold the closure.
    longitudinal_seam
        Whether the cylinder has a seam along it.
    """

    start: float
    end: float
    length: float
    outer_diameter: float
    liner_outer_diameter: float
    inner_diameter: float
    wall: float
    wrap: float
    cylinder: tuple[float, float]
    tube: tuple[float, float]
    inner: Outline
    fore_closure: ClosureLayout
    aft_closure: ClosureLayout
    plies: tuple[PlyLayout, ...]
    girth_seams: tuple[float, ...]
    longitudinal_seam: bool


@dataclass(frozen=True, slots=True)
class Layout:
    """What there is to draw of a stage.

    Attributes
    ----------
    vehicle
        The vehicle, or None for a stage whose drag is stated.
    tank
        The tank, or None for a stage without one.

    Examples
    --------
    >>> import hoopline as hl
    >>> layout = hl.Stage.load(hl.example("petrel_slim")).assess().layout
    >>> [section.name for section in layout.vehicle.sections]
    ['nose', 'payload bay', 'recovery bay', 'tank', 'motor']
    """

    vehicle: VehicleLayout | None
    tank: TankLayout | None

    @classmethod
    def read(cls, content: Mapping[str, Any]) -> "Layout":
        """Build a layout from the compiled stage's JSON."""
        vehicle, tank = content["vehicle"], content["tank"]
        return cls(_vehicle(vehicle) if vehicle else None, _tank(tank) if tank else None)


def _outline(points: list[list[float]] | None) -> Outline:
    return tuple((along, across) for along, across in points or ())


def _ends(row: Mapping[str, Any]) -> dict[str, Any]:
    rest = {name: value for name, value in row.items() if name not in ("from", "to")}
    return {"start": row["from"], "end": row["to"], **rest}


def _vehicle(row: Mapping[str, Any]) -> VehicleLayout:
    sections = tuple(Section(**_ends(each)) for each in row["sections"])
    outlines = {name: _outline(row[name]) for name in ("nose", "fin")}
    return VehicleLayout(**{**row, **outlines, "sections": sections})


def _closure(row: Mapping[str, Any]) -> ClosureLayout:
    outlines = {side: _outline(row[side]) for side in _SIDES}
    bolts = BoltRow(**row["bolts"]) if row["bolts"] else None
    return ClosureLayout(**{**row, **outlines, "bolts": bolts})


def _tank(row: Mapping[str, Any]) -> TankLayout:
    closures = {name: _closure(row[name]) for name in ("fore_closure", "aft_closure")}
    return TankLayout(
        **{
            **_ends(row),
            **closures,
            "inner": _outline(row["inner"]),
            "cylinder": tuple(row["cylinder"]),
            "tube": tuple(row["tube"]),
            "girth_seams": tuple(row["girth_seams"]),
            "plies": tuple(PlyLayout(**ply) for ply in row["plies"]),
        }
    )


_SIDES = ("inner", "outer", "wrap")
