"""The tank's wall through its pressures: pressure against strain."""

from typing import Any

from hoopline.errors import InputError
from hoopline.load_history import LoadHistory
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.style import GREY, look

BAR = 1e5
PERCENT = 100.0


def load_history(loads: LoadHistory) -> Plate:
    """Draw pressure against strain through autofrettage, proof, MEOP and on to burst.

    Left the hoop strain of the cylinder, right its axial strain and that of the girth seam's weld
    zone, where there is one. A diamond marks where the liner begins to flow, a cross the end.

    Parameters
    ----------
    loads
        A load history, from `Stage.load_history`.

    Raises
    ------
    InputError
        The winding crushes the liner, and there is no history.
    """
    drawn_from(loads, LoadHistory, "Stage.load_history")
    refuse_empty(loads)
    figure, (left, right) = blank(2, _caption(loads))
    pressure = loads["pressure"] / BAR
    zone = loads.columns.get("girth_zone_axial_strain")
    for number, change in enumerate(changes_in_words(loads)):
        rows = loads.change == number
        if not rows.any():
            continue
        first = int(rows.argmax())
        part = slice(max(first - 1, 0), first + int(rows.sum()))
        last = number == len(loads.changes) - 1
        style = look(number % 5)
        colour, line = (GREY, "solid") if last else (style.colour, style.line)
        drawn: dict[str, Any] = {"color": colour, "linestyle": line, "linewidth": 1.8}
        hoop, axial = (loads[name][part] * PERCENT for name in ("hoop_strain", "axial_strain"))
        left.plot(hoop, pressure[part], label=change, **drawn)
        right.plot(axial, pressure[part], **drawn)
        if zone is not None:
            right.plot(zone[part] * PERCENT, pressure[part], **{**drawn, "linewidth": 0.9})
        flows = loads.changes[number].liner_flow
        if flows is not None:
            row = part.start + int(abs(pressure[part] - flows / BAR).argmin())
            for panel, name in ((left, "hoop_strain"), (right, "axial_strain")):
                panel.plot(loads[name][row] * PERCENT, pressure[row], marker="D", color=colour)
    for panel, name in ((left, "hoop_strain"), (right, "axial_strain")):
        panel.plot(loads[name][-1] * PERCENT, pressure[-1], marker="x", markersize=9, color=GREY)
        panel.set(ylabel="pressure, bar gauge", ylim=(0.0, None))
    if zone is not None:
        right.plot(zone[-1] * PERCENT, pressure[-1], marker="x", markersize=6, color=GREY)
    left.set(xlabel="hoop strain of the cylinder, %", title="Hoop")
    thin = "; thin: the girth seam's weld zone" if zone is not None else ""
    right.set(xlabel=f"axial strain, %{thin}", title="Axial")
    left.legend(frameon=False)
    return Plate(figure, _caption(loads))


def refuse_empty(loads: LoadHistory) -> None:
    """Refuse a history of a liner that does not bear its own wrap."""
    if not len(loads):
        raise InputError(
            "there is no history to draw: the winding tension alone crushes the liner; lower "
            "tank.overwrap.winding_stress or thicken the liner"
        )


def changes_in_words(loads: LoadHistory) -> list[str]:
    """Names of the changes, told apart where one stands several times."""
    names = [change.name for change in loads.changes]
    return [
        f"{name} after {names[number - 1]}" if name == "unloading" else name
        for number, name in enumerate(names)
    ]


def _caption(loads: LoadHistory) -> str:
    found = []
    for change, name in zip(loads.changes, changes_in_words(loads), strict=True):
        if change.liner_flow is not None:
            when = "on the way to burst" if change.name == "to burst" else f"in {name}"
            way = "down" if change.name == "unloading" else "on"
            found.append(f"{when} the liner flows from {change.liner_flow / BAR:.0f} bar {way}")
    flows = f"{'; '.join(found)}. " if found else "The liner does not flow before burst. "
    return (
        f"{flows[0].upper()}{flows[1:]}At {loads.ending_pressure / BAR:.0f} bar {loads.ending}. "
        "Membrane of the cylinder, small strains, resin not counted; closures and their edges are "
        "not in it."
    )
