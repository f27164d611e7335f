"""The tank's wall through its pressures: autofrettage, proof, MEOP, burst."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from hoopline.errors import InputError
from hoopline.history import sheet
from hoopline.schema import Field, nearest, quoted


@dataclass(frozen=True, slots=True)
class PressureChange:
    """One change of pressure of a load history.

    Attributes
    ----------
    name
        Where it leads: "autofrettage", "proof", "MEOP", "unloading" or "to burst".
    liner_flow
        Pressure from which on the liner flows, Pa gauge, or None.
    girth_zone_flow, longitudinal_zone_flow
        Pressure from which on the weld zone of that seam flows, Pa gauge, or None.
    first_crack
        Pressure at which the resin of a ply first cracks along its fibres, Pa gauge, or None: told
        if `tank.overwrap.cracking_strain` is given. The fibres go on carrying: this is no burst.
    """

    name: str
    liner_flow: float | None
    girth_zone_flow: float | None
    longitudinal_zone_flow: float | None
    first_crack: float | None


@dataclass(frozen=True, slots=True)
class LoadHistory:
    """What `Stage.load_history` returns: the cylinder of the tank at one pressure after the other.

    Liner and fibres strain together; the liner flows by the yield condition of von Mises and keeps
    what has flowed. Without autofrettage the history begins with the proof test. From MEOP the
    pressure rises until fibre breaks or the liner flows without limit. SI.

    Attributes
    ----------
    fields
        What each column is, by name.
    columns
        The columns, by name: pressure, axial_strain, hoop_strain, volume_growth,
        liner_axial_stress, liner_hoop_stress, liner_equivalent_stress, liner_plastic_strain,
        liner_axial_share, liner_hoop_share; with an overwrap fibre_utilisation,
        across_fibre_strain, liner_buckling; with a girth seam girth_zone_axial_strain,
        girth_zone_plastic_strain; with a longitudinal seam longitudinal_zone_hoop_strain,
        longitudinal_zone_plastic_strain. Arrays that cannot be written to.
    change
        Number of the change of pressure of each row, in `changes`.
    changes
        The changes of pressure, in their order.
    ending
        How the last rise ends, in words.
    ending_pressure
        Pressure at which it ends, Pa gauge.

    Examples
    --------
    >>> import hoopline as hl
    >>> loads = hl.Stage.load(hl.example("petrel_slim")).load_history()
    >>> [change.name for change in loads.changes]
    ['proof', 'unloading', 'MEOP', 'to burst']
    >>> loads.units["liner_hoop_stress"]
    'Pa'
    """

    fields: Mapping[str, Field]
    columns: Mapping[str, NDArray[np.float64]]
    change: NDArray[np.int64]
    changes: tuple[PressureChange, ...]
    ending: str
    ending_pressure: float

    @classmethod
    def of(cls, text: str) -> Self:
        """Read what the compiled module wrote."""
        content = json.loads(text)
        fields, columns = sheet(content)
        change = np.array(content["change"], dtype=np.int64)
        change.flags.writeable = False
        return cls(
            MappingProxyType(fields),
            MappingProxyType(columns),
            change,
            tuple(PressureChange(**row) for row in content["changes"]),
            content["ending"],
            content["ending_pressure"],
        )

    @property
    def units(self) -> dict[str, str]:
        """SI unit of each column, by name."""
        return {name: field.unit for name, field in self.fields.items()}

    def __getitem__(self, name: str) -> NDArray[np.float64]:
        if name not in self.columns:
            raise InputError(
                f"no column {quoted(name)} in a load history{nearest(name, self.columns)}"
            )
        return self.columns[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.columns)

    def __len__(self) -> int:
        return len(self.change)

    def __repr__(self) -> str:
        ways = ", ".join(change.name for change in self.changes)
        return (
            f"<LoadHistory: {ways}; {len(self)} rows; ends at {self.ending_pressure / 1e5:.1f} bar>"
        )

    def __str__(self) -> str:
        """Return what begins in each change of pressure, and how the last one ends."""
        begins = {
            "the liner flows": "liner_flow",
            "the girth seam's weld zone flows": "girth_zone_flow",
            "the longitudinal seam's weld zone flows": "longitudinal_zone_flow",
            "resin cracks": "first_crack",
        }
        lines = []
        for change in self.changes:
            found = [
                f"{words} from {pressure / 1e5:.1f} bar on"
                for words, name in begins.items()
                if (pressure := getattr(change, name)) is not None
            ]
            lines.append(f"{change.name}: {'; '.join(found) or 'nothing begins'}")
        return "\n".join([*lines, f"at {self.ending_pressure / 1e5:.1f} bar {self.ending}"])

    def after(self, name: str) -> dict[str, float]:
        """Return the last row of a change of pressure, by column.

        Where a name stands several times, as "unloading" does, its last change counts.

        Raises
        ------
        InputError
            No change of that name.
        """
        found = [number for number, change in enumerate(self.changes) if change.name == name]
        if not found:
            names = dict.fromkeys(change.name for change in self.changes)
            raise InputError(f"no change of pressure {quoted(name)}{nearest(name, names)}")
        rows = np.flatnonzero(self.change == found[-1])
        if not len(rows):
            raise InputError(f"{quoted(name)} is not reached: {self.ending} before")
        return {column: float(values[rows[-1]]) for column, values in self.columns.items()}

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return _restore, (
            dict(self.fields),
            dict(self.columns),
            self.change,
            self.changes,
            self.ending,
            self.ending_pressure,
        )


def _restore(
    fields: dict[str, Field],
    columns: dict[str, NDArray[np.float64]],
    change: NDArray[np.int64],
    *rest: Any,
) -> LoadHistory:
    for values in (*columns.values(), change):
        values.flags.writeable = False
    return LoadHistory(MappingProxyType(fields), MappingProxyType(columns), change, *rest)
