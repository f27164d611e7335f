"""The search for the best design, from Python."""

import json
import pickle

import numpy as np
import pytest

import hoopline as hl
from hoopline.optimum_tables import bounds

CLEAR = {"margins": (0, None)}
RANGE = {"tank.liner.wall": ("1 mm", "8 mm")}
STOCK = {"tank.liner.wall": ["2.5 mm", "3 mm", "3.5 mm", "4 mm"]}


@pytest.fixture(scope="module")
def lightest(stage):
    return hl.optimise(stage, RANGE, minimise="tank.mass", subject_to=CLEAR)


@pytest.fixture(scope="module")
def hopeless(stage):
    bounds = CLEAR | {"tank.mass": (None, "5 kg")}
    return hl.optimise(stage, RANGE, minimise="tank.mass", subject_to=bounds)


def test_the_best_design_is_a_stage_of_its_own(lightest):
    assessment = lightest.best.stage.assess()
    assert assessment["tank.mass"] == lightest.best.goal
    assert assessment.governing.path == lightest.best.governing[0].path
    assert 0.0 <= assessment.governing.value < 1e-9


def test_it_agrees_with_a_sweep(stage, lightest):
    walls = np.linspace(1e-3, 8e-3, 7001)
    grid = hl.sweep(stage, {"tank.liner.wall": walls})
    best = grid.smallest("tank.mass", margins_met=True)
    assert lightest.best.goal <= best["tank.mass"]
    step = walls[1] - walls[0]
    wall = lightest.best.inputs["tank.liner.wall"]
    assert best.inputs["tank.liner.wall"] - step < wall <= best.inputs["tank.liner.wall"]


def test_printed_inputs_meet_every_bound_when_typed_in_again(stage, lightest):
    typed = lightest.best.rounded()
    assert typed == {"tank.liner.wall": "3.181 mm"}
    assessment = stage.replace(typed).assess()
    assert assessment.governing.value >= 0.0
    assert "3.181 mm" in str(lightest)


def test_rounding_turns_towards_the_bound_that_would_break(stage):
    upward = hl.optimise(
        stage, RANGE, minimise="tank.mass", subject_to={"margins.girth_seam_proof": (0.1, None)}
    )
    downward = hl.optimise(
        stage, RANGE, maximise="tank.mass", subject_to={"tank.mass": (None, "9 kg")}
    )
    for found in (upward, downward):
        held = found.best.governing[0]
        assert held.met_by(stage.replace(found.best.rounded(3)).assess()[held.path])
    exact = upward.best.inputs["tank.liner.wall"] * 1e3
    assert float(upward.best.rounded(2)["tank.liner.wall"].split()[0]) >= exact


def test_rounding_stays_within_the_range(stage):
    wall = {"tank.liner.wall": ("3.2 mm", "3.5557 mm")}
    found = hl.optimise(stage, wall, maximise="tank.mass", subject_to={})
    assert found.best.on_limit == {"tank.liner.wall": "upper"}
    assert found.best.rounded() == {"tank.liner.wall": "3.555 mm"}
    wall = {"tank.liner.wall": ("3.2 mm", "3.20004 mm")}
    found = hl.optimise(stage, wall, maximise="tank.mass", subject_to={})
    assert 3.2 <= float(found.best.rounded(2)["tank.liner.wall"].split()[0]) <= 3.20004


def test_rounding_takes_as_many_digits_as_it_needs(stage):
    wall = {"tank.liner.wall": ("3.20004 mm", "3.20006 mm")}
    found = hl.optimise(stage, wall, maximise="tank.mass", subject_to={})
    assert found.best.rounded() == {"tank.liner.wall": "3.20006 mm"}
    wall = {"tank.liner.wall": ("3.1807 mm", "3.18079 mm")}
    found = hl.optimise(stage, wall, minimise="tank.mass", subject_to=CLEAR)
    assert found.best.rounded() == {"tank.liner.wall": "3.18075 mm"}


def test_with_room_on_both_sides_rounding_is_to_the_nearest():
    for name in ("petrel_slim", "petrel_plain", "petrel_hoop"):
        stage = hl.Stage.load(hl.example(name))
        vary = {"nose.fineness_ratio": (1.5, 10.5)}
        best = hl.optimise(stage, vary, maximise="ascent.apogee", subject_to={}).best
        exact = best.inputs["nose.fineness_ratio"]
        for digits in (2, 3, 4, 5):
            typed = float(best.rounded(digits)["nose.fineness_ratio"])
            assert typed == pytest.approx(float(f"{exact:.{digits}g}"), rel=1e-12)


def test_a_bound_near_by_is_not_one_reached(stage):
    walls = {"tank.liner.wall": ["3.19 mm"]}
    bounds = {"margins": (0, None), "margins.hoop_burst": (0.1, None)}
    found = hl.optimise(stage, walls, minimise="tank.mass", subject_to=bounds)
    assert 0.0 < found.best.bounds[0].share < 0.01
    assert found.best.governing == ()
    for held in found.best.bounds:
        assert held.room(held.value) == pytest.approx(held.share, abs=1e-12)


def test_of_a_sliver_all_digits_stay(stage):
    sliver = (0.00355571234567891, 0.00355571234567895)
    found = hl.optimise(stage, {"tank.liner.wall": sliver}, minimise="tank.mass", subject_to=CLEAR)
    assert found.feasible
    typed = found.best.rounded()["tank.liner.wall"]
    assert float(typed.removesuffix(" mm")) == pytest.approx(3.55571234567891, rel=1e-14)


def test_a_value_listed_as_a_number_is_not_rounded(stage):
    walls = [0.00350123456, 0.0040456789]
    found = hl.optimise(stage, {"tank.liner.wall": walls}, minimise="tank.mass", subject_to=CLEAR)
    assert found.best.rounded() == {"tank.liner.wall": "0.00350123456"}


def test_where_nothing_can_be_built_no_bound_is_blamed(stage):
    for sizes in (["900 mm", "800 mm"], ("800 mm", "900 mm")):
        vary = {"tank.outer_diameter": sizes}
        found = hl.optimise(stage, vary, minimise="tank.mass", subject_to=CLEAR)
        assert found.best.status == "no results"
        assert found.never == found.conflict == ()


def test_over_stock_sizes_the_next_one_says_what_it_breaks(stage):
    found = hl.optimise(stage, STOCK, minimise="tank.mass", subject_to=CLEAR)
    assert found.best.inputs == {"tank.liner.wall": "3.5 mm"}
    assert [one.inputs["tank.liner.wall"] for one in found.runners_up] == ["4 mm", "3 mm", "2.5 mm"]
    assert found.next.inputs == {"tank.liner.wall": "3 mm"}
    assert [held.path for held in found.next.governing] == ["margins.girth_seam_proof"]
    text = " ".join(str(found).split())
    assert "tank.liner.wall = 3 mm would give less, 7.911 kg, but violates" in text


def test_left_out_bounds_are_margins_and_requirements(stage):
    found = hl.optimise(stage, RANGE, minimise="tank.mass")
    held = {bound.path for bound in found.best.bounds}
    asked = {line.response for line in stage.assess().requirements if line.response != "margins"}
    assert asked - {None} <= held
    assert {margin.path for margin in stage.assess().margins} <= held


def test_without_requirements_the_left_out_bounds_are_the_margins():
    stage = hl.Stage.load(hl.example("petrel_stock"))
    assert not stage.assess().requirements
    walls = {"tank.liner.wall": ["3 mm", "6 mm"]}
    found = hl.optimise(stage, walls, minimise="tank.mass")
    held = {bound.path for bound in found.best.bounds}
    assert held == {margin.path for margin in stage.assess().margins}


def test_what_cannot_be_met_names_what_excludes_what(hopeless):
    assert not hopeless.feasible
    assert hopeless.best.status == "violates bounds"
    assert hopeless.never == ()
    assert hopeless.conflict[-1] == "tank.mass at most 5 kg"
    assert {held.path for held in hopeless.best.governing} >= {"tank.mass"}
    text = " ".join(str(hopeless).split())
    assert "no design looked at meets these together" in text
    assert "the least violated one" in text


def test_what_is_never_met_is_told_apart(stage):
    thin = {"tank.liner.wall": ("1 mm", "2 mm")}
    found = hl.optimise(stage, thin, minimise="tank.mass", subject_to=CLEAR)
    assert "margins.girth_seam_proof at least 0" in found.never
    assert found.conflict == ()
    assert found.best.on_limit == {"tank.liner.wall": "upper"}
    assert "lies on the upper limit of tank.liner.wall" in " ".join(str(found).split())


class Mass:
    """What a unit package hands over: `to(unit)` and `magnitude`."""

    def __init__(self, magnitude, unit):
        self.magnitude, self.unit = magnitude, unit

    def to(self, unit):
        assert (self.unit, unit) == ("g", "kg")
        return Mass(self.magnitude / 1000, unit)


def test_a_bound_may_be_a_quantity_of_a_unit_package(stage):
    found, plain = (
        hl.optimise(stage, RANGE, maximise="tank.mass", subject_to={"tank.mass": (None, most)})
        for most in (Mass(9000, "g"), "9 kg")
    )
    assert found.to_json() == plain.to_json()


def test_choices_and_ranges_together(stage):
    vary = {
        "tank.fore_closure.kind": ["hemisphere", "flat_clamped"],
        "tank.liner.wall": ("1 mm", "8 mm"),
    }
    found = hl.optimise(stage, vary, minimise="tank.mass", subject_to=CLEAR)
    assert found.best.inputs["tank.fore_closure.kind"] == "hemisphere"
    last = found.candidates[-1]
    assert last.status == "no results"
    assert "helical" in last.reason
    assert "helical" in " ".join(str(found).split())
    with pytest.raises(hl.InputError, match="helical"):
        _ = last.stage


def test_one_thread_or_two_the_same_bits(stage):
    vary = RANGE | {"tank.outer_diameter": ("140 mm", "180 mm")}
    one, two = (
        hl.optimise(stage, vary, minimise="tank.mass", subject_to=CLEAR, threads=count)
        for count in (1, 2)
    )
    assert one.to_json() == two.to_json()


def test_progress_reaches_its_end(stage):
    seen = []
    hl.optimise(stage, STOCK, minimise="tank.mass", progress=lambda *now: seen.append(now))
    assert seen[-1] == (4, 4)


def test_it_travels(lightest, hopeless):
    for found in (lightest, hopeless):
        again = pickle.loads(pickle.dumps(found))
        assert again.to_json() == found.to_json()
        assert again.best.stage.digest == found.best.stage.digest


def test_as_json_and_html(lightest, stage):
    content = json.loads(lightest.to_json())
    assert content["feasible"]
    assert content["best"] == {"tank.liner.wall": "3.181 mm"}
    assert "Nitrous oxide" in content["safety"]
    named = stage.replace({"name": "<b>"})
    page = hl.optimise(named, STOCK, minimise="tank.mass")._repr_html_()
    assert "<b>" not in page
    assert "3.5 mm" in page
    assert "Nitrous oxide" in page


@pytest.mark.parametrize(
    ("vary", "options", "words"),
    [
        (RANGE, {}, "one of minimise and maximise"),
        (RANGE, {"minimise": "tank.mass", "maximise": "ascent.apogee"}, "one of minimise"),
        ({}, {"minimise": "tank.mass"}, "vary is a mapping"),
        ({"tank.liner.wall": "3 mm"}, {"minimise": "tank.mass"}, "needs a range"),
        ({"tank.liner.wall": ("1 mm", "2 mm", "3 mm")}, {"minimise": "tank.mass"}, "two limits"),
        ({"tank.liner.wall": []}, {"minimise": "tank.mass"}, "no values to try"),
        ({"tank.liner.wall": np.array(0.003)}, {"minimise": "tank.mass"}, "needs a range"),
        ({"tank.liner.wall": {"3 mm", "4 mm"}}, {"minimise": "tank.mass"}, "into a list"),
        ({"tank.liner.wall": {"3 mm": 1}}, {"minimise": "tank.mass"}, "into a list"),
        ({"tank.liner.wall": ("1 mm", "8 kg")}, {"minimise": "tank.mass"}, "kg"),
        ({"tank.liner.wall": ("0 mm", "8 mm")}, {"minimise": "tank.mass"}, "outside"),
        (RANGE, {"minimise": "tank.mas"}, 'did you mean "tank.mass"'),
        (RANGE, {"minimise": 3}, "path of a result"),
        (RANGE, {"minimise": "tank.mass", "scan": 2}, "at least 3 points"),
        (RANGE, {"minimise": "tank.mass", "scan": 0}, "whole number from 1"),
        (RANGE, {"minimise": "tank.mass", "scan": 10_000_000}, "more than 1000000"),
        (RANGE, {"minimise": "tank.mass", "threads": 0}, "whole number from 1"),
        (RANGE, {"minimise": "tank.mass", "subject_to": {"margins": 0}}, "at least, at most"),
        (RANGE, {"minimise": "tank.mass", "subject_to": [1]}, "subject_to is a mapping"),
        (RANGE, {"minimise": "tank.mass", "subject_to": {"margins": (None, None)}}, "no limit"),
    ],
)
def test_a_search_that_cannot_begin_says_why(stage, vary, options, words):
    with pytest.raises(hl.InputError, match=words):
        hl.optimise(stage, vary, **options)


def test_the_figure_marks_the_best_design_and_names_the_nearest_bounds(lightest):
    plate = hl.plot.optimum(lightest)
    left, right = plate.figure.axes
    assert left.lines[-1].get_xdata()[0] == pytest.approx(3.1807, abs=1e-3)
    names = [text.get_text() for text in right.get_legend().get_texts()]
    assert names == [held.text for held in lightest.best.bounds[:4]]
    met = left.lines[1].get_ydata()
    x = left.lines[1].get_xdata()
    assert np.isnan(met[x < 3.18]).all()
    assert not np.isnan(met[x > 3.2]).any()
    assert "8.229 kg at 3.181 mm, held by margins.girth_seam_proof" in plate.caption


def test_the_figure_of_listed_walls_and_of_none_that_fits(stage, hopeless):
    found = hl.optimise(stage, STOCK, minimise="tank.mass", subject_to=CLEAR)
    left, _ = hl.plot.optimum(found).figure.axes
    assert left.lines[-1].get_xdata()[0] == pytest.approx(3.5)
    assert hl.plot.optimum(hopeless).caption.startswith("No design of Petrel slim")


def test_a_figure_of_designs_without_results_is_refused(stage):
    found = hl.optimise(stage, {"tank.liner.wall": ["93 mm", "95 mm"]}, minimise="tank.mass")
    with pytest.raises(hl.InputError, match="nothing to draw: no design of this search has"):
        hl.plot.optimum(found)


def test_a_figure_of_two_variables_is_refused(stage):
    vary = STOCK | {"tank.outer_diameter": ["150 mm", "160 mm"]}
    found = hl.optimise(stage, vary, minimise="tank.mass")
    with pytest.raises(hl.InputError, match="vary only that one"):
        hl.plot.optimum(found)


def test_what_lies_on_no_bound_is_not_said_to(stage, lightest, hopeless):
    sits = "sits on its bounds"
    assert lightest.best.governing
    stock = hl.optimise(
        stage, {"tank.liner.wall": ["3 mm", "4 mm"]}, minimise="tank.mass", subject_to=CLEAR
    )
    assert stock.feasible
    assert not stock.best.governing
    for found, on_a_bound in ((lightest, True), (stock, False), (hopeless, False)):
        assert (sits in " ".join(str(found).split())) is on_a_bound
        assert (sits in found._repr_html_()) is on_a_bound


def test_the_room_is_rounded_as_the_value_beside_it(hopeless, stage):
    thin = hl.optimise(
        stage,
        {"tank.liner.wall": ["1.2 mm"]},
        minimise="tank.mass",
        subject_to={"margins": (0, None)},
    )
    seen = 0
    for found in (hopeless, thin):
        _, rows = bounds(found)
        for held, (path, _, value, room) in zip(found.best.bounds, rows, strict=True):
            if held.reached:
                assert room == "on the bound"
                continue
            assert float(room.removesuffix(" %")) <= 100.0 * held.share
            if path.startswith("margins.") and held.bound == 0.0 and abs(held.share) >= 0.1:
                assert int(room.removesuffix(" %")) == round(100.0 * float(value))
                seen += 1
    assert seen > 3
