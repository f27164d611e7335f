"""Printed numbers that err towards caution: margins are rounded down, loads up."""

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal, localcontext
from typing import Literal

Direction = Literal["nearest", "down", "up"]

_MODES = {"nearest": ROUND_HALF_EVEN, "down": ROUND_FLOOR, "up": ROUND_CEILING}


def rounded(value: float, decimals: int, direction: Direction = "nearest") -> str:
    """Round to a number of decimals, towards minus infinity, plus infinity or the nearest.

    The value is first taken to 12 significant digits, so that the last bits of a conversion such
    as 1.1 x 3 do not push a load up by a whole printed digit.

    >>> rounded(0.199, 2, "down"), rounded(-0.001, 2, "down"), rounded(90.01, 1, "up")
    ('0.19', '-0.01', '90.1')
    """
    if not math.isfinite(value):
        return str(value)
    exact = Decimal(f"{value:.12g}")
    with localcontext() as context:
        context.prec = 400  # the largest float has 309 digits before the point
        shown = exact.quantize(Decimal(1).scaleb(-decimals), rounding=_MODES[direction]) + 0
    return f"{shown:f}"


def significant(value: float, digits: int = 4, direction: Direction = "nearest") -> str:
    """Round to significant digits, in the given direction, without an exponent.

    >>> significant(1234.4, 4, "up"), significant(0.0, 3)
    ('1235', '0')
    """
    if value == 0.0 or not math.isfinite(value):
        return f"{value:g}"
    magnitude = math.floor(math.log10(abs(value)))
    return rounded(value, max(digits - 1 - magnitude, 0), direction)


def signed(number: str) -> str:
    """Return a number as printed with its sign, which a difference and a margin always have.

    >>> signed("0.12"), signed("-0.12")
    ('+0.12', '-0.12')
    """
    return number if number.startswith("-") else f"+{number}"


def margin(value: float) -> str:
    """Return a margin of safety as printed: signed, two decimals, rounded down.

    >>> margin(0.199), margin(-0.001)
    ('+0.19', '-0.01')
    """
    return signed(rounded(value, 2, "down"))
