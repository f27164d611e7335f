"""An explanation as HTML, for notebooks and reports."""

from html import escape

from hoopline.explanation import Explanation
from hoopline.explanation.words import (
    applied,
    before_rounding,
    left_out,
    origin,
    printed,
    printed_si,
    standing,
    values,
    with_numbers,
)
from hoopline.html_table import html_table
from hoopline.text import shown, stamp

# Cells that hold a formula or a source run over several lines.
_TOP = "vertical-align:top"


def render(explanation: Explanation) -> str:
    """Return the explanation as tables of steps and terms."""
    page = explanation
    title = f"{page.path} = {shown(page.path, page.value)}{before_rounding(page)}"
    parts = [f"<h3>{escape(title)}</h3>", f"<p>{escape(page.doc)}</p>"]
    factor = applied(page)
    lines = (standing(page), f"factor: {factor}" if factor else "")
    parts.extend(f"<p>{escape(text)}</p>" for text in lines if text)
    if page.method:
        parts.append(f"<p>{escape(page.method.text)}</p>")
        parts.append(f"<p>source: {escape(page.method.source)}</p>")
    steps = (
        (
            f"{step.symbol} = {step.formula}",
            with_numbers(step.formula, values(page)),
            printed_si(step.value, step.unit),
            printed(page, step),
            step.doc,
            step.source,
        )
        for step in page.steps
    )
    terms = (
        (
            term.symbol,
            printed_si(term.value, term.unit),
            shown(term.path, term.value) if term.path and term.ask else term.shown,
            term.doc,
            origin(term),
            term.source,
        )
        for term in page.terms
    )
    columns = ("symbol", "SI", "as printed", "meaning", "origin", "source")
    parts.append(html_table("What enters", terms, columns, style=_TOP))
    heading = "For a sanity check" if page.method else "Calculation, in SI"
    columns = ("formula", "with numbers", "SI", "as printed", "meaning", "source")
    parts.append(html_table(heading, steps, columns, style=_TOP))
    parts.extend(f"<p>{escape(text)}</p>" for text in page.functions)
    parts.append(f"<p><strong>Not in it:</strong> {escape(left_out(page))}</p>")
    parts.extend(f"<p><strong>Caution:</strong> {escape(text)}</p>" for text in page.cautions)
    parts.append(f"<p>{escape(page.safety)}</p>")
    of = f"{page.name}, digest {stamp(page.digest, page.version)}"
    parts.append(f"<p>{escape(of)}</p>")
    return "\n".join(parts)
