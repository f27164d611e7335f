"""Every kind of bad input ends in an error of ours that names what is wrong; nothing panics."""

import copy
import math
import re

import pytest

import hoopline as hl

CURVE = "time s,thrust N\n0,0\n0.5,4500\n7,4000\n7.5,0\n"


def put(values, path, value):
    """Set a dotted path in nested mappings."""
    table = values
    *tables, leaf = path.split(".")
    for name in tables:
        table = table[name]
    table[leaf] = value
    return values


@pytest.mark.parametrize(
    ("path", "value", "message"),
    [
        ("tank.outer_diameter", "-160 mm", "outside"),
        ("tank.outer_diameter", -0.16, "outside"),
        ("tank.outer_diameter", "0 mm", "outside"),
        ("tank.outer_diameter", 0.0, "outside"),
        ("tank.outer_diameter", "4 km", "outside"),
        ("tank.outer_diameter", 1e300, "outside"),
        ("tank.outer_diameter", math.nan, "finite"),
        ("tank.outer_diameter", math.inf, "finite"),
        ("tank.outer_diameter", -math.inf, "finite"),
        ("tank.outer_diameter", 10**400, "finite"),
        ("tank.outer_diameter", "nan mm", "number"),
        ("tank.outer_diameter", "inf mm", "number"),
        ("tank.outer_diameter", "1e999 mm", "finite"),
        ("tank.outer_diameter", "160 bar", "not a length"),
        ("tank.outer_diameter", "160", "no unit"),
        ("tank.outer_diameter", "mm", "number"),
        ("tank.outer_diameter", "", "number"),
        ("tank.outer_diameter", True, "tank.outer_diameter"),
        ("tank.outer_diameter", None, "tank.outer_diameter is None"),
        ("tank.outer_diameter", ["160 mm"], "tank.outer_diameter"),
        ("tank.outer_diameter", {"value": 160}, "tank.outer_diameter"),
        ("tank.outer_diameter", object(), "not readable"),
        ("tank.volume", "24 mm", "not a volume"),
        ("pressure.soak_temperature", "35 K", "outside"),
        ("pressure.soak_temperature", "35 bar", "not a temperature"),
        ("propellant.ullage", "-5 %", "outside"),
        ("propellant.ullage", "120 %", "outside"),
        ("motor.thrust", "0 N", "outside"),
        ("motor.thrust", "3 kg", "not a force"),
        ("fins.count", 2.5, "fins.count"),
        ("fins.count", -4, "fins.count"),
        ("nose.shape", "von_karmann", 'did you mean "von_karman"'),
        ("rule_set.name", "no such rules", "rule set"),
        ("tank.liner.metal.name", "unobtainium", "metal"),
    ],
)
def test_values(values, path, value, message):
    with pytest.raises(hl.InputError, match=re.escape(message)):
        hl.Stage(put(values, path, value))


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("tank.outer_diametr", 'did you mean "outer_diameter"|"tank.outer_diameter"'),
        ("tank.liner.wal", "tank.liner.wall|wall"),
        ("motor.trust", "thrust"),
        ("colour", "colour"),
    ],
)
def test_misspelt_fields_name_the_nearest(values, path, message):
    with pytest.raises(hl.InputError, match=message):
        hl.Stage(put(values, path, "1 mm"))


@pytest.mark.parametrize(
    "path", ["tank.volume", "motor.specific_impulse", "propellant.fill_temperature", "nose.shape"]
)
def test_missing_values_are_named(values, path):
    table = values
    *tables, leaf = path.split(".")
    for name in tables:
        table = table[name]
    del table[leaf]
    with pytest.raises(hl.InputError, match=leaf):
        hl.Stage(values)


@pytest.mark.parametrize("given", [None, [], "tank", 3.0, b"tank"])
def test_a_stage_is_a_mapping(given):
    with pytest.raises(hl.InputError, match="mapping"):
        hl.Stage(given)


def test_names_are_text(values):
    values["tank"][3] = "1 mm"
    with pytest.raises(hl.InputError, match="names are text"):
        hl.Stage(values)


@pytest.mark.parametrize(
    ("basis", "missing"),
    [("vented", "pressure.relief_setting"), ("stated", "pressure.stated")],
)
def test_a_pressure_basis_asks_for_its_inputs(stage, values, basis, missing):
    values["pressure"] |= {"basis": basis, "reason": "highest pressure of ten fills"}
    with pytest.raises(hl.InputError, match=re.escape(missing)):
        hl.Stage(values)
    with pytest.raises(hl.InputError, match=r"pressure\.\w+ is missing"):
        stage.replace({"pressure.basis": basis})


def test_both_of_two_equivalents_are_refused(values):
    values["tank"]["length"] = "1 m"
    with pytest.raises(hl.InputError, match=r"tank\.(length|volume)"):
        hl.Stage(values)


def test_a_tank_that_cannot_hold_the_load(values):
    del values["propellant"]["ullage"]
    values["propellant"]["oxidiser_mass"] = "40 kg"
    with pytest.raises(hl.InputError, match="cannot hold the load"):
        hl.Stage(values).assess()


def test_thrust_below_weight(stage):
    with pytest.raises(hl.InputError, match="thrust never exceeds weight"):
        stage.replace({"motor.thrust": "60 N"}).assess()


def test_wall_and_wrap_without_a_bore(stage):
    with pytest.raises(hl.InputError, match="inside diameter"):
        stage.replace({"tank.liner.wall": "90 mm"}).assess()


@pytest.mark.parametrize(
    ("line", "column", "message"),
    [
        ('outer_diametr = "160 mm"', 1, 'did you mean "'),
        ('outer_diameter = "160 bar"', None, "not a length"),
        ("outer_diameter = 160", None, "unit"),
        ("outer_diameter = nan", 18, "finite"),
        ("outer_diameter = 1979-05-27", 18, "date"),
        ('outer_diameter = "160 mm', None, ""),
        ('outer_diameter = "160 mm"\nouter_diameter = "170 mm"', None, ""),
    ],
)
def test_errors_in_files_tell_the_place(tmp_path, line, column, message):
    text = hl.example("petrel_slim").read_text(encoding="utf-8")
    good = 'outer_diameter = "160 mm"'
    number = text[: text.index(good)].count("\n") + 1 + line.count("\n")
    file = tmp_path / "stage.toml"
    file.write_text(text.replace(good, line, 1), encoding="utf-8")
    place = rf"stage\.toml:{number}:{column or '[0-9]+'}: "
    with pytest.raises(hl.InputError, match=place) as caught:
        hl.Stage.load(file)
    assert message in str(caught.value)
    assert line.splitlines()[-1] in str(caught.value)  # the line itself is shown


def test_files_that_cannot_be_read(tmp_path):
    with pytest.raises(hl.DataError, match="no such file"):
        hl.Stage.load(tmp_path / "missing.toml")
    with pytest.raises(hl.DataError, match="folder"):
        hl.Stage.load(tmp_path)
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(hl.DataError, match="UTF-8"):
        hl.Stage.load(tmp_path / "bytes.toml")
    (tmp_path / "empty.toml").write_text("", encoding="utf-8")
    with pytest.raises(hl.InputError):
        hl.Stage.load(tmp_path / "empty.toml")


@pytest.fixture
def with_curve(tmp_path):
    """Return a function that loads the example stage with a thrust curve of that text."""

    def load(curve):
        text = hl.example("petrel_slim").read_text(encoding="utf-8")
        text = text.replace('thrust = "4200 N"', 'curve = { file = "curve.csv" }')
        (tmp_path / "stage.toml").write_text(text, encoding="utf-8")
        if curve is not None:
            (tmp_path / "curve.csv").write_text(curve, encoding="utf-8")
        return hl.Stage.load(tmp_path / "stage.toml")

    return load


def test_a_sound_curve_is_taken(with_curve):
    assert with_curve(CURVE).assess().ascent.apogee > 0.0


@pytest.mark.parametrize(
    ("curve", "message"),
    [
        pytest.param(None, "no such file", id="missing"),
        pytest.param("", "name two columns", id="empty"),
        pytest.param("time s,thrust N\n", "at least two points", id="header only"),
        pytest.param("time s,thrust N\n0,0\n", "at least two points", id="one row"),
        pytest.param(
            "time s,thrust N\n0,0\n2,4000\n1,4000\n3,0\n", "times must ascend", id="unsorted"
        ),
        pytest.param(
            "time s,thrust N\n0,0\n1,4000\n1,4100\n1,4200\n3,0\n",
            "times must ascend",
            id="repeated",
        ),
        pytest.param("time s,thrust N\n0,0\n1,-4000\n3,0\n", "not below zero", id="negative"),
        pytest.param("time s,thrust N\n0,0\n1,nan\n3,0\n", "not a finite number", id="nan"),
        pytest.param("time s,thrust N\n0,0\n1,many\n3,0\n", "not a finite number", id="text"),
        pytest.param("time s,thrust N\n0,0\n1\n3,0\n", "two columns are expected", id="ragged"),
        pytest.param("time s,thrust N\n0,0\n1,0\n3,0\n", "zero throughout", id="no thrust"),
        pytest.param("time bar,thrust N\n0,0\n1,4000\n3,0\n", "time bar", id="wrong unit"),
    ],
)
def test_bad_curves_are_refused(with_curve, curve, message):
    with pytest.raises((hl.InputError, hl.DataError), match=message) as caught:
        with_curve(curve)
    assert "curve" in str(caught.value)


def test_a_refused_value_leaves_the_mapping_alone(values):
    before = copy.deepcopy(values)
    with pytest.raises(hl.InputError):
        hl.Stage({**values, "colour": "red"})
    assert values == before
