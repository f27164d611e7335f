"""
Compiled core of `hoopline`; use the package, not this module.
"""

from _typeshed import Incomplete
from os import PathLike
from typing import Any, Final, SupportsFloat, SupportsIndex, final

__all__ = ["version", "Stage", "fault_word", "reason", "schema", "show", "si", "sweep"]

version: Final[str]
"""
Version of the library.
"""

@final
class Stage:
    """
    A stage as given, resolved and immutable.
    """
    def assess(self, /) -> str:
        """
        The assessment as JSON text.
        """
    @property
    def description(self, /) -> str:
        """
        What the stage is.
        """
    @property
    def digest(self, /) -> str:
        """
        SHA-256 over everything that enters the results.
        """
    def follow(self, /) -> str:
        """
        The follow rules as JSON text.
        """
    @staticmethod
    def from_json(text: str) -> Stage:
        """
        Reads a stage from nested tables as JSON text; bare numbers count as SI.
        """
    def inputs(self, /) -> str:
        """
        The inputs of this stage as JSON text.
        """
    @staticmethod
    def load(path: str | PathLike[str]) -> Stage:
        """
        Loads a stage file.
        """
    @property
    def name(self, /) -> str:
        """
        Name of the stage.
        """
    def replace(self, /, changes: str) -> Stage:
        """
        The stage with inputs replaced; takes a JSON object of dotted paths and values.
        """
    @staticmethod
    def restore(text: str) -> Stage:
        """
        Rebuilds a stage from what `store` wrote.
        """
    def store(self, /) -> str:
        """
        The stage as text.
        """

def fault_word(code: SupportsIndex) -> str:
    """
    Short name of a fault number; "ok" for zero.
    """

def reason(code: SupportsIndex, value: SupportsFloat | SupportsIndex) -> str:
    """
    Why a design has no results, as a sentence.
    """

def schema() -> str:
    """
    Every input, result, choice, text and row on record, as JSON text.
    """

def show(value: SupportsFloat | SupportsIndex, quantity: str) -> str:
    """
    A value in SI as it is printed, with its unit; takes the quantity's name of the schema.
    """

def si(path: str, text: str) -> float:
    """
    A text with a unit for an input, in SI.
    """

def sweep(stage: Stage, axes: str, threads: SupportsIndex | None = None, progress: Any | None = None) -> tuple[dict, Incomplete, Incomplete]:
    """
    Evaluates a full grid. `axes` is JSON text `[[path, [value, ...]], ...]`; returns result columns
    by path, status numbers and status values.
    """
