"""Tables as comma-separated text that spreadsheets and programs read alike."""

import csv
import math
from collections.abc import Iterable, Sequence
from io import StringIO
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from numpy.typing import NDArray

Cell = str | float | None

# What spreadsheets take for the start of a formula: "CSV Injection", OWASP (list from memory).
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def guarded(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula: an apostrophe goes before it.

    >>> guarded("=1+1"), guarded("liner cylinder")
    ("'=1+1", 'liner cylinder')
    """
    return f"'{text}" if text.startswith(_FORMULA) else text


def cells(column: "NDArray[Any]") -> list[Cell]:
    """Return the cells of a column; what is not a number is an empty one."""
    return [
        None if isinstance(cell, float) and math.isnan(cell) else cell for cell in column.tolist()
    ]


def table(headers: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    r"""Return a table by RFC 4180: one header line, lines ended by CR LF, quotes where needed.

    Numbers have as many digits as it takes to read the same double again; None is an empty cell.

    >>> table(["time [s]", "part"], [[0.1, "fin, aft"], [None, "nose"]])
    'time [s],part\r\n0.1,"fin, aft"\r\n,nose\r\n'
    """
    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([guarded(header) for header in headers])
    for row in rows:
        writer.writerow([guarded(cell) if isinstance(cell, str) else cell for cell in row])
    return text.getvalue()
