"""The mass statement through its saved statements, and what of the growth allowance is used up."""

from typing import TYPE_CHECKING

from hoopline.comparison.trend import MassTrend, TrendLine
from hoopline.comparison.trend_text import share
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.style import BLUE, GREY, VERMILION
from hoopline.rounding import rounded

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_NAMED = 5
"""Statements up to which their labels stand at the axis; beyond, their letters alone."""
_LETTERS = 50
"""Characters that the labels at the axis have room for together."""
_NUMBERED = 8
"""Statements up to which every mass is written beside its mark; beyond, the first and the last."""


def mass_trend(trend: MassTrend) -> Plate:
    """Draw basic and predicted mass through the statements, and allowances used by group.

    Parameters
    ----------
    trend
        What `hl.mass_trend` returned.

    Returns
    -------
    Plate
        Left: basic mass and predicted mass, and dotted the mass first predicted. Right, for the
        last statement: hollow bars are growth allowances first stated, filled ones what basic mass
        has grown by since; one that is hatched goes beyond its allowance.
    """
    drawn_from(trend, MassTrend, "hoopline.mass_trend")
    figure, (left, right) = blank(2, trend.verdict)
    figure.subplots_adjust(wspace=0.3)
    _masses(left, trend)
    _used(right, trend)
    return Plate(figure, trend.verdict)


def _masses(panel: "Axes", trend: MassTrend) -> None:
    places = range(len(trend.statements))
    basic = [mass or 0.0 for mass in trend.total.basic]
    predicted = [mass or 0.0 for mass in trend.total.predicted]
    panel.fill_between(places, basic, predicted, color=BLUE, alpha=0.08, linewidth=0)
    panel.axhline(predicted[0], color=GREY, linestyle=(0, (1, 1.5)), linewidth=1.1)
    panel.plot(
        places, predicted, color=VERMILION, linestyle=(0, (6, 2)), marker="s", linewidth=1.6,
        label="predicted: growth allowance included",
    )  # fmt: skip
    panel.plot(places, basic, color=BLUE, marker="o", linewidth=1.8, label="basic")
    told = places if len(basic) <= _NUMBERED else (0, len(basic) - 1)
    for masses, colour, side, gap in (
        (predicted, VERMILION, "bottom", 7),
        (basic, BLUE, "top", -7),
    ):
        for place in told:
            panel.annotate(
                rounded(masses[place], 1), (place, masses[place]), xytext=(0, gap),
                textcoords="offset points", ha="center", va=side, fontsize=8, color=colour,
                bbox={"facecolor": "white", "edgecolor": "none", "alpha": 0.8, "pad": 0.8},
            )  # fmt: skip
    span = max(max(predicted) - min(basic), 0.02 * max(predicted))
    panel.set_ylim(min(basic) - 0.25 * span, max(predicted) + 0.45 * span)
    panel.set_xlim(-0.4, len(basic) - 0.6)
    panel.set_xticks(list(places), _names(trend))
    panel.grid(visible=False, axis="x")
    panel.legend(frameon=False, loc="upper left", fontsize=9)
    panel.set_ylabel("mass without propellant, kg")
    panel.set_title("Mass through the statements, dotted: first predicted", fontsize=11)


def _names(trend: MassTrend) -> list[str]:
    if len(trend.statements) > _NAMED:
        return [one.letter for one in trend.statements]
    most = _LETTERS // len(trend.statements)
    return [f"{one.letter}\n{_short(one.label, most)}" for one in trend.statements]


def _short(label: str, most: int) -> str:
    return label if len(label) <= most else f"{label[: most - 1].rstrip()}\N{HORIZONTAL ELLIPSIS}"


def _used(panel: "Axes", trend: MassTrend) -> None:
    rows = [*trend.groups, trend.total]
    for place, row in enumerate(rows):
        grown, allowed = _grown(row), row.growth[0] or 0.0
        beyond = grown > allowed
        panel.barh(
            place, allowed, height=0.62, color="none", edgecolor=GREY, linewidth=1.2,
        )  # fmt: skip
        panel.barh(
            place, grown, height=0.3, color="white" if beyond else BLUE,
            edgecolor=VERMILION if beyond else BLUE, hatch="////" if beyond else "", linewidth=1.0,
        )  # fmt: skip
        panel.annotate(
            f"{rounded(grown, 2)} of {rounded(allowed, 2)} kg, {share(row.used[-1])}",
            (max(grown, allowed, 0.0), place), xytext=(5, 0), textcoords="offset points",
            ha="left", va="center", fontsize=9,
        )  # fmt: skip
    ends = [end for row in rows for end in (_grown(row), row.growth[0] or 0.0, 0.0)]
    span = max(max(ends) - min(ends), 1e-3)
    panel.axvline(0.0, color=GREY, linewidth=0.9)
    panel.set_xlim(min(ends) - 0.05 * span, max(ends) + 0.75 * span)
    panel.set_yticks(range(len(rows)), [row.name for row in rows])
    panel.set_ylim(len(rows) - 0.5, -0.5)
    panel.grid(visible=False, axis="y")
    last = trend.statements[-1].letter
    panel.set_xlabel(f"growth of basic mass from A to {last}, kg; hollow: allowance of A")
    panel.set_title("What of the first growth allowance is used", fontsize=11)


def _grown(row: TrendLine) -> float:
    return (row.basic[-1] or 0.0) - (row.basic[0] or 0.0)
