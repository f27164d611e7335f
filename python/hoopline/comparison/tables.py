"""A comparison as sections of cells, the same for text, Markdown and HTML."""

from collections.abc import Iterator
from dataclasses import dataclass

from hoopline.comparison import Comparison, Mass, Numbers, Words
from hoopline.comparison.rows import percent
from hoopline.rounding import rounded, signed
from hoopline.text import label

NOTHING = "-"


@dataclass(frozen=True, slots=True)
class Section:
    """One table.

    Attributes
    ----------
    heading
        What it shows.
    headers
        Name of each column.
    rows
        Cells of each row, as printed. The first is the name, the last a note.
    worded
        Whether cells are words, which may be long, instead of numbers.
    coded
        Whether names are paths.
    """

    heading: str
    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    worded: bool = False
    coded: bool = True


def sections(comparison: Comparison) -> Iterator[Section]:
    """Yield the sections that are not empty."""
    for section in _all(comparison):
        if section.rows:
            yield section


def _all(comparison: Comparison) -> Iterator[Section]:
    yield _numbers(comparison, "Inputs that differ", "input", comparison.inputs)
    for heading, kind, rows in (
        ("Choices that differ", "choice", comparison.choices),
        ("Rows on record that differ", "row", comparison.on_record),
        ("Tables and counts that differ", "table", comparison.tables),
        ("Follow rules that differ", "rule", comparison.follow),
    ):
        yield _words(comparison, heading, kind, rows)
    yield _margins(comparison)
    heading = "Requirements whose status or limits differ"
    yield _words(comparison, heading, "requirement", comparison.requirements, coded=False)
    yield _masses(comparison)
    heading = "All results" if comparison.everything else "Results that differ as printed"
    yield _numbers(comparison, heading, "result", comparison.results)


def letters(comparison: Comparison) -> tuple[str, ...]:
    """Letters of the sides."""
    return tuple(side.letter for side in comparison.sides)


def changes(comparison: Comparison) -> tuple[str, ...]:
    """Headers of the differences: "B - A"."""
    first, *others = letters(comparison)
    return tuple(f"{letter} - {first}" for letter in others)


def _numbers(comparison: Comparison, heading: str, kind: str, rows: tuple[Numbers, ...]) -> Section:
    relative = ("relative",) if len(comparison.sides) == 2 else ()
    headers = (kind, *letters(comparison), *changes(comparison), *relative, "note")
    return Section(heading, headers, tuple(_number(row, relative=bool(relative)) for row in rows))


def _number(row: Numbers, *, relative: bool) -> tuple[str, ...]:
    shares = [percent(share) for share in row.relative] if relative else []
    values = (text or NOTHING for text in row.shown)
    if relative and not all(row.shown):
        return (row.path, *values, row.note, "", "")  # there is no difference in its place
    return (row.path, *values, *row.differences, *shares, row.note)


def _words(
    comparison: Comparison, heading: str, kind: str, rows: tuple[Words, ...], *, coded: bool = True
) -> Section:
    headers = (kind, *letters(comparison), "note")
    cells = tuple((row.path, *(word or NOTHING for word in row.words), row.note) for row in rows)
    return Section(heading, headers, cells, worded=True, coded=coded)


def _margins(comparison: Comparison) -> Section:
    headers = ("margin", *letters(comparison), *changes(comparison), "note")
    rows = []
    for row in comparison.margins:
        governs = [
            side.letter
            for side, path in zip(comparison.sides, comparison.governing, strict=True)
            if path == row.path
        ]
        notes = [f"governs {' and '.join(governs)}"] if governs else []
        notes += [row.note] if row.note else []
        cells = (text or NOTHING for text in row.shown)
        rows.append((label(row.path), *cells, *row.differences, "; ".join(notes)))
    return Section("Margins of safety", headers, tuple(rows), coded=False)


def _masses(comparison: Comparison) -> Section:
    units = tuple(f"{letter}, kg" for letter in letters(comparison))
    differences = tuple(f"{change}, kg" for change in changes(comparison))
    rows = [*comparison.masses, comparison.total, *comparison.propellant, comparison.lift_off]
    return Section(
        "Masses, growth allowance included",
        ("line", *units, *differences, "note"),
        tuple(_mass(row) for row in rows),
        coded=False,
    )


def _mass(row: Mass) -> tuple[str, ...]:
    masses = (NOTHING if mass is None else rounded(mass, 3) for mass in row.predicted)
    return (row.name, *masses, *(kilograms(mass) for mass in row.differences), "")


def kilograms(change: float, decimals: int = 3) -> str:
    """Return a difference of masses as printed, signed."""
    number = rounded(change, decimals)
    return signed(number) if float(number) else number
