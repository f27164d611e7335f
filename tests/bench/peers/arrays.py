"""The same acceleration for arrays of designs, in numpy or in whatever has its functions."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from peers.fleet import (
    EARTH_RADIUS,
    EXPONENT,
    FADING,
    GAS_CONSTANT,
    LAPSE,
    SEA_LEVEL_PRESSURE,
    SEA_LEVEL_TEMPERATURE,
    STANDARD_GRAVITY,
    SUTHERLAND_FACTOR,
    SUTHERLAND_TEMPERATURE,
    TROPOPAUSE,
    TROPOPAUSE_PRESSURE,
    TROPOPAUSE_TEMPERATURE,
)
from peers.scalar import FALL, LOG_SUBSONIC, LOG_SUPERSONIC, MOST_MACH

Slope = Callable[[Any, Any], Any]


def acceleration(
    xp: Any, pressure_drag: Slope, engine: Any, surfaces: Any, motion: Any, basis: Any, mass: Any
) -> Any:
    """Return the change of speed, m/s2; `pressure_drag` takes the Mach number and the power."""
    altitude, speed = motion
    full_thrust, reference_pressure, exit_area, area = engine[:4]
    stretch = EARTH_RADIUS / (EARTH_RADIUS + altitude)
    geopotential = stretch * altitude
    temperature = xp.maximum(SEA_LEVEL_TEMPERATURE - LAPSE * geopotential, TROPOPAUSE_TEMPERATURE)
    pressure = SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** EXPONENT
    above = TROPOPAUSE_PRESSURE * xp.exp(FALL * (TROPOPAUSE - geopotential))
    pressure = xp.where(geopotential < TROPOPAUSE, pressure, above)
    density = pressure / (GAS_CONSTANT * temperature)
    sound = xp.sqrt(1.4 * GAS_CONSTANT * temperature)
    viscosity = (
        SUTHERLAND_FACTOR
        * temperature
        * xp.sqrt(temperature)
        / (temperature + SUTHERLAND_TEMPERATURE)
    )

    mach = xp.clip(speed / sound, 0.0, MOST_MACH)
    share = basis / full_thrust
    drag = pressure_drag(mach, xp.minimum(share, 1.0))
    log_mach = xp.log10(xp.maximum(mach, 0.1))
    log_reynolds = log_mach + xp.log10(density * sound / viscosity)
    shift = xp.maximum(1.16 * log_mach + LOG_SUPERSONIC, LOG_SUBSONIC)
    rise = xp.clip(5.0 * (mach - 0.8), 0.0, 1.0)
    subsonic = 1.0 - rise * rise * (3.0 - 2.0 * rise)
    compressed = 0.455 * (1.0 + 0.144 * mach * mach) ** -0.65
    for log_length, log_cut_off, wetted, form in surfaces:
        reynolds = xp.maximum(xp.minimum(log_length + log_reynolds, log_cut_off + shift), 5.0)
        drag = drag + wetted * (1.0 + form * subsonic) * compressed * reynolds**-2.58

    relief = (reference_pressure - pressure) * exit_area
    thrust = basis + relief * xp.minimum(share / FADING, 1.0)
    force = thrust - 0.5 * density * speed * speed * drag * area
    return force / mass - STANDARD_GRAVITY * stretch * stretch


def cubic(row: Any, way: Any, power: Any) -> Any:
    """Return the pressure drag in a cell; `row` as in `Fleet.columns`, its eight entries first."""
    off = row[0] + way * (row[1] + way * (row[2] + way * row[3]))
    return off + power * (row[4] + way * (row[5] + way * (row[6] + way * row[7])))


def burn_step(push: Callable[..., Any], leg: Any, within: Any, step: Any, motion: Any) -> Any:
    """Take one step over time; `push` takes motion, thrust and mass, `leg` as in `Fleet.legs`."""
    _, _, force, rise, start_mass, half_per_exhaust = leg

    def slope(within: Any, state: Any) -> Any:
        basis = force + rise * within
        mass = start_mass - (force + basis) * within * half_per_exhaust
        return state[1], push(state, basis, mass)

    return rk4(slope, within, motion, step)


def coast_step(push: Callable[..., Any], mass: Any, speed: Any, step: Any, altitude: Any) -> Any:
    """Take one step over speed, which ends at the apogee without a search."""

    def slope(speed: Any, state: Any) -> Any:
        return (speed / push((state[0], speed), 0.0, mass),)

    return rk4(slope, speed, (altitude,), step)[0]


def rk4(slope: Slope, x: Any, state: Any, step: Any) -> Any:
    """Take a step of the classical fourth-order formula of Runge and Kutta."""

    def moved(by: Any, slopes: Any) -> Any:
        return tuple(y + by * k for y, k in zip(state, slopes, strict=True))

    first = slope(x, state)
    second = slope(x + step / 2, moved(step / 2, first))
    third = slope(x + step / 2, moved(step / 2, second))
    last = slope(x + step, moved(step, third))
    means = [
        (a + 2.0 * (b + c) + d) / 6.0 for a, b, c, d in zip(first, second, third, last, strict=True)
    ]
    return moved(step, means)
