"""A comparison as Markdown and as HTML."""

import re
from collections.abc import Iterator
from html import escape

from hoopline.comparison import Comparison
from hoopline.comparison.tables import Section, sections
from hoopline.comparison.text import BEFORE_ROUNDING, held, side
from hoopline.html_table import html_table

# What GitHub-flavoured Markdown reads as a mark: https://github.github.com/gfm/, sections 2.4
# (backslash escapes) and 4.10 (tables, where a pipe ends a cell).
_MARKS = re.compile(r"([\\`*_\[\]<>|~#])")


def markdown(comparison: Comparison) -> str:
    """Return the comparison as GitHub-flavoured Markdown."""
    return "\n".join(_markdown(comparison)) + "\n"


def _markdown(comparison: Comparison) -> Iterator[str]:
    yield "# Comparison"
    yield ""
    for one in comparison.sides:
        yield f"- **{one.letter}** {_plain(side(one))}"
    yield ""
    yield f"{_plain(comparison.verdict)} {BEFORE_ROUNDING}"
    for note in comparison.notes:
        yield ""
        yield _plain(note)
    for section in sections(comparison):
        yield ""
        yield f"## {section.heading}"
        yield ""
        noted = any(row[-1] for row in section.rows)
        headers = section.headers if noted else section.headers[:-1]
        yield _line(headers)
        yield _line(["---", *("---" if section.worded else "---:" for _ in headers[1:])])
        for name, *cells in section.rows:
            first = _code(name) if section.coded else _plain(name)
            yield _line([first, *map(_plain, cells if noted else cells[:-1])])
    yield ""
    if comparison.cautions:
        yield "## Cautions"
        yield ""
        for caution in comparison.cautions:
            yield f"- {held(comparison, caution)}: {_plain(caution.text)}"
        yield ""
    yield _plain(comparison.safety)


def _line(cells: "list[str] | tuple[str, ...]") -> str:
    return f"| {' | '.join(cells)} |"


def _plain(text: str) -> str:
    return _MARKS.sub(r"\\\1", " ".join(text.split()))


def _code(path: str) -> str:
    """Return a path as code; in a table a pipe ends the cell even there."""
    if "`" in path:
        return _plain(path)
    return f"`{' '.join(path.split())}`".replace("|", "\\|")


def html(comparison: Comparison) -> str:
    """Return the comparison as HTML, for notebooks."""
    return "\n".join(_html(comparison))


def _html(comparison: Comparison) -> Iterator[str]:
    yield "<h3>Comparison</h3>"
    for one in comparison.sides:
        yield f"<p><strong>{one.letter}</strong> {escape(side(one))}</p>"
    yield f"<p>{escape(comparison.verdict)} {BEFORE_ROUNDING}</p>"
    for note in comparison.notes:
        yield f"<p>{escape(note)}</p>"
    for section in sections(comparison):
        yield _table(section)
    for caution in comparison.cautions:
        holds = escape(held(comparison, caution))
        yield f"<p><strong>Caution, {holds}:</strong> {escape(caution.text)}</p>"
    yield f"<p>{escape(comparison.safety)}</p>"


def _table(section: Section) -> str:
    between = "left" if section.worded else "right"
    last = len(section.headers) - 1
    sides = ["left" if place in {0, last} else between for place in range(last + 1)]
    return html_table(section.heading, section.rows, section.headers, sides=sides)
