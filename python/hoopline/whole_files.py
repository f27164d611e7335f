"""Several files written as one: all of them, or none."""

import os
import shutil
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from hoopline.errors import DataError
from hoopline.file_names import in_words


def write_whole(folder: Path, fill: Callable[[Path], list[str]]) -> list[Path]:
    """Let `fill` write files into a folder beside, then move them to their place.

    All files are written before the first is moved, and what stood in their place is kept until the
    last one is there. Moving is a short loop of renames within one file system; if it stops, by
    Ctrl-C too, what was moved is taken back. Only a process that is killed, or a machine that
    stops, within that loop can leave files of two exports side by side; then a folder
    `.hoopline-...` that is left beside them holds the others.

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
        The folder cannot be made or written, or a folder stands where a file belongs. The message
        names the file and says what to do.
    """
    made: list[Path] = []
    try:
        made = _missing(folder)
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".hoopline-", dir=folder) as beside:
            new, old = Path(beside) / "new", Path(beside) / "old"
            new.mkdir()
            old.mkdir()
            names = fill(new)
            for name in names:
                if (folder / name).is_dir():
                    raise DataError(
                        f"{folder / name}: a folder is in the way of the file; move it or name "
                        "another folder"
                    )
            for name in names:
                _keep(folder / name, old / name)
            _move(folder, names, new, old)
    except BaseException as error:
        for one in made:
            with suppress(OSError):  # another program may have put something there
                one.rmdir()
        if isinstance(error, OSError):
            raise DataError(in_words(error, _named(error, folder))) from error
        raise
    return [folder / name for name in names]


def _move(folder: Path, names: list[str], new: Path, old: Path) -> None:
    try:
        for name in names:
            (new / name).replace(folder / name)
    except BaseException:
        for name in names:
            if (new / name).exists():
                continue  # not moved
            if (old / name).exists():
                (old / name).replace(folder / name)
            else:
                (folder / name).unlink(missing_ok=True)
        raise


def _keep(file: Path, kept: Path) -> None:
    """Give a file that is there a second name, or copy it where the file system has no such."""
    if not file.exists():
        return
    try:
        os.link(file, kept)
    except OSError:
        shutil.copy2(file, kept)


def _missing(folder: Path) -> list[Path]:
    """Return the folders that would be made, the innermost first."""
    missing = []
    for one in (folder, *folder.parents):
        if one.exists():
            break
        missing.append(one)
    return missing


def _named(error: OSError, folder: Path) -> Path:
    """Return the file meant: that in `folder`, not its like in the folder beside."""
    if error.filename is None:
        return folder
    file = Path(os.fsdecode(error.filename))
    beside = any(part.startswith(".hoopline-") for part in file.parts)
    if not beside:
        return file
    return folder if file.name.startswith(".hoopline-") else folder / file.name
