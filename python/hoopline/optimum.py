"""What a search for the best design found."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from itertools import product
from typing import Any, Literal

from hoopline import _core, schema
from hoopline.errors import HooplineError
from hoopline.rounding import Direction, significant
from hoopline.stage import Stage
from hoopline.text import shown

Status = Literal["meets all bounds", "violates bounds", "no results"]

# A shortfall that only the last bits of a rounded input bring, as in the requirement matrix.
_SLACK = 1e-12

# Most digits a rounded input is printed with.
_DIGITS = 9
_NEAREST: Direction = "nearest"
_AWAY: tuple[Direction, Direction] = ("up", "down")


@dataclass(frozen=True, slots=True)
class Held:
    """A bound of a search, with what a design reaches.

    Attributes
    ----------
    path
        Path of the result.
    side
        "at_least" or "at_most".
    bound, value
        The bound and the result in SI.
    scale
        What room is measured by: the bound's size, of a margin held to L the strength 1 + L.
    share
        Room to the bound over that scale; of a margin M held to L it is (1 + M) / (1 + L) - 1.
        Negative outside.
    reached
        Whether the design lies on the bound.
    text
        The bound in words.
    """

    path: str
    side: Literal["at_least", "at_most"]
    bound: float
    value: float
    scale: float
    share: float
    reached: bool
    text: str

    @property
    def shown(self) -> str:
        """The result as printed."""
        return shown(self.path, self.value)

    def room(self, value: Any) -> Any:
        """How far results lie inside, as a share of the bound: a number or an array."""
        return self._slack(value) / self.scale

    def met_by(self, value: float) -> bool:
        """Whether a result lies on the right side of the bound."""
        met: bool = self._slack(value) >= -_SLACK * abs(self.bound)
        return met

    def _slack(self, value: Any) -> Any:
        return value - self.bound if self.side == "at_least" else self.bound - value


@dataclass(frozen=True, slots=True)
class Candidate:
    """A design that a search ended at.

    Attributes
    ----------
    inputs
        {path: value}: as listed, or a number in SI for what varied between limits.
    status
        "meets all bounds"; "violates bounds" for the least violated design of a combination of
        which none meets them; "no results" for a combination without any.
    goal
        What was made small or large, in SI; None without results.
    bounds
        Every bound, the nearest or most violated one first.
    on_limit
        {path: "lower" or "upper"} of what lies on a limit of its range.
    reason
        Why there are no results.
    """

    inputs: Mapping[str, Any]
    status: Status
    goal: float | None
    bounds: tuple[Held, ...]
    on_limit: Mapping[str, str]
    reason: str | None
    _base: Stage = field(repr=False)
    _ranges: Mapping[str, tuple[float, float]] = field(repr=False)

    @property
    def stage(self) -> Stage:
        """The stage with these inputs, exactly.

        Raises
        ------
        InputError
            The combination cannot be built; the message says why.
        """
        return self._base.replace(self.inputs)

    @property
    def governing(self) -> tuple[Held, ...]:
        """The bounds the design lies on or, where it violates some, those violated."""
        if self.status == "violates bounds":
            return tuple(held for held in self.bounds if held.share < 0.0)
        return tuple(held for held in self.bounds if held.reached)

    def rounded(self, digits: int = 4) -> dict[str, str]:
        """Return the inputs as texts of few digits that still meet every bound.

        Numbers that varied between limits are rounded to the nearest, or up and down in every
        combination, until they lie within these limits and the design still meets all bounds; where
        none does, to one digit more, up to nine, and at last left with all their digits. Listed
        values stay as they are.

        Parameters
        ----------
        digits
            Significant digits, in the printed unit.
        """
        values = {path: str(value) for path, value in self.inputs.items()}
        ranged = [path for path in self._ranges if path in self.inputs]
        for count in (*range(digits, _DIGITS), _DIGITS):
            for ways in ((_NEAREST,) * len(ranged), *product(_AWAY, repeat=len(ranged))):
                pairs = zip(ranged, ways, strict=True)
                texts = {path: _text(path, self.inputs[path], count, way) for path, way in pairs}
                if self._between(texts) and self._meets(dict(self.inputs) | texts):
                    return values | texts
        return values | {path: _whole(path, self.inputs[path]) for path in ranged}

    def _between(self, texts: Mapping[str, str]) -> bool:
        """Whether what varied still lies between its limits."""
        for path, text in texts.items():
            lower, upper = self._ranges[path]
            slack = _SLACK * max(abs(lower), abs(upper))
            if not lower - slack <= _read(path, text) <= upper + slack:
                return False
        return True

    def _meets(self, inputs: Mapping[str, Any]) -> bool:
        if self.status != "meets all bounds":
            return True
        try:
            results = self._base.replace(inputs).assess().results
        except HooplineError:
            return False
        return all(held.met_by(results[held.path]) for held in self.bounds)

    def __reduce__(self) -> tuple[type["Candidate"], tuple[Any, ...]]:
        values = (self.inputs, self.status, self.goal, self.bounds, self.on_limit, self.reason)
        return type(self), (*values, self._base, self._ranges)


@dataclass(frozen=True, slots=True)
class Optimum:
    """What `optimise` returns: the best design, its runners-up, and what stands in the way.

    Attributes
    ----------
    stage
        The stage the search began from.
    goal
        Path of the result that was made small or large.
    minimise
        Whether small is good.
    vary
        {path: (lower, upper) or list of values}, as given.
    candidates
        Every design the search ended at: those that meet all bounds by the goal, then the violated
        ones, the least violated first, then combinations without results.
    next
        Where only listed values varied: the least violated of the designs that would be better by
        the goal than the best one; else None.
    never
        Bounds, in words, that no design looked at meets, whatever else holds.
    conflict
        Where there are none such: bounds that no design looked at meets together, though every
        smaller choice of them is met by some. Empty where a design meets all.
    evaluations
        How many designs were computed.
    safety
        The paragraph that belongs beside every result.
    """

    stage: Stage
    goal: str
    minimise: bool
    vary: Mapping[str, tuple[Any, Any] | list[Any]]
    candidates: tuple[Candidate, ...]
    next: Candidate | None
    never: tuple[str, ...]
    conflict: tuple[str, ...]
    evaluations: int
    safety: str

    @classmethod
    def of(
        cls,
        text: str,
        stage: Stage,
        goal: str,
        vary: Mapping[str, tuple[Any, Any] | list[Any]],
        *,
        minimise: bool,
    ) -> "Optimum":
        """Read what the compiled search wrote."""
        content = json.loads(text)
        ranges = {path: (lower, upper) for path, (lower, upper) in content["ranges"]}
        candidates = tuple(_candidate(row, stage, ranges) for row in content["candidates"])
        following = content["next"]
        return cls(
            stage=stage,
            goal=goal,
            minimise=minimise,
            vary=vary,
            candidates=candidates,
            next=None if following is None else candidates[following],
            never=tuple(content["never"]),
            conflict=tuple(content["conflict"]),
            evaluations=content["evaluations"],
            safety=content["safety"],
        )

    @property
    def feasible(self) -> bool:
        """Whether a design meets every bound."""
        return self.best.status == "meets all bounds"

    @property
    def best(self) -> Candidate:
        """The best design; where none meets all bounds, the least violated one."""
        return self.candidates[0]

    @property
    def runners_up(self) -> tuple[Candidate, ...]:
        """The other designs, best first."""
        return self.candidates[1:]

    def to_json(self) -> str:
        """Return everything as JSON, numbers in SI."""
        candidates = []
        for candidate in self.candidates:
            row = {name: getattr(candidate, name) for name in _PRINTED}
            candidates.append(row | {"bounds": [asdict(held) for held in candidate.bounds]})
        return json.dumps(
            {
                "stage": self.stage.name,
                "digest": self.stage.digest,
                "version": _core.version,
                "goal": self.goal,
                "minimise": self.minimise,
                "vary": self.vary,
                "feasible": self.feasible,
                "best": self.best.rounded(),
                "candidates": candidates,
                "next": None if self.next is None else self.candidates.index(self.next),
                "never": self.never,
                "conflict": self.conflict,
                "evaluations": self.evaluations,
                "safety": self.safety,
            },
            indent=2,
        )

    def __repr__(self) -> str:
        word = "smallest" if self.minimise else "largest"
        return f"<Optimum of {self.stage.name!r}, {word} {self.goal}: {self.best.status}>"

    def __str__(self) -> str:
        from hoopline.optimum_text import render

        return render(self)

    def _repr_html_(self) -> str:
        from hoopline.optimum_page import render

        return render(self)


_PRINTED = ("inputs", "status", "goal", "on_limit", "reason")


def _candidate(
    row: Mapping[str, Any], stage: Stage, ranges: Mapping[str, tuple[float, float]]
) -> Candidate:
    return Candidate(
        inputs=dict(row["inputs"]),
        status=row["status"],
        goal=row["goal"],
        bounds=tuple(Held(**held) for held in row["bounds"]),
        on_limit={limit["path"]: limit["side"] for limit in row["on_limit"]},
        reason=row["reason"],
        _base=stage,
        _ranges=ranges,
    )


def _text(path: str, value: float, digits: int, direction: Direction) -> str:
    known = schema.inputs()[path]
    return known.with_unit(significant(known.printed(value), digits, direction))


def _whole(path: str, value: float) -> str:
    known = schema.inputs()[path]
    return known.with_unit(repr(known.printed(value)))


def _read(path: str, text: str) -> float:
    """Return the number in SI that a text of `_text` stands for."""
    known = schema.inputs()[path]
    return float(text.partition(" ")[0]) * known.printed_factor + known.printed_offset
