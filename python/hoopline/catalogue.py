"""The rows that names in a stage can stand for: materials, stock, rule sets, maturities."""

import json
import os
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from fnmatch import fnmatchcase
from html import escape
from types import MappingProxyType
from typing import Any, overload

from hoopline import _core
from hoopline.errors import InputError
from hoopline.file_names import given_path
from hoopline.folding import INDENT, folded
from hoopline.schema import document, nearest

# Kinds that no file of rows may hold.
_SHIPPED_ONLY = ("rule set", "maturity")


@dataclass(frozen=True, slots=True)
class Value:
    """One value of a row.

    Attributes
    ----------
    value
        In SI.
    unit
        SI unit.
    shown
        As written, with its unit.
    source
        Where this value was printed, if not where the row was.
    """

    value: float
    unit: str
    shown: str
    source: str | None


@dataclass(frozen=True, slots=True)
class Row:
    """What one name stands for.

    Attributes
    ----------
    kind
        metal, fibre, tube, sheet, rule set or maturity.
    name
        The name to write.
    values
        Values by the name of what they are.
    source
        Where the values were printed.
    place
        Where the row stands: FILE:LINE, or the catalogue that is shipped.
    metal
        Name of the metal a piece of stock is of, or none.
    says
        What else the row says, by key: of a metal the basis of its strengths and its condition,
        of a rule set its scope and how long it holds the proof pressure.
    paths
        Where in a stage the name can be written.
    """

    kind: str
    name: str
    values: Mapping[str, Value]
    source: str
    place: str
    metal: str | None
    says: Mapping[str, str]
    paths: tuple[str, ...]

    def __reduce__(self) -> tuple[Any, tuple[Any, ...]]:
        rest = (self.source, self.place, self.metal, dict(self.says), self.paths)
        return _row, (self.kind, self.name, dict(self.values), *rest)


def _row(
    kind: str,
    name: str,
    values: dict[str, Value],
    source: str,
    place: str,
    metal: str | None,
    says: dict[str, str],
    paths: tuple[str, ...],
) -> Row:
    own = MappingProxyType(says)
    return Row(kind, name, MappingProxyType(values), source, place, metal, own, paths)


class Catalogue(tuple[Row, ...]):
    """Rows in the order of the catalogues; `print` it, or ask for those of a kind or of a name.

    Examples
    --------
    >>> import hoopline as hl
    >>> catalogue = hl.Stage.load(hl.example("petrel_slim")).catalogue()
    >>> catalogue.of("fibre").names
    ('standard modulus carbon, 3530 MPa', 'E-glass', 'intermediate modulus carbon, 5200 MPa')
    >>> catalogue["E-glass"].values["strength"].shown
    '3450 MPa'
    """

    __slots__ = ()

    @classmethod
    def read(cls, text: str) -> "Catalogue":
        """Read what the compiled module hands over."""
        rows = []
        for row in json.loads(text):
            values = {value.pop("key"): Value(**value) for value in row.pop("values")}
            says = MappingProxyType(row.pop("says"))
            paths = tuple(row.pop("paths"))
            rows.append(Row(values=MappingProxyType(values), says=says, paths=paths, **row))
        return cls(rows)

    @classmethod
    def load(cls, *files: str | os.PathLike[str]) -> "Catalogue":
        """Return the shipped rows, and those of the catalogue, stage or study files given.

        Raises
        ------
        InputError
            Something in a file is wrong; the message says where.
        DataError
            A file cannot be opened or read.

        Examples
        --------
        >>> import hoopline as hl
        >>> hl.Catalogue.load().of("fibre").names
        ('standard modulus carbon, 3530 MPa', 'E-glass', 'intermediate modulus carbon, 5200 MPa')
        >>> hl.Catalogue.load(hl.example("workshop_stock")).of("tube")[0].name
        'tube 180 x 6'
        """
        texts = [_core.rows_on_record(given_path("file", file)) for file in files]
        rows: list[Row] = []
        for text in (_core.rows_on_record(), *texts):
            rows.extend(row for row in cls.read(text) if row not in rows)
        kinds = dict.fromkeys(row.kind for row in rows)
        return cls(row for kind in kinds for row in rows if row.kind == kind)

    def at(self, path: str) -> "Catalogue":
        """Return the rows that can be named at a path, list entries without their numbers.

        Examples
        --------
        >>> import hoopline as hl
        >>> hl.Catalogue.load().at("tank.overwrap.fibre.name").kinds
        ('fibre',)
        """
        return Catalogue(row for row in self if any(_fits(path, one) for one in row.paths))

    def to_json(self) -> str:
        """Return the rows as JSON text, values in SI."""
        return json.dumps([_plain(row) for row in self], indent=2, ensure_ascii=False)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the rows."""
        return tuple(row.name for row in self)

    @property
    def kinds(self) -> tuple[str, ...]:
        """Kinds there are."""
        return tuple(dict.fromkeys(row.kind for row in self))

    def of(self, kind: str) -> "Catalogue":
        """Return the rows of one kind, possibly none.

        Raises
        ------
        InputError
            There is no such kind.
        """
        known = (*(row["word"] for row in document()["kinds"]), *_SHIPPED_ONLY)
        if kind not in known:
            raise InputError(
                f'unknown kind "{kind}"{nearest(str(kind), known)}; there are {", ".join(known)}'
            )
        return Catalogue(row for row in self if row.kind == kind)

    @overload  # type: ignore[override]
    def __getitem__(self, at: int | str) -> Row: ...
    @overload
    def __getitem__(self, at: slice) -> "Catalogue": ...
    def __getitem__(self, at: int | str | slice) -> "Row | Catalogue":
        if isinstance(at, slice):
            return Catalogue(super().__getitem__(at))
        if isinstance(at, int):
            return super().__getitem__(at)
        for row in self:
            if row.name == at:
                return row
        raise InputError(f'no row "{at}"{nearest(str(at), self.names)}')

    def __str__(self) -> str:
        blocks = ["\n".join(_kind(self.of(kind))) for kind in self.kinds]
        return "\n\n".join(blocks) if blocks else "no rows"

    def __repr__(self) -> str:
        counts = [f"{len(self.of(kind))} {kind}" for kind in self.kinds]
        return f"<Catalogue: {', '.join(counts) or 'no rows'}>"

    def _repr_html_(self) -> str:
        return f"<pre>{escape(str(self))}</pre>"


def _fits(path: str, pattern: str) -> bool:
    return fnmatchcase(path, pattern.replace("[]", "[[][]]"))


def _plain(row: Row) -> dict[str, Any]:
    values = {key: asdict(value) for key, value in row.values.items()}
    return {
        "kind": row.kind, "name": row.name, "values": values, "source": row.source,
        "place": row.place, "metal": row.metal, "says": dict(row.says), "paths": list(row.paths),
    }  # fmt: skip


def _kind(rows: Catalogue) -> Iterator[str]:
    yield f"{rows[0].kind}, named at {', '.join(rows[0].paths)}"
    for row in rows:
        yield folded(row.name, INDENT)
        cells = [f"{key} {value.shown}" for key, value in row.values.items()]
        if row.metal:
            cells.append(f"metal {row.metal}")
        yield _wrapped("; ".join(cells))
        for key, text in row.says.items():
            yield _wrapped(f"{key}: {text}")
        yield _wrapped(f"{row.source} ({row.place})")
        for key, value in row.values.items():
            if value.source:
                yield _wrapped(f"{key}: {value.source}")


def _wrapped(text: str) -> str:
    return folded(text, INDENT * 2, INDENT * 3)
