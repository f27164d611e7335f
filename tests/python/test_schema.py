"""The schema of files judges as the reader does: against a validator of the JSON Schema standard.

JSON Schema 2020-12: A. Wright, H. Andrews, B. Hutton, G. Dennis, "JSON Schema: A Media Type for
Describing JSON Documents", draft-bhutton-json-schema-01; the validator is the package jsonschema.
"""

import json
import tomllib

import pytest
from command_line import run
from jsonschema import Draft202012Validator

import hoopline as hl
from hoopline import _core
from hoopline.schema import document

STAGES = ("petrel_slim", "petrel_hoop", "petrel_plain", "petrel_stock", "published/v2_textbook")
SLIM = hl.example("petrel_slim").read_text(encoding="utf-8")
STOCK = hl.example("workshop_stock").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def validators():
    made = {}
    for of in ("stage", "catalogue"):
        schema = json.loads(run("schema", "--of", of).stdout)
        assert schema == hl.json_schema(of)
        Draft202012Validator.check_schema(schema)
        made[of] = Draft202012Validator(schema)
    return made


def test_every_packaged_file_is_valid(validators):
    for name in STAGES:
        content = tomllib.loads(hl.example(name).read_text(encoding="utf-8"))
        assert not list(validators["stage"].iter_errors(content)), name
    assert not list(validators["catalogue"].iter_errors(tomllib.loads(STOCK)))


OUTER = 'outer_diameter = "160 mm"'
PLACE = 'place = "motor"'
WRONG = [
    ("schema = 1\n", ""),
    ("schema = 1\n", "schema = 2\n"),
    (OUTER, 'outer_diameter = "160 bar"'),
    (OUTER, "outer_diameter = 160"),
    (OUTER, 'outer_diameter = "160"'),
    (OUTER, 'outer_diameter = "wide"'),
    (OUTER, 'outer_diametre = "160 mm"'),
    (OUTER, 'outer_diameter = { value = "160 mm" }'),
    ('soak_temperature = "35 degC"', 'soak_temperature = "35 °F"'),
    ('basis = "closed"', 'basis = "sealed"'),
    ('basis = "closed"', 'basis = "closed"\nstated = "60 bar"'),
    ("oxidiser_to_fuel_ratio = 6.5", "oxidiser_to_fuel_ratio = 0.05"),
    ('ullage = "25 %"', "ullage = 1.5"),
    ("count = 4", "count = 5"),
    ("count = 4", 'count = "4"'),
    ("[nose]", "[noze]"),
    ('[nose]\nshape = "von_karman"\nfineness_ratio = 5\n', "[nose]\n"),
    ('[nose]\nshape = "von_karman"\nfineness_ratio = 5\n', 'nose = "cone"\n'),
    ('name = "Petrel slim"', "name = 7"),
    (PLACE, 'place = "tail"'),
    (PLACE + "\n", ""),
    ('kind = "helical"\n', ""),
    ('method = "inspection"\n', ""),
    ('method = "inspection"', 'method = "wish"'),
    ('id = "TNK-04"\n', ""),
    ('response = "margins"\n', ""),
    ('at_most = "4 m"\n', ""),
    ('thrust = "4200 N"', "curve = { rows = [[0, 1, 2]] }"),
    ('thrust = "4200 N"', 'curve = { file = "a.csv", rows = [] }'),
    ("schema = 1\n", "schema = 1\ncatalogue = 7\n"),
    ("schema = 1\n", "schema = 1\ncatalogue = []\n"),
]


@pytest.mark.parametrize(("old", "new"), WRONG)
def test_a_wrong_stage_is_refused_by_schema_and_reader(validators, tmp_path, old, new):
    assert old in SLIM
    file = tmp_path / "wrong.toml"
    if "noze" not in new and new.startswith("nose"):
        # A value of the whole file stands before its tables.
        text = SLIM.replace(old, "").replace("schema = 1\n", f"schema = 1\n{new}")
    else:
        text = SLIM.replace(old, new, 1)
    file.write_text(text, encoding="utf-8")
    assert list(validators["stage"].iter_errors(tomllib.loads(text)))
    assert run("check", file).exit_code == 2


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('metal = "workshop aluminium, as welded"', 'metall = "workshop aluminium, as welded"'),
        ('wall = "6 mm"', 'wall = "6 bar"'),
        ('wall = "6 mm"', "wall = 6"),
        ('wall = "6 mm"\n', ""),
        ('source = "invented stock list, line 4"\n', ""),
        ('source = "invented stock list, line 4"', 'source = " "'),
        ('wall = { value = "5 mm", source =', 'wall = { value = "5 mm", sauce ='),
        (', source = "invented: smallest of eight readings with an invented caliper"', ""),
        ("[[tube]]", "[[pipe]]"),
        ("poisson_ratio = 0.33", "poisson_ratio = 0.6"),
        ("schema = 1\n", ""),
    ],
)
def test_a_wrong_catalogue_is_refused_by_schema_and_reader(validators, tmp_path, old, new):
    assert old in STOCK
    text = STOCK.replace(old, new, 1)
    (tmp_path / "workshop_stock.toml").write_text(text, encoding="utf-8")
    stage = tmp_path / "stage.toml"
    stage.write_bytes(hl.example("petrel_stock").read_bytes())
    assert list(validators["catalogue"].iter_errors(tomllib.loads(text)))
    assert run("check", stage).exit_code == 2


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (OUTER, 'outer_diameter = " 16.0e1mm "'),
        (OUTER, 'outer_diameter = "+.16 m"'),
        ('ullage = "25 %"', "ullage = 0.25"),
        ('ullage = "25 %"', 'ullage = "0.25"'),
        ('length = "8 m"', 'length = "30 ft"'),
        ("count = 4", "count = 3"),
        ('thrust = "4200 N"', "curve = { rows = [[0, 4000], [5, 4400]] }"),
        ('at_least = "8.5 km"', 'at_least = "8.5 km"\nat_most = "12 km"'),
        ('place = "motor"', 'place = "motor"\n\n[[mass.maturity]]\nname = "ours"\n'
         'growth_allowance = "7 %"\nsource = "three seasons of an invented team"'),
        ("[site]", '[[catalogue.sheet]]\nname = "a"\nsource = "b"\nthickness = "3 mm"\n\n[site]'),
    ],
)  # fmt: skip
def test_what_the_reader_takes_the_schema_takes(validators, tmp_path, old, new):
    assert old in SLIM
    text = SLIM.replace(old, new, 1)
    file = tmp_path / "right.toml"
    file.write_text(text, encoding="utf-8")
    assert run("check", file).exit_code == 0, run("check", file).stdout
    assert not list(validators["stage"].iter_errors(tomllib.loads(text)))


def test_pattern_and_reader_take_the_same_texts():
    schema = hl.json_schema()
    every = sorted({unit for units in document()["quantities"].values() for unit in units})
    every += ["°C", "l", "ml", "°", "\u00b5m", "\u03bcm", "\u2103", "ll"]
    numbers = ("5", "5.", ".5", "+5", "-5", "5e1", "5E-1", "", "five", "5,0", "5 0", "nan", "1_0")
    for quantity in document()["quantities"]:
        definition = schema["$defs"][quantity.replace(" ", "_")]
        validator = Draft202012Validator(definition)
        for unit in (*every, "mmm", "bar  gauge", "bar", "e", "m m"):
            for number in numbers:
                for text in (f"{number} {unit}", f" {number}{unit} "):
                    try:
                        _core.read("x", text, quantity)
                        taken = True
                    except hl.InputError:
                        taken = False
                    assert validator.is_valid(text) == taken, (quantity, text)


def flattened(schema, path=""):
    """Yield the paths at which a schema lets a value stand."""
    for name, inner in schema.get("properties", {}).items():
        below = f"{path}.{name}" if path else name
        if inner.get("type") == "array" and "items" in inner:
            yield from flattened(inner["items"], f"{below}[]")
        elif inner.get("type") == "object":
            yield from flattened(inner, below)
        else:
            yield below


def test_list_and_schema_hold_the_same_paths():
    listed = {entry.path for entry in hl.paths() if entry.kind != "list"}
    assert set(flattened(hl.json_schema())) == listed
    assert {field["path"].replace("[0]", "[]") for field in document()["inputs"]} >= {
        entry.path for entry in hl.paths() if entry.limits
    }


def test_lists_are_as_long_as_the_reader_takes(validators, values):
    ply = values["tank"]["overwrap"]["ply"][0]
    for count, taken in ((8, True), (9, False)):
        values["tank"]["overwrap"]["ply"] = [ply] * count
        assert validators["stage"].is_valid(values) == taken
        if taken:
            hl.Stage(values)
        else:
            with pytest.raises(hl.InputError, match="put some of them together"):
                hl.Stage(values)


def test_the_table_narrows_and_names_the_nearest():
    result = run("schema", "tank.liner.wall")
    assert result.exit_code == 0
    assert result.stdout.splitlines()[1].split()[:6] == [
        "tank.liner.wall", "length", "mm", "0.1", "to", "100",
    ]  # fmt: skip
    assert run("schema", "--list").stdout.count("\n") > 100
    assert [entry.path for entry in hl.paths("mass.item[3].sta")] == ["mass.item[].station"]
    rows = json.loads(run("schema", "--list", "tank.liner.wall", "--json").stdout)
    assert (rows[0]["unit"], rows[0]["lower"], rows[0]["upper"]) == ("m", 1e-4, 0.1)
    assert hl.paths("follow.tank")[0].options == ("volume", "length", "fineness")
    assert "volume by default" in str(hl.paths("follow.tank"))
    assert "ascent.apogee" in run("schema", "--results", "ascent").stdout
    for arguments, told in (
        (("tank.outr",), 'did you mean "tank.outer_diameter"?'),
        (("--results", "ascent.apoge_"), 'did you mean "ascent.apogee'),
        (("--of", "catalog"), 'did you mean "catalogue"?'),
        (("--of", "catalogue", "tank"), "--of goes with"),
    ):
        refused = run("schema", *arguments)
        assert (refused.exit_code, refused.stdout) == (2, "")
        assert told in refused.stderr
