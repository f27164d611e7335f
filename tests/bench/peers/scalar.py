"""Acceleration of one design in plain scalar Python; numba compiles it as it stands.

Conditional expressions stand in place of `min` and `max`, which cost an interpreter more.
"""

from __future__ import annotations

from math import exp, log10, sqrt
from typing import TYPE_CHECKING

from peers.fleet import (
    EARTH_RADIUS,
    EXPONENT,
    FADING,
    GAS_CONSTANT,
    LAPSE,
    MACH_CELL,
    SEA_LEVEL_PRESSURE,
    SEA_LEVEL_TEMPERATURE,
    STANDARD_GRAVITY,
    SUTHERLAND_FACTOR,
    SUTHERLAND_TEMPERATURE,
    TROPOPAUSE,
    TROPOPAUSE_PRESSURE,
    TROPOPAUSE_TEMPERATURE,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    Table = Sequence[Sequence[float]]

FALL = STANDARD_GRAVITY / (GAS_CONSTANT * TROPOPAUSE_TEMPERATURE)
LOG_SUBSONIC, LOG_SUPERSONIC = log10(38.21), log10(44.62)
MOST_MACH = 5.0 * (1.0 - 1e-12)


def acceleration(
    altitude: float,
    speed: float,
    basis: float,
    mass: float,
    engine: Sequence[float],
    columns: Table,
    cells: Table,
    cell_of: Sequence[int],
    surfaces: Table,
) -> float:
    """Return the change of speed, m/s2, under a thrust at its basis, N; arrays as in `Fleet`."""
    stretch = EARTH_RADIUS / (EARTH_RADIUS + altitude)
    geopotential = stretch * altitude
    if geopotential < TROPOPAUSE:
        temperature = SEA_LEVEL_TEMPERATURE - LAPSE * geopotential
        pressure = SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** EXPONENT
    else:
        temperature = TROPOPAUSE_TEMPERATURE
        pressure = TROPOPAUSE_PRESSURE * exp(FALL * (TROPOPAUSE - geopotential))
    density = pressure / (GAS_CONSTANT * temperature)
    sound = sqrt(1.4 * GAS_CONSTANT * temperature)
    viscosity = (
        SUTHERLAND_FACTOR * temperature * sqrt(temperature) / (temperature + SUTHERLAND_TEMPERATURE)
    )

    mach = speed / sound
    mach = 0.0 if mach < 0.0 else (mach if mach < MOST_MACH else MOST_MACH)
    share = basis / engine[0]
    power = share if share < 1.0 else 1.0
    cell = cell_of[int(mach / MACH_CELL)]
    way = (mach - cells[cell][0]) * cells[cell][1]
    row = columns[cell]
    drag = row[0] + way * (row[1] + way * (row[2] + way * row[3]))
    drag += power * (row[4] + way * (row[5] + way * (row[6] + way * row[7])))

    log_mach = log10(mach if mach > 0.1 else 0.1)
    log_reynolds = log_mach + log10(density * sound / viscosity)
    shift = 1.16 * log_mach + LOG_SUPERSONIC
    shift = shift if shift > LOG_SUBSONIC else LOG_SUBSONIC
    rise = 5.0 * (mach - 0.8)
    rise = 0.0 if rise < 0.0 else (rise if rise < 1.0 else 1.0)
    subsonic = 1.0 - rise * rise * (3.0 - 2.0 * rise)
    compressed = 0.455 * (1.0 + 0.144 * mach * mach) ** -0.65
    for log_length, log_cut_off, wetted, form in surfaces:
        smooth, rough = log_length + log_reynolds, log_cut_off + shift
        reynolds = smooth if smooth < rough else rough
        reynolds = reynolds if reynolds > 5.0 else 5.0
        drag += wetted * (1.0 + form * subsonic) * compressed * reynolds**-2.58

    fading = share / FADING
    thrust = basis + (engine[1] - pressure) * engine[2] * (fading if fading < 1.0 else 1.0)
    force: float = thrust - 0.5 * density * speed * speed * drag * engine[3]
    return force / mass - STANDARD_GRAVITY * stretch * stretch
