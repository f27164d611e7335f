"""Reading a saved assessment: checked, and fitted to what this version knows."""

import json
import math
from collections.abc import Iterable, Mapping
from dataclasses import fields
from typing import Any

from hoopline import schema
from hoopline.errors import InputError, kind_of
from hoopline.number import as_float
from hoopline.requirement import Requirement
from hoopline.results import Band, Margin, MassLine
from hoopline.stage import Input

# What an assessment of any version has; without it the text is something else.
_TEXTS = ("name", "digest", "version")
_NEEDED = ("mass.predicted", "mass.lift_off", "mass.burnout", "ascent.apogee")

_WORDS = ("follow", "choices", "on_record", "tables", "maturities")
_LISTS = ("basis", "conditions", "stated", "cautions")
_STANDINGS = ("met", "not met", "open")


def read(text: str) -> tuple[str, str]:
    """Check the text of a saved assessment.

    Returns
    -------
    tuple
        The assessment and its model bands as JSON text in this version's layout. Results whose
        path this version does not know stand under "unread".

    Raises
    ------
    InputError
        The text is not JSON, or not that of an assessment; the message says what is missing or
        wrong, and where.
    """
    content = _object(_parsed(text), "a saved assessment")
    for key in _TEXTS:
        if not isinstance(content.get(key), str):
            raise _wrong(key, content.get(key), "a text")
    given = _numbers(content, "results") | _numbers(content, "unread", optional=True)
    for path in _NEEDED:
        if path not in given:
            raise InputError(f"not a saved assessment: results has no {path}; {_MADE_BY}")
    if "cautions" not in content:
        raise _wrong("cautions", None, "a list of texts")
    known = schema.results()
    number = content.get("schema")
    if number is not None and (isinstance(number, bool) or not isinstance(number, int)):
        raise _wrong("schema", number, "a whole number")
    kept = {
        **{key: content[key] for key in _TEXTS},
        "schema": number,
        "description": _text(content, "description"),
        "results": {path: value for path, value in given.items() if path in known},
        "unread": {path: value for path, value in given.items() if path not in known},
        "margins": sorted(_rows(content, "margins", Margin), key=lambda row: row["value"]),
        "requirements": [_judged(row) for row in _rows(content, "requirements", Requirement)],
        "inputs": _rows(content, "inputs", Input),
        "mass_lines": _rows(content, "mass_lines", MassLine),
        "propellant_lines": _propellant(content),
        "frontal_governed_by": _text(content, "frontal_governed_by"),
        "rule_set": _pair(
            content, "rule_set", ("name", "source", "scope", "hold", "burst_basis"), given
        ),
        "meop_basis": _pair(content, "meop_basis", ("basis", "reason"), given),
        # Ours, whatever the file says: no report goes without it.
        "safety": schema.document()["safety"],
        **{key: _words(content, key) for key in _WORDS},
        **{key: _texts(content, key) for key in _LISTS},
    }
    _same_margins(kept["margins"], given)
    if kept["rule_set"] and given["pressures.meop"] <= 0.0:
        raise _wrong("results: pressures.meop", given["pressures.meop"], "a positive number")
    kept["governing"] = kept["margins"][0]["path"] if kept["margins"] else None
    lines = {line["maturity"] for line in kept["mass_lines"]} - {None}
    kept["maturities"] = {name: kept["maturities"].get(name, "") for name in sorted(lines)}
    written = json.dumps(kept, ensure_ascii=False), json.dumps(_bands(content), ensure_ascii=False)
    try:
        "".join(written).encode()
    except UnicodeEncodeError as error:
        raise InputError(f"not a saved assessment: {error.reason} in a text; {_MADE_BY}") from None
    return written


_MADE_BY = "it is what `hoopline assess FILE --json` prints"


def _parsed(text: str) -> Any:
    if not isinstance(text, str):
        raise InputError(f"a saved assessment is JSON text, not {kind_of(text)}")
    try:
        return json.loads(text)
    except (ValueError, RecursionError) as error:
        raise InputError(f"not a saved assessment: no JSON ({error}); {_MADE_BY}") from None


def _wrong(where: str, found: object, wanted: str) -> InputError:
    shown = "nothing" if found is None else repr(found)[:60]
    return InputError(f"not a saved assessment: {where} is {shown} and not {wanted}; {_MADE_BY}")


def _object(value: object, where: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise _wrong(where, value, "an object")
    return value


def _number(value: object, where: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _wrong(where, value, "a finite number")
    number = as_float(value)  # JSON sets whole numbers no limit
    if not math.isfinite(number):
        raise _wrong(where, value, "a finite number")
    return number


def _numbers(content: Mapping[str, Any], key: str, *, optional: bool = False) -> dict[str, float]:
    found = content.get(key, {} if optional else None)
    return {path: _number(value, f"{key}: {path}") for path, value in _object(found, key).items()}


def _text(content: Mapping[str, Any], key: str) -> str:
    found = content.get(key, "")
    if not isinstance(found, str):
        raise _wrong(key, found, "a text")
    return found


def _texts(content: Mapping[str, Any], key: str) -> list[str]:
    found = content.get(key, [])
    if not isinstance(found, list) or not all(isinstance(text, str) for text in found):
        raise _wrong(key, found, "a list of texts")
    return found


def _words(content: Mapping[str, Any], key: str) -> dict[str, str]:
    found = _object(content.get(key, {}), key)
    for path, word in found.items():
        if not isinstance(word, str):
            raise _wrong(f"{key}: {path}", word, "a text")
    return found


def _rows(content: Mapping[str, Any], key: str, kind: type) -> list[dict[str, Any]]:
    """Return rows with the fields of this version: what one lacks stays empty."""
    found = content.get(key, [])
    if not isinstance(found, list):
        raise _wrong(key, found, "a list")
    return [_row(row, f"{key}[{place}]", kind) for place, row in enumerate(found)]


def _row(row: object, where: str, kind: type) -> dict[str, Any]:
    given = _object(row, where)
    shape: dict[str, Any] = {field.name: field.type for field in fields(kind)}
    first = next(iter(shape))
    if not isinstance(given.get(first), str) or not given[first]:
        raise _wrong(f"{where}: {first}", given.get(first), "a text")
    kept = {}
    for name, holds in shape.items():
        value = given.get(name, _EMPTY.get(holds))
        at = f"{where}: {name}"
        if holds in _NUMBERS and not (value is None and holds == float | None):
            value = _number(value, at)
        elif holds in _TEXTUAL and not isinstance(value, holds):
            raise _wrong(at, value, "a text")
        kept[name] = value
    return kept


# What a row holds by the types of its fields; an assessment's inputs are numbers alone. Pairs of
# numbers are looked at where the bands are read.
_NUMBERS = (float, float | str, float | None)
_TEXTUAL = (str, str | None)
_EMPTY = {str: "", float: 0.0, float | str: 0.0, tuple[float, float]: []}


def _same_margins(rows: list[dict[str, Any]], given: Mapping[str, float]) -> None:
    """Refuse a list of margins that is not that of the results: the verdict rests on the list."""
    listed = {row["path"]: row["value"] for row in rows}
    results = {path: value for path, value in given.items() if path.startswith("margins.")}
    for path in [*results, *listed]:
        if path not in listed or listed[path] != results.get(path):
            found = listed.get(path)
            wanted = "what results has" if path in results else "in results"
            raise _wrong(f"margins: {path}", found, wanted)
    if len(listed) != len(rows):
        raise _wrong("margins", "a path that stands twice", "a list with each path once")


def _judged(row: dict[str, Any]) -> dict[str, Any]:
    """Leave a requirement that rests on an unknown result its status alone."""
    if row["status"] not in _STANDINGS:
        raise _wrong(f"requirement {row['id']}: status", row["status"], "met, not met or open")
    if row["decided_by"] is not None and row["decided_by"] not in schema.results():
        return row | {"decided_by": None, "value": None}
    return row


def _propellant(content: Mapping[str, Any]) -> dict[str, list[dict[str, Any]]]:
    found = _object(content.get("propellant_lines", {}), "propellant_lines")
    return {when: _rows(found, when, MassLine) for when in ("at_ignition", "at_burnout")}


#: What a rule set need not say.
_MAY_LACK = ("scope", "hold", "burst_basis")


def _pair(
    content: Mapping[str, Any], key: str, names: Iterable[str], given: Mapping[str, float]
) -> dict[str, str | None] | None:
    """Return a group of texts; it is printed with the tank's pressures and left without them."""
    found = content.get(key)
    if found is None or any(f"pressures.{x}" not in given for x in ("meop", "proof", "burst")):
        return None
    group = _object(found, key)
    return {name: group.get(name) if name in _MAY_LACK else _text(group, name) for name in names}


def _bands(content: Mapping[str, Any]) -> dict[str, Any]:
    rows = _rows(content, "bands", Band)
    together = content.get("band_together", [0.0, 0.0])
    for where, pair in [
        ("band_together", together),
        *(
            (f"bands: {row['model']}: {key}", row[key])
            for row in rows
            for key in ("span", "change")
        ),
    ]:
        if not isinstance(pair, list) or len(pair) != 2:
            raise _wrong(where, pair, "a pair of numbers")
        for value in pair:
            _number(value, where)
    for row in rows:
        if not row["basis"]:
            raise _wrong(f"bands: {row['model']}: basis", None, "a text")
    return {"bands": rows, "band_together": together, "band_bias": _text(content, "band_bias")}
