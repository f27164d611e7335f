"""The report: one page, whole or not at all, that needs nothing from outside."""

import re

import pytest
from command_line import run
from report_page import Page

import hoopline as hl
from hoopline.schema import results
from hoopline.text import SECTIONS, label, shown


def test_nothing_runs_and_nothing_comes_from_outside(written, page):
    assert not page.all("script")
    assert not page.all("link")
    assert not page.all("img")
    assert not any(name.startswith("on") for _, given in page.tags for name in given)
    outside = set(re.findall(r"https?://[^\"'\s<>]+", written))
    assert outside <= {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"}


def test_ids_are_unique_and_every_reference_finds_its_target(written, page):
    assert len(page.ids) == len(set(page.ids))
    targets = set(page.ids)
    for reference in re.findall(r'(?:href="#|url\(#)([^")]+)', written):
        assert reference in targets


def test_headings_have_no_gap_and_landmarks_are_there(page):
    assert page.headings[0] == 1
    assert all(b - a <= 1 for a, b in zip(page.headings, page.headings[1:], strict=False))
    assert [len(page.all(tag)) for tag in ("header", "main", "nav", "footer")] == [1, 1, 1, 1]
    assert page.all("html")[0]["lang"] == "en-GB"


def test_figures_have_names_and_tables_have_captions_and_scopes(page):
    drawn = [given for given in page.all("svg") if given.get("role") == "img"]
    assert len(drawn) == len(page.all("figure")) == len(page.all("figcaption")) == 5
    for given in drawn:
        assert given["aria-labelledby"] in page.ids
    assert len(page.all("caption")) == len(page.all("table"))
    assert all(given["scope"] in {"row", "col"} for given in page.all("th"))


def test_it_carries_decision_matrix_cautions_and_safety(page, stage):
    assessment = stage.assess()
    text = page.text
    assert "All margins of safety are met: girth seam proof governs with +0.06." in text
    for caution in assessment.cautions:
        assert " ".join(caution.split()) in text
    assert text.count(" ".join(assessment.safety.split())) == 2
    for line in assessment.requirements:
        assert line.text in text
    for row in assessment.inputs:
        assert row["path"] in text
    assert assessment.digest[:16] in text
    assert "seam_strength * seam_wall / (axial_stress * minimum_wall) - 1" in text


def test_every_group_of_results_has_a_heading_and_stands_in_the_report(page, stage):
    groups = {path.partition(".")[0] for path in results()} - {"status"}
    assert set(SECTIONS) == groups
    for path, value in stage.assess().results.items():
        if not path.startswith(("mass.", "margins.")):  # have sections of their own
            assert f"{label(path)} {shown(path, value)}" in page.text, path


def test_the_same_stage_gives_the_same_page(written, tmp_path):
    stage = hl.Stage.load(hl.example("petrel_slim"))
    assert hl.report(stage, tmp_path / "again.html").read_text("utf-8") == written


def test_what_the_user_writes_is_text_and_not_markup(values, tmp_path):
    nasty = "<script>alert(1)</script>"
    requirement = {"id": nasty, "text": nasty, "method": "test"}
    stage = hl.Stage({**values, "name": nasty, "description": nasty, "requirement": [requirement]})
    text = hl.report(stage, tmp_path / "nasty.html").read_text("utf-8")
    assert "<script" not in text
    assert "&lt;script&gt;" in text


def test_a_stage_without_tank_has_a_report_too(published, tmp_path):
    page = Page(hl.report(published, tmp_path / "v2.html").read_text("utf-8"))
    assert "Textbook V-2" in page.text
    assert not page.all("svg")


def test_a_page_appears_whole_or_not_at_all(stage, tmp_path, monkeypatch):
    from hoopline import reporting as package

    target = tmp_path / "kept.html"
    target.write_text("before", encoding="utf-8")
    monkeypatch.setattr(package.os, "fdopen", lambda *_args, **_more: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        package.report(stage, target)
    assert target.read_text(encoding="utf-8") == "before"
    assert [file.name for file in tmp_path.iterdir()] == ["kept.html"]


def test_the_command_names_its_page_and_judges(tmp_path):
    into = tmp_path / "slim.html"
    result = run("report", str(hl.example("petrel_slim")), "--into", str(into))
    assert (result.exit_code, result.stdout.strip()) == (0, str(into))
    plain = run("report", str(hl.example("petrel_plain")), "--into", str(tmp_path / "plain.html"))
    assert plain.exit_code == 1
    absent = tmp_path / "no" / "such" / "folder.html"
    refused = run("report", str(hl.example("petrel_slim")), "--into", str(absent))
    assert refused.exit_code == 2
    assert "Traceback" not in refused.output


def test_the_figures_around_the_design_say_where_margins_hold_and_what_the_model_lacks(stage):
    diameters = hl.linspace("112 mm", "208 mm", 33)
    caption = hl.plot.around(hl.sweep(stage, {"tank.outer_diameter": diameters})).caption
    assert "values from 112.0 to 169.0 mm meet all margins; highest apogee there" in caption
    for diameter, met in (("169 mm", True), ("172 mm", False)):
        one = stage.replace({"tank.outer_diameter": diameter}).assess()
        assert (one.governing.value >= 0.0) is met
    assert "and none of them is in this model" in caption
    thin = hl.sweep(stage, {"tank.liner.wall": hl.linspace("1 mm", "2 mm", 5)})
    plate = hl.plot.around(thin)
    found = re.search(
        r"no value meets all margins; the best smallest margin is (-[0-9.]+)\.", plate.caption
    )
    margins = [thin[path] for path in thin.paths if path.startswith("margins.")]
    best = max(min(case) for case in zip(*margins, strict=True))
    assert best - 0.01 < float(found[1]) <= best
    labels = [text.get_text() for text in plate.figure.axes[0].get_legend().get_texts()]
    assert labels == ["some margin is negative"]
    # Bounds are rounded into the span that was found.
    walls = hl.sweep(stage, {"tank.liner.wall": hl.linspace("3.00004 mm", "3.50008 mm", 11)})
    met = walls.axes["tank.liner.wall"][walls.margins_met] * 1e3
    low, high = re.findall(r"from ([0-9.]+) to ([0-9.]+) mm", hl.plot.around(walls).caption)[0]
    assert float(low) >= met.min()
    assert float(high) <= met.max()
