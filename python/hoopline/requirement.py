"""One line of the requirement matrix."""

from dataclasses import dataclass

from hoopline import schema
from hoopline.rounding import Direction, margin, significant
from hoopline.schema import Field


@dataclass(frozen=True, slots=True)
class Requirement:
    """A requirement and what it came to.

    Attributes
    ----------
    id
        Short name, unique within the stage.
    text
        What shall hold, in words.
    response
        Path of the result it is judged by, "margins" for the smallest of them, or none if nothing
        here computes it.
    at_least, at_most
        Limits in SI, or none.
    method
        How it is verified: "analysis", "test" or "inspection".
    evidence
        What shows it, in the user's words, or none.
    value
        The result in SI, or none.
    decided_by
        Path of the result that decided.
    margin
        Allowable over load, less one; none where a quotient means nothing. A margin of safety M
        against a limit L comes to (1 + M) / (1 + L) - 1.
    status
        "met", "not met", or "open" while nothing has shown it by its method.
    basis
        What the status rests on.
    """

    id: str
    text: str
    response: str | None
    at_least: float | None
    at_most: float | None
    method: str
    evidence: str | None
    value: float | None
    decided_by: str | None
    margin: float | None
    status: str
    basis: str

    @property
    def limit(self) -> str:
        """The limits as printed, empty if there are none."""
        field = self._field()
        if field is None:
            return ""
        limits = (("at least", self.at_least), ("at most", self.at_most))
        return ", ".join(f"{word} {_number(field, x)}" for word, x in limits if x is not None)

    @property
    def shown(self) -> str:
        """The value as printed, rounded so that it never looks better than it is."""
        field = self._field()
        if field is None or self.value is None:
            return ""
        if field.path.startswith("margins."):
            return margin(self.value)
        towards: Direction
        if self.at_most is None:
            towards = "down"
        elif self.at_least is None:
            towards = "up"
        else:  # towards the limit that is nearer, or not met
            towards = "down" if self.value - self.at_least < self.at_most - self.value else "up"
        return field.with_unit(significant(field.printed(self.value), 4, towards))

    @property
    def shown_margin(self) -> str:
        """The margin as printed, rounded down; empty if there is none."""
        return "" if self.margin is None else margin(self.margin)

    def _field(self) -> Field | None:
        return None if self.decided_by is None else schema.results()[self.decided_by]


def _number(field: Field, value: float) -> str:
    return field.with_unit(f"{field.printed(value):.12g}")
