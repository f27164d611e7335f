"""Where a line of the page may break, and where it must not."""

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markupsafe import Markup

# Longest word that is never broken; own choice.
SHORT = 12
_SPACE = "\N{NO-BREAK SPACE}"


def path(text: str) -> "Markup":
    """Let a dotted path break between its words and nowhere else.

    >>> str(path("tank.ply[0].fibre_thickness"))
    'tank.<wbr>ply<wbr>[0].<wbr>fibre_<wbr>thickness'
    """
    from markupsafe import Markup, escape

    parts = re.split(r"(?<=[._])|(?=\[)", text)
    return Markup("<wbr>").join(escape(part) for part in parts)


def own(text: str) -> "Markup":
    """Let the long words of a user's text, such as names of files, break after their separators.

    >>> str(own("see records/2026/hydrostatic_test.csv"))
    'see records/<wbr>2026/<wbr>hydrostatic_<wbr>test.<wbr>csv'
    """
    from markupsafe import Markup, escape

    words = re.split(r"(\s+)", text)
    cut = (re.split(r"(?<=[./\\_-])", word) if len(word) > SHORT else [word] for word in words)
    return Markup("").join(Markup("<wbr>").join(map(escape, parts)) for parts in cut)


def limits(text: str) -> str:
    """Keep each limit and its unit on one line.

    >>> limits("at most 9 kg") == "at most 9\N{NO-BREAK SPACE}kg"
    True
    """
    return re.sub(r"(?<=\d) ", _SPACE, text)


def together(text: str) -> str:
    """Keep words on one line."""
    return text.replace(" ", _SPACE)


def entries(text: str) -> list[str]:
    r"""Cut an explanation where a page may break: before each entry, headings with their first.

    Lines that are indented deeper belong to the entry above them.

    >>> entries("Terms\n  a = 1\n      first\n  b = 2\n\nSources\n  [1] none")
    ['Terms\n  a = 1\n      first\n', '  b = 2\n\n', 'Sources\n  [1] none\n']
    """
    found: list[str] = []
    heading = False
    for line in text.splitlines():
        own = not line.startswith("   ") and bool(line.strip())
        if own and not heading:
            found.append("")
        found[-1] += f"{line}\n"
        heading = bool(line.strip()) and not line.startswith(" ")
    return found
