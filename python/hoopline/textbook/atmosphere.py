"""The air of the U.S. Standard Atmosphere 1976."""

from typing import NamedTuple

from hoopline import _core
from hoopline.number import Given, Limits, number

_ALTITUDE = Limits("m", -5_000.0, 86_000.0, "altitude")


class Air(NamedTuple):
    """State of the air at one altitude.

    Attributes
    ----------
    temperature
        Temperature, K.
    pressure
        Pressure, Pa absolute.
    density
        Density, kg/m3.
    sound_speed
        Speed of sound, m/s.
    viscosity
        Dynamic viscosity, Pa s.
    """

    temperature: float
    pressure: float
    density: float
    sound_speed: float
    viscosity: float


def air(altitude: Given) -> Air:
    """Return the air of the U.S. Standard Atmosphere 1976.

    Parameters
    ----------
    altitude
        Geometric altitude above sea level, m, -5 to 86 km.

    Returns
    -------
    Air
        Temperature, pressure, density, speed of sound and viscosity.

    Notes
    -----
    Table against exact functions within 1e-9; above 80 km the temperature is the molecular-scale
    one, 0.05 % off. Source: "U.S. Standard Atmosphere, 1976", NOAA-S/T 76-1562.

    Examples
    --------
    >>> at = air("10 km")
    >>> round(at.temperature, 2), round(at.pressure), round(at.density, 5)
    (223.25, 26500, 0.41351)
    """
    return Air(*_core.air(number("altitude", altitude, _ALTITUDE)))
