"""Paths as a user gives them, and in words what the system says about them."""

import errno
import os
from pathlib import Path

from hoopline.errors import InputError, kind_of

_ADVICE = {
    errno.ENOENT: "check its name and the folder it is in",
    errno.EACCES: "change its permissions or name another folder",
    errno.EPERM: "change its permissions or name another folder",
    errno.EROFS: "name a folder that can be written",
    errno.ENOSPC: "make room on the disk or name a folder on another one",
    errno.EDQUOT: "make room on the disk or name a folder on another one",
    errno.EFBIG: "make room on the disk or name a folder on another one",
    errno.EEXIST: "name another folder",
    errno.ENOTDIR: "name another folder",
    errno.EISDIR: "name a file in it",
    errno.ENAMETOOLONG: "give it a shorter name",
    errno.EMFILE: "close other programs",
}


def given_path(parameter: str, path: str | os.PathLike[str]) -> Path:
    """Return a path given as text or as an object that is one.

    Parameters
    ----------
    parameter
        Name of the parameter, for messages.
    path
        The path as given.

    Raises
    ------
    InputError
        It is neither text nor a path, is empty, or holds what no path of the system can. The
        message names the parameter.

    Examples
    --------
    >>> given_path("folder", "tables").name
    'tables'
    >>> given_path("folder", 3)
    Traceback (most recent call last):
    hoopline.errors.InputError: folder = 3 is an int; give text or a pathlib.Path
    """
    text = os.fspath(path) if isinstance(path, os.PathLike) else path
    if not isinstance(text, str):
        shown = repr(text)[:80]
        raise InputError(f"{parameter} = {shown} is {kind_of(text)}; give text or a pathlib.Path")
    if not text:
        raise InputError(f"{parameter} is empty; name a file or a folder")
    if "\0" in text:
        shown = repr(text)[:80]
        raise InputError(f"{parameter} = {shown} holds a zero byte; no path can, leave it out")
    try:
        os.fsencode(text)
    except UnicodeEncodeError:
        shown = ascii(text)[:80]
        raise InputError(
            f"{parameter} = {shown} holds half a letter; no path can, leave it out"
        ) from None
    return Path(text)


def in_words(error: OSError, path: str | os.PathLike[str] | None = None) -> str:
    """Return what the system says about a file, which file, and what to do about it.

    Parameters
    ----------
    error
        What the system raised.
    path
        The file or folder to name; without one the error's own, if it has one.

    Examples
    --------
    >>> in_words(OSError(28, "No space left on device"), "tables")
    'tables: no space left on device; make room on the disk or name a folder on another one'
    """
    named = error.filename if path is None else path
    said = error.strerror or str(error)
    advice = _ADVICE.get(error.errno or 0)
    parts = said if advice is None else f"{said}; {advice}"
    return parts if named is None else f"{os.fsdecode(named)}: {parts[:1].lower()}{parts[1:]}"
