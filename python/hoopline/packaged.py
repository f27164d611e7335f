"""The example stages and studies that come with the package."""

from pathlib import Path

from hoopline.errors import InputError
from hoopline.file_names import given_path
from hoopline.schema import nearest, quoted

_FOLDER = Path(__file__).parent / "examples"


def example(name: str) -> Path:
    """Return the path of an example, such as "petrel_slim" or "published/v2_textbook".

    "workshop_stock" is the catalogue of one of them, "petrel_stock".

    >>> example("petrel_slim").name
    'petrel_slim.toml'
    """
    text = given_path("name", name).as_posix()
    found = _FOLDER.rglob("*.toml")
    known = sorted(file.relative_to(_FOLDER).with_suffix("").as_posix() for file in found)
    if text not in known:
        near = nearest(text, known)
        raise InputError(f"no example {quoted(text)}{near}; there are {', '.join(known)}")
    return _FOLDER / f"{text}.toml"
