"""Apogee and tank fineness ratio against a diameter, for several variants."""

from collections import Counter
from collections.abc import Mapping

from hoopline import schema
from hoopline.errors import InputError
from hoopline.plot.argument import drawn_from
from hoopline.plot.plate import Plate, blank
from hoopline.plot.slender import slender
from hoopline.plot.style import look
from hoopline.sweeping import Case, Sweep
from hoopline.text import rules


def apogee_and_fineness(variants: Mapping[str, Sweep]) -> Plate:
    """Draw two panels over one swept length: apogee, and length-to-diameter ratio of the tank.

    Parameters
    ----------
    variants
        {name: sweep over one length}; every sweep varies the same path. The largest apogee of each
        is marked. Cases without results are left out and counted in the caption.
    """
    drawn_from(variants, Mapping, "{name: hoopline.sweep(...)}")
    for sweep in variants.values():
        drawn_from(sweep, Sweep, "hoopline.sweep")
    path = _common_path(variants)
    figure, (left, right) = blank(2, _caption(variants))
    for index, (name, sweep) in enumerate(variants.items()):
        style = look(index)
        diameter = schema.inputs()[path].printed(sweep.axes[path])
        apogee, fineness = sweep["ascent.apogee"] / 1e3, sweep["geometry.tank_fineness_ratio"]
        for panel, values in ((left, apogee), (right, fineness)):
            panel.plot(
                diameter,
                values,
                color=style.colour,
                linestyle=style.line,
                linewidth=1.8,
                label=name,
            )
        if sweep.ok.any():
            best = sweep.largest("ascent.apogee").index
            for panel, values in ((left, apogee), (right, fineness)):
                panel.plot(diameter[best], values[best], color=style.colour, marker=style.marker)
    words = f"{path.rpartition('.')[2].replace('_', ' ')} of the tank"
    label = schema.inputs()[path].axis(words)
    left.set(xlabel=label, ylabel="apogee above the launch site, km", title="Apogee")
    right.set(
        xlabel=label,
        ylabel="overall length / outside diameter of the tank",
        title="Fineness ratio of the tank",
    )
    right.legend(title="marker: largest apogee", frameon=False)
    right.set_ylim(bottom=0.0)
    return Plate(figure, _caption(variants))


def _common_path(variants: Mapping[str, Sweep]) -> str:
    paths = {tuple(sweep.values) for sweep in variants.values()}
    if len(paths) != 1 or len(next(iter(paths))) != 1:
        raise InputError("this figure needs sweeps over one and the same path")
    path: str = next(iter(paths))[0]
    if path not in schema.inputs():
        raise InputError(f"this figure needs a swept length; {path} is none")
    return path


def _caption(variants: Mapping[str, Sweep]) -> str:
    path = _common_path(variants)
    field = schema.inputs()[path]
    found = []
    slenderest = 0.0
    for name, sweep in variants.items():
        if not sweep.ok.any():
            found.append(f"{name}: no case has results")
            continue
        best = sweep.largest("ascent.apogee")
        diameter = field.printed(sweep.axes[path][best.index])
        slenderest = max(slenderest, best["airframe.fineness_ratio"])
        found.append(
            f"{name} {best['ascent.apogee'] / 1e3:.2f} km at {field.with_unit(f'{diameter:.0f}')}"
            f"{_reason(sweep, best)}, fineness ratio {best['geometry.tank_fineness_ratio']:.1f} of "
            f"the tank and {best['airframe.fineness_ratio']:.0f} of the vehicle"
        )
    failed = Counter(case.word for sweep in variants.values() for case in sweep.reasons())
    total = sum(len(sweep) for sweep in variants.values())
    words = ", ".join(f"{word} {count}" for word, count in failed.items())
    lacking = slender(slenderest)
    return (
        f"Largest apogee: {'; '.join(found)}. Margins are not looked at here. "
        f"{f'{lacking[0].upper()}{lacking[1:]}. ' if lacking else ''}{_follow(variants)}"
        f"{failed.total()} of {total} cases have no results and are left out"
        f"{f' ({words})' if words else ''}."
    )


def _follow(variants: Mapping[str, Sweep]) -> str:
    """State the follow rules: those that all variants share, then those that differ."""
    held = {}
    for name, sweep in variants.items():
        if sweep.ok.any():
            best = sweep.largest("ascent.apogee")
            held[name] = set(sweep.stage.replace(best.inputs).assess().follow.items())
    if not held:
        return ""
    shared = set.intersection(*held.values())
    own = [
        f"; {name}: {rules(sorted(each - shared))}" for name, each in held.items() if each - shared
    ]
    return f"Follow rules: {rules(sorted(shared))}{''.join(own)}. "


def _reason(sweep: Sweep, best: Case) -> str:
    """Say why the curve turns at its top, if the sweep's edge or the frontal area explains it."""
    position = best.index[0]
    if position in (0, len(sweep) - 1):
        return " (the edge of the sweep)"
    if not sweep.ok[position - 1]:
        return " (smaller ones have no results)"
    below = sweep.stage.replace(sweep.case((position - 1,)).inputs).assess().frontal_governed_by
    here = sweep.stage.replace(best.inputs).assess().frontal_governed_by
    return f" (below it the frontal area is that of the {below})" if below != here else ""
