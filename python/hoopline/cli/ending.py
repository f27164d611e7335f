"""How a command ends: its exit codes, and refusals without a traceback."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import IO, Any

import click

from hoopline.errors import HooplineError
from hoopline.file_names import in_words

NOT_MET = 1
REFUSED = 2
INTERRUPTED = 130


class Refusal(click.ClickException):
    """An error of ours, printed without a traceback, in colour where the terminal takes it."""

    exit_code = REFUSED

    def __init__(self, message: str, coloured: str = "") -> None:
        super().__init__(message)
        self.coloured = coloured or message

    def show(self, file: IO[Any] | None = None) -> None:
        """Print the message to standard error, or to the file given."""
        from hoopline.cli.terminal import takes_colour

        stream = file or sys.stderr
        text = self.coloured if takes_colour(stream) else self.message
        click.echo(f"Error: {text}", file=stream)


@contextmanager
def refusing() -> Iterator[None]:
    """Turn what the library or the system refuses into one message and exit code 2."""
    try:
        yield
        sys.stdout.flush()
    except HooplineError as error:
        raise Refusal(str(error), error.coloured) from error
    except BrokenPipeError:
        # The reader has gone, as `head` does.
        _drop_output()
        raise SystemExit(0) from None
    except OSError as error:
        _drop_output()
        raise Refusal(in_words(error)) from error


def _drop_output() -> None:
    """See that what is still buffered does not fail once more when the interpreter ends."""
    try:
        sys.stdout.flush()
    except OSError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def judged(*, met: bool) -> None:
    """End with the code that says whether all margins and requirements are met."""
    if not met:
        raise SystemExit(NOT_MET)
