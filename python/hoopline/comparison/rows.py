"""Matching of designs by path and by name: what a comparison is made of."""

import dataclasses
import re
from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from typing import Any, TypeVar

from hoopline import _core, schema
from hoopline.assessment import Assessment
from hoopline.comparison import LETTERS, Caution, Comparison, Mass, Numbers, Side, Words
from hoopline.results import MassLine
from hoopline.rounding import rounded, signed, significant
from hoopline.text import label, shown

Name = TypeVar("Name", bound=Hashable)
Value = TypeVar("Value")

_NUMBER = re.compile(r"\d+(?:\.\d+)?")

_COMPUTED = "computed from what is stated instead"
"""Origin of an input that nobody chose: it differs because others do."""

_LAST_BITS = 1e-9
"""Share of the reference below which a difference is that of the last bits and counts as none."""

_REMAINDER = 1e-9
"""Mass, kg, that a sum of lines may miss by rounding."""


def build(designs: Sequence[Assessment], *, everything: bool) -> Comparison:
    """Compare assessments; the first is the reference."""
    sides = tuple(
        Side(
            letter,
            one.name,
            one.digest,
            one.version,
            one.schema,
            one.met,
            tuple(margin.path for margin in one.margins if margin.value < 0.0),
            tuple(line.id for line in one.requirements if line.status == "not met"),
        )
        for letter, one in zip(LETTERS, designs, strict=False)
    )
    masses, total = _masses(
        [one.mass_lines for one in designs], [one["mass.predicted"] for one in designs]
    )
    total = Mass("predicted mass", "sum", total.predicted, total.differences)
    propellant, _ = _masses(
        [one.propellant_lines["at_ignition"] for one in designs],
        [one["mass.lift_off"] - one["mass.predicted"] for one in designs],
    )
    at_lift_off = [one["mass.lift_off"] for one in designs]
    lift_off = Mass(
        "mass at lift-off",
        "sum",
        tuple(at_lift_off),
        tuple(mass - at_lift_off[0] for mass in at_lift_off[1:]),
    )
    margins = _margins(designs)
    inputs = _inputs(designs)
    words = {
        "choices": _words([one.choices for one in designs]),
        "on_record": _words([one.on_record for one in designs], own="values of one's own"),
        "tables": _words([one.tables for one in designs]),
        "follow": _words([one.follow for one in designs]),
    }
    # The rules stand among the choices too.
    words["choices"] = tuple(row for row in words["choices"] if not row.path.startswith("follow."))
    same_inputs = not inputs and not any(words.values())
    return Comparison(
        sides=sides,
        verdict=_verdict(sides, designs, same_inputs=same_inputs),
        notes=tuple(_notes(sides)),
        inputs=inputs,
        **words,
        results=_results(designs, everything=everything),
        margins=margins,
        governing=tuple(one.governing.path if one.governing else "" for one in designs),
        requirements=_requirements(designs),
        cautions=_cautions([one.cautions for one in designs]),
        masses=masses,
        total=total,
        propellant=propellant,
        lift_off=lift_off,
        safety=_safety(designs),
        everything=everything,
    )


def _cautions(sides: Sequence[Sequence[str]]) -> tuple[Caution, ...]:
    """Match cautions by their wording; several of one wording are matched in their order."""
    found = [_apart((_NUMBER.sub("", text), text) for text in texts) for texts in sides]
    keys = _in_order(found)
    return tuple(_caution([worded.get(key) for worded in found]) for key in keys)


def _caution(texts: Sequence[str | None]) -> Caution:
    """One sentence for all: where numbers differ, those of later sides stand behind in brackets."""
    held = [(letter, text) for letter, text in zip(LETTERS, texts, strict=False) if text]
    (first, said), *others = held
    numbers = [(letter, _NUMBER.findall(text)) for letter, text in others]
    pieces, end = [], 0
    for place, match in enumerate(_NUMBER.finditer(said)):
        differing = [
            f"{letter} {theirs[place]}" for letter, theirs in numbers if theirs[place] != match[0]
        ]
        pieces += [said[end : match.start()]]
        pieces += [f"{first} {match[0]} ({', '.join(differing)})" if differing else match[0]]
        end = match.end()
    return Caution("".join([*pieces, said[end:]]), tuple(text is not None for text in texts))


def _safety(designs: Sequence[Assessment]) -> str:
    return next((one.safety for one in designs if one.safety), "")


def _apart(rows: Iterable[tuple[Name, Value]]) -> dict[tuple[Name, int], Value]:
    """Values by name and, where several have one name, by their place among these."""
    found: dict[tuple[Name, int], Value] = {}
    before: Counter[Name] = Counter()
    for name, value in rows:
        found[name, before[name]] = value
        before[name] += 1
    return found


def _in_order(lists: Iterable[Iterable[Name]]) -> list[Name]:
    """Every name once, in the order in which it first appears."""
    return list(dict.fromkeys(name for names in lists for name in names))


def _only(present: Sequence[bool]) -> str:
    if all(present):
        return ""
    letters = [letter for letter, there in zip(LETTERS, present, strict=False) if there]
    return f"only in {' and '.join(letters)}"


def _notes(sides: Sequence[Side]) -> Iterable[str]:
    versions = {side.version for side in sides} - {""}
    if unnamed := [side.letter for side in sides if not side.version]:
        yield (
            f"Which version assessed {' and '.join(unnamed)} is not known: results can differ "
            "because the models do, with the same inputs too. Assess the stage files with one "
            "version to see the designs alone."
        )
    elif len(versions) == 1 and _core.version not in versions:
        yield (
            f"All were assessed by version {sides[0].version}, which is not this one "
            f"({_core.version}): the numbers are that version's. Assess the stage files with this "
            "version to see what it says."
        )
    if len(versions) > 1:
        listed = ", ".join(f"{side.letter} {side.version}" for side in sides)
        yield (
            f"Versions differ ({listed}): results can differ because the models do, with the same "
            "inputs too. Assess both stage files with one version to see the designs alone."
        )
    if len({side.schema for side in sides}) > 1:
        listed = ", ".join(
            f"{side.letter} {'without a number' if side.schema is None else side.schema}"
            for side in sides
        )
        yield (
            f"Layouts differ (schema {listed}): what is compared is what has the same path in "
            "each; a path that one of them does not have is listed as only in the others, which "
            "does not say that the designs differ in it."
        )


def _numbers(
    path: str,
    values: Sequence[float | None],
    printed: Callable[[float], str],
    field: schema.Field | None,
    unit: str,
) -> Numbers:
    reference = values[0]
    differences: list[str] = []
    relative: list[float | None] = []
    for value in values[1:]:
        if value is None or reference is None:
            differences.append("")
            relative.append(None)
            continue
        change = value - reference
        if abs(change) <= _LAST_BITS * abs(reference):
            change = 0.0
        differences.append(_difference(change, field, unit))
        offset = field is not None and field.printed_offset != 0.0
        meaningless = offset or path.startswith("margins.") or reference == 0.0
        relative.append(None if meaningless else change / abs(reference))
    return Numbers(
        path,
        unit,
        tuple(values),
        tuple("" if value is None else printed(value) for value in values),
        tuple(differences),
        tuple(relative),
        _only([value is not None for value in values]),
    )


def _difference(change: float, field: schema.Field | None, unit: str) -> str:
    """Return a difference as printed: signed, three digits, no reference pressure in the unit."""
    factor = field.printed_factor if field else 1.0
    word = field.printed_unit if field else unit
    if field and field.printed_offset:
        word = field.unit  # a difference of temperatures has no zero point
    word = word.removesuffix(" gauge").removesuffix(" absolute")
    if change == 0.0:
        return f"0 {word}".rstrip()
    if word == "%":
        word = "points"  # percentage points; a per cent would read as a relative change
    number = significant(change / factor, 3)
    return f"{signed(number)} {word}".rstrip()


def _inputs(designs: Sequence[Assessment]) -> tuple[Numbers, ...]:
    rows = [{row["path"]: row for row in one.inputs} for one in designs]
    known = schema.inputs()
    chosen, computed = [], []
    for path in _in_order(rows):
        found = [side.get(path) for side in rows]
        values = [row["value"] if row else None for row in found]
        if len(set(values)) == 1:
            continue
        unit = next(row["unit"] for row in found if row)
        words = {row["value"]: row["shown"] for row in found if row}
        line = _numbers(path, values, words.__getitem__, known.get(path), unit)
        by = [row is not None and row["origin"] == _COMPUTED for row in found]
        if not any(by):
            chosen.append(line)
            continue
        letters = [letter for letter, there in zip(LETTERS, by, strict=False) if there]
        note = line.note or f"computed in {' and '.join(letters)}"
        computed.append(dataclasses.replace(line, note=note))
    return (*chosen, *computed)


def _results(designs: Sequence[Assessment], *, everything: bool) -> tuple[Numbers, ...]:
    known = schema.results()
    listed = []
    paths = _in_order([*(one.results for one in designs), *(one.unread for one in designs)])
    for path in paths:
        if path.startswith("margins."):
            continue
        values = [one.results.get(path, one.unread.get(path)) for one in designs]
        field = known.get(path)
        printed = _printer(path) if field else _bare
        row = _numbers(path, values, printed, field, field.unit if field else "")
        if everything or len(set(row.shown)) > 1:
            listed.append(row)
    return tuple(listed)


def _printer(path: str) -> Callable[[float], str]:
    return lambda value: shown(path, value)


def _bare(value: float) -> str:
    """Return a result that this version does not know: SI, whatever the unit is."""
    return f"{significant(value)} (SI)"


def _margins(designs: Sequence[Assessment]) -> tuple[Numbers, ...]:
    rows = [{margin.path: margin.value for margin in one.margins} for one in designs]
    made = []
    for path in _in_order(rows):
        values = [side.get(path) for side in rows]
        row = _numbers(path, values, _printer(path), None, "")
        changes = tuple(
            "" if one is None or values[0] is None else signed(rounded(one - values[0], 2))
            for one in values[1:]
        )
        note = "; ".join(part for part in (row.note, _sign(values)) if part)
        made.append(Numbers(path, "", row.values, row.shown, changes, row.relative, note))
    return tuple(made)


def _sign(values: Sequence[float | None]) -> str:
    """Which sides change from met to not met against the reference, or back."""
    met = [None if value is None else value >= 0.0 for value in values]
    notes = []
    for word, before in (("no longer met", True), ("met now", False)):
        letters = [
            letter
            for letter, now in zip(LETTERS[1:], met[1:], strict=False)
            if met[0] is before and now is (not before)
        ]
        if letters:
            notes.append(f"{word} in {' and '.join(letters)}")
    return "; ".join(notes)


def _words(sides: Sequence[Mapping[str, str]], own: str = "") -> tuple[Words, ...]:
    rows = []
    for path in _in_order(sides):
        found = [side.get(path) for side in sides]
        if len(set(found)) > 1:
            words = tuple("" if word is None else word or own for word in found)
            rows.append(Words(path, words, _only([word is not None for word in found])))
    return tuple(rows)


def _requirements(designs: Sequence[Assessment]) -> tuple[Words, ...]:
    rows: list[dict[str, Any]] = [{line.id: line for line in one.requirements} for one in designs]
    made = []
    for name in sorted(_in_order(rows)):
        found = [side.get(name) for side in rows]
        asked = {(line.response, line.at_least, line.at_most) for line in found if line}
        limited = len(asked) > 1  # met by a wider limit is no better design
        words = tuple(
            "" if line is None else f"{line.status}, {line.limit}" if limited else line.status
            for line in found
        )
        if limited or len(set(words)) > 1:
            text = next(line.text for line in found if line)
            only = _only([line is not None for line in found])
            made.append(Words(name, words, f"{only}: {text}" if only else text))
    return tuple(made)


def _masses(
    sides: Sequence[Sequence[MassLine]], totals: Sequence[float]
) -> tuple[tuple[Mass, ...], Mass]:
    """Match lines by group and name; several of one name are matched in their order."""
    found = [_apart(((line.group, line.name), line.predicted) for line in one) for one in sides]
    rest = [total - sum(named.values()) for total, named in zip(totals, found, strict=True)]
    if any(abs(mass) > _REMAINDER for mass in rest):
        for named, mass in zip(found, rest, strict=True):
            named[("sum", "not in the lines"), 0] = mass
    rows = tuple(
        _mass(key[0][1], key[0][0], [named.get(key) for named in found]) for key in _in_order(found)
    )
    return rows, _mass("sum", "sum", list(totals))


def _mass(name: str, group: str, masses: list[float | None]) -> Mass:
    reference = masses[0] or 0.0
    return Mass(name, group, tuple(masses), tuple((mass or 0.0) - reference for mass in masses[1:]))


def _verdict(sides: Sequence[Side], designs: Sequence[Assessment], *, same_inputs: bool) -> str:
    """One sentence: apogee, mass, smallest margin against the reference, and who meets them."""
    short = [f"{side.letter} ({_missed(side)})" for side in sides if not side.met]
    if not short:
        standing = "no margin is negative and no requirement is found not met"
    else:
        standing = f"NOT all margins and requirements are met by {' and '.join(short)}"
    if same_inputs and len({tuple(sorted(one.results.items())) for one in designs}) == 1:
        return f"No input and no result differs; {standing}."
    parts = []
    for side, one in zip(sides[1:], designs[1:], strict=True):
        said = [
            _change("ascent.apogee", "apogee", designs[0], one),
            _change("mass.predicted", "predicted mass", designs[0], one),
        ]
        smallest = [each.governing for each in (designs[0], one)]
        if smallest[0] and smallest[1]:
            before, after = (
                f"{shown(margin.path, margin.value)} ({label(margin.path)})"
                for margin in smallest
                if margin
            )
            said.append(f"smallest margin {after} after {before}")
        parts.append(f"{side.letter} against {sides[0].letter}: {', '.join(said)}")
    return f"{'; '.join(parts)}; {standing}."


def _missed(side: Side) -> str:
    """Name the margins and requirements that a side does not meet."""
    found = (("margin", [label(path) for path in side.negative]), ("requirement", side.not_met))
    return "; ".join(
        f"{word}{'s' if len(names) > 1 else ''} {', '.join(names)}"
        for word, names in found
        if names
    )


def _change(path: str, word: str, reference: Assessment, one: Assessment) -> str:
    field = schema.results()[path]
    row = _numbers(path, [reference[path], one[path]], _printer(path), field, field.unit)
    share = "" if row.relative[0] is None else f" ({percent(row.relative[0])})"
    return f"{word} {row.differences[0]}{share}"


def percent(share: float | None) -> str:
    """Return a relative difference as printed."""
    if share is None:
        return ""
    number = rounded(100.0 * share, 1)
    return f"{signed(number) if share else number} %"
