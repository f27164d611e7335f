"""A table as plain text: columns as wide as their widest cell."""

from collections.abc import Iterator, Sequence
from typing import Literal


def text_table(rows: Sequence[Sequence[str]], side: Literal["<", ">"] = "<") -> Iterator[str]:
    """Yield the lines of a table, the headers among its rows; cells stand left, or right for ">".

    >>> list(text_table([("part", "mass"), ("liner", "6.1 kg")]))
    ['part   mass', 'liner  6.1 kg']
    """
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        cells = (f"{cell:{side}{width}}" for cell, width in zip(row, widths, strict=True))
        yield "  ".join(cells).rstrip()
