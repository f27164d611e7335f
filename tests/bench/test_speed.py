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


def test_one_assessment_through_python(benchmark, stage):
    benchmark(stage.assess)
    assert benchmark.stats.stats.min < 1e-3


def test_importing_the_package_beyond_numpy():
    beyond = fastest_start("import numpy, hoopline") - fastest_start("import numpy")
    assert beyond < 0.030


def test_help():
    code = "import sys; sys.argv = ['hoopline', '--help']; from hoopline.cli import main; main()"
    assert fastest_start(code) < 0.150
