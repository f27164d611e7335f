"""The search for the best design around a stage."""

import json
from collections.abc import Callable, Mapping
from typing import Any

from hoopline import _core, varied
from hoopline.errors import InputError
from hoopline.given import plain_value
from hoopline.optimum import Optimum
from hoopline.stage import Stage

_SIDES = 2


def optimise(
    stage: Stage,
    vary: Mapping[str, Any],
    *,
    minimise: str | None = None,
    maximise: str | None = None,
    subject_to: Mapping[str, tuple[Any, Any]] | None = None,
    scan: int | None = None,
    threads: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Optimum:
    """Find the design with the smallest or largest result that meets every bound.

    Along one range the search scans, then closes in on every boundary between designs that meet
    all bounds and designs that do not, and on every valley of the goal, by Brent's methods. Over
    several ranges it scans and polishes the best points by COBYLA, then along one range after the
    other: that finds local optima, of which the best is taken. Listed values are tried in every
    combination. The same inputs give the same bits whatever the number of threads.

    Parameters
    ----------
    stage
        The stage to start from; what is not varied stays, by its follow rules.
    vary
        {dotted path: (lower, upper)} for a number that may lie anywhere between, at most four of
        them; {dotted path: [value, ...]} for stock sizes, choices and rows on record.
    minimise, maximise
        Path of the result to make small, or large; one of the two.
    subject_to
        {result path: (at least, at most)}, None for an open side; "margins" stands for every margin
        that applies. Left out, no margin may be negative and every requirement of the stage that
        names a result must hold, a rule of our own.
    scan
        Points along each range before the search closes in; 129, 33, 13 or 8 for one to four
        ranges, presets of our own. What is narrower than a step between two points may be missed.
    threads
        How many threads; all cores by default.
    progress
        Called now and then with (designs scanned, designs to scan).

    Returns
    -------
    Optimum
        The best design with what governs it, and its runners-up. Where no design meets every
        bound, the least violated one and the bounds that exclude each other.

    Raises
    ------
    InputError
        A path is unknown or follows from others, a range is upside down or out of the limits of its
        input, or no combination can be built.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> walls = {"tank.liner.wall": ["2.5 mm", "3 mm", "3.5 mm", "4 mm"]}
    >>> found = hl.optimise(stage, walls, minimise="tank.mass", subject_to={"margins": (0, None)})
    >>> found.best.inputs["tank.liner.wall"], found.next.governing[0].path
    ('3.5 mm', 'margins.girth_seam_proof')
    """
    if (minimise is None) == (maximise is None):
        raise InputError('give one of minimise and maximise, such as minimise="tank.mass"')
    goal = minimise if minimise is not None else maximise
    if not isinstance(goal, str):
        raise InputError(f"the goal is the path of a result, not {goal!r}")
    varied.check_paths(vary, '{"tank.liner.wall": ("2 mm", "6 mm")}')
    scan, threads = varied.whole_number("scan", scan), varied.whole_number("threads", threads)
    given = {path: _variable(path, value) for path, value in vary.items()}
    problem = {
        "goal": goal,
        "minimise": minimise is not None,
        "vary": [
            [path, values, None] if isinstance(values, tuple) else [path, None, values]
            for path, values in given.items()
        ],
        "subject_to": None if subject_to is None else bounds(subject_to),
    }
    text = _core.optimise(stage._compiled, json.dumps(problem), scan, threads, progress)
    return Optimum.of(text, stage, goal, given, minimise=minimise is not None)


def _variable(path: str, value: Any) -> tuple[Any, Any] | list[Any]:
    if isinstance(value, tuple):
        if len(value) != _SIDES:
            raise InputError(
                f"{path}: a tuple is a range of two limits, not of {len(value)}; put values to try "
                "in a list"
            )
        return plain_value(value[0], path), plain_value(value[1], path)
    values = varied.values(path, value, 'a range ("2 mm", "6 mm") or a list of values')
    return [plain_value(entry, path) for entry in values]


def bounds(subject_to: Mapping[str, tuple[Any, Any]]) -> list[tuple[str, Any, Any]]:
    """Return (path, at least, at most) of every constraint given."""
    if not isinstance(subject_to, Mapping):
        raise InputError('subject_to is a mapping such as {"margins": (0, None)}')
    read = []
    for path, sides in subject_to.items():
        if not isinstance(sides, tuple | list) or len(sides) != _SIDES:
            raise InputError(
                f"subject_to: {path} needs (at least, at most), None for either, not {sides!r}"
            )
        least, most = (None if side is None else plain_value(side, str(path)) for side in sides)
        read.append((str(path), least, most))
    return read
