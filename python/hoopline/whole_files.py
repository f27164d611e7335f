"""Several files written as one: all of them, or none."""

import tempfile
from collections.abc import Callable
from pathlib import Path


def write_whole(folder: Path, fill: Callable[[Path], list[str]]) -> list[Path]:
    """Let `fill` write files into a folder beside, then move them to their place.

    Parameters
    ----------
    folder
        Where they go; made if it is not there.
    fill
        Writes into the folder it is given and returns the names. If it fails, nothing is left and
        files of the same names in `folder` stay as they were.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=".hoopline-", dir=folder) as waiting:
        names = fill(Path(waiting))
        for name in names:
            (Path(waiting) / name).replace(folder / name)
    return [folder / name for name in names]
