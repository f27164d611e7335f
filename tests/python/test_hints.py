"""What is suggested for a name that is not known: what is near, and else nothing."""

import pytest
from command_line import run

import hoopline as hl
from hoopline.schema import inputs, nearest, results

MEANT = {
    "rail.angle": "rail.elevation",
    "propellant.of_ratio": "propellant.oxidiser_to_fuel_ratio",
    "motor.isp": "motor.specific_impulse",
    "mass.payload": "mass.item[0].mass",
    "skin.roughness": "skin.sand_grain_roughness",
    "tube.tolerance": "tank.liner.wall_under_tolerance",
    "tank.diameter": "tank.outer_diameter",
    "tank.outer_diametr": "tank.outer_diameter",
}


@pytest.mark.parametrize("given", MEANT)
def test_replace_sweep_and_search_suggest_the_same(stage, given):
    told = f'did you mean "{MEANT[given]}"?'
    for call in (
        lambda: stage.replace({given: "1 mm"}),
        lambda: stage[given],
        lambda: hl.sweep(stage, {given: ["1 mm"]}),
        lambda: hl.optimise(stage, {given: ("1 mm", "2 mm")}, minimise="tank.mass"),
    ):
        with pytest.raises(hl.InputError) as caught:
            call()
        assert told in str(caught.value)


@pytest.mark.parametrize("given", ["motor.colour", "motor.name", "rail.x", "tank.liner.paint"])
def test_a_path_that_only_begins_alike_is_not_suggested(stage, given):
    with pytest.raises(hl.InputError, match="unknown input") as caught:
        stage.replace({given: "1 mm"})
    assert "did you mean" not in str(caught.value)
    assert nearest(given, inputs(), dotted=True) == ""


def test_a_shape_is_suggested_for_the_adjective(stage):
    for given, meant in (
        ("elliptical", '"ellipsoid_2_1"'),
        ("hemispherical", '"hemisphere"'),
        ("torispherical", '"torisphere"'),
        ("geodesic dome", '"isotensoid"'),
        ("isotensoid dome", '"isotensoid"'),
        ("flat", '"flat_clamped", "flat_supported" or "flat_bolted"'),
        ("bolted", '"flat_bolted"'),
    ):
        with pytest.raises(hl.InputError) as caught:
            stage.replace({"tank.fore_closure.kind": given})
        assert f"did you mean {meant}?" in str(caught.value)


def test_a_result_is_suggested_by_its_last_name_and_the_list_is_named(stage, tmp_path):
    apogee = 'did you mean "ascent.apogee" or "estimate.apogee"?'
    where = "`hoopline schema --results` lists the results"
    study = tmp_path / "study.toml"
    study.write_text(
        f'schema = 1\nstage = "{hl.example("petrel_slim").as_posix()}"\n[[sweep]]\nname = "a"\n'
        'results = ["apogee"]\n[[sweep.vary]]\npath = "tank.volume"\nvalues = ["24 L"]\n'
    )
    file = hl.example("petrel_slim")
    for told in (run("check", study).stdout, run("assess", file, "--explain", "apogee").stderr):
        assert apogee in told
        assert where in told
    with pytest.raises(hl.InputError) as caught:
        hl.optimise(stage, {"tank.liner.wall": ("1 mm", "8 mm")}, minimise="mass")
    assert '"tank.mass"' in str(caught.value)
    assert where in str(caught.value)
    assert nearest("margin", ["margins", *results()], dotted=True) == '; did you mean "margins"?'
