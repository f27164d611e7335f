"""What a command prints: styled in a terminal, plain when piped, progress on standard error."""

import json
import os
import re
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any

import click

_HEADING = re.compile(r"^\S.*$")
_UNDERLINE = re.compile(r"^=+$")
_VERDICT = re.compile(r"NOT all margins are met|NOT met|NOT MET|GOVERNS")
# Control characters but tab and line feed: a terminal obeys them, and a name may hold some.
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]")
_NUMBER_IN_THE_RED = re.compile(r"(?<=\s)-\d+\.\d+(?=\s|$)")


def takes_colour(stream: IO[Any] | None = None) -> bool:
    """Whether a stream, standard output unless another is named, is a terminal that takes colour.

    Where the variable NO_COLOR is set to anything, or the terminal calls itself dumb, it does not.
    """
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return not plain and (stream or sys.stdout).isatty()


def show(text: str, *, as_json: bool = False) -> None:
    """Print text to standard output; in a terminal headings and verdicts stand out."""
    text = _CONTROL.sub("\N{REPLACEMENT CHARACTER}", text)
    styled = not as_json and sys.stdout.isatty()
    click.echo(_styled(text) if styled else text)


def show_written(paths: Iterable[Path], *, as_json: bool) -> None:
    """Print the paths of the files written, one to a line."""
    names = [str(path) for path in paths]
    text = json.dumps({"written": names}, indent=2, ensure_ascii=False)
    show(text if as_json else "\n".join(names), as_json=as_json)


def _styled(text: str) -> str:
    lines = text.split("\n")
    for index, line in enumerate(lines):
        before = lines[index - 1] if index else ""
        if (_HEADING.match(line) and not before.strip()) or _UNDERLINE.match(line):
            lines[index] = click.style(line, bold=True)
        else:
            marked = _VERDICT.sub(lambda found: click.style(found[0], bold=True), line)
            lines[index] = _NUMBER_IN_THE_RED.sub(
                lambda found: click.style(found[0], reverse=True), marked
            )
    return "\n".join(lines)


@contextmanager
def progress(label: str) -> Iterator[Callable[[int, int], None]]:
    """Yield a callback (done, total) that draws a bar where a person is watching.

    Nothing is drawn for calls that end within a second, nor where standard error is no terminal.
    """
    if not sys.stderr.isatty():
        yield lambda _done, _total: None
        return
    try:
        from rich import progress as bars
        from rich.console import Console
    except ImportError:  # an extra; the work goes on without a bar
        yield lambda _done, _total: None
        return
    begun = time.monotonic()
    bar = bars.Progress(
        bars.TextColumn("{task.description}"),
        bars.BarColumn(),
        bars.MofNCompleteColumn(),
        bars.TimeRemainingColumn(),
        console=Console(stderr=True),
        transient=True,
    )
    task = bar.add_task(label, total=None)
    shown = False

    def tell(done: int, total: int) -> None:
        nonlocal shown
        if not shown and time.monotonic() - begun > 1.0:
            bar.start()
            shown = True
        bar.update(task, completed=done, total=total)

    try:
        yield tell
    finally:
        if shown:
            bar.stop()
