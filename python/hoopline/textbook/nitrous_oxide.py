"""Nitrous oxide in a tank: vapour pressure, densities, pressure, liquid-full temperature.

Source of all: E. W. Lemmon, R. Span, "Short Fundamental Equations of State for 20 Industrial
Fluids", Journal of Chemical and Engineering Data 51 (2006), pages 785 to 850. The equation itself
errs by about 0.1 % in density and 0.2 % in vapour pressure (from memory).
"""

from hoopline import _core
from hoopline.errors import InputError, ValidityError
from hoopline.number import Given, Limits, number

_TRIPLE, _CRITICAL, _HOTTEST, _CRITICAL_DENSITY, _DENSEST, _HIGHEST = _core.nitrous_oxide_range()
_SATURATED = Limits("K", _TRIPLE, _CRITICAL, "temperature")
_ANY_TEMPERATURE = Limits("K", _TRIPLE, _HOTTEST, "temperature")
_DENSITY = Limits("kg/m3", 1e-3, _DENSEST, "density")
_PRESSURE = Limits("Pa absolute", 0.0, _HIGHEST, "absolute pressure")


def saturation_pressure(temperature: Given) -> float:
    """Return the vapour pressure: of a tank that liquid and vapour share.

    Parameters
    ----------
    temperature
        Temperature, K, from the triple point, 182.33 K, to the critical point, 309.52 K.

    Returns
    -------
    float
        Pressure, Pa absolute.

    Notes
    -----
    Range, source and error: see the module.

    Examples
    --------
    >>> round(saturation_pressure("20 degC") / 1e6, 6)  # MPa
    5.052509
    """
    return _core.nitrous_oxide_saturation(number("temperature", temperature, _SATURATED))[0]


def liquid_density(temperature: Given) -> float:
    """Return the density of the liquid in equilibrium with its vapour.

    Parameters
    ----------
    temperature
        Temperature, K, from the triple point, 182.33 K, to the critical point, 309.52 K.

    Returns
    -------
    float
        Density, kg/m3.

    Notes
    -----
    Range, source and error: see the module.

    Examples
    --------
    >>> round(liquid_density("20 degC"), 4)
    785.104
    """
    return _core.nitrous_oxide_saturation(number("temperature", temperature, _SATURATED))[1]


def vapour_density(temperature: Given) -> float:
    """Return the density of the vapour in equilibrium with its liquid.

    Parameters
    ----------
    temperature
        Temperature, K, from the triple point, 182.33 K, to the critical point, 309.52 K.

    Returns
    -------
    float
        Density, kg/m3.

    Notes
    -----
    Range, source and error: see the module.

    Examples
    --------
    >>> round(vapour_density("20 degC"), 4)
    157.9856
    """
    return _core.nitrous_oxide_saturation(number("temperature", temperature, _SATURATED))[2]


def pressure(temperature: Given, density: Given) -> float:
    """Return the pressure of one phase: liquid, vapour, or beyond the critical point.

    Parameters
    ----------
    temperature
        Temperature, K, 182.33 to 525.
    density
        Density, kg/m3, to 1237.35; in a closed tank that one phase fills, mass over volume.

    Returns
    -------
    float
        Pressure, Pa absolute.

    Raises
    ------
    ValidityError
        Liquid and vapour share the tank at that temperature and mean density, or the pressure is
        above 50 MPa.

    Notes
    -----
    Range, source and error: see the module.

    Examples
    --------
    >>> round(pressure("50 degC", 700.0) / 1e6, 4)  # MPa
    13.6381
    """
    kelvin = number("temperature", temperature, _ANY_TEMPERATURE)
    given = number("density", density, _DENSITY)
    if kelvin < _CRITICAL:
        _, liquid, vapour = _core.nitrous_oxide_saturation(kelvin)
        if vapour < given < liquid:
            raise ValidityError(
                f"density = {_DENSITY.show(given)} lies between vapour, {_DENSITY.show(vapour)}, "
                f"and liquid, {_DENSITY.show(liquid)}, at {_ANY_TEMPERATURE.show(kelvin)}: both "
                "share the tank, and its pressure is saturation_pressure"
            )
    found = _core.nitrous_oxide_pressure(kelvin, given)
    if not found <= _HIGHEST:
        raise ValidityError(
            f"the pressure, {_PRESSURE.show(found)}, is above {_PRESSURE.show(_HIGHEST)}, to which "
            "the equation of state is meant"
        )
    return found


def liquid_full_temperature(density: Given) -> float:
    """Return the temperature at which a closed tank becomes full of liquid.

    The saturated liquid has swollen to the tank's mean density and no vapour is left; from there
    the pressure climbs steeply.

    Parameters
    ----------
    density
        Mean density, mass over volume, kg/m3: above the critical one, 452.93, to 1237.35.

    Returns
    -------
    float
        Temperature, K.

    Notes
    -----
    An error of 0.1 % in density moves it by 0.1 K at 750 kg/m3. Source: see the module.

    Examples
    --------
    >>> round(liquid_full_temperature("740 kg/m3") - 273.15, 2)  # degC
    25.31
    """
    given = number("density", density, _DENSITY.between(_CRITICAL_DENSITY, _DENSEST))
    found = _core.nitrous_oxide_liquid_full_temperature(given)
    if found is None:
        raise InputError(
            f"density = {_DENSITY.show(given)}: a tank of this mean density never fills with liquid"
        )
    return found
