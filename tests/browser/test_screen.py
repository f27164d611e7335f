"""The report on screens: nothing from outside, nothing cut off, whole words, the verdict first."""

import pytest

# A desktop, a tablet, a phone, and what WCAG 2.2 (2023) asks for in success criterion 1.4.10.
WIDTHS = (1280, 768, 400, 320)
OWN_WORDS = {"long.html", "negative.html"}  # hold words longer than a column


@pytest.fixture(scope="module")
def seen(measured, reports):
    return {file: measured(file, *WIDTHS) for file in reports[1]}


@pytest.mark.parametrize("width", WIDTHS)
def test_the_page_fits_its_width_and_only_frames_scroll(seen, width):
    for file, found in seen.items():
        assert found[width]["width"] == width, file
        assert found[width]["scrollWidth"] <= width, file
        assert found[width]["cutOff"] == [], file


def test_nothing_runs_and_nothing_is_asked_for(seen):
    for file, found in seen.items():
        assert found[400]["scripts"] == 0, file
        assert found[400]["requests"] == [], file


@pytest.mark.parametrize("width", WIDTHS)
def test_no_word_is_broken(seen, width):
    for file, found in seen.items():
        if file not in OWN_WORDS:
            assert found[width]["brokenWords"] == [], file


def test_the_verdict_stands_on_the_first_screen(seen):
    for file, found in seen.items():
        # Names and descriptions of many lines are the user's own choice.
        if file not in OWN_WORDS:
            assert 0 < found[1280]["verdictBottom"] < 800, file
            assert 0 < found[400]["verdictBottom"] < 800, file


def test_figures_keep_a_legible_size_on_a_phone(seen):
    # Figures are drawn 680 px wide with letters of 7 pt.
    widths = [width for found in seen.values() for width in found[400]["svgWidths"]]
    assert len(widths) > 20
    assert min(widths) > 600


def test_the_page_opens_from_a_file_and_stays_as_it_was_written(browser, reports):
    folder, found = reports
    for file, assessment in found.items():
        page = browser("--dump-dom", (folder / file).as_uri())
        assert "<script" not in page
        assert f"digest {assessment.digest[:16]}" in page
        assert page.count("<h2>") == (folder / file).read_text("utf-8").count("<h2>") >= 6
