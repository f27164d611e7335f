"""A mass statement followed through saved statements: what grows, what is new, what is used."""

import json
import math
import tomllib

import pytest
from command_line import run

import hoopline as hl


@pytest.fixture(scope="module")
def stages():
    """Three statements of one design: the motor grows, a camera is new, a mast is gone."""
    read = lambda: tomllib.loads(hl.example("petrel_slim").read_text("utf-8"))  # noqa: E731
    first, second, third = read(), read(), read()
    mast = {"name": "mast", "mass": "100 g", "growth_allowance": "50 %", "place": "nose"}
    first["mass"]["item"].append(mast)
    second["mass"]["item"].append(mast)
    second["motor"]["mass"] = "9.9 kg"
    third["motor"]["mass"] = "10.5 kg"
    third["mass"]["growth"] = {"tank": "3 %", "airframe": "5 %", "motor": "2 %"}
    camera = {"name": "camera", "mass": "400 g", "growth_allowance": "5 %", "place": "nose"}
    third["mass"]["item"].append(camera)
    return [hl.Stage(values) for values in (first, second, third)]


@pytest.fixture(scope="module")
def trend(stages):
    return hl.mass_trend(*stages, labels=["preliminary", "critical", "readiness"])


def line(trend, name):
    (found,) = [one for one in trend.lines if one.name == name]
    return found


def test_lines_are_followed_by_name(trend):
    motor = line(trend, "motor")
    assert motor.basic == (9.5, 9.9, 10.5)
    assert motor.changes == pytest.approx((0.4, 0.6))
    # 10 % of 9.5 kg were allowed for.
    assert motor.used == pytest.approx((0.4 / 0.95, 1.0 / 0.95))
    assert motor.predicted == pytest.approx((10.45, 10.89, 10.71))
    assert motor.maturity == ("off-the-shelf, minor modifications",) * 2 + (None,)
    camera, mast = line(trend, "camera"), line(trend, "mast")
    assert (camera.note, mast.note) == ("new in C", "gone from C")
    assert camera.basic == (None, None, 0.4)
    assert camera.used == (None, None)
    assert mast.changes == (0.0, -0.1)


def test_sums_are_those_of_the_assessments(stages, trend):
    for place, stage in enumerate(stages):
        a = stage.assess()
        assert trend.total.basic[place] == pytest.approx(a.mass.basic, rel=1e-14)
        assert trend.total.growth[place] == pytest.approx(a.mass.growth_allowance, rel=1e-14)
        assert trend.total.predicted[place] == a.mass.predicted
        for one, group in zip(trend.groups, a.mass_groups, strict=True):
            assert one.name == group.name
            assert one.basic[place] == pytest.approx(group.basic, rel=1e-14)
    for step in (0, 1):
        changes = [one.changes[step] for one in trend.lines]
        assert math.fsum(changes) == pytest.approx(trend.total.changes[step], rel=1e-9)


def test_the_verdict_says_what_of_the_allowance_is_used(stages, trend):
    first, last = stages[0].assess(), stages[-1].assess()
    grown = last.mass.basic - first.mass.basic
    allowed = first.mass.growth_allowance
    share = math.ceil(100.0 * grown / allowed)
    assert trend.verdict.startswith(
        f"From A (preliminary) to C (readiness) basic mass has grown by {grown:.2f} kg of the "
        f"{allowed:.2f} kg of growth allowance first stated ({share} %). "
        "1 line is new, 0.40 kg. 1 line is gone, 0.10 kg. Predicted mass is "
    )
    below = first.mass.predicted - last.mass.predicted
    assert f"{below:.2f} kg below the {first.mass.predicted:.2f} kg first predicted" in (
        trend.verdict
    )
    text = " ".join(str(trend).split())
    assert trend.verdict in text
    assert "motor 9.500 9.900 10.500 +0.400 +0.600 +106 %" in text
    assert "off-the-shelf, minor modifications; from C allowance stated" in text


def test_less_and_the_same_are_told(stages):
    lighter = hl.mass_trend(stages[2], stages[1])
    assert "basic mass has fallen by 0.9" in lighter.verdict
    assert "above the" in lighter.verdict
    same = hl.mass_trend(stages[0], stages[0])
    assert "has grown by 0.00 kg of" in same.verdict
    assert "Predicted mass stays at" in same.verdict


def test_saved_statements_are_called_by_their_files(stages, tmp_path):
    paths = []
    for name, stage in zip(("one", "two"), stages, strict=False):
        paths.append(tmp_path / f"{name}.json")
        paths[-1].write_text(stage.assess().to_json(), encoding="utf-8")
    found = hl.mass_trend(*paths)
    assert [one.label for one in found.statements] == ["one", "two"]
    assert found.total == hl.mass_trend(*stages[:2]).total
    assert json.loads(found.to_json())["total"]["basic"] == list(found.total.basic)
    assert found.markdown().startswith("# Mass trend\n")
    into = tmp_path / "made"
    done = run("compare", *paths, "--trend", "--into", into)
    assert done.exit_code == 0
    assert done.output.startswith("Mass trend\n")
    assert sorted(path.name for path in into.iterdir()) == [
        "mass_trend.json", "mass_trend.md", "mass_trend.png", "mass_trend.svg", "mass_trend.txt",
    ]  # fmt: skip
    assert run("compare", *paths, "--trend", "--everything").exit_code == 2


def test_one_saved_before_there_was_inertia_reads(stages):
    content = json.loads(stages[0].assess().to_json())
    content["version"] = "0.0.9"
    for row in content["mass_lines"]:
        for key in ("shape", "own_pitch_inertia", "own_roll_inertia"):
            del row[key]
    for path in [path for path in content["results"] if path.endswith("inertia")]:
        del content["results"][path]
    del content["results"]["mass.growth_root_sum_square"]
    older = hl.Assessment.from_json(json.dumps(content))
    assert older.mass_lines[0].own_pitch_inertia is None
    assert "root sum square" in str(older)
    found = hl.mass_trend(older, stages[1])
    assert found.notes[0].startswith("Versions differ (A 0.0.9")
    assert found.total.basic[0] == pytest.approx(stages[0].assess().mass.basic)


@pytest.mark.parametrize(
    ("given", "labels", "told"),
    [
        (1, None, "mass_trend takes 2 to 26 statements, not 1"),
        (2, ["one"], "2 statements need as many labels, not 1"),
        (2, "ab", "labels are a list of texts, not "),
        (2, [1, 2], "labels are a list of texts"),
    ],
)
def test_what_cannot_be_followed_is_refused(stages, given, labels, told):
    with pytest.raises(hl.InputError, match=told):
        hl.mass_trend(*stages[:given], labels=labels)


def test_a_statement_without_lines_is_refused(stages):
    content = json.loads(stages[0].assess().to_json())
    content["mass_lines"] = []
    empty = hl.Assessment.from_json(json.dumps(content))
    with pytest.raises(hl.InputError, match=r"B \(Petrel slim\) has no mass statement to follow"):
        hl.mass_trend(stages[0], empty)


def test_the_figure_shows_allowances_and_what_is_used(trend):
    plate = hl.plot.mass_trend(trend)
    assert plate.caption == trend.verdict
    left, right = plate.figure.axes
    assert list(left.lines[2].get_ydata()) == list(trend.total.basic)
    rows = [*trend.groups, trend.total]
    allowed, used = right.patches[::2], right.patches[1::2]
    assert [bar.get_width() for bar in allowed] == [row.growth[0] for row in rows]
    assert [bar.get_width() for bar in used] == pytest.approx([sum(row.changes) for row in rows])
    beyond = [row.name for row, bar in zip(rows, used, strict=True) if bar.get_hatch()]
    assert beyond == ["motor"]


def test_what_is_no_statement_is_refused():
    with pytest.raises(hl.InputError):
        hl.mass_trend(1, 2)
