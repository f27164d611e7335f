"""The figures of a report, as SVG that can stand side by side in one page."""

import re
from collections import Counter
from dataclasses import dataclass

from hoopline.assessment import Assessment
from hoopline.errors import InputError
from hoopline.plot.around import around
from hoopline.plot.margins import margins
from hoopline.plot.plate import Plate
from hoopline.plot.tank import tank
from hoopline.plot.vehicle import vehicle
from hoopline.spacing import linspace
from hoopline.stage import Stage
from hoopline.sweeping import sweep

# Our own preset: how far around the design the report looks, and how finely.
SPAN, POINTS = 0.3, 61
# What is varied, and the result that holds its value whether it is an input or follows.
_VARIED = {
    "tank.outer_diameter": "geometry.tank_outer_diameter",
    "tank.liner.wall": "geometry.liner_wall",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of the page: its name, its title in words, its SVG, what it shows."""

    name: str
    title: str
    svg: str
    caption: str


def ladder(assessment: Assessment) -> list[Figure]:
    """Return the margin ladder, for a stage with a tank."""
    return (
        [_figure("margins", "margins of safety", margins(assessment))]
        if assessment.governing
        else []
    )


def drawings(assessment: Assessment) -> list[Figure]:
    """Return vehicle and tank to scale, as far as the stage has them."""
    drawn = []
    if assessment.layout.vehicle is not None:
        drawn.append(_figure("vehicle", "vehicle to scale", vehicle(assessment)))
    if assessment.layout.tank is not None:
        drawn.append(_figure("tank", "tank to scale", tank(assessment)))
    return drawn


def surroundings(stage: Stage) -> list[Figure]:
    """Return what diameter and wall do around the design, where they are inputs of the stage."""
    values = {row.path: row.value for row in stage.inputs()}
    found = []
    for path in _VARIED:
        value = values.get(path)
        if isinstance(value, float):
            values_around = linspace((1 - SPAN) * value, (1 + SPAN) * value, POINTS)
            plate = around(sweep(stage, {path: values_around}))
            title = f"apogee and smallest margin over {path}"
            found.append(_figure(path.replace(".", "-"), title, plate))
    return found


def not_varied(stage: Stage, assessment: Assessment) -> list[str]:
    """Say of diameter and wall why one is not varied: it follows from others."""
    inputs = {row.path for row in stage.inputs()}
    found = []
    for path, result in _VARIED.items():
        if path in inputs:
            continue
        try:
            stage.replace({path: assessment[result]})
        except InputError as refused:
            found += [f"Not varied: {problem.message}." for problem in refused.problems]
    return found


def _figure(name: str, title: str, plate: Plate) -> Figure:
    return Figure(name, title, _apart(plate.drawn(), name), plate.caption)


def _apart(svg: str, name: str) -> str:
    """Give every id of an SVG the figure's name, so that figures in one page do not mix."""
    seen: Counter[str] = Counter()

    def own(found: re.Match[str]) -> str:
        # Artists drawn in one go share an id; nothing refers to theirs.
        seen[found[1]] += 1
        again = f"-{seen[found[1]]}" if seen[found[1]] > 1 else ""
        return f'id="{name}-{found[1]}{again}"'

    svg = re.sub(r'\bid="([^"]*)"', own, svg)
    svg = re.sub(r'href="#', f'href="#{name}-', svg)
    svg = re.sub(r"url\(#", f"url(#{name}-", svg)
    svg = re.sub(r"<metadata>.*?</metadata>", "", svg, flags=re.DOTALL)
    attributes = f'<svg role="img" aria-labelledby="{name}-caption"'
    return svg.replace("<svg", attributes, 1)
