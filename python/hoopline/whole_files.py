"""Several files written as one: all of them, or none."""

import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from hoopline.errors import DataError


def write_whole(folder: Path, fill: Callable[[Path], list[str]]) -> list[Path]:
    """Let `fill` write files into a folder beside, then move them to their place.

    Parameters
    ----------
    folder
        Where they go; made if it is not there.
    fill
        Writes into the folder it is given and returns the names. If it fails, nothing is left and
        files of the same names in `folder` stay as they were.

    Raises
    ------
    DataError
        The folder cannot be made or written, or a folder stands where a file belongs.
    """
    there = folder.exists()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".hoopline-", dir=folder) as waiting:
            names = fill(Path(waiting))
            for name in names:
                if (folder / name).is_dir():
                    raise DataError(f"{folder / name}: a folder is in the way of the file")
            for name in names:
                (Path(waiting) / name).replace(folder / name)
    except BaseException as error:
        if not there:
            with suppress(OSError):  # another program may have put something there
                folder.rmdir()
        if isinstance(error, OSError):
            raise DataError(f"{folder}: {(error.strerror or str(error)).lower()}") from error
        raise
    return [folder / name for name in names]
