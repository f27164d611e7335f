"""What a search for the lightest tank found, as text and as a page of a notebook."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

import numpy as np

from hoopline import _core
from hoopline.errors import InputError
from hoopline.folding import INDENT, WIDTH, folded
from hoopline.html_table import html_table
from hoopline.optimum_tables import short_names
from hoopline.tank_options import LightestTank, TankOption
from hoopline.text import label, margin, shown, stamp
from hoopline.text_table import hung_table, text_table

_NAME = 8
_ROWS = 40
# Options that are merely heavier, where not all can be shown.
_HEAVIER = 3
# Columns before what varies, and the least room for the sentence behind it.
_BEFORE, _SENTENCE = 17, 33
_CAPTION = (
    "Options: those ranked, those heavier, those rejected: first what would be lighter than the "
    "winner, the nearest to its bound first"
)


@dataclass(frozen=True, slots=True)
class _Table:
    """The options shown: headers, rows, what all of them share, how many are left out."""

    headers: tuple[str, ...]
    rows: list[tuple[str, ...]]
    shared: str
    hidden: int


def render(found: LightestTank, rows: int) -> str:
    """Return title, winner, counts, the table of options, safety."""
    if isinstance(rows, bool) or not isinstance(rows, int) or rows < 1:
        raise InputError(f"rows is a whole number of options from 1, not {rows!r}")
    heading = _title(found)
    lines = [heading, "=" * len(heading)]
    for name, text in _summary(found):
        lines.append(folded(text, f"{name + ':':{_NAME}} ", " " * (_NAME + 1)))
    lines += ["", "How they stand"]
    lines += (f"{INDENT}{line}" for line in text_table(_tally(found)))
    table = _table(found, rows)
    lines += ["", folded(_CAPTION), *_options(table)]
    if table.shared:
        lines.append(folded(f"all of these have {table.shared}", INDENT, INDENT))
    if table.hidden:
        lines.append(f"{INDENT}... and {table.hidden} more; to_pandas() has them all")
    return "\n".join([*lines, "", folded(found.safety)])


def page(found: LightestTank) -> str:
    """Return the same as HTML."""
    table = _table(found, _ROWS)
    parts = [f"<h3>{escape(_title(found))}</h3>"]
    parts += [f"<p><strong>{name}:</strong> {escape(text)}</p>" for name, text in _summary(found)]
    parts.append(html_table("How they stand", [(name, count) for count, name in _tally(found)]))
    more = f"; {table.hidden} more are not shown" if table.hidden else ""
    parts.append(html_table(_CAPTION + more, table.rows, table.headers))
    if table.shared:
        parts.append(f"<p>All of these have {escape(table.shared)}.</p>")
    parts.append(f"<p>{escape(found.safety)}</p>")
    return "\n".join(parts)


def _title(found: LightestTank) -> str:
    return f"{found.stage.name}: lightest tank of {len(found)} options"


def _summary(found: LightestTank) -> Iterator[tuple[str, str]]:
    """Name and sentence of what wins, what governs it, what holds."""
    if found.winner is None:
        yield "winner", "none; no option meets everything"
    else:
        inputs = ", ".join(f"{path} = {value}" for path, value in found.winner.inputs.items())
        yield "winner", f"tank.mass {_mass(found.winner)} with {inputs}"
        yield "governs", _governs(found.winner)
    others = [bound.text for bound in found.bounds if not _no_margin_negative(bound.text)]
    yield "held", "; ".join(["no margin negative", *others])
    yield "stage", stamp(found.stage.digest, _core.version)


def _tally(found: LightestTank) -> list[tuple[str, str]]:
    """How many options stand how, and for how many the whole computation was run."""
    rows = [(str(count), name) for name, count in found.tally().items()]
    return [*rows, (str(found.flown), "of all these flown, the others screened alone")]


def _no_margin_negative(text: str) -> bool:
    return text.startswith("margins.") and text.endswith(" at least 0")


def _governs(option: TankOption) -> str:
    path = option.governing
    if path is None:
        return "no margin applies"
    return f"{path} {margin(option.margins[path])}"


def _table(found: LightestTank, rows: int) -> _Table:
    """The options to show, without the columns in which they do not differ."""
    options = [found.option(row) for row in _order(found, rows)]
    names = short_names(list(found.values))
    cells = [[str(option.inputs[path]) for option in options] for path in found.values]
    several = len(options) > 1
    differ = [not several or len(set(column)) > 1 for column in cells]
    shared = [
        f"{path} = {column[0]}"
        for path, column, kept in zip(found.values, cells, differ, strict=True)
        if not kept
    ]
    columns = [column for column, kept in zip(cells, differ, strict=True) if kept]
    headers = [name for name, kept in zip(names, differ, strict=True) if kept]
    fixed = [[str(option.rank or ""), _mass(option)] for option in options]
    whole = [
        (*before, *(column[place] for column in columns), _why(option))
        for place, (before, option) in enumerate(zip(fixed, options, strict=True))
    ]
    return _Table(
        headers=("rank", "tank mass", *headers, "governs, or why not ranked"),
        rows=whole,
        shared=", ".join(shared),
        hidden=len(found) - len(options),
    )


def _options(table: _Table) -> Iterator[str]:
    """The lines of the table; where it is too wide, what varies stands in a line of its own."""
    columns = list(zip(table.headers, *table.rows, strict=True))
    widths = [2 + max(map(len, column)) for column in columns[2:-1]]
    if _BEFORE + sum(widths) <= WIDTH - _SENTENCE:
        yield from hung_table(table.headers, table.rows)
        return
    outer = (table.headers[0], table.headers[1], table.headers[-1])
    lines = list(hung_table(outer, [(row[0], row[1], row[-1]) for row in table.rows]))
    yield lines[0]
    for row in table.rows:
        yield from list(hung_table(outer, [(row[0], row[1], row[-1])]))[1:]
        yield folded(_pairs(table.headers[2:-1], row[2:-1]), INDENT * 4, INDENT * 4)


def _pairs(names: Sequence[str], cells: Sequence[str]) -> str:
    return ", ".join(f"{name} {cell}" for name, cell in zip(names, cells, strict=True))


def _why(option: TankOption) -> str:
    """What governs a ranked option, or why it is not ranked."""
    path = option.governing
    if path is None:
        return option.reason
    return f"{margin(option.margins[path])} {label(path)}"


def _mass(option: TankOption) -> str:
    return "-" if option.tank_mass is None else shown("tank.mass", option.tank_mass)


def _order(found: LightestTank, rows: int) -> list[int]:
    """Rows in the order printed.

    Ranked ones by rank; heavier ones by mass; rejected ones lighter than the winner by their room,
    then the other rejected ones; those without results.
    """
    status, mass = found.status, found.tank_mass
    group = np.full(len(found), 4)
    group[status == "meets all bounds"] = 0
    group[status == "heavier"] = 1
    rejected = (status == "screened") | (status == "violates bounds")
    group[rejected] = 3
    if found.winner is not None:
        group[rejected & (mass < found.tank_mass[found.winner.row])] = 2
    within = np.where(rejected, -found.room, mass)
    order = np.lexsort((np.arange(len(found)), within, group))
    if len(order) > rows:
        heavier = np.flatnonzero(group[order] == 1)
        order = np.delete(order, heavier[_HEAVIER:])
    return [int(row) for row in order[:rows]]
