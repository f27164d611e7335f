"""Burn and coast in closed form: what a pocket calculator says about an ascent."""

from hoopline import _core
from hoopline.number import (
    ACCELERATION,
    DENSITY,
    MASS,
    SPEED,
    TIME,
    Given,
    Limits,
    larger,
    number,
)

_GRAVITY = Limits("m/s2", 0.01, 300.0, "acceleration")
_AREA = Limits("m2", 0.0, 1e4, "area")
_FACTOR = Limits("1/m", 0.0, 1e3)


def drag_free_speed(
    exhaust_speed: Given, lift_off: Given, burnout: Given, gravity: Given, time: Given
) -> float:
    """Return the speed at the end of thrust without drag, `v = c ln(m0 / m1) - g t`.

    Parameters
    ----------
    exhaust_speed
        Effective exhaust speed c, m/s: specific impulse times 9.80665.
    lift_off, burnout
        Masses m0 and m1, kg, the first the larger one.
    gravity
        Gravity along the path g, m/s2.
    time
        Burn time t, s.

    Returns
    -------
    float
        Speed, m/s; below zero where gravity takes more than thrust gives.

    Notes
    -----
    An upper bound where there is drag and the thrust does not grow with altitude. Source: the
    rocket equation; ProofWiki, "Burnout Velocity of Upward Rocket under Constant Gravity" (title
    from memory).

    Examples
    --------
    >>> round(drag_free_speed(2000.0, 130.0, 75.0, 9.80665, 15.0), 4)
    952.9929
    """
    return _core.drag_free_speed(*_rocket(exhaust_speed, lift_off, burnout, gravity, time))


def drag_free_distance(
    exhaust_speed: Given, lift_off: Given, burnout: Given, gravity: Given, time: Given
) -> float:
    """Return the distance to the end of thrust without drag.

    `h = c t (1 - ln R / (R - 1)) - g t^2 / 2` with `R = m0 / m1`.

    Parameters
    ----------
    exhaust_speed, lift_off, burnout, gravity, time
        As for `drag_free_speed`.

    Returns
    -------
    float
        Distance, m; below zero where gravity takes more than thrust gives.

    Notes
    -----
    Constant mass flow, no drag. Source: ProofWiki, "Burnout Height of Upward Rocket under
    Constant Gravity".

    Examples
    --------
    >>> round(drag_free_distance(2000.0, 130.0, 75.0, 9.80665, 15.0), 4)
    6394.8563
    """
    return _core.drag_free_distance(*_rocket(exhaust_speed, lift_off, burnout, gravity, time))


def drag_free_coast(speed: Given, gravity: Given) -> float:
    """Return the height gained in a coast without drag, `v^2 / 2g`.

    Parameters
    ----------
    speed
        Speed at its begin, m/s.
    gravity
        Gravity g, m/s2.

    Returns
    -------
    float
        Height, m.

    Notes
    -----
    Straight up, constant gravity. Source: conserved energy.

    Examples
    --------
    >>> drag_free_coast(100.0, 10.0)
    500.0
    """
    return _core.drag_free_coast(
        number("speed", speed, SPEED), number("gravity", gravity, _GRAVITY)
    )


def drag_factor(density: Given, drag_area: Given, mass: Given) -> float:
    """Return drag over mass and speed squared, `k = rho CD A / 2m`.

    Parameters
    ----------
    density
        Density of the air, kg/m3.
    drag_area
        Drag coefficient times area, m2.
    mass
        Mass, kg.

    Returns
    -------
    float
        Drag factor, 1/m.

    Notes
    -----
    Source: definition of the drag coefficient.

    Examples
    --------
    >>> round(drag_factor(1.225, 0.016, 100.0), 7)
    9.8e-05
    """
    return _core.drag_factor(
        number("density", density, DENSITY),
        number("drag_area", drag_area, _AREA),
        number("mass", mass, MASS),
    )


def burn_speed(acceleration: Given, drag_factor: Given, time: Given) -> float:
    """Return the speed from rest under constant thrust, mass and density.

    `v = sqrt(a / k) tanh(sqrt(a k) t)`.

    Parameters
    ----------
    acceleration
        Thrust over mass less gravity along the path a, m/s2.
    drag_factor
        Drag over mass and speed squared k, 1/m; at zero the speed is `a t`.
    time
        Time t, s.

    Returns
    -------
    float
        Speed, m/s.

    Notes
    -----
    Source: University of Southampton exercise 7651; Fowles and Cassiday, "Analytical Mechanics",
    section 2.4.

    Examples
    --------
    >>> round(burn_speed(80.0 - 9.80665, 9.8e-5, 5.0), 6)
    332.141649
    """
    return _core.burn_speed(*_burn(acceleration, drag_factor, time))


def burn_distance(acceleration: Given, drag_factor: Given, time: Given) -> float:
    """Return the distance from rest under constant thrust, mass and density.

    `h = ln cosh(sqrt(a k) t) / k`.

    Parameters
    ----------
    acceleration, drag_factor, time
        As for `burn_speed`; without drag the distance is `a t^2 / 2`.

    Returns
    -------
    float
        Distance, m.

    Notes
    -----
    Source as for `burn_speed`.

    Examples
    --------
    >>> round(burn_distance(80.0 - 9.80665, 9.8e-5, 5.0), 6)
    853.364379
    """
    return _core.burn_distance(*_burn(acceleration, drag_factor, time))


def coast_height(speed: Given, drag_factor: Given, gravity: Given) -> float:
    """Return the height gained in a vertical coast of constant mass and density.

    `h = ln(1 + k v^2 / g) / 2k`.

    Parameters
    ----------
    speed
        Speed at its begin v, m/s.
    drag_factor
        Drag over mass and speed squared k, 1/m; at zero it is `drag_free_coast`.
    gravity
        Gravity g, m/s2.

    Returns
    -------
    float
        Height, m.

    Notes
    -----
    Source as for `burn_speed`.

    Examples
    --------
    >>> round(coast_height(332.141649, 9.8e-5, 9.80665), 5)
    3791.30147
    """
    return _core.coast_height(
        number("speed", speed, SPEED),
        number("drag_factor", drag_factor, _FACTOR),
        number("gravity", gravity, _GRAVITY),
    )


def _rocket(
    exhaust_speed: Given, lift_off: Given, burnout: Given, gravity: Given, time: Given
) -> tuple[float, float, float, float, float]:
    full = number("lift_off", lift_off, MASS)
    spent = number("burnout", burnout, MASS)
    larger(("lift_off", full), ("burnout", spent), MASS)
    return (
        number("exhaust_speed", exhaust_speed, SPEED),
        full,
        spent,
        number("gravity", gravity, ACCELERATION),
        number("time", time, TIME),
    )


def _burn(acceleration: Given, drag_factor: Given, time: Given) -> tuple[float, float, float]:
    return (
        number("acceleration", acceleration, ACCELERATION),
        number("drag_factor", drag_factor, _FACTOR),
        number("time", time, TIME),
    )
