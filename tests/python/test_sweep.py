import numpy as np
import pytest

import hoopline as hl
from hoopline.rounding import margin
from hoopline.text import label

VARY = {
    "tank.outer_diameter": ["140 mm", "160 mm", "185 mm"],
    "tank.liner.wall": [0.002, 0.003, 0.0045, 0.006],
}


@pytest.fixture(scope="module")
def grid(stage):
    return hl.sweep(stage, VARY)


def test_every_case_equals_its_own_assessment_bit_for_bit(stage, grid):
    assert grid.ok.all()
    for index in np.ndindex(grid.shape):
        case = grid.case(index)
        single = stage.replace(case.inputs).assess()
        assert set(case.results) == set(single.results)
        for path, value in single.results.items():
            assert case[path] == value, (path, case.inputs)


@pytest.mark.parametrize("rule", ["length", "fineness"])
def test_bit_equality_holds_under_other_follow_rules(stage, rule):
    stage = stage.replace({"follow.tank": rule, "follow.thrust": "duration"})
    grid = hl.sweep(stage, {"tank.outer_diameter": ["150 mm", "160 mm", "170 mm"]})
    for index in np.ndindex(grid.shape):
        case = grid.case(index)
        assert dict(case.results) == dict(stage.replace(case.inputs).assess().results)


def test_axes_are_in_si_and_in_the_order_given(grid):
    assert list(grid.axes) == list(VARY)
    assert grid.shape == (3, 4)
    assert len(grid) == 12
    np.testing.assert_array_equal(grid.axes["tank.outer_diameter"], [0.14, 0.16, 0.185])
    np.testing.assert_array_equal(grid.axes["tank.liner.wall"], VARY["tank.liner.wall"])
    # The first path varies slowest: the diameter is constant along the second axis.
    diameter = grid["geometry.tank_outer_diameter"]
    np.testing.assert_allclose(diameter, np.array([[0.14], [0.16], [0.185]]) * np.ones((3, 4)))


def test_one_and_two_threads_agree_bit_for_bit(stage):
    vary = {"tank.outer_diameter": hl.linspace("110 mm", "260 mm", 301)}
    one, two = hl.sweep(stage, vary, threads=1), hl.sweep(stage, vary, threads=2)
    assert one.paths == two.paths
    np.testing.assert_array_equal(one.status, two.status)
    for path in one.paths:
        np.testing.assert_array_equal(one[path], two[path], err_msg=path)


@pytest.mark.parametrize(
    ("vary", "word", "hint"),
    [
        ({"tank.liner.wall": ["85 mm", "95 mm"]}, "no_bore", "tank.liner.wall"),
        ({"tank.volume": ["0.1 L", "1 L"]}, "tank_too_short", "tank.volume"),
        ({"motor.thrust": ["50 N", "200 N"]}, "thrust_below_weight", "motor.thrust"),
        ({"mass.added": [-60.0, -50.0]}, "no_mass", "mass.added"),
    ],
)
def test_failing_cases_have_status_and_reason(stage, vary, word, hint):
    grid = hl.sweep(stage, vary)
    assert not grid.ok.any()
    assert (grid.status > 0).all()
    failed = grid.reasons()
    assert [case.index for case in failed] == [(0,), (1,)]
    assert {case.word for case in failed} == {word}
    assert all(hint in case.reason for case in failed)
    assert [case.inputs for case in failed] == [
        {path: value} for path, values in vary.items() for value in values
    ]
    for path in grid.paths:
        assert np.isnan(grid[path]).all()
    with pytest.raises(hl.InputError, match="no case"):
        grid.largest("ascent.apogee")
    with pytest.raises(hl.InputError, match=hint):
        grid.case((0,))


def test_a_tank_too_small_for_the_load_is_a_failing_case(stage):
    stage = stage.replace({"follow.load": "mass"})
    grid = hl.sweep(stage, {"propellant.oxidiser_mass": ["10 kg", "15 kg", "30 kg"]})
    assert grid.ok.tolist() == [True, True, False]
    assert grid.reasons()[0].word == "load_does_not_fit"


def test_best_cases_look_at_sound_ones_only(stage):
    grid = hl.sweep(stage, {"tank.liner.wall": ["3 mm", "95 mm", "1.5 mm", "6 mm"]})
    assert grid.ok.tolist() == [True, False, True, True]
    lightest, heaviest = grid.smallest("tank.mass"), grid.largest("tank.mass")
    assert (lightest.index, heaviest.index) == ((2,), (3,))
    assert heaviest.inputs == {"tank.liner.wall": "6 mm"}
    assert lightest["tank.mass"] == np.nanmin(grid["tank.mass"])
    assert "1 failed" in repr(grid)


def test_the_smallest_margin_is_that_of_each_assessment_though_some_do_not_apply(stage):
    vary = {
        "tank.liner.girth_seam.basis": ["none", "weld_zone_strength"],
        "tank.liner.wall": ["1.2 mm", "4 mm", "95 mm"],
    }
    grid = hl.sweep(stage, vary)
    assert grid.ok.tolist() == [[True, True, False]] * 2
    assert np.isnan(grid["margins.girth_seam_proof"]).tolist() == [[True] * 3, [False, False, True]]
    for index in np.ndindex(grid.shape):
        if not grid.ok[index]:
            assert np.isnan(grid.smallest_margin[index])
            assert not grid.margins_met[index]
            continue
        one = stage.replace(grid.case(index).inputs).assess()
        assert grid.smallest_margin[index] == one.governing.value
        assert grid.margins_met[index] == (one.governing.value >= 0.0)
        words = f"{margin(one.governing.value)} {label(one.governing.path)}"
        assert words in grid.text().splitlines()[-len(grid) + np.ravel_multi_index(index, (2, 3))]
    with pytest.raises(ValueError, match="read-only"):
        grid.smallest_margin[0, 0] = 0.0


def test_choices_can_be_varied(stage):
    vary = {"follow.tank": ["volume", "length"], "tank.outer_diameter": ["150 mm", "170 mm"]}
    grid = hl.sweep(stage, vary)
    assert grid.shape == (2, 2)
    assert grid.axes["follow.tank"].tolist() == ["volume", "length"]
    volume = grid["geometry.tank_volume"]
    assert volume[0, 0] == pytest.approx(volume[0, 1], rel=1e-15)
    assert volume[1, 0] < volume[1, 1]
    assert grid.case((1, 1)).results == dict(
        stage.replace({"follow.tank": "length"})
        .replace({"tank.outer_diameter": "170 mm"})
        .assess()
        .results
    )


def test_a_stated_tank_mass_can_be_varied(stage):
    stage = stage.replace({"follow.fins": "size"})  # else the fins change with the tank
    grid = hl.sweep(stage, {"mass.stated.tank": ["6 kg", "12 kg"]})
    assert grid["ascent.apogee"][0] > grid["ascent.apogee"][1]
    assert np.diff(grid["mass.predicted"]) == pytest.approx(6.0)
    # What the tank as drawn weighs does not depend on what is stated.
    assert grid["tank.mass"][0] == grid["tank.mass"][1] == stage.assess()["tank.mass"]


def test_pandas_has_units_in_its_headers(stage, grid):
    printed, plain = grid.to_pandas(), grid.to_pandas(units="si")
    assert len(printed) == len(plain) == len(grid)
    assert printed["tank.outer_diameter [mm]"].tolist()[:5] == [140.0] * 4 + [160.0]
    assert plain["tank.outer_diameter [m]"].iloc[0] == 0.14
    assert plain["ascent.apogee [m]"].to_numpy().reshape(grid.shape) == pytest.approx(
        grid["ascent.apogee"]
    )
    assert set(printed["status"]) == {"ok"}
    assert printed["pressures.meop [bar gauge]"].iloc[0] == pytest.approx(
        plain["pressures.meop [Pa gauge]"].iloc[0] / 1e5
    )
    with pytest.raises(hl.InputError, match="printed"):
        grid.to_pandas(units="imperial")


def test_pandas_keeps_failing_cases_with_their_reason(stage):
    frame = hl.sweep(stage, {"tank.liner.wall": ["3 mm", "95 mm"]}).to_pandas()
    assert frame["status"].tolist() == ["ok", "no_bore"]
    assert frame["reason"].iloc[0] == ""
    assert "inside diameter" in frame["reason"].iloc[1]
    assert np.isnan(frame["tank.mass [kg]"].iloc[1])


@pytest.mark.parametrize(("units", "unit", "factor"), [("si", "m", 1.0), ("printed", "mm", 1e3)])
def test_xarray_has_named_dimensions_and_units(grid, units, unit, factor):
    data = grid.to_xarray(units=units)
    assert data.sizes == {"tank.outer_diameter": 3, "tank.liner.wall": 4}
    assert data["tank.outer_diameter"].attrs["units"] == unit
    assert data["geometry.tank_length"].attrs["long_name"]
    np.testing.assert_allclose(
        data["geometry.tank_length"].to_numpy(), grid["geometry.tank_length"] * factor
    )
    assert data.attrs["digest"] == grid.stage.digest


def test_results_cannot_be_written_to(grid):
    with pytest.raises(ValueError, match="read-only"):
        grid["ascent.apogee"][0, 0] = 0.0


def test_an_unknown_result_names_the_nearest(grid):
    with pytest.raises(KeyError, match=r'"ascent\.apogee"'):
        grid["ascent.apogi"]
    with pytest.raises(KeyError, match="is an input"):
        grid["tank.outer_diameter"]
    with pytest.raises(KeyError, match="does not apply"):
        grid["pressures.meop_vented"]


@pytest.mark.parametrize(
    ("vary", "message"),
    [
        ({}, "mapping"),
        ({"tank.outer_diameter": "150 mm"}, "list of values"),
        ({"tank.outer_diameter": 0.15}, "list of values"),
        ({"tank.outer_diameter": np.array(0.15)}, "list of values"),
        ({"tank.outer_diameter": []}, "no values"),
        # Neither says in which order the cases come.
        ({"tank.outer_diameter": {"150 mm", "160 mm"}}, "into a list"),
        ({"tank.outer_diameter": {"150 mm": 1}}, "into a list"),
        ({3: ["150 mm"]}, "vary: 3 is not a path"),
        ({"tank.outer_diametr": ["150 mm"]}, 'did you mean "tank.outer_diameter"'),
        ({"tank.length": ["1 m"]}, "follow.tank"),
        ({"ascent.apogee": [1.0]}, "ascent.apogee"),
        ({"tank.outer_diameter": ["150 mm", "-1 mm"]}, "outside"),
        ({"tank.outer_diameter": ["150 mm", "150 bar"]}, "not a length"),
        ({"tank.outer_diameter": [float("nan")]}, "finite"),
        ({"follow.tank": ["volume", "fixed"]}, "none of the options"),
    ],
)
def test_unreadable_sweeps_are_refused(stage, vary, message):
    with pytest.raises(hl.InputError, match=message):
        hl.sweep(stage, vary)


def test_progress_ends_at_the_total(stage):
    seen: list[tuple[int, int]] = []
    vary = {"tank.outer_diameter": hl.linspace("130 mm", "240 mm", 40)}
    hl.sweep(stage, vary, progress=lambda done, total: seen.append((done, total)))
    assert seen[-1] == (40, 40)
    assert [done for done, _ in seen] == sorted(done for done, _ in seen)


def test_an_error_in_the_progress_callback_stops_the_sweep(stage):
    def stop(done: int, total: int) -> None:
        raise RuntimeError("enough")

    vary = {"tank.outer_diameter": hl.linspace("130 mm", "240 mm", 40)}
    with pytest.raises(RuntimeError, match="enough"):
        hl.sweep(stage, vary, progress=stop)


@pytest.mark.parametrize("threads", [0, -1, "2", 1.5, True, np.array(2)])
def test_threads_are_a_whole_number_from_one(stage, threads):
    with pytest.raises(hl.InputError, match="threads is a whole number from 1"):
        hl.sweep(stage, VARY, threads=threads)


def test_linspace_keeps_the_unit():
    assert hl.linspace("130 mm", "140 mm", 5) == [
        "130 mm", "132.5 mm", "135 mm", "137.5 mm", "140 mm",
    ]  # fmt: skip
    assert hl.linspace("50 bar gauge", "60 bar gauge", 2) == ["50 bar gauge", "60 bar gauge"]
    assert hl.linspace("0", "1", 4)[1] == "0.333333333333333"
    assert hl.linspace(0.1, 0.3, 3) == [0.1, 0.2, 0.3]


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("1 mm", "2 m", 3), "one unit"),
        (("1 mm", 2.0, 3), "two numbers"),
        (("one mm", "2 mm", 3), "not a number"),
        (("nan mm", "2 mm", 3), "not a number"),
        (("1 mm", "2 mm", 1), "at least 2"),
    ],
)
def test_linspace_refuses_what_it_cannot_space(arguments, message):
    with pytest.raises(hl.InputError, match=message):
        hl.linspace(*arguments)


def test_text_says_what_follows_what():
    base = hl.Stage.load(hl.example("petrel_plain"))
    apogees = set()
    for word, meaning in {
        "volume": "The volume stays; the length follows.",
        "length": "The length stays; the volume follows.",
        "fineness": "The fineness ratio stays; length and volume follow.",
    }.items():
        stage = base.replace({"follow.tank": word})
        table = hl.sweep(stage, {"tank.outer_diameter": ["160 mm"]})
        assert f"tank = {word}" in str(table)
        assert meaning in str(table)
        apogees.add(round(float(table["ascent.apogee"][0])))
    assert len(apogees) == 3


def test_text_shows_faults_and_what_it_leaves_out(stage):
    table = hl.sweep(stage, {"tank.volume": ["1 L", "24 L", "30 L"]})
    text = table.text(["ascent.apogee"], rows=2)
    assert "tank_too_short" in text
    assert "... and 1 more" in text
    assert "load.propellant" not in text
    with pytest.raises(KeyError, match="did you mean"):
        table.text(["ascent.apogy"])


@pytest.mark.parametrize("rows", [0, -1, 1.5, "2", True])
def test_text_needs_a_number_of_rows(stage, rows):
    with pytest.raises(hl.InputError, match="rows is a whole number"):
        hl.sweep(stage, {"tank.volume": ["24 L"]}).text(rows=rows)


@pytest.mark.parametrize("paths", ["ascent.apogee", [None]])
def test_text_needs_a_list_of_paths(stage, paths):
    with pytest.raises(hl.InputError, match="paths is a list"):
        hl.sweep(stage, {"tank.volume": ["24 L"]}).text(paths)


def test_a_word_that_is_not_on_record_stops_a_sweep(stage):
    with pytest.raises(hl.InputError, match='"weighed" is not on record'):
        hl.sweep(stage, {"mass.growth.tank_maturity": ["off-the-shelf", "weighed"]})
