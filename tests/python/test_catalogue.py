"""Rows a stage can name: what they fill in, where each number comes from, and what travels."""

import copy
import json
import pickle
import shutil

import pytest
from command_line import run

import hoopline as hl

TUBES = ("tube 180 x 6", "tube 160 x 5", "tube 200 x 6.5")


@pytest.fixture(scope="module")
def stocked() -> hl.Stage:
    return hl.Stage.load(hl.example("petrel_stock"))


@pytest.fixture
def folder(tmp_path):
    """Return a folder that holds the example and its catalogue."""
    for name in ("petrel_stock", "workshop_stock"):
        shutil.copy(hl.example(name), tmp_path)
    return tmp_path


def changed(folder, name, old, new):
    file = folder / f"{name}.toml"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")
    return folder / "petrel_stock.toml"


def test_a_stage_lists_every_row_it_can_name(stocked, stage):
    rows = stocked.catalogue()
    assert rows.of("tube").names == TUBES
    assert rows.of("tube")[0].metal == "workshop aluminium, as welded"
    assert rows["sheet 7"].values["thickness"].value == 0.007
    assert rows["sheet 7"].values["thickness"].unit == "m"
    assert rows["sheet 7"].paths == (
        "tank.liner.sheet", "tank.fore_closure.sheet", "tank.aft_closure.sheet",
    )  # fmt: skip
    weld = rows["workshop aluminium, as welded"].values["weld_zone_yield_strength"]
    assert (weld.shown, weld.source) == (
        "110 MPa", "invented: three bend coupons of an invented weld",
    )  # fmt: skip
    assert all(row.source for row in rows)
    shipped = stage.catalogue()
    assert "tube" not in shipped.kinds
    assert set(shipped.names) < set(rows.names)
    assert {"rule set", "maturity"} < set(shipped.kinds)


def test_the_catalogue_prints_as_a_table_and_travels(stocked):
    rows = stocked.catalogue()
    text = str(rows)
    for row in rows:
        assert f"\n  {row.name}\n" in text
    assert "outer_diameter 180 mm; wall 6 mm" in text
    assert "    wall: invented: smallest of eight readings with an invented caliper\n" in text
    assert "None" not in text
    assert max(map(len, text.splitlines())) <= 96
    assert "12 metal" in repr(rows)
    assert pickle.loads(pickle.dumps(rows)) == rows
    assert copy.deepcopy(rows) == rows
    assert isinstance(rows[1:3], hl.Catalogue)
    with pytest.raises(hl.InputError, match='no row "tube 180"; did you mean "tube 180 x 6"'):
        rows["tube 180"]
    with pytest.raises(hl.InputError, match='unknown kind "tubes"; did you mean "tube"'):
        rows.of("tubes")


def test_every_input_says_where_it_comes_from(stocked, stage):
    file = hl.example("petrel_stock")
    lines = file.read_text(encoding="utf-8").splitlines()
    for path in ("tank.volume", "tank.liner.tube", "pressure.basis", "mass.item[0].station"):
        place = stocked.source(path).removeprefix(f"stage file {file}:")
        assert lines[int(place) - 1].startswith(path.rpartition(".")[2]), path
    stock = hl.example("workshop_stock")
    (line,) = (
        number
        for number, text in enumerate(stock.read_text(encoding="utf-8").splitlines(), start=1)
        if text == 'name = "tube 180 x 6"'
    )
    assert stocked.source("tank.liner.wall") == (
        f'tube "tube 180 x 6" ({stock}:{line - 1}): invented stock list, line 1'
    )
    assert stocked.source("tank.liner.metal.name") == "metal of tank.liner.tube"
    assert stocked.source("tank.liner.metal.weld_zone_yield_strength").endswith(
        "invented: three bend coupons of an invented weld"
    )
    assert stocked.source("follow.tank") == "a default of hoopline's own"
    assert "Student rocket competition" in stocked.source("rule_set.proof_factor")
    assert stage.source("mass.growth.motor").startswith("class of maturity")
    replaced = stocked.replace({"tank.volume": "25 L"})
    assert replaced.source("tank.volume") == "replaced since the stage was read"
    for row in stocked.inputs():
        assert stocked.source(row.path)
        assert (row.source != "") == (row.origin == "on record"), row.path
    with pytest.raises(hl.InputError, match=r'did you mean "tank\.volume"'):
        stocked.source("tank.volum")
    with pytest.raises(hl.InputError, match=r"tank\.length follows"):
        stocked.source("tank.length")


def test_values_of_ones_own_have_the_source_stated_beside_them(values):
    del values["tank"]["liner"]["metal"]["name"]
    values["tank"]["liner"]["metal"] |= {
        "source": "a certificate", "yield_strength": "240 MPa", "ultimate_strength": 260e6,
        "elastic_modulus": "69 GPa", "poisson_ratio": 0.33, "density": "2.7 g/cm3",
        "weld_zone_yield_strength": "115 MPa", "weld_zone_ultimate_strength": "175 MPa",
    }  # fmt: skip
    stage = hl.Stage(values)
    rows = {row.path: row for row in stage.inputs()}
    assert rows["tank.liner.metal.density"].source == "a certificate"
    assert stage.source("tank.liner.metal.density") == "given without a file: a certificate"
    assert rows["tank.volume"].source == ""


def test_sources_stand_in_everything_that_prints_the_inputs(stocked, tmp_path):
    assessment = stocked.assess()
    rows = {row["path"]: row for row in json.loads(assessment.to_json())["inputs"]}
    told = 'tube "tube 180 x 6": invented stock list, line 1'
    assert rows["tank.liner.wall"]["source"] == told
    assert rows["tank.volume"]["source"] == ""
    # No place of a file: the same stage gives the same assessment wherever it lies.
    assert "workshop_stock" not in assessment.to_json()
    text = str(assessment)
    assert f"  [2] {told}" in text
    (line,) = (line for line in text.splitlines() if " tank.liner.wall " in line)
    assert line.endswith("6 mm  on record [2]")
    assert "tank.liner.tube: tube 180 x 6 (invented stock list, line 1)" in " ".join(text.split())
    assert "6 mm: tube &quot;tube 180 x 6&quot;: invented stock" in assessment._repr_html_()
    page = hl.report(stocked, tmp_path / "page.html").read_text(encoding="utf-8")
    assert "on record [2]" in page
    assert "<li>tube &#34;tube 180 x 6&#34;: invented stock list, line 1</li>" in page
    hl.export(stocked, tmp_path)
    table = (tmp_path / "inputs.csv").read_text(encoding="utf-8")
    assert 'on record,"tube ""tube 180 x 6"": invented stock list, line 1"' in table
    again = hl.Assessment.from_json(assessment.to_json())
    assert again.inputs == assessment.inputs
    assert str(again) == text
    explained = str(assessment.explain("geometry.liner_minimum_wall"))
    assert "on record: tube 180 x 6" in explained


def test_the_rows_travel_with_the_stage(folder):
    stage = hl.Stage.load(folder / "petrel_stock.toml")
    text = pickle.dumps(stage)
    for file in folder.iterdir():
        file.unlink()
    again = pickle.loads(text)
    assert again == stage
    assert again.catalogue() == stage.catalogue()
    assert again.assess().results == stage.assess().results
    assert again.source("tank.liner.wall") == stage.source("tank.liner.wall")
    other = pickle.loads(pickle.dumps(again.replace({"tank.liner.tube": "tube 160 x 5"})))
    assert other["tank.liner.wall"] == 0.005


def test_names_are_replaced_and_swept(stocked):
    swept = hl.sweep(stocked, {"tank.liner.tube": TUBES[:2], "tank.volume": ["24 L", "26 L"]})
    for index, tube in enumerate(TUBES[:2]):
        one = stocked.replace({"tank.liner.tube": tube, "tank.volume": "26 L"})
        assert swept["tank.mass"][index, 1] == one.assess().tank.mass
        assert one.assess().on_record["tank.liner.tube"] == tube
    # The third is of another metal than the closures' sheets.
    mixed = hl.sweep(stocked, {"tank.liner.tube": TUBES})
    assert mixed.ok.tolist() == [True, True, False]
    with pytest.raises(hl.InputError, match=r"sheet 7.*liner and closures are of one metal"):
        stocked.replace({"tank.liner.tube": TUBES[2]})
    both = stocked.replace(
        {
            "tank.liner.tube": TUBES[2],
            "tank.fore_closure.sheet": "sheet 8",
            "tank.aft_closure.sheet": "sheet 8",
        }
    )
    assert both.assess().on_record["tank.liner.metal.name"] == "6061-T6 extrusion, as welded"


def test_a_number_and_a_row_for_the_same_input(folder, stocked):
    """As with a metal: a stated number stands; a row that is named later fills in anew."""
    file = changed(folder, "petrel_stock", 'tube = "tube', 'wall = "5.5 mm"\ntube = "tube')
    stage = hl.Stage.load(file)
    assert stage["tank.liner.wall"] == 0.0055
    assert "stated: tank.liner.wall 5.5 mm" in " ".join(stage.assess().basis)
    later = stage.replace({"tank.liner.tube": "tube 160 x 5"})
    assert later["tank.liner.wall"] == 0.005
    together = stage.replace({"tank.liner.tube": "tube 160 x 5", "tank.liner.wall": "4 mm"})
    assert together["tank.liner.wall"] == 0.004
    assert together["tank.liner.outer_diameter"] == 0.16


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('wall = "6 mm"', 'wall = "6 bar"', ["toml:27:8:", 'unit "bar" is not a length', "in m"]),
        ('wall = "6 mm"', 'wall = "6 m"', ["tube[0].wall = 6000 mm is outside 0.1 mm to 100 mm"]),
        ('wall = "6 mm"', "wall = 6", ["6 has no unit"]),
        ('wall = "6 mm"', 'wal = "6 mm"', ["toml:27:1:", 'did you mean "wall"?']),
        ("[[sheet]]", "[[shet]]", ['did you mean "sheet"?']),
        (
            'name = "tube 160 x 5"',
            'name = "tube 180 x 6"',
            ["already a tube", "toml:23", "another name"],
        ),
        ('name = "workshop carbon tow"', 'name = "E-glass"', ["already a fibre", "shipped"]),
        ('source = "invented stock list, line 1"\n', "", ["tube[0].source is missing"]),
        ('source = "invented stock list, line 1"', 'source = " "', ["is empty"]),
        ("schema = 1\n", "", ["begin the file with schema = 1"]),
        ("schema = 1\n", "schema = 2\n", ["schema = 2 is not known"]),
        ('name = "sheet 8"', 'name = "sheet \\u001b[31m"', ["control character U+001B"]),
        ("[[sheet]]", "[sheet]", ["toml:"]),
    ],
)
def test_a_mistake_in_a_catalogue_is_told_where_it_stands(folder, old, new, told):
    file = changed(folder, "workshop_stock", old, new)
    result = run("check", str(file))
    assert result.exit_code == 2
    assert str(folder / "workshop_stock.toml") in result.stdout
    for part in told:
        assert part in result.stdout


def test_mistakes_of_both_files_are_told_together(folder):
    changed(folder, "workshop_stock", 'wall = "6 mm"', 'wall = "6 bar"')
    changed(folder, "workshop_stock", 'thickness = "7 mm"', 'thickness = "7 kg"')
    file = changed(folder, "petrel_stock", 'volume = "24 L"', 'volume = "24 m"')
    with pytest.raises(hl.InputError) as refused:
        hl.Stage.load(file)
    blocks = str(refused.value).split("\n\n")
    # The catalogue's come where the stage names it; nothing that merely follows is told.
    assert [block.split(": ")[1] for block in blocks] == [
        "tube[0].wall", "sheet[0].thickness", "tank.volume",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ('"nowhere.toml"', "there is no such file"),
        ('"."', "a folder, not a file"),
        ("7", "7 is not the name of a file"),
        ("[]", "between 1 and 20 files"),
        ('["workshop_stock.toml", "workshop_stock.toml"]', "named twice"),
        ('["workshop_stock.toml", 7]', "7 is not the name of a file"),
    ],
)
def test_a_catalogue_that_is_no_file(folder, given, told):
    file = changed(folder, "petrel_stock", '"workshop_stock.toml"', given)
    with pytest.raises(hl.HooplineError, match=told) as refused:
        hl.Stage.load(file)
    assert str(refused.value).startswith(f"{file}:3:")


def test_several_files_and_rows_in_the_stage_itself(folder):
    values = 'thickness = "9 mm"\nthickness_under_tolerance = 0\n'
    more = f'schema = 1\n[[sheet]]\nname = "sheet 9"\nsource = "invented"\n{values}'
    (folder / "more.toml").write_text(more, encoding="utf-8")
    file = changed(
        folder, "petrel_stock", '"workshop_stock.toml"', '["workshop_stock.toml", "more.toml"]'
    )
    stage = hl.Stage.load(file).replace({"tank.aft_closure.sheet": "sheet 9"})
    assert stage["tank.aft_closure.thickness"] == pytest.approx(0.009, rel=1e-15)
    assert pickle.loads(pickle.dumps(stage)) == stage


def test_rows_can_be_given_as_mappings(values):
    values["catalogue"] = {
        "metal": [
            {
                "name": "mine", "source": "my own", "yield_strength": 240e6,
                "ultimate_strength": 260e6, "elastic_modulus": "70 GPa", "poisson_ratio": 0.33,
                "density": 2700, "weld_zone_yield_strength": "115 MPa",
                "weld_zone_ultimate_strength": "175 MPa",
            }
        ]
    }  # fmt: skip
    values["tank"]["liner"]["metal"]["name"] = "mine"
    stage = hl.Stage(values)
    assert stage["tank.liner.metal.density"] == 2700.0
    assert stage.catalogue()["mine"].values["density"].shown == "2700 kg/m3"
    assert pickle.loads(pickle.dumps(stage)) == stage
    assert stage.source("tank.liner.metal.density") == 'metal "mine" (catalogue.metal[0]): my own'


def test_rows_in_a_stage_have_no_form_of_their_own(values):
    values["catalogue"] = {"schema": 7}
    with pytest.raises(hl.InputError, match=r'unknown list "catalogue\.schema"'):
        hl.Stage(values)


def test_a_thrust_curve_is_where_level_and_duration_come_from(tmp_path):
    text = hl.example("petrel_slim").read_text(encoding="utf-8")
    file = tmp_path / "curve.toml"
    curve = "curve = { rows = [[0, 4000], [5, 4400]] }"
    file.write_text(text.replace('thrust = "4200 N"', curve), encoding="utf-8")
    line = file.read_text(encoding="utf-8").splitlines().index(curve) + 1
    stage = hl.Stage.load(file)
    assert stage.source("motor.thrust") == f"motor.curve, stage file {file}:{line}"
    assert stage.source("motor.specific_impulse") == (f"stage file {file}:{line + 1}")


def test_a_yield_strength_above_the_ultimate_strength_is_told_at_the_row(folder):
    stock = changed(folder, "workshop_stock", '"255 MPa"', '"225 MPa"').with_name(
        "workshop_stock.toml"
    )
    changed(folder, "workshop_stock", '{ value = "165 MPa"', '{ value = "105 MPa"')
    for file in (stock, folder / "petrel_stock.toml"):
        result = run("check", str(file), "--json")
        assert result.exit_code == 2
        parent, weld = json.loads(result.stdout)[0]["problems"]
        assert parent["message"] == (
            "metal[0].yield_strength = 230 MPa is above metal[0].ultimate_strength = 225 MPa"
        )
        assert weld["message"] == (
            "metal[0].weld_zone_yield_strength = 110 MPa is above "
            "metal[0].weld_zone_ultimate_strength = 105 MPa"
        )
        for problem, line, column in ((parent, 8, 18), (weld, 13, 38)):
            assert (problem["line"], problem["column"]) == (line, column)
            assert problem["file"].endswith("workshop_stock.toml")
            assert problem["help"].startswith("the ultimate strength is the stress at the largest")


def test_a_strength_of_ones_own_in_place_of_a_row_s_is_held_against_it(folder, stocked):
    named = "[tank.liner.girth_seam]"
    own = f'[tank.liner.metal]\nyield_strength = "300 MPa"\n\n{named}'
    stage = changed(folder, "petrel_stock", named, own)
    with pytest.raises(hl.InputError, match=r"yield_strength = 300 MPa is above .* = 255 MPa"):
        hl.Stage.load(stage)
    # A study that varies one of them goes on: there it is a caution.
    varied = stocked.replace({"tank.liner.metal.yield_strength": "300 MPa"}).assess()
    assert any("yield strength is given above" in text for text in varied.cautions)
