"""`solve_ivp` design by design: over time to the end of thrust, then to the event of no speed."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from scipy.integrate import solve_ivp

from peers.scalar import acceleration

if TYPE_CHECKING:
    from peers.fleet import Array, Fleet


@dataclass(frozen=True)
class Setting:
    """How `solve_ivp` is called; `stops` at every kink of thrust and starts anew."""

    method: str
    tolerance: float
    stops: bool
    longest_step: float = np.inf


def solve(fleet: Fleet, setting: Setting) -> Array:
    """Return burnout altitude and apogee above the site, m, one row per design."""
    return np.array([ascend(fleet, index, setting) for index in range(len(fleet))])


def ascend(fleet: Fleet, index: int, setting: Setting) -> tuple[float, float]:
    """Fly one design; its numbers are made plain lists, which an interpreter reads faster."""
    legs = fleet.legs[index].tolist()
    starts = [leg[0] for leg in legs]
    engine = fleet.engines[index].tolist()
    drag = (
        fleet.columns[index].tolist(),
        fleet.cells.tolist(),
        fleet.cell_of.tolist(),
        fleet.surfaces[index].tolist(),
    )
    options = {
        "method": setting.method,
        "rtol": setting.tolerance,
        "atol": setting.tolerance,
        "max_step": setting.longest_step,
    }

    def burning(time: float, state: Array) -> tuple[float, float]:
        start, _, force, rise, mass = legs[max(bisect_right(starts, time) - 1, 0)]
        within = time - start
        basis = force + rise * within
        left = mass - (force + basis) * within * engine[4]
        altitude, speed = state.tolist()
        return speed, acceleration(altitude, speed, basis, left, engine, *drag)

    def coasting(_time: float, state: Array) -> tuple[float, float]:
        altitude, speed = state.tolist()
        return speed, acceleration(altitude, speed, 0.0, engine[5], engine, *drag)

    def climbing(_time: float, state: Array) -> float:
        return float(state[1])

    climbing.terminal = True  # type: ignore[attr-defined]
    lift_off = float(np.max(fleet.legs[index, :, 0] * (fleet.begins[index] > 0.0)))
    leg = max(bisect_right(starts, lift_off) - 1, 0)
    lift_off = starts[leg] + float(fleet.begins[index, leg])
    end = legs[-1][0] + legs[-1][1]
    inner = [start for start in starts if start > lift_off] if setting.stops else []
    state = np.array([fleet.site, 0.0])
    times = [lift_off, *inner, end]
    for start, stop in pairwise(times):
        state = solve_ivp(burning, (start, stop), state, **options).y[:, -1]
    coast = solve_ivp(coasting, (end, end + 300.0), state, events=climbing, **options)
    return state[0] - fleet.site, coast.y_events[0][0][0] - fleet.site
