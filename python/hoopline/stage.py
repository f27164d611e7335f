"""A stage of a rocket as given: immutable, checked once when it is made."""

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal, NoReturn, Self

from hoopline import _core, schema
from hoopline.assessment import Assessment
from hoopline.errors import InputError
from hoopline.file_names import given_path
from hoopline.given import changes_to_json, to_json

if TYPE_CHECKING:
    from hoopline.catalogue import Catalogue
    from hoopline.fittings import Fitting
    from hoopline.history import History
    from hoopline.junctions import Junction
    from hoopline.load_history import LoadHistory
    from hoopline.service import Service
    from hoopline.winding import Winding


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a stage.

    Attributes
    ----------
    path
        Dotted path.
    value
        The number in SI, or the word of a choice.
    unit
        SI unit.
    shown
        The value as printed, with its unit.
    origin
        Where the value comes from: given, a catalogue, a default of our own, ...
    source
        Row on record or printed source of the value; empty where the stage itself is the source.
    doc
        What the input is.
    """

    path: str
    value: float | str
    unit: str
    shown: str
    origin: str
    source: str
    doc: str


class Stage:
    """A stage of a rocket: propellant, tank, airframe, motor, masses, launch site.

    Parameters
    ----------
    values
        Nested mapping with the keys of a stage file. Values are texts with a unit, finite numbers
        in SI, or quantities with `to(unit)` and `magnitude`. `catalogue` names files of rows, or
        holds the rows as lists: {"tube": [{"name": ..., "source": ..., ...}]}. A number that is
        stated stands in place of what a named row holds for it.

    Raises
    ------
    InputError
        A key is unknown, a value is missing or out of range, or the stage does not fit together.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> stage.replace({"tank.outer_diameter": "160 mm"})["tank.outer_diameter"]
    0.16
    """

    __slots__ = ("_compiled",)
    _compiled: _core.Stage

    def __init__(self, values: Mapping[str, Any]) -> None:
        if not isinstance(values, Mapping):
            raise InputError("a stage is a mapping of mappings; for a file use Stage.load(path)")
        object.__setattr__(self, "_compiled", _core.Stage.from_json(to_json(values)))

    @classmethod
    def _of(cls, core: _core.Stage) -> Self:
        stage = cls.__new__(cls)
        object.__setattr__(stage, "_compiled", core)
        return stage

    @classmethod
    def load(cls, path: str | os.PathLike[str]) -> Self:
        """Read a stage file (TOML).

        Raises
        ------
        InputError
            Something in the file is wrong; the message begins with file:line:column, and `problems`
            holds every mistake. Or `path` cannot be one.
        DataError
            The file, or a table it names, cannot be opened or read.
        """
        return cls._of(_core.Stage.load(given_path("path", path)))

    @property
    def name(self) -> str:
        """Name of the stage."""
        return self._compiled.name

    @property
    def description(self) -> str:
        """Description of the stage, possibly empty."""
        return self._compiled.description

    @property
    def digest(self) -> str:
        """Digest of everything that is given, in hexadecimal digits."""
        return self._compiled.digest

    @property
    def follow(self) -> dict[str, str]:
        """Follow rules: which of several equivalent quantities stays, by rule."""
        rules: dict[str, str] = json.loads(self._compiled.follow())
        return rules

    def replace(self, changes: Mapping[str, Any]) -> Self:
        """Return a stage with some inputs replaced.

        Parameters
        ----------
        changes
            {dotted path: text with unit, SI number, quantity, the word of a choice, or the name of
            a row on record}. Choices and names are taken before numbers. A name fills in every
            number its row holds, also one that was stated before; a number in the same call
            stands. What follows is settled by the follow rules; replacing a number that follows
            from others is an error that names the rule.
        """
        return self._of(self._compiled.replace(changes_to_json(changes)))

    def assess(self) -> Assessment:
        """Evaluate this one design: pressures, dimensions, masses, margins, drag, ascent.

        Raises
        ------
        InputError
            The design cannot be evaluated, such as a tank that cannot hold its load; the message
            says what to change.
        """
        return Assessment(self._compiled.assess(), self._compiled.bands, self._compiled)

    def history(self) -> "History":
        """Return every step of the ascent: time, altitude, speed, forces, mass and more.

        Raises
        ------
        InputError
            The design has no ascent; the message says why.
        """
        from hoopline.history import History

        return History.of(self._compiled.history())

    def load_history(self, wall: Literal["minimum", "nominal"] = "minimum") -> "LoadHistory":
        """Follow the tank's wall through autofrettage, proof, MEOP and on to burst.

        Parameters
        ----------
        wall
            "minimum" for the least wall that the tolerances leave, by which strength is judged;
            "nominal" for what gauges on a sound vessel should show.

        Raises
        ------
        InputError
            The stage has no tank, or the design has a fault; the message says why.
        """
        from hoopline.load_history import LoadHistory

        if wall not in ("minimum", "nominal"):
            raise InputError(f'wall: {schema.quoted(wall)} is neither "minimum" nor "nominal"')
        return LoadHistory.of(self._compiled.load_history(wall == "nominal"))

    def junctions(self) -> "tuple[Junction, ...]":
        """Return the stress along the meridian where cylinder and closures meet, at proof pressure.

        The fore junction comes first, then the aft one; a closure that bolts hold has none.

        Raises
        ------
        InputError
            The stage has no tank, bolts hold both closures, or the design has a fault; the message
            says why.

        Examples
        --------
        >>> import hoopline as hl
        >>> fore, aft = hl.Stage.load(hl.example("petrel_slim")).junctions()
        >>> aft.side, bool(aft["distance"][0] < 0.0 < aft["distance"][-1])
        ('aft', True)
        """
        from hoopline.junctions import read

        return read(self._compiled.junctions())

    def winding(self) -> "Winding":
        """Wind the overwrap: path, slip, build-up, pattern and amounts of each ply.

        Raises
        ------
        InputError
            The stage has no overwrap or no [tank.overwrap.winding], or the design has a fault; the
            message says why.
        """
        from hoopline.winding import Winding

        return Winding.of(self._compiled.winding())

    def service(self) -> "Service":
        """Judge the tank in service: temperature, pressure cycles, time under pressure, damage.

        Each matter is judged where its table below `[tank.service]` is given; the others say what
        to give.

        Raises
        ------
        InputError
            The stage has no tank, or the design has a fault; the message says why.
        """
        from hoopline.service import Service

        return Service.of(self._compiled.service())

    def fittings(self) -> "tuple[Fitting, ...]":
        """Judge the attachment fittings: loads, clamping and margins of each in each case.

        Raises
        ------
        InputError
            The stage has no [[tank.fitting]], or the design has a fault; the message says why.
        """
        from hoopline.fittings import read

        return read(self._compiled.fittings())

    def inputs(self) -> tuple[Input, ...]:
        """Return the active inputs under the follow rules, with their values and origins."""
        return tuple(Input(**row) for row in json.loads(self._compiled.inputs()))

    def catalogue(self) -> "Catalogue":
        """Return every row that a name in this stage can stand for, with values and source.

        The shipped rows come first, then those of the files that the stage names as `catalogue`;
        `print` shows them as a table.

        Examples
        --------
        >>> import hoopline as hl
        >>> stage = hl.Stage.load(hl.example("petrel_stock"))
        >>> stage.catalogue().of("tube").names
        ('tube 180 x 6', 'tube 160 x 5', 'tube 200 x 6.5')
        """
        from hoopline.catalogue import Catalogue

        return Catalogue.read(self._compiled.catalogue())

    def source(self, path: str) -> str:
        """Say where the value of an input or a choice comes from.

        Parameters
        ----------
        path
            Dotted path of an input, a choice or a name.

        Returns
        -------
        str
            The line of the stage file; the row of a catalogue with its line and its printed
            source; or in words, what it was computed from or that it was replaced.

        Raises
        ------
        InputError
            The path is unknown, or is no input of this stage.

        Examples
        --------
        >>> import hoopline as hl
        >>> stage = hl.Stage.load(hl.example("petrel_slim"))
        >>> stage.source("tank.liner.metal.density").partition(" (")[0]
        'metal "6061-T6 extrusion, as welded"'
        >>> stage.replace({"tank.volume": "25 L"}).source("tank.volume")
        'replaced since the stage was read'
        """
        return self._compiled.source(str(path))

    def __getitem__(self, path: str) -> float | str:
        values = {row.path: row.value for row in self.inputs()}
        if path not in values:
            if path in schema.inputs():
                raise InputError(f'"{path}" is not an active input of this stage')
            raise schema.unknown_input(path, [*values, *schema.inputs()])
        return values[path]

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError("a stage does not change; replace() returns a changed one")

    def __delattr__(self, name: str) -> NoReturn:
        raise AttributeError("a stage does not change; replace() returns a changed one")

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Stage):
            return NotImplemented
        return self.digest == other.digest

    def __hash__(self) -> int:
        return hash(self.digest)

    def __repr__(self) -> str:
        return f"<Stage {self.name!r}, digest {self.digest[:12]}>"

    def __reduce__(self) -> tuple[Any, tuple[str]]:
        return _restore, (self._compiled.store(),)


def _restore(text: str) -> Stage:
    return Stage._of(_core.Stage.restore(text))
