"""The example stages that come with the package."""

from pathlib import Path

from hoopline.errors import InputError
from hoopline.schema import nearest

_FOLDER = Path(__file__).parent / "examples"


def example(name: str) -> Path:
    """Return the path of an example stage, such as "petrel_slim" or "published/v2_textbook".

    "workshop_stock" is the catalogue of one of them, "petrel_stock".

    >>> example("petrel_slim").name
    'petrel_slim.toml'
    """
    path = _FOLDER / f"{name}.toml"
    if not path.is_file():
        found = _FOLDER.rglob("*.toml")
        known = sorted(file.relative_to(_FOLDER).with_suffix("").as_posix() for file in found)
        raise InputError(f'no example "{name}"{nearest(name, known)}; there are {", ".join(known)}')
    return path
