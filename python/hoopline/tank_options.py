"""What a search for the lightest tank found: the ranked options, and how every option stands."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
from numpy.typing import NDArray

from hoopline import _core, schema
from hoopline.errors import InputError
from hoopline.optimum import Held
from hoopline.stage import Stage
from hoopline.sweeping import Units
from hoopline.text import shown

if TYPE_CHECKING:
    import pandas as pd

Status = Literal["meets all bounds", "heavier", "screened", "violates bounds", "no results"]
Floats = NDArray[np.float64]

# By the first number of a verdict; the first kind is of options not judged yet and never left.
_STATUS: tuple[Status, ...] = (
    "no results",
    "meets all bounds",
    "heavier",
    "screened",
    "violates bounds",
    "no results",
    "no results",
)
_MEETS, _HEAVIER, _SCREENED, _VIOLATES, _FAULT, _UNBUILDABLE = range(1, 7)


@dataclass(frozen=True, slots=True)
class TankOption:
    """One option of a search for the lightest tank.

    Attributes
    ----------
    row
        Its number, from 0: the row of `LightestTank.to_pandas`.
    inputs
        {path or name: value or name of the option, as given}.
    changes
        {path: value} of all it changes.
    status
        "meets all bounds" for the winner and its runners-up; "heavier": no screening condition
        rejects it, and it is heavier than these; "screened" by a condition that needs no flight;
        "violates bounds" by the whole computation; "no results" if it cannot be built, filled or
        flown.
    rank
        1 for the winner; None for what is not ranked.
    tank_mass
        Basic mass of the tank, kg; None where the tank cannot be built.
    worst
        The bound violated most, without loads in flight if it was screened; None if there is none.
    reason
        Why it is not ranked, in a sentence; empty if it is.
    bounds
        Every bound of a ranked option, the nearest first; else empty.
    results
        {path: value in SI} of a ranked option; else empty.
    """

    row: int
    inputs: Mapping[str, Any]
    changes: Mapping[str, Any]
    status: Status
    rank: int | None
    tank_mass: float | None
    worst: Held | None
    reason: str
    bounds: tuple[Held, ...]
    results: Mapping[str, float]
    _base: Stage = field(repr=False)

    @property
    def stage(self) -> Stage:
        """The stage with this option.

        Raises
        ------
        InputError
            It cannot be built; the message says why.
        """
        return self._base.replace(self.changes)

    @property
    def margins(self) -> dict[str, float]:
        """{path: margin} of a ranked option, the smallest first; else empty."""
        margins = {path: value for path, value in self.results.items() if _is_margin(path)}
        return dict(sorted(margins.items(), key=lambda item: item[1]))

    @property
    def governing(self) -> str | None:
        """Path of the smallest margin of a ranked option."""
        return next(iter(self.margins), None)


@dataclass(frozen=True, eq=False, repr=False)
class LightestTank:
    """What `lightest_tank` returns: the winner, its runners-up, and what stands in the others' way.

    Printed, it is a table of the ranked options and of those rejected, with the reason of each.

    Attributes
    ----------
    stage
        The stage that was varied.
    values
        {path or name: values, or names of options, as given}.
    changes
        {path or name: what each value changes, by path}.
    ranked
        The winner and its runners-up, the lightest first; empty if no option meets everything.
    bounds
        What every option is held to; value and share of each are empty here.
    flown
        For how many options the whole computation was run.
    safety
        The paragraph that belongs beside every result.
    """

    stage: Stage
    values: Mapping[str, tuple[Any, ...]]
    changes: Mapping[str, tuple[Mapping[str, Any], ...]]
    ranked: tuple[TankOption, ...]
    bounds: tuple[Held, ...]
    flown: int
    safety: str
    _reasons: tuple[str, ...]
    _verdicts: tuple[Floats, Floats, Floats]
    _masses: Floats

    def __post_init__(self) -> None:
        for array in (*self._verdicts, self._masses):
            array.flags.writeable = False

    @classmethod
    def of(
        cls,
        text: str,
        columns: Sequence[Floats],
        stage: Stage,
        values: Mapping[str, tuple[Any, ...]],
        changes: Mapping[str, tuple[Mapping[str, Any], ...]],
    ) -> "LightestTank":
        """Read what the compiled search wrote."""
        content = json.loads(text)
        kinds, numbers, amounts, masses = columns
        bare = cls(
            stage=stage,
            values=values,
            changes=changes,
            ranked=(),
            bounds=tuple(Held(**bound | _OPEN) for bound in content["bounds"]),
            flown=content["flown"],
            safety=content["safety"],
            _reasons=tuple(content["reasons"]),
            _verdicts=(kinds, numbers, amounts),
            _masses=masses,
        )
        ranked = tuple(bare._ranked(row) for row in content["ranked"])
        return cls(**{name: getattr(bare, name) for name in _FIELDS} | {"ranked": ranked})

    @property
    def winner(self) -> TankOption | None:
        """The lightest option that meets everything; None if none does."""
        return self.ranked[0] if self.ranked else None

    @property
    def runners_up(self) -> tuple[TankOption, ...]:
        """The next options that meet everything, the lightest first."""
        return self.ranked[1:]

    @property
    def shape(self) -> tuple[int, ...]:
        """Number of values along each path."""
        return tuple(len(given) for given in self.values.values())

    def __len__(self) -> int:
        return self._masses.size

    def __iter__(self) -> Iterator[TankOption]:
        return (self.option(row) for row in range(len(self)))

    @property
    def tank_mass(self) -> Floats:
        """Basic mass of each option's tank, kg; NaN where it cannot be built."""
        return self._masses

    @cached_property
    def status(self) -> NDArray[np.object_]:
        """Status of each option, in words."""
        words: NDArray[np.object_] = np.array(_STATUS, dtype=object)[self._kinds]
        words.flags.writeable = False
        return words

    @cached_property
    def rank(self) -> NDArray[np.int64]:
        """Rank of each option, from 1; 0 for what is not ranked."""
        numbers = np.where(self._kinds == _MEETS, self._verdicts[1], 0.0).astype(np.int64)
        numbers.flags.writeable = False
        return numbers

    @cached_property
    def room(self) -> Floats:
        """Room of each rejected option to the bound that rejects it, as a share; else NaN."""
        room = np.full(len(self), np.nan)
        for number, bound in enumerate(self.bounds):
            of_bound = self._rejected & (self._verdicts[1] == number)
            room[of_bound] = bound.room(self._verdicts[2][of_bound])
        room.flags.writeable = False
        return room

    def option(self, row: int) -> TankOption:
        """Return the option of a row, with the reason why it is not ranked.

        Parameters
        ----------
        row
            Its number, from 0; negative ones count from the end.
        """
        if not -len(self) <= row < len(self):
            raise InputError(f"there is no option {row}: there are {len(self)}, from 0")
        row = int(row) % len(self)
        rank = int(self.rank[row])
        if rank and len(self.ranked) >= rank:
            return self.ranked[rank - 1]
        return self._option(row, (), {})

    def tally(self) -> dict[str, int]:
        """Return how many options stand how: {"screened by margins.hoop_burst": 12, ...}.

        What meets all bounds comes first, then what is heavier, then the reasons of rejection, the
        most frequent first.
        """
        told: Floats = self._told[:2]
        pairs, counts = np.unique(told, axis=1, return_counts=True)
        tally: dict[str, int] = {}
        for kind, number, count in zip(*pairs, counts, strict=True):
            name = self._name(int(kind), number)
            tally[name] = tally.get(name, 0) + int(count)
        first = _STATUS[_MEETS:_SCREENED]
        order = sorted(tally, key=lambda name: (name not in first, name == "heavier", -tally[name]))
        return {name: tally[name] for name in order}

    def to_pandas(self, units: Units = "printed") -> "pd.DataFrame":
        """Return a table with one row per option.

        Parameters
        ----------
        units
            "printed" for the units of printed results, "si" for SI, of inputs and tank mass. The
            unit stands in each header.

        Returns
        -------
        pandas.DataFrame
            What varied, the mass of the tank, `rank` (missing where there is none), `status`,
            `bound` (the path that rejects it), `value` (what it reaches there, in SI) and `reason`.
        """
        import pandas as pd

        table = pd.DataFrame(self.table(units))
        # A rank of zero would sort before the winner.
        table["rank"] = table["rank"].astype("Int64").where(table["rank"] > 0)
        return table

    def table(self, units: Units = "printed") -> dict[str, NDArray[Any]]:
        """Return the columns of `to_pandas` as arrays."""
        if units not in ("printed", "si"):
            raise InputError(f'units are "printed" or "si", not {units!r}')
        columns: dict[str, NDArray[Any]] = {}
        places = np.unravel_index(np.arange(len(self)), self.shape)
        for (path, given), place in zip(self.values.items(), places, strict=True):
            header, values = self._axis(path, given, units)
            columns[header] = values[place]
        mass = schema.results()["tank.mass"]
        columns[mass.header(units)] = mass.in_units(self._masses, units)
        paths = np.array([*(bound.path for bound in self.bounds), ""], dtype=object)
        number = np.where(self._rejected, self._verdicts[1], len(self.bounds)).astype(np.int64)
        return columns | {
            "rank": self.rank,
            "status": self.status,
            "bound": paths[number],
            "value": np.where(self._rejected, self._verdicts[2], np.nan),
            "reason": self._reasons_of_all(),
        }

    def text(self, rows: int = 40) -> str:
        """Return a table of the options: ranked, heavier, then rejected, the nearest first.

        Parameters
        ----------
        rows
            How many options to show at most.
        """
        from hoopline.tank_options_text import render

        return render(self, rows)

    def to_json(self) -> str:
        """Return ranked options, bounds and counts as JSON, numbers in SI."""
        ranked = [
            {name: getattr(option, name) for name in _PRINTED}
            | {"bounds": [asdict(held) for held in option.bounds]}
            for option in self.ranked
        ]
        vary = {path: [str(value) for value in given] for path, given in self.values.items()}
        return json.dumps(
            {
                "stage": self.stage.name,
                "digest": self.stage.digest,
                "version": _core.version,
                "vary": vary,
                "held": [bound.text for bound in self.bounds],
                "ranked": ranked,
                "tally": self.tally(),
                "flown": self.flown,
                "safety": self.safety,
            },
            indent=2,
        )

    def __repr__(self) -> str:
        varied = ", ".join(self.values)
        return (
            f"<LightestTank of {self.stage.name!r} over {varied}: {len(self)} options, "
            f"{len(self.ranked)} ranked>"
        )

    def __str__(self) -> str:
        return self.text()

    def _repr_html_(self) -> str:
        from hoopline.tank_options_text import page

        return page(self)

    def __reduce__(self) -> tuple[type["LightestTank"], tuple[Any, ...]]:
        return type(self), tuple(getattr(self, name) for name in _FIELDS)

    @property
    def _kinds(self) -> NDArray[np.int64]:
        return self._verdicts[0].astype(np.int64)

    @property
    def _rejected(self) -> NDArray[np.bool_]:
        """True where a bound rejects an option."""
        return np.isin(self._verdicts[0], (_SCREENED, _VIOLATES))

    @property
    def _told(self) -> Floats:
        """The verdicts with zero where they hold no number, so that equal ones are equal."""
        return np.nan_to_num(np.stack(self._verdicts))

    def _reasons_of_all(self) -> NDArray[np.object_]:
        """Return the reason of each option; each sentence is made once."""
        verdicts, place = np.unique(self._told, axis=1, return_inverse=True)
        sentences = [self._sentence(*verdict) for verdict in verdicts.T.tolist()]
        return np.array(sentences, dtype=object)[place.ravel()]

    def _axis(self, path: str, given: tuple[Any, ...], units: Units) -> tuple[str, NDArray[Any]]:
        known = schema.inputs().get(path)
        if known is None or path not in self.changes[path][0]:
            return path, np.array(given, dtype=object)
        numbers = [changes[path] for changes in self.changes[path]]
        si = [
            _core.si(path, value) if isinstance(value, str) else float(value) for value in numbers
        ]
        return known.header(units), known.in_units(np.array(si), units)

    def _ranked(self, row: Mapping[str, Any]) -> TankOption:
        held = tuple(Held(**bound) for bound in row["bounds"])
        return self._option(row["row"], held, dict(row["results"]))

    def _option(self, row: int, held: tuple[Held, ...], results: Mapping[str, float]) -> TankOption:
        place = [int(at) for at in np.unravel_index(row, self.shape)]
        chosen = list(zip(self.values, place, strict=True))
        changes: dict[str, Any] = {}
        for path, at in chosen:
            changes |= self.changes[path][at]
        mass = float(self._masses[row])
        return TankOption(
            row=row,
            inputs={path: self.values[path][at] for path, at in chosen},
            changes=changes,
            status=_STATUS[int(self._verdicts[0][row])],
            rank=int(self.rank[row]) or None,
            tank_mass=None if np.isnan(mass) else mass,
            worst=self._worst(row),
            reason=self._reason(row),
            bounds=held,
            results=results,
            _base=self.stage,
        )

    def _worst(self, row: int) -> Held | None:
        kind, number, value = (column[row] for column in self._verdicts)
        if int(kind) not in (_SCREENED, _VIOLATES):
            return None
        bound = self.bounds[int(number)]
        share = float(bound.room(value))
        content = {name: getattr(bound, name) for name in Held.__slots__}
        return Held(**content | {"value": float(value), "share": share})

    def _name(self, kind: int, number: float) -> str:
        """Return what a verdict is counted under."""
        if kind in (_SCREENED, _VIOLATES):
            word = "screened by" if kind == _SCREENED else "violates"
            return f"{word} {self.bounds[int(number)].path}"
        if kind == _FAULT:
            return f"no results: {_core.fault_word(int(number))}"
        if kind == _UNBUILDABLE:
            return "no results: cannot_be_built"
        return _STATUS[kind]

    def _reason(self, row: int) -> str:
        return self._sentence(*(float(column[row]) for column in self._verdicts))

    def _sentence(self, kind: float, number: float, value: float) -> str:
        if kind in (_SCREENED, _VIOLATES):
            bound = self.bounds[int(number)]
            limit = bound.text.removeprefix(f"{bound.path} ")
            return f"{self._name(int(kind), number)} {shown(bound.path, value)}, not {limit}"
        if kind == _FAULT:
            return _core.reason(int(number), value)
        if kind == _UNBUILDABLE:
            return self._reasons[int(number)]
        return "heavier than those ranked" if kind == _HEAVIER else ""


# What a bound by itself has in place of a result.
_OPEN = {"value": float("nan"), "share": float("nan")}
_FIELDS = tuple(LightestTank.__dataclass_fields__)
_PRINTED = ("row", "rank", "inputs", "changes", "tank_mass", "governing", "margins", "results")


def _is_margin(path: str) -> bool:
    return path.startswith("margins.")
