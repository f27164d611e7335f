"""What a search along one input found: the goal, and the room to every bound."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from hoopline import _core, schema
from hoopline.errors import InputError
from hoopline.optimum import Optimum
from hoopline.optimum_tables import goal
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.style import BLUE, GREY, look
from hoopline.spacing import linspace
from hoopline.sweeping import Sweep, sweep

_POINTS = 161
_NAMED = 4


def optimum(found: Optimum) -> Plate:
    """Draw the goal and the room to every bound along the one input that was varied.

    Parameters
    ----------
    found
        A search over one number, anywhere between two limits or over listed values.

    Raises
    ------
    InputError
        Several inputs were varied, or a choice; or no design has results.
    """
    drawn_from(found, Optimum, "hoopline.optimise")
    path, *others = found.vary
    if others or path not in schema.inputs():
        raise InputError("this figure is of a search over one number; vary only that one")
    if found.best.goal is None:
        raise InputError(
            f"there is nothing to draw: no design of this search has results; {found.best.reason}"
        )
    ranged = isinstance(found.vary[path], tuple)
    values = _between(path, *found.vary[path]) if ranged else list(found.vary[path])
    grid = sweep(found.stage, {path: values})
    field = schema.inputs()[path]
    x = field.printed(grid.axes[path])
    caption = _caption(found)
    figure, (left, right) = blank(2, caption)

    met = np.where(_meets(found, grid), 1.0, np.nan)
    target = schema.results()[found.goal]
    y = target.printed(grid[found.goal])
    marks: dict[str, Any] = {"marker": "" if ranged else "o", "markerfacecolor": "none"}
    filled: dict[str, Any] = {"marker": "" if ranged else "o"}
    left.plot(
        x, y, color=GREY, linestyle=(0, (4, 2)), linewidth=1.4, label="violates a bound", **marks
    )
    left.plot(x, y * met, color=BLUE, linewidth=2.2, label="meets all bounds", **filled)
    left.legend(frameon=False)
    left.set(ylabel=target.axis(found.goal), title="Goal")

    rooms = [(held, held.room(grid[held.path])) for held in found.best.bounds]
    for _, room in rooms[_NAMED:]:
        right.plot(x, room, color=GREY, linewidth=0.7)
    for index, (held, room) in enumerate(rooms[:_NAMED]):
        style = look(index)
        right.plot(
            x, room, color=style.colour, linestyle=style.line, linewidth=1.8, label=held.text
        )
    right.axhline(0.0, color="black", linewidth=0.9)
    # The far bounds are there to be seen as far; they shall not flatten the near ones.
    near = np.concatenate([room for _, room in rooms[:_NAMED]])
    span = max(float(np.nanmax(near) - np.nanmin(near)), 0.1)
    right.set_ylim(np.nanmin(near) - 0.1 * span, np.nanmax(near) + 0.6 * span)
    right.legend(fontsize="small", loc="upper left", framealpha=0.9, edgecolor="none")
    right.set(ylabel="room to the bound, as a share of it", title="Bounds, the nearest ones named")
    at = found.best.inputs[path]
    if not isinstance(at, float):
        at = grid.axes[path][values.index(at)]
    which = "best" if found.feasible else "least violated"
    for panel in (left, right):
        panel.axvline(field.printed(at), color=GREY, linewidth=1.0, linestyle=(0, (1, 2)))
        panel.set_xlabel(f"{field.axis(path)} (dotted: {which} design)")
    return Plate(figure, caption)


def _between(path: str, lower: Any, upper: Any) -> list[float]:
    low, high = (
        _core.si(path, end) if isinstance(end, str) else float(end) for end in (lower, upper)
    )
    return linspace(low, high, _POINTS)


def _meets(found: Optimum, grid: Sweep) -> NDArray[np.bool_]:
    met = grid.ok.copy()
    for held in found.best.bounds:
        met &= held.room(grid[held.path]) >= 0.0
    return met


def _caption(found: Optimum) -> str:
    (path,) = found.vary
    value = found.best.rounded()[path]
    word = "smallest" if found.minimise else "largest"
    if not found.feasible:
        return (
            f"No design of {found.stage.name} along {path} meets all bounds; the least violated "
            f"one has {path} = {value} and {found.goal} {goal(found, found.best)}."
        )
    governing = " and ".join(held.text for held in found.best.governing)
    governs = f", held by {governing}" if governing else ""
    return (
        f"The {word} {found.goal} of {found.stage.name} along {path} that meets all bounds is "
        f"{goal(found, found.best)} at {value}{governs}."
    )
