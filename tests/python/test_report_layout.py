"""How a report is laid out: line breaks, page breaks, contrast, frames that scroll."""

import re
from html import unescape

import pytest
from report_page import Page

import hoopline as hl
from hoopline.explanation.text import body


def test_paths_break_between_their_words_and_names_of_files_after_their_separators(
    values, tmp_path
):
    evidence = "records/2026/" + "hydrostatic_" * 12 + "test.csv"
    requirement = {"id": "A", "text": "T", "method": "test", "evidence": evidence}
    stage = hl.Stage({**values, "requirement": [requirement]})
    written = hl.report(stage, tmp_path / "long.html").read_text("utf-8")
    assert "tank.<wbr>liner.<wbr>metal.<wbr>weld_<wbr>zone_<wbr>ultimate_<wbr>strength" in written
    assert "records/<wbr>2026/<wbr>hydrostatic_<wbr>" in written
    assert evidence in Page(written).text


def test_a_page_of_the_explanation_breaks_only_between_entries(written, stage):
    assessment = stage.assess()
    inside = re.search(r"<pre>(.*?)</pre>", written, re.DOTALL)[1]
    blocks = [unescape(block) for block in re.findall(r"<span>(.*?)</span>", inside, re.DOTALL)]
    whole = body(assessment.explain(assessment.governing.path))
    assert "".join(blocks).rstrip() == whole.rstrip()
    assert len(blocks) > 20
    for block in blocks:
        lines = [line for line in block.splitlines() if line.strip()]
        starts = [line for line in lines if not line.startswith("   ")]
        headings = [line for line in starts if not line.startswith(" ")]
        assert len(starts) - len(headings) == 1, block
        assert lines[: len(headings)] == headings


def test_letters_have_contrast_enough(written):
    # WCAG 2.2, 2023, success criterion 1.4.3: at least 4.5 to 1; relative luminance as defined
    # there.
    style = re.search("<style>(.*?)</style>", written, re.DOTALL)[1]
    letters = set(re.findall(r"(?<![-\w])color: (#[0-9a-f]{3,6})", style))
    drawn = set(
        re.findall(
            r"fill: (#[0-9a-f]{6})", "".join(re.findall("<svg.*?</svg>", written, re.DOTALL))
        )
    )
    assert {"#1a1a1a", "#00508c"} <= letters
    for colour in letters:
        assert contrast(colour) >= 4.5, colour
    # Areas and lines that carry meaning: at least 3 to 1 (1.4.11); white is paper.
    for colour in drawn - {"#ffffff"}:
        assert contrast(colour) >= 3.0, colour


def contrast(colour):
    channels = [int(colour[place : place + 2], 16) / 255.0 for place in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 1.05 / (0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2] + 0.05)


def test_the_contrast_is_that_of_the_standard():
    # Black on white is 21 to 1, white on white 1 to 1, by definition.
    assert contrast("#000000") == pytest.approx(21.0)
    assert contrast("#ffffff") == pytest.approx(1.0)


def test_frames_that_may_scroll_are_named_and_reached_by_keyboard(page):
    frames = [given for given in page.all("div") if "wide" in given.get("class", "").split()]
    assert len(frames) == len(page.all("table")) + len(page.all("figure")) + len(page.all("pre"))
    for given in frames:
        assert given["tabindex"] == "0"
        assert given["role"] == "group"
        assert given.get("aria-label") or given["aria-labelledby"] in page.ids
