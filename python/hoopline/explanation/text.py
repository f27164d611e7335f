"""An explanation as plain text: a page of a calculation."""

from collections.abc import Iterable, Iterator

from hoopline.explanation import Explanation, Step, Term
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
from hoopline.folding import INDENT, WIDTH, folded
from hoopline.sources import Sources
from hoopline.text import shown, stamp

# Sources up to this length stand where they belong; longer ones are numbered and listed once.
_SHORT = 24


def render(explanation: Explanation) -> str:
    """Return one explanation with the cautions and the safety paragraph at its end."""
    return together([explanation])


def together(explanations: Iterable[Explanation]) -> str:
    """Return several explanations of one assessment; what all must know stands once, at the end."""
    pages = list(explanations)
    if not pages:
        return ""
    last = pages[-1]
    blocks = [block for page in pages for block in _blocks(page)]
    if last.cautions:
        lines = [_wrapped(f"- {caution}", 1, 2) for caution in last.cautions]
        blocks.append("\n".join(["Cautions", *lines]))
    blocks.append(_wrapped(last.safety, 0, 0))
    blocks.append(_wrapped(f"{last.name}, digest {stamp(last.digest, last.version)}", 0, 1))
    return "\n\n".join(blocks)


def body(page: Explanation) -> str:
    """Return one explanation alone, for a page that tells cautions and safety itself."""
    return "\n\n".join(_blocks(page))


def _blocks(page: Explanation) -> Iterator[str]:
    sources = Sources(_SHORT)
    yield "\n".join(_heading(page))
    if page.method:
        text = f"{page.method.text} {sources.mark(page.method.source)}"
        yield "\n".join(["How it comes about", _wrapped(text, 1, 1)])
    if page.terms:
        lines = [line for term in page.terms for line in _term(term, sources)]
        yield "\n".join(["What enters: as printed, and in SI", *lines])
    if page.steps:
        title = "For a sanity check" if page.method else "Calculation, in SI"
        lines = [line for step in page.steps for line in _step(page, step, sources)]
        yield "\n".join([title, *lines])
    if page.functions:
        yield "\n".join(["Functions", *(_wrapped(text, 1, 2) for text in page.functions)])
    if sources.listed:
        numbered = enumerate(sources.listed, start=1)
        lines = [_wrapped(f"[{number}] {source}", 1, 3) for number, source in numbered]
        yield "\n".join(["Sources", *lines])
    yield "\n".join(["Not in it", _wrapped(left_out(page), 1, 1)])


def _heading(page: Explanation) -> Iterator[str]:
    title = f"{page.path} = {shown(page.path, page.value)}{before_rounding(page)}"
    yield _wrapped(title, 0, 1)
    yield "=" * min(len(title), WIDTH)
    yield _wrapped(page.doc, 1, 1)
    for line in (standing(page), applied(page) and f"factor: {applied(page)}"):
        if line:
            yield _wrapped(line, 1, 2)
    if page.steps and not page.method:
        last = page.steps[-1]
        yield _wrapped(f"{last.symbol} = {_compact(last.formula)}", 1, 3)


def _step(page: Explanation, step: Step, sources: Sources) -> Iterator[str]:
    yield _wrapped(f"{step.symbol} = {_compact(step.formula)}", 1, 3)
    numbers = with_numbers(step.formula, values(page))
    exact = printed_si(step.value, step.unit)
    if numbers not in {step.formula, exact}:
        yield _wrapped(f"= {_compact(numbers)}", 2, 3)
    same = printed(page, step) in {exact, step.formula} or step.value == 0.0
    yield _wrapped(f"= {exact}" + ("" if same else f" = {printed(page, step)}"), 2, 3)
    doc = step.doc.rstrip(".")
    yield _wrapped(f"{doc}; {sources.mark(step.source)}", 3, 3)


def _term(term: Term, sources: Sources) -> Iterator[str]:
    as_printed = shown(term.path, term.value) if term.path and term.ask else term.shown
    exact = printed_si(term.value, term.unit)
    value = as_printed if exact == as_printed else f"{as_printed} = {exact}"
    yield _wrapped(f"{term.symbol} = {value}", 1, 3)
    source = f" {sources.mark(term.source)}" if term.source else ""
    yield _wrapped(f"{term.doc.rstrip('.')}; {origin(term)}{source}", 3, 3)


def _compact(formula: str) -> str:
    """Keep powers together, so that no line ends within one."""
    return formula.replace(" ** ", "**")


def _wrapped(text: str, first: int, rest: int) -> str:
    return folded(text, INDENT * first, INDENT * rest, hyphens=False)
