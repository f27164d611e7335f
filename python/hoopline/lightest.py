"""The search for the lightest tank of a list of options."""

import json
from collections.abc import Callable, Mapping
from typing import Any

from hoopline import _core, varied
from hoopline.errors import InputError
from hoopline.given import plain_value
from hoopline.optimising import bounds
from hoopline.stage import Stage
from hoopline.tank_options import LightestTank


def lightest_tank(
    stage: Stage,
    vary: Mapping[str, Any],
    *,
    subject_to: Mapping[str, tuple[Any, Any]] | None = None,
    keep: int = 10,
    threads: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> LightestTank:
    """Find the lightest tank of which no margin is negative, and what is wrong with every other.

    Every combination of the values is an option. All are screened first by conditions without which
    an option cannot do and which no flight is needed for: it can be built and filled, the margins
    at proof and burst pressure, bounds on mass and size. What is left is flown in order of tank
    mass until `keep` options meet everything. The result is that of the whole computation for every
    option, bit for bit, whatever the number of threads.

    Parameters
    ----------
    stage
        The stage to vary; what is not varied stays, by its follow rules.
    vary
        {dotted path: values}: stock and metals by name, choices, numbers with a unit. What only
        goes together stands as {name of one's own: {name: {dotted path: value, ...}, ...}}.
        Options of equal mass are ranked in the order of the values, the first path slowest.
    subject_to
        {result path: (at least, at most)} of what must hold beside the margins, None for an open
        side. No margin may be negative, whatever is said here; ("margins", (0.1, None)) asks for
        more. The requirements of the stage are not held: ask for them here.
    keep
        How many options are ranked: the winner and its runners-up.
    threads
        How many threads; all cores by default.
    progress
        Called now and then with (options screened, options in all).

    Returns
    -------
    LightestTank
        The winner and its runners-up with every margin, and the standing of every option.

    Raises
    ------
    InputError
        A path is unknown or follows from others, a value is out of range, the stage has no tank, or
        no option can be built.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_stock"))
    >>> sheets = ["sheet 7", "sheet 8"]
    >>> found = hl.lightest_tank(
    ...     stage,
    ...     {
    ...         "tank.liner.tube": ["tube 180 x 6", "tube 160 x 5", "tube 200 x 6.5"],
    ...         "domes": {
    ...             sheet: {"tank.fore_closure.sheet": sheet, "tank.aft_closure.sheet": sheet}
    ...             for sheet in sheets
    ...         },
    ...     },
    ... )
    >>> found.winner.inputs
    {'tank.liner.tube': 'tube 160 x 5', 'domes': 'sheet 7'}
    """
    varied.check_paths(vary, '{"tank.liner.wall": ["3 mm", "4 mm"]}')
    threads, keep = varied.whole_number("threads", threads), varied.whole_number("keep", keep) or 1
    values: dict[str, tuple[Any, ...]] = {}
    changes: dict[str, tuple[Mapping[str, Any], ...]] = {}
    for path, given in vary.items():
        if isinstance(given, Mapping):
            values[path] = tuple(given)
            changes[path] = tuple(_together(path, name, given[name]) for name in given)
        elif isinstance(given, tuple):
            raise InputError(
                f"{path} is a tuple, which is a range; the options of {path} are a list, such as "
                f"{list(given)}, or search ranges by optimise"
            )
        else:
            values[path] = tuple(varied.values(path, given, "a list of values"))
            changes[path] = tuple({path: plain_value(value, path)} for value in values[path])
        if not values[path]:
            raise InputError(f"{path} has no values to try")
    axes = [
        [path, [dict(each) if isinstance(vary[path], Mapping) else each[path] for each in given]]
        for path, given in changes.items()
    ]
    held = {} if subject_to is None else subject_to
    search = {"vary": axes, "subject_to": bounds(held), "keep": keep}
    text, *columns = _core.lightest_tank(
        stage._compiled, json.dumps(search, allow_nan=False), threads, progress
    )
    return LightestTank.of(text, columns, stage, values, changes)


def _together(path: str, name: Any, changes: Any) -> dict[str, Any]:
    if not isinstance(name, str):
        raise InputError(f"{path}: {name!r} is not a name; names of options are text")
    if not isinstance(changes, Mapping) or not changes:
        raise InputError(
            f'{path}: {name} needs what it changes, such as {{"tank.liner.wall": "3 mm"}}, not '
            f"{changes!r}"
        )
    return {str(each): plain_value(value, str(each)) for each, value in changes.items()}
