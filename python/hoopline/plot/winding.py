"""Both domes with the wrap that is wound over them, to scale, above slip and thickness."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from hoopline.errors import InputError
from hoopline.plot.argument import drawn_from
from hoopline.plot.drawing import CENTRE_LINE, INK, TEXT, THIN, View, round_length, view
from hoopline.plot.plate import PAGE_WIDTH, Plate, sheet
from hoopline.plot.style import BLUE, GREY, VERMILION, Look, look
from hoopline.rounding import significant
from hoopline.winding import Winding, WoundPly

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

Numbers = NDArray[np.float64]

# Sizes on paper in inches; own choice.
_LEFT, _RIGHT, _BETWEEN, _PANEL, _GAP, _FOOT, _TOP = 0.62, 0.12, 0.62, 1.25, 0.16, 0.42, 0.3
_METAL = "#b9b9b9"
_MM = 1e3
# Cylinder drawn beside each dome, over its radius, and bands drawn from outside; own choice.
_BESIDE, _BANDS = 0.35, 16


def winding(wound: Winding) -> Plate:
    """Draw both domes to scale with the wrap's build-up, and what friction the paths need.

    The upper half of each drawing is cut: liner, hoop plies, helical plies as thick as they pile
    up. The lower half shows bands of the first helical ply from outside. Below, along the same
    stations: the slippage coefficient that the band needs against the allowable one, solid for its
    middle, dashed for its worse edge; and the thickness of all helical plies together.

    Parameters
    ----------
    wound
        A winding, from `Stage.winding`.

    Raises
    ------
    InputError
        No helical ply that can be wound goes over the domes.

    Examples
    --------
    >>> import hoopline as hl
    >>> plate = hl.plot.winding(hl.Stage.load(hl.example("petrel_slim")).winding())
    >>> "allowed 0.15" in plate.caption
    True
    """
    drawn_from(wound, Winding, "Stage.winding")
    from matplotlib.ticker import NullFormatter

    plies = [ply for ply in wound.plies if ply.path]
    if not plies:
        raise InputError("there is no dome to draw: no helical ply that can be wound goes over it")
    caption = _caption(wound)
    reach = _BESIDE * wound.liner.outer_radius
    depths = [
        max(abs(station - end) for station, _ in dome[1])
        for dome, end in zip(wound.liner.domes, (0.0, wound.liner.cylinder_length), strict=True)
    ]
    # One scale for both, so that they can be compared; room for the build-up beyond the metal.
    piled = max(float(_total(wound, plies, end)[1].max()) for end in (0, 1))
    spans = [depth + piled + reach for depth in depths]
    paper = PAGE_WIDTH - _LEFT - _RIGHT - _BETWEEN
    scale = sum(spans) * _MM / paper
    half = (wound.liner.outer_radius + wound.liner.wrap + piled) * _MM / scale + 0.05
    height = _TOP + 2.0 * half + 2.0 * (_PANEL + _GAP) + _FOOT
    figure, taken = sheet(PAGE_WIDTH, height, caption)
    left = _LEFT
    rows = [
        taken + _FOOT,
        taken + _FOOT + _PANEL + _GAP,
        taken + _FOOT + 2.0 * (_PANEL + _GAP),
    ]
    tallest = _MM * piled
    slips: list[Axes] = []
    for end, span in enumerate(spans):
        width = span * _MM / scale
        start = (-depths[0] - piled if end == 0 else wound.liner.cylinder_length - reach) * _MM
        corner = (start, -half * scale)
        drawn = view(figure, (left, rows[2], width, 2.0 * half), corner, scale)
        _dome(drawn, wound, plies, end)
        drawn.axes.text(
            0.5, 1.0 + 0.06 / (2.0 * half), f"{('Fore', 'Aft')[end]} closure",
            transform=drawn.axes.transAxes, ha="center", fontsize=9,
        )  # fmt: skip
        if end == 1:
            drawn.scale_bar(start, -half * scale, round_length(0.6 * scale))
        limits = (start, start + width * scale)
        thick = _panel(figure, (left, rows[0], width, _PANEL), limits)
        slip = _panel(figure, (left, rows[1], width, _PANEL), limits)
        slip.xaxis.set_major_formatter(NullFormatter())
        _thickness(thick, wound, plies, end, tallest)
        _slip(slip, wound, plies, end)
        slips.append(slip)
        thick.set_xlabel("aft of the cylinder's fore end, mm", fontsize=8)
        if end == 0:
            slip.set_ylabel("slippage coefficient", fontsize=8)
            thick.set_ylabel("helical plies, mm", fontsize=8)
            for panel in (slip, thick):
                panel.yaxis.set_label_coords(-0.45 / width, 0.5)
        left += width + _BETWEEN
    highest = max(axes.get_ylim()[1] for axes in slips)
    for axes in slips:
        axes.set_ylim(0.0, highest)
    return Plate(figure, caption)


def _panel(
    figure: "Figure", place: tuple[float, float, float, float], limits: tuple[float, float]
) -> "Axes":
    wide, high = figure.get_size_inches()
    left, bottom, width, height = place
    axes = figure.add_axes((left / wide, bottom / high, width / wide, height / high))
    axes.set_xlim(*limits)
    axes.grid(visible=True, color="#dddddd", linewidth=0.6)
    axes.set_axisbelow(True)
    axes.tick_params(labelsize=7)
    return axes


def _on_dome(wound: Winding, ply: WoundPly, table: str, end: int) -> tuple[Numbers, ...]:
    """Columns of a ply on one dome, from the rim outwards."""
    columns = getattr(ply, table)
    station = columns["axial_position"]
    there = station <= 0.0 if end == 0 else station >= wound.liner.cylinder_length
    order = slice(None, None, -1) if end == 0 else slice(None)
    return tuple(values[there][order] for values in columns.values())


def _total(wound: Winding, plies: Sequence[WoundPly], end: int) -> tuple[Numbers, Numbers]:
    """Radius over that of the rim, falling, and thickness of all helical plies there, m."""
    tables = [_on_dome(wound, ply, "build_up", end) for ply in plies]
    shares = [radius / radius[0] for _, radius, _ in tables]
    every = np.unique(np.concatenate(shares))[::-1]
    thickness = np.zeros_like(every)
    for share, (_, _, thick) in zip(shares, tables, strict=True):
        thickness += np.interp(every, share[::-1], thick[::-1], left=0.0)
    return every, thickness


def _dome(drawn: View, wound: Winding, plies: Sequence[WoundPly], end: int) -> None:
    liner = wound.liner
    rim = 0.0 if end == 0 else liner.cylinder_length
    away = -1.0 if end == 0 else 1.0
    inside, outside = (np.array(side) for side in liner.domes[end])
    back = rim - away * _BESIDE * liner.outer_radius
    wrap = liner.outer_radius + liner.wrap
    cut: dict[str, Any] = {"edgecolor": INK}
    drawn.area([*inside, *outside[::-1]], THIN, facecolor=_METAL, **cut)
    inner = liner.inner_radius
    corners = [(back, inner), (rim, inner), (rim, liner.outer_radius), (back, liner.outer_radius)]
    drawn.area(corners, THIN, facecolor=_METAL, **cut)
    helical, hoop = (_laminate(wound, kind) for kind in ("helical", "hoop"))
    low = liner.outer_radius
    # The order of the plies does not show at this scale: all helical ones lie next to the liner.
    for thick, colour in ((helical, BLUE), (hoop, VERMILION)):
        if thick:
            high = low + thick
            corners = [(back, low), (rim, low), (rim, high), (back, high)]
            drawn.area(corners, 0.2, facecolor=colour, edgecolor=colour)
            low = high
    share, thickness = _total(wound, plies, end)
    surface, normal = _surface(outside, share, away)
    outer = surface + normal * thickness[:, None]
    drawn.area([*surface, *outer[::-1]], 0.2, facecolor=BLUE, edgecolor=BLUE)
    # From outside.
    below = [(along, -across) for along, across in outer]
    drawn.line([(back, -wrap), (rim, -wrap), *below])
    apex = [(along, -across) for along, across in outside if across <= outer[-1, 1]]
    drawn.line([below[-1], *apex])
    _bands(drawn, wound, plies[0], end, back)
    tip = float(outside[-1, 0])
    drawn.line([(back, 0.0), (tip + away * 0.01, 0.0)], THIN, linestyle=CENTRE_LINE)
    opening = liner.openings[end]
    drawn.line([(back, opening), (tip, opening)], THIN, linestyle=(0, (3, 2)))
    side: Any = "right" if end == 0 else "left"
    drawn.text(
        _MM * back, _MM * opening + 0.03 * drawn.scale,
        f"opening, radius {significant(_MM * opening, 3)} mm", va="bottom", ha=side,
    )  # fmt: skip
    if liner.isotensoids[end]:
        drawn.line(liner.isotensoids[end], 0.8, color=GREY, linestyle=(0, (1, 1.5)))


def _laminate(wound: Winding, kind: str) -> float:
    """Laminate of the plies of a kind on the cylinder, m, as the stage gives them."""
    stated = [ply["stated_fibre_thickness"] or 0.0 for ply in wound.plies]
    share = wound.liner.wrap / sum(stated)
    return share * sum(
        fibre for fibre, ply in zip(stated, wound.plies, strict=True) if ply.kind == kind
    )


def _surface(outside: Numbers, share: Numbers, away: float) -> tuple[Numbers, Numbers]:
    """Places on the metal at shares of its rim's radius, and the normals there."""
    radius = share * outside[0, 1]
    # The contour comes as chords; a curve through their ends has no corners.
    turn = np.linspace(0.0, 1.0, len(outside))
    fine = np.linspace(0.0, 1.0, 40 * len(outside))
    along, across = (np.interp(fine, turn, outside[:, axis]) for axis in (0, 1))
    place = np.interp(radius, across[::-1], along[::-1])
    slope = np.gradient(along, across + 1e-12 * np.arange(len(across))[::-1])
    tilt = np.interp(radius, across[::-1], slope[::-1])
    length = np.hypot(1.0, tilt)
    normal = np.column_stack((away / length, np.abs(tilt) / length))
    return np.column_stack((place, radius)), normal


def _bands(drawn: View, wound: Winding, ply: WoundPly, end: int, back: float) -> None:
    """Bands of both hands on the near side of the lower half."""
    station, radius, azimuth = (ply.path[name] for name in ("axial_position", "radius", "azimuth"))
    fine = np.linspace(0.0, float(ply.path["path_length"][-1]), 6000)
    length = ply.path["path_length"]
    station, radius, azimuth = (
        np.interp(fine, length, values) for values in (station, radius, azimuth)
    )
    there = station <= back if end == 0 else station >= back
    for number in range(_BANDS):
        for hand in (-1.0, 1.0):
            around = hand * azimuth + 2.0 * math.pi * number / _BANDS
            across = radius * np.cos(around)
            near = there & (np.sin(around) > 0.0) & (across < 0.0)
            drawn.line(
                np.column_stack((station, np.where(near, across, np.nan))), 0.35, color=BLUE,
                alpha=0.8,
            )  # fmt: skip


def _looks(plies: Sequence[WoundPly]) -> list[Look]:
    return [look(number) for number in range(len(plies))]


def _slip(axes: "Axes", wound: Winding, plies: Sequence[WoundPly], end: int) -> None:
    allowed = wound.totals["slippage_coefficient"] or 0.0
    most = allowed
    for ply, style in zip(plies, _looks(plies), strict=True):
        columns = dict(zip(ply.path, _on_dome(wound, ply, "path", end), strict=True))
        station = columns["axial_position"] * _MM
        rim = station[0]
        # On the cylinder nothing is needed.
        start = axes.get_xlim()[1 if end == 0 else 0]
        for name, line in (("slippage", "solid"), ("edge_slippage", (0, (4, 1.5)))):
            values = np.concatenate(([0.0, 0.0], columns[name][1:]))
            places = np.concatenate(([start, rim], station[1:]))
            axes.plot(places, values, color=style.colour, linestyle=line, linewidth=1.4)
            most = max(most, float(values.max()))
    axes.axhline(allowed, color=VERMILION, linewidth=1.2, linestyle=(0, (6, 2, 1, 2)))
    axes.set_ylim(0.0, 1.25 * most)
    # Above the cylinder no curve comes near.
    side: Any = "right" if end == 0 else "left"
    axes.text(
        axes.get_xlim()[1 if end == 0 else 0], allowed, " allowed ", color=VERMILION, ha=side,
        va="bottom", fontsize=TEXT,
    )  # fmt: skip


def _thickness(
    axes: "Axes", wound: Winding, plies: Sequence[WoundPly], end: int, tallest: float
) -> None:
    share, thickness = _total(wound, plies, end)
    outer = np.array(wound.liner.domes[end][1])
    surface, _ = _surface(outer, share, -1.0 if end == 0 else 1.0)
    station = surface[:, 0] * _MM
    start = axes.get_xlim()[1 if end == 0 else 0]
    station = np.concatenate(([start], station, [station[-1]]))
    values = np.concatenate(([thickness[0]], thickness, [0.0])) * _MM
    axes.fill_between(station, values, color=BLUE, alpha=0.25, linewidth=0.0)
    axes.plot(station, values, color=BLUE, linewidth=1.4)
    axes.set_ylim(0.0, 1.15 * tallest)


def _caption(wound: Winding) -> str:
    allowed = wound.totals["slippage_coefficient"] or 0.0
    found = []
    for number, ply in enumerate(wound.plies):
        if not ply.path:
            continue
        needs = [(ply[f"{end}.edge_slippage"] or 0.0, end) for end in ("fore", "aft")]
        most, end = max(needs)
        middle = ply[f"{end}.slippage"] or 0.0
        verdict = "holds" if most <= allowed else "slides"
        found.append(
            f"Ply {number} at {math.degrees(ply['angle'] or 0.0):.1f} degrees {verdict}: on the "
            f"{end} closure its band needs a slippage coefficient of "
            f"{significant(middle, 3, 'up')} (solid) and its worse edge "
            f"{significant(most, 3, 'up')} (dashed), allowed {allowed:g}. It piles up to "
            f"{_peak(ply, 'fore')} beside the fore and {_peak(ply, 'aft')} beside the aft opening."
        )
    return (
        " ".join(found) + " Upper half cut, with all helical plies (blue) next to the liner and "
        "hoop plies (red) on the cylinder; lower half bands from outside. Even bands; in truth "
        "they slide, and pile up higher beside the opening. Domes have their own shape at "
        "the ply's middle; bosses are not drawn. Dotted: an isotensoid dome, on which the "
        "fibres of the first helical ply would all be pulled alike."
    )


def _peak(ply: WoundPly, end: str) -> str:
    return f"{significant(_MM * (ply[f'{end}.peak_thickness'] or 0.0), 2, 'up')} mm"
