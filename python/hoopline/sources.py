"""Sources, numbered: each is printed once below what names it."""

from collections.abc import Iterable, Mapping
from typing import Any


class Sources:
    """Numbers sources in the order in which they are first needed.

    Parameters
    ----------
    short
        Sources up to this many letters stand where they belong instead.

    Attributes
    ----------
    listed
        The numbered ones in order.
    """

    def __init__(self, short: int = 0) -> None:
        self._short = short
        self.listed: list[str] = []

    def mark(self, source: str) -> str:
        """Return what stands in place of a source, such as "[2]"; nothing for none."""
        if len(source) <= self._short:
            return source
        if source not in self.listed:
            self.listed.append(source)
        return f"[{self.listed.index(source) + 1}]"


def numbered(inputs: Iterable[Mapping[str, Any]]) -> tuple[list[str], list[str]]:
    """Give each source of the inputs a number.

    Returns
    -------
    tuple
        For each input its mark, such as "[2]", empty where the stage itself is the source; and the
        sources in order.
    """
    sources = Sources()
    return [sources.mark(row["source"]) for row in inputs], sources.listed
