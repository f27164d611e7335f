"""The example stages and studies that come with the package."""

import os
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hoopline.errors import DataError, InputError
from hoopline.file_names import given_path, in_words
from hoopline.schema import nearest, quoted

_FOLDER = Path(__file__).parent / "examples"


def example(name: str) -> Path:
    """Return the path of an example, such as "petrel_slim" or "published/v2_textbook".

    "workshop_stock" is the catalogue of one of them, "petrel_stock".

    >>> example("petrel_slim").name
    'petrel_slim.toml'
    """
    text = given_path("name", name).as_posix()
    known = _names()
    if text not in known:
        near = nearest(text, known)
        raise InputError(f"no example {quoted(text)}{near}; there are {', '.join(known)}")
    return _FOLDER / f"{text}.toml"


def examples() -> dict[str, str]:
    """Return what each example is, by its name.

    >>> examples()["petrel_slim"]
    'Metal liner under helical and hoop plies, wound over two hemispheres'
    """
    return {name: _description(example(name)) for name in _names()}


def copy_example(name: str, into: str | os.PathLike[str]) -> tuple[Path, ...]:
    """Write a copy of an example, and beside it those files it names that are not there.

    Returns
    -------
    tuple
        The files written, the copy first.

    Raises
    ------
    InputError
        There is no such example, or the file is there already.
    DataError
        A file cannot be written.
    """
    original, file = example(name), given_path("into", into)
    beside = {file.parent / one: original.parent / one for one in _named_in(original)}
    if file in beside:
        raise InputError(f"{name} names a file {file.name} beside it; give the copy another name")
    absent = {copy: source for copy, source in beside.items() if not copy.exists()}
    written: list[Path] = []
    try:
        for copy, source in {file: original, **absent}.items():
            content = source.read_bytes()
            with copy.open("xb") as stream:
                written.append(copy)
                stream.write(content)
    except BaseException as error:
        for one in written:
            one.unlink(missing_ok=True)
        if isinstance(error, FileExistsError):
            raise InputError(f"{file} is there already; name another file, or move it") from None
        if isinstance(error, OSError):
            raise DataError(in_words(error)) from error
        raise
    return tuple(written)


def _named_in(file: Path) -> list[str]:
    """Return the files beside an example that it names, and those that these name."""
    content = tomllib.loads(file.read_text(encoding="utf-8"))
    names = [text for text in _texts(content) if (file.parent / text).is_file()]
    inner = [_named_in(file.parent / name) for name in names if name.endswith(".toml")]
    return list(dict.fromkeys([*names, *(one for names in inner for one in names)]))


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from _texts(inner)


def _names() -> list[str]:
    found = _FOLDER.rglob("*.toml")
    return sorted(file.relative_to(_FOLDER).with_suffix("").as_posix() for file in found)


def _description(file: Path) -> str:
    """Return the description of a file; a catalogue has none, and is told by its rows."""
    content = tomllib.loads(file.read_text(encoding="utf-8"))
    lists = ", ".join(f"{len(rows)} {kind}" for kind, rows in content.items() if kind != "schema")
    return str(content["description"]) if "description" in content else f"Catalogue: {lists}"
