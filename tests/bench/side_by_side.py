"""The batch ascent beside general-purpose programs that solve the same problem.

    python tests/bench/side_by_side.py FOLDER [--most N] [--instructions]

prints a table of time and error and draws work against precision and scaling into FOLDER. Times are
processor time on one thread, the least of several runs; errors are the largest over the designs,
against `solve_ivp` with DOP853 at 1e-12, stopped at every kink of thrust, with steps of 0.05 s at
most (1e-13 and 0.02 s move it by 3e-6 m). The reference evaluates the formulas, so the library's
errors hold those of its tables too. Tolerances near a kink of the drag are fickle: differences of
1e-16 in the columns moved the error of one row by a factor of two.
numba and jax are compiled before the clock starts; what is missing is left out and said.
"""

from __future__ import annotations

import argparse
import os
from dataclasses import dataclass, field
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

from peers.cpu import on_one_thread, seconds

on_one_thread()

import numpy as np  # noqa: E402
from peers import own, with_numpy, with_scipy  # noqa: E402
from peers.fleet import Array, Fleet, fleet  # noqa: E402
from peers.with_scipy import Setting  # noqa: E402

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

JUDGED = 32
"""Designs whose errors are taken."""
BATCH = 4096
"""Designs in the timed runs of programs that take many at once."""
OURS = "hoopline"
REFERENCE = Setting("DOP853", 1e-12, stops=True, longest_step=0.05)
TOLERANCES = (1e-4, 1e-6, 1e-8, 1e-10)
GRIDS = ((16, 12), (32, 24), (64, 48), (128, 96), (256, 192))
"""Steps in the burn and in the coast."""


@dataclass(frozen=True)
class Point:
    """One method with one setting."""

    method: str
    setting: str
    microseconds: float
    burnout_error: float
    apogee_error: float


@dataclass(frozen=True)
class Bench:
    """The designs, what is right for the judged ones, and how often a run is timed."""

    fleet: Fleet
    truth: Array
    repeats: int = 3
    points: list[Point] = field(default_factory=list)

    @classmethod
    def of(cls, judged: int, batch: int, repeats: int) -> Bench:
        """Take the first designs of the fleet."""
        whole = fleet(own.ask("problem", batch))
        return cls(whole, with_scipy.solve(whole.part(0, judged), REFERENCE), repeats)

    def add(self, method: str, setting: str, per_ascent: float, flown: Array) -> None:
        """Judge what was flown."""
        errors = np.abs(flown[: len(self.truth)] - self.truth).max(axis=0)
        self.points.append(Point(method, setting, 1e6 * per_ascent, *map(float, errors)))

    def time(
        self, method: str, setting: str, solve: Callable[[Fleet], Array], designs: Fleet
    ) -> None:
        """Judge and time a program; its first run is not timed."""
        flown = solve(designs)
        least = min(seconds(lambda: solve(designs)) for _ in range(self.repeats))
        self.add(method, setting, least / len(designs), flown)


def ours(bench: Bench) -> None:
    """Both grids of the library at the faster width, drag columns built on the way."""
    for grid, designs in (("trade", 40_000), ("fine", 8_000)):
        flown = own.solve(len(bench.truth), grid)
        least, lanes = min(
            (own.seconds_per_ascent(designs, grid, lanes), lanes)
            for _ in range(bench.repeats)
            for lanes in (8, 16)
        )
        bench.add(OURS, f"{grid} grid, {lanes} lanes", least, flown)


def with_tolerances(bench: Bench) -> None:
    """`solve_ivp`, design by design, as it is usually called and stopped at the kinks of thrust."""
    judged = bench.fleet.part(0, len(bench.truth))
    for method in ("RK45", "LSODA"):
        for stops in (False, True):
            name = f"scipy {method}{', stopped at kinks' * stops}"
            for tolerance in TOLERANCES:
                setting = Setting(method, tolerance, stops)
                flown = with_scipy.solve(judged, setting)
                spent = seconds(partial(with_scipy.solve, judged, setting))
                bench.add(name, f"tolerance {tolerance:g}", spent / len(judged), flown)


def with_steps(bench: Bench) -> None:
    """Fixed steps aligned with the kinks of thrust, as the library takes them."""
    for name, solve in solvers():
        for grid in GRIDS:
            setting = f"{grid[0]} + {grid[1]} steps"
            bench.time(f"{name} RK4", setting, partial(solve, steps=grid), bench.fleet)


def solvers() -> Iterator[tuple[str, Callable[..., Array]]]:
    """Yield those there are."""
    yield "numpy", with_numpy.solve
    if find_spec("numba") is None:
        print("numba is not there: left out")
    else:
        from peers import with_numba

        yield "numba", with_numba.solve
    if find_spec("jax") is None:
        print("jax is not there: left out")
    else:
        from peers import with_jax

        yield "jax", with_jax.solve


def cost_at(points: list[Point], error: float) -> float | None:
    """Return the time, us, at which a method has an error, straight between points in logarithms.

    More error than the least precise point has is no cheaper than it; less than the most precise
    one has is out of reach.
    """
    ordered = sorted(points, key=lambda point: point.apogee_error)
    if error < ordered[0].apogee_error:
        return None
    errors = np.log([point.apogee_error for point in ordered])
    # A slower point that is less precise too is no choice.
    costs = np.minimum.accumulate(np.log([point.microseconds for point in ordered]))
    return float(np.exp(np.interp(np.log(error), errors, costs)))


def table(points: list[Point]) -> str:
    """Return time, error and ratio to ours at equal error, one line per point."""
    best = [point for point in points if point.method == OURS]
    lines = [
        f"{'method':30} {'setting':22} {'us/ascent':>10} {'burnout, m':>11} {'apogee, m':>10} "
        f"{'over ours':>10}"
    ]
    for point in points:
        equal = cost_at(best, point.apogee_error)
        ratio = "-" if equal is None else f"{point.microseconds / equal:.3g}"
        lines.append(
            f"{point.method:30} {point.setting:22} {point.microseconds:10.3g} "
            f"{point.burnout_error:11.2g} {point.apogee_error:10.2g} {ratio:>10}"
        )
    lines.append("")
    for other in dict.fromkeys(point.method for point in points if point.method != OURS):
        own_points = [point for point in points if point.method == other]
        for level in best:
            cost = cost_at(own_points, level.apogee_error)
            said = "never" if cost is None else f"{cost / level.microseconds:.3g} x"
            lines.append(
                f"{other:30} at the {level.apogee_error:.2g} m of our {level.setting:22} {said:>9}"
            )
    return "\n".join(lines)


def sizes(most: int) -> list[dict[str, Any]]:
    """Run batches of both grids over sizes and threads; the fine grid stops a decade earlier."""
    runs: list[dict[str, Any]] = []
    threads = range(1, (os.cpu_count() or 1) + 1)
    for grid, largest in (("trade", most), ("fine", most // 10)):
        size = 100
        while size <= largest:
            # Numbers of threads take turns, so that a busy moment of the machine hits them alike.
            rounds = [
                [own.ask("run", size, 16, count, "vertical", grid) for count in threads]
                for _ in range(3 if size <= 100_000 else 1)
            ]
            best = (
                max(tries, key=lambda run: run["ascents_per_second"])
                for tries in zip(*rounds, strict=True)
            )
            runs.extend(best)
            size *= 10
    return runs


def counts() -> str:
    """Return machine instructions per ascent, one line per course, grid and width."""
    lines = []
    for course in ("vertical", "inclined"):
        for grid in ("trade", "fine"):
            for lanes in (1, 8, 16):
                count = own.instructions_per_ascent(grid, lanes, course)
                if count is None:
                    return "instructions: skipped, valgrind is not there"
                alone = "alone" if lanes == 1 else f"{lanes} lanes"
                lines.append(f"{course:9} {grid:6} {alone:9} {count:12,.0f} instructions/ascent")
    return "\n".join(lines)


def main() -> None:
    """Print the table, draw the figures."""
    parser = argparse.ArgumentParser(description="Time the batch ascent beside other programs.")
    parser.add_argument("folder", type=Path, help="where the figures go")
    parser.add_argument("--most", type=int, default=10**6, help="largest batch, up to 10000000")
    parser.add_argument("--instructions", action="store_true", help="count them with valgrind")
    asked = parser.parse_args()
    import drawn

    bench = Bench.of(JUDGED, BATCH, repeats=3)
    ours(bench)
    with_tolerances(bench)
    with_steps(bench)
    print(table(bench.points))
    steps = np.abs(own.solve(JUDGED, "trade") - own.solve(JUDGED, "fine")).max(axis=0)
    print(
        f"\nour trade grid from our fine one: burnout {steps[0]:.2g} m, apogee {steps[1]:.2g} m\n"
    )
    drawn.work_precision(bench.points, asked.folder)
    runs = sizes(asked.most)
    for run in runs:
        print(
            f"{run['grid']:6} {run['threads']} threads {run['designs']:>9} ascents "
            f"{run['ascents_per_second']:12,.0f}/s {run['peak_resident_bytes'] / 2**20:8.1f} MiB"
        )
    drawn.scaling(runs, asked.folder)
    drawn.memory(runs, asked.folder)
    if asked.instructions:
        print("\n" + counts())


if __name__ == "__main__":
    main()
