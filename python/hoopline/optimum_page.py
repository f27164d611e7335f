"""What a search found, as HTML, for notebooks."""

from collections.abc import Sequence
from html import escape

from hoopline.optimum import Optimum
from hoopline.optimum_tables import bounds, designs, edge, summary, title


def render(optimum: Optimum) -> str:
    """Return title, summary, designs, bounds of the best one, safety."""
    parts = [f"<h3>{escape(title(optimum))}</h3>"]
    parts += [
        f"<p><strong>{name}:</strong> {escape(sentence)}</p>" for name, sentence in summary(optimum)
    ]
    headers, rows, left = designs(optimum)
    more = f", and {left} more" if left else ""
    parts.append(_table(f"Designs, best first{more}", headers, rows))
    headers, rows = bounds(optimum)
    which = "best" if optimum.feasible else "least violated"
    parts.append(_table(f"Bounds of the {which} design", headers, rows))
    parts += [f"<p>{escape(text)}</p>" for text in (edge(optimum), optimum.safety) if text]
    return "\n".join(parts)


def _table(caption: str, headers: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    head = "".join(f'<th scope="col">{escape(word)}</th>' for word in headers)
    body = "".join(
        "<tr>"
        + "".join(f'<td style="text-align:left">{escape(cell)}</td>' for cell in row)
        + "</tr>"
        for row in rows
    )
    return f"<table><caption>{escape(caption)}</caption><tr>{head}</tr>{body}</table>"
