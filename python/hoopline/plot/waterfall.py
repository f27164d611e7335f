"""From one predicted mass to another, line by line."""

from itertools import accumulate
from typing import TYPE_CHECKING

from hoopline.comparison import LETTERS, Comparison, Mass
from hoopline.comparison.tables import kilograms
from hoopline.errors import InputError
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.style import BLUE, GREY, VERMILION
from hoopline.rounding import rounded

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_SHOWN = 10
"""Lines drawn by themselves; the smaller ones are summed. Our own choice."""

_ROOM = 0.25
"""Room beside the bars, as a share of what they span."""

_NAME, _ROWS = 30, 8
"""Characters of a name and bars that the panel has room for."""

_NEGLIGIBLE = 5e-4
"""Kilograms that print as zero."""


def mass_waterfall(comparison: Comparison, other: str = "B") -> Plate:
    """Draw the predicted mass of the reference, what each line changes, and the other's mass.

    Parameters
    ----------
    comparison
        What `hl.compare` returned.
    other
        Letter of the design to end at.

    Returns
    -------
    Plate
        Bars from top to bottom; those that rise carry strokes to the right and a plus sign, those
        that fall strokes to the left and a minus sign. Small lines are summed as "others (n)".
    """
    drawn_from(comparison, Comparison, "hoopline.compare")
    known = [side.letter for side in comparison.sides[1:]]
    if other not in known:
        raise InputError(f'other = "{other}" is not in this comparison; there are {known}')
    place = LETTERS.index(other)
    reference, end = comparison.sides[0], comparison.sides[place]
    start, stop = (comparison.total.predicted[index] or 0.0 for index in (0, place))
    steps = _steps(comparison.masses, place - 1)
    caption = _caption(comparison, place, steps)
    figure, (panel,) = blank(1, caption)
    figure.subplots_adjust(left=0.24)
    levels = list(accumulate((change for _, change in steps), initial=start))
    span = max(max(levels) - min(levels), 0.02 * max(levels))
    edge = max(min(levels) - _ROOM * span, 0.0)
    names = [f"{reference.letter} {reference.name}", *(name for name, _ in steps)]
    _bar(panel, 0, (edge, start), GREY, "", f"{rounded(start, 2)} kg")
    for position, (_, change) in enumerate(steps, start=1):
        colour, hatch = (VERMILION, "////") if change > 0.0 else (BLUE, "\\\\\\\\")
        ends = (levels[position - 1], levels[position])
        _bar(panel, position, ends, colour, hatch, _told(change))
        _link(panel, position, ends[0])
    names.append(f"{end.letter} {end.name}")
    _bar(panel, len(names) - 1, (edge, stop), GREY, "", f"{rounded(stop, 2)} kg")
    _link(panel, len(names) - 1, levels[-1])
    panel.set_yticks(range(len(names)), [_short(name) for name in names])
    panel.set_ylim(max(len(names), _ROWS) - 0.5, -0.5)
    panel.grid(visible=False, axis="y")
    panel.set_xlim(edge, max(levels) + _ROOM * span)
    cut = "; the axis does not begin at zero" if edge else ""
    panel.set_xlabel(f"predicted mass without propellant, kg{cut}")
    panel.set_title(f"From {reference.letter} to {end.letter}, growth allowance included")
    return Plate(figure, caption)


def _steps(masses: tuple[Mass, ...], place: int) -> list[tuple[str, float]]:
    """Lines that change, in their order; the smaller ones summed at the end."""
    changes = [(row.name, row.differences[place]) for row in masses]
    changed = [step for step in changes if abs(step[1]) >= _NEGLIGIBLE]
    shown = changed
    if len(changed) > _SHOWN + 1:
        by_size = sorted(range(len(changed)), key=lambda place: -abs(changed[place][1]))
        shown = [changed[place] for place in sorted(by_size[:_SHOWN])]
    count = len(changed) - len(shown)
    rest = sum(change for _, change in changes) - sum(change for _, change in shown)
    return [*shown, (f"others ({count})", rest)] if count else shown


def _told(change: float) -> str:
    """Return a change with two decimals, or with three where two would print it as none."""
    number = kilograms(change, 2)
    return number if float(number) else kilograms(change)


def _short(name: str) -> str:
    return name if len(name) <= _NAME else f"{name[: _NAME - 1].rstrip()}\N{HORIZONTAL ELLIPSIS}"


def _bar(
    panel: "Axes",
    position: int,
    ends: tuple[float, float],
    colour: str,
    hatch: str,
    text: str,
) -> None:
    panel.barh(
        position, ends[1] - ends[0], left=ends[0], height=0.62,
        color="white" if hatch else colour, edgecolor=colour, hatch=hatch, linewidth=1.2,
    )  # fmt: skip
    panel.annotate(
        text, (max(ends), position), xytext=(5, 0), textcoords="offset points",
        ha="left", va="center", fontsize=9,
    )  # fmt: skip


def _link(panel: "Axes", position: int, level: float) -> None:
    """Draw a line from the end of the bar before to the start of this one."""
    panel.plot([level, level], [position - 0.69, position - 0.31], color=GREY, linewidth=0.9)


def _caption(comparison: Comparison, place: int, steps: list[tuple[str, float]]) -> str:
    reference, end = comparison.sides[0], comparison.sides[place]
    change = comparison.total.differences[place - 1]
    named = [step for step in steps if not step[0].startswith("others (")]
    largest = max(named, key=lambda step: abs(step[1]), default=None)
    most = f", most of all: {largest[0]} ({_told(largest[1])} kg)" if largest else ""
    summed = next((name for name, _ in steps if name.startswith("others (")), None)
    left = f" Lines that change less are summed as {summed}." if summed else ""
    versions = " Their versions differ, so the models may too." if comparison.notes else ""
    pair = f"{end.name} ({end.letter}) is predicted {{}} {reference.name} ({reference.letter})"
    if not steps:
        return f"{pair.format('as heavy as')}, without propellant, line by line.{versions}"
    return (
        f"{pair.format(f'{_told(change)} kg against')}, without propellant{most}. Strokes "
        f"rising to the right and a plus: heavier; falling and a minus: lighter.{left}{versions}"
    )
