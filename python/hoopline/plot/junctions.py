"""Stress along the meridian where cylinder and closure meet, for several stages."""

from typing import Literal

from hoopline.errors import InputError
from hoopline.junctions import Junction
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.style import GREY, look
from hoopline.rounding import margin
from hoopline.schema import quoted
from hoopline.stage import Stage

BAR = 1e5
MPA = 1e6
MM = 1e3


def junctions(*stages: Stage, side: Literal["fore", "aft"] = "aft") -> Plate:
    """Draw the stress along the meridian beside one junction of several stages, in one figure.

    Left the axial stress at both surfaces, right the equivalent one at the surface where it is
    larger; the cylinder lies right of the edge, the closure left of it. A marker shows the largest
    equivalent stress that is judged, thin lines the yield strength it is set against.

    Parameters
    ----------
    stages
        The stages; their names tell them apart.
    side
        Which junction of the tank, "fore" or "aft".

    Raises
    ------
    InputError
        No stage, a stage without a tank or whose closure there is held by bolts, or another word
        for the side.
    """
    for stage in stages:
        drawn_from(stage, Stage, "Stage.load")
    if not stages:
        raise InputError("this figure needs at least one stage")
    if side not in ("fore", "aft"):
        raise InputError(f'side: {quoted(side)} is neither "fore" nor "aft"')
    shown = [(stage.name, _at(stage, side)) for stage in stages]
    caption = _caption(shown, side)
    figure, (left, right) = blank(2, caption)
    # A closure's far end is of no interest beside the edge: as far into it as into the cylinder.
    reach = max(junction["distance"][-1] for _, junction in shown) * MM
    for number, (name, junction) in enumerate(shown):
        style = look(number)
        distance = junction["distance"] * MM
        near = distance >= -reach
        drawn = {"color": style.colour, "linestyle": style.line}
        label = f"{name}: {junction.closure}"
        for surface, width in (("inner", 1.8), ("outer", 0.9)):
            stress = junction[f"{surface}_axial_stress"] / MPA
            left.plot(
                distance[near], stress[near], linewidth=width, **drawn,
                label=label if surface == "inner" else None,
            )  # fmt: skip
        inner, outer = (junction[f"{at}_equivalent_stress"] / MPA for at in ("inner", "outer"))
        larger = inner * (inner >= outer) + outer * (outer > inner)
        right.plot(distance[near], larger[near], linewidth=1.8, label=label, **drawn)
        row = int(abs(larger - junction.largest / MPA)[near].argmin())
        right.plot(
            distance[near][row], junction.largest / MPA, marker=style.marker, color=style.colour
        )
        right.axhline(junction.yield_strength / MPA, linewidth=0.7, **drawn)
    for panel in (left, right):
        panel.axvline(0.0, color=GREY, linewidth=0.8)
        panel.set_xlabel("distance from the edge, mm; closure left, cylinder right")
    left.set(ylabel="stress along the meridian, MPa", title="Axial; thick inside, thin outside")
    right.set(
        ylabel="equivalent stress, MPa", title="Equivalent; thin: yield strength", ylim=(0.0, None)
    )
    left.legend(frameon=False, loc="lower right")
    return Plate(figure, caption)


def _at(stage: Stage, side: str) -> Junction:
    for junction in stage.junctions():
        if junction.side == side:
            return junction
    raise InputError(f"bolts hold the {side} closure of {quoted(stage.name)}: no junction there")


def _caption(shown: list[tuple[str, Junction]], side: str) -> str:
    found = [
        f"{name} ({junction.closure}) {junction.largest / MPA:.0f} MPa {junction.place}, over a "
        f"yield strength of {junction.yield_strength / MPA:.0f} MPa, margin against shakedown "
        f"{margin(junction.margin)}"
        for name, junction in shown
    ]
    pressures = ", ".join(dict.fromkeys(f"{junction.pressure / BAR:.0f}" for _, junction in shown))
    return (
        f"Largest equivalent stress beside the {side} junction at proof pressure: "
        f"{'; '.join(found)}. Proof pressure {pressures} bar gauge. Elastic stresses of thin "
        "shells with sharp edges, at minimum wall and thickness."
    )
