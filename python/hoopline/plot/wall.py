"""The tank's wall enlarged where cylinder and aft closure meet: liner, plies, closure."""

import math
from typing import TYPE_CHECKING

from hoopline.layout import BoltRow, Outline, TankLayout
from hoopline.plot.drawing import INK, TEXT, THIN, View, millimetres, round_length, view

if TYPE_CHECKING:
    from matplotlib.figure import Figure

# Hatches tell materials apart in black and white; the lines of metal slant as in a section.
_LINER, _CLOSURE = "//////", "\\\\\\\\\\\\"
_PLIES = {"helical": "....", "hoop": "||||||"}
_LEFT, _RIGHT = 2.1, 1.7


def enlarged_wall(
    figure: "Figure", place: tuple[float, float, float, float], drawn: TankLayout
) -> View:
    """Draw the wall at the aft end of the cylinder on a part of a figure, inches."""
    left, bottom, width, height = place
    cap = drawn.aft_closure
    inner, outer = drawn.inner_diameter / 2.0, drawn.outer_diameter / 2.0
    top = max([outer, *(across for _, across in (*cap.outer, *cap.wrap))])
    # The wall fills the upper part; a flat bulkhead is thicker than any wall and is cut off.
    deep = max(top - inner, 0.4 * min(cap.thickness, 3.0 * (top - inner)))
    scale = deep * 1e3 / (0.42 * (height - 0.5))
    window = width - _LEFT - _RIGHT
    low = top * 1e3 - (height - 0.55) * scale
    first = drawn.cylinder[1] * 1e3 - 0.45 * window * scale
    corner = (first, low)
    part = view(figure, (left + _LEFT, bottom + 0.25, window, height - 0.45), corner, scale)
    _layers(part, drawn, first * 1e-3)
    right = first + window * scale
    from matplotlib.patches import Rectangle

    frame = Rectangle(
        corner,
        window * scale,
        (height - 0.45) * scale,
        fill=False,
        linewidth=THIN,
        edgecolor=INK,
        gid="outside",
    )
    part.axes.add_patch(frame)
    _callouts(part, drawn, (first, right), low)
    for artist in (*part.axes.lines, *part.axes.patches, *part.axes.texts):
        artist.set_clip_on(artist.get_gid() != "outside")
    before = {*part.axes.patches, *part.axes.texts}
    part.scale_bar(first, low - 0.2 * scale, round_length(0.7 * scale))
    for artist in {*part.axes.patches, *part.axes.texts} - before:
        artist.set_clip_on(False)
    return part


def _layers(part: View, drawn: TankLayout, start: float) -> None:
    seam, end = drawn.cylinder[1], drawn.tube[1]
    cap = drawn.aft_closure
    inner, outer = drawn.inner_diameter / 2.0, drawn.liner_outer_diameter / 2.0

    def band(low: float, high: float, hatch: str) -> None:
        corners = [(start, low), (end, low), (end, high), (start, high)]
        part.area(corners, 0.6, hatch=hatch)

    band(inner, outer, _LINER)
    part.area([*cap.inner, *reversed(cap.outer)], 0.6, hatch=_CLOSURE)
    for ply in drawn.plies:
        band(ply.inner_radius, ply.outer_radius, _PLIES[ply.kind])
    if cap.wrap:
        metal = cap.outer[: len(cap.wrap)]
        part.area([*metal, *reversed(cap.wrap)], 0.6, hatch=_PLIES["helical"])
    if seam in drawn.girth_seams:
        part.line([(seam, inner), (seam, outer)], 1.8)
    if cap.bolts:
        part.area(bolt_section(drawn, cap.bolts), 0.6)


def bolt_section(drawn: TankLayout, bolts: BoltRow) -> Outline:
    """Shank of a bolt in the section: from the outside of the tank to the inside of the rim.

    Heads and threads are not told of; the hole is as wide as the shank here.
    """
    low = max(drawn.inner_diameter / 2.0 - bolts.rim_thickness, 0.0)
    high, half = drawn.outer_diameter / 2.0, bolts.diameter / 2.0
    left, right = bolts.station - half, bolts.station + half
    return ((left, low), (right, low), (right, high), (left, high))


def _callouts(part: View, drawn: TankLayout, frame: tuple[float, float], low: float) -> None:
    """Name each layer with its thickness beside the frame, and the closure on the other side."""
    layers = [
        (
            f"{ply.kind} ply, {math.degrees(ply.angle):.0f}\N{DEGREE SIGN}: "
            f"{millimetres(ply.thickness, 2)}",
            (ply.inner_radius + ply.outer_radius) * 500.0,
        )
        for ply in reversed(drawn.plies)
    ]
    middle = (drawn.inner_diameter + drawn.liner_outer_diameter) * 250.0
    layers.append((f"liner: {millimetres(drawn.wall, 2)}", middle))
    spacing = 0.15 * part.scale
    heights: list[float] = []
    for _, height in layers:
        heights.append(min(height, heights[-1] - spacing) if heights else height)
    shift = (heights[0] - layers[0][1] + layers[-1][1] - heights[-1]) / 2.0
    for (text, target), height in zip(layers, heights, strict=True):
        place = (frame[0] - 0.25 * part.scale, height + shift)
        part.note((frame[0] + 0.12 * part.scale, target), place, text, "right", gid="outside")
    cap = drawn.aft_closure
    inside = _within(cap.inner, cap.outer, frame[1] - 0.25 * part.scale, low)
    text = f"closure: {millimetres(cap.thickness, 2)}"
    part.note(inside, (frame[1] + 0.2 * part.scale, inside[1]), text, "left", gid="outside")
    if drawn.cylinder[1] in drawn.girth_seams:
        # Ahead of the seam and inside the liner the tank is empty, whatever the closure.
        seam = (drawn.cylinder[1] * 1e3, drawn.inner_diameter * 500.0)
        place = (seam[0] - 0.3 * part.scale, low + 0.2 * part.scale)
        part.note(seam, place, "girth seam (thick line)", "right", gid="outside")
    part.axes.text(
        frame[0], low + (part.axes.get_ylim()[1] - part.axes.get_ylim()[0]) + 0.04 * part.scale,
        "Wall enlarged at the aft end of the cylinder, true proportions, nominal thicknesses",
        fontsize=TEXT, va="bottom", gid="outside",
    )  # fmt: skip


def _within(inner: Outline, outer: Outline, edge: float, low: float) -> tuple[float, float]:
    """Return a place inside the closure's metal and the frame, mm."""
    if len(inner) == 2:  # a flat bulkhead
        along, top = (inner[-1][0] + outer[-1][0]) * 500.0, inner[0][1] * 1e3
        return min(along, edge), (top + low) / 2.0
    pairs = [
        ((a[0] + b[0]) * 500.0, (a[1] + b[1]) * 500.0) for a, b in zip(inner, outer, strict=True)
    ]
    seen = [pair for pair in pairs if pair[0] < edge and pair[1] > low]
    return seen[-1] if seen else pairs[0]
