"""All margins of one design in order, the governing one first."""

from hoopline.assessment import Assessment
from hoopline.errors import InputError
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import PAGE_WIDTH, Plate, sheet
from hoopline.plot.style import BLUE, VERMILION
from hoopline.text import label, shown

_ROW = 0.27


def margins(assessment: Assessment) -> Plate:
    """Draw the margin ladder: one bar per margin, smallest on top, negative ones hatched.

    Parameters
    ----------
    assessment
        Of a stage with a tank.

    Raises
    ------
    InputError
        The stage has no tank and so no margins.

    Examples
    --------
    >>> import hoopline as hl
    >>> plate = hl.plot.margins(hl.Stage.load(hl.example("petrel_slim")).assess())
    >>> "Girth seam proof governs" in plate.caption
    True
    """
    drawn_from(assessment, Assessment, "Stage.assess")
    governing = assessment.governing
    if governing is None:
        raise InputError("there are no margins to draw: the stage has no tank")
    rows = list(assessment.margins)
    unmet = sum(margin.value < 0.0 for margin in rows)
    found = f"{unmet} of {len(rows)} margins are negative" if unmet else "no margin is negative"
    name = label(governing.path)
    caption = (
        f"{name[0].upper()}{name[1:]} governs with a margin of "
        f"{shown(governing.path, governing.value)}; {found}. "
        "Margin = allowable / (factor x load) - 1, rounded down."
    )
    height = 0.75 + _ROW * len(rows)
    figure, taken = sheet(PAGE_WIDTH, height, caption)
    total = height + taken
    axes = figure.add_axes((0.3, (taken + 0.45) / total, 0.62, (height - 0.6) / total))
    for place, margin in enumerate(rows):
        negative = margin.value < 0.0
        axes.barh(
            place, margin.value, height=0.62,
            facecolor="white" if negative else BLUE, edgecolor=VERMILION if negative else BLUE,
            hatch="/////" if negative else None, linewidth=1.0,
        )  # fmt: skip
        axes.annotate(
            shown(margin.path, margin.value), (max(margin.value, 0.0), place),
            xytext=(3, 0), textcoords="offset points", va="center", fontsize=8,
        )  # fmt: skip
    axes.axvline(0.0, color="black", linewidth=0.9)
    names = [label(margin.path) + (" (governs)" if margin == governing else "") for margin in rows]
    axes.set_yticks(range(len(rows)), names, fontsize=8)
    axes.get_yticklabels()[0].set_fontweight("bold")
    axes.tick_params(axis="x", labelsize=8)
    axes.tick_params(axis="y", length=0)  # bars begin at zero, which may lie far from the names
    axes.invert_yaxis()
    axes.margins(x=0.12)
    axes.set_xlabel("margin of safety", fontsize=8)
    axes.grid(visible=True, axis="x", color="#dddddd", linewidth=0.6)
    axes.set_axisbelow(True)
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    return Plate(figure, caption)
