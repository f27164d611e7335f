"""The lightest tank through Python: the same as every option assessed, readable, lasting."""

import copy
import json
import pickle
from itertools import product

import numpy as np
import pytest

import hoopline as hl

TUBES = ["tube 180 x 6", "tube 160 x 5", "tube 200 x 6.5"]
DOMES = {
    name: {"tank.fore_closure.sheet": name, "tank.aft_closure.sheet": name}
    for name in ("sheet 7", "sheet 8")
}
KINDS = ["hemisphere", "ellipsoid_2_1", "flat_clamped"]
VARY = {
    "tank.liner.tube": TUBES,
    "domes": DOMES,
    "tank.aft_closure.kind": KINDS,
    "tank.fittings_mass": ["0.8 kg", "1.1 kg"],
}


@pytest.fixture(scope="module")
def stage():
    return hl.Stage.load(hl.example("petrel_stock"))


@pytest.fixture(scope="module")
def found(stage):
    return hl.lightest_tank(stage, VARY, keep=4)


def changes_of(names):
    tube, dome, kind, fittings = names
    return DOMES[dome] | {
        "tank.liner.tube": tube,
        "tank.aft_closure.kind": kind,
        "tank.fittings_mass": fittings,
    }


def assessed(stage):
    """Return (tank mass, number, margins) of every option that can be built and assessed."""
    designs = []
    for row, names in enumerate(product(TUBES, DOMES, KINDS, VARY["tank.fittings_mass"])):
        try:
            results = stage.replace(changes_of(names)).assess().results
        except hl.InputError:
            continue
        margins = {path: value for path, value in results.items() if path.startswith("margins.")}
        designs.append((results["tank.mass"], row, margins))
    return designs


def test_winner_and_runners_up_are_those_of_every_option_assessed(stage, found):
    designs = assessed(stage)
    meets = sorted(design for design in designs if min(design[2].values()) >= 0)
    expected = [(mass, row, margins) for mass, row, margins in meets[:4]]
    ranked = [(option.tank_mass, option.row, dict(option.margins)) for option in found.ranked]
    assert ranked == expected
    assert found.winner is found.ranked[0]
    assert found.runners_up == found.ranked[1:]
    assert [option.rank for option in found.ranked] == [1, 2, 3, 4]
    assert found.winner.governing == min(meets[0][2], key=meets[0][2].get)
    assert found.winner.stage.assess().results == dict(found.winner.results)
    for mass, row, margins in designs:
        assert found.tank_mass[row] == mass
        if min(margins.values()) < 0:
            assert found.status[row] in ("screened", "violates bounds", "heavier")


def test_every_option_says_how_it_stands(found):
    assert len(found) == 36
    words = {option.status for option in found}
    assert words == {"meets all bounds", "heavier", "screened", "no results"}
    for option in found:
        assert option.status == found.status[option.row]
        assert (option.reason == "") == (option.status == "meets all bounds")
        if option.status == "screened":
            assert option.worst.value < option.worst.bound
            assert option.reason.startswith(f"screened by {option.worst.path} -")
        if option.status == "no results":
            with pytest.raises(hl.InputError) as refused:
                _ = option.stage
            assert str(refused.value) == option.reason
    assert sum(found.tally().values()) == len(found)
    assert next(iter(found.tally())) == "meets all bounds"


def test_a_heavy_bound_is_told_as_the_reason(stage):
    held = {"tank.mass": (None, "11 kg"), "ascent.apogee": ("6.5 km", None)}
    found = hl.lightest_tank(stage, VARY, subject_to=held, keep=100)
    assert {option.tank_mass < 11 for option in found.ranked} == {True}
    tally = found.tally()
    assert tally["screened by tank.mass"] > 0
    assert tally["violates ascent.apogee"] > 0
    violates = next(option for option in found if option.status == "violates bounds")
    assert violates.reason.startswith("violates ascent.apogee ")
    assert violates.reason.endswith("m, not at least 6500 m")
    assert violates.stage.assess().results["ascent.apogee"] == violates.worst.value


@pytest.mark.parametrize("least", ["-90 %", "-0.9"])
def test_no_text_lets_a_negative_margin_pass(stage, found, least):
    lowered = hl.lightest_tank(stage, VARY, keep=4, subject_to={"margins": (least, None)})
    assert lowered.ranked[0].row == found.winner.row
    assert min(lowered.winner.margins.values()) >= 0


def test_threads_do_not_change_anything(stage, found):
    alone = hl.lightest_tank(stage, VARY, keep=4, threads=1)
    assert alone.text() == found.text()
    assert alone.table()["reason"].tolist() == found.table()["reason"].tolist()


def test_the_table_has_a_row_for_every_option(found):
    table = found.to_pandas()
    assert list(table.columns) == [
        "tank.liner.tube",
        "domes",
        "tank.aft_closure.kind",
        "tank.fittings_mass [kg]",
        "tank.mass [kg]",
        "rank",
        "status",
        "bound",
        "value",
        "reason",
    ]
    option = found.option(17)
    row = table.iloc[17]
    assert row["tank.liner.tube"] == option.inputs["tank.liner.tube"]
    assert row["domes"] == option.inputs["domes"]
    assert row["tank.fittings_mass [kg]"] == 1.1
    assert row["reason"] == option.reason
    best = table[table["rank"] == 1].iloc[0]
    assert best["tank.mass [kg]"] == found.winner.tank_mass
    with pytest.raises(hl.InputError, match="printed"):
        found.table("imperial")


def test_printed_it_ranks_first_and_gives_reasons(found):
    text = str(found)
    lines = text.splitlines()
    assert lines[0] == "Petrel stock: lightest tank of 36 options"
    first = next(number for number, line in enumerate(lines) if line.startswith("  1  "))
    assert lines[first - 1].split()[:3] == ["rank", "tank", "mass"]
    assert lines[first].split()[1:3] == ["10.41", "kg"]
    # What would be lighter than the winner comes first, then the nearest to its bound.
    screened = [line.split() for line in lines if "screened by aft closure burst" in line]
    assert screened[0][0] == "10.40"
    behind = [float(words[-1]) for words in screened[1:]]
    assert behind == sorted(behind, reverse=True)
    assert behind[0] > behind[-1]
    assert [line.split()[0] for line in lines[first : first + 4]] == list("1234")
    assert text.count("  heavier") == 17
    assert "screened by aft closure burst" in text
    assert text.count("no results, note 1") == 6
    assert text.count("  note 1: tank.aft_closure.sheet: ") == 1
    assert "... and 33 more" in found.text(rows=3)
    with pytest.raises(hl.InputError, match="rows"):
        found.text(rows=0)
    html = found._repr_html_()
    assert html.count("<tr>") == 1 + len(found) + len(found.tally())


def test_what_none_meets_is_said(stage):
    found = hl.lightest_tank(stage, VARY, subject_to={"margins": (0.5, None)})
    assert found.winner is None
    assert found.ranked == ()
    assert "none: no option meets everything" in found.text()
    assert json.loads(found.to_json())["ranked"] == []


def test_it_lasts(found):
    for other in (pickle.loads(pickle.dumps(found)), copy.deepcopy(found)):
        assert other.text() == found.text()
        assert other.ranked == found.ranked
        for array in (other.tank_mass, other.status, other.rank, other.room):
            with pytest.raises(ValueError, match="read-only"):
                array[0] = 0
    with pytest.raises(AttributeError):
        found.flown = 0
    content = json.loads(found.to_json())
    assert content["ranked"][0]["changes"] == dict(found.winner.changes)
    assert np.isclose(content["ranked"][0]["tank_mass"], found.winner.tank_mass, rtol=0)


def test_what_cannot_be_asked_is_refused(stage):
    def refused(vary, **asked):
        with pytest.raises(hl.InputError) as error:
            hl.lightest_tank(stage, vary, **asked)
        return str(error.value)

    tubes = {"tank.liner.tube": TUBES}
    assert "mapping" in refused({})
    assert "no values" in refused({"tank.liner.tube": []})
    assert "no values" in refused({"domes": {}})
    assert "keep" in refused(tubes, keep=0)
    assert "needs what it changes" in refused({"domes": {"thin": "sheet 7"}})
    assert "names of options are text" in refused({"domes": {7: {"tank.volume": "24 L"}}})
    both = tubes | {"pair": {"a": {"tank.liner.tube": TUBES[0]}}}
    assert "tank.liner.tube is varied twice" in refused(both)
    assert "no margin may be negative" in refused(tubes, subject_to={"margins": (-0.1, None)})
    assert "apogee" in refused(tubes, subject_to={"ascent.apoge": (0, None)})
    assert "is not on record" in refused({"tank.liner.tube": ["tube 1 x 1"]})
    textbook = hl.Stage.load(hl.example("published/v2_textbook"))
    with pytest.raises(hl.InputError, match="no tank"):
        hl.lightest_tank(textbook, {"site.altitude": [0]})


def test_progress_reaches_the_end(stage):
    seen = []
    hl.lightest_tank(stage, VARY, progress=lambda done, total: seen.append((done, total)))
    assert seen[-1] == (36, 36)


def test_the_number_of_plies_is_an_option():
    stage = hl.Stage.load(hl.example("petrel_slim"))
    wraps = {
        "bare": {"tank.overwrap.plies": 0},
        "helical alone": {"tank.overwrap.plies": 1},
        "thin hoop": {"tank.overwrap.ply[1].fibre_thickness": "0.45 mm"},
        "thick hoop": {"tank.overwrap.ply[1].fibre_thickness": "0.9 mm"},
    }
    walls = ["3.5 mm", "7 mm", "9 mm"]
    found = hl.lightest_tank(stage, {"wrap": wraps, "tank.liner.wall": walls}, keep=12)
    meets = []
    for row, (wrap, wall) in enumerate(product(wraps, walls)):
        a = stage.replace(wraps[wrap] | {"tank.liner.wall": wall}).assess()
        if a.governing.value >= 0:
            meets.append((a.results["tank.mass"], row))
    assert [(option.tank_mass, option.row) for option in found.ranked] == sorted(meets)
    assert {"helical alone", "thin hoop"} <= {option.inputs["wrap"] for option in found.ranked}
    assert len(meets) < 12
    with pytest.raises(hl.InputError, match="from 0 to 2"):
        stage.replace({"tank.overwrap.plies": 3})
