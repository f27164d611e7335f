"""A table as HTML, for notebooks."""

from collections.abc import Iterable, Sequence
from html import escape


def html_table(
    caption: str,
    rows: Iterable[Sequence[str]],
    headers: Sequence[str] = (),
    *,
    sides: Sequence[str] = (),
    style: str = "",
    first: str = "",
) -> str:
    """Return a table of texts, of which the first of each row names it; nothing without rows.

    Parameters
    ----------
    caption
        What it shows.
    rows
        Cells as they are printed.
    headers
        Name of each column; none for a table of names and what they stand for.
    sides
        "left" or "right" for each column; all left where it is not given.
    style, first
        Further CSS of every cell, and of the names alone.

    Examples
    --------
    >>> html_table("Tank", [("mass", "8.6 kg")]).count("<td")
    1
    """

    def cell(kind: str, text: str, side: str = "left", css: str = "") -> str:
        declared = ";".join(part for part in (f"text-align:{side}", style, css) if part)
        return f'<{kind} style="{declared}">{escape(text)}</{kind.partition(" ")[0]}>'

    body = [
        cell('th scope="row"', name, css=first)
        + "".join(cell("td", text, side) for text, side in _sided(texts, sides[1:]))
        for name, *texts in rows
    ]
    if not body:
        return ""
    head = "".join(cell('th scope="col"', text, side) for text, side in _sided(headers, sides))
    lines = [head, *body] if headers else body
    table = "".join(f"<tr>{line}</tr>" for line in lines)
    return f"<table><caption>{escape(caption)}</caption>{table}</table>"


def _sided(texts: Sequence[str], sides: Sequence[str]) -> Iterable[tuple[str, str]]:
    return zip(texts, sides or ("left",) * len(texts), strict=True)
