"""What a search found, as HTML, for notebooks."""

from html import escape

from hoopline.html_table import html_table
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
    parts.append(html_table(f"Designs, best first{more}", rows, headers))
    headers, rows = bounds(optimum)
    which = "best" if optimum.feasible else "least violated"
    parts.append(html_table(f"Bounds of the {which} design", rows, headers))
    parts += [f"<p>{escape(text)}</p>" for text in (edge(optimum), optimum.safety) if text]
    return "\n".join(parts)
