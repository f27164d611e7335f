"""Attachment fittings on the tank: loads, strengths and margins of each in each case."""

import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from hoopline.errors import InputError
from hoopline.history import sheet
from hoopline.rounding import Direction, margin, significant
from hoopline.schema import Field, nearest, quoted
from hoopline.text_table import text_table


@dataclass(frozen=True, slots=True)
class Fitting:
    """One attachment fitting of a tank, as `Stage.fittings` returns it.

    Forces and stresses are without the fitting factor, margins with it. SI.

    Attributes
    ----------
    name
        Its name.
    kind
        What holds it: "wound_in" or "bonded".
    cases
        The cases that load it: thrust, drag, ejection, handling; for a bonded one the proof test
        stands behind them.
    fields
        What each column is, by name.
    columns
        The columns, by name, a row for each case: axial_force, tangential_force, radial_force,
        tank_pressure, fastener_margin; under the wrap clamping_force, sliding_margin,
        lifting_margin; of glue growth_shear, transfer_shear, bond_margin. NaN for what this fitting
        does not have. Arrays that cannot be written to.
    clamping
        Force of the wrap on the pad without pressure and at MEOP, N; None for a bonded fitting.
    bridged_length
        Length on either side of the pad over which the wrap does not touch the liner, m; None for a
        bonded fitting.
    strain
        Axial and hoop strain of the wall since the fitting was put on: at MEOP, at proof pressure.
    end_slip
        How far the wall moves below the pad's ends at MEOP if the pad does not follow: along and
        around, m.
    mode
        What governs: "sliding", "lifting", "bond" or "fastener".
    case
        The case in which it does.
    margin
        That margin of safety.
    """

    name: str
    kind: str
    cases: tuple[str, ...]
    fields: Mapping[str, Field]
    columns: Mapping[str, NDArray[np.float64]]
    clamping: tuple[float, float] | None
    bridged_length: float | None
    strain: tuple[tuple[float, float], tuple[float, float]]
    end_slip: tuple[float, float]
    mode: str
    case: str
    margin: float

    @classmethod
    def of(cls, content: Mapping[str, Any]) -> Self:
        """Read what the compiled module wrote of one fitting."""
        fields, columns = sheet(content)
        meop, proof = content["strain"]
        clamping = content["clamping"]
        return cls(
            content["name"],
            content["kind"],
            tuple(content["cases"]),
            MappingProxyType(fields),
            MappingProxyType(columns),
            None if clamping is None else (clamping[0], clamping[1]),
            content["bridged_length"],
            ((meop[0], meop[1]), (proof[0], proof[1])),
            (content["end_slip"][0], content["end_slip"][1]),
            content["mode"],
            content["case"],
            content["margin"],
        )

    @property
    def units(self) -> dict[str, str]:
        """SI unit of each column, by name."""
        return {name: field.unit for name, field in self.fields.items()}

    def __repr__(self) -> str:
        return f"<Fitting: {self.name}, {self.kind}; {self._verdict()}>"

    def __str__(self) -> str:
        rows = [("", *self.cases)]
        for name, field in self.fields.items():
            cells = [_shown(field, float(value)) for value in self.columns[name]]
            if any(cells):
                rows.append((name.replace("_", " "), *cells))
        lines = [f"{self.name}, {self.kind}: {self._verdict()}", *text_table(rows)]
        if self.clamping:
            empty, meop = (f"{significant(force, 3, 'down')} N" for force in self.clamping)
            lines.append(f"clamped by {empty} without pressure, {meop} at MEOP")
        return "\n".join(lines)

    def _verdict(self) -> str:
        return f"{self.mode} in {self.case}, margin {margin(self.margin)}"

    def __getitem__(self, name: str) -> NDArray[np.float64]:
        if name not in self.columns:
            raise InputError(f"no column {quoted(name)} in a fitting{nearest(name, self.columns)}")
        return self.columns[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.columns)

    def __len__(self) -> int:
        return len(self.cases)

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return _restore, (
            self.name,
            self.kind,
            self.cases,
            dict(self.fields),
            dict(self.columns),
            self.clamping,
            self.bridged_length,
            self.strain,
            self.end_slip,
            self.mode,
            self.case,
            self.margin,
        )


# What holds, of the columns.
_HOLDS = ("clamping_force", "tank_pressure")


def _shown(field: Field, value: float) -> str:
    """Return a value in its printed unit, margins rounded down; nothing for what is not there."""
    if math.isnan(value):
        return ""
    if field.path.endswith("_margin"):
        return margin(value)
    # What holds is rounded down, what pulls up.
    direction: Direction = "down" if field.path in _HOLDS else "up"
    return field.with_unit(significant(field.printed(value), 4, direction))


def read(text: str) -> tuple[Fitting, ...]:
    """Read what the compiled module wrote: the fittings in the order of the file."""
    return tuple(Fitting.of(content) for content in json.loads(text)["fittings"])


def _restore(
    name: str,
    kind: str,
    cases: tuple[str, ...],
    fields: dict[str, Field],
    columns: dict[str, NDArray[np.float64]],
    *rest: Any,
) -> Fitting:
    for values in columns.values():
        values.flags.writeable = False
    known = (MappingProxyType(fields), MappingProxyType(columns))
    return Fitting(name, kind, cases, *known, *rest)
