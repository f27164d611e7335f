"""The mass statement by group: growth allowances summed, and as a root sum square beside it."""

import math
from collections.abc import Iterable

from hoopline.results import MassGroup, MassLine

ABOUT_ROOT_SUM_SQUARE = (
    "The sum of the growth allowances counts in flight. The root sum square beside it takes the "
    "lines as independent of each other and their allowances as scatter. An allowance is growth "
    "that is expected, and lines of one class grow together: that it understates."
)
"""What the root sum square assumes, wherever it is printed."""

ABOUT_INERTIA = (
    "Moments of inertia take each line as a simple shape, items and fittings as points on the axis "
    "and liquid as if it turned along, which is the most that it can add."
)
"""What the moments of inertia assume, wherever they are printed."""


def grouped(lines: Iterable[MassLine]) -> tuple[MassGroup, ...]:
    """Sum lines by group, groups in the order in which they first appear.

    Parameters
    ----------
    lines
        Lines of a mass statement.

    Examples
    --------
    >>> from hoopline.results import MassLine
    >>> lines = [MassLine("a", "tank", 10.0, 3.0, 13.0, 1.0, None),
    ...          MassLine("b", "tank", 20.0, 4.0, 24.0, 2.0, None)]
    >>> (tank,) = grouped(lines)
    >>> tank.growth, tank.growth_root_sum_square
    (7.0, 5.0)
    """
    found: dict[str, list[MassLine]] = {}
    for line in lines:
        found.setdefault(line.group, []).append(line)
    return tuple(_summed(name, rows) for name, rows in found.items())


def _summed(name: str, lines: list[MassLine]) -> MassGroup:
    predicted = math.fsum(line.predicted for line in lines)
    moment = math.fsum(line.predicted * line.station for line in lines)
    return MassGroup(
        name=name,
        basic=math.fsum(line.basic for line in lines),
        growth=math.fsum(line.growth for line in lines),
        growth_root_sum_square=math.hypot(*(line.growth for line in lines)),
        predicted=predicted,
        station=moment / predicted if predicted else None,
    )
