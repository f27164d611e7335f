"""An assessment as HTML, for notebooks."""

from collections.abc import Iterable
from html import escape

from hoopline.assessment import Assessment
from hoopline.text import SECTIONS, band_rows, label, provenance, shown


def render(assessment: Assessment) -> str:
    """Return tables of all results: margins rounded down, loads up."""
    governing = assessment.governing
    parts = [f"<h3>{escape(assessment.name)}</h3>"]
    parts.append(_table("What the numbers rest on", provenance(assessment)))
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
            parts.append(_table(heading, rows))
    parts.extend(_requirements(assessment))
    bands = [(name, f"{change}. {basis}") for name, change, basis in band_rows(assessment)]
    if bands:
        parts.append(_table("Model bands of the apogee", bands))
    sourced = [
        (row["path"], f"{row['shown']}: {row['source']}")
        for row in assessment.inputs
        if row["source"]
    ]
    if sourced:
        parts.append(_table("Inputs that the stage itself does not state", sourced))
    parts.extend(f"<p><strong>Caution:</strong> {escape(text)}</p>" for text in assessment.cautions)
    parts.append(f"<p>{escape(assessment.safety)}</p>")
    return "\n".join(parts)


def _requirements(assessment: Assessment) -> Iterable[str]:
    if not assessment.requirements:
        return
    heads = ("id", "requirement", "limit", "value", "margin", "status", "basis")
    head = "".join(f'<th scope="col" style="text-align:left">{word}</th>' for word in heads)
    rows = "".join(
        f'<tr><th scope="row" style="text-align:left;white-space:nowrap">{escape(line.id)}</th>'
        + "".join(
            f'<td style="text-align:left">{escape(cell)}</td>'
            for cell in (
                line.text, line.limit, line.shown, line.shown_margin, line.status, line.basis,
            )
        )
        + "</tr>"
        for line in assessment.requirements
    )  # fmt: skip
    yield f"<table><caption>Requirements</caption><tr>{head}</tr>{rows}</table>"


def _table(caption: str, rows: Iterable[tuple[str, str]]) -> str:
    cells = "".join(
        f'<tr><th scope="row" style="text-align:left">{escape(name)}</th>'
        f'<td style="text-align:left">{escape(text)}</td></tr>'
        for name, text in rows
    )
    return f"<table><caption>{escape(caption)}</caption>{cells}</table>"
