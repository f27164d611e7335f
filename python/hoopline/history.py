"""The ascent of one design, step by step."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from hoopline.errors import InputError
from hoopline.schema import Field, nearest, quoted


@dataclass(frozen=True, slots=True)
class History:
    """What `Stage.history` returns: one row per step of the ascent, from lift-off to apogee. SI.

    The steps are those that the assessment flew, so that the last row has the apogee bit for bit,
    and the last row of the phase "burn" the speed and altitude at burnout. The end of thrust stands
    twice, with the thrust that ends and without. The largest axial acceleration of the rows is
    the result; the peaks of Mach number and dynamic pressure are taken inside a step, so that the
    largest row may lie below them, by less than 0.1 % on the packaged examples.

    Attributes
    ----------
    fields
        What each column is, by name.
    columns
        The columns, by name: time, altitude, altitude_above_sea_level, downrange, speed,
        path_angle, mach, dynamic_pressure, thrust, drag, mass, axial_acceleration. Arrays that
        cannot be written to.
    phase
        "rail", "burn" or "coast", by row.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> history = stage.history()
    >>> bool(history["altitude"][-1] == stage.assess().ascent.apogee)
    True
    >>> history.units["dynamic_pressure"]
    'Pa'
    """

    fields: Mapping[str, Field]
    columns: Mapping[str, NDArray[np.float64]]
    phase: tuple[str, ...]

    @classmethod
    def of(cls, text: str) -> Self:
        """Read what the compiled module wrote."""
        content = json.loads(text)
        fields, columns = sheet(content)
        return cls(MappingProxyType(fields), MappingProxyType(columns), tuple(content["phase"]))

    @property
    def units(self) -> dict[str, str]:
        """SI unit of each column, by name."""
        return {name: field.unit for name, field in self.fields.items()}

    def __getitem__(self, name: str) -> NDArray[np.float64]:
        if name not in self.columns:
            raise InputError(f"no column {quoted(name)} in a history{nearest(name, self.columns)}")
        return self.columns[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.columns)

    def __len__(self) -> int:
        return len(self.phase)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, History):
            return NotImplemented
        return (
            self.phase == other.phase
            and list(self) == list(other)
            and all(np.array_equal(self[name], other[name]) for name in self)
        )

    __hash__ = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return _restore, (dict(self.fields), dict(self.columns), self.phase)


def sheet(content: Mapping[str, Any]) -> tuple[dict[str, Field], dict[str, NDArray[np.float64]]]:
    """Fields and columns of a table of the compiled module."""
    fields, columns = {}, {}
    for column in content["columns"]:
        field = Field.of(column["field"])
        fields[field.path] = field
        columns[field.path] = _frozen(np.array(column["values"], dtype=np.float64))
    return fields, columns


def _frozen(values: NDArray[np.float64]) -> NDArray[np.float64]:
    values.flags.writeable = False
    return values


def _restore(
    fields: dict[str, Field], columns: dict[str, NDArray[np.float64]], phase: tuple[str, ...]
) -> History:
    columns = {name: _frozen(values) for name, values in columns.items()}
    return History(MappingProxyType(fields), MappingProxyType(columns), phase)
