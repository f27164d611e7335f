"""Evenly spaced values that keep their unit."""

from decimal import Context, Decimal
from typing import overload

from hoopline.errors import InputError


@overload
def linspace(start: str, stop: str, count: int) -> list[str]: ...
@overload
def linspace(start: float, stop: float, count: int) -> list[float]: ...
def linspace(start: str | float, stop: str | float, count: int) -> list[str] | list[float]:
    """Return `count` evenly spaced values from `start` to `stop`, both included.

    Parameters
    ----------
    start, stop
        Two texts with the same unit, or two numbers in SI.
    count
        How many values, at least 2.

    Returns
    -------
    list
        Texts with that unit, or numbers.

    Examples
    --------
    >>> linspace("130 mm", "140 mm", 3)
    ['130 mm', '135 mm', '140 mm']
    """
    if count < 2:
        raise InputError(f"linspace needs a count of at least 2, not {count}")
    if isinstance(start, str) and isinstance(stop, str):
        first, unit = _split(start)
        last, other = _split(stop)
        if unit != other:
            raise InputError(f'linspace needs one unit; "{start}" and "{stop}" have two')
        return [f"{_short(value)} {unit}".strip() for value in _spaced(first, last, count)]
    if isinstance(start, str) or isinstance(stop, str):
        raise InputError("linspace needs two texts with a unit or two numbers, not one of each")
    return [float(value) for value in _spaced(Decimal(repr(start)), Decimal(repr(stop)), count)]


def _spaced(first: Decimal, last: Decimal, count: int) -> list[Decimal]:
    step = (last - first) / (count - 1)
    return [*(first + step * index for index in range(count - 1)), last]


def _short(value: Decimal) -> str:
    return f"{Context(prec=15).create_decimal(value).normalize():f}"


def _split(text: str) -> tuple[Decimal, str]:
    number, _, unit = text.strip().partition(" ")
    try:
        value = Decimal(number)
    except ArithmeticError:
        value = Decimal("nan")
    if not value.is_finite():
        raise InputError(f'"{text}" is not a number, a space and a unit, such as "130 mm"')
    return value, unit.strip()
