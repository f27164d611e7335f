"""The parts of an assessment: groups of results, margins, lines and groups of mass, model bands."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, NoReturn

from hoopline.schema import unknown_result


@dataclass(frozen=True, slots=True)
class Margin:
    """A margin of safety: allowable / (factor x load) - 1.

    Attributes
    ----------
    path
        Dotted path, such as "margins.hoop_burst".
    value
        The margin; negative where the requirement is not met.
    doc
        What is checked against what.
    """

    path: str
    value: float
    doc: str


@dataclass(frozen=True, slots=True)
class MassLine:
    """A line of the mass statement.

    Attributes
    ----------
    name
        What the line is.
    group
        The part of the vehicle: tank, airframe, motor, item, propellant.
    basic
        Basic mass, kg.
    growth
        Growth allowance, kg.
    predicted
        Basic mass plus growth allowance, kg.
    station
        Centre of gravity, m from the nose tip.
    maturity
        The class of maturity that the growth allowance rests on, or none if it is stated.
    shape
        What the part is taken for in the moments of inertia; None in an assessment saved before.
    own_pitch_inertia, own_roll_inertia
        Moments of inertia of its predicted mass about its own centre of gravity, across the axis
        and about it, kg m2; None in an assessment saved before there were any.
    """

    name: str
    group: str
    basic: float
    growth: float
    predicted: float
    station: float
    maturity: str | None
    shape: str | None = None
    own_pitch_inertia: float | None = None
    own_roll_inertia: float | None = None

    @property
    def growth_share(self) -> float | None:
        """Growth allowance as a share of basic mass; None for a line without mass."""
        return self.growth / self.basic if self.basic else None


@dataclass(frozen=True, slots=True)
class MassGroup:
    """The lines of one group of the mass statement, summed.

    Attributes
    ----------
    name
        The part of the vehicle: tank, airframe, motor, item.
    basic
        Basic mass, kg.
    growth
        Growth allowance, kg: the sum over the lines, which the flight counts.
    growth_root_sum_square
        Root of the sum of the lines' squared growth allowances, kg: by how much the group would
        scatter if the lines' allowances were scatter and independent of each other. They are
        expected growth, and lines of one class grow together: that it understates.
    predicted
        Basic mass plus growth allowance, kg.
    station
        Centre of gravity of the predicted mass, m from the nose tip; None for a group without mass.
    """

    name: str
    basic: float
    growth: float
    growth_root_sum_square: float
    predicted: float
    station: float | None


@dataclass(frozen=True, slots=True)
class Band:
    """What the known error of one model means for the apogee.

    Attributes
    ----------
    model
        Name of the model.
    input
        Path of the multiplier that spans its error.
    span
        Multiplier that lowers the apogee, multiplier that raises it.
    basis
        Where the span comes from.
    change
        Lowest and highest change of the apogee, m.
    """

    model: str
    input: str
    span: tuple[float, float]
    basis: str
    change: tuple[float, float]


class Group:
    """Results of one group, as attributes: `assessment.tank.mass`. SI units."""

    __slots__ = ("_name", "_values")
    _name: str
    _values: Mapping[str, float]

    def __init__(self, name: str, values: Mapping[str, float]) -> None:
        object.__setattr__(self, "_name", name)
        object.__setattr__(self, "_values", MappingProxyType(dict(values)))

    def __getattr__(self, leaf: str) -> float:
        if leaf.startswith("__"):
            raise AttributeError(leaf)
        try:
            return self._values[leaf]
        except KeyError:
            paths = [f"{self._name}.{known}" for known in self._values]
            raise AttributeError(str(unknown_result(f"{self._name}.{leaf}", paths))) from None

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError("results do not change")

    def __dir__(self) -> list[str]:
        return [*self._values]

    def __repr__(self) -> str:
        return f"<{self._name}: {', '.join(self._values)}>"

    def __reduce__(self) -> tuple[Any, tuple[str, dict[str, float]]]:
        return type(self), (self._name, dict(self._values))


class Margins(Group):
    """Margins of safety as attributes, and in order: iterating gives the smallest first."""

    __slots__ = ("_sorted",)
    _sorted: tuple[Margin, ...]

    def __init__(self, margins: tuple[Margin, ...]) -> None:
        super().__init__(
            "margins", {margin.path.removeprefix("margins."): margin.value for margin in margins}
        )
        object.__setattr__(self, "_sorted", margins)

    def __iter__(self) -> Iterator[Margin]:
        return iter(self._sorted)

    def __len__(self) -> int:
        return len(self._sorted)

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return type(self), (self._sorted,)
