"""An explanation as plain text: a page of a calculation."""

import re
import textwrap
from collections.abc import Iterable, Iterator

from hoopline.explanation import Explanation, Step, Term
from hoopline.rounding import significant
from hoopline.text import WIDTH, shown

_INDENT = "  "
_SYMBOL = re.compile(r"[A-Za-z_]\w*(?!\w*\()")
# Digits of a number put into a formula: more than are printed beside the symbol, so that a chain of
# steps done by hand ends on the printed result.
_DIGITS = 7


def render(explanation: Explanation) -> str:
    """Return one explanation with the cautions and the safety paragraph at its end."""
    return together([explanation])


def together(explanations: Iterable[Explanation]) -> str:
    """Return several explanations of one assessment; what all must know stands once, at the end."""
    pages = list(explanations)
    last = pages[-1]
    blocks = [block for page in pages for block in _blocks(page)]
    if last.cautions:
        lines = [_wrapped(f"- {caution}", _INDENT, _INDENT * 2) for caution in last.cautions]
        blocks.append("\n".join(["Cautions", *lines]))
    blocks.append(_wrapped(last.safety, "", ""))
    blocks.append(f"{last.name}, digest {last.digest[:16]}, hoopline {last.version}")
    return "\n\n".join(blocks)


def standing(explanation: Explanation) -> str:
    """Say where a margin stands among the others; empty for what is no margin."""
    place = explanation.next
    if place is None:
        return ""
    governs = "governs" if place.governs else "does not govern"
    if place.path is None or place.value is None:
        return f"{governs}; no margin is larger"
    return f"{governs}; next: {place.path} {shown(place.path, place.value)}"


def applied(explanation: Explanation) -> str:
    """Say which factor of which rule set enters; empty if none does."""
    factor = explanation.factor
    if factor is None:
        return ""
    source = f" ({factor.source})" if factor.source else ""
    scope = f"; covers {factor.scope}" if factor.scope else ""
    name = factor.rule_set or "factors of one's own"
    return f"{factor.path} = {factor.value:.6g}, {name}{source}{scope}"


def left_out(explanation: Explanation) -> str:
    """Say what the model leaves out, and under which row of the model table that stands."""
    known = explanation.known_error
    row = "" if known.model == "None" else f" (README, models: {known.model})"
    return f"{known.text}{row}"


def origin(term: Term) -> str:
    """Say where a term comes from, and what to ask for next."""
    source = f" ({term.source})" if term.source else ""
    path = f"{term.path}, " if term.path and term.ask is None else ""
    ask = f": ask {term.ask}" if term.ask else ""
    return f"{path}{term.origin}{ask}{source}"


def with_numbers(step: Step, values: dict[str, float]) -> str:
    """Return a formula with SI numbers in place of its symbols."""

    def number(found: re.Match[str]) -> str:
        name = found[0]
        if name not in values:
            return name
        text = f"{values[name]:.{_DIGITS}g}"
        return f"({text})" if text.startswith("-") else text

    return _SYMBOL.sub(number, step.formula)


def printed_si(value: float, unit: str) -> str:
    """Return a value with its SI unit, as a formula takes it."""
    return f"{value:.{_DIGITS}g} {unit}".rstrip()


def last_line(explanation: Explanation) -> str:
    """Return a margin as it is before it is rounded down; empty for other results."""
    if not explanation.path.startswith("margins."):
        return ""
    return f" ({significant(explanation.value, 4)} before it is rounded down)"


def _blocks(page: Explanation) -> Iterator[str]:
    yield "\n".join(_heading(page))
    if page.method:
        lines = [_wrapped(page.method.text, _INDENT, _INDENT)]
        lines.append(_wrapped(f"source: {page.method.source}", _INDENT, _INDENT * 2))
        yield "\n".join(["How it comes about", *lines])
    if page.steps:
        values = {term.symbol: term.value for term in page.terms}
        values |= {step.symbol: step.value for step in page.steps}
        title = "Beside it" if page.method else "Calculation, in SI"
        yield "\n".join([title, *(line for step in page.steps for line in _step(step, values))])
    if page.terms:
        yield "\n".join(["What enters", *(line for term in page.terms for line in _term(term))])
    if page.functions:
        lines = [_wrapped(text, _INDENT, _INDENT * 2) for text in page.functions]
        yield "\n".join(["Functions", *lines])
    yield "\n".join(["Not in it", _wrapped(left_out(page), _INDENT, _INDENT)])


def _heading(page: Explanation) -> Iterator[str]:
    title = f"{page.path} = {shown(page.path, page.value)}{last_line(page)}"
    yield _wrapped(title, "", _INDENT)
    yield "=" * min(len(title), WIDTH)
    yield _wrapped(page.doc, _INDENT, _INDENT)
    for line in (standing(page), applied(page) and f"factor: {applied(page)}"):
        if line:
            yield _wrapped(line, _INDENT, _INDENT * 2)


def _step(step: Step, values: dict[str, float]) -> Iterator[str]:
    yield _wrapped(f"{step.symbol} = {step.formula}", _INDENT, _INDENT * 3)
    numbers = with_numbers(step, values)
    if numbers != step.formula:
        yield _wrapped(f"= {numbers}", _INDENT * 2, _INDENT * 3)
    exact = printed_si(step.value, step.unit)
    same = exact == step.shown or step.value == 0.0
    yield _wrapped(f"= {exact}" + ("" if same else f" = {step.shown}"), _INDENT * 2, _INDENT * 3)
    yield _wrapped(f"{step.doc}; {step.source}", _INDENT * 3, _INDENT * 3)


def _term(term: Term) -> Iterator[str]:
    exact = printed_si(term.value, term.unit)
    value = term.shown if exact == term.shown else f"{term.shown} = {exact}"
    yield _wrapped(f"{term.symbol} = {value}", _INDENT, _INDENT * 3)
    doc = term.doc.rstrip(".")
    yield _wrapped(f"{doc}; {origin(term)}", _INDENT * 3, _INDENT * 3)


def _wrapped(text: str, first: str, rest: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=rest)
