"""Every path of a stage file, or of its results, as a table: kind, unit, limits, meaning."""

import json
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict, dataclass
from html import escape
from typing import Any

from hoopline import _core
from hoopline.errors import InputError, with_article
from hoopline.schema import document, general, nearest
from hoopline.text_table import text_table


@dataclass(frozen=True, slots=True)
class Entry:
    """One path.

    Attributes
    ----------
    path
        Dotted path; [] stands for the number of an entry of a list, counted from 0.
    kind
        Quantity of a number, or choice, text, row on record, list, table.
    unit, printed_unit
        SI unit of a number and the one it is printed in, else empty.
    units
        Units a file may write it in.
    lower, upper
        Limits in SI, or none.
    limits
        The limits in the printed unit.
    options
        Words of a choice.
    doc
        What it is.
    default
        Word of a choice that stands if none is chosen, a default of our own.
    """

    path: str
    kind: str
    unit: str
    printed_unit: str
    units: tuple[str, ...]
    lower: float | None
    upper: float | None
    limits: str
    options: tuple[str, ...]
    doc: str
    default: str | None


class Entries(tuple[Entry, ...]):
    """Paths in the order of the tables; `print` shows them, one to a line."""

    __slots__ = ()

    def to_json(self) -> str:
        """Return the entries as JSON text, limits in SI."""
        return json.dumps([asdict(entry) for entry in self], indent=2, ensure_ascii=False)

    def __str__(self) -> str:
        header = ("path", "kind", "unit", "limits", "meaning")
        rows = [(one.path, one.kind, one.printed_unit, one.limits, _meaning(one)) for one in self]
        return "\n".join([*text_table([header, *rows]), *_other_units(self)])

    def __repr__(self) -> str:
        return f"<{len(self)} paths>"

    def _repr_html_(self) -> str:
        return f"<pre>{escape(str(self))}</pre>"


def paths(prefix: str = "", *, results: bool = False) -> Entries:
    """Return every path a stage file may hold, or every path of its results.

    Parameters
    ----------
    prefix
        Keeps the paths that begin with it, such as "tank.liner"; entries of lists may be written
        with a number or without. If no path begins so, those that hold it in the path or in the
        meaning, the nearest first.
    results
        Lists results instead of inputs.

    Raises
    ------
    InputError
        No path or meaning holds it; the message names the nearest.

    Examples
    --------
    >>> import hoopline as hl
    >>> print(hl.paths("tank.vol"))
    path         kind    unit  limits          meaning
    tank.volume  volume  L     0.01 to 100000  Inside volume between the closures.
    A volume may be written in m3, cm3, mL, L.
    >>> [entry.path for entry in hl.paths("ascent.apogee", results=True)]
    ['ascent.apogee', 'ascent.apogee_time', 'ascent.apogee_error', 'ascent.apogee_speed']
    """
    known = list(_results() if results else _by_table(_inputs()))
    wanted = general(str(prefix))
    found = [entry for entry in known if entry.path.startswith(wanted)]
    found = found or _holding(wanted, known)
    if not found:
        kind = "result" if results else "path of a stage file"
        near = nearest(wanted, (entry.path for entry in known), dotted=True)
        raise InputError(f'no {kind} begins with "{prefix}" or holds it{near}')
    return Entries(found)


def _holding(wanted: str, known: list[Entry]) -> list[Entry]:
    """Return what holds a text in its last name, its path or its meaning, in this order."""
    text = wanted.lower()
    places: tuple[Callable[[Entry], str], ...] = (
        lambda entry: entry.path.rpartition(".")[2],
        lambda entry: entry.path,
        lambda entry: _meaning(entry).lower(),
    )
    found = {entry: None for place in places for entry in known if text in place(entry)}
    return list(found)


def _results() -> Iterator[Entry]:
    for field in document()["results"]:
        if not field["path"].startswith("status."):
            yield _number(field, units=(field["printed_unit"],))


def _by_table(entries: Iterable[Entry]) -> Iterator[Entry]:
    """Bring together what stands in one table; what stands in none comes first."""
    tables: dict[str, list[Entry]] = {"": []}
    for entry in entries:
        table, _, rest = entry.path.partition(".")
        tables.setdefault(table.removesuffix("[]") if rest else "", []).append(entry)
    for together in tables.values():
        yield from together


def _inputs() -> Iterator[Entry]:
    known = document()
    numbers: dict[str, dict[str, Any]] = {}
    for field in known["inputs"]:
        numbers.setdefault(general(field["path"]), field)
    for path, field in numbers.items():
        units = dict.fromkeys(filter(None, known["quantities"][field["quantity"]]))
        yield _number(field | {"path": path}, units=tuple(units))
    for choice in known["choices"]:
        words = tuple(option["word"] for option in choice["options"])
        yield _other(choice, "choice", words, choice["default"])
    for kind, rows in (
        ("text", known["texts"]), ("number", known["listed"]), ("other", known["others"]),
        ("list", known["lists"]),
    ):  # fmt: skip
        for row in rows:
            yield _other(row, kind)


def _number(field: dict[str, Any], units: tuple[str, ...]) -> Entry:
    lower, upper, printed = field["lower"], field["upper"], field["printed_unit"]
    limits = ""
    if lower is not None and upper is not None:
        shown = (_core.show(limit, field["quantity"]) for limit in (lower, upper))
        limits = " to ".join(text.removesuffix(f" {printed}") for text in shown)
    return Entry(
        field["path"], field["quantity"], field["unit"], printed, units, lower, upper, limits, (),
        field["doc"], None,
    )  # fmt: skip


def _other(
    row: dict[str, Any], kind: str, options: tuple[str, ...] = (), default: str | None = None
) -> Entry:
    return Entry(row["path"], kind, "", "", (), None, None, "", options, row["doc"], default)


def _meaning(entry: Entry) -> str:
    words = f": {', '.join(entry.options)}" if entry.options else ""
    return f"{entry.doc}{words}" + (f"; {entry.default} by default" if entry.default else "")


def _other_units(entries: Iterable[Entry]) -> Iterator[str]:
    """Say once per quantity in which units it may be written."""
    units = {entry.kind: entry.units for entry in entries if len(entry.units) > 1}
    for quantity, symbols in units.items():
        named = with_article(quantity)
        yield f"{named[0].upper()}{named[1:]} may be written in {', '.join(symbols)}."
