"""Where a result comes from: terms, steps, sources, and what the model leaves out."""

import json
from dataclasses import asdict, dataclass
from typing import Any, Self


@dataclass(frozen=True, slots=True)
class Term:
    """A leaf of an explanation: an input, another result, or a number read from a table.

    Attributes
    ----------
    symbol
        Name in the formulas.
    path
        Dotted path of the input or result; none for a number that is neither.
    doc
        What it is.
    value
        Value in SI, as the formulas take it.
    unit
        SI unit.
    shown
        The value as printed, with its unit.
    origin
        Where it comes from: "given", "on record: ...", "by maturity: ...", "derived from what is
        stated", "left out, changes nothing", "result", or in words.
    source
        Published source of the value; empty if there is none.
    ask
        Path to explain next, if it is a result.
    """

    symbol: str
    path: str | None
    doc: str
    value: float
    unit: str
    shown: str
    origin: str
    source: str
    ask: str | None


@dataclass(frozen=True, slots=True)
class Step:
    """A formula and what it gives.

    Attributes
    ----------
    symbol
        Name of what it gives.
    formula
        Arithmetic in Python's syntax over the symbols of terms and earlier steps, in SI.
    doc
        What it gives.
    value
        Value in SI.
    unit
        SI unit.
    shown
        The value as printed, with its unit.
    source
        Source of the equation.
    """

    symbol: str
    formula: str
    doc: str
    value: float
    unit: str
    shown: str
    source: str


@dataclass(frozen=True, slots=True)
class Method:
    """How a result without a closed formula comes about.

    Attributes
    ----------
    text
        Equations, and where along the way the result is taken.
    source
        Source of the equations.
    """

    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Factor:
    """The rule set's factor that enters.

    Attributes
    ----------
    path
        Path of the factor.
    value
        The factor.
    rule_set
        Name of the rule set.
    source
        Document, edition and paragraph; empty for factors of one's own without a source.
    scope
        What the rule set covers; empty for factors of one's own.
    """

    path: str
    value: float
    rule_set: str
    source: str
    scope: str


@dataclass(frozen=True, slots=True)
class NextMargin:
    """Where a margin stands among the others.

    Attributes
    ----------
    governs
        Whether the margin explained is the smallest.
    path
        Path of the next-smallest margin; none if this one is the largest.
    value
        The next-smallest margin.
    """

    governs: bool
    path: str | None
    value: float | None


@dataclass(frozen=True, slots=True)
class KnownError:
    """What the model leaves out.

    Attributes
    ----------
    model
        Row of the table of models in the README.
    text
        One sentence.
    """

    model: str
    text: str


@dataclass(frozen=True, slots=True)
class Explanation:
    """Where a result comes from, as `Assessment.explain` gives it.

    `print(explanation)` shows a page of a calculation; a notebook shows tables.

    Attributes
    ----------
    path
        Dotted path of the result.
    doc
        What it is.
    value
        Value in SI.
    unit
        SI unit.
    shown
        The value with five significant digits and its unit.
    terms
        Leaves, in the order they are needed.
    steps
        Formulas in the order of the calculation. The last gives the result, unless there is a
        method.
    functions
        What the functions in the formulas compute that are no arithmetic, and whose they are.
    method
        How a result without a closed formula comes about, or none.
    known_error
        What the model leaves out.
    factor
        The rule set's factor that enters, or none.
    next
        For a margin, where it stands among the others.
    cautions
        Cautions of the assessment.
    safety
        What the numbers do not show.
    name, digest, version
        Name and digest of the stage, version of hoopline.

    Examples
    --------
    >>> import hoopline as hl
    >>> assessment = hl.Stage.load(hl.example("petrel_slim")).assess()
    >>> explanation = assessment.explain("pressures.burst")
    >>> [term.symbol for term in explanation.terms]
    ['meop', 'burst_factor']
    >>> explanation.factor.rule_set
    'competition guide, overwrapped'
    """

    path: str
    doc: str
    value: float
    unit: str
    shown: str
    terms: tuple[Term, ...]
    steps: tuple[Step, ...]
    functions: tuple[str, ...]
    method: Method | None
    known_error: KnownError
    factor: Factor | None
    next: NextMargin | None
    cautions: tuple[str, ...]
    safety: str
    name: str
    digest: str
    version: str

    @classmethod
    def of(cls, text: str) -> Self:
        """Read what the compiled stage says about a result, JSON text."""
        content: dict[str, Any] = json.loads(text)
        method, factor, following = (content[key] for key in ("method", "factor", "next"))
        return cls(
            path=content["path"],
            doc=content["doc"],
            value=content["value"],
            unit=content["unit"],
            shown=content["shown"],
            terms=tuple(Term(**row) for row in content["terms"]),
            steps=tuple(Step(**row) for row in content["steps"]),
            functions=tuple(content["functions"]),
            method=None if method is None else Method(**method),
            known_error=KnownError(**content["known_error"]),
            factor=None if factor is None else Factor(**factor),
            next=None if following is None else NextMargin(**following),
            cautions=tuple(content["cautions"]),
            safety=content["safety"],
            name=content["name"],
            digest=content["digest"],
            version=content["version"],
        )

    def to_json(self) -> str:
        """Return the explanation as JSON text, SI units."""
        return json.dumps(asdict(self), indent=2, ensure_ascii=False)

    def __repr__(self) -> str:
        return f"<Explanation of {self.path} in {self.name!r}, digest {self.digest[:12]}>"

    def __str__(self) -> str:
        from hoopline.explanation.text import render

        return render(self)

    def _repr_html_(self) -> str:
        from hoopline.explanation.page import render

        return render(self)
