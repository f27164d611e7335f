"""The problem as arrays: thrust in legs, drag as cubics, friction as four numbers per surface."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

Array = NDArray[np.float64]

STANDARD_GRAVITY = 9.80665
"""m/s2, U.S. Standard Atmosphere 1976, table of constants."""
EARTH_RADIUS = 6_356_766.0
"""m, the same."""
GAS_CONSTANT = 8_314.32 / 28.9644
"""J/(kg K), the same."""
SEA_LEVEL_TEMPERATURE = 288.15
"""K, the same."""
SEA_LEVEL_PRESSURE = 101_325.0
"""Pa, the same."""
LAPSE = 6.5e-3
"""K/m up to the tropopause, the same."""
TROPOPAUSE = 11_000.0
"""Geopotential altitude, m; the layer above is isothermal up to `HIGHEST`."""
HIGHEST = 20_000.0
"""Geopotential altitude, m, up to which the two layers hold."""
SUTHERLAND_FACTOR, SUTHERLAND_TEMPERATURE = 1.458e-6, 110.4
"""kg/(s m K^0.5) and K, the same."""

EXPONENT = STANDARD_GRAVITY / (GAS_CONSTANT * LAPSE)
TROPOPAUSE_TEMPERATURE = SEA_LEVEL_TEMPERATURE - LAPSE * TROPOPAUSE
TROPOPAUSE_PRESSURE = (
    SEA_LEVEL_PRESSURE * (TROPOPAUSE_TEMPERATURE / SEA_LEVEL_TEMPERATURE) ** EXPONENT
)

FADING = 0.1
"""Share of the mean thrust below which the pressure term of thrust fades (the library's choice)."""
MACH_CELL = 0.05
"""Every Mach knot lies on this grid, so a cell is found without a search."""


@dataclass(frozen=True)
class Fleet:
    """`n` designs, `k` legs of thrust between kinks, `c` cells between Mach knots."""

    shares: Array
    """(k,) Share of the burn that each leg takes."""
    legs: Array
    """(n, k, 5) Start s, length s, thrust N, its rise N/s, mass kg at the start."""
    begins: Array
    """(n, k) Time within the leg from which it is flown, s: none of it before lift-off."""
    engines: Array
    """(n, 6) Mean thrust N, reference pressure Pa, exit area m2, reference area m2, half of one
    over exhaust speed s/m, burnout mass kg."""
    columns: Array
    """(n, c, 8) Pressure drag in a cell, by powers of the way into it: four coefficients without
    thrust, four of what full thrust adds."""
    cells: Array
    """(c, 2) Mach number at the start of a cell, one over its width."""
    cell_of: NDArray[np.int64]
    """(5 / MACH_CELL,) Number of the cell by the Mach number over MACH_CELL."""
    surfaces: Array
    """(n, 2, 4) Logarithms of length and of cut-off Reynolds number (at low speed factor), wetted
    over reference area, form factor less one."""
    site: float
    """Altitude of the launch site, m."""

    def part(self, start: int, stop: int) -> Fleet:
        """Return some of the designs."""
        return replace(self, **{name: getattr(self, name)[start:stop] for name in PER_DESIGN})

    def steps(self, burn: int) -> list[int]:
        """Return the steps of each leg when the burn gets about `burn` of them."""
        return [max(1, int(np.ceil(share * burn))) for share in self.shares]

    def __len__(self) -> int:
        return len(self.legs)


PER_DESIGN = ("legs", "begins", "engines", "columns", "surfaces")


def fleet(problem: dict[str, Any]) -> Fleet:
    """Take the problem as printed by `fleet_runs problem`."""
    designs = problem["designs"]

    def each(name: str) -> Array:
        return np.array([design[name] for design in designs])

    knots = kinks(np.array(problem["curve"]["time"]), np.array(problem["curve"]["force"]))
    duration, impulse = knots[-1, 0], knots[-1, 2]
    thrust, exhaust, lift_off = each("mean_thrust"), each("exhaust_speed"), each("lift_off_mass")
    stretch = each("propellant") * exhaust / thrust / duration
    lift = thrust / (impulse / duration)
    start, span = np.outer(stretch, knots[:-1, 0]), np.outer(stretch, np.diff(knots[:, 0]))
    force = np.outer(lift, knots[:, 1])
    mass = lift_off[:, None] - (lift * stretch / exhaust)[:, None] * knots[:, 2]
    rise = np.diff(force, axis=1) / span
    legs = np.stack([start, span, force[:, :-1], rise, mass[:, :-1]], axis=2)

    same = np.ones(len(designs))
    reference, exit_area = problem["reference_pressure"], problem["exit_area"]
    area = each("reference_area")
    engines = [thrust, same * reference, same * exit_area, area, 0.5 / exhaust, mass[:, -1]]
    mach = np.array(problem["mach"])
    middles = (np.arange(round(mach[-1] / MACH_CELL)) + 0.5) * MACH_CELL
    off, on = each("pressure_drag_power_off"), each("pressure_drag_power_on")
    whole = Fleet(
        shares=np.diff(knots[:, 0]) / duration,
        legs=legs,
        begins=np.zeros(span.shape),
        engines=np.stack(engines, axis=1),
        columns=np.concatenate([cubics(mach, off), cubics(mach, on - off)], axis=2),
        cells=np.stack([mach[:-1], 1.0 / np.diff(mach)], axis=1),
        cell_of=np.searchsorted(mach, middles) - 1,
        surfaces=np.array([[surface(each) for each in design["surfaces"]] for design in designs]),
        site=problem["site_altitude"],
    )
    begins = np.clip(lift_off_times(whole)[:, None] - start, 0.0, span)
    return replace(whole, begins=begins)


def kinks(time: Array, force: Array) -> Array:
    """Return time, thrust and impulse where thrust has a kink, rows ascending.

    Beside the points given these are where it passes its mean (full power) and `FADING` of it.
    """
    mean = np.trapezoid(force, time) / time[-1]
    passed = [time]
    for level in (FADING * mean, mean):
        above = force > level
        left = np.flatnonzero(above[1:] != above[:-1])
        way = (level - force[left]) / (force[left + 1] - force[left])
        passed.append(time[left] + way * (time[left + 1] - time[left]))
    times = np.unique(np.concatenate(passed))
    forces = np.interp(times, time, force)
    areas = 0.5 * (forces[1:] + forces[:-1]) * np.diff(times)
    return np.stack([times, forces, np.concatenate([[0.0], np.cumsum(areas)])], axis=1)


def cubics(mach: Array, ordinates: Array) -> Array:
    """Return the natural splines through rows of ordinates, by powers of the way into a cell."""
    spline = CubicSpline(mach, ordinates, axis=1, bc_type="natural")
    powers = np.diff(mach)[None, :] ** np.arange(4)[:, None]
    by_power: Array = spline.c[::-1] * powers[:, :, None]
    return np.moveaxis(by_power, 0, -1).swapaxes(0, 1)


def surface(given: dict[str, float]) -> list[float]:
    """Return what the friction law takes; sources stand in `src/airframe/friction.rs`."""
    cut_off = 1.053 * np.log10(given["length"] / given["roughness"])
    share, form = given["wetted_over_reference_area"], given["form_factor_less_one"]
    return [np.log10(given["length"]), cut_off, share, form]


def lift_off_times(fleet: Fleet) -> Array:
    """Return when thrust first exceeds weight, s after ignition, by bisection."""
    thrust, reference, exit_area, _, half_per_exhaust, _ = fleet.engines.T
    stretch = EARTH_RADIUS / (EARTH_RADIUS + fleet.site)
    temperature = SEA_LEVEL_TEMPERATURE - LAPSE * stretch * fleet.site
    pressure = SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** EXPONENT
    relief = (reference - pressure) * exit_area

    def net(leg: int, within: Array) -> Array:
        _, _, force, rise, mass = fleet.legs[:, leg].T
        basis = force + rise * within
        left = mass - (force + basis) * within * half_per_exhaust
        weight = left * STANDARD_GRAVITY * stretch**2
        spare: Array = basis + relief * np.minimum(basis / thrust / FADING, 1.0) - weight
        return spare

    found = np.full(len(fleet), np.nan)
    for leg in range(fleet.legs.shape[1]):
        low, high = np.zeros(len(fleet)), fleet.legs[:, leg, 1].copy()
        lifts = np.isnan(found) & (net(leg, high) > 0.0)
        for _ in range(60):
            middle = 0.5 * (low + high)
            up = net(leg, middle) > 0.0
            low, high = np.where(up, low, middle), np.where(up, middle, high)
        found[lifts] = (fleet.legs[:, leg, 0] + high)[lifts]
    return found
