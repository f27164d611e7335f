"""The report on paper: A4, headings with what they head, every requirement, a digest per page."""

import re
import shutil
import subprocess

import pytest

from hoopline.text import label, shown

NEEDED = ("pdfinfo", "pdftotext")


@pytest.fixture(scope="module")
def printed(browser, reports, tmp_path_factory):
    """Return the facts and the text of each page of each printed report."""
    lacking = [tool for tool in NEEDED if shutil.which(tool) is None]
    if lacking:
        pytest.skip(f"no {' and no '.join(lacking)} on the PATH")
    folder, found = reports
    papers = {}
    for file in found:
        paper = tmp_path_factory.mktemp("paper") / "report.pdf"
        target = f"--print-to-pdf={paper}"
        browser("--no-pdf-header-footer", target, (folder / file).as_uri())
        facts = _output("pdfinfo", paper)
        pages = _output("pdftotext", "-layout", paper, "-").rstrip("\f").split("\f")
        papers[file] = (facts, pages)
    return papers


def _output(tool, *arguments):
    done = subprocess.run([tool, *map(str, arguments)], capture_output=True, text=True, check=True)
    return done.stdout


def _lines(page):
    return [line.strip() for line in page.splitlines() if line.strip()]


def test_pages_are_a4_and_not_too_many(printed, reports):
    for file, (facts, pages) in printed.items():
        size = re.search(r"Page size:\s+([0-9.]+) x ([0-9.]+) pts", facts)
        # ISO 216: 210 mm x 297 mm, to the point that a printer knows.
        assert float(size[1]) == pytest.approx(210.0 / 25.4 * 72.0, abs=1.0), file
        assert float(size[2]) == pytest.approx(297.0 / 25.4 * 72.0, abs=1.0), file
        count = int(re.search(r"Pages:\s+(\d+)", facts)[1])
        assert count == len(pages)
        few, many = (8, 16) if reports[1][file].governing else (2, 5)
        assert few <= count <= many, file


def test_every_page_carries_its_number_and_the_digest(printed, reports):
    for file, (_, pages) in printed.items():
        for number, page in enumerate(pages, start=1):
            foot = _lines(page)[-1]
            assert f"digest {reports[1][file].digest[:16]}" in foot, file
            assert re.search(rf"\b{number} ?/ ?{len(pages)}$", foot), file


def test_every_requirement_and_the_safety_paragraph_are_on_paper(printed, reports):
    for file, (_, pages) in printed.items():
        text = "".join("".join(pages).split())  # a long word may be printed on two lines
        for line in reports[1][file].requirements:
            # Cells stand side by side, so that what is printed on two lines is found in pieces.
            assert all(piece in text for piece in line.id.split("_")), file
        # Under the cautions and at the end.
        assert text.count("Theydonotshowthatatankissafetofill,totestortofly.") == 2, file
        assert "Decision" in pages[0]


def test_no_page_ends_with_a_heading_and_no_table_with_its_head(printed):
    heads = (
        "Decision", "Cautions", "Requirements", "What governs", "Drawings", "Masses", "Results",
        "Around the design", "Assumptions", "Provenance", "How the governing margin comes about",
        "Sums", "Pressures", "Dimensions", "Tank", "Airframe", "Drag", "Thrust", "Ascent",
        "Loads on the tank in flight", "Every number that went in, and where it comes from",
        "Mass statement, kg; stations in m from the nose tip",
        "Requirement matrix: not met first, then by margin",
        "What the known errors of the drag models mean for the apogee",
    )  # fmt: skip
    columns = (("result", "value"), ("input", "value"), ("margin", "value"), ("line", "group"))
    for file, (_, pages) in printed.items():
        for page in pages:
            last = _lines(page)[-2]  # above the foot
            assert last not in heads, file
            assert tuple(last.split()[:2]) not in columns, file


def test_a_table_of_results_is_on_one_page(printed, reports):
    for file, (_, pages) in printed.items():
        lines = [{"".join(line.split()) for line in _lines(page)} for page in pages]
        rows: dict[str, list[str]] = {}
        for path, value in reports[1][file].results.items():
            row = f"{label(path)}{shown(path, value)}".replace(" ", "")
            rows.setdefault(path.partition(".")[0], []).append(row)
        for group in ("pressures", "tank", "airframe", "drag", "thrust", "ascent", "flight_loads"):
            if group in rows:
                together = [
                    page
                    for page in lines
                    if all(any(line.startswith(row) for line in page) for row in rows[group])
                ]
                assert together, f"{file}: {group}"
