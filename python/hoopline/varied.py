"""What a sweep and a search are asked to vary: the paths, the values to try, and in how many."""

from collections.abc import Mapping, Set
from numbers import Integral
from typing import Any

from hoopline.errors import InputError


def whole_number(name: str, value: Any) -> int | None:
    """Return a number of threads or of points from 1, or None where it is left out.

    >>> whole_number("threads", 2)
    2
    """
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, Integral) or value < 1:
        raise InputError(f"{name} is a whole number from 1, not {value!r}")
    return int(value)


def check_paths(vary: Any, such_as: str) -> None:
    """Refuse what is no mapping from paths; `such_as` shows in the message how one is written."""
    if not isinstance(vary, Mapping) or not vary:
        raise InputError(f"vary is a mapping such as {such_as}")
    for path in vary:
        if not isinstance(path, str):
            raise InputError(f"vary: {path!r} is not a path; paths are text")


def values(path: str, given: Any, needed: str) -> list[Any]:
    """Return the values to try along a path, in their order; `needed` says what else may stand.

    >>> values("tank.liner.wall", ("3 mm", "4 mm"), "a list of values")
    ['3 mm', '4 mm']
    """
    if isinstance(given, Mapping | Set):
        raise InputError(f"{path}: put the values to try into a list, whose order is theirs")
    if isinstance(given, str) or not hasattr(given, "__iter__") or getattr(given, "ndim", 1) == 0:
        raise InputError(f'{path} needs {needed}, not the single value "{given}"')
    return list(given)
