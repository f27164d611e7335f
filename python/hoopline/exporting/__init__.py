"""Tables for team mates, as files: mass and centre of gravity, thrust, drag, ascent, margins."""

import json
import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from hoopline import schema
from hoopline.assessment import Assessment
from hoopline.comma_separated import Cell, table
from hoopline.errors import InputError, kind_of
from hoopline.exporting.notes import notes
from hoopline.file_names import given_path
from hoopline.mass_groups import ABOUT_ROOT_SUM_SQUARE
from hoopline.results import MassLine
from hoopline.stage import Stage
from hoopline.whole_files import write_whole

if TYPE_CHECKING:
    from hoopline import _core

# Altitudes of the drag table: the launch site, then equal steps up to the apogee, within the air.
_DRAG_ALTITUDES = 5
_TOP_OF_THE_AIR = 86_000.0
_REMAINDER = 1e-9
"""Mass, kg, that a sum of lines may miss by rounding."""
PROVENANCE = "provenance.txt"


@dataclass(frozen=True, slots=True)
class Table:
    """One table before it is written.

    Attributes
    ----------
    name
        File name.
    about
        What it holds, for provenance.txt.
    columns
        Header of each column, with its SI unit, and what it holds.
    rows
        The rows, SI.
    """

    name: str
    about: str
    columns: dict[str, str]
    rows: list[list[Cell]]

    def text(self) -> str:
        """Return the file's content."""
        return table(list(self.columns), self.rows)


def export(stage: Stage | Assessment, folder: str | os.PathLike[str]) -> list[Path]:
    """Write a design as tables that other programs read: one CSV file each, SI units.

    Files are UTF-8 after RFC 4180; every header reads `name [unit]`; numbers have full double
    precision. Texts that a spreadsheet would take for a formula get an apostrophe in front.

    Parameters
    ----------
    stage
        A stage or its assessment. One read from a saved file does not hold its stage and is
        refused.
    folder
        Made if it is not there; files of an earlier export are replaced, all or none: see
        `hoopline.whole_files`.

    Returns
    -------
    list of Path
        mass_statement.csv, mass_groups.csv, thrust.csv, drag_coefficients.csv, ascent.csv,
        margins.csv, requirements.csv, inputs.csv, and provenance.txt, which says what was exported,
        by which version, what each column means, and what a reader must know before using it.

    Raises
    ------
    InputError
        The design cannot be evaluated, its stage is not at hand, or `folder` cannot be a path.
        Nothing is written.
    DataError
        The folder cannot be written, or a folder stands where a file belongs. Nothing is written.

    Examples
    --------
    >>> import tempfile
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     [path.name for path in hl.export(stage, folder)][:3]
    ['mass_statement.csv', 'mass_groups.csv', 'thrust.csv']
    """
    if not isinstance(stage, Stage | Assessment):
        raise InputError(f"export takes a stage or an assessment, not {kind_of(stage)}")
    target = given_path("folder", folder)
    assessment = stage.assess() if isinstance(stage, Stage) else stage
    made = tables(assessment)
    texts = {table.name: table.text() for table in made}
    texts[PROVENANCE] = notes(assessment, [(one.name, one.about, one.columns) for one in made])
    return _write(target, texts)


def tables(assessment: Assessment) -> list[Table]:
    """Return the tables of `export` without writing them."""
    compiled = assessment._compiled_stage()
    return [
        _mass_statement(assessment),
        _mass_groups(assessment),
        _thrust(compiled),
        _drag(compiled, assessment),
        _ascent(compiled),
        _margins(assessment),
        _requirements(assessment),
        _inputs(assessment),
    ]


def _write(folder: Path, texts: dict[str, str]) -> list[Path]:
    def fill(waiting: Path) -> list[str]:
        for name, text in texts.items():
            (waiting / name).write_bytes(text.encode("utf-8"))
        return list(texts)

    return write_whole(folder, fill)


def _mass_statement(assessment: Assessment) -> Table:
    columns = {
        "line": "Part, or sum of the lines before it.",
        "group": "Part of the vehicle: tank, airframe, motor, item, propellant; or sum.",
        "counted": "dry: always on board; at ignition, at burnout: propellant on board then.",
        "basic [kg]": "Basic mass.",
        "growth [kg]": "Growth allowance.",
        "predicted [kg]": "Basic mass plus growth allowance.",
        "station [m]": "Centre of gravity behind the nose tip.",
        "maturity": "Class of maturity that the growth allowance rests on.",
        "growth share": "Growth allowance over basic mass.",
        "shape": "What the line is taken for in its moments of inertia.",
        "pitch inertia [kg m2]": "Of the predicted mass, across the axis at the row's station.",
        "roll inertia [kg m2]": "Of the predicted mass, about the axis.",
    }

    def row(line: MassLine, counted: str) -> list[Cell]:
        masses = [line.basic, line.growth, line.predicted]
        turns = [line.own_pitch_inertia, line.own_roll_inertia]
        return [
            line.name, line.group, counted, *masses, line.station, line.maturity,
            line.growth_share, line.shape, *turns,
        ]  # fmt: skip

    nothing: list[Cell] = [None] * 4
    results = assessment.results
    rows = [row(line, "dry") for line in assessment.mass_lines]
    rows.append([
        "sum without propellant", "sum", "dry", results["mass.basic"],
        results["mass.growth_allowance"], results["mass.predicted"], None, None, *nothing,
    ])  # fmt: skip
    for when, mass, of in (
        ("ignition", "mass.lift_off", "mass."),
        ("burnout", "mass.burnout", "mass.burnout_"),
    ):
        counted = f"at {when}"
        lines = assessment.propellant_lines[f"at_{when}"]
        rows += [row(line, counted) for line in lines]
        known = results["mass.predicted"] + sum(line.predicted for line in lines)
        rest = results[mass] - known
        if abs(rest) > _REMAINDER:  # stated as a whole, without a place
            one = "propellant, stated as a whole"
            rows.append([one, "propellant", counted, rest, 0.0, rest, None, None, *nothing])
        turns = [results.get(f"{of}{axis}_inertia") for axis in ("pitch", "roll")]
        rows.append([
            f"sum at {when}", "sum", counted, None, None, results[mass],
            results.get(f"{of}centre_of_gravity"), None, None, None, *turns,
        ])  # fmt: skip
    about = "Masses, centres of gravity and moments of inertia."
    return Table("mass_statement.csv", about, columns, rows)


def _mass_groups(assessment: Assessment) -> Table:
    columns = {
        "group": "Part of the vehicle, propellant left out; or all.",
        "basic [kg]": "Basic mass.",
        "growth, sum [kg]": "Growth allowance: the sum over the lines, which the flight counts.",
        "growth, root sum square [kg]": "Root of the sum of the lines' squared allowances.",
        "predicted [kg]": "Basic mass plus the sum of growth allowances.",
    }
    rows: list[list[Cell]] = [
        [one.name, one.basic, one.growth, one.growth_root_sum_square, one.predicted]
        for one in assessment.mass_groups
    ]
    leaves = ("basic", "growth_allowance", "growth_root_sum_square")
    basic, growth, root = (assessment[f"mass.{leaf}"] for leaf in leaves)
    rows.append(["all", basic, growth, root, basic + growth])
    return Table("mass_groups.csv", ABOUT_ROOT_SUM_SQUARE, columns, rows)


def _sheet(
    content: str, name: str, about: str, words: tuple[str, list[str]] | None = None
) -> Table:
    """Make a table of what the compiled module gives as columns."""
    found = json.loads(content)["columns"]
    fields = [schema.Field.of(one["field"]) for one in found]
    columns = {field.header("si"): field.doc for field in fields}
    rows: list[list[Cell]] = [list(row) for row in zip(*(x["values"] for x in found), strict=True)]
    if words:
        header, texts = words
        columns |= {header: "Part of the ascent: rail, burn, coast."}
        rows = [[*row, text] for row, text in zip(rows, texts, strict=True)]
    return Table(name, about, columns, rows)


def _thrust(compiled: "_core.Stage") -> Table:
    about = (
        "Thrust and propellant left from ignition to the end of thrust, linear between rows. At an "
        "ambient pressure p the thrust is thrust_in_vacuum - (thrust_in_vacuum - "
        "thrust_at_sea_level) x p / 101325 Pa."
    )
    return _sheet(compiled.thrust_sheet(), "thrust.csv", about)


def _drag(compiled: "_core.Stage", assessment: Assessment) -> Table:
    site = next(row["value"] for row in assessment.inputs if row["path"] == "site.altitude")
    top = min(site + assessment["ascent.apogee"], _TOP_OF_THE_AIR)
    steps = _DRAG_ALTITUDES - 1
    sheets = [
        (altitude, compiled.drag_sheet(altitude))
        for altitude in (site + (top - site) * step / steps for step in range(steps + 1))
    ]
    first = json.loads(sheets[0][1])
    about = (
        f"Drag coefficients on the frontal area, {first['reference_area']!r} m2, over Mach number "
        "at altitudes above sea level, which set the Reynolds number of friction. power_off holds "
        "in the coast, power_on at full thrust; below the mean thrust the share of it counts "
        f"between them. Between rows the ascent reads {first['between']}; beyond the "
        "last row its value holds. The terms add up to the coefficients."
    )
    made = [(altitude, _sheet(text, "drag_coefficients.csv", about)) for altitude, text in sheets]
    columns = {"altitude [m]": "Altitude above sea level."} | made[0][1].columns
    rows: list[list[Cell]] = [[altitude, *row] for altitude, one in made for row in one.rows]
    return Table("drag_coefficients.csv", about, columns, rows)


def _ascent(compiled: "_core.Stage") -> Table:
    content = compiled.history()
    about = (
        "The ascent from lift-off to apogee, every step as it was flown; the end of thrust stands "
        "twice, with the thrust that ends and without. The last row is the apogee. The peak of "
        "dynamic pressure lies inside a step: ascent.max_dynamic_pressure is the one to design to."
    )
    return _sheet(content, "ascent.csv", about, ("phase", json.loads(content)["phase"]))


def _margins(assessment: Assessment) -> Table:
    columns = {
        "path": "Path of the margin.",
        "margin": "Allowable over factor times load, less one; negative where it is not met.",
        "governs": "yes for the smallest.",
        "doc": "What is checked against what.",
    }
    governing = assessment.governing
    rows: list[list[Cell]] = [
        [one.path, one.value, "yes" if one == governing else "no", one.doc]
        for one in assessment.margins
    ]
    return Table("margins.csv", "Margins of safety, smallest first.", columns, rows)


def _requirements(assessment: Assessment) -> Table:
    columns = {
        "id": "Short name.",
        "text": "What shall hold.",
        "status": "met, not met or open.",
        "margin": "Allowable over load, less one.",
        "response": "Path of the result it is judged by.",
        "decided_by": "Path of the result that decided.",
        "value [SI]": "The result, in the unit of the column after it.",
        "at_least [SI]": "Lower limit, in the same unit.",
        "at_most [SI]": "Upper limit, in the same unit.",
        "unit": "SI unit of value and limits.",
        "method": "How it is verified.",
        "evidence": "What shows it, in the user's words.",
        "basis": "What the status rests on.",
    }
    known = schema.results()
    rows: list[list[Cell]] = [
        [
            one.id, one.text, one.status, one.margin, one.response, one.decided_by, one.value,
            one.at_least, one.at_most, known[one.decided_by].unit if one.decided_by else None,
            one.method, one.evidence, one.basis,
        ]
        for one in assessment.requirements
    ]  # fmt: skip
    return Table("requirements.csv", "The requirement matrix.", columns, rows)


def _inputs(assessment: Assessment) -> Table:
    columns = {
        "path": "Path of the input.",
        "value [SI]": "Number in the unit of the column after it, or word of a choice.",
        "unit": "SI unit.",
        "origin": "Where it comes from.",
        "source": "Row on record or printed source; empty where the stage itself is the source.",
        "doc": "What it is.",
    }
    return Table("inputs.csv", "What the design rests on.", columns, list(_given(assessment)))


def _given(assessment: Assessment) -> Iterator[list[Cell]]:
    for row in assessment.inputs:
        yield [row["path"], row["value"], row["unit"], row["origin"], row["source"], row["doc"]]
    meaning = schema.choice_docs()
    for path, word in assessment.choices.items():
        yield [path, word, None, "choice", None, meaning.get((schema.general(path), word))]
    for path, name in assessment.on_record.items():
        yield [path, name or "values of one's own", None, "row on record", None, None]
    for path, text in assessment.tables.items():
        yield [path, text, None, "table", None, None]
