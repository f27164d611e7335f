"""The overwrap as it is wound: path, slip, build-up, pattern and amounts of each ply."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from hoopline.errors import InputError
from hoopline.history import sheet
from hoopline.rounding import significant
from hoopline.schema import Field, nearest, quoted
from hoopline.text_table import text_table

Columns = Mapping[str, NDArray[np.float64]]


@dataclass(frozen=True, slots=True)
class WoundPly:
    """A ply as it is wound. SI.

    Attributes
    ----------
    kind
        "helical" or "hoop".
    values
        What the ply has, by name; None for what it does not have, such as a pattern of a hoop ply.
    path
        Path of a helical ply's band from where it turns fore to where it turns aft, as arrays by
        name: axial_position (aft of the cylinder's fore end), radius, winding_angle, azimuth,
        path_length, slippage and edge_slippage (what the band's middle and its worse edge need),
        thickness (of the ply's laminate). Empty for a hoop ply and one that cannot turn.
    build_up
        Thickness of a helical ply from opening to opening, as arrays by name: axial_position,
        radius, thickness. Empty for a hoop ply and one that cannot turn.
    """

    kind: str
    values: Mapping[str, float | None]
    path: Columns
    build_up: Columns

    def __getitem__(self, name: str) -> float | None:
        if name not in self.values:
            raise InputError(f"no {quoted(name)} of a wound ply{nearest(name, self.values)}")
        return self.values[name]

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return _ply, (self.kind, dict(self.values), dict(self.path), dict(self.build_up))


@dataclass(frozen=True, slots=True)
class LinerOutline:
    """The liner under the wrap, for drawings. SI.

    Attributes
    ----------
    cylinder_length
        Length of the cylinder; stations count from its fore end.
    inner_radius, outer_radius
        Of the cylinder.
    wrap
        Laminate thickness on the cylinder.
    domes
        Fore and aft closure: contours inside and outside, points (station, radius).
    openings
        Radii of the fore and aft polar opening.
    isotensoids
        Contours of the domes whose geodesic fibres would all be pulled alike, fore and aft, points
        (station, radius); empty where the opening leaves none.
    """

    cylinder_length: float
    inner_radius: float
    outer_radius: float
    wrap: float
    domes: tuple[Any, ...]
    openings: tuple[float, float]
    isotensoids: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Winding:
    """What `Stage.winding` returns: the overwrap as it is wound. SI.

    A band holds where the friction it needs, its geodesic over its normal curvature, stays below
    the allowable slippage coefficient. Where the winding angle does not turn the band at the polar
    opening by itself, the coefficient that does is found, even along the dome. Domes are taken
    without the build-up of the plies below. `print` shows a table of the plies.

    Attributes
    ----------
    fields
        What each value of a ply is, by name; below `fore.` and `aft.` those of the closures.
    total_fields
        What each total is, by name.
    column_fields
        What each column of a path or build-up is, by name.
    plies
        The plies, from the liner outwards.
    totals
        Totals by name: tow_length, fibre_mass, stated_fibre_mass, resin_mass, winding_time, spools,
        tape_length, tension_pressure, collapse_pressure, bead_run_out, slippage_coefficient; None
        where a ply cannot be wound.
    cautions
        What does not hold or does not fit, in words.
    liner
        Outline of the liner.

    Examples
    --------
    >>> import hoopline as hl
    >>> winding = hl.Stage.load(hl.example("petrel_slim")).winding()
    >>> [ply.kind for ply in winding.plies]
    ['helical', 'hoop']
    >>> winding["covers"]
    (1.0, 3.0)
    >>> winding.units["fore.turning_radius"]
    'm'
    """

    fields: Mapping[str, Field]
    total_fields: Mapping[str, Field]
    column_fields: Mapping[str, Field]
    plies: tuple[WoundPly, ...]
    totals: Mapping[str, float | None]
    cautions: tuple[str, ...]
    liner: LinerOutline

    @classmethod
    def of(cls, text: str) -> Self:
        """Read what the compiled module wrote."""
        content = json.loads(text)
        column_fields: dict[str, Field] = {}
        plies = []
        for row, tables in zip(content["plies"], content["tables"], strict=True):
            columns = []
            for name in ("path", "build_up"):
                fields, values = sheet({"columns": tables[name]})
                column_fields |= fields
                drawn = any(len(column) for column in values.values())
                columns.append(MappingProxyType(values if drawn else {}))
            plies.append(WoundPly(row["kind"], MappingProxyType(row["values"]), *columns))
        outline = content["liner"]
        outline["domes"] = tuple(
            tuple(tuple(map(tuple, side)) for side in dome) for dome in outline["domes"]
        )
        outline["openings"] = tuple(outline["openings"])
        outline["isotensoids"] = tuple(tuple(map(tuple, side)) for side in outline["isotensoids"])
        return cls(
            MappingProxyType(_listed(content["ply_fields"])),
            MappingProxyType(_listed(content["total_fields"])),
            MappingProxyType(column_fields),
            tuple(plies),
            MappingProxyType(content["totals"]),
            tuple(content["cautions"]),
            LinerOutline(**outline),
        )

    @property
    def units(self) -> dict[str, str]:
        """SI unit of each value, total and column, by name."""
        tables = (self.column_fields, self.total_fields, self.fields)
        return {name: field.unit for table in tables for name, field in table.items()}

    def __getitem__(self, name: str) -> tuple[float | None, ...]:
        if name not in self.fields:
            raise InputError(f"no {quoted(name)} of a wound ply{nearest(name, self.fields)}")
        return tuple(ply[name] for ply in self.plies)

    def __iter__(self) -> Iterator[str]:
        return iter(self.fields)

    def __len__(self) -> int:
        return len(self.plies)

    def __str__(self) -> str:
        rows = [["", *(f"ply {number}, {ply.kind}" for number, ply in enumerate(self.plies))]]
        for name, field in self.fields.items():
            values = [_shown(field, ply.values[name]) for ply in self.plies]
            rows.append([name.replace("_", " ").replace(".", ": "), *values])
        totals = [
            (name.replace("_", " "), _shown(field, self.totals[name]))
            for name, field in self.total_fields.items()
        ]
        cautions = [f"- {caution}" for caution in self.cautions]
        parts = [text_table(rows), ["", "In all"], text_table(totals)]
        if cautions:
            parts.append(["", "Cautions", *cautions])
        return "\n".join(line for part in parts for line in part)

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return _winding, (
            dict(self.fields),
            dict(self.total_fields),
            dict(self.column_fields),
            self.plies,
            dict(self.totals),
            self.cautions,
            self.liner,
        )


# What is counted in whole numbers.
_COUNTS = {
    "covers", "bands_for_cover", "circuits_per_cover", "turns_per_cover", "neighbour", "spools",
}  # fmt: skip


def _shown(field: Field, value: float | None) -> str:
    """Return a value in its printed unit; loads and needs up, what is at hand down."""
    if value is None:
        return "-"
    if field.path in _COUNTS and float(value).is_integer():
        return str(int(value))
    towards = {"collapse_pressure": "down", "slippage_coefficient": "down"}
    direction: Any = towards.get(field.path, "up" if "slippage" in field.path else "nearest")
    return field.with_unit(significant(field.printed(value), 4, direction))


def _listed(rows: list[dict[str, Any]]) -> dict[str, Field]:
    return {row["path"]: Field.of(row) for row in rows}


def _frozen(columns: dict[str, NDArray[np.float64]]) -> Columns:
    for values in columns.values():
        values.flags.writeable = False
    return MappingProxyType(columns)


def _ply(
    kind: str, values: dict[str, float | None], *tables: dict[str, NDArray[np.float64]]
) -> WoundPly:
    path, build_up = map(_frozen, tables)
    return WoundPly(kind, MappingProxyType(values), path, build_up)


def _winding(
    fields: dict[str, Field],
    total_fields: dict[str, Field],
    column_fields: dict[str, Field],
    plies: tuple[WoundPly, ...],
    totals: dict[str, float | None],
    *rest: Any,
) -> Winding:
    return Winding(
        MappingProxyType(fields),
        MappingProxyType(total_fields),
        MappingProxyType(column_fields),
        plies,
        MappingProxyType(totals),
        *rest,
    )
