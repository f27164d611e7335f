"""The report: one self-contained page for a design review."""

import os
import tempfile
from pathlib import Path

from hoopline.errors import DataError, HooplineError
from hoopline.file_names import given_path, in_words
from hoopline.reporting import breaks
from hoopline.reporting.content import content
from hoopline.stage import Stage

_HERE = Path(__file__).parent


def report(stage: Stage, path: str | os.PathLike[str]) -> Path:
    """Write a stage's report as one HTML page, without scripts and without outside references.

    Parameters
    ----------
    stage
        The stage to report on.
    path
        The file to write; it appears whole or not at all.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    InputError
        The stage cannot be assessed; the message says what to change.
    DataError
        The page cannot be written.
    HooplineError
        The packages of the extra `report` are not installed.

    Examples
    --------
    >>> import hoopline as hl, tempfile
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     hl.report(stage, f"{folder}/petrel.html").name
    'petrel.html'
    """
    target = given_path("path", path)
    try:
        from jinja2 import Environment, FileSystemLoader, StrictUndefined
    except ImportError as error:
        raise HooplineError('the report needs jinja2: pip install "hoopline[report]"') from error
    environment = Environment(
        loader=FileSystemLoader(_HERE), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
    environment.filters.update(path=breaks.path, own=breaks.own, limits=breaks.limits)
    environment.globals.update(SHORT=breaks.SHORT)
    style = (_HERE / "style.css").read_text(encoding="utf-8")
    page = environment.get_template("page.html.jinja").render(style=style, **content(stage))
    _write(target, page)
    return target


def _write(target: Path, page: str) -> None:
    waiting = None
    try:
        handle, waiting = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name[:40]}.")
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(page)
        Path(waiting).chmod(0o644)
        Path(waiting).replace(target)
    except BaseException as error:
        if waiting is not None:
            Path(waiting).unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise DataError(in_words(error, target)) from error
        raise
