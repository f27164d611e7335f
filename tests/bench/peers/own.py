"""The library's own runs, through the bench binary."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from peers.cpu import children_seconds

if TYPE_CHECKING:
    from peers.fleet import Array

ROOT = Path(__file__).resolve().parents[3]


@cache
def program() -> str:
    """Build `fleet_runs` as benchmarks are built; return where it is."""
    return built({})


def built(settings: dict[str, str]) -> str:
    """Build `fleet_runs` with settings of cargo in the environment; return where it is."""
    command = ("cargo", "bench", "--locked", "--bench", "fleet_runs", "--no-run")
    done = subprocess.run(
        (*command, "--message-format", "json"),
        cwd=ROOT,
        env={**os.environ, **settings},
        check=True,
        capture_output=True,
        text=True,
    )
    messages = [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]
    found = [message["executable"] for message in messages if message.get("executable")]
    return str(found[-1])


def ask(*words: object, build: str | None = None) -> Any:
    """Return what the program prints; the benchmarks' own build if no other is given."""
    command = (build or program(), *map(str, words))
    return json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)


def solve(designs: int, grid: str, *, lanes: int = 16, threads: int = 1) -> Array:
    """Return burnout altitude and apogee above the site, m, one row per design."""
    flown = ask("run", designs, lanes, threads, "vertical", grid, designs)
    columns = [flown["columns"].index(f"{name} [m]") for name in ("burnout altitude", "apogee")]
    return np.array(flown["rows"])[:, columns]


def seconds_per_ascent(designs: int, grid: str, lanes: int) -> float:
    """Return processor time per ascent on one thread, s, without the start of the program."""

    def spent(count: int) -> float:
        return children_seconds(lambda: ask("run", count, lanes, 1, "vertical", grid))

    return (spent(designs) - spent(lanes)) / (designs - lanes)


def instructions_per_ascent(grid: str, lanes: int, course: str) -> float | None:
    """Return machine instructions per ascent on one thread; None without valgrind.

    The difference between two runs, so that what the program does once drops out.
    """
    if shutil.which("valgrind") is None:
        return None

    def counted(count: int) -> int:
        words = ("run", str(count), str(lanes), "1", course, grid)
        tool = ("valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null")
        done = subprocess.run(
            (*tool, program(), *words), check=True, capture_output=True, text=True
        )
        found = re.search(r"Collected : (\d+)", done.stderr)
        if found is None:
            raise RuntimeError(f"valgrind printed no count:\n{done.stderr}")
        return int(found[1])

    # Blocks of designs are filled, so both runs hold whole groups of lanes.
    few, many = 16 * lanes, 48 * lanes
    return (counted(many) - counted(few)) / (many - few)
