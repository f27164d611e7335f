"""What a search found, as plain text."""

from hoopline.folding import INDENT, folded
from hoopline.optimum import Optimum
from hoopline.optimum_tables import bounds, designs, edge, summary, title
from hoopline.text_table import hung_table

_NAME = 11


def render(optimum: Optimum) -> str:
    """Return title, summary, designs, bounds of the best one, safety."""
    return f"{without_safety(optimum)}\n\n{folded(optimum.safety)}"


def without_safety(optimum: Optimum) -> str:
    """Return the same without the last paragraph, for a text that has it at its own end."""
    heading = title(optimum)
    lines = [heading, "=" * len(heading)]
    for name, text in summary(optimum):
        lines.append(folded(text, f"{name + ':':{_NAME}} ", " " * (_NAME + 1)))
    lines += ["", "Designs, best first"]
    headers, rows, left = designs(optimum)
    lines += hung_table(headers, rows)
    if left:
        lines.append(f"{INDENT}... and {left} more; to_json() has them all")
    headers, rows = bounds(optimum)
    if rows:
        lines += ["", f"Bounds of the {'best' if optimum.feasible else 'least violated'} design"]
        lines += hung_table(headers, rows)
    if warning := edge(optimum):
        lines += ["", folded(warning)]
    return "\n".join(lines)
