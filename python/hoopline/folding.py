"""Folding of plain text: the width of what is printed, and its indents."""

import textwrap

WIDTH = 96
INDENT = "  "


def folded(
    text: str, first: str = "", rest: str = "", *, hyphens: bool = True, long_words: bool = True
) -> str:
    """Return a text in lines that fit the width.

    Parameters
    ----------
    text
        The text.
    first, rest
        What stands before the first line, and before the others.
    hyphens
        Whether a line may end at a hyphen; not in formulas, where it is a minus.
    long_words
        Whether a word that is wider than a line is broken; not where it is a name to look for.
    """
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=rest,
        break_on_hyphens=hyphens,
        break_long_words=long_words,
    )
