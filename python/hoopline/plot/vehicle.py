"""The vehicle in side view, to scale, with the stations that stability rests on."""

import math
from typing import TYPE_CHECKING

from hoopline.assessment import Assessment
from hoopline.errors import InputError
from hoopline.layout import TankLayout, VehicleLayout
from hoopline.plot.argument import drawn_from
from hoopline.plot.drawing import (
    CENTRE_LINE,
    OUTLINE,
    ROW,
    TEXT,
    THIN,
    View,
    across_text,
    beyond,
    millimetres,
    mirrored,
    round_length,
    rows_of,
    text_width,
    view,
)
from hoopline.plot.plate import PAGE_WIDTH, Plate, sheet
from hoopline.plot.tank import outside
from hoopline.rounding import rounded

if TYPE_CHECKING:
    from matplotlib.figure import Figure

# Sizes on paper in inches; own choice.
_SIDE, _GAP = 0.55, 0.12
_HIDDEN = (0, (5, 3))


def vehicle(assessment: Assessment) -> Plate:
    """Draw the vehicle to scale: sections, lengths, diameters, CG, CP, and the tank enlarged.

    Parameters
    ----------
    assessment
        Of a stage whose body is drawn and not stated by its drag.

    Raises
    ------
    InputError
        The stage has no body to draw.

    Examples
    --------
    >>> import hoopline as hl
    >>> plate = hl.plot.vehicle(hl.Stage.load(hl.example("petrel_slim")).assess())
    >>> plate.caption.startswith("Petrel slim:")
    True
    """
    drawn_from(assessment, Assessment, "Stage.assess")
    layout = assessment.layout
    body = layout.vehicle
    if body is None:
        raise InputError("there is no vehicle to draw: its drag is stated and not its body")
    caption = _caption(assessment, body)
    scale = body.length * 1e3 / (PAGE_WIDTH - 2.0 * _SIDE)
    reach = max([body.frontal_diameter / 2.0, *(across for _, across in body.fin)]) * 1e3 / scale
    names = _name_rows(body, scale)
    above = 4.0 * ROW + _GAP + 0.1
    below = _GAP + (2.6 + 0.7 * (max(names) + 1)) * ROW + 0.3
    whole = above + 2.0 * reach + below
    part = 0.0 if layout.tank is None else _enlarged_height(body, layout.tank)
    figure, taken = sheet(PAGE_WIDTH, whole + part + 0.22, caption)
    corner = (-_SIDE * scale, -(below + reach) * scale)
    full = view(figure, (0.0, taken + part, PAGE_WIDTH, whole), corner, scale)
    _outline(full, body)
    _stability(full, body, reach * scale)
    _lengths(full, body, reach * scale, names)
    full.axes.text(
        0.01, 1.0, "Side view. Dimensions in mm, stations from the nose tip.",
        transform=full.axes.transAxes, fontsize=TEXT, va="bottom",
    )  # fmt: skip
    if layout.tank is not None:
        _enlarged(figure, taken, part, body, layout.tank)
    return Plate(figure, caption)


def _outline(full: View, body: VehicleLayout) -> None:
    for index in range(body.fin_count):
        angle = math.pi / 2.0 + 2.0 * math.pi * index / body.fin_count
        height, towards = math.sin(angle), math.cos(angle)
        # Those behind the body are drawn first, those before it last.
        corners = [(along, across * height) for along, across in body.fin]
        full.area(corners, zorder=3 if towards < -1e-9 else 1)
    for section in body.sections:
        if section.name == "nose":
            full.area(mirrored(body.nose), zorder=2)
        else:
            fore, aft = section.fore_diameter / 2.0, section.aft_diameter / 2.0
            full.area(mirrored([(section.start, fore), (section.end, aft)]), zorder=2)
    motor = body.sections[-1]
    case = body.motor_case_diameter / 2.0
    for side in (case, -case):
        if motor.name == "motor" and 2.0 * case < motor.fore_diameter:
            ends = [(motor.start, side), (motor.end, side)]
            full.line(ends, THIN, linestyle=_HIDDEN, zorder=4)
    nozzle = body.nozzle_exit_diameter / 2.0
    full.line([(body.length, -nozzle), (body.length, nozzle)], 2.2, zorder=4)
    overhang = 0.02 * body.length
    axis = [(-overhang, 0.0), (body.length + overhang, 0.0)]
    full.line(axis, THIN, linestyle=CENTRE_LINE, zorder=4)


def _stability(full: View, body: VehicleLayout, reach: float) -> None:
    """Dimension CG and CP from the nose tip, and the distance between them, above the body."""
    step = ROW * full.scale
    first = max(reach, body.frontal_diameter * 500.0) + _GAP * full.scale + 0.3 * step
    gravity, pressure = body.centre_of_gravity, body.centre_of_pressure
    burnout = body.burnout_centre_of_gravity
    calibres = rounded(body.static_margin, 2, "down")
    margin = f"static margin {calibres} calibres, {millimetres(abs(pressure - gravity))}"
    full.along((gravity, pressure), first, margin, (0.0, 0.0))
    stations = (
        (gravity, f"CG at ignition {millimetres(gravity)}"),
        (burnout, f"CG at burnout {millimetres(burnout)}"),
        (pressure, f"CP at low speed {millimetres(pressure)}"),
    )
    for row, (station, text) in enumerate(sorted(stations), start=1):
        full.along((0.0, station), first + row * step, text, (0.0, 0.0))


def _name_rows(body: VehicleLayout, scale: float) -> list[int]:
    spans = []
    for section in body.sections:
        middle = (section.start + section.end) * 500.0
        half = (text_width(section.name) / 2.0 + 0.02) * scale
        spans.append((middle - half, middle + half))
    return rows_of(spans)


def _lengths(full: View, body: VehicleLayout, reach: float, names: list[int]) -> None:
    """Dimension sections, overall length and diameters."""
    step = ROW * full.scale
    chain = -(reach + _GAP * full.scale + 0.5 * step)
    for section, row in zip(body.sections, names, strict=True):
        ends = (section.start, section.end)
        radii = (-500.0 * section.fore_diameter, -500.0 * section.aft_diameter)
        full.along(ends, chain, millimetres(section.end - section.start), radii)
        middle = (section.start + section.end) * 500.0
        full.text(middle, chain - (0.25 + 0.65 * row) * step, section.name, va="top")
    overall = chain - (1.35 + 0.7 * (max(names) + 1)) * step
    feet = (0.0, -500.0 * body.frontal_diameter)
    full.along((0.0, body.length), overall, f"overall length {millimetres(body.length)}", feet)
    radius = body.diameter / 2.0
    nose = body.nose[-1][0] * 1e3
    text = across_text(body.diameter, 1)
    full.across((-radius, radius), -0.3 * full.scale, text, nose)
    right = body.length * 1e3
    if body.fin:
        tip = max(across for _, across in body.fin)
        widest = tip if body.fin_count == 4 else None
        if widest is not None:
            full.across((-tip, tip), right + 0.36 * full.scale, millimetres(2.0 * tip), right)
    bar = round_length(0.9 * full.scale)
    full.scale_bar(0.0, overall - 0.27 * full.scale, bar)
    case = (
        f"dashed: motor case {across_text(body.motor_case_diameter)}; "
        if (body.motor_case_diameter < body.frontal_diameter)
        else ""
    )
    note = f"{case}thick line at the aft end: nozzle exit {across_text(body.nozzle_exit_diameter)}"
    full.text(right, overall - 0.245 * full.scale, note, ha="right")


def _enlarged_scale(tank: TankLayout) -> float:
    return tank.length * 1e3 / (PAGE_WIDTH - 2.0 * _SIDE - 0.6)


def _enlarged_height(body: VehicleLayout, tank: TankLayout) -> float:
    room = body.diameter * 1e3 / _enlarged_scale(tank)
    return room + beyond(room, across_text(body.diameter, 1)) + 0.75


def _enlarged(
    figure: "Figure", bottom: float, height: float, body: VehicleLayout, tank: TankLayout
) -> None:
    scale = _enlarged_scale(tank)
    middle = (tank.start + tank.end) * 500.0
    corner = (middle - PAGE_WIDTH / 2.0 * scale, -body.diameter * 500.0 - 0.42 * scale)
    part = view(figure, (0.0, bottom, PAGE_WIDTH, height), corner, scale)
    radius = body.diameter / 2.0
    rest = 0.3 * scale * 1e-3
    ends = (tank.start - rest, tank.end + rest)
    for side in (radius, -radius):
        part.line([(ends[0], side), (ends[1], side)])
    for station in (tank.start, tank.end):
        part.line([(station, -radius), (station, radius)], THIN)
    for end in ends:
        wave = [
            (end + 0.012 * tank.length * math.sin(math.pi * share), radius * share)
            for share in (-1.0 + step / 16.0 for step in range(33))
        ]
        part.line(wave, THIN)
    part.line(mirrored(outside(tank)), OUTLINE, linestyle=_HIDDEN)
    part.line([(ends[0], 0.0), (ends[1], 0.0)], THIN, linestyle=CENTRE_LINE)
    row = -radius * 1e3 - 0.2 * scale
    text = f"tank {millimetres(tank.length)}"
    part.along((tank.start, tank.end), row, text, (-radius * 1e3, -radius * 1e3))
    column = ends[0] * 1e3 - 0.15 * scale
    part.across((-radius, radius), column, across_text(body.diameter, 1), ends[0] * 1e3)
    part.scale_bar(tank.start * 1e3, row - 0.2 * scale, round_length(0.9 * scale))
    part.axes.text(
        0.01, 1.0, "Tank section enlarged; dashed: the tank within its closures.",
        transform=part.axes.transAxes, fontsize=TEXT, va="top",
    )  # fmt: skip


def _caption(assessment: Assessment, body: VehicleLayout) -> str:
    fins = f"{body.fin_count} fins" if body.fin_count else "no fins"
    ahead = "behind" if body.static_margin >= 0.0 else "AHEAD of"
    calibres = rounded(body.static_margin, 2, "down").removeprefix("-")
    burnout = rounded(assessment["airframe.burnout_static_margin"], 2, "down")
    return (
        f"{assessment.name}: {body.length:.2f} m long, {body.diameter * 1e3:.1f} mm in diameter, "
        f"fineness ratio {assessment['airframe.fineness_ratio']:.1f}, {fins}. The centre of "
        f"pressure lies {calibres} calibres {ahead} the centre of gravity at "
        f"ignition, {burnout} at burnout, both at low speed and small angle of attack. "
        f"The {assessment.frontal_governed_by} sets the frontal area."
    )
