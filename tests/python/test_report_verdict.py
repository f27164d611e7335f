"""What a report says first: whether what is computed is met."""

import re

import pytest
from report_page import Page

import hoopline as hl
from hoopline.reporting.content import decision
from hoopline.reporting.content import verdict as judged
from hoopline.reporting.figures import not_varied
from hoopline.text import banded, label


def verdict(stage, **changes):
    return judged((stage.replace(changes) if changes else stage).assess())


def test_the_first_sentence_judges_margins_and_requirements_together(stage, published, values):
    assert verdict(stage) == "Met as far as it is computed; 3 of 6 requirements open."
    thin = verdict(stage, **{"tank.liner.wall": "1.2 mm"})
    assert thin == (
        "NOT met: 8 of 13 margins of safety are negative and 2 of 6 requirements are not met."
    )
    # Margins that are met do not hide a requirement that is not.
    plain = hl.Stage.load(hl.example("petrel_plain"))
    assert plain.assess().governing.value >= 0.0
    assert verdict(plain) == "NOT met: 2 of 6 requirements are not met."
    low = verdict(stage, **{"mass.added": "60 kg"})
    assert low == "NOT met: 1 of 6 requirements is not met."
    assert verdict(published).startswith("Nothing to judge")
    silent = hl.Stage({key: value for key, value in values.items() if key != "requirement"})
    assert verdict(silent) == "Met as far as it is computed; no requirements are stated."
    failed = verdict(silent, **{"tank.liner.wall": "1.2 mm"})
    assert failed == "NOT met: 8 of 13 margins of safety are negative."
    shown = [line for line in values["requirement"] if line["id"] in {"VEH-01", "VEH-02"}]
    assert verdict(hl.Stage({**values, "requirement": shown})) == "Met as far as it is computed."


def test_the_verdict_and_the_exit_code_agree(stage):
    for wall in ("1.2 mm", "3.19 mm", "3.2 mm", "3.4 mm"):
        assessment = stage.replace({"tank.liner.wall": wall}).assess()
        assert judged(assessment).startswith("Met") is assessment.met, wall


def test_the_verdict_stands_before_everything_else(stage, tmp_path):
    written = hl.report(stage, tmp_path / "slim.html").read_text("utf-8")
    assert written.index('class="verdict"') < written.index('class="decision"')
    assert "Decision Met as far as it is computed; 3 of 6 requirements open." in Page(written).text


def test_a_narrow_band_keeps_two_ends(stage):
    heavy = stage.replace({"mass.added": "100 kg"}).assess()
    low, high = re.fullmatch(r"([0-9.]+) to ([0-9.]+) km", banded(heavy)).groups()
    assert low != high
    ends = [(heavy.ascent.apogee + change) / 1e3 for change in heavy.band_together]
    assert float(low) == pytest.approx(ends[0], abs=0.2 * (ends[1] - ends[0]))
    assert float(high) == pytest.approx(ends[1], abs=0.2 * (ends[1] - ends[0]))
    assert banded(stage.assess()) == "7.7 to 10.0 km"


def test_the_decision_names_what_is_not_met(stage):
    plain = hl.Stage.load(hl.example("petrel_plain")).assess()
    missed = [line for line in plain.requirements if line.status == "not met"]
    said = " ".join(decision(plain)).replace("\N{NO-BREAK SPACE}", " ")
    for line in missed:
        assert f"{line.id}: " in said
        assert f" {line.shown}, {line.limit}" in said
    heavy = stage.replace({"mass.added": "60 kg"}).assess()
    (line,) = [line for line in heavy.requirements if line.status == "not met"]
    (bullet,) = [text for text in decision(heavy) if text.startswith("Requirements")]
    assert bullet.replace("\N{NO-BREAK SPACE}", " ").endswith(
        f"NOT met: {line.id}: ascent apogee {line.shown}, {line.limit}."
    )
    thin = stage.replace({"tank.liner.wall": "1.2 mm"}).assess()
    first = next(iter(decision(thin)))
    for margin in thin.margins:
        assert (f"{label(margin.path)} " in first) is (margin.value < 0.0)
    assert "NOT met" not in " ".join(decision(stage.assess()))


def test_an_input_that_is_not_varied_says_why(tmp_path):
    stock = hl.Stage.load(hl.example("petrel_stock"))
    text = Page(hl.report(stock, tmp_path / "stock.html").read_text("utf-8")).text
    assert (
        "Not varied: tank.outer_diameter follows from tank.liner.outer_diameter and "
        "tank.liner.wall." in text
    )
    slim = hl.Stage.load(hl.example("petrel_slim"))
    assert not not_varied(slim, slim.assess())
