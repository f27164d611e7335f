"""Sources of inputs, numbered: each is printed once below the table that names it."""

from collections.abc import Iterable, Mapping
from typing import Any


def numbered(inputs: Iterable[Mapping[str, Any]]) -> tuple[list[str], list[str]]:
    """Give each source of the inputs a number, in the order in which they are first needed.

    Returns
    -------
    tuple
        For each input its mark, such as "[2]", empty where the stage itself is the source; and the
        sources in order.
    """
    listed: list[str] = []
    marks: list[str] = []
    for row in inputs:
        source = row["source"]
        if source and source not in listed:
            listed.append(source)
        marks.append(f"[{listed.index(source) + 1}]" if source else "")
    return marks, listed
