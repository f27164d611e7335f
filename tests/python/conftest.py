import os
import tomllib
from typing import Any

import pytest
from report_page import Page

import hoopline as hl

# Figures are drawn without a screen, in kernels and subprocesses too.
os.environ["MPLBACKEND"] = "agg"


@pytest.fixture(scope="session")
def stage() -> hl.Stage:
    return hl.Stage.load(hl.example("petrel_slim"))


@pytest.fixture(scope="session")
def published() -> hl.Stage:
    return hl.Stage.load(hl.example("published/v2_textbook"))


@pytest.fixture
def values() -> dict[str, Any]:
    """Return the nested mapping of an example stage, fresh for each test."""
    return tomllib.loads(hl.example("petrel_slim").read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def written(stage, tmp_path_factory) -> str:
    """Return the report of the example stage."""
    return hl.report(stage, tmp_path_factory.mktemp("report") / "slim.html").read_text("utf-8")


@pytest.fixture(scope="session")
def page(written) -> Page:
    """Return the report, read as a browser does."""
    return Page(written)


def closures(**values: Any) -> dict[str, Any]:
    return {
        f"tank.{end}_closure.{key}": value
        for end in ("fore", "aft")
        for key, value in values.items()
    }


@pytest.fixture(scope="session")
def designs() -> dict[str, hl.Assessment]:
    """Assessments whose drawings differ most."""
    slim, hoop, plain = (
        hl.Stage.load(hl.example(name)) for name in ("petrel_slim", "petrel_hoop", "petrel_plain")
    )
    dished = closures(kind="torisphere", crown_radius_ratio=0.9, knuckle_radius_ratio=0.12)
    skin = {"follow.skin": "skin_over_tank", "skin.gap": "4 mm", "nose.shape": "cone"}
    stages = {
        "slim": slim,
        "hoop": hoop,
        "plain": plain,
        "torisphere": plain.replace(dished),
        "isotensoid": slim.replace(
            closures(kind="isotensoid", turning_radius_ratio=0.45, thickness="14 mm")
        ),
        "ellipsoid": slim.replace(closures(kind="ellipsoid_2_1")),
        "flat": plain.replace(closures(kind="flat_clamped", thickness="25 mm")),
        "skin": slim.replace({**skin, "motor.case_diameter": "190 mm"}),
        "thin": slim.replace({"tank.liner.wall": "1.2 mm"}),
        "slender": slim.replace({"tank.outer_diameter": "110 mm"}),
        "stubby": plain.replace({"tank.outer_diameter": "250 mm", "fins.static_margin": 1.0}),
    }
    return {name: stage.assess() for name, stage in stages.items()}
