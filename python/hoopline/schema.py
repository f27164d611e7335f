"""The table of inputs and results as the compiled module declares it."""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from hoopline import _core
from hoopline.errors import InputError

_INDEX = re.compile(r"\[\d*\]")

_REPEATED = 80
"""Longest name that a message repeats, letters."""


@dataclass(frozen=True, slots=True)
class Field:
    """One number of a stage or of its results.

    Attributes
    ----------
    path
        Dotted path: key in files, column header, argument of `Stage.replace`.
    quantity
        Kind of number in words, such as "gauge pressure".
    unit
        SI unit of the stored number.
    printed_unit, printed_factor, printed_offset
        Unit of printed numbers; SI = printed x factor + offset.
    doc
        What the number is.
    """

    path: str
    quantity: str
    unit: str
    printed_unit: str
    printed_factor: float
    printed_offset: float
    doc: str

    @classmethod
    def of(cls, row: Mapping[str, Any]) -> "Field":
        """Return the field that a row of the compiled module declares."""
        return cls(**{name: row[name] for name in cls.__slots__})

    def printed(self, value: Any) -> Any:
        """Convert an SI number or array to the printed unit."""
        return (value - self.printed_offset) / self.printed_factor

    def in_units(self, value: Any, units: str) -> Any:
        """Convert an SI number or array to the printed unit for "printed", leave it for "si"."""
        return self.printed(value) if units == "printed" else value

    def unit_in(self, units: str) -> str:
        """Return the unit, "printed" or "si"."""
        return self.printed_unit if units == "printed" else self.unit

    def header(self, units: str) -> str:
        """Column header with the unit, "printed" or "si"."""
        unit = self.unit_in(units)
        return f"{self.path} [{unit}]" if unit else self.path

    def axis(self, words: str) -> str:
        """Label of an axis in the printed unit."""
        return f"{words}, {self.printed_unit}" if self.printed_unit else words

    def with_unit(self, number: str) -> str:
        """Return a number in the printed unit, already text, with that unit."""
        return f"{number} {self.printed_unit}".rstrip()


@cache
def document() -> dict[str, Any]:
    """Whole schema: inputs, results, choices, texts, kinds of rows."""
    content: dict[str, Any] = json.loads(_core.schema())
    return content


def _table(kind: str) -> dict[str, Field]:
    return {row["path"]: Field.of(row) for row in document()[kind]}


@cache
def inputs() -> dict[str, Field]:
    """Every input, by path."""
    return _table("inputs")


@cache
def results() -> dict[str, Field]:
    """Every result, by path."""
    return _table("results")


@cache
def choice_docs() -> dict[tuple[str, str], str]:
    """Return what each word of a choice means, by (path, word)."""
    return {
        (choice["path"], option["word"]): option["doc"]
        for choice in document()["choices"]
        for option in choice["options"]
    }


def general(path: str) -> str:
    """Return a path without the numbers of its list entries, as declarations have it.

    >>> general("mass.item[12].mass")
    'mass.item[].mass'
    """
    return _INDEX.sub("[]", path)


def quoted(given: object) -> str:
    """Return a name as given in quotes; of a long one its beginning."""
    text = str(given)
    return f'"{text}"' if len(text) <= _REPEATED else f'"{text[:_REPEATED]} ..."'


def nearest(given: str, known: Iterable[str], *, dotted: bool = False) -> str:
    """Hint that names what a name that is not known may stand for, or an empty text.

    Of dotted paths the last name counts, not how they begin.
    """
    question = _core.meant(given, list(known), dotted)
    return f"; {question}" if question else ""


def unknown_input(given: str, known: Iterable[str]) -> InputError:
    """Error for an input path that is not there."""
    return InputError(f"unknown input {quoted(given)}{nearest(given, known, dotted=True)}")


def unknown_result(given: str, known: Iterable[str]) -> InputError:
    """Error for a result path that is not there, or does not apply to this stage."""
    known = list(known)
    if given in results() and given not in known:
        return InputError(f'result "{given}" does not apply to this stage')
    if given in inputs():
        return InputError(
            f'"{given}" is an input, not a result{nearest(given, known, dotted=True)}'
        )
    hint = nearest(given, known, dotted=True) or ";"
    return InputError(
        f"unknown result {quoted(given)}{hint} `hoopline schema --results` lists the results"
    )
