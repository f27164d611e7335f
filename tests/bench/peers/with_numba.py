"""One design after the other in a loop that numba compiles."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numba
import numpy as np

from peers import scalar

if TYPE_CHECKING:
    from peers.fleet import Array, Fleet

compiled = numba.njit(fastmath=True, error_model="numpy")
acceleration = compiled(scalar.acceleration)


def solve(fleet: Fleet, steps: tuple[int, int]) -> Array:
    """Return burnout altitude and apogee above the site, m; `steps` in the burn and the coast."""
    burn, coast = steps
    counts = np.array(fleet.steps(burn))
    drag = (fleet.columns, fleet.cells, fleet.cell_of, fleet.surfaces)
    flown: Array = ascend(fleet.legs, fleet.begins, counts, coast, fleet.engines, *drag, fleet.site)
    return flown - fleet.site


@compiled
def ascend(
    legs: Any,
    begins: Any,
    counts: Any,
    coast: Any,
    engines: Any,
    columns: Any,
    cells: Any,
    cell_of: Any,
    surfaces: Any,
    site: Any,
) -> Any:
    """Fly every design: over time to the end of thrust, then over speed to the apogee."""
    flown = np.empty((len(legs), 2))
    for design in range(len(legs)):
        engine = engines[design]
        drag = (engine, columns[design], cells, cell_of, surfaces[design])
        altitude, speed = site, 0.0
        for index in range(len(counts)):
            _, span, force, rise, start_mass = legs[design, index]
            begin = begins[design, index]
            step = (span - begin) / counts[index]
            for k in range(counts[index]):
                within = begin + step * k
                height, pace = altitude, speed
                climbed, gained = 0.0, 0.0
                for stage in range(4):
                    at = within + step * (0.0, 0.5, 0.5, 1.0)[stage]
                    basis = force + rise * at
                    mass = start_mass - (force + basis) * at * engine[4]
                    push = acceleration(height, pace, basis, mass, *drag)
                    weight = step * (1.0, 2.0, 2.0, 1.0)[stage] / 6.0
                    climbed, gained = climbed + weight * pace, gained + weight * push
                    ahead = step * (0.5, 0.5, 1.0, 0.0)[stage]
                    height, pace = altitude + ahead * pace, speed + ahead * push
                altitude, speed = altitude + climbed, speed + gained
        flown[design, 0] = altitude
        step = -speed / coast
        for k in range(coast):
            height, climbed = altitude, 0.0
            for stage in range(4):
                pace = speed + step * (k + (0.0, 0.5, 0.5, 1.0)[stage])
                slope = pace / acceleration(height, pace, 0.0, engine[5], *drag)
                climbed += step * (1.0, 2.0, 2.0, 1.0)[stage] / 6.0 * slope
                height = altitude + step * (0.5, 0.5, 1.0, 0.0)[stage] * slope
            altitude += climbed
        flown[design, 1] = altitude
    return flown
