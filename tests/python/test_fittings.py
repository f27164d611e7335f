"""Attachment fittings from Python: columns, margins by hand, the bond line solved elsewhere."""

import pickle
import tomllib
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import solve_bvp

import hoopline as hl

LUG = {
    "name": "lug",
    "kind": "wound_in",
    "length": "60 mm",
    "width": "20 mm",
    "height": "4 mm",
    "load_height": "12 mm",
    "fasteners": 2,
    "fastener_area": "14.2 mm2",
    "fastener_shear_strength": "400 MPa",
    "fastener_tensile_strength": "700 MPa",
    "fastener_lever": "45 mm",
    "friction_coefficient": 0.25,
    "thrust": {"carried_mass": "1.5 kg"},
    "ejection": {"axial_force": "200 N", "tank_pressure": "5 bar gauge"},
}
BRACKET = {
    "name": "bracket",
    "kind": "bonded",
    "length": "40 mm",
    "width": "20 mm",
    "height": "3 mm",
    "load_height": "10 mm",
    "fasteners": 1,
    "fastener_area": "8.78 mm2",
    "fastener_shear_strength": "400 MPa",
    "fastener_tensile_strength": "700 MPa",
    "fastener_lever": "10 mm",
    "elastic_modulus": "70 GPa",
    "poisson_ratio": 0.0,
    "glue_thickness": "0.3 mm",
    "glue_shear_modulus": "500 MPa",
    "bond_shear_strength": "30 MPa",
    "bond_peel_strength": "20 MPa",
    "drag": {"drag_area": "4 cm2"},
}


def document(*fittings):
    values = tomllib.loads(Path(hl.example("petrel_slim")).read_text())
    values["tank"]["overwrap"]["winding_stress"] = "60 MPa"
    values["tank"]["fitting"] = [dict(fitting) for fitting in fittings]
    values["tank"]["fitting_factor"] = 2.0
    return values


@pytest.fixture(scope="module")
def stage():
    return hl.Stage(document(LUG, BRACKET))


def test_columns_with_units_and_what_governs(stage):
    lug, bracket = stage.fittings()
    assert (lug.name, lug.kind, lug.cases) == ("lug", "wound_in", ("thrust", "ejection"))
    assert (bracket.kind, bracket.cases) == ("bonded", ("drag", "proof"))
    assert lug.units["clamping_force"] == "N"
    assert np.isnan(lug["bond_margin"]).all()
    assert np.isnan(bracket["clamping_force"]).all()
    margins = stage.assess().margins
    assert margins.fitting_hold == lug.margin
    assert margins.fitting_bond == bracket.margin
    assert (bracket.mode, bracket.case) == ("bond", "drag")
    assert repr(bracket).startswith("<Fitting: bracket, bonded; bond in drag, margin -0.")
    with pytest.raises(hl.InputError, match="sliding_margin"):
        lug["sliding_margins"]
    again = pickle.loads(pickle.dumps(lug))
    assert again.strain == lug.strain
    assert not again["axial_force"].flags.writeable


def test_the_flight_brings_acceleration_and_dynamic_pressure(stage):
    ascent = stage.assess().ascent
    lug, bracket = stage.fittings()
    assert lug["axial_force"][0] == pytest.approx(1.5 * ascent.max_axial_acceleration, rel=1e-12)
    assert bracket["axial_force"][0] == pytest.approx(4e-4 * ascent.max_dynamic_pressure, rel=1e-12)


@pytest.mark.parametrize("cooling", [0.0, 12.0, 70.0])
def test_clamping_by_hand(cooling):
    """Strains of liner and wrap from two equations, pull of the wrap, two pulls at the tangent.

    Cooled by some kelvin from where the wrap has set, each part would shrink by itself; the lesser
    of the clamps over the minimum and the nominal wall counts.
    """
    stage = hl.Stage(document(LUG, BRACKET))
    if cooling:
        warm = {"stress_free_temperature": 293.15 + cooling, "cool_down.temperature": 293.15}
        stage = stage.replace({f"tank.service.{path}": kelvin for path, kelvin in warm.items()})
    size = stage.assess().geometry
    meop = stage.assess().pressures.meop
    values = {row.path: row.value for row in stage.inputs()}
    young = values["tank.liner.metal.elastic_modulus"]
    nu = values["tank.liner.metal.poisson_ratio"]
    fibre = values["tank.overwrap.fibre.elastic_modulus"]
    inner = size.liner_inner_diameter / 2
    mean = inner + size.liner_minimum_wall / 2
    shares = {0: None, 1: None}
    for ply in shares:
        angle = values[f"tank.overwrap.ply[{ply}].angle"]
        along = np.cos(angle) ** 2 if ply == 0 else 0.0
        shares[ply] = (
            np.array([along, np.sin(angle) ** 2]),
            values[f"tank.overwrap.ply[{ply}].fibre_thickness"],
        )
    free = [
        -cooling * values.get(f"tank.{part}.thermal_expansion", 0.0)
        for part in ("liner.metal", "overwrap.fibre")
    ]
    (_, around), thickness = shares[1]

    def wrap_load(wall, pressure):
        liner = young * wall / (1 - nu**2) * np.array([[1, nu], [nu, 1]])
        stiffness, load = liner, liner @ np.full(2, free[0])
        for share, fibres in shares.values():
            stiffness = stiffness + fibre * fibres * np.outer(share, share)
            alone = fibre * share @ np.full(2, free[1]) - 60e6
            load = load + fibres * alone * share
        load = load + pressure * np.array([inner**2 / (2 * mean), mean])
        strain = np.linalg.solve(stiffness, load)
        return max(60e6 + fibre * around * (strain[1] - free[1]), 0.0) * thickness * around

    lug, _ = stage.fittings()
    radius = size.liner_outer_diameter / 2
    angle = 0.020 / (2 * radius) + np.arccos(radius / (radius + 0.004))
    assert lug.clamping is not None
    for pressure, clamping in zip((0.0, meop), lug.clamping, strict=True):
        walls = size.liner_minimum_wall, size.liner_wall
        pull = min(wrap_load(wall, pressure) for wall in walls)
        assert clamping == pytest.approx(2 * pull * 0.060 * np.sin(angle), rel=1e-9)
    empty = lug.clamping[0]
    warned = any("counts no cool-down" in text for text in stage.assess().cautions)
    assert warned == (cooling == 0.0)
    if cooling > 20.0:
        assert empty == 0.0
        assert lug.margin == pytest.approx(-1.0)
        return
    acceleration = stage.assess().ascent.max_axial_acceleration
    sliding = 2 * 0.25 * empty / (2.0 * 1.5 * acceleration) - 1
    assert lug["sliding_margin"][0] == pytest.approx(sliding, rel=1e-9)
    corner = 6 * 0.016 * 1.5 * acceleration / 0.060
    assert lug["lifting_margin"][0] == pytest.approx(empty / (2.0 * corner) - 1, rel=1e-9)
    # With pressure in the tank the wrap presses harder.
    assert lug["clamping_force"][1] > empty


def peak(strain, load, pad, wall, glue, length):
    """Peak shear of a bond line: the pad's line load and its slope, the shear of the glue."""
    unit = pad * strain + load

    def slope(_, state):
        held = state[0] * (1 / pad + 1 / wall) - (load / wall + strain) / unit
        return np.array([state[1], glue * length**2 * held])

    def ends(left, right):
        return np.array([left[0], right[0] - load / unit])

    places = np.linspace(0, 1, 201)
    solved = solve_bvp(slope, ends, places, np.zeros((2, 201)), tol=1e-8, max_nodes=50_000)
    assert solved.success
    return float(np.abs(solved.y[1]).max()) * unit / length


def test_the_bond_line_solved_elsewhere(stage):
    """A strip without Poisson's ratio, on a wall that does not give way."""
    _, bracket = stage.fittings()
    pad, glue = 70e9 * 3e-3, 500e6 / 0.3e-3
    (along, around), (proof_along, proof_around) = bracket.strain
    for row, strains in enumerate([(along, around), (proof_along, proof_around)]):
        growth = np.hypot(
            peak(strains[0], 0.0, pad, 1e30, glue, 0.040),
            peak(strains[1], 0.0, pad, 1e30, glue, 0.020),
        )
        assert bracket["growth_shear"][row] == pytest.approx(growth, rel=1e-5)
    load = bracket["axial_force"][0] / 0.020
    rigid = peak(0.0, load, pad, 1e30, glue, 0.040)
    assert bracket["transfer_shear"][0] == pytest.approx(rigid, rel=1e-5)
    # Whatever part of the wall follows, growth and load together stay below the sum of both.
    together = bracket["growth_shear"][0] + bracket["transfer_shear"][0]
    for wall in (5e7, 3e8, 2e9, 1e30):
        assert peak(along, load, pad, wall, glue, 0.040) < together


def test_glue_is_a_caution_always(stage):
    cautions = "\n".join(stage.assess().cautions)
    assert 'the fitting "bracket" is glued to a wall that grows: by 0.05 % along' in cautions
    assert "wants a trial" in cautions
    bare = "\n".join(hl.Stage.load(hl.example("petrel_slim")).assess().cautions)
    assert "fitting" not in bare


def changed(fitting, **values):
    return {**fitting, **values}


@pytest.mark.parametrize(
    ("fitting", "message"),
    [
        (changed(LUG, fasteners=2.5), r"fitting\[0\]\.fasteners = 2.5 is no whole number"),
        (changed(LUG, width="140 mm"), "a quarter of the way around"),
        (changed(LUG, length="3 m"), "longer than the tank's cylinder"),
        (changed(LUG, kind="welded"), '"welded" is none of the options'),
        (changed(LUG, glue_thickness="1 mm"), 'kind = "bonded" for that fitting'),
        ({k: v for k, v in LUG.items() if k not in ("thrust", "ejection")}, "no load in any case"),
        ({k: v for k, v in LUG.items() if k != "friction_coefficient"}, "friction_coefficient"),
        (changed(LUG, thrust={"axial_force": "-5 N"}), "outside"),
        (changed(LUG, thrust={"drag_area": "1 cm2"}), "drag_area"),
    ],
)
def test_what_cannot_be_is_refused(fitting, message):
    with pytest.raises(hl.InputError, match=message):
        hl.Stage(document(fitting))


def test_a_pad_under_no_hoop_ply_and_no_factor_are_refused():
    bare = document(LUG)
    bare["tank"]["overwrap"]["ply"].pop()
    with pytest.raises(hl.InputError, match="needs a hoop ply to lie under"):
        hl.Stage(bare)
    without = document(LUG)
    del without["tank"]["fitting_factor"]
    with pytest.raises(hl.InputError, match="fitting_factor"):
        hl.Stage(without)
    with pytest.raises(hl.InputError, match="5 entries, and 4"):
        hl.Stage(document(*[LUG] * 5))
    with pytest.raises(hl.InputError, match="this stage has none"):
        hl.Stage.load(hl.example("petrel_slim")).fittings()


def test_a_replaced_fitting_is_checked(stage):
    with pytest.raises(hl.InputError, match="no whole number"):
        stage.replace({"tank.fitting[0].fasteners": 1.5})
    again = stage.replace({"tank.fitting[0].kind": "wound_in", "tank.fitting[0].fasteners": 3})
    assert again.fittings()[0]["fastener_margin"][0] > stage.fittings()[0]["fastener_margin"][0]


def test_a_fitting_prints_as_a_table_with_what_governs_it(stage):
    for fitting in stage.fittings():
        first, heads, *rows = str(fitting).splitlines()
        assert first.startswith(f"{fitting.name}, {fitting.kind}: {fitting.mode} in {fitting.case}")
        assert heads.split() == [word for case in fitting.cases for word in case.split()]
        assert not any("nan" in row for row in rows)
        assert any(row.startswith("fastener margin") for row in rows)
        held = [row for row in rows if row.startswith("clamped by")]
        assert bool(held) == (fitting.kind == "wound_in")


def test_studies_give_a_status_to_what_a_stage_refuses(stage):
    swept = {
        "length": (["60 mm", "3000 mm"], "pad_too_large"),
        "width": (["20 mm", "1500 mm"], "pad_too_large"),
        "fasteners": ([2, 1.5], "part_of_a_fastener"),
    }
    for leaf, (values, word) in swept.items():
        path = f"tank.fitting[0].{leaf}"
        result = hl.sweep(stage, {path: values})
        assert result.ok.tolist() == [True, False]
        assert [failed.word for failed in result.reasons()] == [word], leaf
        with pytest.raises(hl.InputError, match=leaf):
            stage.replace({path: values[1]})


def test_what_is_stated_beyond_reason_is_told():
    lug = {**LUG, "fastener_lever": "90 mm"}
    lug["ejection"] = {"axial_force": "200 N", "tank_pressure": "500 bar gauge"}
    values = document(lug)
    values["tank"]["fittings_mass"] = "0 kg"
    cautions = " ".join(hl.Stage(values).assess().cautions)
    for told in ("least tank pressure of ejection, above MEOP", "beyond its pad", "is nought"):
        assert told in cautions
    with pytest.raises(hl.InputError, match="is the name of another fitting too"):
        hl.Stage(document(LUG, LUG))
