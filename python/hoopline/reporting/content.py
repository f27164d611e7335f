"""What a report says, gathered from one assessment."""

from collections.abc import Iterator
from typing import Any

from hoopline import schema
from hoopline.assessment import Assessment
from hoopline.explanation.text import body
from hoopline.mass_groups import ABOUT_INERTIA, ABOUT_ROOT_SUM_SQUARE
from hoopline.reporting.breaks import entries, limits, together
from hoopline.reporting.figures import SPAN, drawings, ladder, not_varied, surroundings
from hoopline.requirement import Requirement
from hoopline.sources import numbered
from hoopline.stage import Stage
from hoopline.text import SECTIONS, band_rows, banded, label, provenance, required, shown

# Groups with a section of their own; every other one is a table among the results.
_ELSEWHERE = frozenset({"mass", "margins"})


def content(stage: Stage) -> dict[str, Any]:
    """Return everything the page's template asks for."""
    assessment = stage.assess()
    governing = assessment.governing
    marks, sources = numbered(assessment.inputs)
    explained = body(assessment.explain(governing.path)) if governing else ""
    return {
        "name": assessment.name,
        "description": assessment.description,
        "verdict": verdict(assessment),
        "decision": list(decision(assessment)),
        "cautions": assessment.cautions,
        "safety": assessment.safety,
        "requirements": assessment.requirements,
        "margins": [
            (label(margin.path), shown(margin.path, margin.value), margin.doc)
            for margin in assessment.margins
        ],
        "explained": entries(explained),
        "ladder": ladder(assessment),
        "drawings": drawings(assessment),
        "surroundings": surroundings(stage) if governing else [],
        "not_varied": not_varied(stage, assessment) if governing else [],
        "span": f"{100 * SPAN:.0f} %",
        "mass_lines": assessment.mass_lines,
        "mass_groups": assessment.mass_groups,
        "about_root_sum_square": ABOUT_ROOT_SUM_SQUARE,
        "about_inertia": ABOUT_INERTIA if "mass.roll_inertia" in assessment.results else "",
        "propellant": assessment.propellant_lines["at_ignition"],
        "sums": sums(assessment),
        "tables": [
            (heading, rows)
            for group, heading in SECTIONS.items()
            if group not in _ELSEWHERE and (rows := _rows(assessment, group))
        ],
        "bands": list(band_rows(assessment)),
        "inputs": list(zip(assessment.inputs, marks, strict=True)),
        "sources": sources,
        "provenance": [(key, text) for key, text in provenance(assessment) if key != "verdict"],
        "version": assessment.version,
        "digest": assessment.digest[:16],
    }


def verdict(assessment: Assessment) -> str:
    """Say in one line whether what is computed is met, margins and requirements together."""
    margins, lines = assessment.margins, assessment.requirements
    negative = sum(margin.value < 0.0 for margin in margins)
    failed, still_open = (
        sum(line.status == status for line in lines) for status in ("not met", "open")
    )
    against = []
    if negative:
        verb = "is" if negative == 1 else "are"
        against.append(f"{negative} of {len(margins)} margins of safety {verb} negative")
    if failed:
        verb = "is" if failed == 1 else "are"
        against.append(f"{failed} of {len(lines)} requirements {verb} not met")
    if against:
        return f"NOT met: {' and '.join(against)}."
    if not margins and not lines:
        return "Nothing to judge: the stage has no tank and so no margins, and no requirements."
    if still_open:
        return f"Met as far as it is computed; {still_open} of {len(lines)} requirements open."
    return "Met as far as it is computed" + ("." if lines else "; no requirements are stated.")


def decision(assessment: Assessment) -> Iterator[str]:
    """Say what a review decides on, a sentence each."""
    governing = assessment.governing
    if governing:
        met = (
            "All margins of safety are met" if governing.value >= 0.0 else "NOT all margins are met"
        )
        yield (
            f"{met}: {label(governing.path)} governs with {shown(governing.path, governing.value)}"
            f"{_also_negative(assessment)}."
        )
    if assessment.requirements:
        missed = "; ".join(_missed(line) for line in assessment.requirements if _not_met(line))
        yield f"Requirements: {required(assessment)}{f'. NOT met: {missed}' if missed else ''}."
    apogee = together(shown("ascent.apogee", assessment["ascent.apogee"]))
    parts = [f"apogee {apogee} above the site"]
    parts += [
        f"{words} {together(shown(path, assessment[path]))}"
        for path, words in (
            ("tank.mass", "tank"),
            ("mass.predicted", "without propellant"),
            ("mass.lift_off", "at ignition"),
            ("airframe.frontal_diameter", "diameter"),
        )
        if path in assessment.results
    ]
    yield f"{', '.join(parts)}.".capitalize()
    if assessment.bands:
        yield f"The known errors of the drag models alone leave {together(banded(assessment))}."
    count = len(assessment.cautions)
    first = f"; first: {assessment.cautions[0].partition(': ')[0]}" if count else ""
    yield f"{count} caution{'' if count == 1 else 's'} below{first}."


def _also_negative(assessment: Assessment) -> str:
    """Name the negative margins beside the governing one."""
    others = [
        f"{label(margin.path)} {shown(margin.path, margin.value)}"
        for margin in assessment.margins
        if margin.value < 0.0 and margin is not assessment.governing
    ]
    return f"; negative too: {', '.join(others)}" if others else ""


def _not_met(line: Requirement) -> bool:
    return line.status == "not met"


def _missed(line: Requirement) -> str:
    """Say by how much a requirement is missed: "KST-2: tank mass 3.617 kg, at most 3.5 kg"."""
    if line.decided_by is None:
        return line.id
    group, _, _ = line.decided_by.rpartition(".")
    words = label(line.decided_by)
    name = f"{words} margin" if group == "margins" else f"{group} {words}"
    return f"{line.id}: {name} {together(line.shown)}, {limits(line.limit)}"


def sums(assessment: Assessment) -> list[tuple[str, str]]:
    """Return the sums of the mass statement, where they sit and how they turn."""
    return [
        (schema.results()[path].doc, shown(path, value))
        for path, value in assessment.results.items()
        if path.startswith("mass.")
    ]


def _rows(assessment: Assessment, group: str) -> list[tuple[str, str, str]]:
    return [
        (label(path), shown(path, value), schema.results()[path].doc)
        for path, value in assessment.results.items()
        if path.startswith(f"{group}.")
    ]
