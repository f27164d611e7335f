"""A compiled scan over the steps, mapped over the designs, in double precision."""

from __future__ import annotations

from functools import cache
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np

from peers.arrays import acceleration, burn_step, coast_step, cubic
from peers.fleet import MACH_CELL, PER_DESIGN, Array, Fleet

jax.config.update("jax_enable_x64", True)  # type: ignore[no-untyped-call]


def solve(fleet: Fleet, steps: tuple[int, int]) -> Array:
    """Return burnout altitude and apogee above the site, m; `steps` in the burn and the coast."""
    own = tuple(getattr(fleet, name) for name in PER_DESIGN)
    shared = (fleet.cells, fleet.cell_of, fleet.site)
    flown = program(tuple(fleet.steps(steps[0])), steps[1])(own, shared)
    return np.asarray(flown) - fleet.site


@cache
def program(counts: tuple[int, ...], coast: int) -> Any:
    """Return the compiled program of a grid."""
    which = np.repeat(np.arange(len(counts)), counts)
    into = np.concatenate([np.arange(count) / count for count in counts])
    parts = np.repeat(1.0 / np.array(counts), counts)

    def ascend(own: Any, shared: Any) -> Any:
        legs, begins, engine, columns, surfaces = own
        cells, cell_of, site = shared

        def pressure_drag(mach: Any, power: Any) -> Any:
            cell = cell_of[(mach / MACH_CELL).astype(int)]
            start, per_width = cells[cell]
            return cubic(columns[cell], (mach - start) * per_width, power)

        def push(motion: Any, basis: Any, mass: Any) -> Any:
            return acceleration(jnp, pressure_drag, engine, surfaces, motion, basis, mass)

        def burning(motion: Any, at: Any) -> Any:
            index, into, part = at
            leg, begin = legs[index], begins[index]
            span = leg[1] - begin
            within, step = begin + span * into, span * part
            return burn_step(push, (*leg, engine[4]), within, step, motion), None

        start = (jnp.asarray(site, float), jnp.asarray(0.0))
        (burnout, fastest), _ = jax.lax.scan(burning, start, (which, into, parts))
        step = -fastest / coast

        def coasting(altitude: Any, k: Any) -> Any:
            return coast_step(push, engine[5], fastest + step * k, step, altitude), None

        apogee, _ = jax.lax.scan(coasting, burnout, jnp.arange(coast))
        return jnp.stack([burnout, apogee])

    return jax.jit(jax.vmap(ascend, in_axes=(0, None)))
