"""Careless and hostile input: refused by name, shown as it stands, and nothing half-written."""

import io
import json

import pytest
from command_line import run

import hoopline as hl
from hoopline.requirement import Requirement


def reread(stage, change):
    content = json.loads(stage.assess().to_json())
    change(content)
    return hl.Assessment.from_json(json.dumps(content))


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda x: x["margins"][0].update(value=10**400), "not a finite number"),
        (lambda x: x["mass_lines"][0].update(maturity=1.5), "maturity is 1.5"),
        (lambda x: x["margins"].clear(), "margins: margins.*what results has"),
        (lambda x: x["margins"][0].update(value=9.0), "margins: margins.*what results has"),
        (lambda x: x["margins"][0].update(path="x"), "margins: "),
        (lambda x: x["margins"].append(x["margins"][0]), "stands twice"),
        (lambda x: x["results"].update({"pressures.meop": 0}), "a positive number"),
        (lambda x: x["bands"][0].update(basis=""), "basis is nothing"),
        (lambda x: x.update(name="\ud800"), "surrogates not allowed"),
    ],
)
def test_a_saved_assessment_that_cannot_be_true_is_refused(stage, change, message):
    with pytest.raises(hl.InputError, match=f"not a saved assessment: .*{message}"):
        reread(stage, change)


def test_a_saved_assessment_without_inputs_prints(stage):
    assert "Inputs" in str(reread(stage, lambda content: content.pop("inputs")))


def test_what_a_saved_assessment_cannot_draw_is_said(stage):
    saved = hl.Assessment.from_json(stage.assess().to_json())
    for draw in (hl.plot.vehicle, hl.plot.tank):
        with pytest.raises(hl.InputError, match="does not hold its stage"):
            draw(saved)


def test_a_verdict_without_differences_still_says_what_is_not_met(values):
    met = hl.Stage(values)
    mass = next(line for line in values["requirement"] if line["id"] == "TNK-03")
    mass["at_most"] = "1 kg"
    found = hl.compare(met, hl.Stage(values))
    assert found.verdict.endswith("requirements are met by B (requirement TNK-03).")


def test_a_change_of_sign_shows_beside_a_side_without_the_margin(stage, published):
    thin = stage.replace({"tank.liner.wall": "2 mm"}).assess()
    assert thin.governing.value < 0.0
    found = hl.compare(stage, thin, published)
    row = next(row for row in found.margins if row.path == thin.governing.path)
    assert row.note == "only in A and B; no longer met in B"


def test_a_value_between_limits_is_rounded_towards_the_nearer_one():
    def shown(value):
        return Requirement(
            "R", "", "tank.mass", 1.0, 8.617, "analysis", None, value, "tank.mass", None, "", ""
        ).shown

    assert shown(8.6171) == "8.618 kg"
    assert shown(0.99999) == "0.9999 kg"


def test_dollar_signs_in_a_name_are_no_formula(values):
    first = hl.Stage(values)
    values["name"] = r"cost $\frac$"
    plate = hl.plot.mass_waterfall(
        hl.compare(first, hl.Stage(values).replace({"tank.liner.wall": "4 mm"}))
    )
    page = io.BytesIO()
    plate.figure.savefig(page, format="svg")
    assert r"$\frac$" in plate.caption
    assert page.getvalue()
    assert "<svg" in plate._repr_html_()


@pytest.mark.parametrize("character", ["\x00", "\x07", "\x1b", "\x7f", "\x9b"])
def test_a_control_character_in_a_stage_is_refused(values, character):
    values["name"] = f"a{character}b"
    with pytest.raises(hl.InputError, match=rf"name.*U\+00{ord(character):02X}; leave it out"):
        hl.Stage(values)
    values["name"] = "a"
    values["description"] = "two\r\nlines\tand a tab"
    assert hl.Stage(values).description == values["description"]


def test_a_terminal_obeys_no_saved_name(stage, tmp_path):
    content = json.loads(stage.assess().to_json())
    content["name"] = "a\x1b[2J\x07"
    path = tmp_path / "a.json"
    # With the mark that some shells put before UTF-8.
    path.write_text(json.dumps(content), encoding="utf-8-sig")
    printed = run("compare", str(path), str(path)).output
    assert "A  a\N{REPLACEMENT CHARACTER}[2J\N{REPLACEMENT CHARACTER}, digest" in printed


def test_a_wider_limit_shows_in_a_comparison(values):
    before = hl.Stage(values)
    mass = next(line for line in values["requirement"] if line["id"] == "TNK-03")
    mass["at_most"] = "12 kg"
    (row,) = hl.compare(before, hl.Stage(values)).requirements
    assert row.path == "TNK-03"
    assert row.words == ("open, at most 9 kg", "open, at most 12 kg")


def test_a_drawn_static_margin_is_rounded_down(stage):
    plate = hl.plot.vehicle(stage.replace({"fins.static_margin": 1.996}).assess())
    texts = [text.get_text() for axes in plate.figure.axes for text in axes.texts]
    assert "lies 1.99 calibres behind" in plate.caption
    assert any(text.startswith("static margin 1.99 calibres") for text in texts)


def test_a_folder_in_the_way_leaves_every_file_as_it_was(stage, tmp_path):
    (tmp_path / "margins.csv").mkdir()
    (tmp_path / "ascent.csv").write_text("mine")
    with pytest.raises(hl.DataError, match=r"margins.csv: a folder is in the way"):
        hl.export(stage, tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["ascent.csv", "margins.csv"]
    assert (tmp_path / "ascent.csv").read_text() == "mine"


def test_a_folder_that_cannot_be_made_is_named(stage, tmp_path):
    (tmp_path / "file").write_text("mine")
    with pytest.raises(hl.DataError, match=r"file.*exists"):
        hl.export(stage, tmp_path / "file")
    assert (tmp_path / "file").read_text() == "mine"


def test_a_new_folder_goes_when_writing_fails(stage, tmp_path, monkeypatch):
    def full(*_args, **_options):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.write_bytes", full)
    monkeypatch.setattr("pathlib.Path.write_text", full)
    with pytest.raises(hl.DataError, match="no space left"):
        hl.export(stage, tmp_path / "new")
    assert not list(tmp_path.iterdir())


def test_only_stages_and_assessments_are_exported(tmp_path):
    with pytest.raises(hl.InputError, match="not a NoneType"):
        hl.export(None, tmp_path / "new")
    assert not list(tmp_path.iterdir())


def test_a_saved_assessment_cannot_lose_its_safety_paragraph_or_its_cautions(stage):
    assessment = stage.assess()
    content = json.loads(assessment.to_json())
    for altered in ({**content, "safety": ""}, {k: v for k, v in content.items() if k != "safety"}):
        assert hl.Assessment.from_json(json.dumps(altered)).safety == assessment.safety
    del content["cautions"]
    with pytest.raises(hl.InputError, match="cautions"):
        hl.Assessment.from_json(json.dumps(content))


def test_a_limit_is_printed_as_far_as_it_was_given(values):
    mass = next(line for line in values["requirement"] if line["id"] == "TNK-03")
    mass["at_most"] = "8.00000004 kg"
    (line,) = [one for one in hl.Stage(values).assess().requirements if one.id == "TNK-03"]
    assert line.limit == "at most 8.00000004 kg"


def test_a_value_just_outside_is_told_from_its_limit(stage):
    with pytest.raises(hl.InputError, match=r"= 19\.999999 mm is outside 20 mm"):
        stage.replace({"tank.outer_diameter": "19.999999 mm"})
    with pytest.raises(hl.InputError, match=r"diameter = 100\.00000001 m is outside 0.001 mm to"):
        hl.textbook.frontal_area(100.00000001)
