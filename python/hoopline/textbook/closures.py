"""Depth, volume and area of the closures of a tank."""

from hoopline import _core
from hoopline.errors import InputError
from hoopline.number import LENGTH, Given, Limits, number

# As a stage file allows them.
_CROWN = Limits("", 0.5, 1.0, "number")
_KNUCKLE = Limits("", 0.06, 0.5, "number")
_TURNING = Limits("", 0.01, 0.7, "number")


def closure_depth(
    kind: str,
    diameter: Given,
    *,
    crown_radius_ratio: Given | None = None,
    knuckle_radius_ratio: Given | None = None,
    turning_radius_ratio: Given | None = None,
) -> float:
    """Return the inside depth of a closure.

    Parameters
    ----------
    kind
        `"hemisphere"`, `"ellipsoid_2_1"`, `"torisphere"`, `"isotensoid"`, `"flat_clamped"`,
        `"flat_supported"` or `"flat_bolted"`, as in a stage file.
    diameter
        Inside diameter D, m.
    crown_radius_ratio, knuckle_radius_ratio
        Of a torisphere, and only of one: inside crown radius and inside knuckle radius over D.
    turning_radius_ratio
        Of an isotensoid, and only of one: radius at which its fibres turn over D / 2.

    Returns
    -------
    float
        Depth, m: D / 2, D / 4, `L - sqrt((L - D/2) (L + D/2 - 2 r))`, the isotensoid's curve to
        `sqrt(3/2)` of its turning radius and the spherical cap tangent to it, or nothing.

    Notes
    -----
    Exact; an isotensoid to 1e-9. Crown radius over diameter 0.5 to 1, knuckle radius over diameter
    0.06 to 0.5, turning radius over D / 2 0.01 to 0.7. Source: geometry; an isotensoid's curve is
    that of geodesic fibres that all pull alike, derived (see `isotensoid_depth`).

    Examples
    --------
    >>> closure_depth("ellipsoid_2_1", "1 m")
    0.25
    """
    ratios = (crown_radius_ratio, knuckle_radius_ratio, turning_radius_ratio)
    return _closure(kind, diameter, *ratios)[0]


def closure_volume(
    kind: str,
    diameter: Given,
    *,
    crown_radius_ratio: Given | None = None,
    knuckle_radius_ratio: Given | None = None,
    turning_radius_ratio: Given | None = None,
) -> float:
    """Return the inside volume of a closure.

    Parameters
    ----------
    kind, diameter, crown_radius_ratio, knuckle_radius_ratio, turning_radius_ratio
        As for `closure_depth`.

    Returns
    -------
    float
        Volume, m3: `pi D^3 / 12` of a hemisphere, `pi D^3 / 24` of a 2:1 ellipsoid, spherical cap
        and swept knuckle of a torisphere, curve and cap of an isotensoid.

    Notes
    -----
    Exact, an isotensoid to 1e-9; ranges as for `closure_depth`. Source: geometry.

    Examples
    --------
    >>> dish = {"crown_radius_ratio": 1.0, "knuckle_radius_ratio": 0.06}
    >>> round(closure_volume("torisphere", "1 m", **dish), 6)
    0.080999
    """
    ratios = (crown_radius_ratio, knuckle_radius_ratio, turning_radius_ratio)
    return _closure(kind, diameter, *ratios)[1]


def closure_area(
    kind: str,
    diameter: Given,
    *,
    crown_radius_ratio: Given | None = None,
    knuckle_radius_ratio: Given | None = None,
    turning_radius_ratio: Given | None = None,
    offset: Given | None = None,
) -> float:
    """Return the surface of a closure, without its edge.

    Times thickness, at the diameter of mid-thickness, it is the volume of metal; of an isotensoid,
    with half the thickness as `offset`.

    Parameters
    ----------
    kind, diameter, crown_radius_ratio, knuckle_radius_ratio, turning_radius_ratio
        As for `closure_depth`; the surface is that at the diameter given.
    offset
        Of an isotensoid, and only of one: how far outside the shape the surface lies, m.

    Returns
    -------
    float
        Area, m2.

    Notes
    -----
    Exact, an isotensoid to 1e-9; ranges as for `closure_depth`. Source: geometry; the ellipsoid is
    half an oblate spheroid, what lies outside an isotensoid Steiner's formula.

    Examples
    --------
    >>> round(closure_area("ellipsoid_2_1", "1 m"), 6)
    1.083985
    """
    if offset is not None and kind != "isotensoid":
        raise InputError(f'offset is of an isotensoid, not of "{kind}"')
    ratios = (crown_radius_ratio, knuckle_radius_ratio, turning_radius_ratio)
    area = _closure(kind, diameter, *ratios)[2]
    if offset is None or turning_radius_ratio is None:
        return area
    across = number("diameter", diameter, LENGTH)
    ratio = number("turning_radius_ratio", turning_radius_ratio, _TURNING)
    return _core.isotensoid_area(across, ratio, number("offset", offset, LENGTH))


def _closure(
    kind: str, diameter: Given, crown: Given | None, knuckle: Given | None, turning: Given | None
) -> tuple[float, float, float]:
    across = number("diameter", diameter, LENGTH)
    if kind != "torisphere" and (crown is not None or knuckle is not None):
        raise InputError(
            f'crown_radius_ratio and knuckle_radius_ratio are of a torisphere, not of "{kind}"'
        )
    if kind != "isotensoid" and turning is not None:
        raise InputError(f'turning_radius_ratio is of an isotensoid, not of "{kind}"')
    if kind == "isotensoid":
        if turning is None:
            raise InputError("an isotensoid needs turning_radius_ratio")
        ratio = number("turning_radius_ratio", turning, _TURNING)
        return _core.closure(kind, across, 1.0, 0.5, ratio)
    if kind != "torisphere":
        return _core.closure(str(kind), across, 1.0, 0.5, 0.5)
    if crown is None or knuckle is None:
        raise InputError("a torisphere needs crown_radius_ratio and knuckle_radius_ratio")
    return _core.closure(
        kind,
        across,
        number("crown_radius_ratio", crown, _CROWN),
        number("knuckle_radius_ratio", knuckle, _KNUCKLE),
        0.5,
    )
