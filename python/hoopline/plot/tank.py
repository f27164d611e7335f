"""The tank in half section, to scale, and its wall enlarged where cylinder and closure meet."""

import math

from hoopline.assessment import Assessment
from hoopline.errors import InputError
from hoopline.layout import BoltRow, ClosureLayout, Outline, TankLayout
from hoopline.plot.argument import drawn_from
from hoopline.plot.drawing import (
    ARROW,
    CENTRE_LINE,
    INK,
    ROW,
    TEXT,
    THIN,
    View,
    across_text,
    millimetres,
    round_length,
    view,
)
from hoopline.plot.plate import PAGE_WIDTH, Plate, sheet
from hoopline.plot.wall import bolt_section, enlarged_wall
from hoopline.rounding import rounded

# Sizes on paper in inches; own choice.
_SIDE = 0.6
_DETAIL, _EDGE = 2.15, 0.08
_METAL, _WRAP = "#8c8c8c", INK


def tank(assessment: Assessment) -> Plate:
    """Draw the tank to scale: upper half cut, lower half from outside, and its wall enlarged.

    Parameters
    ----------
    assessment
        Of a stage with a tank.

    Raises
    ------
    InputError
        The stage has no tank.

    Examples
    --------
    >>> import hoopline as hl
    >>> plate = hl.plot.tank(hl.Stage.load(hl.example("petrel_slim")).assess())
    >>> "24.0 L" in plate.caption
    True
    """
    drawn_from(assessment, Assessment, "Stage.assess")
    drawn = assessment.layout.tank
    if drawn is None:
        raise InputError("there is no tank to draw: the stage states its propellant mass instead")
    caption = _caption(assessment, drawn)
    # A stubby tank would fill the page if it were as wide as a slender one.
    scale = max(drawn.length * 1e3 / (PAGE_WIDTH - 2.0 * _SIDE), _widest(drawn) * 2e3 / 3.0)
    half = _widest(drawn) * 1e3 / scale
    above, below = 0.5, 0.8
    height = 2.0 * half + above + below
    figure, taken = sheet(PAGE_WIDTH, height + _DETAIL, caption)
    middle = (drawn.start + drawn.end) * 500.0
    corner = (middle - PAGE_WIDTH / 2.0 * scale, -(half + below) * scale)
    whole = view(figure, (0.0, taken + _DETAIL, PAGE_WIDTH, height), corner, scale)
    _cut(whole, drawn)
    _from_outside(whole, drawn)
    axis = 0.015 * drawn.length
    whole.line([(drawn.start - axis, 0.0), (drawn.end + axis, 0.0)], THIN, linestyle=CENTRE_LINE)
    _dimensions(whole, drawn, half * scale)
    whole.axes.text(
        0.01, 1.0 - _EDGE / height, "Upper half cut, lower half from outside. "
        "Dimensions in mm, nominal.", transform=whole.axes.transAxes, fontsize=TEXT, va="top",
    )  # fmt: skip
    _circle(whole, drawn)
    enlarged_wall(figure, (0.0, taken, PAGE_WIDTH, _DETAIL - 0.05), drawn)
    return Plate(figure, caption)


def outside(drawn: TankLayout) -> Outline:
    """Outside of the upper half from the fore to the aft end, wrap included."""
    radius = drawn.outer_diameter / 2.0
    first, last = drawn.tube
    fore, aft = (_covered(cap) for cap in (drawn.fore_closure, drawn.aft_closure))
    return (*reversed(fore), (first, radius), (last, radius), *aft)


def _covered(cap: ClosureLayout) -> Outline:
    """Outside of a closure: wrap as far as it reaches, then metal."""
    if cap.bolts:  # tube and rim end flush
        end, bore = cap.outer[0]
        return ((end, bore), (end, 0.0))
    if cap.kind.startswith("flat"):
        return ((cap.station, cap.outer[0][1]), *cap.outer)
    return (*cap.wrap, *cap.outer[len(cap.wrap) :])


def _widest(drawn: TankLayout) -> float:
    return max(across for _, across in outside(drawn))


def _cut(whole: View, drawn: TankLayout) -> None:
    """Thin walls are filled: hatching would not be seen at this scale."""
    first, last = drawn.tube
    inner, outer = drawn.inner_diameter / 2.0, drawn.liner_outer_diameter / 2.0
    corners = [(first, inner), (last, inner), (last, outer), (first, outer)]
    whole.area(corners, 0.3, facecolor=_METAL)
    for cap in (drawn.fore_closure, drawn.aft_closure):
        whole.area([*cap.inner, *reversed(cap.outer)], 0.3, facecolor=_METAL)
        if cap.wrap:
            metal = cap.outer[: len(cap.wrap)]
            whole.area([*metal, *reversed(cap.wrap)], 0.2, facecolor=_WRAP)
    if drawn.plies:
        wrap = drawn.outer_diameter / 2.0
        corners = [(first, outer), (last, outer), (last, wrap), (first, wrap)]
        whole.area(corners, 0.2, facecolor=_WRAP)
    for cap in (drawn.fore_closure, drawn.aft_closure):
        if cap.bolts:
            whole.area(bolt_section(drawn, cap.bolts), 0.3)


def _from_outside(whole: View, drawn: TankLayout) -> None:
    below = [(along, -across) for along, across in outside(drawn)]
    whole.line([(drawn.start, 0.0), *below, (drawn.end, 0.0)])
    for cap in (drawn.fore_closure, drawn.aft_closure):
        if cap.wrap:
            along, across = cap.wrap[-1]
            whole.line([(along, 0.0), (along, -across)], THIN)
    for cap in (drawn.fore_closure, drawn.aft_closure):
        if cap.bolts:
            _heads(whole, drawn, cap.bolts)
    for station in drawn.cylinder:
        if station not in drawn.tube:
            continue  # a bolted bulkhead's inside, under the tube
        seam = station in drawn.girth_seams
        ends = [(station, 0.0), (station, -drawn.outer_diameter / 2.0)]
        whole.line(ends, 1.3 if seam else THIN)
    if drawn.longitudinal_seam:
        height = -0.12 * drawn.outer_diameter
        whole.line([(station, height) for station in drawn.cylinder], 1.0, linestyle=(0, (8, 2)))


def _heads(whole: View, drawn: TankLayout, bolts: BoltRow) -> None:
    """Bolts of a row as seen from outside on the lower half; their heads are not told of."""
    radius, half = drawn.outer_diameter / 2.0, bolts.diameter / 2.0
    circle = [math.radians(step) for step in range(0, 360, 15)]
    for number in range(round(bolts.count)):
        angle = 2.0 * math.pi * number / bolts.count
        across, towards = radius * math.cos(angle), math.sin(angle)
        if towards <= 0.0 or across >= 0.0:
            continue  # behind, or on the half that is cut
        points = [
            (bolts.station + half * math.cos(at), across + half * towards * math.sin(at))
            for at in circle
        ]
        whole.area(points, THIN)


def _dimensions(whole: View, drawn: TankLayout, half: float) -> None:
    step = ROW * whole.scale
    row = -half - 0.75 * step
    first, last = drawn.cylinder
    radius = -drawn.outer_diameter * 500.0
    for ends, feet in (
        ((drawn.start, first), (0.0, radius)),
        ((first, last), (radius, radius)),
        ((last, drawn.end), (radius, 0.0)),
    ):
        text = millimetres(ends[1] - ends[0], 1)
        whole.along(ends, row, text, feet, "left" if ends[1] == first else "right")
    text = f"overall length {millimetres(drawn.length, 1)}"
    whole.along((drawn.start, drawn.end), row - 1.2 * step, text, (0.0, 0.0))
    outer, inner = drawn.outer_diameter / 2.0, drawn.inner_diameter / 2.0
    text = across_text(drawn.outer_diameter, 1)
    whole.across((-outer, outer), drawn.end * 1e3 + 0.36 * whole.scale, text, last * 1e3)
    bar = row - 2.35 * step
    words = _seam_words(drawn)
    inside = f"{across_text(drawn.inner_diameter, 1)} inside"
    if inner * 1e3 > 0.25 * whole.scale:
        _bore(whole, 1e3 * (first + 0.12 * (last - first)), inner, inside)
    else:  # no room for letters between axis and wall
        words = f"{inside}; {words}"
    whole.text(drawn.end * 1e3, bar + 0.025 * whole.scale, words, ha="right")
    whole.scale_bar(drawn.start * 1e3, bar, round_length(0.9 * whole.scale))


def _bore(whole: View, place: float, inner: float, text: str) -> None:
    """Half a dimension line: its other end lies in the half that is not cut."""
    whole.axes.annotate("", (place, inner * 1e3), (place, -inner * 120.0), arrowprops=ARROW)
    whole.text(place + 0.05 * whole.scale, inner * 500.0, text, ha="left")


def _seam_words(drawn: TankLayout) -> str:
    stations = [millimetres(station - drawn.start, 1) for station in drawn.girth_seams]
    words = [f"girth seams {' and '.join(stations)} from the fore end"] if stations else []
    if drawn.longitudinal_seam:
        words.append("longitudinal seam dashed")
    return "; ".join(words) or "no seam"


def _circle(whole: View, drawn: TankLayout) -> None:
    """Mark the place that is drawn enlarged below."""
    from matplotlib.patches import Circle

    centre = (drawn.cylinder[1] * 1e3, drawn.outer_diameter * 500.0)
    size = 0.11 * whole.scale
    whole.axes.add_patch(Circle(centre, size, fill=False, linewidth=THIN, edgecolor=INK))
    lift = size * math.sqrt(0.5)
    whole.text(centre[0] - 1.3 * lift, centre[1] + 1.5 * lift, "enlarged below", ha="right")


def _caption(assessment: Assessment, drawn: TankLayout) -> str:
    caps = (drawn.fore_closure, drawn.aft_closure)
    kinds = [cap.kind.replace("ellipsoid_2_1", "2:1 ellipsoid").replace("_", " ") for cap in caps]
    least = rounded(assessment["geometry.liner_minimum_wall"] * 1e3, 2, "down")
    plies = "ply" if len(drawn.plies) == 1 else "plies"
    laminate = f"a wrap of {len(drawn.plies)} {plies} ({drawn.wrap * 1e3:.2f} mm of laminate)"
    words = [
        f"Tank of {assessment.name}: {assessment['geometry.tank_volume'] * 1e3:.1f} L in "
        f"{drawn.length * 1e3:.0f} mm by {drawn.outer_diameter * 1e3:.1f} mm, "
        f"{assessment['tank.mass']:.2f} kg; liner {drawn.wall * 1e3:.2f} mm (at least "
        f"{least} mm), {laminate if drawn.plies else 'no wrap'}; closures {kinds[0]} "
        f"fore and {kinds[1]} aft."
    ]
    proud = _widest(drawn) - drawn.outer_diameter / 2.0
    if proud > 1e-5:
        words.append(
            f"A closure stands {proud * 1e3:.1f} mm proud of the cylinder and is larger than the "
            "diameter that the drag counts."
        )
    for side, cap in zip(("fore", "aft"), caps, strict=True):
        if cap.bolts:
            words.append(
                f"{cap.bolts.count:.0f} bolts of {cap.bolts.diameter * 1e3:.1f} mm hold the {side} "
                "bulkhead; their heads are not drawn."
            )
    if any(kind in ("flat clamped", "flat supported") for kind in kinds):
        words.append("The rim that holds a flat bulkhead is in no mass and is not drawn.")
    if any(cap.wrap for cap in caps):
        words.append("Steps at the junction are as computed; plies on domes are drawn even.")
    return " ".join(words)
