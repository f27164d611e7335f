"""A table as plain text: columns as wide as their widest cell."""

from collections.abc import Iterator, Sequence
from typing import Literal

from hoopline.folding import INDENT, WIDTH, folded

_GAP = 2
# Least room for the sentences of a table.
_ROOM = 33


def text_table(rows: Sequence[Sequence[str]], side: Literal["<", ">"] = "<") -> Iterator[str]:
    """Yield the lines of a table, the headers among its rows; cells stand left, or right for ">".

    >>> list(text_table([("part", "mass"), ("liner", "6.1 kg")]))
    ['part   mass', 'liner  6.1 kg']
    """
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        cells = (f"{cell:{side}{width}}" for cell, width in zip(row, widths, strict=True))
        yield "  ".join(cells).rstrip()


def hung_table(headers: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Yield the lines of an indented table whose last cells are sentences, folded under themselves.

    Rows that leave too little room for that stand one below the other.
    """
    *columns, _ = zip(headers, *rows, strict=True)
    widths = [max(map(len, column)) for column in columns]
    hanging = len(INDENT) + sum(widths) + _GAP * len(widths)
    if hanging > WIDTH - _ROOM:
        yield from _listed(headers, rows)
        return
    for row in (headers, *rows):
        cells = (f"{cell:{width}}" for cell, width in zip(row, widths, strict=False))
        line = f"{INDENT}{(' ' * _GAP).join((*cells, row[-1]))}".rstrip()
        yield _hung(line, hanging)


def _listed(headers: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Return the rows one below the other where they are too wide for a table."""
    for number, row in enumerate(rows, start=1):
        pairs = zip(headers, row, strict=True)
        text = ", ".join(f"{name} {cell}" for name, cell in pairs if cell)
        yield folded(text, f"{INDENT}{number:2} ", INDENT * 3)


def _hung(line: str, hanging: int) -> str:
    """Fold the last cell of a row under itself."""
    if len(line) <= WIDTH:
        return line
    return folded(line[hanging:], line[:hanging], " " * hanging)
