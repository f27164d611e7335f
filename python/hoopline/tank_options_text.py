"""What a search for the lightest tank found, as text and as a page of a notebook."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from numbers import Real
from typing import Any

import numpy as np

from hoopline import _core, schema
from hoopline.errors import InputError
from hoopline.folding import INDENT, folded
from hoopline.html_table import html_table
from hoopline.optimum_tables import short_names
from hoopline.rounding import margin
from hoopline.tank_options import LightestTank, TankOption
from hoopline.text import label, shown, stamp
from hoopline.text_table import text_table

_NAME = 8
_ROWS = 40
# Options that are merely heavier, where not all can be shown.
_HEAVIER = 3
# Widest table with a row for each option; a terminal made wide shows it.
_WIDEST = 132
_CAPTION = (
    "Options: those ranked, those heavier, those rejected: first what would be lighter than the "
    "winner, the nearest to its bound first"
)


@dataclass(frozen=True, slots=True)
class _Table:
    """The options shown: headers, rows, notes, what all share, how many are left out."""

    headers: tuple[str, ...]
    rows: list[tuple[str, ...]]
    notes: list[str]
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
    for number, note in enumerate(table.notes, start=1):
        lines.append(folded(note, f"{INDENT}note {number}: ", INDENT * 2))
    if table.shared:
        lines.append(folded(f"all of these have {table.shared}", INDENT, INDENT * 2))
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
    for number, note in enumerate(table.notes, start=1):
        parts.append(f"<p>Note {number}: {escape(note)}</p>")
    if table.shared:
        parts.append(f"<p>All of these have {escape(table.shared)}.</p>")
    parts.append(f"<p>{escape(found.safety)}</p>")
    return "\n".join(parts)


def _title(found: LightestTank) -> str:
    return f"{found.stage.name}: lightest tank of {len(found)} options"


def _summary(found: LightestTank) -> Iterator[tuple[str, str]]:
    """Name and sentence of what wins, what governs it, what holds."""
    if found.winner is None:
        yield "winner", "none: no option meets everything"
    else:
        pairs = found.winner.inputs.items()
        inputs = ", ".join(f"{path} = {_given(path, value)}" for path, value in pairs)
        yield "winner", f"tank.mass {_mass(found.winner)} with {inputs}"
        yield "governs", _governs(found.winner)
    others = [bound.text for bound in found.bounds if not _no_margin_negative(bound.text)]
    yield "held", "; ".join(["no margin negative", *others])
    yield "flown", f"{found.flown} of {len(found)}; the others are judged without a flight"
    yield "stage", stamp(found.stage.digest, _core.version)


def _tally(found: LightestTank) -> list[tuple[str, str]]:
    """How many options stand how."""
    return [(str(count), name) for name, count in found.tally().items()]


def _no_margin_negative(text: str) -> bool:
    return text.startswith("margins.") and text.endswith(" at least 0")


def _governs(option: TankOption) -> str:
    path = option.governing
    if path is None:
        return "no margin applies"
    return f"{path} {margin(option.margins[path])}"


def _table(found: LightestTank, rows: int) -> _Table:
    """Return the options to show, without the columns in which they do not differ."""
    options = [found.option(row) for row in _order(found, rows)]
    names = short_names(list(found.values))
    cells = [[_given(path, option.inputs[path]) for option in options] for path in found.values]
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
    notes = list(dict.fromkeys(option.reason for option in options if _is_note(option)))
    whys = [
        f"no results, note {notes.index(option.reason) + 1}" if _is_note(option) else _why(option)
        for option in options
    ]
    whole = [
        (*before, *(column[place] for column in columns), why)
        for place, (before, why) in enumerate(zip(fixed, whys, strict=True))
    ]
    return _Table(
        headers=("rank", "tank mass", *headers, "governs, or why not ranked"),
        rows=whole,
        notes=notes,
        shared=", ".join(shared),
        hidden=len(found) - len(options),
    )


def _options(table: _Table) -> Iterator[str]:
    """Yield the lines of the table; where it is too wide, what varies stands below each row."""
    lines = [f"{INDENT}{line}" for line in text_table([table.headers, *table.rows])]
    if max(map(len, lines)) <= _WIDEST:
        yield from lines
        return
    outer = [(row[0], row[1], row[-1]) for row in (table.headers, *table.rows)]
    first, *others = (f"{INDENT}{line}" for line in text_table(outer))
    yield first
    for line, row in zip(others, table.rows, strict=True):
        yield line
        yield folded(_pairs(table.headers[2:-1], row[2:-1]), INDENT * 4, INDENT * 4)


def _given(path: str, value: Any) -> str:
    """Return a value as given; a bare number of an input has the printed unit."""
    known = schema.inputs().get(path)
    if known is None or isinstance(value, str) or not isinstance(value, Real):
        return str(value)
    return known.with_unit(f"{known.printed(float(value)):.6g}")


def _pairs(names: Sequence[str], cells: Sequence[str]) -> str:
    return ", ".join(f"{name} {cell}" for name, cell in zip(names, cells, strict=True))


def _why(option: TankOption) -> str:
    """Return what governs a ranked option, or why it is not ranked, in few words."""
    if option.governing is not None:
        return f"{margin(option.margins[option.governing])} {label(option.governing)}"
    if option.worst is not None and _no_margin_negative(option.worst.text):
        word = "screened by" if option.status == "screened" else "violates"
        return f"{word} {label(option.worst.path)} {option.worst.shown}"
    return option.status if option.status == "heavier" else option.reason


def _is_note(option: TankOption) -> bool:
    """Whether the reason is too long for a row."""
    return option.status == "no results"


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
    order = np.lexsort((np.arange(len(found)), mass, within, group))
    if len(order) > rows:
        heavier = np.flatnonzero(group[order] == 1)
        order = np.delete(order, heavier[_HEAVIER:])
    return [int(row) for row in order[:rows]]
