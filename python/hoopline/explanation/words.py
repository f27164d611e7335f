"""What the text and the page of an explanation have in common: its parts in words."""

import re

from hoopline.explanation import Explanation, Step, Term
from hoopline.rounding import significant
from hoopline.text import OWN_FACTORS, shown

_SYMBOL = re.compile(r"[A-Za-z_]\w*")
# Digits of a number put into a formula: more than stand beside a printed unit, so that a chain of
# steps done by hand ends on the printed result.
_DIGITS = 7


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
    name = factor.rule_set or OWN_FACTORS
    return f"{factor.path} = {factor.value:.12g}, {name}{source}{scope}"


def left_out(explanation: Explanation) -> str:
    """Say what the model leaves out, and under which row of the model table that stands."""
    known = explanation.known_error
    row = f" (README, table of models: {known.model})" if known.model else ""
    return f"{known.text}{row}"


def origin(term: Term) -> str:
    """Say where a term comes from, and what to ask for next."""
    if term.ask:
        return f"{term.origin}: ask {term.ask}"
    return f"{term.path}, {term.origin}" if term.path else term.origin


def values(explanation: Explanation) -> dict[str, float]:
    """Return every symbol's value in SI."""
    known = {term.symbol: term.value for term in explanation.terms}
    return known | {step.symbol: step.value for step in explanation.steps}


def with_numbers(formula: str, known: dict[str, float]) -> str:
    """Return a formula with numbers in place of its symbols.

    >>> with_numbers("a ** 2 - min(b, 1)", {"a": -3.0, "b": 0.5})
    '(-3) ** 2 - min(0.5, 1)'
    """

    def number(found: re.Match[str]) -> str:
        if found[0] not in known:
            return found[0]
        text = f"{known[found[0]]:.{_DIGITS}g}"
        return f"({text})" if text.startswith("-") else text

    return _SYMBOL.sub(number, formula)


def printed_si(value: float, unit: str) -> str:
    """Return a value with its SI unit, as a formula takes it."""
    return f"{value:.{_DIGITS}g} {unit}".rstrip()


def printed(explanation: Explanation, step: Step) -> str:
    """Return a step's value as printed; the result itself is rounded as in the assessment."""
    is_result = step is explanation.steps[-1] and explanation.method is None
    return shown(explanation.path, step.value) if is_result else step.shown


def before_rounding(explanation: Explanation) -> str:
    """Return a margin as it is before it is rounded down; empty for other results."""
    if not explanation.path.startswith("margins."):
        return ""
    return f" ({significant(explanation.value, 4, 'down')} before it is rounded to two digits)"
