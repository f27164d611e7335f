"""A mass trend as plain text and as Markdown."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hoopline.comparison.page import _line, _plain
from hoopline.comparison.tables import NOTHING, Section, kilograms
from hoopline.comparison.text import _section
from hoopline.comparison.trend import MassStatement, MassTrend, TrendLine
from hoopline.folding import folded
from hoopline.rounding import rounded, signed

ABOUT = (
    "Used is the growth of basic mass since the first statement over the growth allowance first "
    "stated, rounded up. Growth beyond it, or in lines that were not there, was not allowed for."
)


def render(trend: MassTrend) -> str:
    """Return the trend as text: statements, verdict, sums, groups, lines."""
    title = "Mass trend"
    lines = [title, "=" * len(title)]
    lines += [folded(f"{one.letter}  {_side(one)}", rest="   ") for one in trend.statements]
    lines += ["", folded(trend.verdict), folded(ABOUT)]
    lines += [folded(note) for note in trend.notes]
    blocks = ["\n".join(lines)]
    blocks += ["\n".join(_section(section)) for section in sections(trend)]
    return "\n\n".join(blocks)


def markdown(trend: MassTrend) -> str:
    """Return the trend as GitHub-flavoured Markdown."""
    return "\n".join(_markdown(trend)) + "\n"


def _markdown(trend: MassTrend) -> Iterator[str]:
    yield "# Mass trend"
    yield ""
    for one in trend.statements:
        yield f"- **{one.letter}** {_plain(_side(one))}"
    for text in (trend.verdict, ABOUT, *trend.notes):
        yield ""
        yield _plain(text)
    for section in sections(trend):
        yield ""
        yield f"## {section.heading}"
        yield ""
        yield _line(section.headers)
        yield _line(["---", *("---:" for _ in section.headers[1:])])
        for row in section.rows:
            yield _line([_plain(cell) for cell in row])


def _side(one: MassStatement) -> str:
    named = one.label if one.label == one.name else f"{one.label}: {one.name}"
    return f"{named}, digest {one.digest[:12]}, hoopline {one.version or 'not known'}"


def sections(trend: MassTrend) -> Iterator[Section]:
    """Yield the tables: sums, basic mass by group and by line, predicted mass by line."""
    letters = [one.letter for one in trend.statements]
    steps = [f"{after} - {before}" for before, after in pairwise(letters)]
    yield Section("Sums, kg", ("sum", *letters, "note"), tuple(_sums(trend.total)), coded=False)
    followed = ("line", *letters, *steps, "used", "note")
    for heading, lines in (
        ("Basic mass by group, kg", (*trend.groups, trend.total)),
        ("Basic mass by line, kg", trend.lines),
    ):
        yield Section(heading, followed, tuple(map(_basic, lines)), coded=False)
    rows = tuple(
        (line.name, *_masses(line.predicted), _matured(line, letters)) for line in trend.lines
    )
    heading = "Predicted mass by line, kg"
    yield Section(heading, ("line", *letters, "note"), rows, coded=False)


def _sums(total: TrendLine) -> Iterator[tuple[str, ...]]:
    yield ("basic mass", *_masses(total.basic), "")
    yield ("growth allowance", *_masses(total.growth), "")
    yield ("predicted mass", *_masses(total.predicted), "")
    yield ("first allowance used", NOTHING, *map(share, total.used), "")


def _basic(line: TrendLine) -> tuple[str, ...]:
    changes = map(kilograms, line.changes)
    return (line.name, *_masses(line.basic), *changes, share(line.used[-1]), line.note)


def _matured(line: TrendLine, letters: Sequence[str]) -> str:
    """Name the classes of maturity of a line where they change."""
    there = [
        (letter, maturity or "allowance stated")
        for letter, maturity, mass in zip(letters, line.maturity, line.basic, strict=True)
        if mass is not None
    ]
    changed = [
        f"from {letter} {now}" for (_, before), (letter, now) in pairwise(there) if now != before
    ]
    return "; ".join([there[0][1], *changed]) if changed else ""


def _masses(masses: Sequence[float | None]) -> Iterator[str]:
    return (NOTHING if mass is None else rounded(mass, 3) for mass in masses)


def share(used: float | None) -> str:
    """Return a share of the allowance as printed: signed, rounded up."""
    if used is None:
        return NOTHING
    number = rounded(100.0 * used, 0, "up")
    return f"{signed(number) if float(number) else '0'} %"
