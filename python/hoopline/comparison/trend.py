"""How the mass statement grows from one saved statement to the next, and uses its allowance up."""

import json
import math
import os
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from itertools import pairwise

from hoopline.comparison import LETTERS, Comparable, _assessed
from hoopline.comparison.rows import _apart, _in_order
from hoopline.errors import InputError, kind_of
from hoopline.file_names import given_path
from hoopline.results import MassLine
from hoopline.rounding import rounded

_ENOUGH, _MOST = 2, 26
_NEGLIGIBLE = 5e-4
"""Kilograms that print as zero."""


@dataclass(frozen=True, slots=True)
class MassStatement:
    """One of the statements of a trend.

    Attributes
    ----------
    letter
        Its letter in every table; A is the first.
    label
        What it is called: the file's name without its ending, or the name of the stage, or yours.
    name, digest, version
        Name of the stage, digest of its inputs, version of hoopline that assessed it.
    met
        Whether it meets all its margins and no requirement is found not met.
    """

    letter: str
    label: str
    name: str
    digest: str
    version: str
    met: bool


@dataclass(frozen=True, slots=True)
class TrendLine:
    """A line of the mass statements, a group of lines or their sum, followed through all of them.

    Attributes
    ----------
    name, group
        What it is, and the part of the vehicle.
    basic, growth, predicted
        Basic mass, growth allowance and predicted mass by statement, kg; None where a statement
        does not have the line.
    maturity
        Class of maturity by statement; None for a stated allowance, a group, or a missing line.
    changes
        Change of basic mass from each statement to the next, kg; a line that is missing counts as
        zero, so that the changes add up to those of the sum.
    used
        What the growth of basic mass since the first statement is of the growth allowance first
        stated, by statement after the first; None where no allowance was stated first.
    note
        "new in B", "gone from C" and the like, or empty.
    """

    name: str
    group: str
    basic: tuple[float | None, ...]
    growth: tuple[float | None, ...]
    predicted: tuple[float | None, ...]
    maturity: tuple[str | None, ...]
    changes: tuple[float, ...]
    used: tuple[float | None, ...]
    note: str


@dataclass(frozen=True, slots=True)
class MassTrend:
    """What `mass_trend` returns. It does not change.

    `print` it for text; `markdown()` and `to_json()` give the same for other readers, and
    `hl.plot.mass_trend` draws it.

    Attributes
    ----------
    statements
        The statements, in the order given.
    verdict
        What it comes to: what basic mass has grown by, of the allowance first stated.
    notes
        What a reader must know about unequal versions; mostly empty.
    lines
        Every line, propellant left out, matched by group and name.
    groups
        The same by group.
    total
        The sum. Its predicted mass holds a mass added for a what-if, which no line has.
    """

    statements: tuple[MassStatement, ...]
    verdict: str
    notes: tuple[str, ...]
    lines: tuple[TrendLine, ...]
    groups: tuple[TrendLine, ...]
    total: TrendLine

    def markdown(self) -> str:
        """Return the trend as GitHub-flavoured Markdown."""
        from hoopline.comparison.trend_text import markdown

        return markdown(self)

    def to_json(self) -> str:
        """Return the trend as JSON text, SI units."""
        return json.dumps(asdict(self), indent=2, ensure_ascii=False)

    def __str__(self) -> str:
        from hoopline.comparison.trend_text import render

        return render(self)

    def __repr__(self) -> str:
        named = ", ".join(f"{one.letter} {one.label!r}" for one in self.statements)
        return f"<MassTrend of {named}>"

    def _repr_markdown_(self) -> str:
        return self.markdown()


def mass_trend(*statements: Comparable, labels: Sequence[str] | None = None) -> MassTrend:
    """Follow the mass statement of one design through its saved assessments, in the order given.

    Parameters
    ----------
    *statements
        Stages, assessments, or paths of stage files (.toml) and saved assessments (.json, what
        `hoopline assess FILE --json` prints), oldest first. At most 26.
    labels
        What each statement is called, such as the review it belongs to. Without, a file is called
        by its name and anything else by the name of its stage.

    Returns
    -------
    MassTrend
        Basic mass, growth allowance and predicted mass by line, by group and in all; what changes
        from one statement to the next, what is new or gone, and what the growth of basic mass is of
        the growth allowance first stated. Lines are matched by group and name: one that was
        renamed is gone under its old name and new under the other.

    Raises
    ------
    InputError
        There are fewer than two statements or not as many labels, one cannot be read or has no mass
        statement; the message says which.
    DataError
        A file cannot be opened.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> grown = stage.replace({"motor.mass": "9.9 kg", "mass.growth.motor": "5 %"})
    >>> trend = hl.mass_trend(stage, grown, labels=["preliminary", "critical"])
    >>> (motor,) = [line for line in trend.lines if line.name == "motor"]
    >>> round(motor.changes[0], 3), round(motor.used[0], 2)
    (0.4, 0.42)
    """
    if not _ENOUGH <= len(statements) <= _MOST:
        raise InputError(f"mass_trend takes {_ENOUGH} to {_MOST} statements, not {len(statements)}")
    designs = [_assessed(one) for one in statements]
    called = _labels(statements, labels)
    for letter, one in zip(LETTERS, designs, strict=False):
        if not one.mass_lines:
            raise InputError(f"{letter} ({one.name}) has no mass statement to follow")
    kept = tuple(
        MassStatement(letter, label, one.name, one.digest, one.version, one.met)
        for letter, label, one in zip(LETTERS, called, designs, strict=False)
    )
    lines = _lines([one.mass_lines for one in designs])
    groups = _groups(lines)
    total = _total(lines, [one["mass.predicted"] for one in designs])
    return MassTrend(kept, _verdict(kept, lines, total), tuple(_notes(kept)), lines, groups, total)


def _labels(statements: Sequence[Comparable], labels: Sequence[str] | None) -> list[str]:
    if labels is None:
        return [_called(one) for one in statements]
    if isinstance(labels, str) or not all(isinstance(label, str) for label in labels):
        raise InputError(f"labels are a list of texts, not {kind_of(labels)}")
    if len(labels) != len(statements):
        raise InputError(f"{len(statements)} statements need as many labels, not {len(labels)}")
    return [" ".join(label.split()) for label in labels]


def _called(one: Comparable) -> str:
    if isinstance(one, str | os.PathLike):
        return given_path("statement", one).stem
    return one.name


def _lines(statements: Sequence[Sequence[MassLine]]) -> tuple[TrendLine, ...]:
    """Match lines by group and name; several of one name are matched in their order."""
    found = [_apart(((line.group, line.name), line) for line in one) for one in statements]
    return tuple(
        _followed(key[0][1], key[0][0], [one.get(key) for one in found]) for key in _in_order(found)
    )


def _followed(name: str, group: str, lines: Sequence[MassLine | None]) -> TrendLine:
    basic, growth, predicted = (
        tuple(None if line is None else float(getattr(line, of)) for line in lines)
        for of in ("basic", "growth", "predicted")
    )
    maturity = tuple(None if line is None else line.maturity for line in lines)
    return _line(name, group, basic, growth, predicted, maturity)


def _line(
    name: str,
    group: str,
    basic: tuple[float | None, ...],
    growth: tuple[float | None, ...],
    predicted: tuple[float | None, ...],
    maturity: tuple[str | None, ...],
) -> TrendLine:
    masses = [mass or 0.0 for mass in basic]
    changes = tuple(after - before for before, after in pairwise(masses))
    allowed = growth[0]
    used = tuple((mass - masses[0]) / allowed if allowed else None for mass in masses[1:])
    return TrendLine(name, group, basic, growth, predicted, maturity, changes, used, _note(basic))


def _note(basic: Sequence[float | None]) -> str:
    """Say from which statement on a line is new or gone."""
    parts = []
    for letter, before, after in zip(LETTERS[1:], basic, basic[1:], strict=False):
        if before is None and after is not None:
            parts.append(f"new in {letter}")
        if before is not None and after is None:
            parts.append(f"gone from {letter}")
    return ", ".join(parts)


def _sum(lines: Sequence[TrendLine], of: str) -> tuple[float | None, ...]:
    """Sum lines by statement; nothing where none of them is there."""
    columns = zip(*(getattr(line, of) for line in lines), strict=True)
    there = ([mass for mass in column if mass is not None] for column in columns)
    return tuple(math.fsum(column) if column else None for column in there)


def _groups(lines: Sequence[TrendLine]) -> tuple[TrendLine, ...]:
    return tuple(
        _summed(group, group, [line for line in lines if line.group == group])
        for group in dict.fromkeys(line.group for line in lines)
    )


def _summed(name: str, group: str, lines: Sequence[TrendLine]) -> TrendLine:
    basic, growth, predicted = (_sum(lines, of) for of in ("basic", "growth", "predicted"))
    return _line(name, group, basic, growth, predicted, (None,) * len(basic))


def _total(lines: Sequence[TrendLine], predicted: Sequence[float]) -> TrendLine:
    whole = _summed("all", "sum", lines)
    return _line("all", "sum", whole.basic, whole.growth, tuple(predicted), whole.maturity)


def _verdict(
    statements: Sequence[MassStatement], lines: Sequence[TrendLine], total: TrendLine
) -> str:
    """Sentences for a review: growth of the allowance first stated, new lines, predicted mass."""
    first, last = statements[0], statements[-1]
    change = math.fsum(total.changes)
    allowed = total.growth[0] or 0.0
    grown = "grown" if change >= 0.0 else "fallen"
    mass = f"{rounded(abs(change), 2)} kg"
    ends = f"{first.letter} ({first.label}) to {last.letter} ({last.label})"
    said = f"From {ends} basic mass has {grown} by {mass}"
    used = total.used[-1]
    if change < 0.0:
        said += f"; {rounded(allowed, 2)} kg of growth allowance were first stated"
    elif used is None:
        said += "; no growth allowance was first stated"
    else:
        share = f"{rounded(100.0 * used, 0, 'up')} %"
        said += f" of the {rounded(allowed, 2)} kg of growth allowance first stated ({share})"
    parts = [f"{said}."]
    for word, masses in (
        ("new", [line.basic[-1] for line in lines if line.basic[0] is None]),
        ("gone", [line.basic[0] for line in lines if line.basic[-1] is None]),
    ):
        there = [mass for mass in masses if mass is not None]
        if there:
            plural = "line is" if len(there) == 1 else "lines are"
            parts.append(f"{len(there)} {plural} {word}, {rounded(math.fsum(there), 2)} kg.")
    before, after = (total.predicted[place] or 0.0 for place in (0, -1))
    over = after - before
    if abs(over) < _NEGLIGIBLE:
        parts.append(f"Predicted mass stays at {rounded(before, 2)} kg.")
    else:
        side = "above" if over > 0.0 else "below"
        parts.append(
            f"Predicted mass is {rounded(after, 2)} kg, {rounded(abs(over), 2)} kg {side} the "
            f"{rounded(before, 2)} kg first predicted."
        )
    return " ".join(parts)


def _notes(statements: Sequence[MassStatement]) -> Iterator[str]:
    versions = {one.version for one in statements}
    if len(versions) > 1 or "" in versions:
        listed = ", ".join(f"{one.letter} {one.version or 'not known'}" for one in statements)
        yield (
            f"Versions differ ({listed}): masses that are computed can differ because the models "
            "do. Assess the stage files with one version to see the design alone."
        )
