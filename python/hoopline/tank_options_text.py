"""What a search for the lightest tank found, as text and as a page of a notebook."""

from collections.abc import Iterator
from html import escape

import numpy as np

from hoopline import _core
from hoopline.errors import InputError
from hoopline.folding import INDENT, folded
from hoopline.html_table import html_table
from hoopline.optimum_tables import short_names
from hoopline.tank_options import LightestTank, TankOption
from hoopline.text import label, margin, shown, stamp
from hoopline.text_table import hung_table

_NAME = 9
_ROWS = 40


def render(found: LightestTank, rows: int) -> str:
    """Return title, winner, counts, the table of options, safety."""
    if isinstance(rows, bool) or not isinstance(rows, int) or rows < 1:
        raise InputError(f"rows is a whole number of options from 1, not {rows!r}")
    heading = _title(found)
    lines = [heading, "=" * len(heading)]
    for name, text in _summary(found):
        lines.append(folded(text, f"{name + ':':{_NAME}} ", " " * (_NAME + 1)))
    chosen = _order(found, rows)
    lines += ["", "Options, the lightest first; then those rejected, the nearest first"]
    lines += hung_table(_headers(found), [_row(found, row) for row in chosen])
    if hidden := len(found) - len(chosen):
        lines.append(f"{INDENT}... and {hidden} more; to_pandas() has them all")
    return "\n".join([*lines, "", folded(found.safety)])


def page(found: LightestTank) -> str:
    """Return the same as HTML."""
    chosen = _order(found, _ROWS)
    hidden = len(found) - len(chosen)
    caption = "Options, the lightest first; then those rejected, the nearest first"
    more = f", and {hidden} more" if hidden else ""
    parts = [f"<h3>{escape(_title(found))}</h3>"]
    parts += [f"<p><strong>{name}:</strong> {escape(text)}</p>" for name, text in _summary(found)]
    rows = [_row(found, row) for row in chosen]
    parts.append(html_table(caption + more, rows, _headers(found)))
    parts.append(f"<p>{escape(found.safety)}</p>")
    return "\n".join(parts)


def _title(found: LightestTank) -> str:
    return f"{found.stage.name}: lightest tank of {len(found)} options"


def _summary(found: LightestTank) -> Iterator[tuple[str, str]]:
    """Name and sentence of what wins, what governs it, what holds, how the options stand."""
    if found.winner is None:
        yield "winner", "none; no option meets everything"
    else:
        inputs = ", ".join(f"{path} = {value}" for path, value in found.winner.inputs.items())
        yield "winner", f"tank.mass {_mass(found.winner)} with {inputs}"
        yield "governs", _governs(found.winner)
    others = [bound.text for bound in found.bounds if not _no_margin_negative(bound.text)]
    yield "held", "; ".join(["no margin negative", *others])
    counts = ", ".join(f"{count} {name}" for name, count in found.tally().items())
    yield "options", f"{counts}; {found.flown} were flown"
    yield "stage", stamp(found.stage.digest, _core.version)


def _no_margin_negative(text: str) -> bool:
    return text.startswith("margins.") and text.endswith(" at least 0")


def _governs(option: TankOption) -> str:
    path = option.governing
    if path is None:
        return "no margin applies"
    return f"{path} {margin(option.margins[path])}"


def _headers(found: LightestTank) -> tuple[str, ...]:
    return ("rank", "tank mass", *short_names(list(found.values)), "governs, or why not ranked")


def _row(found: LightestTank, row: int) -> tuple[str, ...]:
    option = found.option(row)
    inputs = (str(value) for value in option.inputs.values())
    why = option.reason
    if option.governing is not None:
        why = f"{margin(option.margins[option.governing])} {label(option.governing)}"
    return (str(option.rank or ""), _mass(option), *inputs, why)


def _mass(option: TankOption) -> str:
    return "-" if option.tank_mass is None else shown("tank.mass", option.tank_mass)


def _order(found: LightestTank, rows: int) -> list[int]:
    """Rows in the order printed: ranked, heavier by mass, rejected by their room, no results."""
    status, mass = found.status, found.tank_mass
    groups = {"meets all bounds": 0, "heavier": 1, "violates bounds": 2, "screened": 2}
    group = np.full(len(found), 3)
    for word, place in groups.items():
        group[status == word] = place
    second = np.where(group == 2, -found.room, mass)  # noqa: PLR2004
    order = np.lexsort((np.arange(len(found)), second, group))
    return [int(row) for row in order[:rows]]
