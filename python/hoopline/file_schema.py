"""JSON Schema of the files hoopline reads, made from the tables that read them."""

import re
from collections.abc import Callable, Iterable
from typing import Any

from hoopline import _core
from hoopline.errors import InputError
from hoopline.schema import document, nearest

Schema = dict[str, Any]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_NUMBER = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_WRITTEN = {"type": "string", "pattern": r"\S"}


def json_schema(of: str = "stage") -> Schema:
    """Return the JSON Schema (2020-12) of a file hoopline reads.

    It describes the file after it was read as TOML: an editor that knows JSON Schema completes
    names and marks mistakes while the file is written. What depends on other values, such as which
    inputs a choice asks for, and the limits of numbers with a unit, stands in the descriptions and
    is judged by `hoopline check`.

    Parameters
    ----------
    of
        "stage", "study" or "catalogue".

    Returns
    -------
    dict
        The schema, ready for `json.dumps`.

    Raises
    ------
    InputError
        There is no such file.

    Examples
    --------
    >>> import hoopline as hl
    >>> tank = hl.json_schema()["properties"]["tank"]["properties"]
    >>> tank["volume"]
    {'$ref': '#/$defs/volume', 'description': 'Inside volume between the closures. 0.01 L to 100000 L.'}
    >>> hl.json_schema("catalogue")["required"]
    ['schema']
    """  # noqa: E501 (what is printed does not wrap)
    if of not in FILES:
        raise InputError(
            f'no schema of "{of}"{nearest(str(of), FILES)}; there are {", ".join(FILES)}'
        )
    return FILES[of]()


def _stage() -> Schema:
    """Every path of a stage file, nested as it stands there."""
    known = document()
    root: Schema = {}
    for field in known["inputs"]:
        _place(root, field["path"], _number(field))
    for choice in known["choices"]:
        _place(root, choice["path"], _choice(choice), required=choice["default"] is None)
    for text in known["texts"]:
        _place(root, text["path"], {"type": "string", "description": text["doc"]})
    for listed in known["listed"]:
        _place(root, listed["path"], _listed(listed))
    for other in known["others"]:
        _place(root, other["path"], {**_OTHERS[other["path"]], "description": other["doc"]})
    for entries in known["lists"]:
        entry = _find(root, entries["path"])
        entry["description"] = entries["doc"]
    _requirement(_find(root, "requirement")["items"])
    return _file("stage", root, {"rows": _rows()})


def _catalogue() -> Schema:
    """Give every kind of row a list."""
    return _file("catalogue", _rows(), {})


def _study() -> Schema:
    """Every table of a study file under the list it stands in."""
    tables = {table["path"]: table for table in document()["study"]}
    value: Schema = {"type": ["number", "string"]}
    whole: Schema = {"type": "integer", "minimum": 2}
    paths: Schema = {"enum": [field["path"] for field in document()["results"]]}
    texts = ("stage", "name", "description", "path")
    body: dict[str, Schema] = {
        **dict.fromkeys(texts, _WRITTEN),
        **dict.fromkeys(("minimise", "maximise"), paths),
        **dict.fromkeys(("from", "to", "at_least", "at_most"), value),
        "count": whole,
        "scan": {"type": "integer", "minimum": 3},
        "schema": {"const": 1},
        "values": {"type": "array", "items": value, "minItems": 1},
        "results": {"type": "array", "items": paths},
        "response": {"enum": ["margins", *paths["enum"]]},
    }
    required = {
        "": ["stage"],
        "sweep": ["name", "vary"],
        "optimise": ["name", "vary"],
        "vary": ["path"],
        "subject_to": ["response"],
    }
    one_of = {
        "optimise": [{"required": ["minimise"]}, {"required": ["maximise"]}],
        "vary": [{"required": ["values"]}, {"required": ["from", "to"]}],
    }
    any_of = {"subject_to": [{"required": ["at_least"]}, {"required": ["at_most"]}]}

    def entry(path: str) -> Schema:
        names = {row["path"]: row["doc"] for row in tables[path]["names"]}
        schema: Schema = {
            "type": "object",
            "properties": {name: _named(name, doc) for name, doc in names.items()},
            "required": required[path],
            "additionalProperties": False,
        }
        schema |= {"oneOf": one_of[path]} if path in one_of else {}
        return schema | ({"anyOf": any_of[path]} if path in any_of else {})

    def _named(name: str, doc: str) -> Schema:
        if name in tables:
            return {"type": "array", "items": entry(name), "minItems": 1, "description": doc}
        return {**body[name], "description": doc}

    top = entry("")
    top["anyOf"] = [{"required": [kind]} for kind in ("sweep", "optimise")]
    top["required"] = ["schema", *required[""]]
    return _file("study", top, {})


# Every file that has a schema; one more is one more entry.
FILES: dict[str, Callable[[], Schema]] = {
    "stage": _stage, "study": _study, "catalogue": _catalogue,
}  # fmt: skip


def _file(name: str, body: Schema, more: Schema) -> Schema:
    properties = {"schema": {"const": 1, "description": "number of this form of the file"}}
    quantities = {_key(name): _quantity(name) for name in document()["quantities"]}
    return {
        "$schema": _DIALECT,
        "title": f"Hoopline {name} file",
        "type": "object",
        "required": ["schema"],
        **body,
        "properties": {**properties, **body["properties"]},
        "additionalProperties": False,
        "$defs": {**quantities, **more},
    }


def _key(quantity: str) -> str:
    return quantity.replace(" ", "_")


def _units(quantity: str) -> list[str]:
    return list(dict.fromkeys(document()["quantities"][quantity]))


def _quantity(name: str) -> Schema:
    """Text of a number and one of the units of its quantity."""
    units = _units(name)
    signs = [sign for sign, unit in document()["other_signs"] if unit in units]
    patterns = [r"\s+".join(map(_literal, unit.split())) for unit in [*units, *signs] if unit]
    optional = "?" if "" in units else ""
    shown = ", ".join(filter(None, units))
    return {
        "type": "string",
        "pattern": rf"^\s*{_NUMBER}\s*(?:{'|'.join(patterns)}){optional}\s*$",
        "description": f"{name} in {shown}" + (", or a bare number" if optional else ""),
    }


def _literal(symbol: str) -> str:
    return re.sub(r"([.^$*+?()[\]{}|\\])", r"\\\1", symbol)


def _number(field: dict[str, Any]) -> Schema:
    """One number: its quantity, its limits in words, and in numbers where it may stand bare."""
    quantity, lower, upper = field["quantity"], field["lower"], field["upper"]
    limits = f"{_core.show(lower, quantity)} to {_core.show(upper, quantity)}"
    description = f"{field['doc']} {limits}."
    text: Schema = {"$ref": f"#/$defs/{_key(quantity)}"}
    if "" not in _units(quantity):
        return {**text, "description": description}
    bare = {"type": "number", "minimum": lower, "maximum": upper}
    return {"anyOf": [text, bare], "description": description}


def _choice(choice: dict[str, Any]) -> Schema:
    words = [option["word"] for option in choice["options"]]
    meanings = " ".join(f"{option['word']}: {option['doc']}" for option in choice["options"])
    schema: Schema = {"enum": words, "description": f"{choice['doc']}. {meanings}"}
    if choice["default"] is not None:
        schema["default"] = choice["default"]
    return schema


def _listed(listed: dict[str, Any]) -> Schema:
    return {"type": ["number", "string"], "description": listed["doc"]}


def _pairs() -> Schema:
    pair = {"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 2}
    options = ({"file": {"type": "string"}}, {"rows": {"type": "array", "items": pair}})
    return {
        "oneOf": [
            {
                "type": "object", "properties": option, "required": list(option),
                "additionalProperties": False,
            }
            for option in options
        ]
    }  # fmt: skip


_NAMES = {"type": "array", "items": _WRITTEN, "minItems": 1, "uniqueItems": True}
_OTHERS: dict[str, Schema] = {
    "schema": {"const": 1},
    "catalogue": {"anyOf": [_WRITTEN, _NAMES, {"$ref": "#/$defs/rows"}]},
    "fins.count": {"enum": [3, 4]},
    "tank.overwrap.plies": {"type": "integer", "minimum": 0, "maximum": 8},
    "motor.curve": _pairs(),
    "drag.table": _pairs(),
}


def _rows() -> Schema:
    """Give the lists of a catalogue, without the number of its form."""
    lists = {kind["word"]: _list_of(kind) for kind in document()["kinds"]}
    return {"type": "object", "properties": lists, "additionalProperties": False}


def _list_of(kind: dict[str, Any]) -> Schema:
    texts = {
        "name": {**_WRITTEN, "description": "name to put into a stage file"},
        "source": {**_WRITTEN, "description": "where the values were printed"},
    }
    if kind["of_metal"]:
        texts["metal"] = {**_WRITTEN, "description": "name of the metal it is of"}
    for text in kind["may_say"]:
        words = {"enum": text["words"]} if text["words"] else _WRITTEN
        texts[text["key"]] = {**words, "description": text["doc"]}
    values = {field["path"]: _sourced(field) for field in kind["fields"]}
    return {
        "type": "array",
        "description": kind["doc"],
        "items": {
            "type": "object",
            "properties": {**texts, **values},
            "required": ["name", "source", *kind["required"]],
            "additionalProperties": False,
        },
    }


def _sourced(field: dict[str, Any]) -> Schema:
    number = _number(field)
    description = number.pop("description")
    own = {
        "type": "object",
        "properties": {"value": number, "source": _WRITTEN},
        "required": ["value", "source"],
        "additionalProperties": False,
    }
    return {"anyOf": [number, own], "description": description}


def _requirement(entry: Schema) -> None:
    """Say what a requirement must have, which no table of numbers holds."""
    entry["properties"]["method"]["enum"] = document()["methods"]
    for key in ("id", "text"):
        entry["properties"][key] |= _WRITTEN
    entry["required"] = ["id", "text", "method"]
    limits: Iterable[str] = ("at_least", "at_most")
    entry["dependentRequired"] = {limit: ["response"] for limit in limits}
    entry["dependentSchemas"] = {
        "response": {"anyOf": [{"required": [limit]} for limit in limits]},
    }


def _place(root: Schema, path: str, schema: Schema, *, required: bool = False) -> None:
    """Put the schema of a path into the tables and lists it stands in."""
    table, places = root, path.split(".")
    table.setdefault("properties", {})
    for name in places[:-1]:
        table = _table(table, name)
    table["properties"][places[-1]] = schema
    if required and "[" in path:
        table.setdefault("required", []).append(places[-1])


def _table(parent: Schema, name: str) -> Schema:
    """Return the table of a name, or one entry of the list "name[2]", made if it is not there."""
    plain, _, index = name.partition("[")
    empty = {
        "type": "object", "properties": {}, "additionalProperties": False, "minProperties": 1,
    }  # fmt: skip
    if not index:
        found: Schema = parent["properties"].setdefault(plain, empty)
        return found
    entries = parent["properties"].setdefault(plain, {"type": "array", "items": empty})
    number = index.rstrip("]")
    if number:
        # A list of numbers of the table is as long as the table says.
        entries["maxItems"] = max(entries.get("maxItems", 0), int(number) + 1)
    table: Schema = entries["items"]
    return table


def _find(root: Schema, path: str) -> Schema:
    found = root
    for name in path.split("."):
        found = found["properties"][name]
    return found
