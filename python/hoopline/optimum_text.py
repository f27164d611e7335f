"""What a search found, as plain text."""

from collections.abc import Iterator, Sequence

from hoopline.folding import INDENT, WIDTH, folded
from hoopline.optimum import Optimum
from hoopline.optimum_tables import bounds, designs, edge, summary, title

_NAME = 11
_GAP = 2


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
    lines += _table(headers, rows)
    if left:
        lines.append(f"{INDENT}... and {left} more; to_json() has them all")
    headers, rows = bounds(optimum)
    if rows:
        lines += ["", f"Bounds of the {'best' if optimum.feasible else 'least violated'} design"]
        lines += _table(headers, rows)
    if warning := edge(optimum):
        lines += ["", folded(warning)]
    return "\n".join(lines)


def _table(headers: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    *columns, _ = zip(headers, *rows, strict=True)
    widths = [max(map(len, column)) for column in columns]
    hanging = len(INDENT) + sum(widths) + _GAP * len(widths)
    if hanging > WIDTH - 3 * _NAME:
        yield from _listed(headers, rows)
        return
    for row in (headers, *rows):
        cells = (f"{cell:{width}}" for cell, width in zip(row, widths, strict=False))
        line = f"{INDENT}{(' ' * _GAP).join((*cells, row[-1]))}".rstrip()
        yield _hung(line, hanging)


def _listed(headers: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Return the rows one below the other where they are too wide for a table."""
    for number, row in enumerate(rows, start=1):
        pairs = zip(headers, row, strict=True)
        text = ", ".join(f"{name} {cell}" for name, cell in pairs if cell)
        yield folded(text, f"{INDENT}{number:2} ", INDENT * 3)


def _hung(line: str, hanging: int) -> str:
    """Fold the last cell of a row under itself."""
    if len(line) <= WIDTH:
        return line
    return folded(line[hanging:], line[:hanging], " " * hanging)
