"""Explanations: every formula is evaluated again, as printed, and gives the number of the assessment.

The evaluation is Python's own arithmetic with the functions of `hl.textbook`, not the library's.
"""

import ast
import json
import math
import pickle
import re

import pytest

import hoopline as hl
from hoopline import textbook
from hoopline.explanation_text import together
from hoopline.textbook import nitrous_oxide

EXAMPLES = ["petrel_slim", "petrel_hoop", "petrel_plain", "published/v2_textbook"]
TORISPHERE = {
    "tank.{}_closure.kind": "torisphere",
    "tank.{}_closure.crown_radius_ratio": 0.9,
    "tank.{}_closure.knuckle_radius_ratio": 0.12,
    "tank.{}_closure.thickness": "8 mm",
}


def both(changes):
    return {path.format(side): value for path, value in changes.items() for side in ("fore", "aft")}


def seams(girth, longitudinal):
    changes = {
        "tank.liner.girth_seam.basis": girth,
        "tank.liner.longitudinal_seam.basis": longitudinal,
    }
    for seam, basis in (("girth", girth), ("longitudinal", longitudinal)):
        if "joint_efficiency" in basis:
            changes[f"tank.liner.{seam}_seam.joint_efficiency"] = 0.85
    return changes


ZONE, JOINT = "weld_zone_strength", "joint_efficiency"
BOTH = "weld_zone_strength_and_joint_efficiency"
DAY = {
    "atmosphere.model": "off_standard_day",
    "atmosphere.site_temperature": "31 degC",
    "atmosphere.site_pressure": "982 hPa absolute",
}
EXPONENTIAL = {
    "atmosphere.model": "exponential",
    "atmosphere.surface_density": "1.225 kg/m3",
    "atmosphere.surface_pressure": "101325 Pa absolute",
    "atmosphere.density_scale_height": "10.4 km",
    "atmosphere.pressure_scale_height": "8.4 km",
    "atmosphere.planet_radius": "6378 km",
}
OVER_TANK = {"follow.skin": "skin_over_tank", "skin.gap": "2 mm"}
STATED = {
    "pressure.basis": "stated",
    "pressure.stated": "60 bar gauge",
    "pressure.reason": "highest of ten fills",
}
VENTED = {
    "pressure.basis": "vented",
    "pressure.relief_setting": "55 bar gauge",
    "pressure.relief_accumulation": "10 %",
}
VARIANTS = [
    ("petrel_slim", {}),
    ("petrel_hoop", {}),
    ("petrel_plain", {}),
    ("published/v2_textbook", {}),
    ("published/v2_textbook", {"drag.table_multiplier": 1.1, "mass.added": "100 kg"}),
    ("published/v2_textbook", {"drag.table_multiplier": 0.0}),
    ("petrel_slim", seams(JOINT, "none")),
    ("petrel_slim", seams(BOTH, ZONE)),
    ("petrel_slim", seams("none", JOINT)),
    ("petrel_slim", seams("none", "none")),
    ("petrel_hoop", seams(JOINT, BOTH)),
    ("petrel_plain", seams(BOTH, JOINT)),
    ("petrel_plain", seams(JOINT, ZONE)),
    ("petrel_hoop", both(TORISPHERE)),
    ("petrel_plain", both(TORISPHERE)),
    ("petrel_plain", both({"tank.{}_closure.kind": "hemisphere"})),
    ("petrel_slim", both({"tank.{}_closure.kind": "ellipsoid_2_1"})),
    ("petrel_slim", {"tank.fore_closure.kind": "ellipsoid_2_1"}),
    (
        "petrel_hoop",
        {
            "tank.fore_closure.kind": "flat_clamped",
            "tank.aft_closure.kind": "flat_supported",
            "tank.fore_closure.thickness": "25 mm",
            "tank.aft_closure.thickness": "30 mm",
        },
    ),
    (
        "petrel_plain",
        {"tank.aft_closure.kind": "flat_clamped", "tank.aft_closure.thickness": "28 mm"},
    ),
    ("petrel_slim", VENTED),
    ("petrel_slim", STATED),
    ("petrel_slim", VENTED | {"pressure.stated": "60 bar gauge"}),
    ("petrel_slim", {"propellant.ullage": "45 %"}),
    ("petrel_slim", {"pressure.soak_temperature": "10 degC", "propellant.ullage": "40 %"}),
    ("petrel_slim", {"pressure.soak_temperature": "45 degC"}),
    ("petrel_slim", {"follow.load": "mass"}),
    ("petrel_slim", {"propellant.ullage": "95 %"}),
    ("petrel_slim", {"propellant.ullage": "0 %"}),
    ("petrel_slim", {"follow.tank": "length"}),
    ("petrel_slim", {"follow.tank": "fineness"}),
    ("petrel_slim", {"follow.thrust": "duration"}),
    ("petrel_slim", {"follow.nose": "length", "follow.bays": "length"}),
    ("petrel_slim", {"follow.fins": "calibres"}),
    ("petrel_slim", {"follow.fins": "size"}),
    ("petrel_slim", {"nose.shape": "cone"}),
    ("petrel_plain", OVER_TANK),
    ("petrel_slim", {"motor.case_diameter": "180 mm"}),
    ("petrel_slim", {"motor.exit_area": "300 cm2"}),
    ("petrel_slim", {"motor.thrust_basis": "vacuum"}),
    (
        "petrel_slim",
        {"motor.thrust_basis": "stand_pressure", "motor.stand_pressure": "95 kPa absolute"},
    ),
    ("petrel_slim", DAY),
    ("petrel_slim", EXPONENTIAL),
    ("petrel_slim", {"rail.direction": "vertical"}),
    ("petrel_slim", {"mass.stated.tank": "12 kg", "mass.added": "1 kg"}),
    ("petrel_slim", {"mass.growth.tank_maturity": "off-the-shelf"}),
    ("petrel_slim", {"rule_set.proof_factor": 1.25}),
    ("petrel_slim", {"tank.liner.metal.yield_strength": "230 MPa"}),
    ("petrel_slim", {"tank.overwrap.ply[0].angle": "50 deg"}),
    ("petrel_slim", {"tank.overwrap.ply[0].angle": "0 deg"}),
    (
        "petrel_slim",
        {"tank.overwrap.ply[1].kind": "helical", "tank.overwrap.ply[1].angle": "40 deg"},
    ),
    ("petrel_slim", {"tank.overwrap.ply[0].fibre_thickness": "0.9 mm"}),
    ("petrel_slim", {"skin.sand_grain_roughness": "0 um", "drag.base_multiplier": 1.4}),
    (
        "petrel_slim",
        {f"drag.{term}_multiplier": 0.0 for term in ("friction", "wave", "base")},
    ),
    ("petrel_slim", {"site.altitude": "1500 m", "ascent.grid": "fine"}),
]

FUNCTIONS = {
    **{
        name: getattr(math, name)
        for name in ("sqrt", "sin", "cos", "atan", "exp", "log", "log1p", "log10", "tanh", "sinh")
    },
    "pi": math.pi,
    "min": min,
    "max": max,
    "n2o_pressure": nitrous_oxide.pressure,
    "n2o_saturation_pressure": nitrous_oxide.saturation_pressure,
    "n2o_liquid_density": nitrous_oxide.liquid_density,
    "n2o_vapour_density": nitrous_oxide.vapour_density,
    "air_pressure": lambda altitude: textbook.air(altitude).pressure,
    "torisphere_volume": lambda d, crown, knuckle: textbook.closure_volume(
        "torisphere", d, crown_radius_ratio=crown, knuckle_radius_ratio=knuckle
    ),
    "torisphere_area": lambda d, crown, knuckle: textbook.closure_area(
        "torisphere", d, crown_radius_ratio=crown, knuckle_radius_ratio=knuckle
    ),
}


def name_of(variant):
    example, changes = variant
    return f"{example}: " + ", ".join(f"{path}={value}" for path, value in changes.items())


def check(explanation, assessment, stage):
    """Evaluate every step from terms and earlier steps, and hold terms against their origin."""
    path = explanation.path
    known = dict(FUNCTIONS)
    for term in explanation.terms:
        assert term.symbol not in known, f"{path}: {term.symbol} means two things"
        known[term.symbol] = term.value
        if term.ask:
            assert term.value == assessment[term.ask]
            assert term.origin == "result"
        elif term.path:
            assert term.value == stage[term.path]
        assert term.origin
        assert term.doc
    for step in explanation.steps:
        ast.parse(step.formula, mode="eval")
        value = eval(step.formula, {"__builtins__": {}}, known)
        pure = step.unit == ""
        assert value == pytest.approx(step.value, rel=1e-12, abs=1e-12 if pure else 1e-14), (
            f"{path}: {step.symbol} = {step.formula}"
        )
        assert step.source
        assert step.doc
        known[step.symbol] = step.value
    if explanation.method is None:
        last = explanation.steps[-1]
        assert last.symbol == path.rpartition(".")[2]
        assert last.value == explanation.value
    else:
        assert explanation.method.source
        assert explanation.terms
    assert explanation.value == assessment[path]


@pytest.mark.parametrize("variant", VARIANTS, ids=name_of)
def test_every_result_is_explained_and_every_step_gives_its_number(variant):
    example, changes = variant
    stage = hl.Stage.load(hl.example(example)).replace(changes)
    assessment = stage.assess()
    for path in assessment.results:
        check(assessment.explain(path), assessment, stage)
