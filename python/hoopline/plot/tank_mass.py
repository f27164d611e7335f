"""Apogee against tank mass in both meanings: stated as a what-if, and a scatter of designs."""

import numpy as np

from hoopline import schema
from hoopline.errors import InputError
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.slender import slender
from hoopline.plot.style import BLUE, GREY, VERMILION
from hoopline.sweeping import Sweep
from hoopline.text import rules

_STATED = "mass.stated.tank"


def apogee_and_tank_mass(stated: Sweep, designs: Sweep) -> Plate:
    """Draw the same two quantities twice.

    Parameters
    ----------
    stated
        A sweep over `mass.stated.tank` alone: the tank's mass is stated, growth allowance included,
        and nothing else about the vehicle changes.
    designs
        A sweep over dimensions: each case is a tank with its own mass. Markers are filled where all
        margins are met, hollow elsewhere.
    """
    drawn_from(stated, Sweep, "hoopline.sweep")
    drawn_from(designs, Sweep, "hoopline.sweep")
    if list(stated.values) != [_STATED]:
        raise InputError(f"the first sweep must vary {_STATED} alone")
    caption = _caption(stated, designs)
    figure, (left, right) = blank(2, caption)

    masses = stated.axes[_STATED]
    left.plot(masses, stated["ascent.apogee"] / 1e3, color=BLUE, linewidth=1.8)
    computed = predicted_tank_mass(stated)
    left.axvline(computed, color=GREY, linestyle=(0, (4, 2)), linewidth=1.0)
    left.annotate(
        f" computed: {computed:.1f} kg",
        (computed, 0.03),
        xycoords=("data", "axes fraction"),
        color=GREY,
    )
    left.set(
        xlabel="tank mass as stated, growth allowance included, kg",
        ylabel="apogee above the launch site, km",
        title=f"What if the tank of {stated.stage.name} weighed this much?",
    )

    tank, apogee = designs["tank.mass"].ravel(), designs["ascent.apogee"].ravel() / 1e3
    met = designs.margins_met.ravel()
    short = designs.ok.ravel() & ~met
    right.scatter(
        tank[short], apogee[short], s=22, facecolors="none", edgecolors=VERMILION, marker="o",
        label="hollow: some margin is negative",
    )  # fmt: skip
    right.scatter(
        tank[met], apogee[met], s=26, color=BLUE, marker="s",
        label="filled: all margins are met",
    )  # fmt: skip
    right.set(
        xlabel="basic mass of the tank as computed, kg",
        ylabel="apogee above the launch site, km",
        title="Designs: every tank with its own dimensions",
    )
    right.legend(frameon=False)
    return Plate(figure, caption)


def predicted_tank_mass(sweep: Sweep) -> float:
    """Tank mass of the swept stage as computed, growth allowance included, kg."""
    growth = sweep.stage["mass.growth.tank"]
    assert isinstance(growth, float)  # noqa: S101 (for the type checker)
    return sweep.stage.assess()["tank.mass"] * (1.0 + growth)


def _caption(stated: Sweep, designs: Sweep) -> str:
    masses, apogee = stated.axes[_STATED], stated["ascent.apogee"]
    computed = predicted_tank_mass(stated)
    near = int(np.clip(np.searchsorted(masses, computed), 1, len(masses) - 1))
    slope = (apogee[near] - apogee[near - 1]) / (masses[near] - masses[near - 1])
    met = designs.margins_met
    failed = int((~designs.ok).sum() + (~stated.ok).sum())
    varied = " and ".join(designs.values)
    follow = rules(sorted(designs.stage.follow.items()))
    if met.any():
        best = np.where(met, designs["ascent.apogee"], -np.inf)
        place = np.unravel_index(int(best.argmax()), designs.shape)
        case = designs.case(tuple(int(position) for position in place))
        chosen = ", ".join(f"{path} = {_text(path, value)}" for path, value in case.inputs.items())
        edges = [
            path
            for path, at in zip(designs.values, place, strict=True)
            if _at_edge(designs, path, int(at))
        ]
        edge = f", at the edge of {' and '.join(edges)}" if edges else ""
        lacking = slender(case.results.get("airframe.fineness_ratio", 0.0))
        finding = (
            f"of {int(designs.ok.sum())} designs over {varied} {int(met.sum())} meet all margins; "
            f"the highest of them reaches {case['ascent.apogee'] / 1e3:.2f} km with a tank of "
            f"{case['tank.mass']:.1f} kg ({chosen}{edge})"
            f"{f'; {lacking}' if lacking else ''}"
        )
    else:
        finding = f"none of the designs over {varied} meets all margins"
    return (
        f"Left: one kilogram more of tank changes the apogee by {slope:+.0f} m near the computed "
        f"{computed:.1f} kg, all else equal. Right: {finding}. "
        f"Follow rules: {follow}. {failed} cases have no results and are left out."
    )


def _at_edge(designs: Sweep, path: str, position: int) -> bool:
    return position in (0, len(designs.values[path]) - 1)


def _text(path: str, value: object) -> str:
    if isinstance(value, float) and path in schema.inputs():
        field = schema.inputs()[path]
        return field.with_unit(f"{field.printed(value):g}")
    return str(value)
