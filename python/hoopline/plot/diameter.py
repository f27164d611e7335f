"""Apogee and tank fineness ratio against a diameter, for several variants."""

from collections.abc import Mapping

import numpy as np

from hoopline import schema
from hoopline.errors import InputError
from hoopline.plot.plate import Plate, blank
from hoopline.plot.style import look
from hoopline.sweeping import Sweep


def apogee_and_fineness(variants: Mapping[str, Sweep]) -> Plate:
    """Draw two panels over one swept length: apogee, and length-to-diameter ratio of the tank.

    Parameters
    ----------
    variants
        {name: sweep over one length}; every sweep varies the same path. The largest apogee of each
        is marked. Cases without results are left out and counted in the caption.
    """
    path = _common_path(variants)
    figure, (left, right) = blank(2, _caption(variants))
    for index, (name, sweep) in enumerate(variants.items()):
        style = look(index)
        diameter = schema.inputs()[path].printed(sweep.axes[path])
        apogee, fineness = sweep["ascent.apogee"] / 1e3, sweep["geometry.tank_fineness_ratio"]
        shared = {"color": style.colour, "linestyle": style.line, "linewidth": 1.8}
        left.plot(diameter, apogee, label=name, **shared)
        right.plot(diameter, fineness, label=name, **shared)
        if sweep.ok.any():
            best = sweep.largest("ascent.apogee").index
            dot = {"color": style.colour, "marker": style.marker, "linestyle": "none", "zorder": 3}
            left.plot(diameter[best], apogee[best], **dot)
            right.plot(diameter[best], fineness[best], **dot)
    unit = schema.inputs()[path].printed_unit
    label = f"{path.rpartition('.')[2].replace('_', ' ')} of the tank, {unit}"
    left.set(xlabel=label, ylabel="apogee above the launch site, km", title="Apogee")
    right.set(
        xlabel=label,
        ylabel="overall length / outside diameter of the tank",
        title="Fineness ratio of the tank",
    )
    right.legend(title="marker: largest apogee", frameon=False)
    for panel in (left, right):
        panel.set_ylim(bottom=0.0)
    return Plate(figure, _caption(variants))


def _common_path(variants: Mapping[str, Sweep]) -> str:
    paths = {tuple(sweep.values) for sweep in variants.values()}
    if len(paths) != 1 or len(next(iter(paths))) != 1:
        raise InputError("this figure needs sweeps over one and the same path")
    path: str = next(iter(paths))[0]
    if path not in schema.inputs():
        raise InputError(f"this figure needs a swept length; {path} is none")
    return path


def _caption(variants: Mapping[str, Sweep]) -> str:
    path = _common_path(variants)
    field = schema.inputs()[path]
    found = []
    for name, sweep in variants.items():
        if not sweep.ok.any():
            found.append(f"{name}: no case has results")
            continue
        best = sweep.largest("ascent.apogee")
        diameter = field.printed(sweep.axes[path][best.index])
        at_edge = best.index[0] in (0, len(sweep) - 1)
        edge = " (the edge of the sweep)" if at_edge else ""
        found.append(
            f"{name} {best['ascent.apogee'] / 1e3:.2f} km at {diameter:.0f} {field.printed_unit}"
            f"{edge}, fineness ratio {best['geometry.tank_fineness_ratio']:.1f}"
        )
    follow = next(iter(variants.values())).stage.assess().follow
    rules = ", ".join(f"{rule} = {word}" for rule, word in follow.items())
    failed = int(sum(np.count_nonzero(~sweep.ok) for sweep in variants.values()))
    total = sum(len(sweep) for sweep in variants.values())
    return (
        f"Largest apogee: {'; '.join(found)}. Margins are not looked at here. What follows the "
        f"diameter: {rules}. {failed} of {total} cases have no results and are left out."
    )
