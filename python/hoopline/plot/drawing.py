"""A view drawn to scale, in millimetres, with its dimensions.

Dimensions follow the principles of ISO 129-1: extension lines from the outline, a dimension line
between arrowheads, the value above it in millimetres without its unit, read from below or from the
right; where the room between the extension lines is too small, arrowheads and value stand outside.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

INK = "#1a1a1a"
OUTLINE, THIN = 0.9, 0.45
CENTRE_LINE = (0, (12, 2.5, 2, 2.5))
TEXT = 7.0
# From one row of dimensions to the next, inches.
ROW = 0.21
# Width of a character over the font size, wide enough for the figures' font.
_CHARACTER = 0.6
_ARROW = 0.075
_POINTS_PER_INCH = 72.0
ARROW = {
    "arrowstyle": "-|>,head_length=0.38,head_width=0.1", "shrinkA": 0, "shrinkB": 0,
    "color": INK, "linewidth": THIN, "mutation_scale": 12,
}  # fmt: skip

Points = Iterable[Sequence[float]]


def text_width(text: str, size: float = TEXT) -> float:
    """Width of a line of text, inches, on the safe side."""
    return len(text) * _CHARACTER * size / _POINTS_PER_INCH


def beyond(room: float, text: str) -> float:
    """How far the value of a dimension across reaches past an extension line, inches.

    Parameters
    ----------
    room
        Distance between the extension lines, inches.
    text
        The value.
    """
    width = text_width(text)
    return 0.0 if room > width else _outside(room) + width


def _outside(room: float) -> float:
    """From an extension line to a value that stands outside: past the arrowhead if that does."""
    return 0.05 if room > 2.6 * _ARROW else 2.4 * _ARROW


def millimetres(value: float, decimals: int = 0) -> str:
    """Return a length in metres as the text of a dimension, mm."""
    return f"{value * 1e3:.{decimals}f}"


def across_text(value: float, decimals: int = 0) -> str:
    """Return a diameter in metres as the text of a dimension, mm, under its sign."""
    return f"\N{DIAMETER SIGN}{millimetres(value, decimals)}"


@dataclass(frozen=True, slots=True)
class View:
    """Axes in which one inch of paper is `scale` millimetres, along and across.

    Attributes
    ----------
    axes
        The matplotlib axes; data are in millimetres.
    scale
        Millimetres per inch of the figure.
    """

    axes: "Axes"
    scale: float

    def line(self, points: Points, width: float = OUTLINE, **style: Any) -> None:
        """Draw a line through points in metres."""
        along, across = _columns(points)
        style = {"color": INK, "solid_joinstyle": "miter", **style}
        self.axes.plot(along, across, linewidth=width, **style)

    def area(self, points: Points, width: float = OUTLINE, **style: Any) -> None:
        """Fill an area between points in metres, with its outline."""
        along, across = _columns(points)
        style = {"facecolor": "white", "edgecolor": INK, **style}
        self.axes.fill(along, across, linewidth=width, **style)

    def text(self, along: float, across: float, text: str, **style: Any) -> None:
        """Write at a place given in millimetres."""
        style = {"fontsize": TEXT, "color": INK, "ha": "center", "va": "center", **style}
        self.axes.text(along, across, text, **style)

    def along(
        self,
        ends: tuple[float, float],
        row: float,
        text: str,
        feet: tuple[float, float],
        beside: Literal["left", "right"] = "right",
    ) -> None:
        """Dimension between two stations.

        Parameters
        ----------
        ends
            Stations in metres.
        row
            Where the dimension line stands across, mm.
        text
            The value.
        feet
            Where the extension lines begin across, mm.
        beside
            On which side the value stands if there is no room between the extension lines.
        """
        first, last = (1e3 * end for end in sorted(ends))
        if ends[0] > ends[1]:
            feet = feet[::-1]
        gap = 0.03 * self.scale
        for station, foot in zip((first, last), feet, strict=True):
            side = 1.0 if row > foot else -1.0
            self._thin((station, station), (foot + side * gap, row + side * gap))
        room = (last - first) / self.scale
        inside = room > 2.6 * _ARROW
        self._arrows((first, row), (last, row), inside=inside)
        lift = row + 0.02 * self.scale
        if inside and room > text_width(text):
            self.text((first + last) / 2.0, lift, text, va="bottom")
        else:
            gap = _outside(room) * self.scale
            place, anchor = (last + gap, "left") if beside == "right" else (first - gap, "right")
            self.text(place, lift, text, ha=anchor, va="bottom")

    def across(self, ends: tuple[float, float], column: float, text: str, foot: float) -> None:
        """Dimension across the axis, its value read from the right; lengths as in `along`."""
        low, high = (1e3 * end for end in sorted(ends))
        gap = 0.03 * self.scale
        side = 1.0 if column > foot else -1.0
        for place in (low, high):
            self._thin((foot + side * gap, column + side * gap), (place, place))
        room = (high - low) / self.scale
        self._arrows((column, low), (column, high), inside=room > 2.6 * _ARROW)
        if beyond(room, text):
            place, anchor = high + _outside(room) * self.scale, "bottom"
        else:
            place, anchor = (low + high) / 2.0, "center"
        self.text(
            column - 0.02 * self.scale, place, text, rotation=90, ha="right", va=anchor,
            rotation_mode="default",
        )  # fmt: skip

    def note(
        self,
        target: tuple[float, float],
        place: tuple[float, float],
        text: str,
        ha: Literal["left", "right"],
        **style: Any,
    ) -> None:
        """Leader from a place on the outline, mm, ending in a dot, to a text."""
        self._thin((target[0], place[0]), (target[1], place[1]), **style)
        self.axes.plot([target[0]], [target[1]], marker=".", markersize=3.5, color=INK, **style)
        step = (0.03 if ha == "left" else -0.03) * self.scale
        self.text(place[0] + step, place[1], text, ha=ha, **style)

    def scale_bar(self, start: float, row: float, length: float) -> None:
        """Draw a bar of a round length, mm, half of it filled, with its length beside it."""
        height = 0.05 * self.scale
        half = length / 2.0
        for index, fill in enumerate((INK, "white")):
            left = (start + index * half) * 1e-3
            right, top, bottom = left + half * 1e-3, (row + height) * 1e-3, row * 1e-3
            corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
            self.area(corners, THIN, facecolor=fill)
        self.text(
            start + length + 0.05 * self.scale, row + height / 2.0, f"{length:g} mm", ha="left"
        )

    def _thin(self, along: tuple[float, float], across: tuple[float, float], **style: Any) -> None:
        self.axes.plot(along, across, color=INK, linewidth=THIN, solid_capstyle="butt", **style)

    def _arrows(self, low: tuple[float, float], high: tuple[float, float], *, inside: bool) -> None:
        if inside:
            middle = ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0)
            for end in (low, high):
                self.axes.annotate("", end, middle, arrowprops=ARROW)
            return
        reach = 2.2 * _ARROW * self.scale
        lying = low[1] == high[1]
        for end, sign in ((low, -1.0), (high, 1.0)):
            tail = (end[0] + sign * reach, end[1]) if lying else (end[0], end[1] + sign * reach)
            self.axes.annotate("", end, tail, arrowprops=ARROW)
        self._thin((low[0], high[0]), (low[1], high[1]))


def view(
    figure: "Figure",
    place: tuple[float, float, float, float],
    corner: tuple[float, float],
    scale: float,
) -> View:
    """Return a view.

    Parameters
    ----------
    figure
        The figure.
    place
        Left, bottom, width and height on the figure, inches.
    corner
        Lower left corner in millimetres.
    scale
        Millimetres per inch.
    """
    wide, high = figure.get_size_inches()
    left, bottom, width, height = place
    axes = figure.add_axes((left / wide, bottom / high, width / wide, height / high))
    axes.set(
        xlim=(corner[0], corner[0] + width * scale), ylim=(corner[1], corner[1] + height * scale)
    )
    axes.set_aspect("equal")
    axes.set_axis_off()
    return View(axes, scale)


def round_length(largest: float) -> float:
    """Largest of 1, 2, 5 times a power of ten that is not above a length, both mm.

    >>> round_length(730.0), round_length(4.9)
    (500.0, 2.0)
    """
    power = 10.0 ** math.floor(math.log10(largest))
    return max(step * power for step in (1.0, 2.0, 5.0) if step * power <= largest)


def rows_of(spans: Sequence[tuple[float, float]]) -> list[int]:
    """Row for each span (start, end), so that none overlaps another in its row."""
    reached: list[float] = []
    rows = []
    for start, end in spans:
        free = next((row for row, edge in enumerate(reached) if edge < start), len(reached))
        if free == len(reached):
            reached.append(end)
        reached[free] = end
        rows.append(free)
    return rows


def _columns(points: Points) -> tuple[list[float], list[float]]:
    pairs = [(1e3 * along, 1e3 * across) for along, across in points]
    return [along for along, _ in pairs], [across for _, across in pairs]


def mirrored(points: Points) -> list[tuple[float, float]]:
    """Return an outline and its mirror image below the axis, as one closed line."""
    upper = [(along, across) for along, across in points]
    return upper + [(along, -across) for along, across in reversed(upper)]
