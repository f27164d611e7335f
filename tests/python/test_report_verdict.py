"""What a report says first: whether what is computed is met."""

import re

import pytest
from report_page import Page

import hoopline as hl
from hoopline.reporting.content import verdict as judged
from hoopline.text import banded


def verdict(stage, **changes):
    return judged((stage.replace(changes) if changes else stage).assess())


def test_the_first_sentence_judges_margins_and_requirements_together(stage, published, values):
    assert verdict(stage) == "Met as far as it is computed; 3 of 6 requirements open."
    thin = verdict(stage, **{"tank.liner.wall": "1.2 mm"})
    assert thin == (
        "NOT met: 6 of 11 margins of safety are negative and 2 of 6 requirements are not met."
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
    assert failed == "NOT met: 6 of 11 margins of safety are negative."
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
