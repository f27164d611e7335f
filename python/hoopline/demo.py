"""The example studies: three tank variants, their sweeps, and a published case."""

import time
from collections.abc import Callable
from pathlib import Path

from hoopline.comma_separated import Cell, cells, table
from hoopline.optimising import optimise
from hoopline.optimum import Optimum
from hoopline.packaged import example
from hoopline.spacing import linspace
from hoopline.stage import Stage
from hoopline.sweeping import Sweep, sweep

VARIANTS = ("petrel_slim", "petrel_hoop", "petrel_plain")
PUBLISHED = "published/v2_textbook"
DIAMETERS = linspace("110 mm", "240 mm", 66)


def run(folder: Path, tell: Callable[[str], object]) -> None:
    """Write texts, a table and figures into a folder, and tell what was found.

    Parameters
    ----------
    folder
        Made if it is not there; files of earlier runs are overwritten.
    tell
        Called with each line for the reader.
    """
    start = time.monotonic()
    stages = {name: Stage.load(example(name)) for name in VARIANTS}
    folder.mkdir(parents=True, exist_ok=True)
    tell("Petrel is an invented vehicle; its three tank variants:")
    for name, stage in stages.items():
        tell(f"  {_assess(name, stage, folder)}")
    tell("Published case:")
    tell(f"  {_assess(Path(PUBLISHED).name, Stage.load(example(PUBLISHED)), folder)}")

    vary = {"tank.outer_diameter": DIAMETERS}
    sweeps = {stage.name: sweep(stage, vary) for stage in stages.values()}
    _write_table(folder / "diameter_sweep.csv", sweeps)

    from hoopline.plot import apogee_and_fineness, apogee_and_tank_mass, optimum

    first = apogee_and_fineness(sweeps)
    first.save(folder, "apogee_and_fineness")
    slim = stages[VARIANTS[0]]
    second = apogee_and_tank_mass(what_if(slim), designs(slim))
    second.save(folder, "apogee_and_tank_mass")
    tell(f"\nDiameter: {first.caption}")
    tell(f"\nTank mass: {second.caption}")
    third = optimum(lightest(slim))
    third.save(folder, "lightest_wall")
    tell(f"\nLightest wall: {third.caption}")
    from hoopline.reporting import report

    page = report(slim, folder / f"{VARIANTS[0]}_report.html")
    tell(f"\nReport of {slim.name} for a review: {page.name}")
    files = ", ".join(sorted(file.name for file in folder.iterdir()))
    tell(f"\nWritten in {time.monotonic() - start:.1f} s: {files}")
    tell(f"Folder: {folder.resolve()}")


def what_if(stage: Stage) -> Sweep:
    """Sweep the stated tank mass from half to one and a half times the computed one."""
    assessment = stage.assess()
    predicted = sum(line.predicted for line in assessment.mass_lines if line.group == "tank")
    stated = stage.replace({"mass.stated.tank": predicted})
    return sweep(stated, {"mass.stated.tank": linspace(0.5 * predicted, 1.5 * predicted, 41)})


def designs(stage: Stage) -> Sweep:
    """Sweep diameter and liner wall: each case is a tank with its own mass."""
    walls = linspace("1 mm", "6 mm", 11)
    diameters = linspace("110 mm", "210 mm", 21)
    return sweep(stage, {"tank.outer_diameter": diameters, "tank.liner.wall": walls})


def lightest(stage: Stage) -> Optimum:
    """Find the lightest liner of which no margin is negative."""
    wall = {"tank.liner.wall": ("1 mm", "6 mm")}
    return optimise(stage, wall, minimise="tank.mass", subject_to={"margins": (0, None)})


def _assess(stem: str, stage: Stage, folder: Path) -> str:
    assessment = stage.assess()
    (folder / f"{stem}.txt").write_text(f"{assessment}\n", encoding="utf-8")
    governing = assessment.governing
    found = f"apogee {assessment['ascent.apogee'] / 1e3:.2f} km"
    if governing:
        word = governing.path.removeprefix("margins.")
        found += f", tank {assessment['tank.mass']:.1f} kg, {word} governs"
    return f"{assessment.name}: {found}"


def _write_table(path: Path, sweeps: dict[str, Sweep]) -> None:
    tables = {name: result.table() for name, result in sweeps.items()}
    headers = list(dict.fromkeys(header for table in tables.values() for header in table))
    rows: list[list[Cell]] = []
    for name, columns in tables.items():
        blank: list[Cell] = [None] * len(columns["status"])
        given = [cells(columns[header]) if header in columns else blank for header in headers]
        rows.extend([name, *row] for row in zip(*given, strict=True))
    path.write_bytes(table(["variant", *headers], rows).encode())
