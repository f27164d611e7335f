"""Apogee and smallest margin around one design, one input varied at a time."""

import numpy as np
from numpy.typing import NDArray

from hoopline import schema
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.slender import slender
from hoopline.plot.style import BLUE, GREY, VERMILION
from hoopline.rounding import rounded, significant
from hoopline.sweeping import Sweep
from hoopline.text import label, rules


def around(sweep: Sweep) -> Plate:
    """Draw what one input does to the apogee and to the smallest margin of safety.

    Parameters
    ----------
    sweep
        A sweep over one numeric input of a stage with a tank.
    """
    drawn_from(sweep, Sweep, "hoopline.sweep")
    (path,) = sweep.values
    field = schema.inputs()[path]
    given = sweep.stage[path]
    assert isinstance(given, float)  # noqa: S101 (for the type checker)
    x = field.printed(sweep.axes[path])
    apogee = sweep["ascent.apogee"] / 1e3
    smallest = sweep.smallest_margin
    caption = _caption(sweep, path, apogee)
    figure, panels = blank(2, caption)
    met = np.where(sweep.margins_met, apogee, np.nan)
    panels[0].plot(
        x, apogee, color=GREY, linestyle=(0, (4, 2)), linewidth=1.4, label="some margin is negative"
    )
    if sweep.margins_met.any():
        panels[0].plot(x, met, color=BLUE, linewidth=2.2, label="all margins are met")
    panels[0].legend(framealpha=1.0, edgecolor="white")
    panels[1].plot(x, smallest, color=VERMILION, linewidth=1.8)
    panels[1].axhline(0.0, color="black", linewidth=0.9)
    for panel in panels:
        panel.axvline(field.printed(given), color=GREY, linewidth=1.0, linestyle=(0, (1, 2)))
        panel.set_xlabel(f"{field.axis(_words(path))} (dotted: this design)")
    panels[0].set(ylabel="apogee above the launch site, km", title="Apogee")
    panels[1].set(ylabel="smallest margin of safety", title="Smallest margin")
    return Plate(figure, caption)


def _drawn(sweep: Sweep) -> bool:
    return "airframe.fineness_ratio" in sweep.paths


def _words(path: str) -> str:
    group = path.split(".")[-2]
    return f"{group.replace('_', ' ')} {label(path)}"


def _caption(sweep: Sweep, path: str, apogee: NDArray[np.float64]) -> str:
    field = schema.inputs()[path]
    met = sweep.margins_met
    failed = int((~sweep.ok).sum())
    if met.any():
        values = field.printed(sweep.axes[path])[met]
        best = int(np.where(met, apogee, -np.inf).argmax())
        low, high = significant(values.min(), 4, "up"), significant(values.max(), 4, "down")
        top = significant(field.printed(sweep.axes[path])[best], 4)
        finding = (
            f"values from {low} to {field.with_unit(high)} meet all margins"
            f"{'' if met.sum() == np.ptp(np.flatnonzero(met)) + 1 else ', with gaps'}; "
            f"highest apogee there {apogee[best]:.2f} km at {field.with_unit(top)}"
        )
        lacking = slender(sweep["airframe.fineness_ratio"][best]) if _drawn(sweep) else ""
        finding += f"; {lacking}" if lacking else ""
    else:
        best_margin = rounded(float(np.nanmax(sweep.smallest_margin)), 2, "down")
        finding = f"no value meets all margins; the best smallest margin is {best_margin}"
    follow = rules(sorted(sweep.stage.follow.items()))
    left_out = f" {failed} cases have no results and are left out." if failed else ""
    return (
        f"{_words(path)[0].upper()}{_words(path)[1:]} varied alone: {finding}. "
        f"Follow rules: {follow}.{left_out}"
    )
