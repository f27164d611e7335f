"""A number given to a textbook formula: a float in SI or a text with a unit, within limits."""

import math
from dataclasses import dataclass
from decimal import Decimal
from numbers import Real

from hoopline import _core
from hoopline.errors import InputError, kind_of

Given = float | str
"""A float in SI, or a text with a unit such as "160 mm"."""


@dataclass(frozen=True, slots=True)
class Limits:
    """What a parameter may be.

    Attributes
    ----------
    unit
        SI unit of a bare number; empty for a pure one.
    lower, upper
        Smallest and largest value in SI, both allowed. Unless a source sets them they are our
        own: wide enough for honest use, tight enough to catch some wrong units.
    quantity
        The schema's name of the kind of number, whose units a text may carry; none for a number
        that has no unit of its own there and is given as a float.
    """

    unit: str
    lower: float
    upper: float
    quantity: str | None = None

    def between(self, lower: float, upper: float) -> "Limits":
        """Return the same kind of number within other limits."""
        return Limits(self.unit, lower, upper, self.quantity)

    def show(self, value: float) -> str:
        """Return a value with its unit, as it is printed."""
        if self.quantity is None:
            return f"{value:.5g} {self.unit}".rstrip()
        return _core.show(value, self.quantity)


LENGTH = Limits("m", 1e-6, 100.0, "length")
GAUGE_PRESSURE = Limits("Pa gauge", 0.0, 1e10, "gauge pressure")
STRESS = Limits("Pa", 1e5, 1e11, "stress")
SHARE = Limits("", 0.1, 1.0, "share")
DENSITY = Limits("kg/m3", 1e-9, 3e4, "density")
MASS = Limits("kg", 1e-6, 1e8, "mass")
TIME = Limits("s", 0.0, 1e5, "time")
SPEED = Limits("m/s", 0.0, 1e5, "speed")
ACCELERATION = Limits("m/s2", 0.0, 1e6, "acceleration")


def as_float(value: Real | Decimal | float) -> float:
    """Return a number as a float, infinite where it is too large for one.

    >>> as_float(10**400)
    inf
    """
    try:
        return float(value)
    except OverflowError:
        return math.inf


def number(name: str, value: Given, limits: Limits) -> float:
    """Return a parameter in SI.

    Raises
    ------
    InputError
        The value cannot be read, is not finite, or lies outside its limits. The message names the
        parameter, the value with its unit, and what is allowed.

    Examples
    --------
    >>> number("radius", "80 mm", LENGTH)
    0.08
    >>> number("efficiency", 1.2, SHARE)
    Traceback (most recent call last):
    hoopline.errors.InputError: efficiency = 120 % is outside 10 % to 100 %
    """
    si = _in_si(name, value, limits)
    if not math.isfinite(si):
        raise InputError(f"{name} = {si} is not a finite number; {_allowed(limits)}")
    if not limits.lower <= si <= limits.upper:
        raise InputError(f"{name} = {_apart(si, limits)} is outside {_allowed(limits)}")
    return si


def larger(large: tuple[str, float], small: tuple[str, float], limits: Limits) -> None:
    """Refuse a pair of numbers of which the first is not clearly the larger one."""
    if not large[1] > small[1] * (1.0 + 1e-9):
        raise InputError(
            f"{large[0]} = {limits.show(large[1])} must be larger than "
            f"{small[0]} = {limits.show(small[1])}"
        )


def _apart(si: float, limits: Limits) -> str:
    """Return a value as it is printed, or in full where it would look like a limit."""
    shown = limits.show(si)
    alike = shown in {limits.show(limits.lower), limits.show(limits.upper)}
    return f"{si!r} {limits.unit}".rstrip() if alike else shown


def _allowed(limits: Limits) -> str:
    span = f"{limits.show(limits.lower)} to {limits.show(limits.upper)}"
    return f"{span}; a bare number is in {limits.unit}" if limits.unit else span


def _in_si(name: str, value: Given, limits: Limits) -> float:
    if isinstance(value, str):
        if limits.quantity is None:
            raise InputError(f'{name} = "{value}" is a text; give a number in {limits.unit}')
        return _core.read(name, value, limits.quantity)
    if isinstance(value, bool) or not isinstance(value, Real | Decimal):
        raise InputError(
            f"{name} = {value!r} is {kind_of(value)}; give a number"
            + (f" in {limits.unit}" if limits.unit else "")
            + (", or a text with a unit" if limits.quantity else "")
        )
    return as_float(value)
