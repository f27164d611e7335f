"""All designs in step in numpy arrays, a chunk at a time of the size found fastest."""

from __future__ import annotations

import numpy as np

from peers.arrays import acceleration, burn_step, coast_step, cubic
from peers.fleet import MACH_CELL, Array, Fleet

CHUNK = 4096


def solve(fleet: Fleet, steps: tuple[int, int]) -> Array:
    """Return burnout altitude and apogee above the site, m; `steps` in the burn and the coast."""
    chunks = [
        ascend(fleet.part(start, start + CHUNK), steps) for start in range(0, len(fleet), CHUNK)
    ]
    return np.concatenate(chunks)


def ascend(fleet: Fleet, steps: tuple[int, int]) -> Array:
    """Fly one chunk."""
    burn, coast = steps
    engine, surfaces = fleet.engines.T, np.moveaxis(fleet.surfaces, 0, -1)
    each = np.arange(len(fleet))

    def pressure_drag(mach: Array, power: Array) -> Array:
        cell = fleet.cell_of[(mach / MACH_CELL).astype(np.int64)]
        start, per_width = fleet.cells[cell].T
        drag: Array = cubic(fleet.columns[each, cell].T, (mach - start) * per_width, power)
        return drag

    def push(motion: tuple[Array, Array], basis: Array, mass: Array) -> Array:
        change: Array = acceleration(np, pressure_drag, engine, surfaces, motion, basis, mass)
        return change

    motion = (np.full(len(fleet), fleet.site), np.zeros(len(fleet)))
    for index, count in enumerate(fleet.steps(burn)):
        leg, begin = (*fleet.legs[:, index].T, engine[4]), fleet.begins[:, index]
        step = (leg[1] - begin) / count
        for k in range(count):
            motion = burn_step(push, leg, begin + step * k, step, motion)
    burnout, fastest = motion
    altitude, step = burnout, -fastest / coast
    for k in range(coast):
        altitude = coast_step(push, engine[5], fastest + step * k, step, altitude)
    return np.stack([burnout, altitude], axis=1) - fleet.site
