"""The tank in service: temperature, cycles, time under pressure, damage."""

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
from hoopline.rounding import significant
from hoopline.schema import Field, nearest, quoted
from hoopline.text_table import text_table

# What is at hand, or allowed, is printed rounded down; loads and needs go up.
_AT_HAND = {
    "cool_down.stated_gap",
    "cool_down.least_fibre_stress",
    "proof_test.planned_pressure",
    "proof_test.planned_margin",
    "proof_test.required_margin",
    "hot_wall.temperature_margin",
    "hot_wall.pad_margin",
    "cycles.life",
    "cycles.life_share",
    "hold.stress_ratio",
    "hold.rated_time",
    "damage.sound_burst",
    "damage.damaged_burst",
    "damage.damaged_margin",
    "damage.allowable_knock_down",
}


@dataclass(frozen=True, slots=True)
class Service:
    """What `Stage.service` returns: what service asks of the tank beside pressure. SI.

    Each matter is judged where its table below `[tank.service]` is given: `cool_down` after cure,
    `draw_off` (a cold liner under a warm wrap), `proof_test` at another temperature than service,
    `hot_wall` (the wrap on the pad and in flight), `cycles` of pressure, `hold` (time at MEOP),
    `damage`. No allowance has a default. `print` shows every value, and what to give for the rest.

    Attributes
    ----------
    fields
        What each value is, by path such as "cool_down.gap".
    values
        The values, by path; only those of matters that are judged.
    place
        Where the metal lasts shortest, in words; empty where cycles are not judged.
    notes
        What each matter that is judged leaves out, by its name; for damage, what the inspection
        has to do.
    not_judged
        What to give for each matter that is not judged, by its name.
    column_fields
        What each column of `flight` is, by name.
    flight
        The wrap along the ascent, as arrays by name: time, altitude, mach, recovery_temperature,
        heat_transfer_coefficient, mean_temperature, surface_temperature. Empty where `hot_wall` is
        not judged.
    cautions
        What is beyond a limit that is given, in words.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> hit = stage.replace({"tank.service.damage.knock_down": "15 %"}).service()
    >>> round(hit["damage.damaged_burst"] / hit["damage.sound_burst"], 2)
    0.85
    >>> hit.not_judged["cycles"].partition(",")[0]
    'give tank.service.cycles.pressure_cycles'
    """

    fields: Mapping[str, Field]
    values: Mapping[str, float]
    place: str
    notes: Mapping[str, str]
    not_judged: Mapping[str, str]
    column_fields: Mapping[str, Field]
    flight: Mapping[str, NDArray[np.float64]]
    cautions: tuple[str, ...]

    @classmethod
    def of(cls, text: str) -> Self:
        """Read what the compiled module wrote."""
        content = json.loads(text)
        column_fields, flight = sheet({"columns": content["flight"]})
        # A fibre without stress has no finite stress ratio, which JSON cannot hold.
        values = {
            row["field"]["path"]: math.inf if row["value"] is None else row["value"]
            for row in content["rows"]
        }
        return cls(
            MappingProxyType(
                {row["field"]["path"]: Field.of(row["field"]) for row in content["rows"]}
            ),
            MappingProxyType(values),
            content["place"],
            MappingProxyType(dict(content["notes"])),
            MappingProxyType(dict(content["not_judged"])),
            MappingProxyType(column_fields),
            MappingProxyType(flight),
            tuple(content["cautions"]),
        )

    @property
    def units(self) -> dict[str, str]:
        """SI unit of each value and column, by path or name."""
        fields = {**self.column_fields, **self.fields}
        return {path: field.unit for path, field in fields.items()}

    def __getitem__(self, path: str) -> float:
        if path in self.values:
            return self.values[path]
        matter = path.partition(".")[0]
        if matter in self.not_judged:
            raise InputError(f"{quoted(path)} is not judged: {self.not_judged[matter]}")
        raise InputError(f"no value {quoted(path)} of service{nearest(path, self.values)}")

    def __iter__(self) -> Iterator[str]:
        return iter(self.values)

    def __len__(self) -> int:
        return len(self.values)

    def __repr__(self) -> str:
        judged = ", ".join(self.notes) or "nothing"
        return f"<Service: {judged} judged; {len(self.cautions)} cautions>"

    def __str__(self) -> str:
        """Return the values by matter, what is not judged, and cautions."""
        lines = []
        for matter, note in self.notes.items():
            below = [path for path in self.values if path.startswith(f"{matter}.")]
            rows = [(path, _shown(self.fields[path], self.values[path])) for path in below]
            if matter == "cycles":
                rows.append(("cycles.place", self.place))
            lines += [*text_table([("", matter), *rows]), f"  {note}", ""]
        lines += [f"{matter}: not judged; {text}" for matter, text in self.not_judged.items()]
        if self.cautions:
            lines += ["", "Cautions", *(f"- {caution}" for caution in self.cautions)]
        return "\n".join(lines).strip("\n")

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        return _service, (
            dict(self.fields),
            dict(self.values),
            self.place,
            dict(self.notes),
            dict(self.not_judged),
            dict(self.column_fields),
            dict(self.flight),
            self.cautions,
        )


def _shown(field: Field, value: float) -> str:
    """Return a value in its printed unit; loads and needs up, what is at hand down."""
    direction: Any = "down" if field.path in _AT_HAND else "up"
    return field.with_unit(significant(field.printed(value), 4, direction))


def _service(
    fields: dict[str, Field],
    values: dict[str, float],
    place: str,
    notes: dict[str, str],
    not_judged: dict[str, str],
    column_fields: dict[str, Field],
    flight: dict[str, NDArray[np.float64]],
    cautions: tuple[str, ...],
) -> Service:
    for column in flight.values():
        column.flags.writeable = False
    return Service(
        MappingProxyType(fields),
        MappingProxyType(values),
        place,
        MappingProxyType(notes),
        MappingProxyType(not_judged),
        MappingProxyType(column_fields),
        MappingProxyType(flight),
        cautions,
    )
