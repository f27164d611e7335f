"""A comparison as plain text."""

from collections.abc import Iterator

from hoopline.comparison import Caution, Comparison, Side
from hoopline.comparison.tables import Section, sections
from hoopline.folding import INDENT, WIDTH, folded

_GAP = 2
_LEAST_NAME = 8

BEFORE_ROUNDING = "Differences are taken before the values are rounded towards caution."


def render(comparison: Comparison) -> str:
    """Return the comparison as text: verdict, sections, cautions, safety."""
    blocks = ["\n".join(_header(comparison))]
    blocks += ["\n".join(_section(section)) for section in sections(comparison)]
    if comparison.cautions:
        blocks.append("\n".join(["Cautions", *_cautions(comparison)]))
    blocks.append(folded(comparison.safety))
    return "\n\n".join(blocks)


def side(one: Side) -> str:
    """Say what a letter stands for."""
    layout = "no schema number" if one.schema is None else f"schema {one.schema}"
    reference = "; the reference" if one.letter == "A" else ""
    return f"{one.name}, digest {one.digest[:12]}, hoopline {one.version}, {layout}{reference}"


def held(comparison: Comparison, caution: Caution) -> str:
    """Which sides a caution holds for: "A and B", "gained in B", "lost in B"."""
    letters = [one.letter for one in comparison.sides]
    of = [letter for letter, there in zip(letters, caution.holds, strict=True) if there]
    missing = [letter for letter in letters if letter not in of]
    if not missing:
        return " and ".join(of)
    if letters[0] in missing:
        return f"gained in {' and '.join(of)}"
    return f"lost in {' and '.join(missing)}"


def _header(comparison: Comparison) -> Iterator[str]:
    title = "Comparison"
    yield title
    yield "=" * len(title)
    for one in comparison.sides:
        yield folded(f"{one.letter}  {side(one)}", rest="   ")
    yield ""
    yield folded(comparison.verdict)
    yield folded(BEFORE_ROUNDING)
    for note in comparison.notes:
        yield ""
        yield folded(note)


def _section(section: Section) -> Iterator[str]:
    yield section.heading
    if section.worded:
        for name, *words, note in section.rows:
            yield folded(f"{name}{f': {note}' if note else ''}", INDENT, INDENT * 3)
            for letter, word in zip(section.headers[1:], words, strict=False):
                yield folded(f"{letter}  {word}", INDENT * 2, INDENT * 3 + " ")
        return
    columns = list(zip(section.headers, *section.rows, strict=True))
    widths = [max(map(len, column)) + _GAP for column in columns[1:-1]]
    names = max(map(len, columns[0]))
    room = max(WIDTH - len(INDENT) - sum(widths), _LEAST_NAME)
    for name, *cells, note in [(*section.headers[:-1], ""), *section.rows]:
        width = min(names, room)
        numbers = "".join(f"{cell:>{size}}" for cell, size in zip(cells, widths, strict=True))
        if len(name) > width:
            yield f"{INDENT}{name}"
            name = ""
        line = f"{INDENT}{name:{width}}{numbers}"
        if not note or len(line) + _GAP + len(note) <= WIDTH:
            yield f"{line}  {note}".rstrip()
        else:
            yield line.rstrip()
            yield folded(note, INDENT * 3, INDENT * 3)


def _cautions(comparison: Comparison) -> Iterator[str]:
    for caution in comparison.cautions:
        yield folded(f"- {held(comparison, caution)}: {caution.text}", INDENT, INDENT * 2)
