"""A full grid of designs around a stage."""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
from numpy.typing import NDArray

from hoopline import _core, schema, varied
from hoopline.errors import InputError
from hoopline.given import plain_value
from hoopline.stage import Stage

if TYPE_CHECKING:
    import pandas as pd
    import xarray as xr

Units = Literal["printed", "si"]


@dataclass(frozen=True, slots=True)
class FailedCase:
    """A case of a sweep that has no results.

    Attributes
    ----------
    index
        Position in the grid.
    inputs
        {path: value as given} of the case.
    word
        Short name of the reason, such as "load_does_not_fit".
    reason
        The reason in a sentence, with what to change.
    """

    index: tuple[int, ...]
    inputs: Mapping[str, Any]
    word: str
    reason: str


@dataclass(frozen=True, slots=True)
class Case:
    """One sound case of a sweep.

    Attributes
    ----------
    index
        Position in the grid.
    inputs
        {path: value as given} of the case.
    results
        {path: value in SI} of the case.
    """

    index: tuple[int, ...]
    inputs: Mapping[str, Any]
    results: Mapping[str, float]

    def __getitem__(self, path: str) -> float:
        if path not in self.results:
            raise KeyError(str(schema.unknown_result(path, self.results)))
        return self.results[path]


class Sweep:
    """What `sweep` returns: results in the shape of the grid, one axis per varied path.

    `sweep["ascent.apogee"]` is an array in SI. Cases without results hold NaN in every array, are
    False in `ok`, and tell why in `reasons()`.

    Attributes
    ----------
    stage
        The stage that was varied.
    values
        {path: values as given}.
    status
        Number of the fault of each case, 0 for none.
    """

    def __init__(
        self,
        stage: Stage,
        values: Mapping[str, Sequence[Any]],
        columns: Mapping[str, NDArray[np.float64]],
        status: NDArray[np.float64],
        status_value: NDArray[np.float64],
    ) -> None:
        self.stage = stage
        self.values = {path: tuple(given) for path, given in values.items()}
        self._columns = {name: column.reshape(self.shape) for name, column in columns.items()}
        self._status_value = status_value.reshape(self.shape)
        self.status: NDArray[np.int64] = status.reshape(self.shape).astype(np.int64)
        for array in (*self._columns.values(), self._status_value, self.status):
            array.flags.writeable = False

    @property
    def shape(self) -> tuple[int, ...]:
        """Number of values along each axis."""
        return tuple(len(given) for given in self.values.values())

    @property
    def paths(self) -> tuple[str, ...]:
        """Paths of the results there are."""
        return tuple(self._columns)

    @property
    def margin_paths(self) -> tuple[str, ...]:
        """Paths of the margins there are."""
        return tuple(path for path in self._columns if path.startswith("margins."))

    @cached_property
    def axes(self) -> dict[str, NDArray[Any]]:
        """{path: values along that axis}: floats in SI, or words of a choice."""
        return {path: _axis(path, given) for path, given in self.values.items()}

    @property
    def ok(self) -> NDArray[np.bool_]:
        """True where a case has results."""
        return np.equal(self.status, 0)

    def __getitem__(self, path: str) -> NDArray[np.float64]:
        if path not in self._columns:
            raise KeyError(str(schema.unknown_result(path, self._columns)))
        return self._columns[path]

    def __len__(self) -> int:
        return self.status.size

    def __repr__(self) -> str:
        grid = " x ".join(str(length) for length in self.shape)
        failed = int((~self.ok).sum())
        varied = ", ".join(self.values)
        return f"<Sweep of {self.stage.name!r} over {varied}: {grid}, {failed} failed>"

    def __str__(self) -> str:
        return self.text()

    def text(self, paths: Sequence[str] = (), rows: int = 40) -> str:
        """Return a table of the cases under a header that says what follows what.

        Parameters
        ----------
        paths
            Results to show; by default length, propellant, tank mass, burnout altitude, apogee.
        rows
            How many cases to show at most.
        """
        from hoopline.listing import render

        return render(self, paths, rows)

    def reasons(self) -> list[FailedCase]:
        """Return every case that failed and why, in grid order."""
        failed = []
        for place in np.argwhere(~self.ok):
            index = tuple(int(position) for position in place)
            code, value = int(self.status[index]), float(self._status_value[index])
            word, reason = _core.fault_word(code), _core.reason(code, value)
            failed.append(FailedCase(index, self._inputs(index), word, reason))
        return failed

    def case(self, index: tuple[int, ...]) -> Case:
        """Return the case at a grid position; it must be sound."""
        if not self.ok[index]:
            code, value = int(self.status[index]), float(self._status_value[index])
            raise InputError(f"this case has no results: {_core.reason(code, value)}")
        results = {path: float(column[index]) for path, column in self._columns.items()}
        return Case(index, self._inputs(index), results)

    @property
    def margins_met(self) -> NDArray[np.bool_]:
        """For each case, whether it has results and no margin is negative."""
        return self.ok & ~(self.smallest_margin < 0.0)

    @cached_property
    def smallest_margin(self) -> NDArray[np.float64]:
        """Smallest margin of each case of those that apply; NaN for none and without results."""
        # The minimum that passes over NaN: a margin may apply to some cases only.
        smallest: NDArray[np.float64] = np.full(self.shape, np.nan)
        for path in self.margin_paths:
            np.fmin(smallest, self[path], out=smallest)
        smallest.flags.writeable = False
        return smallest

    def largest(self, path: str, *, margins_met: bool = False) -> Case:
        """Return the sound case with the largest result of a path.

        Parameters
        ----------
        path
            Path of a result.
        margins_met
            Whether to look only at cases of which no margin is negative.
        """
        return self._extreme(path, np.nanargmax, margins_met=margins_met)

    def smallest(self, path: str, *, margins_met: bool = False) -> Case:
        """Return the sound case with the smallest result of a path; as `largest` otherwise."""
        return self._extreme(path, np.nanargmin, margins_met=margins_met)

    def to_pandas(self, units: Units = "printed") -> "pd.DataFrame":
        """Return a table with one row per case, failed ones included.

        Parameters
        ----------
        units
            "printed" for the units of printed results, "si" for SI. The unit stands in each header.

        Returns
        -------
        pandas.DataFrame
            The axes, the results, `status` (a word, "ok" for sound cases) and `reason`.
        """
        import pandas as pd

        return pd.DataFrame(self.table(units))

    def table(self, units: Units = "printed") -> dict[str, NDArray[Any]]:
        """Return the columns of `to_pandas` as arrays."""
        if units not in ("printed", "si"):
            raise InputError(f'units are "printed" or "si", not {units!r}')
        columns: dict[str, NDArray[Any]] = {}
        grid = np.meshgrid(*self.axes.values(), indexing="ij")
        for (path, axis), values in zip(self.axes.items(), grid, strict=True):
            field = schema.inputs().get(path) if axis.dtype.kind == "f" else None
            header, column = _column(field, path, values, units)
            columns[header] = column
        for path, values in self._columns.items():
            header, column = _column(schema.results()[path], path, values, units)
            columns[header] = column
        word = np.full(len(self), "ok", dtype=object)
        reason = np.full(len(self), "", dtype=object)
        for failed in self.reasons():
            row = np.ravel_multi_index(failed.index, self.shape)
            word[row], reason[row] = failed.word, failed.reason
        return columns | {"status": word, "reason": reason}

    def to_xarray(self, units: Units = "si") -> "xr.Dataset":
        """Return a dataset whose dimensions are the varied paths; attributes hold unit and meaning.

        Parameters
        ----------
        units
            "si", or "printed" for the units of printed results.
        """
        import xarray as xr

        def attributes(field: schema.Field) -> dict[str, str]:
            return {"units": field.unit_in(units), "long_name": field.doc}

        coordinates, variables = {}, {}
        for path, axis in self.axes.items():
            known = schema.inputs().get(path) if axis.dtype.kind == "f" else None
            if known is None:
                coordinates[path] = xr.Variable((path,), axis)
            else:
                values = known.in_units(axis, units)
                coordinates[path] = xr.Variable((path,), values, attributes(known))
        for path, column in self._columns.items():
            field = schema.results()[path]
            values = field.in_units(column, units)
            variables[path] = xr.Variable(tuple(self.axes), values, attributes(field))
        variables["status"] = xr.Variable(tuple(self.axes), self.status)
        attrs = {"stage": self.stage.name, "digest": self.stage.digest, "version": _core.version}
        return xr.Dataset(variables, coordinates, attrs)

    def _inputs(self, index: tuple[int, ...]) -> dict[str, Any]:
        positions = zip(self.values.items(), index, strict=True)
        return {path: given[position] for (path, given), position in positions}

    def _extreme(
        self, path: str, choose: Callable[[NDArray[np.float64]], np.intp], *, margins_met: bool
    ) -> Case:
        column = np.where(self.margins_met if margins_met else self.ok, self[path], np.nan)
        if not np.isfinite(column).any():
            if margins_met and self.ok.any():
                raise InputError("no case of this sweep meets all margins")
            raise InputError(f"no case of this sweep has {path}; see reasons()")
        place = np.unravel_index(int(choose(column)), self.shape)
        return self.case(tuple(int(position) for position in place))


def sweep(
    stage: Stage,
    vary: Mapping[str, Sequence[Any]],
    *,
    threads: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Sweep:
    """Evaluate every combination of the given values.

    Parameters
    ----------
    stage
        The stage to vary; what is not varied stays, by its follow rules.
    vary
        {dotted path: values}; texts with a unit, SI numbers, quantities, words of a choice, or
        names of rows on record. The first path varies slowest.
    threads
        How many threads; all cores by default. The results do not depend on it.
    progress
        Called now and then with (cases done, cases in all).

    Returns
    -------
    Sweep
        Results in the shape of the grid, with the status of each case.

    Raises
    ------
    InputError
        A path is unknown or follows from others, or a value is out of range.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> grid = hl.sweep(stage, {"tank.outer_diameter": ["150 mm", "160 mm"]})
    >>> grid.shape
    (2,)
    """
    varied.check_paths(vary, '{"tank.outer_diameter": ["150 mm", "160 mm"]}')
    threads = varied.whole_number("threads", threads)
    values = {path: varied.values(path, given, "a list of values") for path, given in vary.items()}
    for path, given in values.items():
        if not given:
            raise InputError(f"{path} has no values to sweep over")
    axes = [[path, [plain_value(value, path) for value in given]] for path, given in values.items()]
    columns, status, status_value = _core.sweep(
        stage._compiled, json.dumps(axes), threads, progress
    )
    return Sweep(stage, values, columns, status, status_value)


def _axis(path: str, given: Sequence[Any]) -> NDArray[Any]:
    plain = [plain_value(value, path) for value in given]
    if path not in schema.inputs():
        return np.array(plain, dtype=object)
    return np.array(
        [_core.si(path, value) if isinstance(value, str) else float(value) for value in plain]
    )


def _column(
    field: schema.Field | None, path: str, values: NDArray[Any], units: Units
) -> tuple[str, NDArray[Any]]:
    if field is None:
        return path, values.ravel()
    return field.header(units), np.ravel(field.in_units(values, units))
