"""How long things take; run by `do.py test --long`. The limits are those the project promises."""

import subprocess
import sys
import time

import pytest

import hoopline as hl


@pytest.fixture(scope="module")
def stage() -> hl.Stage:
    return hl.Stage.load(hl.example("petrel_slim"))


def fastest_start(code: str) -> float:
    """Return the shortest of ten runs of a fresh interpreter, in seconds."""
    times = []
    for _ in range(10):
        start = time.perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL)
        times.append(time.perf_counter() - start)
    return min(times)


def test_ten_thousand_cases_through_python(benchmark, stage):
    vary = {
        "tank.outer_diameter": hl.linspace("130 mm", "220 mm", 100),
        "tank.liner.wall": hl.linspace("1 mm", "6 mm", 100),
    }
    hl.sweep(stage, vary)
    benchmark.pedantic(hl.sweep, (stage, vary), rounds=5)
    assert benchmark.stats.stats.min < 2.0


def test_lightest_of_a_hundred_thousand_options(benchmark, stage):
    """Against flying them all, in the same run, so that a busy machine slows both."""
    vary = {
        "tank.liner.metal.name": ["6061-T6 extrusion, as welded", "304 annealed sheet"],
        "tank.fore_closure.kind": ["hemisphere", "ellipsoid_2_1"],
        "tank.aft_closure.kind": ["hemisphere", "ellipsoid_2_1"],
        "tank.liner.wall": hl.linspace("1 mm", "6 mm", 25),
        "tank.overwrap.ply[0].angle": ["12 deg", "16 deg", "20 deg", "24 deg"],
        "tank.overwrap.ply[0].fibre_thickness": hl.linspace("0.1 mm", "1.4 mm", 25),
        "tank.overwrap.ply[1].fibre_thickness": hl.linspace("0.1 mm", "1.2 mm", 5),
    }
    found = benchmark.pedantic(hl.lightest_tank, (stage, vary), rounds=5, warmup_rounds=1)
    start = time.perf_counter()
    sweep = hl.sweep(stage, vary)
    ratio = (time.perf_counter() - start) / benchmark.stats.stats.min
    print(f"{len(found)} options, {found.flown} flown, {ratio:.1f} times as fast as flying all")
    best = sweep.smallest("tank.mass", margins_met=True)
    assert found.winner.tank_mass == best["tank.mass"]
    assert len(found) == 100_000
    assert benchmark.stats.stats.min < 1.0
    assert ratio > 4.0


def test_one_assessment_through_python(benchmark, stage):
    """Half of it follows the wall through its pressures and the wrap over its domes."""
    benchmark(stage.assess)
    assert benchmark.stats.stats.min < 2e-3


def test_importing_the_package_beyond_numpy():
    beyond = fastest_start("import numpy, hoopline") - fastest_start("import numpy")
    assert beyond < 0.030


def test_help():
    code = "import sys; sys.argv = ['hoopline', '--help']; from hoopline.cli import main; main()"
    assert fastest_start(code) < 0.150
