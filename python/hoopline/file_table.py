"""What a study or a catalogue file may hold, as a table: name, kind, limits, required, meaning."""

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

from hoopline import _core
from hoopline.file_schema import json_schema
from hoopline.schema import document
from hoopline.text_table import text_table


@dataclass(frozen=True, slots=True)
class Name:
    """One name of a table of a file.

    Attributes
    ----------
    table
        The table it stands in, as written in the file; empty for the top.
    name
        The name.
    kind
        Quantity of a number; empty where the meaning says it all.
    limits
        Limits of a number, with unit.
    required
        "yes" or "no"; "either" where the table asks for one of several.
    doc
        What it is.
    """

    table: str
    name: str
    kind: str
    limits: str
    required: str
    doc: str


def file_table(of: str) -> tuple[Name, ...]:
    """Return the names of a file, "study" or "catalogue", table by table.

    Examples
    --------
    >>> names = file_table("catalogue")
    >>> [name.name for name in names if (name.table, name.required) == ("[[sheet]]", "yes")]
    ['name', 'source', 'thickness']
    """
    return tuple(_catalogue() if of == "catalogue" else _study())


def as_text(names: tuple[Name, ...]) -> str:
    """Return the table, one name to a line."""
    header = ("table", "name", "kind", "limits", "required", "meaning")
    rows = [(one.table, one.name, one.kind, one.limits, one.required, one.doc) for one in names]
    return "\n".join([*text_table([header, *rows]), *_ways(names)])


def as_json(names: tuple[Name, ...]) -> str:
    """Return the names as JSON text."""
    return json.dumps([asdict(one) for one in names], indent=2, ensure_ascii=False)


def _ways(names: tuple[Name, ...]) -> Iterator[str]:
    """Say between what there is a choice, once per table."""
    tables = dict.fromkeys(one.table for one in names if one.required == "either")
    for table in tables:
        yield f"either, {table or 'at the top'}: {_either(_entries()[table])}"


def _either(entry: dict[str, Any]) -> str:
    return " or ".join(" and ".join(way["required"]) for way in _choices(entry))


def _choices(entry: dict[str, Any]) -> list[dict[str, Any]]:
    choices: list[dict[str, Any]] = [*entry.get("oneOf", ()), *entry.get("anyOf", ())]
    return choices


def _required(entry: dict[str, Any], name: str) -> str:
    if name in entry["required"]:
        return "yes"
    return "either" if any(name in way["required"] for way in _choices(entry)) else "no"


def _catalogue() -> Iterator[Name]:
    lists: dict[str, Any] = json_schema("catalogue")["properties"]
    yield Name("", "schema", "", "", "yes", lists["schema"]["description"])
    for kind in document()["kinds"]:
        entry = lists[kind["word"]]["items"]
        fields = {field["path"]: field for field in kind["fields"]}
        for name, value in entry["properties"].items():
            quantity, limits, doc = "text", "", value["description"]
            if name in fields:
                field = fields[name]
                quantity, doc = field["quantity"], field["doc"]
                limits = " to ".join(_core.show(field[end], quantity) for end in ("lower", "upper"))
            required = _required(entry, name)
            yield Name(f"[[{kind['word']}]]", name, quantity, limits, required, doc)


def _study() -> Iterator[Name]:
    entries = _entries()
    for (shown, entry), table in zip(entries.items(), document()["study"], strict=True):
        for row in table["names"]:
            name = row["path"]
            yield Name(shown, name, "", "", _required(entry, name), row["doc"])


def _entries() -> dict[str, dict[str, Any]]:
    """Return the schema of each table of a study by how it is written, in the reader's order."""
    top = json_schema("study")
    sweep, optimise = (top["properties"][one]["items"] for one in ("sweep", "optimise"))
    vary, held = (optimise["properties"][one]["items"] for one in ("vary", "subject_to"))
    return {
        "": top,
        "[[sweep]]": sweep,
        "[[optimise]]": optimise,
        "[[sweep.vary]] and [[optimise.vary]]": vary,
        "[[optimise.subject_to]]": held,
    }
