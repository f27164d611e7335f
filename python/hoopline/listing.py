"""A sweep as a plain-text table."""

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, Any

import numpy as np

from hoopline import _core, schema
from hoopline.errors import InputError
from hoopline.folding import folded
from hoopline.text import label, shown, stamp
from hoopline.text_table import text_table

if TYPE_CHECKING:
    from hoopline.sweeping import Sweep

_PATHS = (
    "geometry.tank_length",
    "load.propellant",
    "tank.mass",
    "airframe.fineness_ratio",
    "ascent.burnout_altitude",
    "ascent.apogee",
)


def render(sweep: "Sweep", paths: Sequence[str], rows: int) -> str:
    """Return the header, one row per case, and what was left out."""
    if isinstance(paths, str) or not all(isinstance(path, str) for path in paths):
        raise InputError(f'paths is a list of results such as ["ascent.apogee"], not {paths!r}')
    if isinstance(rows, bool) or not isinstance(rows, int) or rows < 1:
        raise InputError(f"rows is a whole number of cases from 1, not {rows!r}")
    chosen = list(paths) or [path for path in _PATHS if path in sweep.paths]
    for path in chosen:
        sweep[path]  # an unknown path is an error that names the nearest one
    places = list(islice(np.ndindex(sweep.shape), rows))
    columns = [
        [path, *(_given(sweep.values[path][place[axis]]) for place in places)]
        for axis, path in enumerate(sweep.values)
    ]
    columns.extend([path, *(_result(sweep, path, at) for at in places)] for path in chosen)
    columns.append(["smallest margin", *(_margin(sweep, place) for place in places)])
    if not sweep.ok.all():
        columns.append(["status", *(_core.fault_word(int(sweep.status[at])) for at in places)])
    lines = [*_header(sweep), "", *text_table(list(zip(*columns, strict=True)), ">")]
    hidden = len(sweep) - len(places)
    if hidden:
        lines.append(f"... and {hidden} more; to_pandas() has them all")
    return "\n".join(lines)


def _header(sweep: "Sweep") -> Iterator[str]:
    yield f"{sweep.stage.name}, {' x '.join(map(str, sweep.shape))} over {', '.join(sweep.values)}"
    for rule, word in sweep.stage.follow.items():
        if f"follow.{rule}" in sweep.values:
            continue
        meaning = schema.choice_docs().get((f"follow.{rule}", word), "")
        yield folded(f"  {rule + ' = ' + word:30}{meaning}", rest=" " * 32)
    yield f"  stage {stamp(sweep.stage.digest, _core.version)}"


def _given(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _result(sweep: "Sweep", path: str, place: tuple[int, ...]) -> str:
    value = float(sweep[path][place])
    return "-" if np.isnan(value) else shown(path, value)


def _margin(sweep: "Sweep", place: tuple[int, ...]) -> str:
    value = float(sweep.smallest_margin[place])
    if np.isnan(value):
        return "-"
    smallest = next(path for path in sweep.margin_paths if sweep[path][place] == value)
    return f"{shown(smallest, value)} {label(smallest)}"
