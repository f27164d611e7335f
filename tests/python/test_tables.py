"""Rows on record, and tables of what a file may hold, by command."""

import json
import tomllib

import pytest
from command_line import run

import hoopline as hl

KINDS = ("metal", "fibre", "tube", "sheet", "rule set", "maturity")


def test_the_catalogue_holds_the_shipped_rows_as_a_stage_does(stage):
    shipped = hl.Catalogue.load()
    assert set(shipped.names) == set(stage.catalogue().names)
    assert run("catalogue").stdout == f"{shipped}\n"
    for row in shipped:
        assert row.source
        assert row.values
    rows = json.loads(run("catalogue", "--json").stdout)
    assert [row["name"] for row in rows] == list(shipped.names)
    assert rows[0]["values"]["density"]["unit"] == "kg/m3"


def test_rows_of_files_stand_beside_the_shipped_ones_once():
    stock, stocked = hl.example("workshop_stock"), hl.example("petrel_stock")
    rows = hl.Catalogue.load(stocked)
    assert rows.names.count("tube 180 x 6") == 1
    with pytest.raises(hl.InputError) as refused:
        rows.of("bolt")
    assert str(refused.value).endswith("there are " + ", ".join(KINDS))
    assert set(rows.kinds) <= set(KINDS)
    assert rows.kinds[:4] == ("metal", "fibre", "rule set", "maturity")
    assert "tube 180 x 6" in run("catalogue", stock).stdout
    assert hl.Catalogue.load(stock, stock) == hl.Catalogue.load(stock)
    assert run("catalogue", "absent.toml").exit_code == 2


def test_a_path_of_a_name_tells_the_rows_on_record():
    metals = hl.Catalogue.load().of("metal").names
    told = run("schema", "tank.liner.metal.name").stdout
    assert all(f'"{name}"' in told for name in metals)
    assert '"off-the-shelf' in run("schema", "mass.growth.tank_maturity").stdout
    assert "On record" not in run("schema", "tank.volume").stdout


def test_a_word_finds_the_paths_that_hold_it_the_nearest_first():
    assert [entry.path for entry in hl.paths("relief")] == [
        "pressure.relief_setting", "pressure.relief_accumulation",
    ]  # fmt: skip
    found = [entry.path for entry in hl.paths("diameter")]
    assert found[0] == "tank.outer_diameter"
    assert found.index("motor.case_diameter") < found.index("nose.fineness_ratio")
    shares = [entry.path.rpartition(".")[2] for entry in hl.paths("fibre")]
    holding = ["fibre" in name for name in shares]
    assert holding == sorted(holding, reverse=True)
    assert [entry.path for entry in hl.paths("vented")] == ["pressure.basis"]
    result = run("schema", "relief", "--json")
    assert 'no path begins with "relief"; these hold it' in result.stderr
    assert len(json.loads(result.stdout)) == 2
    assert run("schema", "tank.vol").stderr == ""
    with pytest.raises(hl.InputError, match=r'did you mean "rail\.elevation"'):
        hl.paths("rail.angle")


def test_other_files_have_a_table_too():
    rows = json.loads(run("schema", "--list", "--of", "catalogue", "--json").stdout)
    schema = hl.json_schema("catalogue")["properties"]
    assert {(row["table"], row["name"]) for row in rows if row["table"]} == {
        (f"[[{kind}]]", name)
        for kind, body in schema.items()
        if kind != "schema"
        for name in body["items"]["properties"]
    }
    required = {
        row["name"] for row in rows if (row["table"], row["required"]) == ("[[tube]]", "yes")
    }
    assert required == {"name", "source", "outer_diameter", "wall"}
    text = run("schema", "--list", "--of", "study").stdout
    assert "either, [[optimise]]: minimise or maximise" in text
    assert ": values or from and to" in text
    study = tomllib.loads(hl.example("petrel_study").read_text(encoding="utf-8"))
    assert all(f" {name} " in text for name in study)
