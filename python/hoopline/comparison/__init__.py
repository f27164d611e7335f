"""What differs between stages: inputs, choices, results, margins, requirements, masses."""

import json
import os
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path

from hoopline.assessment import Assessment
from hoopline.errors import DataError, InputError, kind_of
from hoopline.file_names import given_path, in_words
from hoopline.stage import Stage

_ENOUGH, _MOST = 2, 26
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Side:
    """One of the designs compared.

    Attributes
    ----------
    letter
        Its letter in every table; A is the reference.
    name, digest, version
        Name of the stage, digest of its inputs, version of hoopline that assessed it.
    schema
        Number of the layout of its assessment, or None for one saved before layouts had numbers.
    met
        Whether it meets all its margins and no requirement is found not met.
    negative
        Paths of its negative margins, smallest first.
    not_met
        Short names of the requirements that are not met.
    """

    letter: str
    name: str
    digest: str
    version: str
    schema: int | None
    met: bool
    negative: tuple[str, ...]
    not_met: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Numbers:
    """A number that differs: an input, a result or a margin.

    Attributes
    ----------
    path
        Dotted path.
    unit
        SI unit.
    values
        The number in SI, by side; None where a side does not have it.
    shown
        As printed, with its unit; empty where a side does not have it.
    differences
        Side less reference as printed, by side after the first; empty where one of them is missing.
    relative
        The same over the size of the reference; None where that means nothing.
    note
        "only in B" and the like, "computed in B" for an input that follows from others there, the
        change of sign of a margin, or empty.
    """

    path: str
    unit: str
    values: tuple[float | None, ...]
    shown: tuple[str, ...]
    differences: tuple[str, ...]
    relative: tuple[float | None, ...]
    note: str


@dataclass(frozen=True, slots=True)
class Words:
    """A choice, a row on record, a table, a rule, a requirement's status or what governs.

    Attributes
    ----------
    path
        Dotted path, or the requirement's short name.
    words
        The word by side; empty where a side does not have it.
    note
        "only in B" and the like, or the requirement's text.
    """

    path: str
    words: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution and the sides it holds for.

    Attributes
    ----------
    text
        The caution. Where sides differ in a number, each one's stands with its letter:
        "a static margin of A 0.8 (B 0.7) calibres".
    holds
        Whether a side has it, by side.
    """

    text: str
    holds: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Mass:
    """A line of the mass statements, matched by name.

    Attributes
    ----------
    name, group
        What the line is, and the part of the vehicle.
    predicted
        Predicted mass by side, kg; None where a side does not have the line.
    differences
        Side less reference, kg, by side after the first; a line that is missing counts as zero, so
        that the differences add up to that of the total.
    """

    name: str
    group: str
    predicted: tuple[float | None, ...]
    differences: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """What `compare` returns: everything that differs, side by side. It does not change.

    `print` it for text; `markdown()` and `to_json()` give the same for other readers, and
    `hl.plot.mass_waterfall` draws the masses.

    Attributes
    ----------
    sides
        The designs; the first is the reference.
    verdict
        What it comes to, in one sentence.
    notes
        What a reader must know about unequal versions and layouts; mostly empty.
    inputs
        Inputs that differ: first those that are given or on record, then those that are computed
        from others on some side.
    choices, on_record, tables, follow
        Choices, rows on record, tables and follow rules that differ.
    results
        Results that differ as printed, or all.
    margins
        All margins side by side, those of the reference first, smallest first.
    governing
        Path of the smallest margin by side; empty for a stage without margins.
    requirements
        Requirements whose status, response or limits differ; limits stand beside if they do.
    cautions
        All cautions, with the sides they hold for.
    masses
        Lines of the mass statements without propellant.
    total
        The predicted masses, which the lines add up to.
    propellant
        Propellant at ignition, line by line.
    lift_off
        The masses at lift-off: predicted mass plus propellant.
    safety
        What the numbers do not show.
    everything
        Whether results that do not differ as printed are listed too.
    """

    sides: tuple[Side, ...]
    verdict: str
    notes: tuple[str, ...]
    inputs: tuple[Numbers, ...]
    choices: tuple[Words, ...]
    on_record: tuple[Words, ...]
    tables: tuple[Words, ...]
    follow: tuple[Words, ...]
    results: tuple[Numbers, ...]
    margins: tuple[Numbers, ...]
    governing: tuple[str, ...]
    requirements: tuple[Words, ...]
    cautions: tuple[Caution, ...]
    masses: tuple[Mass, ...]
    total: Mass
    propellant: tuple[Mass, ...]
    lift_off: Mass
    safety: str
    everything: bool

    def markdown(self) -> str:
        """Return the comparison as GitHub-flavoured Markdown."""
        from hoopline.comparison.page import markdown

        return markdown(self)

    def to_json(self) -> str:
        """Return the comparison as JSON text, SI units."""
        return json.dumps(asdict(self), indent=2, ensure_ascii=False)

    def __str__(self) -> str:
        from hoopline.comparison.text import render

        return render(self)

    def __repr__(self) -> str:
        named = ", ".join(f"{side.letter} {side.name!r}" for side in self.sides)
        return f"<Comparison of {named}>"

    def _repr_html_(self) -> str:
        from hoopline.comparison.page import html

        return html(self)


Comparable = Stage | Assessment | str | os.PathLike[str]


def compare(*designs: Comparable, everything: bool = False) -> Comparison:
    """Compare two or more designs; the first is the reference.

    Parameters
    ----------
    *designs
        Stages, assessments, or paths of stage files (.toml) and saved assessments (.json, what
        `hoopline assess FILE --json` prints). At most 26.
    everything
        Whether to list results too that do not differ as printed.

    Returns
    -------
    Comparison
        What differs. Differences are taken before rounding and rounded to the nearest; printed
        values themselves round towards caution. What only one side has is listed as such; nothing
        is left out because versions differ.

    Raises
    ------
    InputError
        There are fewer than two designs, one cannot be read or evaluated; the message says which.
    DataError
        A file cannot be opened.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> longer = stage.replace({"rail.length": "10 m"})
    >>> found = hl.compare(stage, longer)
    >>> [(row.path, row.shown) for row in found.inputs]
    [('rail.length', ('8000 mm', '10000 mm'))]
    """
    if not _ENOUGH <= len(designs) <= _MOST:
        raise InputError(f"compare takes {_ENOUGH} to {_MOST} designs, not {len(designs)}")
    from hoopline.comparison.rows import build

    return build([_assessed(design) for design in designs], everything=everything)


def _assessed(design: Comparable) -> Assessment:
    if isinstance(design, Assessment):
        return design
    if isinstance(design, Stage):
        return design.assess()
    if not isinstance(design, str | os.PathLike):
        raise InputError(
            f"compare takes stages, assessments and paths of files, not {kind_of(design)}"
        )
    path = given_path("design", design)
    if path.suffix == ".toml":
        return _named(path, lambda: Stage.load(path).assess())
    if path.suffix == ".json":
        return _named(path, lambda: Assessment.from_json(_content(path)))
    raise InputError(f'"{path}" is neither a stage file (.toml) nor a saved assessment (.json)')


def _named(path: Path, make: Callable[[], Assessment]) -> Assessment:
    try:
        return make()
    except InputError as error:
        if str(path) in str(error):
            raise
        raise InputError(f"{path}: {error}", error.problems) from error


def _content(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")  # some shells put a mark before
    except UnicodeDecodeError as error:
        raise InputError(f"not a saved assessment: no UTF-8 ({error.reason})") from None
    except OSError as error:
        raise DataError(in_words(error, path)) from error
