"""Where the tank's cylinder meets its closures: stress along the meridian."""

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
class Junction:
    """One junction of cylinder and closure at proof pressure, as `Stage.junctions` returns it.

    Cylinder and closure bend at their edges because they would grow unlike under pressure. Stresses
    are elastic ones, of minimum wall and thickness, with misalignment and peaking of the girth seam
    in the directions that are worst. SI.

    Attributes
    ----------
    side
        "fore" or "aft".
    closure
        Kind of the closure.
    pressure
        Proof pressure, Pa gauge.
    fields
        What each column is, by name.
    columns
        The columns, by name, from far in the closure to far in the cylinder: distance (from the
        edge along the meridian, negative in the closure), inner_axial_stress, inner_hoop_stress,
        inner_equivalent_stress, outer_axial_stress, outer_hoop_stress, outer_equivalent_stress; in
        a closure the axial stress is the one along its meridian. The edge stands twice, once for
        each part. Arrays that cannot be written to.
    largest
        Largest equivalent stress within a quarter of the edge wave, Pa.
    place
        Where that is, in words.
    yield_strength
        Yield strength it is set against, Pa: across the girth seam where there is one.
    margin
        Margin of safety against shakedown: twice the yield strength over `largest`, less one.

    Examples
    --------
    >>> import hoopline as hl
    >>> fore, aft = hl.Stage.load(hl.example("petrel_slim")).junctions()
    >>> fore.closure, fore.units["inner_axial_stress"]
    ('hemisphere', 'Pa')
    """

    side: str
    closure: str
    pressure: float
    fields: Mapping[str, Field]
    columns: Mapping[str, NDArray[np.float64]]
    largest: float
    place: str
    yield_strength: float
    margin: float

    @classmethod
    def of(cls, content: Mapping[str, Any]) -> Self:
        """Read what the compiled module wrote of one junction."""
        fields, columns = sheet(content)
        return cls(
            content["side"],
            content["closure"],
            content["pressure"],
            MappingProxyType(fields),
            MappingProxyType(columns),
            content["largest"],
            content["place"],
            content["yield_strength"],
            content["margin"],
        )

    @property
    def units(self) -> dict[str, str]:
        """SI unit of each column, by name."""
        return {name: field.unit for name, field in self.fields.items()}

    def __repr__(self) -> str:
        return (
            f"<Junction: {self.side}, {self.closure}; {self.largest / 1e6:.0f} MPa {self.place}; "
            f"margin {self.margin:+.2f}>"
        )

    def __getitem__(self, name: str) -> NDArray[np.float64]:
        if name not in self.columns:
            raise InputError(f"no column {quoted(name)} in a junction{nearest(name, self.columns)}")
        return self.columns[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.columns)

    def __len__(self) -> int:
        return len(self.columns["distance"])

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return _restore, (
            self.side,
            self.closure,
            self.pressure,
            dict(self.fields),
            dict(self.columns),
            self.largest,
            self.place,
            self.yield_strength,
            self.margin,
        )


def read(text: str) -> tuple[Junction, ...]:
    """Read what the compiled module wrote: the fore and the aft junction, where they are."""
    return tuple(Junction.of(content) for content in json.loads(text)["junctions"])


def _restore(
    side: str,
    closure: str,
    pressure: float,
    fields: dict[str, Field],
    columns: dict[str, NDArray[np.float64]],
    *rest: Any,
) -> Junction:
    for values in columns.values():
        values.flags.writeable = False
    known = (MappingProxyType(fields), MappingProxyType(columns))
    return Junction(side, closure, pressure, *known, *rest)
