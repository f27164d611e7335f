"""An assessment as HTML, for notebooks."""

from collections.abc import Iterable
from html import escape

from hoopline.assessment import Assessment
from hoopline.html_table import html_table
from hoopline.text import SECTIONS, band_rows, label, provenance, shown


def render(assessment: Assessment) -> str:
    """Return tables of all results: margins rounded down, loads up."""
    governing = assessment.governing
    parts = [f"<h3>{escape(assessment.name)}</h3>"]
    parts.append(html_table("What the numbers rest on", provenance(assessment)))
    for group, heading in SECTIONS.items():
        if group == "margins":
            rows = [
                (
                    label(margin.path) + (" (governs)" if margin == governing else ""),
                    f"{shown(margin.path, margin.value)}: {margin.doc}",
                )
                for margin in assessment.margins
            ]
        else:
            rows = [
                (
                    label(path) + (" (stated)" if path in assessment.stated else ""),
                    shown(path, value),
                )
                for path, value in assessment.results.items()
                if path.startswith(f"{group}.")
            ]
        if rows:
            parts.append(html_table(heading, rows))
    parts.extend(_requirements(assessment))
    bands = [(name, f"{change}. {basis}") for name, change, basis in band_rows(assessment)]
    if bands:
        parts.append(html_table("Model bands of the apogee", bands))
    sourced = [
        (row["path"], f"{row['shown']}: {row['source']}")
        for row in assessment.inputs
        if row["source"]
    ]
    if sourced:
        parts.append(html_table("Inputs that the stage itself does not state", sourced))
    parts.extend(f"<p><strong>Caution:</strong> {escape(text)}</p>" for text in assessment.cautions)
    parts.append(f"<p>{escape(assessment.safety)}</p>")
    return "\n".join(parts)


def _requirements(assessment: Assessment) -> Iterable[str]:
    if not assessment.requirements:
        return
    heads = ("id", "requirement", "limit", "value", "margin", "status", "basis")
    rows = [
        (line.id, line.text, line.limit, line.shown, line.shown_margin, line.status, line.basis)
        for line in assessment.requirements
    ]
    yield html_table("Requirements", rows, heads, first="white-space:nowrap")
