"""Who carries the pressure: liner and wrap around and along the cylinder, over the pressure."""

from typing import Any

import numpy as np

from hoopline.errors import InputError
from hoopline.load_history import LoadHistory
from hoopline.plot.argument import drawn_from
from hoopline.plot.load_history import changes_in_words, refuse_empty
from hoopline.plot.plate import Plate, blank
from hoopline.plot.style import GREY, look

BAR = 1e5
PERCENT = 100.0
# Part of the highest pressure below which a share tells what is left rather than what comes.
_LOW = 0.1


def load_shares(loads: LoadHistory) -> Plate:
    """Draw the liner's share of the hoop and the axial load over the pressure.

    The wrap carries the rest. Only rising pressures are drawn, and none below a tenth of the
    highest: there a share of hardly any load is all residual stress.

    Parameters
    ----------
    loads
        A load history of a wrapped tank, from `Stage.load_history`.

    Raises
    ------
    InputError
        The tank has no wrap: the liner carries everything; or its winding crushes it.
    """
    drawn_from(loads, LoadHistory, "Stage.load_history")
    if "fibre_utilisation" not in loads.columns:
        raise InputError("there are no shares to draw: the tank has no overwrap")
    refuse_empty(loads)
    caption = _caption(loads)
    figure, panels = blank(2, caption)
    pressure = loads["pressure"] / BAR
    for number, change in enumerate(changes_in_words(loads)):
        rows = np.flatnonzero((loads.change == number) & (pressure > _LOW * pressure.max()))
        if not len(rows) or change.startswith("unloading"):
            continue
        last = number == len(loads.changes) - 1
        style = look(number % 5)
        colour, line = (GREY, "solid") if last else (style.colour, style.line)
        drawn: dict[str, Any] = {"color": colour, "linestyle": line, "linewidth": 1.8}
        for panel, name in zip(panels, ("liner_hoop_share", "liner_axial_share"), strict=True):
            panel.plot(pressure[rows], loads[name][rows] * PERCENT, label=change, **drawn)
    for panel, title in zip(panels, ("Hoop", "Axial"), strict=True):
        panel.axhline(100.0, color="black", linewidth=0.7)
        panel.set(xlabel="pressure, bar gauge", ylabel="share of the liner, %", title=title)
        panel.set(xlim=(0.0, None))
    bottom = min(0.0, *(panel.get_ylim()[0] for panel in panels))
    for panel in panels:
        panel.set(ylim=(bottom, 108.0))
    panels[0].legend(frameon=False)
    return Plate(figure, caption)


def _caption(loads: LoadHistory) -> str:
    if not (loads.change == len(loads.changes) - 1).any() or loads.changes[-1].name != "to burst":
        return (
            f"The tank does not reach its MEOP: at {loads.ending_pressure / BAR:.0f} bar "
            f"{loads.ending}. Where a line bends the liner flows and hands over to the wrap."
        )
    meop = loads.after("MEOP")
    names = ("liner_hoop_share", "liner_axial_share", "fibre_utilisation")
    hoop, axial, used = (f"{meop[name] * PERCENT:.0f} %" for name in names)
    return (
        f"At MEOP the liner carries {hoop} of the hoop load and {axial} of the axial load, the "
        f"wrap the rest, with {used} of what its fibres break at. Where a line bends the liner "
        "flows and hands over to the wrap."
    )
