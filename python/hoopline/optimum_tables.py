"""The rows and sentences of a search, for text and page alike."""

from collections.abc import Iterator

from hoopline.optimum import Candidate, Held, Optimum
from hoopline.rounding import rounded, signed
from hoopline.text import shown

_EDGE = (
    "A best design sits on its bounds: whatever the models, the material and the shop are off by "
    "crosses them. Choose a design with room, state why, and assess it."
)
_ROWS = 12
_NEAR = 0.1


def edge(optimum: Optimum) -> str:
    """Return what to mind where the best design meets all bounds and lies on one; else nothing."""
    return _EDGE if optimum.feasible and optimum.best.governing else ""


def title(optimum: Optimum) -> str:
    """Stage and goal."""
    word = "smallest" if optimum.minimise else "largest"
    return f"{optimum.stage.name}: {word} {optimum.goal}"


def summary(optimum: Optimum) -> Iterator[tuple[str, str]]:
    """Name and sentence of what was found, what governs, what was searched."""
    best = optimum.best
    rounded = best.rounded()
    inputs = ", ".join(f"{path} = {rounded[path]}" for path in optimum.vary)
    if optimum.feasible:
        yield "found", f"{optimum.goal} {goal(optimum, best)} with {inputs}"
        yield "governs", _governs(optimum)
    elif best.goal is None:
        yield "found", f"no combination has results; the first one: {best.reason}"
    else:
        yield (
            "found",
            f"no design looked at meets all bounds; the least violated one, {inputs}, has "
            f"{optimum.goal} {goal(optimum, best)} and violates {_violated(best)}"
            + "".join(
                f"; it lies on the {side} limit of {path}" for path, side in best.on_limit.items()
            ),
        )
        yield "excluded", _excluded(optimum)
    searched = (
        f"{path} from {values[0]} to {values[1]}"
        if isinstance(values, tuple)
        else f"{path} of {', '.join(map(str, values))}"
        for path, values in optimum.vary.items()
    )
    yield "searched", f"{'; '.join(searched)}; {optimum.evaluations} designs computed"


def goal(optimum: Optimum, candidate: Candidate) -> str:
    """Return the goal as printed."""
    return "-" if candidate.goal is None else shown(optimum.goal, candidate.goal)


def designs(optimum: Optimum) -> tuple[tuple[str, ...], list[tuple[str, ...]], int]:
    """Headers, rows of the designs, best first, and how many are left out."""
    headers = (*short_names([*optimum.vary, optimum.goal]), "status", "nearest bound")
    rows = []
    for candidate in optimum.candidates[:_ROWS]:
        values = candidate.rounded()
        nearest = candidate.bounds[0] if candidate.bounds else None
        rows.append(
            (
                *(values.get(path, "") for path in optimum.vary),
                goal(optimum, candidate),
                candidate.status,
                (candidate.reason or "") if nearest is None else _nearest(nearest),
            )
        )
    return headers, rows, len(optimum.candidates) - len(rows)


def bounds(optimum: Optimum) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """Headers and rows of the bounds of the best design, nearest first."""
    rows: list[tuple[str, ...]] = [
        (held.path, held.text.removeprefix(f"{held.path} "), held.shown, _share(held))
        for held in optimum.best.bounds
    ]
    return ("result", "bound", "value", "room"), rows


def short_names(paths: list[str]) -> list[str]:
    """Return the ends of the paths, two names long, where these tell them apart."""
    ends = [".".join(path.split(".")[-2:]) for path in paths]
    return ends if len(set(ends)) == len(ends) else paths


def _nearest(held: Held) -> str:
    return f"{held.path} {held.shown}"


def _share(held: Held) -> str:
    if held.reached:
        return "on the bound"
    # Down as the value beside it; whole per cent tell as much as its two decimals do.
    decimals = 1 if abs(held.share) < _NEAR else 0
    return f"{signed(rounded(100.0 * held.share, decimals, 'down'))} %"


def _violated(candidate: Candidate) -> str:
    return "; ".join(f"{held.text} with {held.shown}" for held in candidate.governing)


def _governs(optimum: Optimum) -> str:
    best = optimum.best
    parts = [f"{held.text}" for held in best.governing]
    parts += [f"the {side} limit of {path}" for path, side in best.on_limit.items()]
    following = optimum.next
    if following is not None:
        better = "less" if optimum.minimise else "more"
        inputs = ", ".join(f"{path} = {value}" for path, value in following.inputs.items())
        parts.append(
            f"{inputs} would give {better}, {goal(optimum, following)}, but violates "
            f"{_violated(following)}"
        )
    if parts:
        return "; ".join(parts)
    ranged = any(isinstance(values, tuple) for values in optimum.vary.values())
    if ranged:
        return f"no bound: {optimum.goal} itself turns here"
    return "no bound: of the values listed none gives a better one"


def _excluded(optimum: Optimum) -> str:
    if optimum.never:
        return f"no design looked at meets {'; or '.join(optimum.never)}, whatever else holds"
    return f"no design looked at meets these together: {'; '.join(optimum.conflict)}"
