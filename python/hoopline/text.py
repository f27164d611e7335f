"""An assessment as plain text."""

from collections.abc import Iterable, Iterator

from hoopline import schema
from hoopline.assessment import Assessment
from hoopline.folding import INDENT, folded
from hoopline.mass_groups import ABOUT_INERTIA, ABOUT_ROOT_SUM_SQUARE
from hoopline.results import Margin
from hoopline.rounding import Direction, margin, rounded, significant
from hoopline.sources import numbered

OWN_FACTORS = "factors of one's own"
_LABEL, _VALUE, _NAME = 30, 18, 38

# Groups in the order of the data, with the heading each is printed under.
SECTIONS = {
    "load": "Load",
    "pressures": "Pressures",
    "geometry": "Dimensions",
    "tank": "Tank",
    "mass": "Mass statement",
    "airframe": "Airframe",
    "drag": "Drag",
    "thrust": "Thrust",
    "ascent": "Ascent",
    "estimate": "Closed-form estimate of the ascent",
    "flight_loads": "Loads on the tank in flight",
    "margins": "Margins of safety",
}

# Printed upwards, because a reader designs to them.
_LOADS = frozenset({"ascent.max_dynamic_pressure", "ascent.max_axial_acceleration"})

# Groups whose names alone do not say enough.
_EXPLAINED = frozenset({"pressures", "drag", "thrust", "flight_loads"})

# Sums with propellant: which lines, the name of the sum, its mass and its centre of gravity.
_SUMS = (
    ("at_ignition", "sum at ignition", "mass.lift_off", "mass.centre_of_gravity"),
    (
        "at_burnout",
        "sum at burnout, with residuals only",
        "mass.burnout",
        "mass.burnout_centre_of_gravity",
    ),
)


def label(path: str) -> str:
    """Words of a path's last name: "pressures.meop_closed" gives "MEOP closed"."""
    return path.rpartition(".")[2].replace("_", " ").replace("meop", "MEOP")


def direction(path: str) -> Direction:
    """Which way a result is rounded when printed: margins down, loads up."""
    if path.startswith("margins."):
        return "down"
    gauge = schema.results()[path].quantity == "gauge pressure"
    return "up" if gauge or path in _LOADS or path.startswith("flight_loads.") else "nearest"


def shown(path: str, value: float) -> str:
    """Return a result with its printed unit, rounded towards caution."""
    if path.startswith("margins."):
        return margin(value)
    field = schema.results()[path]
    return field.with_unit(significant(field.printed(value), 4, direction(path)))


def rules(follow: Iterable[tuple[str, str]]) -> str:
    """Return follow rules in words: "load = ullage, tank = volume"."""
    return ", ".join(f"{rule} = {word}" for rule, word in follow)


def stamp(digest: str, version: str) -> str:
    """Return what tells a design and the version that computed it, with the digest's beginning."""
    return f"{digest[:16]}, hoopline {version}"


def render(assessment: Assessment) -> str:
    """Return the whole assessment as text, one section per group of results."""
    blocks = [_header(assessment)]
    for group, heading in SECTIONS.items():
        if group == "mass":
            lines = list(_mass(assessment))
        elif group == "margins":
            lines = list(_margins(assessment))
        else:
            lines = list(_results(assessment, group))
        if lines:
            blocks.append("\n".join([heading, *lines]))
    if assessment.requirements:
        blocks.append("\n".join(["Requirements", *_requirements(assessment)]))
    if assessment.bands:
        blocks.append("\n".join(["Model bands of the apogee", *_bands(assessment)]))
    blocks.append("\n".join(["Inputs", *_inputs(assessment)]))
    if assessment.cautions:
        lines = [folded(f"- {caution}", INDENT, INDENT * 2) for caution in assessment.cautions]
        blocks.append("\n".join(["Cautions", *lines]))
    blocks.append(folded(assessment.safety))
    return "\n\n".join(blocks)


def provenance(assessment: Assessment) -> Iterator[tuple[str, str]]:
    """Verdict, follow rules, rule set, MEOP basis, launch and digest: what the numbers rest on."""
    if assessment.governing:
        yield "verdict", _verdict(assessment.governing, len(assessment.cautions))
    if assessment.requirements:
        yield "required", required(assessment)
    yield "follow", rules(assessment.follow.items())
    if assessment.rule_set:
        meop = assessment["pressures.meop"]
        # As computed with, in case a factor was replaced under the rule set's name.
        proof, burst = (assessment[f"pressures.{level}"] / meop for level in ("proof", "burst"))
        factors = f"proof {proof:.4g} x MEOP, burst {burst:.4g} x MEOP"
        if assessment.rule_set["burst_basis"] == "proof pressure":
            factors += f", counted as {burst / proof:.4g} x proof pressure"
        name, source = assessment.rule_set["name"], assessment.rule_set["source"]
        scope = assessment.rule_set["scope"]
        hold = assessment.rule_set["hold"]
        covers = f"; covers {scope}" if scope else ""
        held = f"; proof held {hold}" if hold else ""
        yield (
            "rule set",
            f"{name or OWN_FACTORS}: {factors}{f' ({source})' if source else ''}{covers}{held}",
        )
    if assessment.meop_basis:
        basis, reason = assessment.meop_basis["basis"], assessment.meop_basis["reason"]
        meaning = schema.choice_docs().get(("pressure.basis", basis), "")
        yield "MEOP basis", f"{basis}: {reason or meaning}"
    if assessment.basis:
        yield "basis", "; ".join(assessment.basis)
    yield "launch", ", ".join(assessment.conditions)
    yield "digest", stamp(assessment.digest, assessment.version)


def _verdict(governing: Margin, cautions: int) -> str:
    met = "all margins are met" if governing.value >= 0.0 else "NOT all margins are met"
    smallest = f"{shown(governing.path, governing.value)}, {label(governing.path)}"
    plural = "caution" if cautions == 1 else "cautions"
    return f"{met}, the smallest is {smallest}; {cautions} {plural} at the end"


def required(assessment: Assessment) -> str:
    """Count the requirements by where they stand: "2 met, 1 open (TNK-02) of 3"."""
    named: dict[str, list[str]] = {"met": [], "not met": [], "open": []}
    for line in assessment.requirements:
        named[line.status].append(line.id)
    parts = [f"{len(named['met'])} met"]
    parts += [
        f"{len(named[status])} {word} ({', '.join(named[status])})"
        for status, word in (("not met", "NOT met"), ("open", "open"))
        if named[status]
    ]
    return f"{', '.join(parts)} of {len(assessment.requirements)}"


def banded(assessment: Assessment) -> str:
    """Return the span of the apogee that all model bands leave, with digits to tell its ends."""
    apogee = assessment["ascent.apogee"]
    ends = [(apogee + change) / 1e3 for change in assessment.band_together]
    decimals = next((d for d in (1, 2) if ends[1] - ends[0] >= 5.0 * 0.1**d), 3)
    low, high = (rounded(end, decimals) for end in ends)
    return f"{low} to {high} km"


def band_rows(assessment: Assessment) -> Iterator[tuple[str, str, str]]:
    """Name, change of the apogee and basis of each model band, and of all together."""
    for band in assessment.bands:
        low, high = (rounded(change, 0) for change in band.change)
        span = f"{band.model} x {band.span[0]:g} to {band.span[1]:g}"
        yield span, f"{low} to +{high} m", f"{band.basis[0].upper()}{band.basis[1:]}."
    if not assessment.bands:
        return
    low, high = (rounded(change, 0) for change in assessment.band_together)
    note = (
        f"{banded(assessment)}. Root of the sum of squares. Roughness, day, mass and impulse "
        f"are the user's. {assessment.band_bias}"
    )
    yield "together", f"{low} to +{high} m", note


def _header(assessment: Assessment) -> str:
    lines = [assessment.name, "=" * len(assessment.name)]
    if assessment.description:
        lines.append(folded(assessment.description))
    for name, content in provenance(assessment):
        lines.append(folded(f"{name + ':':12}{content}", "", " " * 12))
    return "\n".join(lines)


def _results(assessment: Assessment, group: str) -> Iterator[str]:
    for path, value in assessment.results.items():
        if path.startswith(f"{group}."):
            note = "stated" if path in assessment.stated else ""
            if group in _EXPLAINED:
                note = f"{note + '. ' if note else ''}{schema.results()[path].doc}"
            if path == "pressures.meop_stated" and assessment.meop_basis:
                reason = assessment.meop_basis["reason"]
                note += f' Reason given: "{reason}".' if reason else " No reason given."
            yield _row(label(path), shown(path, value), note)
    if group == "airframe":
        yield _row("frontal area governed by", "", assessment.frontal_governed_by)


def _row(name: str, value: str, note: str) -> str:
    text = f"{INDENT}{name:{_LABEL}}{value:>{_VALUE}}  {note}"
    return folded(text, "", " " * (len(INDENT) + _LABEL + _VALUE + 2)).rstrip()


def _mass(assessment: Assessment) -> Iterator[str]:
    columns = f"{'basic':>11}{'share':>8}{'growth':>11}{'predicted':>11}{'station':>11}"
    yield f"{INDENT}{'kg, m from the nose tip':{_NAME}}{columns}"
    total = [0.0, 0.0, 0.0]
    for line in assessment.mass_lines:
        masses = (line.basic, line.growth, line.predicted)
        total = [sum(pair) for pair in zip(total, masses, strict=True)]
        yield _mass_row(line.name, masses, line.station, line.growth_share)
    yield _mass_row("sum without propellant", tuple(total))
    for when, name, mass, centre in _SUMS:
        for line in assessment.propellant_lines[when]:
            masses = (line.basic, line.growth, line.predicted)
            yield _mass_row(line.name, masses, line.station)
        station = assessment.results.get(centre)
        yield _mass_row(name, (None, None, assessment[mass]), station)
    yield from _maturities(assessment)
    yield from _groups(assessment)
    yield from _results(assessment, "mass")
    if "mass.roll_inertia" in assessment.results:
        yield folded(ABOUT_INERTIA, INDENT, INDENT)


def _groups(assessment: Assessment) -> Iterator[str]:
    """Print growth allowances by group, summed and as a root sum square, and what that assumes."""
    columns = f"{'basic':>11}{'growth, sum':>19}{'root sum square':>18}"
    yield f"{INDENT}{'kg, by group':{_NAME}}{columns}"
    results = assessment.results
    rows = [
        (group.name, group.basic, group.growth, group.growth_root_sum_square)
        for group in assessment.mass_groups
    ]
    paths = ("mass.basic", "mass.growth_allowance", "mass.growth_root_sum_square")
    if all(path in results for path in paths):
        basic, growth, root = (results[path] for path in paths)
        rows.append(("all", basic, growth, root))
    for name, basic, growth, root in rows:
        yield f"{INDENT}{name:{_NAME}}{basic:11.3f}{growth:19.3f}{root:18.3f}"
    yield folded(ABOUT_ROOT_SUM_SQUARE, INDENT, INDENT)


def _maturities(assessment: Assessment) -> Iterator[str]:
    """Say which class of maturity each growth allowance rests on, and whose class it is."""
    named: dict[str, list[str]] = {}
    for line in assessment.mass_lines:
        if line.maturity:
            named.setdefault(line.maturity, []).append(line.name)
    for maturity, lines in named.items():
        text = f"growth of {', '.join(lines)}: {maturity} ({assessment.maturities[maturity]})"
        yield folded(text, INDENT, INDENT * 2)


def _mass_row(
    name: str,
    masses: Iterable[float | None],
    station: float | None = None,
    share: float | None = None,
) -> str:
    basic, *others = (
        f"{'':11}" if number is None else f"{number:11.3f}" for number in (*masses, station)
    )
    of_basic = "" if share is None else f"{100.0 * share:.3g} %"
    cells = f"{basic}{of_basic:>8}{''.join(others)}"
    return f"{INDENT}{name:{_NAME}}{cells}".rstrip()


def _inputs(assessment: Assessment) -> Iterator[str]:
    width = max((len(row["path"]) for row in assessment.inputs), default=0) + 2
    marks, listed = numbered(assessment.inputs)
    for row, mark in zip(assessment.inputs, marks, strict=True):
        origin = "" if row["origin"] == "given" else row["origin"]
        note = f"  {origin} {mark}".replace("   ", "  ").rstrip()
        yield f"{INDENT}{row['path']:{width}}{row['shown']:>18}{note}"
    for number, source in enumerate(listed, start=1):
        yield folded(f"[{number}] {source}", INDENT, INDENT * 3)


def _bands(assessment: Assessment) -> Iterator[str]:
    for name, change, basis in band_rows(assessment):
        yield _row(name, change, basis)


def _margins(assessment: Assessment) -> Iterator[str]:
    if assessment.governing:
        yield f"{INDENT}margin = allowable / (factor x load) - 1, with the rule set's factors"
    for one in assessment.margins:
        mark = "GOVERNS. " if one == assessment.governing else ""
        yield _row(label(one.path), shown(one.path, one.value), mark + one.doc)
    if assessment.governing and assessment.governing.value < 0.0:
        yield f"{INDENT}Not all margins are met: the tank does not meet its rule set."


def _requirements(assessment: Assessment) -> Iterator[str]:
    for line in assessment.requirements:
        room = f"  margin {line.shown_margin}" if line.shown_margin else ""
        yield folded(f"{line.status.upper():9}{line.id}: {line.text}", INDENT, " " * 11)
        if line.decided_by:
            found = f"{line.decided_by} = {line.shown}, {line.limit};{room}"
            yield folded(found, " " * 11, " " * 11)
        yield folded(line.basis, " " * 11, " " * 11)
